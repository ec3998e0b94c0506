//! Locked files between phones in memory: who can open them, what a damaged one does, how long
//! they are.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use proptest::prelude::*;
use sward_book::BookError;
use sward_book::env::TimeProof;
use sward_book::fact::{Fact, TimeConfirmed};
use sward_book::ids::{Hash, StreamId};
use sward_crew::testing::{MemoryLog, Phone};
use sward_crew::{CrewError, Log, Standing};

/// Takes a file that must be refused, and checks that nothing was stored.
fn refused(phone: &mut Phone, file: &[u8]) -> CrewError {
    let before = phone.log.clone();
    let error = phone.take(file).expect_err("must be refused");
    assert!(phone.log == before, "something was stored: {error}");
    error
}

#[test]
fn three_phones_swap_in_an_awkward_order() {
    let (mut a, mut b) = Phone::crew_of_two();
    let mut c = Phone::joiner(3);
    let everyone = [a.keys(), b.keys(), c.keys()];
    a.work(3);
    b.work(2);
    c.work(4);
    let (early, _) = b.lock_for(&everyone).unwrap();
    a.admit(&c);
    let (from_a, _) = a.lock_for(&everyone).unwrap();
    assert!(matches!(refused(&mut c, &early), CrewError::DoesNotAdmit));
    let taken = c.take(&from_a).unwrap();
    assert_eq!(taken.joined, a.log.crew().unwrap());
    assert_eq!(
        taken.standing,
        Standing::Member(sward_book::fact::Role::CrewLead)
    );
    let (from_c, _) = c.lock_for(&everyone).unwrap();
    b.work(1);
    b.take(&from_c).unwrap();
    let again = b.take(&from_c).unwrap();
    assert_eq!((again.new_entries, again.joined), (0, None));
    assert!(again.refused.is_empty());
    c.take(&early).unwrap();
    let (from_b, made) = b.lock_for(&everyone).unwrap();
    assert_eq!(made.entries, b.log.len() as u64);
    for phone in [&mut a, &mut c] {
        let taken = phone.take(&from_b).unwrap();
        assert!(taken.refused.is_empty());
        assert_eq!(taken.from, b.stream());
        assert_eq!(taken.new_entries + taken.known_entries, made.entries);
    }
    assert_eq!(a.digest(), b.digest());
    assert_eq!(a.digest(), c.digest());
    // Founding; two requests and admissions; 3 + 2 + 4 + 1 of work.
    assert_eq!(a.log.len(), 1 + 4 + 10);
}

#[test]
fn what_is_counted_when_joining() {
    let mut lead = Phone::founder(1);
    let mut second = Phone::joiner(2);
    lead.admit(&second);
    lead.work(5);
    let (file, _) = lead.lock_for(&[second.keys()]).unwrap();
    let taken = second.take(&file).unwrap();
    // The joiner had its own request already.
    assert_eq!((taken.new_entries, taken.known_entries), (7, 1));
    assert_eq!(taken.heads.len(), 2);
}

#[test]
fn another_crew_and_another_phone_are_told_apart() {
    let (mut lead, mut second) = Phone::crew_of_two();
    let outsider = Phone::founder(5);
    let (theirs, _) = outsider.lock_for(&[lead.keys()]).unwrap();
    assert!(matches!(
        refused(&mut lead, &theirs),
        CrewError::AnotherCrew
    ));
    let (for_others, _) = lead.lock_for(&[outsider.keys()]).unwrap();
    assert!(matches!(
        refused(&mut second, &for_others),
        CrewError::NotForThisPhone
    ));
}

#[test]
fn a_phone_without_a_crew_needs_a_file_that_admits_it() {
    let (lead, _) = Phone::crew_of_two();
    let mut newcomer = Phone::joiner(3);
    let (not_admitted, _) = lead.lock_for(&[newcomer.keys()]).unwrap();
    assert!(matches!(
        refused(&mut newcomer, &not_admitted),
        CrewError::DoesNotAdmit
    ));
    let (not_for_it, _) = lead.lock_for(&[lead.keys()]).unwrap();
    assert!(matches!(
        refused(&mut newcomer, &not_for_it),
        CrewError::NotForThisPhone
    ));
    let nobody = newcomer.lock_for(&[lead.keys()]).unwrap_err();
    assert!(matches!(nobody, CrewError::NoCrew));
}

