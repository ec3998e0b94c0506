//! Asking to join: a small file that carries the first entry of the joining phone.
//!
//! It holds no secret. Whoever admits the phone compares its check digits with the person who
//! holds it. Format, unstable until a first release: the line "swardbook join request 1", then
//! the entry's wire bytes to the end of the file.

use sward_book::BookError;
use sward_book::fact::{Fact, JoinAsked};
use sward_book::log::Entry;

use crate::magic::Magic;
use crate::{CrewError, FileKind, Result, device_check_digits, keys};

/// The longest request that is read, in bytes. One with a long name has about 500.
pub const REQUEST_BYTES_MAX: usize = 16 * 1024;

const MAGIC: Magic = Magic {
    words: "swardbook join request",
    called: FileKind::JoinRequest,
    format: 1,
};

/// A request that was read and whose signature fits.
#[derive(Debug, Clone, PartialEq)]
pub struct JoinRequest {
    /// The first entry of the phone that asks, to be taken into the log.
    pub entry: Entry,
    /// What it says: the phone's keys, who carries it, and which stream it wrote before.
    pub asked: JoinAsked,
    /// Twenty digits that both people compare before the phone is admitted.
    pub check_digits: String,
}

/// Makes the request file from the first entry of the own stream.
///
/// # Errors
/// [`CrewError::OtherFile`] when the entry asks for nothing.
pub fn make_request(first: &Entry) -> Result<Vec<u8>> {
    asked_in(first)?;
    Ok([MAGIC.line().as_bytes(), first.wire()].concat())
}

/// Reads a request file and checks everything in it.
///
/// # Errors
/// [`CrewError::OtherFile`] for something else, a newer format as [`BookError::Newer`],
/// [`CrewError::Damaged`] for a file cut short or altered, [`CrewError::BadRecipient`] for a key
/// that files cannot be locked to.
pub fn read_request(file: &[u8]) -> Result<JoinRequest> {
    let line_end = file
        .iter()
        .position(|b| *b == b'\n')
        .map_or(file.len(), |at| at + 1);
    let (line, wire) = file.split_at(line_end);
    MAGIC.check(line)?;
    if file.len() > REQUEST_BYTES_MAX {
        return Err(CrewError::Damaged(MAGIC.called));
    }
    let entry = Entry::check(wire).map_err(|error| match error {
        newer @ BookError::Newer { .. } => CrewError::Book(newer),
        _ => CrewError::Damaged(MAGIC.called),
    })?;
    let asked = asked_in(&entry)?;
    keys::recipient(&asked.device.recipient)?;
    let check_digits = device_check_digits(&asked.device);
    Ok(JoinRequest {
        entry,
        asked,
        check_digits,
    })
}

fn asked_in(entry: &Entry) -> Result<JoinAsked> {
    let body = entry.body();
    match body.facts.as_slice() {
        [Fact::JoinAsked(asked)] if body.seq == 1 && asked.device.stream == body.stream => {
            Ok(asked.clone())
        }
        _ => Err(CrewError::OtherFile(MAGIC.called)),
    }
}

#[cfg(test)]
mod tests {
    use super::make_request;
    use crate::testing::{Phone, in_lines};

    /// A change here is a new format of the request, or of entries.
    #[test]
    fn wire_form() {
        // Made for this test alone.
        let identity = "AGE-SECRET-KEY-1SKHRSF5ESK9U0H6M2VN6R2HYGND9XDK3Y568YR0MY0GS6EY5P9LQEWJQ8G";
        let first = Phone::with_identity(1, identity).ask();
        insta::assert_snapshot!("request", in_lines(&make_request(&first).unwrap()));
    }
}
