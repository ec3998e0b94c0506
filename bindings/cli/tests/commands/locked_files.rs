//! Locked files that are cut, altered, for others, taken twice, or hold one bad stream.

use std::ffi::OsStr;
use std::path::Path;
use std::sync::Arc;

use sward_book::ids::{Hash, StreamId};
use sward_book::log::{Entry, Head};
use sward_book::{Book, Env};
use sward_crew::locked::{Locking, make_locked_file};
use sward_crew::swap::stamp_of;
use sward_crew::{Log, Standing, TakenIn};

use crate::store::StillClock;
use crate::support::{Phone, finished, swap, text, yard_and_visit};

fn take(file: &Path) -> [&OsStr; 3] {
    ["swap".as_ref(), "take".as_ref(), file.as_ref()]
}

#[test]
fn a_file_cut_or_altered_anywhere_brings_nothing() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    finished(&ben);
    let whole = std::fs::read(ben.makes_file()).unwrap();
    let length = whole.len();
    for cut in [60, length / 2, length - 1] {
        let file = lead.write("cut", &whole[..cut]);
        let told = lead.is_refused(take(&file), 6);
        assert!(told.contains("cut short or altered"), "{cut}: {told}");
    }
    for at in [300, length / 2, length - 5] {
        let mut altered = whole.clone();
        altered[at] ^= 1;
        let file = lead.write("altered", altered);
        let told = lead.is_refused(take(&file), 6);
        assert!(told.contains("nothing was taken from it"), "{at}: {told}");
    }
}

#[test]
fn something_else_another_crews_and_a_newer_file_are_told_apart() {
    let lead = Phone::founder("Ann");
    let other = Phone::founder("Zoe");
    Phone::member(&other, "Yan");
    let text_file = lead.write("notes.txt", "not a locked file");
    assert!(
        lead.is_refused(take(&text_file), 1)
            .contains("this is not a locked file")
    );
    let theirs = other.makes_file();
    assert!(lead.is_refused(take(&theirs), 1).contains("another crew"));
    let mut newer = std::fs::read(&theirs).unwrap();
    let number = newer.iter().position(|b| *b == b'1').unwrap();
    newer[number] = b'2';
    let newer = lead.write("newer", newer);
    assert!(lead.is_refused(take(&newer), 5).contains("newer version"));
    let missing = lead.file("missing");
    assert!(
        lead.is_refused(take(&missing), 7)
            .contains("cannot be read")
    );
}

#[test]
fn a_file_made_before_admission_is_not_for_this_phone() {
    let lead = Phone::founder("Ann");
    Phone::member(&lead, "Ben");
    let early = lead.makes_file();
    let cleo = Phone::new();
    let request = cleo.file("request");
    cleo.does([
        OsStr::new("ask"),
        request.as_ref(),
        "--name".as_ref(),
        "Cleo".as_ref(),
        "--practice".as_ref(),
    ]);
    let told = cleo.is_refused(take(&early), 1);
    assert!(told.contains("ask a crew lead"), "{told}");
    let unread = cleo.is_refused(["swap", "make", "out.locked"], 1);
    assert!(unread.contains("no crew yet"), "{unread}");
}

#[test]
fn taken_twice_it_changes_nothing() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    finished(&ben);
    let file = ben.makes_file();
    assert!(lead.takes(&file)["new"].as_u64().unwrap() > 0);
    let before = lead.state();
    assert_eq!(lead.takes(&file)["new"], 0);
    assert_eq!(lead.state(), before);
}

#[test]
fn a_phone_that_is_not_admitted_yet_is_told_as_such() {
    let lead = Phone::founder("Ann");
    Phone::member(&lead, "Ben");
    let backup = lead.file("backup");
    lead.does([OsStr::new("backup"), backup.as_ref()]);
    let anew = Phone::new();
    anew.by_the_real_clock();
    anew.does([
        OsStr::new("restore"),
        backup.as_ref(),
        "--name".as_ref(),
        "Ann".as_ref(),
    ]);
    yard_and_visit(&anew);
    let file = anew.makes_file();
    let taken = lead.takes(&file);
    assert_eq!(taken["standing"], "pending");
    assert!(taken["new"].as_u64().unwrap() > 0);
}