#[test]
fn a_founding_of_another_crew_among_the_entries_does_not_mislead() {
    let mut lead = Phone::founder(1);
    let mut newcomer = Phone::joiner(3);
    let other = Phone::founder(8);
    let foreign: Vec<Vec<u8>> = other.log.entries().map(|e| e.wire().to_vec()).collect();
    lead.log.take_in(&foreign, other.stream()).unwrap();
    lead.admit(&newcomer);
    let (file, _) = lead.lock_for(&[newcomer.keys()]).unwrap();
    assert_eq!(
        newcomer.take(&file).unwrap().joined,
        lead.log.crew().unwrap()
    );
}

#[test]
fn nothing_valid_is_refused_from_the_retired_and_the_unknown() {
    let (mut lead, mut second) = Phone::crew_of_two();
    lead.retire(second.stream(), None);
    second.work(3);
    let (late, _) = second.lock_for(&[lead.keys()]).unwrap();
    let taken = lead.take(&late).unwrap();
    assert_eq!((taken.standing, taken.new_entries), (Standing::Retired, 3));

    // Someone who knows the crew, but whom the crew does not know.
    let mut stranger = Phone::joiner(4);
    let founding: Vec<Vec<u8>> = lead.log.entries().map(|e| e.wire().to_vec()).collect();
    stranger
        .log
        .join(lead.log.crew().unwrap().unwrap(), &founding, lead.stream())
        .unwrap();
    stranger.work(2);
    let (strange, _) = stranger.lock_for(&[lead.keys()]).unwrap();
    let taken = lead.take(&strange).unwrap();
    assert_eq!((taken.standing, taken.new_entries), (Standing::Pending, 3));
}

#[test]
fn one_bad_stream_does_not_keep_the_others_out() {
    let (mut lead, mut second) = Phone::crew_of_two();
    let forger = Phone::new(6);
    let claim = forger.sign(1, Hash::NONE, vec![proven()]);
    let mut altered = claim.wire().to_vec();
    *altered.last_mut().unwrap() ^= 1;
    // A log that does not check what it hands out, as a hostile phone would.
    let mut hostile = Hostile {
        log: lead.log.clone(),
        extra: vec![altered, claim.wire().to_vec()],
    };
    hostile
        .extra
        .push(second.sign(1, Hash::NONE, vec![proven()]).wire().to_vec());
    lead.work(2);
    hostile.log = lead.log.clone();
    let file = lock_hostile(&lead, &hostile, &second);
    let taken = second.take(&file).unwrap();
    assert_eq!(taken.refused.len(), 1, "{:?}", taken.refused);
    assert!(
        matches!(&taken.refused[0], (Some(s), BookError::BadSignature) if *s == forger.stream())
    );
    // The two of work, and the other branch of its own stream.
    assert_eq!(taken.new_entries, 3);
    assert!(
        second
            .log
            .entries()
            .all(|e| e.body().stream != forger.stream())
    );
}

fn proven() -> Fact {
    Fact::TimeConfirmed(TimeConfirmed {
        how: TimeProof::Person,
    })
}

struct Hostile {
    log: MemoryLog,
    extra: Vec<Vec<u8>>,
}

impl Log for Hostile {
    fn crew(&self) -> sward_book::Result<Option<Hash>> {
        self.log.crew()
    }
    fn standing(&self, stream: StreamId) -> sward_book::Result<Standing> {
        self.log.standing(stream)
    }
    fn join(
        &mut self,
        crew: Hash,
        wires: &[Vec<u8>],
        from: StreamId,
    ) -> sward_book::Result<sward_crew::TakenIn> {
        self.log.join(crew, wires, from)
    }
    fn heads(&self) -> sward_book::Result<Vec<sward_book::log::Head>> {
        self.log.heads()
    }
    fn holds(&self, hash: Hash) -> sward_book::Result<bool> {
        self.log.holds(hash)
    }
    fn locator(&self, stream: StreamId) -> sward_book::Result<Vec<Hash>> {
        self.log.locator(stream)
    }
    fn entries_up_to(
        &self,
        tip: Hash,
        stop_at: &[Hash],
        bytes_max: usize,
    ) -> sward_book::Result<Vec<Vec<u8>>> {
        let mut wires = self.extra.clone();
        wires.extend(self.log.entries_up_to(tip, stop_at, bytes_max)?);
        Ok(wires)
    }
    fn take_in(
        &mut self,
        wires: &[Vec<u8>],
        from: StreamId,
    ) -> sward_book::Result<sward_crew::TakenIn> {
        self.log.take_in(wires, from)
    }
}

