//! What people record around a treatment, and the nonsense that is refused.
//!
//! How it merges is in the crew's own tests.

use sward_book::action::{Incident, treatment_of};
use sward_book::export::{RecordFilter, fields_asked, records, to_csv};
use sward_book::fact::{
    AftercareDone, AftercareTask, IncidentWhat, Replacement, ReturnWhat, TaskState, ToldHow,
};
use sward_book::ids::{IncidentId, KeepOffId, VisitId};
use sward_rules::Verdict;
use sward_rules::record_rules::{Asked, FieldName, Filled, RULES};
use uuid::Uuid;

use crate::scene::{Scene, amount};

fn incident(told: &str) -> Incident {
    Incident {
        adds_to: None,
        yard: None,
        visit: None,
        what: IncidentWhat::Spill,
        told: told.to_owned(),
        done: String::new(),
        who_called: String::new(),
        happened_utc_ms: sward_book::testing::START_UTC_MS,
    }
}

#[test]
fn what_was_done_around_a_treatment_stands_in_its_record() {
    let mut scene = Scene::new();
    let label = scene.label("Granule A");
    let yard = scene.yard("One", "1 Test Lane 12345");
    let visit = scene.visit(yard);
    let keep_off = scene.start(visit, label);
    let book = &mut scene.book;
    let answer = book
        .record_half_way(
            visit,
            amount("3.75 lb"),
            amount("3.75 lb"),
            amount("1.875 lb"),
            amount("50 %"),
        )
        .unwrap();
    assert_eq!(answer.value.finding.verdict, Verdict::Clear);
    let swept = AftercareDone {
        task: AftercareTask::HardSurfacesSwept,
        state: TaskState::Done,
    };
    book.record_aftercare(visit, vec![swept], "").unwrap();
    book.finish(visit, &[], "").unwrap();
    book.tell_keep_off(
        visit,
        &[keep_off, keep_off],
        " the owner ",
        ToldHow::Phone,
        true,
    )
    .unwrap();
    let filed = Incident {
        visit: Some(visit),
        ..incident("a bag tore")
    };
    let id = book.file_incident(filed).unwrap();
    let added = Incident {
        adds_to: Some(id),
        done: "swept up".to_owned(),
        ..incident("")
    };
    assert_eq!(book.file_incident(added).unwrap(), id);
    book.plan_return(visit, "2026-07-06", ReturnWhat::ReCheck, "")
        .unwrap();

    let view = book.incident(id).unwrap();
    assert_eq!((view.yard, view.visit), (Some(yard), Some(visit)));
    assert_eq!(view.lines.len(), 2);
    assert_eq!(book.incidents().unwrap(), std::slice::from_ref(&view));
    assert_eq!(book.keep_off(visit, keep_off).unwrap().told.len(), 1);
    let finish = book.visit(visit).unwrap().finish().unwrap();
    let frozen = treatment_of(book, finish).unwrap();
    assert_eq!(
        frozen.equipment.as_deref(),
        Some("drop spreader, setting 5")
    );
    assert_eq!((frozen.lot.as_deref(), frozen.gear), (Some("LOT-0"), None));
    assert_eq!(frozen.half_way.map(|h| h.len()), Some(1));
    assert_eq!(frozen.aftercare.map(|a| a.len()), Some(1));

    let records = records(book, &RecordFilter::default()).unwrap();
    let record = &records[0];
    let after = &record.after;
    assert_eq!(after.told[0].who, "the owner");
    assert_eq!(after.told[0].sections, ["front"]);
    assert_eq!(after.incidents[0].said.len(), 2);
    assert_eq!(after.return_planned.as_ref().unwrap().day, "2026-07-06");
    for rule in RULES {
        for Asked { field, filled } in fields_asked(record, rule) {
            match field {
                FieldName::Equipment | FieldName::UnexpectedOccurrence => {
                    assert_eq!(filled, Filled::Yes, "{field:?}");
                }
                FieldName::Disposal => assert_eq!(filled, Filled::LookInText),
                _ => {}
            }
        }
    }
    let csv = to_csv(&records);
    for part in [
        "LOT-0",
        "swept up",
        "the owner (phone) of front",
        "hard surfaces swept: done",
    ] {
        assert!(csv.contains(part), "{part} is missing in {csv}");
    }
    scene.whole();
}

