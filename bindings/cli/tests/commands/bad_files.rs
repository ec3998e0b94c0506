//! Files from elsewhere: walks, station reports and forecasts that are damaged or of no use.

use std::ffi::OsStr;

use crate::support::{Phone, planned, text};
use crate::visit::forecast;

fn gpx(points: &[(f64, f64)]) -> String {
    let points: Vec<String> = points
        .iter()
        .map(|(lat, lon)| format!("<trkpt lat=\"{lat}\" lon=\"{lon}\"/>"))
        .collect();
    let points = points.concat();
    format!(
        "<?xml version=\"1.0\"?><gpx version=\"1.1\" creator=\"test\" xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>{points}</trkseg></trk></gpx>"
    )
}

#[test]
fn walks_that_enclose_no_lawn_are_refused() {
    let phone = Phone::founder("Ann");
    phone.does(["yard", "add", "Maple"]);
    // A bow tie of some 30 m, and a square of 40 m over the 180th meridian.
    let crossing = [
        (40.0, -70.0),
        (40.0003, -69.9996),
        (40.0003, -70.0),
        (40.0, -69.9996),
    ];
    let date_line = [
        (0.0, 179.9998),
        (0.0, -179.9998),
        (0.0004, -179.9998),
        (0.0004, 179.9998),
    ];
    for (content, said) in [
        (gpx(&[]), "no track or route points"),
        (gpx(&crossing), "crosses the side"),
        (gpx(&date_line), "date line"),
        (gpx(&crossing)[..200].to_owned(), "damaged or cut short"),
        (
            gpx(&[(91.0, 0.0), (0.0, 0.0), (1.0, 1.0)]),
            "no place on earth",
        ),
        (
            "<!DOCTYPE x [<!ENTITY a \"b\">]><gpx/>".to_owned(),
            "entities",
        ),
        ("lat,lon\n40,-70\n".to_owned(), "not a GPX file"),
    ] {
        let file = phone.write("walk.gpx", content);
        let step = [
            OsStr::new("section"),
            "add".as_ref(),
            "maple".as_ref(),
            "x".as_ref(),
            "--gpx".as_ref(),
            file.as_ref(),
        ];
        let told = phone.is_refused(step, 1);
        assert!(told.contains(said), "{said}: {told}");
    }
    let missing = phone.is_refused(["section", "add", "maple", "x", "--gpx", "missing.gpx"], 7);
    assert!(missing.contains("missing.gpx cannot be read"), "{missing}");
}

#[test]
fn a_damaged_station_report_is_refused_before_anything_is_recorded() {
    let phone = Phone::founder("Ann");
    planned(&phone);
    for (report, said) in [
        ("METAR KZZZ 161151Z 2500", "METAR"),
        ("METAR KZZZ 161151Z 10SM CLR 22/12 A3002", "no wind group"),
        ("hello", "METAR"),
        ("METAR KZZZ 321151Z 25006KT 10SM CLR 22/12 A3002", "METAR"),
    ] {
        let told = phone.is_refused(["ready", "maple", "--metar", report], 1);
        assert!(told.contains(said), "{report}: {told}");
    }
}

fn ready_with(phone: &Phone, content: &str) -> Vec<std::ffi::OsString> {
    let file = phone.write("forecast.json", content);
    [
        "ready".as_ref(),
        "maple".as_ref(),
        "--forecast".as_ref(),
        file.as_os_str(),
    ]
    .iter()
    .map(|a: &&OsStr| (*a).to_owned())
    .collect()
}

#[test]
fn a_forecast_that_ended_yesterday_leaves_rain_not_known() {
    let phone = Phone::founder("Ann");
    planned(&phone);
    let ended = forecast("2026-06-16T11:30:00+00:00", "wmoUnit:km_h-1").replace(
        "2026-06-16T00:00:00+00:00/P2DT0H",
        "2026-06-13T00:00:00+00:00/P2DT0H",
    );
    for content in [
        ended,
        forecast("2026-06-14T11:30:00+00:00", "wmoUnit:km_h-1"),
    ] {
        let told = phone.ends(ready_with(&phone, &content), 3);
        let rain = told["findings"]
            .as_array()
            .unwrap()
            .iter()
            .find(|f| f["check"] == "rain")
            .unwrap();
        assert_eq!(rain["verdict"], "unknown", "{rain}");
        assert_eq!(text(&told, "/opens_next/window"), "not_seen");
    }
}

#[test]
fn a_forecast_in_the_wrong_unit_or_cut_short_is_refused() {
    let phone = Phone::founder("Ann");
    planned(&phone);
    let whole = forecast("2026-06-16T11:30:00+00:00", "wmoUnit:km_h-1");
    let knots = forecast("2026-06-16T11:30:00+00:00", "wmoUnit:kt");
    for (content, said) in [
        (knots.as_str(), "windSpeed is in `wmoUnit:kt`"),
        (&whole[..whole.len() / 2], "not a whole gridpoint forecast"),
        (
            &whole.replace("2026-06-16T11:30:00+00:00", "yesterday"),
            "updateTime",
        ),
        (&whole.replace('8', "-8"), "windSpeed"),
    ] {
        let told = phone.is_refused(ready_with(&phone, content), 1);
        assert!(told.contains(said), "{said}: {told}");
    }
}
