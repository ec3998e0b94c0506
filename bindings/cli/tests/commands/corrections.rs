//! Corrections by one person, and settling what two phones recorded differently.

use crate::support::{Phone, finished, label, started, swap, text, yard_and_visit};

/// The last fact of the newest visit to the yard.
fn last_fact(phone: &Phone) -> String {
    let shown = phone.does(["visit", "show", "maple"]);
    text(
        shown["history"].as_array().unwrap().last().unwrap(),
        "/fact",
    )
}

fn questions(phone: &Phone) -> Vec<String> {
    let told = phone.does(["settle", "list"]);
    told["questions"]
        .as_array()
        .unwrap()
        .iter()
        .map(|q| text(q, "/question"))
        .collect()
}

#[test]
fn a_count_readings_and_answers_are_corrected_like_by_like() {
    let phone = Phone::founder("Ann");
    yard_and_visit(&phone);
    phone.does([
        "count",
        "maple",
        "--pest",
        "chinch bug",
        "--can",
        "6 in",
        "--counts",
        "3,4",
    ]);
    let count = last_fact(&phone);
    let wrong_kind = phone.is_refused(
        [
            "correct",
            "wind",
            "maple",
            count.as_str(),
            "--wind",
            "5 mph",
            "--why",
            "slip",
        ],
        1,
    );
    assert!(wrong_kind.contains("like by like"), "{wrong_kind}");
    let corrected = phone.does([
        "correct",
        "count",
        "maple",
        &count,
        "--pest",
        "chinch bug",
        "--can",
        "6 in",
        "--counts",
        "3,14",
        "--why",
        "slip",
    ]);
    assert_eq!(text(&corrected, "/supersedes/0"), count);

    phone.does(["reading", "maple", "--wind", "50 mph"]);
    let wind = last_fact(&phone);
    phone.does([
        "correct",
        "wind",
        "maple",
        &wind,
        "--wind",
        "5 mph gust 7 mph",
        "--why",
        "slip",
    ]);
    phone.does(["walk-round", "maple", "--cant", "gates"]);
    let round = last_fact(&phone);
    phone.does([
        "correct",
        "walk-round",
        "maple",
        &round,
        "--moved",
        "gates",
        "--why",
        "it could be shut",
    ]);
    phone.does(["reading", "maple", "--soil", "soaked"]);
    phone.does([
        "correct",
        "withdraw",
        "maple",
        &last_fact(&phone),
        "--why",
        "another yard",
    ]);

    let shown = phone.does(["visit", "show", "maple"]);
    let superseded = |f: &str| {
        let line = shown["history"]
            .as_array()
            .unwrap()
            .iter()
            .find(|l| l["fact"] == f)
            .unwrap();
        !line["superseded_by"].is_null()
    };
    assert!(superseded(&count) && superseded(&wind) && superseded(&round));
    let missing = phone.is_refused(
        ["correct", "withdraw", "maple", "ffffffff.0", "--why", "x"],
        1,
    );
    assert!(missing.contains("no fact in this visit"), "{missing}");
}

#[test]
fn a_load_is_corrected_and_the_record_frozen_anew() {
    let phone = Phone::founder("Ann");
    started(&phone);
    phone.does(["load", "maple", "--product", "52 lb", "--section", "front"]);
    let load = last_fact(&phone);
    phone.does(["finish", "maple"]);
    phone.does([
        "correct",
        "load",
        "maple",
        &load,
        "--product",
        "5.2 lb",
        "--section",
        "front",
        "--why",
        "slip",
    ]);
    let before = phone.does(["records", "show", "maple"]);
    assert_eq!(
        text(&before, "/records/0/treatment/product_total/entered"),
        "52 lb"
    );
    assert!(
        phone
            .is_refused(["finish", "maple"], 1)
            .contains("finished already")
    );
    phone.does([
        "correct",
        "finish",
        "maple",
        "--why",
        "the load was mistyped",
    ]);
    let after = phone.does(["records", "show", "maple"]);
    assert_eq!(after["records"].as_array().unwrap().len(), 1);
    assert_eq!(
        text(&after, "/records/0/treatment/product_total/entered"),
        "5.2 lb"
    );
    assert!(
        phone
            .is_refused(["correct", "finish", "maple", "--why", " "], 1)
            .contains("give a reason")
    );
}

