//! The sky on its own: sun, wind, air, inversions and what lies down wind, without a book.

use crate::support::Phone;

const NEW_YORK: [&str; 8] = [
    "--lat",
    "40.7128",
    "--lon",
    "-74.0060",
    "--zone",
    "America/New_York",
    "--day",
    "2024-06-20",
];

fn calc<'a>(what: &'a str, args: &[&'a str]) -> Vec<&'a str> {
    [&["calc", what], args].concat()
}

#[test]
fn the_sun_of_a_day_and_where_it_stands() {
    let phone = Phone::new();
    let told = phone.does(calc("sun", &[&NEW_YORK[..], &["--at", "13:00"]].concat()));
    // 05:24:54 and 20:30:38 in New York (PyEphem), within a minute.
    let off_s = |key: &str, expected_ms: i64| {
        (told["sun"][key].as_i64().unwrap() - expected_ms).abs() / 1000
    };
    assert!(off_s("rises_utc_ms", 1_718_875_494_000) <= 60, "{told}");
    assert!(off_s("sets_utc_ms", 1_718_929_838_000) <= 60, "{told}");
    assert!(told["sun_position"]["elevation_deg"].as_f64().unwrap() > 70.0);
    assert!(told["working"]["sun"]["formula"].is_string());
    let page = phone
        .tries(calc("sun", &[&NEW_YORK[..], &["--how"]].concat()))
        .out;
    assert!(page.contains("sunrise: Thu 2024-06-20 05:24 EDT"), "{page}");
    assert!(page.contains("flat horizon"), "{page}");
    let polar = phone.does(calc(
        "sun",
        &[
            "--lat",
            "78.2",
            "--lon",
            "15.6",
            "--zone",
            "Arctic/Longyearbyen",
            "--day",
            "2024-12-21",
        ],
    ));
    assert_eq!(polar["sun"]["all_day"], "down");
    assert!(polar["sun"]["rises_utc_ms"].is_null());
}

#[test]
fn a_wind_goes_up_with_height_and_never_down() {
    let phone = Phone::new();
    let told = phone.does(calc("wind", &["--speed", "10 mph", "--height", "5 ft"]));
    let raised = told["wind_at_10_m_mph"].as_f64().unwrap();
    assert!((raised - 14.79).abs() < 0.01, "{told}");
    let told = phone.does(calc("wind", &["--speed", "10 mph", "--height", "60 ft"]));
    assert!((told["wind_at_10_m_mph"].as_f64().unwrap() - 10.0).abs() < 1e-9);
    let told = phone.does(calc("wind", &["--beaufort", "3"]));
    assert_eq!(told["beaufort_most_mph"], 12.0);
    let told = phone.does(calc("wind", &["--beaufort", "12"]));
    assert!(told["beaufort_most_mph"].is_null());
}

#[test]
fn air_has_its_wet_bulb_delta_t_and_dew_point() {
    let phone = Phone::new();
    let told = phone.does(calc("air", &["--temperature", "20 C", "--humidity", "50"]));
    // Stull 2011's own example, and Alduchov and Eskridge 1996.
    for (key, expected) in [
        ("wet_bulb_c", 13.699),
        ("delta_t_c", 6.301),
        ("dew_point_c", 9.261),
    ] {
        assert!(
            (told[key].as_f64().unwrap() - expected).abs() < 1e-3,
            "{told}"
        );
    }
}

#[test]
fn hours_of_an_inversion_and_what_signs_say_in_them() {
    let phone = Phone::new();
    let told = phone.does(calc("inversion", &NEW_YORK));
    assert_eq!(
        told["inversion_hours"].as_array().unwrap().len(),
        2,
        "{told}"
    );
    for (at, signs, verdict) in [
        ("19:30", "still-air,dew", "dont_treat"),
        ("13:00", "still-air,dew", "caution"),
        ("13:00", "none", "clear"),
        ("19:30", "none", "caution"),
        ("13:00", "fog", "dont_treat"),
    ] {
        let told = phone.does(calc(
            "inversion",
            &[&NEW_YORK[..], &["--at", at, "--signs", signs]].concat(),
        ));
        assert_eq!(told["finding"]["verdict"], verdict, "{at} {signs}: {told}");
    }
    let told = phone.does(calc(
        "inversion",
        &[&NEW_YORK[..], &["--at", "13:00"]].concat(),
    ));
    assert_eq!(told["finding"]["verdict"], "unknown");
}

#[test]
fn what_lies_down_wind_is_named_and_without_a_direction_all_of_it() {
    let phone = Phone::new();
    let things = [
        "--thing",
        "hive=90",
        "--thing",
        "windows=170-200",
        "--thing",
        "well",
    ];
    let told = phone.does(calc(
        "down-wind",
        &[&["--from", "270"], &things[..]].concat(),
    ));
    let names = |key: &str| told["down_wind"][key].as_array().unwrap().len();
    assert_eq!(
        (names("down_wind"), names("maybe"), names("aside")),
        (1, 1, 1),
        "{told}"
    );
    assert_eq!(told["down_wind"]["down_wind"][0]["what"], "hive");
    assert_eq!(told["verdict"], "unknown");
    let told = phone.does(calc("down-wind", &things));
    assert_eq!(told["down_wind"]["maybe"].as_array().unwrap().len(), 3);
}

#[test]
fn slips_name_their_field_and_show_how() {
    let phone = Phone::new();
    let place = |lat, lon, day| {
        vec![
            "calc",
            "sun",
            "--lat",
            lat,
            "--lon",
            lon,
            "--zone",
            "America/New_York",
            "--day",
            day,
        ]
    };
    for (step, code, said) in [
        (place("91", "0", "2026-06-20"), 1, "latitude is 91"),
        (place("NaN", "0", "2026-06-20"), 1, "latitude is NaN"),
        (place("0", "-181", "2026-06-20"), 1, "longitude is -181"),
        (place("0", "0", "1900-01-01"), 1, "such as 2026-06-20"),
        (place("0", "0", "2026-02-30"), 2, "2026-02-30"),
        (
            calc("wind", &["--speed", "200 mph"]),
            1,
            "the wind is 200 mph",
        ),
        (calc("wind", &["--speed", "5 lb"]), 1, "a speed is needed"),
        (
            calc("wind", &["--speed", "5 mph", "--height", "1 ft"]),
            1,
            "height is 1 ft",
        ),
        (calc("wind", &["--beaufort", "13"]), 1, "0 to 12"),
        (calc("wind", &[]), 2, "--speed"),
        (
            calc("air", &["--temperature", "20 C", "--humidity", "0"]),
            1,
            "humidity is 0 %",
        ),
        (
            calc("air", &["--temperature", "20 C", "--humidity", "101"]),
            1,
            "humidity is 101 %",
        ),
        (
            calc("air", &["--temperature", "20 C", "--humidity", "99.5"]),
            1,
            "5 to 99 %",
        ),
        (
            calc("air", &["--temperature", "60 C", "--humidity", "50"]),
            1,
            "-20 to 50",
        ),
        (
            calc("air", &["--temperature", "20 ft", "--humidity", "50"]),
            1,
            "temperature",
        ),
        (calc("down-wind", &["--thing", "castle=90"]), 2, "play-area"),
        (calc("down-wind", &["--thing", "hive=400"]), 1, "0 to 360"),
        (calc("down-wind", &["--thing", "hive=east"]), 2, "like 90"),
        (
            calc("down-wind", &["--from", "361", "--thing", "hive=90"]),
            1,
            "comes from is 361",
        ),
    ] {
        let told = phone.is_refused(&step, code);
        assert!(told.contains(said), "{step:?}: {told}");
    }
}
