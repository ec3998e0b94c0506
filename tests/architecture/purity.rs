//! What the core's own code may not do: `rules` nothing but compute, `book` no network, and no
//! core crate takes a clock or randomness other than the one it is given.
//!
//! Tests inside those crates are held to the same. What their dependencies bring is in `reach`.

use crate::assert_none;
use crate::files::rust_below;
use crate::tokens::{Named, named};

/// What one crate's source may not name.
struct Limits {
    /// The modules of the standard library that may be named, where that is limited.
    std_may: Option<&'static [&'static str]>,
    /// What is banned, in groups with the reason.
    banned: &'static [Group],
}

/// Patterns and why they are banned: `a::b` is those names side by side, `::a` is `a` anywhere
/// but at the start, `a!` is a macro, `a*` is any name that begins so, `a` is that name anywhere.
type Group = (&'static str, &'static [&'static str]);

const RULES: Limits = Limits {
    std_may: Some(PURE_STD),
    banned: &[CLOCK, RANDOMNESS, NETWORK, MACHINE, IO, STATE],
};
const BOOK: Limits = Limits {
    std_may: None,
    banned: &[CLOCK, RANDOMNESS, NETWORK, MACHINE],
};
const CREW: Limits = Limits {
    std_may: None,
    banned: &[CLOCK, RANDOMNESS, MACHINE],
};

/// Modules of the standard library that only compute.
const PURE_STD: &[&str] = &[
    "any",
    "array",
    "ascii",
    "borrow",
    "boxed",
    "char",
    "cmp",
    "collections",
    "convert",
    "default",
    "error",
    "f32",
    "f64",
    "fmt",
    "hash",
    "i128",
    "i16",
    "i32",
    "i64",
    "i8",
    "iter",
    "marker",
    "mem",
    "num",
    "ops",
    "option",
    "prelude",
    "primitive",
    "rc",
    "result",
    "slice",
    "str",
    "string",
    "u128",
    "u16",
    "u32",
    "u64",
    "u8",
    "vec",
];

const CLOCK: Group = (
    "the time is passed in",
    &[
        "SystemTime",
        "Instant",
        "::now",
        "::now_*",
        "chrono::Local",
        "Local::now",
        "UNIX_EPOCH",
    ],
);
const RANDOMNESS: Group = (
    "randomness is passed in",
    &[
        "rand",
        "getrandom",
        "fastrand",
        "OsRng",
        "SysRng",
        "ThreadRng",
        "thread_rng",
        "RandomState",
        "::new_v4",
        "::new_v7",
    ],
);
const NETWORK: Group = (
    "no network here",
    &[
        "std::net",
        "core::net",
        "TcpStream",
        "TcpListener",
        "UdpSocket",
        "UnixStream",
        "tokio",
        "hyper",
        "reqwest",
    ],
);
const MACHINE: Group = (
    "what the machine says is passed in",
    &["std::env", "std::process", "env!", "option_env!"],
);
const IO: Group = (
    "no files or output here; bytes are passed in",
    &[
        "std::fs",
        "std::io",
        "std::path",
        "stdin",
        "stdout",
        "stderr",
        "print!",
        "println!",
        "eprint!",
        "eprintln!",
        "dbg!",
    ],
);
const STATE: Group = (
    "an answer depends on what was passed in alone, in an order that is the same every time",
    &[
        "std::thread",
        "thread_local!",
        "static::mut",
        "Cell",
        "RefCell",
        "UnsafeCell",
        "OnceCell",
        "LazyCell",
        "OnceLock",
        "LazyLock",
        "Mutex",
        "RwLock",
        "Condvar",
        "Atomic*",
        "HashMap",
        "HashSet",
        "hash_map",
        "hash_set",
        "DefaultHasher",
    ],
);

fn offences(path: &str, source: &str, limits: &Limits) -> Vec<String> {
    let found = match named(source) {
        Ok(found) => found,
        Err(error) => return vec![format!("{path}: {error}")],
    };
    let tell = |name: &Named| {
        let why = reason(name, limits)?;
        Some(format!(
            "{path}:{}: {}: {why}",
            name.line,
            name.segments.join("::")
        ))
    };
    found.iter().filter_map(tell).collect()
}

fn reason(name: &Named, limits: &Limits) -> Option<&'static str> {
    let is_banned = |pattern: &&&str| matches(name, pattern);
    let group = limits
        .banned
        .iter()
        .find(|(_, patterns)| patterns.iter().any(|p| is_banned(&p)));
    group.map(|(why, _)| *why).or_else(|| {
        let unlisted = limits
            .std_may
            .is_some_and(|may| !std_is_among(&name.segments, may));
        unlisted.then_some("not among the modules of the standard library that only compute")
    })
}

fn matches(name: &Named, pattern: &str) -> bool {
    let same = |segment: &String, wanted: &str| match wanted.strip_suffix('*') {
        Some(start) => segment.starts_with(start),
        None => segment == wanted,
    };
    if let Some(wanted) = pattern.strip_prefix("::") {
        return name
            .segments
            .iter()
            .skip(1)
            .any(|segment| same(segment, wanted));
    }
    if let Some(wanted) = pattern.strip_suffix('!') {
        return name.is_macro && name.segments.last().is_some_and(|last| last == wanted);
    }
    let wanted: Vec<&str> = pattern.split("::").collect();
    name.segments.windows(wanted.len()).any(|window| {
        window
            .iter()
            .zip(&wanted)
            .all(|(segment, wanted)| same(segment, wanted))
    })
}

fn std_is_among(segments: &[String], may: &[&str]) -> bool {
    let mut names = segments.iter().skip_while(|segment| segment.is_empty());
    match names.next().map(String::as_str) {
        Some("std" | "core" | "alloc") => names
            .next()
            .is_some_and(|module| may.contains(&module.as_str())),
        _ => true,
    }
}

fn offences_below(folder: &str, limits: &Limits) -> Vec<String> {
    let files = rust_below(folder);
    assert!(
        files.iter().any(|file| file.path.ends_with("/lib.rs")),
        "{folder} was read"
    );
    files
        .iter()
        .flat_map(|file| offences(&file.path, &file.text, limits))
        .collect()
}

#[test]
fn rules_only_computes() {
    assert_none("in rules", &offences_below("core/rules/src/", &RULES));
}

#[test]
fn book_takes_clock_and_randomness_as_given_and_has_no_network() {
    assert_none("in book", &offences_below("core/book/src/", &BOOK));
}

#[test]
fn crew_takes_clock_and_randomness_as_given() {
    assert_none("in crew", &offences_below("core/crew/src/", &CREW));
}

#[test]
fn each_offence_is_caught_in_rules() {
    for source in [
        "use std::time::Duration;",
        "let t = SystemTime::now();",
        "use std::{fmt, time::{self, Instant}};",
        "let t = chrono::Utc::now();",
        "let t = <Utc>::now();",
        "let t = OffsetDateTime::now_utc();",
        "use chrono::Local;",
        "let z = Local::now();",
        "use std::fs;",
        "use std as s;",
        "use std::*;",
        "use std::{self as s};",
        "use ::std::net::TcpStream;",
        "let v = std::env::var(\"HOME\");",
        "let v = env!(\"HOME\");",
        "std::process::exit(1);",
        "use std::io::Read;",
        "use std::io::Cursor;",
        "let p = std::path::Path::new(x);",
        "println!(\"{x}\");",
        "std::eprintln!();",
        "macro_rules! m { () => { std::fs::read(x) } }",
        "let n: u8 = rand::random();",
        "getrandom::fill(&mut b);",
        "let id = Uuid::new_v4();",
        "use std::thread;",
        "thread_local! { static N: u8 = 0; }",
        "static mut N: u8 = 0;",
        "static N: AtomicU8 = x();",
        "static N: Mutex<u8> = x();",
        "static N: LazyLock<u8> = x();",
        "use core::cell::RefCell;",
        "let m: HashMap<u8, u8> = x();",
        "use std::collections::{BTreeMap, HashSet};",
        "let s = std::hash::RandomState::new();",
        "#[cfg(test)] mod tests { use std::fs; }",
    ] {
        assert!(
            !offences("x.rs", source, &RULES).is_empty(),
            "not caught: {source}"
        );
    }
}

#[test]
fn what_only_computes_is_left_alone() {
    for source in [
        "// std::fs, SystemTime::now()",
        "/// Never calls `Utc::now`.\nfn f() {}",
        "let s = \"std::fs\"; let r = r#\"Instant\"#;",
        "use std::{collections::BTreeMap, fmt::{self, Display as D}};",
        "fn f(now: Now, x: &'static mut u8) -> i64 { now.at + self.now }",
        "static TABLE: [u8; 2] = [1, 2];",
        "let a = core::mem::take(&mut b); let x = f64::consts::PI;",
        "assert!(known && a != b);",
    ] {
        assert_eq!(
            offences("x.rs", source, &RULES),
            Vec::<String>::new(),
            "{source}"
        );
    }
}

#[test]
fn the_other_crates_are_held_to_their_own_limits() {
    let caught = |source, limits| !offences("x.rs", source, limits).is_empty();
    for source in [
        "SystemTime::now()",
        "getrandom::fill(b)",
        "std::env::temp_dir()",
    ] {
        assert!(
            caught(source, &BOOK) && caught(source, &CREW),
            "not caught: {source}"
        );
    }
    assert!(caught("use std::net::TcpStream;", &BOOK));
    assert!(caught("tokio::spawn(x)", &BOOK));
    assert!(!caught(
        "std::fs::File::open(x); std::time::Duration::from_secs(5)",
        &BOOK
    ));
}

#[test]
fn an_offence_names_its_file_line_and_reason() {
    let found = offences("a.rs", "\nuse std::fs;", &RULES);
    assert_eq!(
        found,
        ["a.rs:2: std::fs: no files or output here; bytes are passed in"]
    );
}
