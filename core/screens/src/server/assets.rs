//! The files beside the pages: one style sheet, one script, the mark in the browser's tab.
//!
//! Written to be read in `assets`; what is only for readers is left out when they are served, so
//! that a screen stays light.

use std::sync::LazyLock;

use axum::http::header;
use axum::response::{IntoResponse as _, Response};

static STYLE: LazyLock<String> = LazyLock::new(|| lean(include_str!("../../assets/app.css")));

static SCRIPT: LazyLock<String> = LazyLock::new(|| {
    lean(concat!(
        include_str!("../../assets/app.js"),
        include_str!("../../assets/pad.js"),
        include_str!("../../assets/place.js")
    ))
});

/// The one style sheet.
pub(crate) async fn style() -> Response {
    asset("text/css; charset=utf-8", &STYLE)
}

/// The one script, written in several files.
pub(crate) async fn script() -> Response {
    asset("text/javascript; charset=utf-8", &SCRIPT)
}

/// The mark in the browser's tab.
pub(crate) async fn icon() -> Response {
    asset("image/svg+xml", include_str!("../../assets/icon.svg"))
}

fn asset(kind: &'static str, text: &'static str) -> Response {
    (
        [
            (header::CONTENT_TYPE, kind),
            (header::CACHE_CONTROL, "no-cache"),
        ],
        text,
    )
        .into_response()
}

/// Without indentation, empty lines, and comments that have lines to themselves: `//` to the
/// line's end, or from `/*` at a line's start to `*/` at the end of one.
fn lean(text: &str) -> String {
    let mut kept = String::with_capacity(text.len());
    let mut in_comment = false;
    for line in text.lines().map(str::trim) {
        if line.starts_with("/*") {
            in_comment = true;
        }
        if !in_comment && !line.is_empty() && !line.starts_with("//") {
            kept.push_str(line);
            kept.push('\n');
        }
        if line.ends_with("*/") {
            in_comment = false;
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_only_for_readers_is_left_out() {
        let style = "/* One\n   two. */\n\na {\n  b: url(\"//c\"); /* d */\n}\n/* e */\n";
        assert_eq!(lean(style), "a {\nb: url(\"//c\"); /* d */\n}\n");
        let script = "// One.\n'use strict';\n  // Two.\n  f('//');\n";
        assert_eq!(lean(script), "'use strict';\nf('//');\n");
    }

    #[test]
    fn nothing_that_is_served_spans_lines_by_its_indentation() {
        for text in [STYLE.as_str(), SCRIPT.as_str()] {
            assert!(text.lines().count() > 100);
            assert!(!text.contains("/*") && !text.contains("\n//"));
        }
        // A template over several lines would lose its spaces.
        assert!(
            SCRIPT
                .lines()
                .all(|line| line.matches('`').count() % 2 == 0)
        );
    }
}
