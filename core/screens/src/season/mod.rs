//! The invented season: a practice book that a new user may look at.
//!
//! Everything in it is made up; nothing here is a record.

use crate::Result;
use crate::ask::{Doing, Next};

/// Opens the invented season, making it first where it is not there yet.
pub(crate) fn look(doing: &mut Doing<'_>) -> Result<Next> {
    let book = doing.shared.open_book(crate::state::Which::Season)?;
    doing.opened(crate::state::Which::Season, book);
    Ok(Next::Go("/".to_owned()))
}
