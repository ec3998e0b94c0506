//! Parts that several screens are built of: the frame, forms, amounts with their working, findings.
//!
//! What a screen is about belongs to [`crate::screen`].

pub(crate) mod amounts;
pub(crate) mod finding;
pub(crate) mod form;
pub(crate) mod frame;
pub(crate) mod how;
pub(crate) mod inputs;
pub(crate) mod keep_off;
pub(crate) mod nearest;

use maud::{Markup, html};

/// One way onwards, as wide as the screen: a link that looks like what it does.
pub(crate) fn way(href: &str, text: &str) -> Markup {
    html! { a.way href=(href) { (text) } }
}

/// The one next step of a screen.
pub(crate) fn next_step(href: &str, text: &str) -> Markup {
    html! { a.way.next href=(href) { (text) } }
}

/// A name and what stands there; a person sees "not known" where nothing does.
pub(crate) fn row(name: &str, value: &str, not_known: &str) -> Markup {
    html! {
        div.row {
            dt { (name) }
            dd { @if value.trim().is_empty() { span.unknown { (not_known) } } @else { (value) } }
        }
    }
}
