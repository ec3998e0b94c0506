//! Rust source as the paths it names, each with its line: `std::{fs, io}` gives two.
//!
//! The compiler's own tokens, so comments and strings say nothing. What may be named is decided
//! in `purity` and `tidy`.

use proc_macro2::{Delimiter, TokenStream, TokenTree};

/// A path as written, with what a `use` gathered in braces spelt out.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Named {
    /// The names between `::`. The first is empty when the path goes on from something else,
    /// as in `<T>::now`.
    pub(crate) segments: Vec<String>,
    /// Whether it is called as a macro.
    pub(crate) is_macro: bool,
    /// Where it stands, counted from 1.
    pub(crate) line: usize,
}

/// Words after which a path starts anew.
const KEYWORDS: [&str; 30] = [
    "as", "async", "await", "break", "const", "continue", "dyn", "else", "enum", "extern", "fn",
    "for", "if", "impl", "in", "let", "loop", "match", "mod", "move", "mut", "pub", "ref",
    "return", "struct", "trait", "type", "use", "where", "while",
];

/// Every path, or why this is no Rust.
pub(crate) fn named(source: &str) -> Result<Vec<Named>, String> {
    let stream: TokenStream = source
        .parse()
        .map_err(|error: proc_macro2::LexError| error.to_string())?;
    let mut found = Vec::new();
    gather(stream, &[], &mut found);
    Ok(found)
}

fn gather(stream: TokenStream, prefix: &[String], found: &mut Vec<Named>) {
    let tokens: Vec<TokenTree> = stream.into_iter().collect();
    let mut at = 0;
    while at < tokens.len() {
        match &tokens[at] {
            TokenTree::Group(group) => {
                gather(group.stream(), &[], found);
                at += 1;
            }
            // The new name that a `use` gives is nobody's path.
            TokenTree::Ident(word) if word == "as" && !prefix.is_empty() => at += 2,
            TokenTree::Ident(word) if KEYWORDS.iter().any(|keyword| word == keyword) => at += 1,
            TokenTree::Ident(_) => at = path(&tokens, at, prefix, found),
            TokenTree::Punct(_) if goes_on(&tokens, at) => {
                at = path(&tokens, at, prefix, found);
            }
            TokenTree::Punct(mark) if mark.as_char() == '\'' => at += 2,
            TokenTree::Punct(mark) if mark.as_char() == '*' && !prefix.is_empty() => {
                let segments = prefix.iter().cloned().chain(["*".to_owned()]).collect();
                let line = mark.span().start().line;
                found.push(Named {
                    segments,
                    is_macro: false,
                    line,
                });
                at += 1;
            }
            TokenTree::Punct(_) | TokenTree::Literal(_) => at += 1,
        }
    }
}

/// Takes the path that starts at a name or at `::`; gives where it ends.
fn path(tokens: &[TokenTree], start: usize, prefix: &[String], found: &mut Vec<Named>) -> usize {
    let line = tokens[start].span().start().line;
    let mut segments = prefix.to_vec();
    let mut at = start;
    if let TokenTree::Ident(first) = &tokens[start] {
        segments.push(plain(first));
        at += 1;
    } else if prefix.is_empty() && !matches!(tokens.get(start + 2), Some(TokenTree::Group(_))) {
        segments.push(String::new());
    }
    while goes_on(tokens, at) {
        match tokens.get(at + 2) {
            Some(TokenTree::Ident(next)) => segments.push(plain(next)),
            Some(TokenTree::Group(group)) if group.delimiter() == Delimiter::Brace => {
                gather(group.stream(), &segments, found);
                return at + 3;
            }
            Some(TokenTree::Punct(mark)) if mark.as_char() == '*' => segments.push("*".to_owned()),
            _ => {
                at += 2;
                break;
            }
        }
        at += 3;
    }
    let then = |mark| is_mark(tokens.get(at), mark);
    let is_macro = then('!') && !is_mark(tokens.get(at + 1), '=');
    // A crate under another name, or a static that changes, would hide what follows.
    if let (1, Some(TokenTree::Ident(next))) = (segments.len(), tokens.get(at))
        && ["as", "mut"].iter().any(|word| next == word)
    {
        segments.push(plain(next));
        at += 1;
    }
    found.push(Named {
        segments,
        is_macro,
        line,
    });
    at.max(start + 1)
}

fn plain(name: &proc_macro2::Ident) -> String {
    let name = name.to_string();
    name.strip_prefix("r#").map_or(name.clone(), str::to_owned)
}

fn goes_on(tokens: &[TokenTree], at: usize) -> bool {
    is_mark(tokens.get(at), ':') && is_mark(tokens.get(at + 1), ':')
}

fn is_mark(token: Option<&TokenTree>, mark: char) -> bool {
    matches!(token, Some(TokenTree::Punct(found)) if found.as_char() == mark)
}

#[cfg(test)]
fn joined(source: &str) -> Vec<String> {
    let found = named(source).expect("it is Rust");
    let shown = |named: Named| {
        format!(
            "{}{}",
            named.segments.join("::"),
            if named.is_macro { "!" } else { "" }
        )
    };
    found.into_iter().map(shown).collect()
}

#[test]
fn paths_are_spelt_out() {
    for (source, expected) in [
        (
            "use std::{fs, io::{self, Read as R}};",
            "std::fs std::io::self std::io::Read",
        ),
        ("use std::fs::*;", "std::fs::*"),
        ("use std::{fmt::*};", "std::fmt::*"),
        ("use ::std::time;", "::std::time"),
        ("use std as s;", "std::as s"),
        ("<Utc>::now()", "Utc ::now"),
        ("Vec::<u8>::new()", "Vec u8 ::new"),
        ("r#std::fs::read(x)", "std::fs::read x"),
        ("static mut N: u8 = 0;", "static::mut N u8"),
        ("fn f(x: &'static mut u8) {}", "f x u8"),
        ("a != b", "a b"),
        ("assert!(std::fs::exists(x))", "assert! std::fs::exists x"),
    ] {
        assert_eq!(joined(source).join(" "), expected, "{source}");
    }
}

#[test]
fn comments_and_strings_name_nothing() {
    let source =
        "// std::fs\n/* std::io /* std::net */ */\n\"std::env\"; r#\"std::time\"#; b\"x\"; 'y'";
    assert_eq!(joined(source), Vec::<String>::new());
}

#[test]
fn lines_are_counted() {
    let found = named("\n\nstd::fs::read(\nthe_path)").expect("it is Rust");
    assert_eq!(
        found.iter().map(|named| named.line).collect::<Vec<_>>(),
        [3, 4]
    );
    assert!(named("fn f( {").is_err());
}
