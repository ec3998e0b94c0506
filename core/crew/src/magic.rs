//! The first line of every file that phones share: what it is and in which format.
//!
//! A line of text, so that a person who opens the file sees what it is for.

use crate::{CrewError, FileKind, Result};

/// A kind of file.
pub(crate) struct Magic {
    /// The words of the first line, up to the number of the format.
    pub(crate) words: &'static str,
    /// What to call the file to a person.
    pub(crate) called: FileKind,
    /// The newest format this program knows.
    pub(crate) format: u64,
}

/// No first line is longer, the line feed included.
pub(crate) const LINE_BYTES_MAX: usize = 48;

impl Magic {
    /// The first line, line feed included.
    pub(crate) fn line(&self) -> String {
        format!("{} {}\n", self.words, self.format)
    }

    /// Checks the first line, given with its line feed if it has one.
    pub(crate) fn check(&self, line: &[u8]) -> Result<()> {
        let other = || CrewError::OtherFile(self.called);
        let number = line
            .strip_prefix(self.words.as_bytes())
            .and_then(|rest| rest.strip_prefix(b" "))
            .ok_or_else(other)?;
        let number = number
            .strip_suffix(b"\n")
            .ok_or(CrewError::Damaged(self.called))?;
        let format: u64 = std::str::from_utf8(number)
            .ok()
            .and_then(|digits| digits.parse().ok())
            .ok_or_else(other)?;
        if format > self.format {
            return Err(CrewError::newer(self.called.into(), format, self.format));
        }
        // A second spelling of a number, such as "+1" or "01", is no format.
        if number == self.format.to_string().as_bytes() {
            Ok(())
        } else {
            Err(other())
        }
    }
}
