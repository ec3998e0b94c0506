//! Tools: label sheets, equipment, stock, people, settings.
//!
//! No rule and no record lives here.

use crate::ask::Screen;

pub(crate) const SCREENS: &[Screen] = &[];
