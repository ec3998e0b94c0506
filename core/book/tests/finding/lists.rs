//! Lists of visits: open, newest, due, with questions, and the search.
//!
//! Each is compared with the same taken out of everything.

use chrono::NaiveDate;
use sward_book::book::FindingWanted;
use sward_book::fact::{NotTreatedWhy, Replacement, ReturnWhat};
use sward_book::ids::VisitId;
use sward_book::view::visit::{VisitState, VisitView};

use crate::scene::{HOUR_MS, Scene};

fn names(visits: &[VisitView]) -> Vec<VisitId> {
    visits.iter().map(|v| v.visit).collect()
}

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

#[test]
fn quick_lists_are_what_a_slow_look_through_everything_says() {
    let mut scene = Scene::new();
    let label = scene.label("Granule A");
    let yards = [
        scene.yard("One", "1 Test Lane"),
        scene.yard("Two", "2 Test Lane"),
    ];
    for n in 0..9 {
        let yard = yards[n % 2];
        let visit = scene.visit(yard);
        match n % 3 {
            0 => drop(scene.start(visit, label)),
            1 => {
                scene.start(visit, label);
                scene.book.finish(visit, &[], "").unwrap();
            }
            _ => {}
        }
    }
    let book = &scene.book;
    let mut newest_first = book.visits().unwrap();
    newest_first.reverse();
    assert_eq!(book.visit_count().unwrap(), 9);
    assert_eq!(
        names(&book.visits_newest(100, None).unwrap()),
        names(&newest_first)
    );
    let mut paged = Vec::new();
    while let Ok(page) = book.visits_newest(
        2,
        paged.last().map(|v: &VisitView| (v.at_utc_ms(), v.visit)),
    ) && !page.is_empty()
    {
        assert!(page.len() <= 2);
        paged.extend(page);
    }
    assert_eq!(names(&paged), names(&newest_first));
    let open = |v: &&VisitView| matches!(v.state, VisitState::Looking | VisitState::Treating);
    let expected: Vec<VisitId> = newest_first.iter().filter(open).map(|v| v.visit).collect();
    assert_eq!(names(&book.visits_open().unwrap()), expected);
    for yard in yards {
        let there: Vec<&VisitView> = newest_first
            .iter()
            .filter(|v| v.yard == Some(yard))
            .collect();
        let two: Vec<VisitId> = there.iter().take(2).map(|v| v.visit).collect();
        assert_eq!(names(&book.visits_to_newest(yard, 2).unwrap()), two);
        let finished = there.iter().find(|v| v.state == VisitState::Finished);
        let last = book.last_treatment_of(yard).unwrap();
        assert_eq!(last.map(|v| v.visit), finished.map(|v| v.visit));
    }
    let (from, to) = (newest_first[6].at_utc_ms(), newest_first[2].at_utc_ms());
    let mut span: Vec<VisitId> = names(&newest_first[2..=6]);
    span.reverse();
    assert_eq!(names(&book.visits_between(from, to).unwrap()), span);
    scene.whole();
}

#[test]
fn visits_with_questions_are_found_until_they_are_settled() {
    let mut scene = Scene::new();
    let label = scene.label("Granule A");
    let yard = scene.yard("One", "1 Test Lane");
    let (visit, _) = scene.treated(yard, label);
    scene.visit(yard);
    assert_eq!(scene.book.visits_with_questions().unwrap(), vec![]);
    let now_ms = scene.book.visit(visit).unwrap().at_utc_ms();
    scene
        .book
        .load(
            visit,
            Vec::new(),
            crate::scene::amount("1 lb"),
            None,
            now_ms,
        )
        .unwrap();
    assert_eq!(names(&scene.book.visits_with_questions().unwrap()), [visit]);
    let addition = scene.book.visit(visit).unwrap().late[0].fact;
    scene
        .book
        .settle_late(visit, addition, true, "saw it")
        .unwrap();
    assert_eq!(scene.book.visits_with_questions().unwrap(), vec![]);
}

