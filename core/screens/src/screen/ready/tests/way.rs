//! From an unchecked yard to a start: what is asked, what carries a start, and what does not.

use sward_book::fact::Fact;
use sward_book::view::visit::VisitState;

use crate::Trouble;
use crate::screen::treat::tests::scene::{Scene, sent};

#[test]
fn an_unchecked_yard_is_not_known_and_asks_for_what_is_missing() {
    let scene = Scene::new();
    let page = scene.show("/ready");
    assert!(page.contains("Not checked yet"), "{page}");
    assert!(page.contains("name=\"wind1\""));
    assert!(page.contains("name=\"soil\""));
    assert!(
        !page.contains("name=\"inversion\""),
        "granules ask for no inversion"
    );
    assert!(!page.contains("name=\"humidity\""));
    assert!(!page.contains("checked=\""), "nothing is filled in: {page}");
    assert!(
        !page.contains("value=\"start\""),
        "no start without a check"
    );
    let walk = scene.show("/ready/walk");
    assert!(!walk.contains("checked"), "{walk}");
    assert!(
        !walk.contains("name=\"laundry\""),
        "granules do not drift to laundry"
    );
}

#[test]
fn a_checked_yard_is_started_with_each_thing_not_known_acknowledged() {
    let scene = Scene::new();
    scene.look_well();
    let page = scene.show("/ready");
    assert!(page.contains("value=\"check\""), "{page}");
    scene.send("/ready", &[("do", "check")]);
    let page = scene.show("/ready");
    assert!(page.contains("You may start on it until"), "{page}");
    assert!(
        page.contains("name=\"ack.rain\""),
        "no forecast was taken in"
    );
    assert!(
        page.contains("Southwest") || page.contains("southwest"),
        "{page}"
    );

    let (trouble, page) = scene.refused("/ready", &[("do", "start"), ("ack.rain", "yes")]);
    assert!(trouble.of_field("ack.repeat").is_some(), "{trouble:?}");
    assert!(trouble.of_field("ack.rain").is_none());
    assert!(page.contains("Fill this in."));
    scene.send(
        "/ready",
        &[("do", "start"), ("ack.rain", "yes"), ("ack.repeat", "yes")],
    );
    let state = scene.book(|b| b.visit(scene.visit)).state;
    assert_eq!(state, VisitState::Treating);
    let page = scene.show("/ready");
    assert!(page.contains(&format!("/visit/{}/treat", scene.visit)));
    let Some(Fact::Started(start)) = scene
        .facts()
        .into_iter()
        .find(|f| matches!(f, Fact::Started(_)))
    else {
        panic!("a start is recorded");
    };
    assert_eq!(start.acknowledged.len(), 2);
    assert_eq!(start.gear.as_deref(), Some("gloves, boots"));
    assert_eq!(start.against, None);
}

#[test]
fn a_check_carries_no_start_after_a_quarter_of_an_hour() {
    let scene = Scene::new();
    scene.look_well();
    scene.send("/ready", &[("do", "check")]);
    scene.pass_min(16);
    let page = scene.show("/ready");
    assert!(page.contains("check again"), "{page}");
    assert!(!page.contains("value=\"start\""));
    let fields = [("do", "start"), ("ack.rain", "yes"), ("ack.repeat", "yes")];
    scene.act("/ready", &sent(&fields)).unwrap_err();
    let state = scene.book(|b| b.visit(scene.visit)).state;
    assert_eq!(state, VisitState::Looking);
}

#[test]
fn a_new_reading_or_another_rate_asks_for_a_new_check() {
    let scene = Scene::new();
    scene.look_well();
    scene.send("/ready", &[("do", "check")]);
    scene.send("/ready", &[("do", "seen"), ("soil", "soaked")]);
    let page = scene.show("/ready");
    assert!(page.contains("Something changed since"), "{page}");
    assert!(page.contains("don't treat"));
    let fields = [("do", "start"), ("ack.rain", "yes"), ("ack.repeat", "yes")];
    let trouble = scene.act("/ready", &sent(&fields)).unwrap_err();
    assert!(matches!(trouble, Trouble::Wrong(_)), "{trouble:?}");

    scene.send("/ready", &[("do", "check")]);
    let (trouble, _) = scene.refused("/ready", &fields);
    assert!(
        trouble.of_field("against").is_some(),
        "a hit limit needs its reason"
    );
}

