//! A visit in its order: look, measure, plan, ready, treat, keep off, and its record.

use std::ffi::OsStr;

use crate::support::{Phone, finished, planned, started, text, yard_and_visit};

/// A gridpoint forecast that begins the evening before and covers two days: calm and dry.
pub(crate) fn forecast(updated: &str, wind_unit: &str) -> String {
    let layer = |unit: &str, value: f64| {
        format!(
            r#"{{"uom": "{unit}", "values": [{{"validTime": "2026-06-16T00:00:00+00:00/P2DT0H", "value": {value}}}]}}"#
        )
    };
    format!(
        r#"{{"properties": {{"updateTime": "{updated}",
            "windSpeed": {wind}, "windGust": {gust}, "temperature": {air},
            "probabilityOfPrecipitation": {chance}, "quantitativePrecipitation": {rain}}}}}"#,
        wind = layer(wind_unit, 8.0),
        gust = layer("wmoUnit:km_h-1", 12.0),
        air = layer("wmoUnit:degC", 22.0),
        chance = layer("wmoUnit:percent", 3.0),
        rain = layer("wmoUnit:mm", 0.0),
    )
}

const METAR: &str = "METAR KZZZ 161151Z 25006KT 10SM CLR 22/12 A3002";

fn looked_at_everything(phone: &Phone, wind: &str) {
    let series = phone.write(
        "wind.csv",
        format!(
            "time,wind,gust,from\n07:56,{wind},,200\n07:58,{wind},{wind},210\n07:59,{wind},,205\n"
        ),
    );
    phone.does([
        OsStr::new("reading"),
        "maple".as_ref(),
        "--wind-file".as_ref(),
        series.as_ref(),
        "--air".as_ref(),
        "72 F".as_ref(),
        "--humidity".as_ref(),
        "55".as_ref(),
        "--soil".as_ref(),
        "fit".as_ref(),
        "--bloom".as_ref(),
        "none".as_ref(),
        "--inversion".as_ref(),
        "none".as_ref(),
    ]);
    phone.does([
        "walk-round",
        "maple",
        "--moved",
        "toys,bowls,gates,irrigation,people-and-pets",
        "--not-here",
        "pond-or-hive,puddles,drains,hard-surfaces",
    ]);
}

fn ready(phone: &Phone, code: i32) -> serde_json::Value {
    let file = phone.write(
        "forecast.json",
        forecast("2026-06-16T11:30:00+00:00", "wmoUnit:km_h-1"),
    );
    phone.ends(
        [
            OsStr::new("ready"),
            "maple".as_ref(),
            "--metar".as_ref(),
            METAR.as_ref(),
            "--forecast".as_ref(),
            file.as_ref(),
        ],
        code,
    )
}

#[test]
fn a_treatment_from_the_first_look_to_its_record() {
    let phone = Phone::founder("Ann Lead");
    planned(&phone);
    let counted = phone.does([
        "count",
        "maple",
        "--pest",
        "white grubs",
        "--sod",
        "12 in",
        "--counts",
        "9,12,7,10",
    ]);
    assert_eq!(counted["decisions"][0]["decision"], "treating_may_pay");

    looked_at_everything(&phone, "13 mph");
    let told = ready(&phone, 3);
    assert_eq!(told["verdict"], "dont_treat");
    let wind = told["findings"]
        .as_array()
        .unwrap()
        .iter()
        .find(|f| f["check"] == "wind")
        .unwrap();
    assert_eq!(text(wind, "/limit/shown"), "amount");
    assert_eq!(text(wind, "/in_english/limit"), "10 mph");
    assert_eq!(wind["whose"], "label");
    assert_eq!(text(&told, "/opens_next/window"), "may_open");
    let refused = phone.is_refused(["start", "maple"], 1);
    assert!(refused.contains("don't treat: wind"), "{refused}");

    evening_comes(&phone);
    treated_kept_off_and_recorded(&phone);
}

/// The same evening everything is in order.
fn evening_comes(phone: &Phone) {
    phone.at("20:00");
    let series = [
        "reading",
        "maple",
        "--wind",
        "4 mph@19:56",
        "--wind",
        "5 mph gust 6 mph from 200@19:58",
        "--wind",
        "4 mph@19:59",
    ];
    phone.does(series);
    phone.does([
        "reading", "maple", "--air", "70 F", "--soil", "fit", "--bloom", "none", "--at", "19:55",
    ]);
    phone.does([
        "walk-round",
        "maple",
        "--moved",
        "toys,bowls,gates,irrigation,people-and-pets",
        "--not-here",
        "pond-or-hive,puddles,drains,hard-surfaces",
    ]);
    let file = phone.write(
        "evening.json",
        forecast("2026-06-16T23:30:00+00:00", "wmoUnit:km_h-1"),
    );
    let shown = phone.tries([
        OsStr::new("ready"),
        "maple".as_ref(),
        "--forecast".as_ref(),
        file.as_ref(),
    ]);
    assert_eq!(shown.code, Some(0), "{}{}", shown.out, shown.err);
    assert_eq!(
        shown.out.matches("Read and follow the label").count(),
        1,
        "{}",
        shown.out
    );
}

