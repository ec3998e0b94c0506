//! Keep off: who may be where? Each keep-off, its reason and its end.
//!
//! No rule and no record lives here.

use crate::ask::Screen;

pub(crate) const SCREENS: &[Screen] = &[];
