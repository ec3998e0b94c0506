//! One book for the screens and for whatever runs beside them.

use std::time::{Duration, Instant};

use sward_book::sheet::SheetKind;
use sward_book::testing::{TestEnv, found};
use tempfile::TempDir;

use super::*;

fn opened(folder: &TempDir, env: &Arc<TestEnv>) -> Books {
    let setting = Setting {
        folder: folder.path().to_owned(),
        env: Arc::clone(env) as Arc<dyn Env>,
        zone: Tz::UTC,
        port: 0,
    };
    Books::open(setting).unwrap()
}

#[test]
fn a_book_is_begun_where_there_was_none() {
    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(11);
    let books = opened(&folder, &env);
    assert!(!books.has_book().unwrap());
    assert!(matches!(
        books.writing(|_| Ok(())),
        Err(Trouble::Book(BookError::NoBook(_)))
    ));
    let before = books.version();
    books
        .begin(|at, _| Ok(found(at, &env, "Núria Sample")?))
        .unwrap();
    assert!(books.has_book().unwrap());
    assert!(books.version() > before);
    let again = books.begin(|at, _| Ok(found(at, &env, "Another")?));
    assert!(matches!(
        again,
        Err(Trouble::Book(BookError::AlreadyABook(_)))
    ));
    assert!(books.has_book().unwrap(), "the first is still open");
}

#[test]
fn the_persons_own_book_is_meant_while_the_invented_season_is_looked_at() {
    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(12);
    drop(found(folder.path(), &env, "Núria Sample").unwrap());
    let books = opened(&folder, &env);
    let season = books.shared.folder_of(Which::Season);
    drop(found(&season, &TestEnv::new(13), "Nobody").unwrap());
    books.shared.open(Which::Season).unwrap();
    books
        .writing(|book| Ok(book.add_yard("Own lot", "", "UTC")?))
        .unwrap();
    let yards = books.reading(|book| Ok(book.yards()?)).unwrap();
    assert_eq!(yards.len(), 1);
    let seen = books
        .shared
        .reading(|book| book.unwrap().yards().unwrap().len());
    assert_eq!(seen.unwrap(), 0, "the season got none of it");
}

#[test]
fn a_change_wakes_who_waits_and_nothing_else_does() {
    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(14);
    drop(found(folder.path(), &env, "Núria Sample").unwrap());
    let books = opened(&folder, &env);
    let seen = books.version();
    let still = books.wait_for_change(seen, Duration::from_millis(30));
    assert_eq!(still.unwrap(), seen, "the time was up");
    let waiting = std::thread::scope(|scope| {
        let waits = scope.spawn(|| {
            let began = Instant::now();
            let version = books.wait_for_change(seen, Duration::from_mins(1)).unwrap();
            (version, began.elapsed())
        });
        books
            .writing(|book| Ok(book.add_sheet(SheetKind::Yard, &[("name", "Lot")])?))
            .unwrap();
        waits.join().unwrap()
    });
    assert!(waiting.0 > seen && waiting.1 < Duration::from_mins(1));
}

#[test]
fn what_went_wrong_is_said_in_the_language_asked_for() {
    let trouble = Trouble::Book(BookError::Busy);
    let (english, spanish) = (say(&trouble, "en-US"), say(&trouble, "es-MX,en"));
    assert_ne!(english, spanish);
    let folder = tempfile::tempdir().unwrap();
    let books = opened(&folder, &TestEnv::new(15));
    assert_eq!(books.say(&trouble, "es"), spanish);
    assert_eq!(books.language("fr,de"), "en", "what is not spoken here");
    books.shared.desk().set("language", "es").unwrap();
    assert_eq!(
        books.say(&trouble, "en-US"),
        spanish,
        "as set on the screens"
    );
}
