//! A store copied to a second phone, or restored: both write the same numbers, nothing is lost.

use std::path::Path;
use std::sync::Arc;

use sward_book::Book;
use sward_book::book::Joining;
use sward_book::env::Env;
use sward_book::testing::{TestEnv, person, secret};
use sward_tests::crew::{Crew, sample, yard};
use sward_tests::orders::{for_every_order, with_observer};

fn copy_folder(from: &Path, to: &Path) {
    for file in std::fs::read_dir(from).unwrap() {
        let file = file.unwrap();
        std::fs::copy(file.path(), to.join(file.file_name())).unwrap();
    }
}

fn everything(book: &Book) -> Vec<Vec<u8>> {
    let mut wires = Vec::new();
    for head in book.heads().unwrap() {
        wires.extend(book.wires_up_to(head.hash, None, usize::MAX).unwrap());
    }
    wires
}

#[test]
fn a_store_used_on_two_phones_loses_nothing_and_both_begin_anew() {
    let mut crew = Crew::of(2).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let yard = yard(crew.book(0)).unwrap();
    crew.swap_all().unwrap();
    let visit = crew.book(1).open_visit(yard, "grubs").unwrap();

    // Phone 1 is closed and its folder copied, keys and all.
    let phone = crew.phones.pop().unwrap();
    let copied = tempfile::tempdir().unwrap();
    let original = phone.restart().unwrap();
    copy_folder(original.folder(), copied.path());
    crew.phones.push(original);
    let env = TestEnv::new(900);
    let mut copy = Book::open(copied.path(), Arc::clone(&env) as Arc<dyn Env>).unwrap();

    // Both go on under one key.
    for count in 1..4 {
        crew.book(1)
            .count(visit, "grubs", vec![sample(count)], "original")
            .unwrap();
        copy.count(visit, "grubs", vec![sample(10 + count)], "copy")
            .unwrap();
    }
    crew.book(1)
        .set_yard(yard, "note", "from the original")
        .unwrap();
    copy.set_yard(yard, "people", "from the copy").unwrap();

    let old = copy.secret().unwrap().stream();
    crew.book(0).take_in(&everything(&copy), Some(old)).unwrap();
    crew.give(1, 0).unwrap();
    assert_eq!(
        crew.phones[0]
            .book
            .heads()
            .unwrap()
            .iter()
            .filter(|h| h.stream == old)
            .count(),
        2
    );

    // The lead hands both branches to both; each sees its own key in use elsewhere.
    crew.give(0, 1).unwrap();
    copy.take_in(&everything(&crew.phones[0].book), None)
        .unwrap();
    assert!(copy.must_begin_anew().unwrap());
    assert!(crew.phones[1].book.must_begin_anew().unwrap());
    let refused = copy.open_visit(yard, "").unwrap_err().to_string();
    assert!(refused.contains("in use on another phone"), "{refused}");
    let (new_a, new_b) = (secret(env.as_ref()), secret(crew.phones[1].env.as_ref()));
    copy.begin_anew(new_a, "age1testcopy".into()).unwrap();
    crew.book(1)
        .begin_anew(new_b, "age1testoriginal".into())
        .unwrap();
    assert!(!copy.must_begin_anew().unwrap());

    // Both go on, as pending, until the crew lead admits them again.
    copy.count(visit, "grubs", vec![sample(99)], "copy, anew")
        .unwrap();
    crew.book(0).take_in(&everything(&copy), None).unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let view = book.visit(visit).unwrap();
        assert_eq!(
            view.history.len(),
            8,
            "opening, three and three counts, one anew"
        );
        let sheet = book.yard_sheet(yard).unwrap();
        assert_eq!(
            (sheet.note.as_str(), sheet.people.as_str()),
            ("from the original", "from the copy")
        );
    });
}

#[test]
fn a_restored_backup_takes_new_keys_and_asks_to_be_admitted_again() {
    let mut crew = Crew::of(2).unwrap();
    let yard = yard(crew.book(0)).unwrap();
    crew.swap_all().unwrap();
    let elsewhere = tempfile::tempdir().unwrap();
    let backup = elsewhere.path().join("backup");
    crew.phones[1].book.back_up(&backup).unwrap();
    assert!(
        crew.phones[1].book.back_up(&backup).is_err(),
        "a backup never overwrites"
    );

    let env = TestEnv::new(901);
    let folder = elsewhere.path().join("restored");
    let joining = Joining {
        person: person("phone1"),
        practice: false,
        secret: secret(env.as_ref()),
        recipient: "age1testrestored".into(),
    };
    let mut restored =
        Book::restore(&backup, &folder, Arc::clone(&env) as Arc<dyn Env>, joining).unwrap();
    let old = crew.phones[1].book.secret().unwrap().stream();
    assert_ne!(restored.secret().unwrap().stream(), old);
    assert_eq!(restored.yard_sheet(yard).unwrap().name, "Corner lot");
    let visit = restored.open_visit(yard, "grubs").unwrap();
    assert_eq!(
        restored.verify(&mut |_, _| {}).unwrap().faults,
        Vec::<String>::new()
    );

    crew.book(0).take_in(&everything(&restored), None).unwrap();
    let asked = restored.own_request().unwrap();
    assert_eq!(crew.phones[0].book.visit(visit).unwrap().questions.len(), 1);
    crew.book(0)
        .admit(&asked, sward_book::fact::Role::Applicator)
        .unwrap();
    assert_eq!(crew.phones[0].book.visit(visit).unwrap().questions, vec![]);
}

#[test]
fn what_is_no_whole_backup_is_not_restored() {
    let crew = Crew::of(1).unwrap();
    let elsewhere = tempfile::tempdir().unwrap();
    let backup = elsewhere.path().join("backup");
    crew.phones[0].book.back_up(&backup).unwrap();
    let whole = std::fs::read(&backup).unwrap();
    for damaged in [&whole[..whole.len() / 2], b"not a store", b""] {
        std::fs::write(&backup, damaged).unwrap();
        let env = TestEnv::new(902);
        let folder = elsewhere.path().join("restored");
        let joining = Joining {
            person: person("x"),
            practice: false,
            secret: secret(env.as_ref()),
            recipient: "age1test".into(),
        };
        assert!(Book::restore(&backup, &folder, env, joining).is_err());
        assert!(!folder.join("book.sqlite").exists());
        assert!(!folder.join("device.key").exists());
    }
}
