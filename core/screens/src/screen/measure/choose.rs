//! Choosing how to measure, and the form of the way that was chosen.
//!
//! Shared by a new section, a correction, and what is left out.

use maud::{Markup, html};
use sward_rules::measure::Shape;

use super::drawn;
use super::fields::fields;
use super::kind::{Kind, ROWS_MOST};
use crate::ask::{Ask, Doing};
use crate::part;
use crate::part::form::FormPart;
use crate::trouble::Wrong;
use crate::{Result, Trouble};

/// The kind that is being filled in: what was sent and did not fit, else what the address says
/// under `name`.
pub(super) fn chosen(ask: &Ask<'_>, act: &str, name: &str) -> Option<Kind> {
    let sent = ask
        .again
        .filter(|a| a.form.text("do") == act)
        .map(|a| a.form.text("key"));
    Kind::of(sent.or_else(|| ask.query(name))?)
}

/// The kind that was sent.
///
/// # Errors
/// [`Trouble::NoForm`] for none of ours.
pub(super) fn sent(doing: &Doing<'_>) -> Result<Kind> {
    Kind::of(doing.text("key")).ok_or(Trouble::NoForm)
}

/// The ways to measure, each leading on to its form.
pub(super) fn ways(ask: &Ask<'_>, name: &str, kinds: &[Kind]) -> Markup {
    html! {
        @for kind in kinds {
            (part::way(&format!("{}?{name}={}", ask.path, kind.code()), &kind.name(ask.words)))
        }
    }
}

/// A shape that is entered.
pub(super) struct Entering<'a> {
    /// Under which name its kind stands in the address.
    pub(super) name: &'static str,
    /// How it is measured.
    pub(super) kind: Kind,
    /// What was entered before.
    pub(super) filled: Option<&'a Shape>,
    /// The section that it is left out of.
    pub(super) around: Option<&'a Shape>,
}

/// The fields of a kind, with how it is measured, and more rows where it has rows.
pub(super) fn form_of(ask: &Ask<'_>, form: &FormPart<'_>, entering: &Entering<'_>) -> Markup {
    let Entering {
        name,
        kind,
        filled,
        around,
    } = *entering;
    let rows = kind.rows(ask, filled);
    html! {
        p.note { (kind.advice(ask.words)) }
        @if kind == Kind::Drawn { (drawn::field(ask, form, name, filled, around)) }
        @else { (fields(ask, form, kind, filled)) }
        @if rows > 0 && rows < ROWS_MOST {
            p { a href=(format!("{}?{name}={}&n={}", ask.path, kind.code(), rows + 6)) { (ask.t("measure-more-rows")) } }
        }
    }
}

/// A name that must be there.
///
/// # Errors
/// [`Trouble::InField`].
pub(super) fn name_sent<'a>(doing: &'a Doing<'_>) -> Result<&'a str> {
    match doing.text("name") {
        "" => Err(Trouble::field("name", Wrong::Missing)),
        name => Ok(name),
    }
}

/// Both errors, where both are there.
pub(super) fn both<A, B>(a: Result<A>, b: Result<B>) -> Result<(A, B)> {
    match (a, b) {
        (Ok(a), Ok(b)) => Ok((a, b)),
        (Err(a), Err(b)) => Err(Trouble::Fields(vec![a, b])),
        (Err(e), _) | (_, Err(e)) => Err(e),
    }
}