fn lock_hostile(sender: &Phone, log: &Hostile, to: &Phone) -> Vec<u8> {
    let locking = sward_crew::locked::Locking {
        secret: &sender.secret,
        members: &[to.keys()],
        made: sender.stamp(),
        since: &[],
    };
    let mut file = Vec::new();
    sward_crew::locked::make_locked_file(&mut file, &locking, log, sender.env.as_ref()).unwrap();
    file
}

#[test]
fn both_branches_of_a_fork_arrive_and_their_beginning_once() {
    let (mut lead, mut second) = Phone::crew_of_two();
    lead.work(4);
    let trunk = lead.log.heads().unwrap();
    let trunk = trunk.iter().find(|h| h.stream == lead.stream()).unwrap();
    let branch = lead.sign(
        trunk.seq,
        trunk_prev(&lead, trunk.hash),
        vec![proven(), proven()],
    );
    lead.log.add_own(branch);
    let (file, made) = lead.lock_for(&[second.keys()]).unwrap();
    assert_eq!(made.entries, lead.log.len() as u64);
    second.take(&file).unwrap();
    assert_eq!(lead.digest(), second.digest());
    assert_eq!(
        second
            .log
            .heads()
            .unwrap()
            .iter()
            .filter(|h| h.stream == lead.stream())
            .count(),
        2
    );
}

fn trunk_prev(phone: &Phone, hash: Hash) -> Hash {
    phone
        .log
        .entries()
        .find(|e| e.hash() == hash)
        .unwrap()
        .body()
        .prev
}

#[test]
fn a_file_of_only_what_is_new() {
    let (mut lead, mut second) = Phone::crew_of_two();
    let held: Vec<Hash> = second.log.heads().unwrap().iter().map(|h| h.hash).collect();
    lead.work(5);
    let (file, made) = lead.lock_since(&[second.keys()], &held).unwrap();
    assert_eq!(made.entries, 5);
    assert_eq!(second.take(&file).unwrap().new_entries, 5);
    assert_eq!(lead.digest(), second.digest());
}

#[test]
fn a_full_disk_keeps_what_came_before_and_goes_on_later() {
    let (mut lead, mut second) = Phone::crew_of_two();
    // More than one frame.
    lead.work(3000);
    let (file, _) = lead.lock_for(&[second.keys()]).unwrap();
    second.log.fill_up_after(Some(1));
    let full = second.take(&file).unwrap_err();
    assert!(matches!(full, CrewError::Book(BookError::DiskFull)));
    second.log.fill_up_after(None);
    second.take(&file).unwrap();
    assert_eq!(lead.digest(), second.digest());
}

#[test]
fn a_newer_format_is_refused_with_nothing_changed() {
    let (lead, mut second) = Phone::crew_of_two();
    let (mut file, _) = lead.lock_for(&[second.keys()]).unwrap();
    assert_eq!(&file[..24], b"swardbook locked file 1\n");
    file[22] = b'2';
    let newer = refused(&mut second, &file);
    let told = matches!(
        &newer,
        CrewError::Book(BookError::Newer {
            found: 2,
            known: 1,
            ..
        })
    );
    assert!(told, "{newer}");
    assert!(newer.to_string().contains("update this program"), "{newer}");
}

#[test]
fn other_files_are_told() {
    let (_, mut second) = Phone::crew_of_two();
    for file in [
        "",
        "swardbook",
        "swardbook locked file x\n",
        "<gpx></gpx>\n",
        "swardbook locked file 01\n",
    ] {
        let error = refused(&mut second, file.as_bytes());
        assert!(
            matches!(error, CrewError::OtherFile(_)),
            "{file:?}: {error}"
        );
    }
    let error = refused(&mut second, b"swardbook locked file 1\n");
    assert!(matches!(error, CrewError::Damaged(_)), "{error}");
}

