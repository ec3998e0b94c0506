//! The story of one day, chapter by chapter. Every number told was answered by a step that one
//! of the three phones took; here is only who does what, when, and how it is told.

mod evening;
mod morning;
mod swaps;
mod yard_one;
mod yard_two;

use super::files::Files;
use super::phone::Phone;
use super::tell::Teller;
use crate::error::Result;

/// The three phones with who carries them, the files between them, and who tells of it.
pub(super) struct Day<'a> {
    /// The crew lead's.
    pub(super) ivy: &'a Phone,
    /// The phone that goes to yard 2.
    pub(super) moss: &'a Phone,
    /// The phone that helps with counting.
    pub(super) fern: &'a Phone,
    /// Files.
    pub(super) files: &'a Files,
    /// Teller.
    pub(super) teller: &'a Teller,
}

const IVY: &str = "Ivy Example";
const MOSS: &str = "Moss Sample";
const FERN: &str = "Fern Pretend";
const YARD_1: &str = "12 Pretend Street";
const YARD_2: &str = "7 Make-Believe Lane";
const FRONT: &str = "front lawn";
const SIDE: &str = "side strip";
const PRODUCT: &str = "Demo Granules";
const PEST: &str = "chinch bug";

impl Day<'_> {
    /// Lives through the whole day.
    ///
    /// # Errors
    /// When a step ends otherwise than it should.
    pub(super) fn tell(&self) -> Result<()> {
        self.crew_and_label()?;
        self.first_try_at_yard_one()?;
        self.yard_two()?;
        self.treatment()?;
        self.keep_off()?;
        self.swap()
    }
}