fn treated_kept_off_and_recorded(phone: &Phone) {
    let begun = phone.does(["start", "maple"]);
    assert_eq!(begun["keep_offs"].as_array().unwrap().len(), 2);
    phone
        .at("20:40")
        .does(["load", "maple", "--product", "5.2 lb", "--at", "20:30"]);
    let done = phone.does([
        "finish",
        "maple",
        "--section",
        "front=20:20",
        "--note",
        "none left over",
    ]);
    assert_eq!(done["keep_offs"][0]["keeps_off"], true);

    let running = phone.does(["keep-offs"]);
    assert_eq!(running["keep_offs"].as_array().unwrap().len(), 2);
    phone
        .at_time("2026-06-17T08:00:00-04:00")
        .does(["dry", "maple", "front"]);
    let running = phone.does(["keep-offs"]);
    assert_eq!(
        running["keep_offs"].as_array().unwrap().len(),
        1,
        "only what was looked at ends"
    );
    assert_eq!(running["keep_offs"][0]["name"], "back");
    assert!(text(&running, "/keep_offs/0/told/until").contains("waits for someone to see it dry"));

    let record = phone.does(["records", "show", "maple"]);
    assert_eq!(
        text(&record, "/records/0/treatment/product_total/entered"),
        "5.2 lb"
    );
    assert_eq!(text(&record, "/records/0/note"), "none left over");
    let listed = phone.tries(["records", "list"]);
    assert!(
        listed.out.contains("practice crew: not a record"),
        "{}",
        listed.out
    );
}

#[test]
fn an_export_is_the_same_each_time_and_never_overwrites() {
    let phone = Phone::founder("Ann");
    finished(&phone);
    let (csv, json) = (phone.file("records.csv"), phone.file("records.json"));
    for file in [&csv, &json] {
        let told = phone.does([OsStr::new("records"), "export".as_ref(), file.as_ref()]);
        assert_eq!(told["records"], 1);
        let again = phone.is_refused([OsStr::new("records"), "export".as_ref(), file.as_ref()], 1);
        assert!(again.contains("is there already"), "{again}");
    }
    let printed = phone.tries(["records", "export", "-", "--as", "csv"]);
    assert_eq!(printed.out.as_bytes(), std::fs::read(csv).unwrap());
    let printed = phone.tries(["records", "export", "-", "--as", "json"]);
    assert_eq!(printed.out.as_bytes(), std::fs::read(json).unwrap());
    assert!(
        phone
            .is_refused(["records", "export", "records.txt"], 2)
            .contains("--as csv")
    );
}

#[test]
fn below_the_threshold_not_treating_is_a_full_result() {
    let phone = Phone::founder("Ann");
    yard_and_visit(&phone);
    let counted = phone.does([
        "count",
        "maple",
        "--pest",
        "Japanese beetle",
        "--sod",
        "12 in",
        "--counts",
        "1,0,2,1,0,1",
    ]);
    assert_eq!(counted["decisions"][0]["decision"], "leave");
    phone.does([
        "not-treated",
        "maple",
        "--why",
        "below-threshold",
        "--look-again",
        "2026-06-30",
    ]);
    let record = phone.does(["records", "show", "maple"]);
    assert_eq!(record["records"][0]["outcome"], "not_treated");
    assert_eq!(
        text(&record, "/records/0/not_treated/look_again"),
        "2026-06-30"
    );
    let visits = phone.does(["visit", "list", "--yard", "maple"]);
    assert_eq!(visits["visits"][0]["state"], "not_treated");
    let bad = phone.is_refused(
        [
            "not-treated",
            "maple",
            "--why",
            "weather",
            "--look-again",
            "soon",
        ],
        1,
    );
    assert!(bad.contains("2026-06-30"), "{bad}");
}

#[test]
fn nothing_starts_unchecked_or_with_a_check_that_is_not_known() {
    let phone = Phone::founder("Ann");
    planned(&phone);
    let unchecked = phone.is_refused(["start", "maple"], 1);
    assert!(
        unchecked.contains("not checked for this label sheet yet"),
        "{unchecked}"
    );
    phone.ends(["ready", "maple"], 3);
    let told = phone.is_refused(["start", "maple", "--acknowledge", "wind"], 1);
    assert!(
        told.contains("rain (") && !told.contains("wind ("),
        "{told}"
    );
    assert!(
        phone
            .is_refused(["start", "maple", "--acknowledge", "weather"], 2)
            .contains("weather")
    );
}

#[test]
fn a_visit_shows_its_history_in_order() {
    let phone = Phone::founder("Ann");
    started(&phone);
    let shown = phone.does(["visit", "show", "maple"]);
    let history = shown["history"].as_array().unwrap();
    let kinds: Vec<_> = history
        .iter()
        .map(|line| text(line, "/content/fact"))
        .collect();
    assert_eq!(kinds, ["visit_opened", "judged", "started"]);
    let id = text(&shown, "/visit");
    assert_eq!(
        phone.does(["visit", "show", id.as_str()])["visit"],
        shown["visit"]
    );
    let end = &id[id.len() - 8..];
    assert_eq!(phone.does(["visit", "show", end])["visit"], shown["visit"]);
}

#[test]
fn percent_control_is_worked_out_without_a_book() {
    // Henderson and Tilton, by hand: 100 × (1 − 3·18 / (20·17)) = 84.1 %.
    let phone = Phone::new();
    let told = phone.does(["control", "--treated", "20", "3", "--check", "18", "17"]);
    assert!(
        (told["percent"].as_f64().unwrap() - 84.117_647).abs() < 1e-5,
        "{told}"
    );
    assert_eq!(
        phone
            .tries(["control", "--treated", "0", "3", "--check", "18", "17"])
            .code,
        Some(1)
    );
}
