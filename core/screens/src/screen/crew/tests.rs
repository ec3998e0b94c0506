//! What hangs in the air is told with whose it is, until what comes before it has arrived.

use std::sync::Arc;

use sward_book::fact::Role;
use sward_book::testing::{TestEnv, ask, found, give};
use sward_book::{Book, Env};

use super::SCREENS;
use crate::ask::Ask;
use crate::state::{Setting, Shared};
use crate::words::{Language, Units, Words};

/// The crew's screen on this folder, in one language.
fn shown(folder: &std::path::Path, env: &Arc<TestEnv>, language: Language) -> String {
    let setting = Setting {
        folder: folder.to_owned(),
        env: Arc::clone(env) as Arc<dyn Env>,
        zone: chrono_tz::UTC,
        port: 0,
    };
    let shared = Shared::new(setting).unwrap();
    let words = Words {
        language,
        units: Units::Us,
        zone: chrono_tz::UTC,
    };
    let page = shared.reading(|book| {
        let now = book.unwrap().now().unwrap();
        let ask = Ask::new(book, &shared, words, now, "/crew", &[], &[], None);
        (SCREENS[0].show)(&ask).map(|page| page.main.into_string())
    });
    page.unwrap().unwrap()
}

#[test]
fn entries_whose_forerunner_is_missing_are_told_until_it_is_there() {
    let folders = [(); 2].map(|()| tempfile::tempdir().unwrap());
    let envs = [TestEnv::new(1), TestEnv::new(2)];
    let mut lead = found(folders[0].path(), &envs[0], "Ana").unwrap();
    let (mut other, asked) = ask(folders[1].path(), &envs[1], "Ben").unwrap();
    lead.admit(&asked, Role::Applicator).unwrap();
    give(&lead, &mut other).unwrap();
    give(&other, &mut lead).unwrap();
    for name in ["Corner", "Hedge", "Pond"] {
        other.add_yard(name, "", "UTC").unwrap();
    }
    let own = other.secret().unwrap().stream();
    let head = other.heads().unwrap().into_iter().find(|h| h.stream == own);
    let wires = other
        .wires_up_to(head.unwrap().hash, None, usize::MAX)
        .unwrap();
    lead.take_in(&wires[wires.len() - 1..], None).unwrap();
    drop(lead);
    let page = shown(folders[0].path(), &envs[0], Language::English);
    assert!(page.contains("Waiting for entries"), "{page}");
    assert!(page.contains("Ben: 1 entry hangs in the air"), "{page}");
    let page = shown(folders[0].path(), &envs[0], Language::Spanish);
    assert!(
        page.contains("Ben: ") && !page.contains('\u{27e6}'),
        "{page}"
    );

    let env = Arc::clone(&envs[0]) as Arc<dyn Env>;
    let mut lead = Book::open(folders[0].path(), env).unwrap();
    give(&other, &mut lead).unwrap();
    drop(lead);
    let page = shown(folders[0].path(), &envs[0], Language::English);
    assert!(!page.contains("Waiting for entries"), "{page}");
}
