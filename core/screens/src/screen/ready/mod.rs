//! Ready: may I, here and now? The sky, the yard, the findings.
//!
//! No rule and no record lives here.

use crate::ask::Screen;

pub(crate) const SCREENS: &[Screen] = &[];
