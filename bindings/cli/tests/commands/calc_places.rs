//! Signs, notices, keep-offs and record fields worked out without a book. What they mean is tested
//! in the rules.

use crate::support::{Phone, text};

const NEW_YORK: [&str; 4] = ["--state", "NY", "--zone", "America/New_York"];

fn calc<'a>(what: &'a str, more: &[&'a str]) -> Vec<&'a str> {
    let mut step = vec!["calc", what];
    step.extend(more);
    step
}

#[test]
fn a_sign_is_asked_for_by_its_own_state_only() {
    let phone = Phone::new();
    let mut step = calc("sign", &NEW_YORK);
    step.extend([
        "--ended",
        "2026-10-31 20:00",
        "--width",
        "5 in",
        "--height",
        "3 in",
        "--text",
    ]);
    let told = phone.does(step);
    assert_eq!(
        text(&told, "/earliest_removal/local"),
        "Sun 2026-11-01 19:00 EST"
    );
    assert_eq!(text(&told, "/rule/letters_least/value"), "0.375 [in_i]");
    assert_eq!(text(&told, "/this_sign/findings/0/verdict"), "caution");
    assert_eq!(
        text(&told, "/text_spanish/0"),
        "CÉSPED TRATADO CON PESTICIDA"
    );
    let ohio = phone.does([
        "calc",
        "sign",
        "--state",
        "Ohio",
        "--zone",
        "America/New_York",
        "--ended",
        "2026-10-31 20:00",
    ]);
    assert!(ohio["rule"].is_null() && ohio["earliest_removal"].is_null());
    assert_eq!(text(&ohio, "/finding/reason/reason"), "place-not-known");
}

#[test]
fn a_notice_waits_for_a_persons_word_about_the_county() {
    let phone = Phone::new();
    let mut step = calc("notice", &NEW_YORK);
    step.extend(["--start", "2026-11-01 08:00", "--distance", "120 ft"]);
    let told = phone.does(step.clone());
    assert_eq!(text(&told, "/latest/local"), "Fri 2026-10-30 09:00 EDT");
    assert_eq!(text(&told, "/finding/verdict"), "unknown");
    assert_eq!(told["neighbours"][0]["within"], true);
    step.extend(["--adopted", "yes", "--given", "2026-10-30 09:01"]);
    assert_eq!(text(&phone.does(step), "/finding/verdict"), "dont_treat");
}

#[test]
fn ground_that_two_treatments_reached_is_told_with_its_next_alarm() {
    let phone = Phone::new();
    let spray = "name=spray; finished=2026-10-31 20:00; wait=24 h; until-dry=nothing";
    let granules = "name=granules; finished=2026-10-31 21:00; wait=nothing; until-dry=yes; \
                    water-in=yes; dry=2026-10-31 22:00";
    let at = |now: &str, treatments: &[&str]| {
        let mut step = calc("keep-off", &["--zone", "America/New_York", "--now", now]);
        for treatment in treatments {
            step.extend(["--treatment", treatment]);
        }
        phone.does(step)
    };
    let one = at("2026-11-01 18:59", &[spray]);
    assert_eq!(text(&one, "/next/local"), "Sun 2026-11-01 19:00 EST");
    assert_eq!(one["free"], false);
    assert_eq!(at("2026-11-01 19:00", &[spray])["free"], true);
    let both = at("2026-11-01 19:00", &[spray, granules]);
    assert_eq!(
        (&both["free"], text(&both, "/next_step")),
        (&false.into(), "water_in".into())
    );
    // A lawn is no sod farm: the interval for farm workers changes nothing.
    let lawn = format!("{spray}; site=lawn; worker-interval=48 h");
    assert_eq!(at("2026-11-01 19:00", &[&lawn])["free"], true);
    let farm = format!("{spray}; site=sod-farm; worker-interval=48 h");
    assert_eq!(at("2026-11-01 19:00", &[&farm])["free"], false);
    let place = format!("{spray}; place-wait=72 h");
    assert_eq!(
        text(
            &at("2026-11-01 19:00", &[&place]),
            "/treatments/0/notes/0/reason"
        ),
        "place-asks-longer"
    );
}

#[test]
fn record_fields_are_told_rule_by_rule_and_no_rule_stands_in() {
    let phone = Phone::new();
    let told = phone.does([
        "calc",
        "record-fields",
        "--state",
        "MN",
        "--restricted-use",
        "no",
        "--filled",
        "product",
        "--ended",
        "2026-06-15 21:00",
        "--zone",
        "America/Chicago",
    ]);
    let rules = told["rules"].as_array().unwrap();
    assert_eq!(rules.len(), 1);
    assert_eq!(text(&rules[0], "/keep_years/mark"), "from_memory");
    assert_eq!(text(&rules[0], "/times/write_by"), "2026-06-20");
    let product = rules[0]["fields"]
        .as_array()
        .unwrap()
        .iter()
        .find(|f| f["field"] == "product")
        .unwrap();
    assert_eq!(product["filled"], "yes");
    let florida = phone.does([
        "calc",
        "record-fields",
        "--state",
        "FL",
        "--restricted-use",
        "no",
    ]);
    assert_eq!(florida["rules"].as_array().unwrap().len(), 0);
}

#[test]
fn slips_name_their_field_and_show_an_example() {
    let phone = Phone::new();
    let refused = |step: Vec<&str>, said: &[&str]| {
        let told = phone.is_refused(step, 1);
        for part in said {
            assert!(told.contains(part), "{part}: {told}");
        }
    };
    let sign = |more: &[&'static str]| {
        let mut step = calc("sign", &NEW_YORK);
        step.extend(more);
        step
    };
    refused(sign(&["--ended", "20:00"]), &["ended", "2026-06-15"]);
    refused(
        sign(&["--ended", "2026-03-08 02:30"]),
        &["ended", "does not exist"],
    );
    let ended = ["--ended", "2026-06-15 20:00"];
    let of = |more: [&'static str; 2]| sign(&[ended[0], ended[1], more[0], more[1]]);
    refused(of(["--width", "5"]), &["width", "no unit"]);
    refused(
        of(["--bottom", "5 lb"]),
        &["bottom edge", "a length is needed"],
    );
    let treatment = |text: &'static str| {
        calc(
            "keep-off",
            &[
                "--zone",
                "America/New_York",
                "--now",
                "2026-06-15 20:00",
                "--treatment",
                text,
            ],
        )
    };
    refused(treatment("wait"), &["treatment 1", "wait=24 h"]);
    refused(
        treatment("wait=24 h"),
        &["treatment 1, started", "2026-06-15"],
    );
    refused(
        treatment("finished=2026-06-15 19:00; weight=1 h"),
        &["weight", "wait"],
    );
    refused(
        treatment("finished=2026-06-15 19:00; dry=now"),
        &["dry", "2026-06-15"],
    );
    let zone = calc(
        "keep-off",
        &["--zone", "Mars", "--now", "x", "--treatment", "a=b"],
    );
    refused(zone, &["zone", "America/New_York"]);
    let field = calc("record-fields", &["--state", "NY", "--filled", "colour"]);
    refused(field, &["filled", "wind-speed"]);
}
