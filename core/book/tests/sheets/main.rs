//! Sheets: what may be typed into each kind of field, several fields as one entry, and two phones
//! editing at once.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod fields;
mod two_phones;
mod written;

use sward_book::ids::SheetId;
use sward_book::sheet::SheetKind;
use sward_book::testing::{TestEnv, ask, found, give};
use sward_book::{Book, BookError};

/// Two phones of one crew, with the folders they live in.
struct Two {
    lead: Book,
    other: Book,
    _folders: [tempfile::TempDir; 2],
}

fn two() -> Two {
    let folders = [tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap()];
    let mut lead = found(folders[0].path(), &TestEnv::new(1), "lead").unwrap();
    let (mut other, asked) = ask(folders[1].path(), &TestEnv::new(2), "other").unwrap();
    lead.admit(&asked, sward_book::fact::Role::Applicator)
        .unwrap();
    give(&lead, &mut other).unwrap();
    Two {
        lead,
        other,
        _folders: folders,
    }
}

impl Two {
    /// Swaps both ways; then both must be equal, and equal to what their logs make of them.
    fn swap(&mut self) {
        give(&self.lead, &mut self.other).unwrap();
        give(&self.other, &mut self.lead).unwrap();
        give(&self.lead, &mut self.other).unwrap();
        let all = self.lead.compared().unwrap();
        assert_eq!(self.other.compared().unwrap(), all);
        for book in [&mut self.lead, &mut self.other] {
            let faults = book.verify(&mut |_, _| {}).unwrap().faults;
            assert_eq!(faults, Vec::<String>::new());
            book.rebuild().unwrap();
            assert_eq!(book.compared().unwrap(), all);
        }
    }
}

fn yard(book: &mut Book) -> SheetId {
    book.add_yard("Corner lot", "1 Test Lane", "America/New_York")
        .unwrap()
}

fn spreader(book: &mut Book) -> SheetId {
    let typed = [("name", "Green spreader"), ("kind", "rotary_spreader")];
    book.add_sheet(SheetKind::Equipment, &typed).unwrap()
}

/// The field that a refusal names, which must say what to do about it.
fn refused(error: &BookError) -> String {
    assert!(matches!(error, BookError::Refused(_)), "{error}");
    error
        .field()
        .unwrap_or_else(|| panic!("{error}"))
        .to_owned()
}
