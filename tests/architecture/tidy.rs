//! What every file must look like, from its length to what it may not mention.
//!
//! Layout is rustfmt's and style clippy's; here is only what neither sees.

use crate::assert_none;
use crate::files::{TextFile, texts};
use crate::tokens::named;

const LINES_MOST: usize = 600;
const MODULE_COMMENT_LINES_LEAST: usize = 1;

/// Files that a person wrote to be run or compiled.
const SOURCE: [&str; 9] = ["css", "js", "kt", "kts", "py", "rs", "sh", "sql", "swift"];

/// Marks of work not done. Parted here, or this file would be found.
const UNDONE: [(&str, &str); 4] = [
    ("FIX", "ME"),
    ("TO", "DO:"),
    ("XX", "X:"),
    ("``", "`ignore"),
];

/// Starts of paths that exist on one machine only.
const MACHINE_PATHS: [(&str, &str); 5] = [
    ("/wo", "rk/"),
    ("/ro", "ot/"),
    ("/ho", "me/"),
    ("/tm", "p/"),
    ("/Us", "ers/"),
];

/// Hosts that packages come from: each machine has its own, set up outside the repository.
const REGISTRY_HOSTS: [(&str, &str); 9] = [
    ("artif", "actory"),
    ("deb.deb", "ian.org"),
    ("index.crates", ".io"),
    ("static.crates", ".io"),
    ("files.python", "hosted.org"),
    ("proxy.gol", "ang.org"),
    ("registry.npm", "js.org"),
    ("repo.maven.apa", "che.org"),
    ("repo1.mav", "en.org"),
];

fn too_long(file: &TextFile) -> Vec<String> {
    let lines = file.text.lines().count();
    let is_source = file.is_a(&SOURCE) || file.text.starts_with("#!");
    let found = is_source && lines > LINES_MOST;
    found
        .then(|| format!("{}: {lines} lines, at most {LINES_MOST}", file.path))
        .into_iter()
        .collect()
}

fn no_module_comment(file: &TextFile) -> Vec<String> {
    let comment = file.text.lines().map_while(|line| line.strip_prefix("//!"));
    let lines = comment.filter(|words| !words.trim().is_empty()).count();
    let found = file.is_a(&["rs"]) && lines < MODULE_COMMENT_LINES_LEAST;
    let tell = || {
        format!(
            "{}: {lines} lines of module comment, at least {MODULE_COMMENT_LINES_LEAST}: \
             what lives here, and what does not",
            file.path
        )
    };
    found.then(tell).into_iter().collect()
}

fn unfinished_code(file: &TextFile) -> Vec<String> {
    if !file.is_a(&["rs"]) {
        return Vec::new();
    }
    let found = match named(&file.text) {
        Ok(found) => found,
        Err(error) => return vec![format!("{}: {error}", file.path)],
    };
    let is_stub = |last: &str| ["todo", "unimplemented"].contains(&last);
    let mut findings = Vec::new();
    for name in &found {
        let last = name.segments.last().map_or("", String::as_str);
        if name.is_macro && is_stub(last) {
            findings.push(format!("{}:{}: {last}!", file.path, name.line));
        }
    }
    findings.extend(skipped_tests(file));
    findings
}

/// Tests that are not run, where the attribute stands on one line, as rustfmt puts it.
fn skipped_tests(file: &TextFile) -> Vec<String> {
    let skips = |line: &str| {
        let line = line.trim_start();
        line.starts_with("#[ignore")
            || (line.starts_with("#[cfg_attr(") && line.contains(" ignore"))
    };
    numbered(file)
        .filter(|(_, line)| skips(line))
        .map(|(at, _)| format!("{at}: ignored"))
        .collect()
}

fn mentions(file: &TextFile) -> Vec<String> {
    if file.path == "Cargo.lock" {
        return Vec::new();
    }
    let joined = |parts: &[(&str, &str)]| -> Vec<String> {
        parts
            .iter()
            .map(|(start, end)| format!("{start}{end}"))
            .collect()
    };
    let anywhere = [joined(&UNDONE), joined(&REGISTRY_HOSTS)].concat();
    let machine = joined(&MACHINE_PATHS);
    let mut findings = Vec::new();
    for (at, line) in numbered(file) {
        let words = anywhere.iter().filter(|word| line.contains(word.as_str()));
        let paths = machine.iter().filter(|path| starts_a_path(line, path));
        findings.extend(words.chain(paths).map(|word| format!("{at}: {word}")));
    }
    findings
}

/// Whether `path` stands here as the start of a path, not inside a longer relative one.
fn starts_a_path(line: &str, path: &str) -> bool {
    let inside = |before: char| before.is_alphanumeric() || ".-_~})".contains(before);
    line.match_indices(path)
        .any(|(at, _)| !line[..at].ends_with(inside))
}

