//! Treat: am I on rate? Start, loads, half-way check, finish.
//!
//! No rule and no record lives here.

use crate::ask::Screen;

pub(crate) const SCREENS: &[Screen] = &[];
