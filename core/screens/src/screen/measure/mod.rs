//! Measure: how big, honestly? Sections by tape, walk or finger.
//!
//! No rule and no record lives here.

use crate::ask::Screen;

pub(crate) const SCREENS: &[Screen] = &[];
