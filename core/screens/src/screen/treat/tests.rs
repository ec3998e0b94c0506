//! From a start to the finish: loads, the check half-way, and when each section was last applied.

pub(in crate::screen) mod scene;

use sward_book::fact::{AftercareTask, Fact};

use scene::{Scene, sent};

#[test]
fn the_half_way_check_says_stop_above_the_labels_most() {
    let scene = Scene::new();
    scene.start();
    let page = scene.show("/treat");
    assert!(page.contains("nothing has to be tapped"), "{page}");
    // 5000 ft² at 2 lb/1000 ft².
    assert!(page.contains("10 lb"), "{page}");
    let read = |left| {
        [
            ("do", "half"),
            ("filled", "10"),
            ("filled.unit", "lb"),
            ("left", left),
            ("left.unit", "lb"),
            ("done", "50"),
            ("done.unit", "%"),
        ]
    };
    scene.send("/treat", &read("5"));
    let page = scene.show("/treat");
    assert!(page.contains("On the planned rate."));
    assert!(!page.contains("Pace for the rest"), "nothing to change");
    // 8 lb on half of it is 3.2 lb/1000 ft², above the label's 3.
    scene.send("/treat", &read("2"));
    let page = scene.show("/treat");
    assert!(page.contains("Stop: the part done is above"), "{page}");
    assert!(page.contains("3.2 lb/1000 ft²"));
    // Calibrated at 3 mph: 3.2 on what was to get 2, so 1.6 times as fast.
    assert!(
        page.contains("Pace for the rest") && page.contains("4.8 mph"),
        "{page}"
    );
    let (trouble, _) = scene.refused(
        "/treat",
        &[("do", "half"), ("filled", "10"), ("filled.unit", "lb")],
    );
    assert!(trouble.of_field("left").is_some() && trouble.of_field("done").is_some());
}

#[test]
fn a_finish_needs_its_time_and_amount_said() {
    let scene = Scene::new();
    scene.start();
    scene.pass_min(20);
    let (trouble, page) = scene.refused("/treat", &[("do", "finish")]);
    assert!(trouble.of_field("when").is_some() && trouble.of_field("product").is_some());
    assert!(page.contains("Fill this in."));
    let finished = scene.send(
        "/treat",
        &[
            ("do", "finish"),
            ("product", "9.8"),
            ("product.unit", "lb"),
            ("when", "now"),
            ("care", "gloves"),
            ("note", "gate left open"),
        ],
    );
    assert!(finished.ends_with("/keep-off"));
    assert_eq!(scene.last_applied(), [Some(scene.now_ms()); 2]);
    let page = scene.show("/treat");
    assert!(page.contains("9.8 lb"), "{page}");
    let gloves =
        |f: &Fact| matches!(f, Fact::Aftercare(a) if a.done[0].task == AftercareTask::GlovesWashed);
    assert!(scene.facts().iter().any(gloves));
    scene.send("/treat", &[("do", "care"), ("rinsed", "not"), ("note", "")]);
    assert!(scene.show("/treat").contains("Not done"));
    scene.act("/treat", &sent(&[("do", "care")])).unwrap_err();
}

#[test]
fn each_section_may_have_its_own_time_or_its_last_load() {
    let scene = Scene::new();
    scene.start();
    let ids = scene.keep_offs();
    scene.pass_min(30);
    let loaded_ms = scene.now_ms();
    for id in &ids {
        let fields = [
            ("do", "load"),
            ("product", "5"),
            ("product.unit", "lb"),
            ("on", id),
            ("when", "now"),
        ];
        scene.send("/treat", &fields);
    }
    let (trouble, _) = scene.refused(
        "/treat",
        &[
            ("do", "load"),
            ("product", "5"),
            ("product.unit", "lb"),
            ("when", "now"),
        ],
    );
    assert!(
        trouble.of_field("on").is_some(),
        "with two sections it says where"
    );
    scene.pass_min(10);
    assert!(scene.show("/treat").contains("Each with its last load"));
    let first = format!("at.{}", ids[0]);
    let second = format!("at.{}", ids[1]);
    let again = scene.act(
        "/treat",
        &sent(&[("do", "finish"), ("when", "at"), (&first, "08:20")]),
    );
    assert!(
        again.unwrap_err().of_field(&second).is_some(),
        "every section's time is needed"
    );
    scene.send("/treat", &[("do", "finish"), ("when", "loads")]);
    assert_eq!(scene.last_applied(), [Some(loaded_ms); 2]);
}

#[test]
fn before_a_start_the_way_leads_to_getting_ready() {
    let scene = Scene::new();
    let page = scene.show("/treat");
    assert!(
        page.contains(&format!("/visit/{}/ready", scene.visit)),
        "{page}"
    );
    scene
        .act("/treat", &sent(&[("do", "finish"), ("when", "now")]))
        .unwrap_err();
}

#[test]
fn a_finish_that_is_refused_leaves_no_load_behind() {
    let scene = Scene::new();
    scene.start();
    let note = "x".repeat(2001);
    let fields = [
        ("do", "finish"),
        ("product", "9.8"),
        ("product.unit", "lb"),
        ("when", "now"),
        ("note", note.as_str()),
    ];
    let (trouble, _) = scene.refused("/treat", &fields);
    assert!(trouble.of_field("note").is_some(), "{trouble:?}");
    let is_load = |f: &Fact| matches!(f, Fact::Loaded(_));
    assert!(!scene.facts().iter().any(is_load));
}

#[test]
fn more_left_than_filled_is_said_beside_what_is_left() {
    let scene = Scene::new();
    scene.start();
    let fields = [
        ("do", "half"),
        ("filled", "5"),
        ("filled.unit", "lb"),
        ("left", "6"),
        ("left.unit", "lb"),
        ("done", "50"),
        ("done.unit", "%"),
    ];
    let (trouble, _) = scene.refused("/treat", &fields);
    assert!(trouble.of_field("left").is_some(), "{trouble:?}");
}

#[test]
fn a_sheet_of_the_plan_that_has_not_arrived_hides_no_screen() {
    let scene = Scene::new();
    scene.start();
    let plan = [
        ("equipment", NOWHERE),
        ("stock", NOWHERE),
        ("swath", "8 ft"),
    ];
    scene.book(|book| book.set_plan(scene.visit, &plan));
    assert!(scene.show("/treat").contains("10 lb"));
    let plan = scene.show("/plan");
    assert!(plan.contains("On which swath"), "{plan}");
    assert!(scene.show("/ready").contains("/treat"));
}

/// The name of a sheet that nobody has.
const NOWHERE: &str = "00000000-0000-0000-0000-000000000001";
