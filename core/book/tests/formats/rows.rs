//! The store: its schema, and the rows of each view.

use std::sync::Arc;

use sward_book::Book;
use sward_book::action::{Incident, Start};
use sward_book::env::{Env, TimeProof};
use sward_book::fact::{IncidentWhat, ReturnWhat};
use sward_book::testing::{START_UTC_MS, TestEnv, found};
use sward_rules::Entered;
use sward_rules::measure::{Outline, Shape};

use crate::shown;

#[test]
fn the_schema() {
    let folder = tempfile::tempdir().unwrap();
    drop(found(folder.path(), &TestEnv::new(1), "lead").unwrap());
    let conn = rusqlite::Connection::open(folder.path().join("book.sqlite")).unwrap();
    let mut find = conn
        .prepare("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL")
        .unwrap();
    let sql: Vec<String> = find
        .query_map([], |r| r.get(0))
        .unwrap()
        .collect::<Result<_, _>>()
        .unwrap();
    insta::assert_snapshot!("schema", sql.join("\n\n"));
}

#[test]
fn the_rows_of_each_view() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = found(folder.path(), &TestEnv::new(1), "lead").unwrap();
    let yard = book
        .add_yard("Corner lot", "1 Test Lane", "America/New_York")
        .unwrap();
    let lawn = Shape::Circle {
        diameter: Entered::parse("80 ft").unwrap(),
    };
    book.add_section(
        yard,
        "round",
        &Outline {
            shape: lawn,
            left_out: Vec::new(),
        },
    )
    .unwrap();
    let label_sheet = book
        .add_label(&[("product", "Sample"), ("method", "granule")])
        .unwrap();
    let visit = book.open_visit(yard, "grubs").unwrap();
    book.record_findings(visit, label_sheet, Vec::new(), None)
        .unwrap();
    let start = Start {
        label_sheet,
        rate: Entered::parse("2.5 lb/1000 ft2").unwrap(),
        sections: Vec::new(),
        acknowledged: Vec::new(),
        against: None,
        equipment: None,
        lot: None,
        gear: None,
    };
    book.start(visit, start).unwrap();
    book.finish(visit, &[], "").unwrap();
    let spill = Incident {
        adds_to: None,
        yard: None,
        visit: Some(visit),
        what: IncidentWhat::Spill,
        told: "a bag tore".into(),
        done: "swept up".into(),
        who_called: String::new(),
        happened_utc_ms: START_UTC_MS,
    };
    book.file_incident(spill).unwrap();
    book.plan_return(visit, "2026-07-06", ReturnWhat::ReCheck, "")
        .unwrap();
    book.confirm_time(TimeProof::Person).unwrap();
    let compared = book.compared().unwrap();
    for (kind, subject, body) in compared.views {
        insta::assert_snapshot!(format!("view_{kind}_{}", subject.len()), shown(&body));
    }
    let found_by: Vec<String> = compared
        .found_by
        .into_iter()
        .map(|(kind, _, columns)| format!("{kind}: {columns}"))
        .collect();
    insta::assert_snapshot!("found_by", found_by.join("\n"));
}

#[test]
fn a_device_key_file_is_for_the_user_alone_and_is_read_back() {
    let folder = tempfile::tempdir().unwrap();
    let env = TestEnv::new(1);
    let book = found(folder.path(), &env, "lead").unwrap();
    let stream = book.secret().unwrap().stream();
    drop(book);
    let file = folder.path().join("device.key");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        assert_eq!(
            std::fs::metadata(&file).unwrap().permissions().mode() & 0o777,
            0o600
        );
    }
    let text = std::fs::read_to_string(&file).unwrap();
    assert!(
        text.starts_with("swardbook device key 1\n"),
        "it tells its format"
    );
    let again = Book::open(folder.path(), Arc::clone(&env) as Arc<dyn Env>).unwrap();
    assert_eq!(again.secret().unwrap().stream(), stream);
}
