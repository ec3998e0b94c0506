//! Look: is it the pest, and are there enough of them?
//!
//! No rule and no record lives here.

use crate::ask::Screen;

pub(crate) const SCREENS: &[Screen] = &[];
