//! Keep-offs: claims, confirmations, a crew lead's release, and doubtful clocks.

use crate::support::{Phone, finished, started, swap, text};

fn state(phone: &Phone, section: &str) -> serde_json::Value {
    let all = phone.does(["keep-offs", "--all"]);
    let found = all["keep_offs"]
        .as_array()
        .unwrap()
        .iter()
        .find(|k| k["name"] == section);
    found
        .unwrap_or_else(|| panic!("no {section} in {all}"))
        .clone()
}

#[test]
fn it_has_no_end_before_the_finish_and_needs_a_look_after_the_wait() {
    let phone = Phone::founder("Ann");
    started(&phone);
    assert!(text(&state(&phone, "front"), "/told/until").contains("not finished"));
    phone.does(["load", "maple", "--product", "5.2 lb"]);
    assert!(
        phone
            .is_refused(["dry", "maple", "front"], 1)
            .contains("finish it first")
    );
    phone.does(["finish", "maple"]);
    let told = text(&state(&phone, "front"), "/told/until");
    assert!(
        told.contains("until Tue 2026-06-16 12:00 EDT, then until someone sees it dry"),
        "{told}"
    );
    assert!(
        phone
            .is_refused(["dry", "maple", "front", "--at", "07:00"], 1)
            .contains("look again")
    );
    phone.at("12:01");
    assert!(text(&state(&phone, "front"), "/told/until").contains("waits for someone"));
    phone.does(["dry", "maple", "front", "--at", "12:00"]);
    assert_eq!(state(&phone, "front")["keeps_off"], false);
    assert_eq!(state(&phone, "back")["keeps_off"], true);
}

#[test]
fn dry_is_asked_once_more() {
    let phone = Phone::founder("Ann");
    finished(&phone);
    let before = phone.state();
    let told = phone.tries(["dry", "maple", "front"]);
    assert_eq!(told.code, Some(2), "{}", told.err);
    assert_eq!(phone.state(), before);
}

#[test]
fn claims_confirmations_and_releases_need_a_reason() {
    let phone = Phone::founder("Ann");
    finished(&phone);
    phone.does([
        "keep-off",
        "claim",
        "maple",
        "front",
        "--wait",
        "24 h",
        "--until-dry",
        "no",
        "--why",
        "the label says 24 h",
    ]);
    assert!(text(&state(&phone, "front"), "/told/until").contains("Wed 2026-06-17 08:00 EDT"));
    phone.does([
        "keep-off",
        "confirm",
        "maple",
        "back",
        "--why",
        "read again",
    ]);
    let refused = phone.is_refused(
        [
            "keep-off",
            "claim",
            "maple",
            "front",
            "--wait",
            "24 ft",
            "--until-dry",
            "no",
            "--why",
            "x",
        ],
        1,
    );
    assert!(refused.contains("a time is needed"), "{refused}");
    let refused = phone.is_refused(["keep-off", "release", "maple", "back", "--why", " "], 1);
    assert!(refused.contains("give a reason"), "{refused}");
    phone.does([
        "keep-off",
        "release",
        "maple",
        "back",
        "--why",
        "fenced off",
    ]);
    assert_eq!(state(&phone, "back")["standing"], "released");
}

#[test]
fn only_a_crew_lead_lifts_one() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    finished(&ben);
    let told = ben.is_refused(
        ["keep-off", "release", "maple", "front", "--why", "hurry"],
        1,
    );
    assert!(told.contains("only a crew lead"), "{told}");
}

#[test]
fn a_clock_in_2035_makes_the_time_uncertain_and_never_over() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    swap(&lead, &ben);
    ben.at_time("2035-06-16T08:00:00-04:00");
    finished(&ben);
    let file = ben.makes_file();
    let taken = lead.at("09:00").takes(&file);
    assert_eq!(taken["clock_noted"], true);
    let told = state(&lead, "front");
    assert_eq!(told["keeps_off"], true);
    assert!(
        text(&told, "/told/until").contains("time uncertain"),
        "{told}"
    );
    assert!(lead.state().is_some());
}
