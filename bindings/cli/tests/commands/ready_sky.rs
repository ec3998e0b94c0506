//! What `ready` says of sun, inversion hours, the meter's height and what lies down wind.

use serde_json::Value;

use crate::support::{Phone, planned, text};

fn finding<'a>(told: &'a Value, check: &str) -> &'a Value {
    let all = told["findings"].as_array().unwrap();
    all.iter()
        .find(|f| f["check"] == check)
        .unwrap_or_else(|| panic!("{check} is not in {told}"))
}

fn why(told: &Value, check: &str) -> String {
    text(finding(told, check), "/in_english/why")
}

fn look(phone: &Phone, signs: &str) {
    phone.does([
        "reading",
        "maple",
        "--inversion",
        signs,
        "--soil",
        "drought-dormant",
        "--soil-temperature",
        "78 F",
        "--bloom",
        "beside",
    ]);
}

#[test]
fn a_spray_hears_of_sun_signs_soil_and_height() {
    let phone = Phone::founder("Ann");
    planned(&phone);
    phone.does(["label", "set", "granule", "method=foliar_spray"]);
    look(&phone, "still-air,dew");
    phone.does([
        "reading",
        "maple",
        "--wind",
        "6 mph gust 7 mph from 200 at 5 ft @07:57",
        "--wind",
        "5 mph from 210 at 5 ft @07:58",
        "--wind",
        "5 mph from 200 at 5 ft @07:59",
    ]);
    let told = phone.ends(["ready", "maple"], 3);
    assert!(told["sun"].is_null());
    // Where the yard lies is not known: it may be evening.
    assert_eq!(finding(&told, "inversion")["verdict"], "unknown");
    assert!(why(&told, "inversion").contains("latitude"));
    assert!(why(&told, "soil").contains("dormant from drought"));
    assert!(why(&told, "soil").contains("78.0 °F"), "{told}");
    assert!(why(&told, "wind").contains("held at 5 ft"), "{told}");
    assert!(why(&told, "bloom").contains("48 h before"));
    // Nothing is marked around the yard, which is not that there is nothing.
    assert_eq!(finding(&told, "down_wind")["verdict"], "unknown");

    // Eight in the morning in June: more than an hour after sunrise.
    phone.does(["yard", "set", "maple", "position=42.443961, -76.501881"]);
    let told = phone.ends(["ready", "maple"], 3);
    assert!(told["sun"]["rises_utc_ms"].is_i64(), "{told}");
    assert_eq!(finding(&told, "inversion")["verdict"], "caution");

    phone.at("20:00");
    look(&phone, "still-air,dew");
    let told = phone.ends(["ready", "maple"], 3);
    assert_eq!(finding(&told, "inversion")["verdict"], "dont_treat");
    look(&phone, "none");
    let told = phone.ends(["ready", "maple"], 3);
    assert_eq!(finding(&told, "inversion")["verdict"], "caution");
    assert!(why(&told, "inversion").contains("before sunset"), "{told}");
    let page = phone.tries(["ready", "maple"]).out;
    assert!(page.contains("Sunset Tue 2026-06-16 20:"), "{page}");
}

#[test]
fn heights_and_temperatures_that_cannot_be_are_refused() {
    let phone = Phone::founder("Ann");
    planned(&phone);
    for (flags, code, said) in [
        (vec!["--wind", "6 mph at 1 ft"], 1, "height is 1 ft"),
        (vec!["--wind", "6 mph at 5 lb"], 1, "height"),
        (vec!["--soil-temperature", "60 F"], 2, "--soil"),
        (
            vec!["--soil", "fit", "--soil-temperature", "60 ft"],
            1,
            "temperature",
        ),
        (vec!["--air", "70 F", "--humidity", "101"], 2, "101"),
    ] {
        let step = [&["reading", "maple"], flags.as_slice()].concat();
        let told = phone.is_refused(&step, code);
        assert!(told.contains(said), "{flags:?}: {told}");
    }
}
