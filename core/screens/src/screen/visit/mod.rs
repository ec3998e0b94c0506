//! A visit: where am I? What is done, what comes next, what is blocked and why.
//!
//! No rule and no record lives here.

use crate::ask::Screen;

pub(crate) const SCREENS: &[Screen] = &[];
