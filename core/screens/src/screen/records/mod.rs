//! Records: what was done, where is the proof?
//!
//! No rule and no record lives here.

use crate::ask::Screen;

pub(crate) const SCREENS: &[Screen] = &[];