#[test]
fn an_endless_list_of_stanzas_is_not_read_into_memory() {
    let (lead, mut second) = Phone::crew_of_two();
    let (file, _) = lead.lock_for(&[second.keys()]).unwrap();
    let mut endless = file[..56].to_vec();
    endless.extend_from_slice(b"age-encryption.org/v1\n-> ");
    endless.resize(1 << 20, b'a');
    assert!(matches!(
        refused(&mut second, &endless),
        CrewError::Damaged(_)
    ));
}

#[test]
fn a_member_with_an_unusable_key_is_left_out_and_named() {
    let (lead, mut second) = Phone::crew_of_two();
    let mut odd = second.keys();
    odd.stream = StreamId([4; 32]);
    odd.recipient = "age1odd".into();
    let (file, made) = lead
        .lock_for(&[odd.clone(), second.keys(), second.keys()])
        .unwrap();
    assert_eq!(made.left_out, [odd.stream]);
    second.take(&file).unwrap();
    let nobody = lead.lock_for(&[odd]).unwrap_err();
    assert!(matches!(nobody, CrewError::NobodyToLockFor));
}

/// The budget: 1.15 times the entries' own bytes, 300 bytes and 100 bytes a member, padding apart.
/// The age library adds a stanza of up to 190 random bytes to each file, which the 15 % cover from
/// about 2 KB of entries on.
#[test]
fn a_file_is_hardly_longer_than_its_entries() {
    let (mut lead, second) = Phone::crew_of_two();
    for (work, members) in [(10, 1), (100, 3), (1000, 8), (3000, 30)] {
        lead.work(work);
        let phones: Vec<Phone> = (0..members).map(|n| Phone::new(100 + n)).collect();
        let mut keys: Vec<_> = phones.iter().map(Phone::keys).collect();
        keys.pop();
        keys.push(second.keys());
        let (file, made) = lead.lock_for(&keys).unwrap();
        let unpadded = file.len() as u64 - made.padding_bytes;
        let most = made.entry_bytes * 115 / 100 + 300 + 100 * members;
        assert!(unpadded <= most, "{unpadded} > {most} for {made:?}");
        assert!(made.padding_bytes * 100 <= unpadded * 12, "{made:?}");
    }
}

#[test]
fn two_files_of_the_same_log_share_no_tag() {
    let (lead, second) = Phone::crew_of_two();
    let (one, _) = lead.lock_for(&[second.keys()]).unwrap();
    let (two, _) = lead.lock_for(&[second.keys()]).unwrap();
    assert_ne!(one[24..56], two[24..56]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_file_cut_anywhere_is_refused_whole(part in 0.0_f64..1.0) {
        let (mut lead, mut second) = Phone::crew_of_two();
        lead.work(20);
        let (file, _) = lead.lock_for(&[second.keys()]).unwrap();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within the file")]
        let cut = (file.len() as f64 * part) as usize;
        let error = refused(&mut second, &file[..cut]);
        prop_assert!(matches!(error, CrewError::Damaged(_) | CrewError::OtherFile(_)), "{}", error);
        prop_assert!(cut < 24 || matches!(error, CrewError::Damaged(_)), "{}", error);
    }

    #[test]
    fn a_file_altered_anywhere_is_refused_whole(at: prop::sample::Index, bit in 0_u8..8) {
        let (mut lead, mut second) = Phone::crew_of_two();
        lead.work(20);
        let (mut file, _) = lead.lock_for(&[second.keys()]).unwrap();
        let at = at.index(file.len());
        file[at] ^= 1 << bit;
        refused(&mut second, &file);
    }

    #[test]
    fn a_file_with_something_after_it_is_refused(more in prop::collection::vec(any::<u8>(), 1..200)) {
        let (lead, mut second) = Phone::crew_of_two();
        let (mut file, _) = lead.lock_for(&[second.keys()]).unwrap();
        file.extend(more);
        prop_assert!(matches!(refused(&mut second, &file), CrewError::Damaged(_)));
    }

    #[test]
    fn random_bytes_are_refused(start in 0_usize..3, bytes in prop::collection::vec(any::<u8>(), 0..2000)) {
        let (lead, mut second) = Phone::crew_of_two();
        let (file, _) = lead.lock_for(&[second.keys()]).unwrap();
        // From nothing, from the first line, from the crew tag on.
        let mut file = file[..[0, 24, 56][start]].to_vec();
        file.extend(bytes);
        refused(&mut second, &file);
        let mut newcomer = Phone::joiner(3);
        refused(&mut newcomer, &file);
    }
}