#[test]
fn two_files_are_taken_at_once_and_one_bad_one_does_not_undo_the_other() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    yard_and_visit(&ben);
    let good = ben.makes_file();
    let bad = lead.write("bad", "nothing");
    let told = lead.tries([
        OsStr::new("swap"),
        "take".as_ref(),
        good.as_ref(),
        bad.as_ref(),
    ]);
    assert_eq!(told.code, Some(1));
    assert!(
        told.out.contains("new entries"),
        "what was taken is told: {}",
        told.out
    );
    assert_eq!(
        lead.does(["yard", "list"])["yards"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
}

/// A book whose entries of one stream are spoilt on their way out, the first one's signature.
struct Spoilt<'a> {
    book: &'a Book,
    stream: StreamId,
}

impl Log for Spoilt<'_> {
    fn crew(&self) -> sward_book::Result<Option<Hash>> {
        Log::crew(self.book)
    }
    fn standing(&self, stream: StreamId) -> sward_book::Result<Standing> {
        Log::standing(self.book, stream)
    }
    fn join(&mut self, _: Hash, _: &[Vec<u8>], _: StreamId) -> sward_book::Result<TakenIn> {
        unreachable!("it only gives")
    }
    fn heads(&self) -> sward_book::Result<Vec<Head>> {
        Log::heads(self.book)
    }
    fn holds(&self, hash: Hash) -> sward_book::Result<bool> {
        Log::holds(self.book, hash)
    }
    fn locator(&self, stream: StreamId) -> sward_book::Result<Vec<Hash>> {
        Log::locator(self.book, stream)
    }
    fn entries_up_to(
        &self,
        tip: Hash,
        stop_at: &[Hash],
        bytes_max: usize,
    ) -> sward_book::Result<Vec<Vec<u8>>> {
        let mut wires = Log::entries_up_to(self.book, tip, stop_at, bytes_max)?;
        if let Some(first) = wires.first_mut()
            && Entry::claimed_stream(first) == Some(self.stream)
        {
            *first.last_mut().unwrap() ^= 1;
        }
        Ok(wires)
    }
    fn take_in(&mut self, _: &[Vec<u8>], _: StreamId) -> sward_book::Result<TakenIn> {
        unreachable!("it only gives")
    }
}

#[test]
fn one_bad_stream_among_good_ones_is_refused_and_the_rest_arrives() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    let cleo = Phone::member(&lead, "Cleo");
    swap(&lead, &ben);
    cleo.takes_from(&lead);
    yard_and_visit(&ben);
    cleo.does(["yard", "add", "Oak"]);
    ben.takes_from(&cleo);

    let file = ben.file("one bad stream");
    {
        let book = Book::open_reading(&ben.book(), Arc::new(StillClock) as Arc<dyn Env>).unwrap();
        let members: Vec<_> = book
            .roster()
            .active_recipients()
            .into_iter()
            .map(|(stream, recipient)| sward_book::fact::DeviceKeys { stream, recipient })
            .collect();
        let stream = text(&cleo.does(["crew"]), "/device").parse().unwrap();
        let locking = Locking {
            secret: book.secret().unwrap(),
            members: &members,
            made: stamp_of(&book).unwrap(),
            since: &[],
        };
        let out = std::fs::File::create(&file).unwrap();
        make_locked_file(
            out,
            &locking,
            &Spoilt {
                book: &book,
                stream,
            },
            book.env(),
        )
        .unwrap();
    }
    let told = lead.tries(take(&file));
    assert_eq!(told.code, Some(1), "{}{}", told.out, told.err);
    assert!(told.out.contains("refused from Cleo"), "{}", told.out);
    assert!(told.err.contains("the rest was taken in"), "{}", told.err);
    let yards = lead.does(["yard", "list"]);
    assert_eq!(
        text(&yards, "/yards/0/name"),
        "Maple",
        "Ben's arrived: {yards}"
    );
    assert_eq!(
        yards["yards"].as_array().unwrap().len(),
        1,
        "Cleo's did not"
    );
    assert!(lead.state().is_some());
}