#[test]
fn a_reason_for_not_treating_is_corrected() {
    let phone = Phone::founder("Ann");
    yard_and_visit(&phone);
    phone.does(["not-treated", "maple", "--why", "weather"]);
    let fact = last_fact(&phone);
    phone.does([
        "correct",
        "not-treated",
        "maple",
        &fact,
        "--why-not",
        "look-alike",
        "--why",
        "looked again",
    ]);
    let record = phone.does(["records", "show", "maple"]);
    assert_eq!(record["records"][0]["not_treated"]["why"], "look_alike");
}

#[test]
fn of_two_finishes_a_person_says_which_holds() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    started(&lead);
    swap(&lead, &ben);
    lead.does(["load", "maple", "--product", "5.2 lb"]);
    lead.does(["finish", "maple"]);
    let of_lead = last_fact(&lead);
    ben.does(["load", "maple", "--product", "5 lb"]);
    ben.does(["finish", "maple"]);
    swap(&lead, &ben);
    assert_eq!(questions(&lead), ["which_finish"]);
    let shown = lead.tries(["settle", "list"]);
    assert!(shown.out.contains("by Ben"), "{}", shown.out);
    assert!(
        lead.is_refused(["settle", "finish", "maple", &of_lead, "--why", ""], 1)
            .contains("reason")
    );
    lead.does([
        "settle",
        "finish",
        "maple",
        &of_lead,
        "--why",
        "the scale was mine",
    ]);
    assert!(questions(&lead).is_empty());
    swap(&lead, &ben);
    assert!(questions(&ben).is_empty());
}

#[test]
fn a_load_added_without_knowing_of_the_finish_is_settled() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    started(&lead);
    swap(&lead, &ben);
    lead.does(["finish", "maple"]);
    ben.does(["load", "maple", "--product", "1 lb"]);
    let load = last_fact(&ben);
    swap(&lead, &ben);
    assert_eq!(questions(&lead), ["late_load"]);
    lead.does([
        "settle",
        "late",
        "maple",
        &load,
        "--put-on",
        "yes",
        "--why",
        "Ben's own strip",
    ]);
    assert!(questions(&lead).is_empty());
    let record = lead.does(["records", "show", "maple"]);
    assert_eq!(record["records"][0]["late"][0]["counts"], true);
}

#[test]
fn one_visit_entered_twice_is_joined() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    finished(&lead);
    swap(&lead, &ben);
    let second = text(
        &ben.does(["visit", "open", "maple", "--target", "white grubs"]),
        "/visit",
    );
    ben.does([
        "plan",
        second.as_str(),
        "--label",
        "granule",
        "--rate",
        "2.5 lb/1000 ft2",
    ]);
    let told = ben.ends(["ready", second.as_str()], 3);
    let mut step = vec![
        "start".to_owned(),
        second.clone(),
        "--against".into(),
        "same job".into(),
    ];
    for finding in told["findings"].as_array().unwrap() {
        if finding["verdict"] == "unknown" {
            step.extend(["--acknowledge".to_owned(), text(finding, "/check")]);
        }
    }
    ben.does(step);
    swap(&lead, &ben);
    assert_eq!(questions(&lead), ["one_job"]);
    let pair = lead.does(["settle", "list"]);
    let (a, b) = (
        text(&pair, "/questions/0/visits/0"),
        text(&pair, "/questions/0/visits/1"),
    );
    lead.does(["settle", "one-job", &a, &b, "--same", "yes"]);
    assert!(questions(&lead).is_empty());
}

#[test]
fn fields_that_two_phones_filled_differently_are_settled() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    label(&lead);
    yard_and_visit(&lead);
    swap(&lead, &ben);
    lead.does(["label", "set", "granule", "wind_most=12 mph"]);
    ben.does(["label", "set", "granule", "wind_most=8 mph"]);
    lead.does(["yard", "set", "maple", "note=gate left"]);
    ben.does(["yard", "set", "maple", "note=gate right"]);
    swap(&lead, &ben);
    assert_eq!(questions(&lead), ["field", "field"]);
    let told = lead.does(["settle", "list"]);
    assert_eq!(
        text(&told, "/questions/0/acted_on"),
        "8 [mi_i]/h",
        "the safer one"
    );
    lead.does(["settle", "label", "granule", "wind_most", "12 mph"]);
    // The value that is shown already: choosing it has to end the question all the same.
    let shown = text(&lead.does(["yard", "show", "maple"]), "/note");
    lead.does(["settle", "yard", "maple", "note", &shown]);
    assert!(questions(&lead).is_empty(), "{:?}", questions(&lead));
    swap(&lead, &ben);
    assert!(questions(&ben).is_empty());
}
