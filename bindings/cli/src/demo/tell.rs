//! How the demo tells its story: short paragraphs for a person, wrapped to the width of a page.

use crate::error::Result;
use crate::print::{Page, write_out};

/// The widest line of the story.
pub(super) const WIDTH: usize = 100;

/// Tells as it goes, or, where a machine listens, nothing.
pub(super) struct Teller {
    silent: bool,
}

impl Teller {
    /// A teller; a silent one for machines.
    pub(super) fn new(silent: bool) -> Self {
        Self { silent }
    }

    /// Says something before or after the story.
    ///
    /// # Errors
    /// When the output cannot be written, as with every other method here.
    pub(super) fn say(&self, text: &str) -> Result<()> {
        self.write(Page::default().line(text))
    }

    /// Begins a chapter: what time it is, and what it is about.
    pub(super) fn chapter(&self, clock: &str, title: &str) -> Result<()> {
        self.write(Page::default().line(format!("{clock}  {title}")))
    }

    /// Tells one step of a chapter: on which phone, and what.
    pub(super) fn step(&self, phone: &str, text: &str) -> Result<()> {
        self.write(Page::default().item(format!("{phone}: {text}")))
    }

    /// Tells something further of the step before, on a line of its own.
    pub(super) fn more(&self, text: &str) -> Result<()> {
        self.write(Page::default().item(text))
    }

    fn write(&self, page: &Page) -> Result<()> {
        if self.silent {
            Ok(())
        } else {
            write_out(page.render(WIDTH).as_bytes())
        }
    }
}

/// A number as a person reads it: whole, with a mark at each thousand.
pub(super) fn whole(number: f64) -> String {
    let digits = format!("{number:.0}");
    let mut text = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}
