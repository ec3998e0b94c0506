//! Records: what was done, where is the proof? Finding, showing, printing, correcting, exporting.
//!
//! No rule and no record lives here: what a record holds is the book's.

mod around;
mod asked;
mod content;
mod correct;
mod fact;
mod find;
mod finish;
mod history;
mod one;
mod sheet;
mod told;
mod wanted;

use crate::ask::Screen;

pub(crate) const SCREENS: &[Screen] = &[find::SCREEN, one::SCREEN, one::PRINT, correct::SCREEN];

#[cfg(test)]
mod tests;
