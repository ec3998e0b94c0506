//! Swaps between real books on disk: by locked files in an awkward order, by an exchange over a
//! socket, and what happens to copies, gaps, clocks and a lost crew lead.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::collections::BTreeSet;
use std::fs;
use std::io::{Cursor, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::Path;
use std::sync::{Arc, mpsc};
use std::thread;

use sward_book::book::{Founding, Joining};
use sward_book::env::Env;
use sward_book::fact::{Fact, Role};
use sward_book::ids::{Hash, StreamId};
use sward_book::sheet::SheetKind;
use sward_book::testing::{TestEnv, person};
use sward_book::{Book, BookError};
use sward_crew::exchange::{Exchange, Side};
use sward_crew::join::{make_request, read_request};
use sward_crew::keys::{device_keys, new_device_secret};
use sward_crew::locked::Progress;
use sward_crew::recovery::RecoveryCode;
use sward_crew::swap::{
    Swapped, learn_from_exchange, lock_for_crew, stamp_of, take_into_book, take_into_book_telling,
};
use sward_crew::testing::{Ends, Line};
use sward_crew::{CrewError, Log, Standing};
use tempfile::TempDir;

struct Phone {
    folder: TempDir,
    env: Arc<TestEnv>,
    book: Book,
}

impl Phone {
    fn founder(seed: u64, recovery_key: StreamId) -> Self {
        let (folder, env) = (TempDir::new().unwrap(), TestEnv::new(seed));
        let secret = new_device_secret(env.as_ref());
        let recipient = device_keys(&secret).unwrap().recipient;
        let founding = Founding {
            crew: "Test crew".into(),
            practice: false,
            recovery_key,
            person: person("Lead"),
            secret,
            recipient,
        };
        let book = Book::found(&folder.path().join("book"), env.clone(), founding).unwrap();
        Self { folder, env, book }
    }

    fn joiner(seed: u64, practice: bool) -> Self {
        let (folder, env) = (TempDir::new().unwrap(), TestEnv::new(seed));
        let secret = new_device_secret(env.as_ref());
        let recipient = device_keys(&secret).unwrap().recipient;
        let joining = Joining {
            person: person("Helper"),
            practice,
            secret,
            recipient,
        };
        let book = Book::ask_to_join(&folder.path().join("book"), env.clone(), joining).unwrap();
        Self { folder, env, book }
    }

    fn stream(&self) -> StreamId {
        self.book.secret().unwrap().stream()
    }

    /// The way by a request file.
    fn admit(&mut self, other: &Self) {
        let file = make_request(&other.book.own_request_entry().unwrap()).unwrap();
        let request = read_request(&file).unwrap();
        self.book
            .take_in(&[request.entry.wire().to_vec()], Some(other.stream()))
            .unwrap();
        self.book.admit(&request.asked, Role::Applicator).unwrap();
    }

    fn file(&self) -> Vec<u8> {
        self.file_since(&[])
    }

    fn file_since(&self, since: &[Hash]) -> Vec<u8> {
        let mut file = Vec::new();
        lock_for_crew(&self.book, since, &mut file).unwrap();
        file
    }

    fn take(&mut self, file: &[u8]) -> Swapped {
        take_into_book(&mut self.book, Cursor::new(file)).unwrap()
    }

    /// A file that must be refused, and change nothing.
    fn refuse(&mut self, file: &[u8]) -> CrewError {
        let before = (self.book.compared().unwrap(), self.book.crew());
        let error = take_into_book(&mut self.book, Cursor::new(file)).unwrap_err();
        assert_eq!(
            (self.book.compared().unwrap(), self.book.crew()),
            before,
            "{error}"
        );
        error
    }

    fn yard(&mut self, name: &str) {
        self.book
            .add_yard(name, "1 Example Street", "America/New_York")
            .unwrap();
    }

    fn yards(&self) -> BTreeSet<String> {
        self.book
            .yards()
            .unwrap()
            .iter()
            .map(|y| y.name.clone())
            .collect()
    }
}

fn crew_of_three() -> [Phone; 3] {
    let mut lead = Phone::founder(1, StreamId([9; 32]));
    let mut second = Phone::joiner(2, false);
    let mut third = Phone::joiner(3, false);
    lead.admit(&second);
    lead.admit(&third);
    let file = lead.file();
    second.take(&file);
    third.take(&file);
    [lead, second, third]
}

fn assert_equal(phones: &[&Phone]) {
    let first = phones[0].book.compared().unwrap();
    for phone in &phones[1..] {
        assert_eq!(phone.book.compared().unwrap(), first);
    }
    for phone in phones {
        let verified = phone.book.verify(&mut |_, _| {}).unwrap();
        assert!(
            verified.faults.is_empty() && verified.entries > 0,
            "{verified:?}"
        );
    }
}

#[test]
fn three_books_swap_by_files_in_an_awkward_order() {
    let [mut a, mut b, mut c] = crew_of_three();
    a.yard("North");
    let first_of_a = a.file();
    a.yard("East");
    b.yard("South");
    c.yard("West");
    let second_of_a = a.file();
    // The later file first, the earlier one after it, one of them twice.
    let taken = b.take(&second_of_a).taken;
    assert!(taken.new_entries > 0 && taken.refused.is_empty());
    assert_eq!(taken.standing, Standing::Member(Role::CrewLead));
    assert_eq!(b.take(&first_of_a).taken.new_entries, 0);
    assert_eq!(b.take(&second_of_a).taken.new_entries, 0);
    let of_b = b.file();
    c.take(&of_b);
    c.yard("Middle");
    let of_c = c.file();
    a.take(&of_c);
    a.take(&of_b);
    b.take(&of_c);
    assert_equal(&[&a, &b, &c]);
    let names = ["East", "Middle", "North", "South", "West"].map(String::from);
    assert_eq!(a.yards(), BTreeSet::from(names));
    // Each knows what the others said they hold.
    let told = b
        .book
        .peers()
        .unwrap()
        .into_iter()
        .find(|p| p.stream == c.stream())
        .unwrap();
    assert_eq!(told.heads, c.book.heads().unwrap());
}

#[test]
fn a_file_cut_altered_or_of_another_crew_changes_nothing() {
    let [mut a, mut b, _] = crew_of_three();
    a.yard("North");
    let file = a.file();
    for cut in [0, 10, 24, 40, 56, 200, file.len() / 2, file.len() - 1] {
        b.refuse(&file[..cut]);
    }
    for at in [30, 60, 150, file.len() / 2, file.len() - 1] {
        let mut altered = file.clone();
        altered[at] ^= 4;
        b.refuse(&altered);
    }
    let mut others = Phone::founder(7, StreamId([8; 32]));
    assert!(matches!(others.refuse(&file), CrewError::AnotherCrew));
    let mut uninvited = Phone::joiner(8, false);
    assert!(matches!(
        uninvited.refuse(&file),
        CrewError::NotForThisPhone
    ));
}

#[test]
fn practice_and_earnest_do_not_mix() {
    let mut lead = Phone::founder(1, StreamId([9; 32]));
    let mut pupil = Phone::joiner(2, true);
    lead.admit(&pupil);
    let told = pupil.refuse(&lead.file());
    assert!(
        matches!(&told, CrewError::Book(BookError::Refused(_))),
        "{told}"
    );
}

#[test]
fn a_retired_phone_gets_no_more_files_and_what_it_brings_is_logged() {
    let [mut a, mut b, mut c] = crew_of_three();
    a.book.retire(b.stream(), "lost").unwrap();
    a.yard("North");
    assert!(matches!(b.refuse(&a.file()), CrewError::NotForThisPhone));
    b.yard("Late");
    let late = b.file();
    let taken = a.take(&late).taken;
    assert_eq!(taken.standing, Standing::Retired);
    assert!(taken.new_entries > 0 && taken.refused.is_empty());
    c.take(&a.file());
    assert_equal(&[&a, &c]);
}

#[test]
fn a_gap_waits_and_is_closed_by_an_exchange() {
    let [mut a, mut b, _] = crew_of_three();
    a.yard("North");
    let heads: Vec<Hash> = a.book.heads().unwrap().iter().map(|h| h.hash).collect();
    a.yard("East");
    // B has not got the first one.
    b.take(&a.file_since(&heads));
    assert!(!b.book.waiting_for().unwrap().is_empty());
    let tip = a
        .book
        .heads()
        .unwrap()
        .into_iter()
        .find(|h| h.stream == a.stream())
        .unwrap();
    assert!(!Log::holds(&b.book, tip.hash).unwrap());
    exchange_in_memory(&mut a, &mut b);
    assert!(b.book.waiting_for().unwrap().is_empty());
    assert!(Log::holds(&b.book, tip.hash).unwrap());
    assert_equal(&[&a, &b]);
}

fn exchange_in_memory(a: &mut Phone, b: &mut Phone) {
    let ends = |phone: &mut Phone| (phone.stream(), stamp_of(&phone.book).unwrap());
    let ((a_stream, a_clock), (b_stream, b_clock)) = (ends(a), ends(b));
    let opens = Ends {
        stream: a_stream,
        clock: a_clock,
        log: &mut a.book,
    };
    let answers = Ends {
        stream: b_stream,
        clock: b_clock,
        log: &mut b.book,
    };
    let mut line = Line::open(opens, answers).unwrap();
    line.run_out().unwrap();
    assert!(line.is_done());
}

#[test]
fn a_book_copied_to_a_second_phone_and_used_on_both_loses_nothing() {
    let [mut a, mut b, mut c] = crew_of_three();
    b.yard("Before");
    let copy_folder = TempDir::new().unwrap();
    let Phone { folder, env, book } = b;
    drop(book);
    copy_folder_of_book(
        &folder.path().join("book"),
        &copy_folder.path().join("book"),
    );
    let mut b = Phone {
        book: Book::open(&folder.path().join("book"), env.clone()).unwrap(),
        folder,
        env,
    };
    let env = TestEnv::new(22);
    let book = Book::open(&copy_folder.path().join("book"), env.clone()).unwrap();
    let mut copy = Phone {
        folder: copy_folder,
        env,
        book,
    };
    b.yard("On the first");
    copy.yard("On the copy");
    a.take(&b.file());
    a.take(&copy.file());
    a.yard("Lead");
    let of_a = a.file();
    c.take(&of_a);
    assert_equal(&[&a, &c]);
    for phone in [&mut b, &mut copy] {
        phone.take(&of_a);
        assert!(phone.book.must_begin_anew().unwrap());
    }
    assert_equal(&[&a, &b, &copy]);
    let names = ["Before", "Lead", "On the copy", "On the first"].map(String::from);
    assert_eq!(a.yards(), BTreeSet::from(names));
    // The branches go over an exchange just as well.
    let mut late = Phone::joiner(5, false);
    a.admit(&late);
    late.take(&a.file());
    exchange_in_memory(&mut late, &mut c);
    assert_equal(&[&a, &late, &c]);
}

fn copy_folder_of_book(from: &Path, to: &Path) {
    fs::create_dir(to).unwrap();
    for file in fs::read_dir(from).unwrap() {
        let file = file.unwrap();
        fs::copy(file.path(), to.join(file.file_name())).unwrap();
    }
}

#[test]
fn a_clock_in_2035_is_noted_once() {
    const IN_2035_UTC_MS: i64 = 2_065_000_000_000;
    let [mut a, mut b, _] = crew_of_three();
    b.env.set_wall_clock(IN_2035_UTC_MS);
    b.yard("South");
    let file = b.file();
    assert!(a.take(&file).clock_noted);
    assert!(!a.take(&file).clock_noted);
    // A file from long ago says nothing of the clock.
    let old = a.file();
    b.env.pass_ms(86_400_000);
    assert!(!b.take(&old).clock_noted);
    let seen = a
        .book
        .heads()
        .unwrap()
        .into_iter()
        .find(|h| h.stream == a.stream())
        .unwrap();
    let facts = a.book.entry(seen.hash).unwrap().body().facts.clone();
    assert!(
        matches!(&facts[..], [Fact::ClockSeen(s)] if s.stream == b.stream()),
        "{facts:?}"
    );
}

#[test]
fn the_recovery_code_makes_a_crew_lead_when_the_lead_is_lost() {
    let code = RecoveryCode::new(TestEnv::new(50).as_ref());
    let mut lead = Phone::founder(1, code.public());
    let mut second = Phone::joiner(2, false);
    lead.admit(&second);
    second.take(&lead.file());
    drop(lead);
    let typed = RecoveryCode::read(&code.printed()).unwrap();
    let crew = second.book.crew().unwrap();
    let (_, founding) = second
        .book
        .fact(sward_book::ids::FactId {
            entry: crew,
            index: 0,
        })
        .unwrap();
    let Fact::Founded(founded) = founding else {
        panic!("the crew's entry founds it")
    };
    let keys = device_keys(second.book.secret().unwrap()).unwrap();
    let recovered = typed.sign(crew, &founded, keys, person("Helper")).unwrap();
    second.book.recover(recovered).unwrap();
    assert!(second.book.roster().is_lead(second.stream()));
    let other = RecoveryCode::new(TestEnv::new(51).as_ref());
    let keys = device_keys(second.book.secret().unwrap()).unwrap();
    let refused = other.sign(crew, &founded, keys, person("Helper"));
    assert!(matches!(refused, Err(CrewError::RecoveryOfAnotherCrew)));
}

/// Runs one end of an exchange over a socket, each message with its length before it.
fn run_over(mut socket: TcpStream, side: Side, folder: &Path, env: Arc<TestEnv>, peer: StreamId) {
    let mut book = Book::open(folder, env as Arc<dyn Env>).unwrap();
    let me = book.secret().unwrap().stream();
    let mut exchange = Exchange::new(side, me, peer, &book, book.env().clone().as_ref()).unwrap();
    // Writing in a thread of its own: both ends may have a chunk to send at once.
    let (send, to_send) = mpsc::channel::<Vec<u8>>();
    let mut out = socket.try_clone().unwrap();
    let writer = thread::spawn(move || {
        for message in to_send {
            out.write_all(&u32::try_from(message.len()).unwrap().to_be_bytes())
                .unwrap();
            out.write_all(&message).unwrap();
        }
    });
    let now = stamp_of(&book).unwrap();
    for message in exchange.begin(now, &book).unwrap() {
        send.send(message).unwrap();
    }
    while !exchange.is_done() {
        let mut length = [0; 4];
        socket.read_exact(&mut length).unwrap();
        let mut message = vec![0; u32::from_be_bytes(length) as usize];
        socket.read_exact(&mut message).unwrap();
        let now = stamp_of(&book).unwrap();
        for answer in exchange.on_message(&message, now, &mut book).unwrap() {
            send.send(answer).unwrap();
        }
    }
    drop(send);
    writer.join().unwrap();
    learn_from_exchange(&mut book, peer, &exchange).unwrap();
}

#[test]
fn two_books_exchange_over_a_socket() {
    let [mut a, mut b, mut c] = crew_of_three();
    for n in 0..40 {
        a.yard(&format!("A {n}"));
        b.yard(&format!("B {n}"));
    }
    c.yard("C");
    b.take(&c.file());
    let streams = (a.stream(), b.stream());
    let Phone {
        folder: a_folder,
        env: a_env,
        book,
    } = a;
    drop(book);
    let Phone {
        folder: b_folder,
        env: b_env,
        book,
    } = b;
    drop(book);
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let address = listener.local_addr().unwrap();
    let (a_path, b_path) = (a_folder.path().join("book"), b_folder.path().join("book"));
    thread::scope(|scope| {
        scope.spawn(|| {
            let (socket, _) = listener.accept().unwrap();
            run_over(socket, Side::Answers, &b_path, b_env.clone(), streams.0);
        });
        let socket = TcpStream::connect(address).unwrap();
        run_over(socket, Side::Opens, &a_path, a_env.clone(), streams.1);
    });
    let a = Phone {
        book: Book::open(&a_path, a_env.clone()).unwrap(),
        folder: a_folder,
        env: a_env,
    };
    let b = Phone {
        book: Book::open(&b_path, b_env.clone()).unwrap(),
        folder: b_folder,
        env: b_env,
    };
    assert_equal(&[&a, &b]);
    assert_eq!(a.yards().len(), 81);
    let told = a
        .book
        .peers()
        .unwrap()
        .into_iter()
        .find(|p| p.stream == streams.1)
        .unwrap();
    assert_eq!(told.heads, b.book.heads().unwrap());
}

#[test]
fn a_long_file_is_taken_in_batches_that_a_reader_sees() {
    const YARDS: usize = 100;
    let [mut a, mut b, _] = crew_of_three();
    // Text that does not pack well, so that a batch of 256 KiB holds some thirty of these entries.
    let mut state = 1_u32;
    let mut letter = move || {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        char::from(b'a' + u8::try_from(state >> 24).unwrap() % 26)
    };
    for number in 0..YARDS {
        let name = format!("Yard {number}");
        let [people, note] = [(); 2].map(|()| (0..7500).map(|_| letter()).collect::<String>());
        let typed = [("name", &name), ("people", &people), ("note", &note)];
        a.book
            .write(|w| {
                let yard = w.new_sheet(SheetKind::Yard)?;
                typed
                    .into_iter()
                    .try_for_each(|(key, text)| w.set(yard, SheetKind::Yard, key, text))
            })
            .unwrap();
    }
    let file = a.file();
    let folder = b.folder.path().join("book");
    let reader = Book::open_reading(&folder, b.env.clone()).unwrap();
    let mut told = Vec::new();
    let mut seen = Vec::new();
    let swapped = take_into_book_telling(&mut b.book, Cursor::new(&file), &mut |progress| {
        told.push(progress);
        seen.push(reader.yards().unwrap().len());
    })
    .unwrap();

    let taken: Vec<(u64, u64)> = told
        .iter()
        .filter_map(|progress| match progress {
            Progress::Taken { entries, of } => Some((*entries, *of)),
            _ => None,
        })
        .collect();
    assert!(taken.len() > 2, "{told:?}");
    assert!(
        taken
            .windows(2)
            .all(|w| w[0].0 < w[1].0 && w[0].1 == w[1].1)
    );
    let (entries, of) = *taken.last().unwrap();
    assert_eq!(
        (entries, of),
        (of, swapped.taken.new_entries + swapped.taken.known_entries)
    );
    // All of it is checked before any is taken, and each batch is there once it is told.
    let checked = told.len() - taken.len();
    assert!(
        told[..checked]
            .iter()
            .all(|p| matches!(p, Progress::Checked { .. }))
    );
    assert_eq!(told[checked - 1], Progress::Checked { entries: of });
    assert!(seen[..checked].iter().all(|yards| *yards == 0), "{seen:?}");
    assert!(seen[checked..].windows(2).all(|w| w[0] <= w[1]), "{seen:?}");
    assert!((1..YARDS).contains(&seen[checked]), "{seen:?}");
    assert_eq!(seen.last(), Some(&YARDS));
}