#[test]
fn a_telling_that_was_taken_back_no_longer_shows_at_the_keep_off() {
    let mut scene = Scene::new();
    let label = scene.label("Granule A");
    let yard = scene.yard("One", "");
    let (visit, keep_off) = scene.treated(yard, label);
    scene
        .book
        .tell_keep_off(visit, &[keep_off], "the owner", ToldHow::Sign, false)
        .unwrap();
    let told = scene.book.keep_off(visit, keep_off).unwrap().told;
    scene
        .book
        .correct(visit, told, Replacement::Nothing, "nobody was there")
        .unwrap();
    assert_eq!(scene.book.keep_off(visit, keep_off).unwrap().told, vec![]);
}

#[test]
fn nonsense_is_refused_and_nothing_is_written() {
    let mut scene = Scene::new();
    let label = scene.label("Granule A");
    let yard = scene.yard("One", "");
    let other = scene.yard("Two", "");
    let looking = scene.visit(yard);
    let (visit, keep_off) = scene.treated(yard, label);
    let (nobody, nothing) = (VisitId(Uuid::nil()), KeepOffId(Uuid::nil()));
    let before = scene.book.compared().unwrap();
    let book = &mut scene.book;
    for day in [
        "",
        "soon",
        "2026-02-30",
        "2026-06-13",
        "2031-06-30",
        "+9999999-01-01",
    ] {
        let error = book.plan_return(visit, day, ReturnWhat::Look, "");
        assert!(error.is_err(), "{day}");
    }
    assert!(
        book.plan_return(nobody, "2026-07-01", ReturnWhat::Look, "")
            .is_err()
    );
    assert!(
        book.plan_return(visit, "2026-07-01", ReturnWhat::Other, " ")
            .is_err()
    );
    assert!(
        book.plan_return(visit, "2026-07-01", ReturnWhat::Look, "\u{7}")
            .is_err()
    );
    let mut tell = |keep_offs: &[KeepOffId], who: &str| {
        book.tell_keep_off(visit, keep_offs, who, ToldHow::Note, true)
    };
    assert!(tell(&[], "the owner").is_err());
    assert!(tell(&[keep_off], " \n").is_err());
    assert!(tell(&[nothing], "the owner").is_err());
    let done = AftercareDone {
        task: AftercareTask::Rinsed,
        state: TaskState::NotNeeded,
    };
    assert!(book.record_aftercare(looking, vec![done], "").is_err());
    assert!(book.record_aftercare(visit, vec![], " ").is_err());
    assert!(book.record_aftercare(visit, vec![done, done], "").is_err());
    let mut half_way = |visit, filled: &str, left: &str, done: &str| {
        book.record_half_way(
            visit,
            amount("3 lb"),
            amount(filled),
            amount(left),
            amount(done),
        )
    };
    assert!(half_way(looking, "3 lb", "1 lb", "50 %").is_err());
    assert!(half_way(visit, "1 lb", "3 lb", "50 %").is_err());
    assert!(half_way(visit, "3 lb", "1 lb", "0 %").is_err());
    assert!(half_way(visit, "3 lb", "1 gal", "50 %").is_err());
    let bad = [
        incident(" "),
        Incident {
            adds_to: Some(IncidentId(Uuid::nil())),
            ..incident("more")
        },
        Incident {
            visit: Some(nobody),
            ..incident("x")
        },
        Incident {
            yard: Some(other),
            visit: Some(visit),
            ..incident("x")
        },
        Incident {
            happened_utc_ms: i64::MAX,
            ..incident("x")
        },
    ];
    for filed in bad {
        let shown = format!("{filed:?}");
        assert!(book.file_incident(filed).is_err(), "{shown}");
    }
    assert_eq!(book.compared().unwrap(), before);
}