#[test]
fn a_return_is_due_until_somebody_went_there_again_or_took_it_back() {
    let mut scene = Scene::new();
    let label = scene.label("Granule A");
    let (one, two) = (scene.yard("One", ""), scene.yard("Two", ""));
    let (treated, _) = scene.treated(one, label);
    let looked = scene.visit(two);
    let due = |scene: &Scene, to: &str| names(&scene.book.returns_due(day(to)).unwrap());
    scene
        .book
        .not_treated(
            looked,
            NotTreatedWhy::BelowThreshold,
            "",
            Some("2026-06-29"),
        )
        .unwrap();
    scene
        .book
        .plan_return(treated, "2026-07-06", ReturnWhat::ReCheck, "")
        .unwrap();
    assert_eq!(due(&scene, "2026-06-28"), []);
    assert_eq!(due(&scene, "2026-06-29"), [looked]);
    assert_eq!(due(&scene, "2026-07-06"), [looked, treated]);
    // A later plan takes the place of the one before.
    scene
        .book
        .plan_return(looked, "2026-08-01", ReturnWhat::Other, "the owner is away")
        .unwrap();
    assert_eq!(due(&scene, "2026-07-31"), [treated]);
    let plan = scene.book.visit(looked).unwrap().return_day.unwrap();
    assert_eq!(
        (plan.day.as_str(), plan.what),
        ("2026-08-01", ReturnWhat::Other)
    );
    scene
        .book
        .correct(looked, vec![plan.fact], Replacement::Nothing, "not agreed")
        .unwrap();
    assert_eq!(due(&scene, "2026-07-31"), [looked, treated]);
    let again = scene.visit(one);
    assert_eq!(due(&scene, "2026-07-31"), [looked]);
    assert!(scene.book.visit(treated).unwrap().return_day.is_some());
    scene
        .book
        .plan_return(again, "2026-07-01", ReturnWhat::Look, "")
        .unwrap();
    assert_eq!(due(&scene, "2026-07-31"), [looked, again]);
    scene.whole();
}

#[test]
fn a_search_finds_places_products_people_and_pests_without_accents_or_case() {
    let mut scene = Scene::new();
    let (a, b) = (scene.label("Granule A"), scene.label("Spray B"));
    let (one, two) = (
        scene.yard("Casa Peñón", "5 Oak Road"),
        scene.yard("Mill", "7 Elm Road"),
    );
    let (first, _) = scene.treated(one, a);
    scene.env.pass_ms(u64::try_from(24 * HOUR_MS).unwrap());
    let (second, _) = scene.treated(two, b);
    let third = scene.visit(one);
    let found = |wanted: FindingWanted| names(&scene.book.find_visits(&wanted).unwrap());
    let text = |text: &str| FindingWanted {
        text: Some(text.to_owned()),
        ..FindingWanted::default()
    };
    assert_eq!(found(FindingWanted::default()), [third, second, first]);
    assert_eq!(found(text("PENON")), [third, first]);
    assert_eq!(found(text("  road ")), [third, second, first]);
    assert_eq!(found(text("road spray")), [second]);
    assert_eq!(found(text("nuria CHINCH")), [third, second, first]);
    assert_eq!(found(text("00000-0 oak")), [first]);
    assert_eq!(found(text("100% _")), []);
    assert_eq!(found(text("nobody")), []);
    let of = |wanted: FindingWanted| FindingWanted { limit: 1, ..wanted };
    assert_eq!(found(of(text("road"))), [third]);
    let product = |p: &str| FindingWanted {
        product: Some(p.to_owned()),
        ..FindingWanted::default()
    };
    assert_eq!(found(product("granule")), [first]);
    assert_eq!(found(product("núria")), [], "a person is no product");
    let person = FindingWanted {
        person: Some("sample".to_owned()),
        yard: Some(two),
        ..FindingWanted::default()
    };
    assert_eq!(found(person), [second]);
    let days = |from: &str, to: &str| FindingWanted {
        from_day: Some(day(from)),
        to_day: Some(day(to)),
        ..FindingWanted::default()
    };
    assert_eq!(found(days("2026-06-15", "2026-06-15")), [first]);
    assert_eq!(found(days("2026-06-16", "2026-06-30")), [third, second]);
    assert_eq!(found(days("2026-06-17", "2026-06-14")), []);
}

#[test]
fn what_no_peer_is_known_to_hold_is_counted() {
    let mut scene = Scene::new();
    let yard = scene.yard("One", "");
    let alone = scene.book.alone_here().unwrap();
    let heads = scene.book.heads().unwrap();
    assert_eq!(alone.entries, heads[0].seq);
    assert_eq!(alone.swapped, vec![]);
    let (near, far) = (
        sward_book::ids::StreamId([7; 32]),
        sward_book::ids::StreamId([8; 32]),
    );
    scene.book.note_peer(far, &[]).unwrap();
    scene.env.pass_ms(1_000);
    scene.book.note_peer(near, &heads).unwrap();
    let alone = scene.book.alone_here().unwrap();
    assert_eq!(alone.entries, 0);
    assert_eq!(
        alone.swapped.iter().map(|s| s.stream).collect::<Vec<_>>(),
        [near, far]
    );
    scene.visit(yard);
    scene.visit(yard);
    assert_eq!(scene.book.alone_here().unwrap().entries, 2);
    // A copy of this device that went on by itself vouches for nothing.
    let forged = sward_book::log::Head {
        seq: 1_000,
        hash: sward_book::ids::Hash([3; 32]),
        ..heads[0]
    };
    scene.book.note_peer(far, &[forged]).unwrap();
    assert_eq!(scene.book.alone_here().unwrap().entries, 2);
}
