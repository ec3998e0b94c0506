//! Crew: are we in step? Members, swapping records, questions to settle.
//!
//! No rule and no record lives here.

use crate::ask::Screen;

pub(crate) const SCREENS: &[Screen] = &[];
