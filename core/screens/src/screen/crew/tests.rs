//! What hangs in the air is told with whose it is, until what comes before it has arrived.

use sward_book::fact::Role;
use sward_book::testing::{TestEnv, ask, found, give};

use crate::testing::{Scene, words};
use crate::words::Language;

#[test]
fn entries_whose_forerunner_is_missing_are_told_until_it_is_there() {
    let [folder, other_folder] = [(); 2].map(|()| tempfile::tempdir().unwrap());
    let (env, other_env) = (TestEnv::new(1), TestEnv::new(2));
    let mut lead = found(folder.path(), &env, "Ana").unwrap();
    let (mut other, asked) = ask(other_folder.path(), &other_env, "Ben").unwrap();
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
    let scene = Scene::on(folder, env);
    let page = scene.show("/crew");
    assert!(page.contains("Waiting for entries"), "{page}");
    assert!(page.contains("Ben: 1 entry hangs in the air"), "{page}");
    let page = scene.shown(words(Language::Spanish), "/crew", None);
    assert!(page.unwrap().contains("Ben: "));

    scene.book(|lead| give(&other, lead));
    let page = scene.show("/crew");
    assert!(!page.contains("Waiting for entries"), "{page}");
}