#[test]
fn an_unproven_time_is_said_plainly() {
    let scene = Scene::new();
    scene.look_well();
    scene.screens.env.set_vouched(None);
    scene.screens.shared.changed();
    let page = scene.show("/ready");
    assert!(page.contains("Time uncertain"), "{page}");
    assert!(page.contains("href=\"/crew/time\""));
}

#[test]
fn a_report_and_a_forecast_stay_with_their_visit() {
    let scene = Scene::new();
    let report = "METAR KZZZ 151155Z 26020G30KT 10SM CLR 23/13 A3001=";
    scene.send("/ready", &[("do", "report"), ("text", report)]);
    let page = scene.show("/ready");
    assert!(page.contains("KZZZ"), "{page}");
    assert!(
        page.contains("above the label"),
        "a far wind can forbid: {page}"
    );
    let (trouble, _) = scene.refused("/ready", &[("do", "report"), ("text", "windy")]);
    assert!(trouble.of_field("text").is_some());
    let mut form = sent(&[("do", "forecast")]);
    let file = include_bytes!("../../../../../../fixtures/demo/forecast.json");
    form.files.push(("file".to_owned(), file.to_vec()));
    scene.act("/ready", &form).unwrap();
    let heard = scene
        .facts()
        .into_iter()
        .filter(|f| matches!(f, Fact::StationHeard(_)));
    assert_eq!(heard.count(), 2);
    assert!(scene.show("/ready").contains("Forecast made"));
}

#[test]
fn the_sun_is_told_where_the_yard_lies_and_its_hours_for_sprays() {
    let scene = Scene::new();
    let page = scene.show("/ready");
    assert!(page.contains("The sun today"), "{page}");
    assert!(page.contains("Where the yard lies is not known"), "{page}");
    scene.book(|book| {
        let yard = book.visit(scene.visit)?.yard.unwrap();
        book.set_yard(yard, "position", "42.443961, -76.501881")
    });
    let page = scene.show("/ready");
    assert!(
        page.contains("It rises at") && page.contains("It sets at"),
        "{page}"
    );
    assert!(page.contains("horizon"), "its working is there: {page}");
    assert!(
        !page.contains("commonly does not mix"),
        "granules do not hang in the air"
    );
    scene.book(|book| {
        let label = book.plan(scene.visit)?.unwrap().label.unwrap();
        book.set_label(label, "method", "foliar_spray")
    });
    let page = scene.show("/ready");
    assert!(page.contains("Air commonly does not mix from"), "{page}");
    assert!(page.contains("What lies down wind"), "{page}");
}

#[test]
fn a_marked_play_area_is_named_when_the_wind_blows_to_it() {
    use sward_book::sheet::SheetKind::Yard;
    let scene = Scene::new();
    scene.book(|book| {
        let yard = book.visit(scene.visit)?.yard.unwrap();
        for section in book.yard_sheet(yard)?.sections {
            let place = [("east", "0 m"), ("north", "0 m")];
            book.set_item(yard, Yard, "sections", section.id, &place)?;
        }
        for (kind, east) in [("play_area", "60 m"), ("hive", "-60 m"), ("tree", "61 m")] {
            let mark = [("kind", kind), ("east", east), ("north", "60 m")];
            book.add_item(yard, Yard, "marks", &mark)?;
        }
        let label = book.plan(scene.visit)?.unwrap().label.unwrap();
        book.set_label(label, "method", "foliar_spray")
    });
    let page = scene.show("/ready");
    assert!(page.contains("May lie down wind: play area."), "{page}");
    // The wind comes from the southwest.
    scene.look_well();
    let page = scene.show("/ready");
    assert!(page.contains("Down wind: play area."), "{page}");
    assert!(!page.contains("own wind: bee hive"), "{page}");
}