fn stray_spaces(file: &TextFile) -> Vec<String> {
    if !file.is_a(&["rs", "md"]) {
        return Vec::new();
    }
    let mut findings = Vec::new();
    for (at, line) in numbered(file) {
        if line.contains('\t') {
            findings.push(format!("{at}: a tab"));
        }
        if line.ends_with(char::is_whitespace) {
            findings.push(format!("{at}: ends in a space"));
        }
    }
    findings
}

fn numbered(file: &TextFile) -> impl Iterator<Item = (String, &str)> {
    let lines = file.text.split('\n').enumerate();
    lines.map(|(index, line)| (format!("{}:{}", file.path, index + 1), line))
}

fn in_every_file(check: fn(&TextFile) -> Vec<String>) -> Vec<String> {
    let texts = texts();
    assert!(
        texts.iter().any(|file| file.path == "Cargo.lock"),
        "the tree was read"
    );
    texts.iter().flat_map(check).collect()
}

#[test]
fn no_source_file_is_too_long() {
    assert_none("too long", &in_every_file(too_long));
}

#[test]
fn every_rust_file_says_what_it_is_for() {
    assert_none("without module comment", &in_every_file(no_module_comment));
}

#[test]
fn nothing_is_left_undone_or_skipped() {
    assert_none("undone", &in_every_file(unfinished_code));
}

#[test]
fn no_file_mentions_a_machine_or_a_mark_of_undone_work() {
    assert_none("mentioned", &in_every_file(mentions));
}

#[test]
fn no_tab_and_no_space_at_the_end() {
    assert_none("stray spaces", &in_every_file(stray_spaces));
}

#[cfg(test)]
fn file(path: &str, text: &str) -> TextFile {
    TextFile {
        path: path.to_owned(),
        text: text.to_owned(),
    }
}

#[test]
fn a_long_file_is_found() {
    let lines = |count| "x\n".repeat(count);
    assert!(too_long(&file("a.rs", &lines(600))).is_empty());
    assert_eq!(too_long(&file("a.rs", &lines(601))).len(), 1);
    assert_eq!(
        too_long(&file("run", &format!("#!/bin/sh\n{}", lines(600)))).len(),
        1
    );
    assert!(too_long(&file("data.json", &lines(601))).is_empty());
}

#[test]
fn a_short_module_comment_is_found() {
    for text in ["", "fn f() {}", "//!\n//!\n", "\n//! Late.\n//! Late.\n"] {
        assert_eq!(no_module_comment(&file("a.rs", text)).len(), 1, "{text}");
    }
    assert!(no_module_comment(&file("a.rs", "//! One.\n")).is_empty());
    assert!(no_module_comment(&file("a.md", "x")).is_empty());
}

#[test]
fn undone_code_and_skipped_tests_are_found() {
    for text in [
        "fn f() { todo!() }",
        "fn f() { std::unimplemented!(\"x\") }",
        "#[test]\n#[ignore]\nfn f() {}",
        "#[test]\n    #[ignore = \"slow\"]\nfn f() {}",
        "#[cfg_attr(unix, ignore)]\nfn f() {}",
        "fn f( {",
    ] {
        assert_eq!(unfinished_code(&file("a.rs", text)).len(), 1, "{text}");
    }
    let fine = "// no todo!() here\nlet ignore = \"todo!()\"; if todo != ignore {}";
    assert!(unfinished_code(&file("a.rs", fine)).is_empty());
}

#[test]
fn each_mention_is_found() {
    for (start, end) in UNDONE.iter().chain(&REGISTRY_HOSTS).chain(&MACHINE_PATHS) {
        let text = format!("a line\nsee \"{start}{end}x\"\n");
        assert_eq!(
            mentions(&file("a.md", &text)),
            [format!("a.md:2: {start}{end}")]
        );
        assert!(mentions(&file("Cargo.lock", &text)).is_empty());
    }
    let (start, end) = MACHINE_PATHS[0];
    assert!(mentions(&file("a.md", &format!("core{start}{end}"))).is_empty());
    assert_eq!(
        mentions(&file("a.md", &format!("file://{start}{end}"))).len(),
        1
    );
}

#[test]
fn stray_spaces_are_found() {
    for text in ["a\tb\n", "a \n", "a\r\n", "a\u{a0}"] {
        assert_eq!(stray_spaces(&file("a.md", text)).len(), 1, "{text:?}");
        assert!(stray_spaces(&file("a.txt", text)).is_empty());
    }
    assert!(stray_spaces(&file("a.rs", "a\n\nb\n")).is_empty());
}
