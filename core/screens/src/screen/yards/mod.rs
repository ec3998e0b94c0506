//! Yards: what is this place? The list, one yard, its people, marks and history.
//!
//! No rule and no record lives here.

use crate::ask::Screen;

pub(crate) const SCREENS: &[Screen] = &[];
