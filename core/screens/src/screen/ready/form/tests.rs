//! What typed readings come to, and what is refused beside its field.

use super::*;
use crate::testing::sent;

const NOW: i64 = 1_781_526_600_000;

fn wind(fields: &[(&str, &str)]) -> Result<Vec<MeterReading>> {
    let units = SPEEDS.map(|s| format!("{s}.unit"));
    let mut all: Vec<(&str, &str)> = units.iter().map(|u| (u.as_str(), "mph")).collect();
    all.push(("gust.unit", "mph"));
    all.extend(fields);
    readings(&sent(&all), NOW)
}

fn is_about(trouble: &Trouble, field: &str) -> bool {
    trouble.of_field(field).is_some()
}

#[test]
fn a_series_ends_now_and_lasts_as_long_as_was_said() {
    let series = wind(&[
        ("wind1", "5"),
        ("wind2", "6"),
        ("wind4", "7"),
        ("span", "2"),
        ("gust", "9"),
        ("from", "225"),
    ])
    .unwrap();
    let at: Vec<i64> = series.iter().map(|r| NOW - r.at_utc_ms).collect();
    assert_eq!(at, [120_000, 60_000, 0]);
    assert_eq!(series[2].wind.for_person(), "7 mph");
    assert_eq!(series[0].gust, None);
    assert_eq!(series[2].gust.unwrap().for_person(), "9 mph");
    assert!(series.iter().all(|r| r.from_degrees == Some(225)));
}

#[test]
fn one_look_at_the_meter_needs_no_span_several_do() {
    assert_eq!(wind(&[("wind1", "5")]).unwrap()[0].at_utc_ms, NOW);
    let trouble = wind(&[("wind1", "5"), ("wind2", "6")]).unwrap_err();
    assert!(is_about(&trouble, "span"));
    assert!(wind(&[]).unwrap().is_empty());
}

#[test]
fn a_gust_without_a_speed_and_a_speed_that_is_none_are_refused() {
    assert!(is_about(&wind(&[("gust", "9")]).unwrap_err(), "wind1"));
    assert!(is_about(&wind(&[("wind2", "fast")]).unwrap_err(), "wind2"));
    assert!(is_about(&wind(&[("wind1", "6 lb")]).unwrap_err(), "wind1"));
    assert!(is_about(
        &wind(&[("wind1", "6"), ("from", "17")]).unwrap_err(),
        "from"
    ));
    assert!(is_about(
        &wind(&[("wind1", "6"), ("gust", "9 in")]).unwrap_err(),
        "gust"
    ));
}

fn look(fields: &[(&str, &str)]) -> Result<Option<SkySeen>> {
    let mut all = vec![("air.unit", "degF"), ("humidity.unit", "%")];
    all.extend(fields);
    seen(&sent(&all), VisitId(uuid::Uuid::nil()), NOW)
}

#[test]
fn nothing_looked_at_is_not_the_same_as_nothing_seen() {
    assert!(look(&[]).unwrap().is_none());
    let none = look(&[("inversion", "none"), ("bloom", "none")])
        .unwrap()
        .unwrap();
    assert_eq!(none.inversion.unwrap().signs, []);
    assert_eq!(none.bloom.unwrap().bloom, Bloom::None);
    assert_eq!(none.soil, None);
    let both = look(&[("inversion", "none"), ("inversion", "fog")]).unwrap_err();
    assert!(is_about(&both, "inversion"));
}

#[test]
fn humidity_is_whole_percent_and_needs_its_temperature() {
    let air = look(&[("air", "75"), ("humidity", "54.6")])
        .unwrap()
        .unwrap()
        .air
        .unwrap();
    assert_eq!(air.humidity_percent, Some(55));
    assert_eq!(air.temperature.for_person(), "75 °F");
    assert!(is_about(&look(&[("humidity", "50")]).unwrap_err(), "air"));
    assert!(is_about(
        &look(&[("air", "75"), ("humidity", "101")]).unwrap_err(),
        "humidity"
    ));
}

#[test]
fn a_speed_that_cannot_be_is_said_at_its_own_field() {
    let second = [("wind1", "5"), ("wind2", "-3"), ("span", "1")];
    assert!(is_about(&wind(&second).unwrap_err(), "wind2"));
    let gust = [("wind1", "5"), ("gust", "500")];
    assert!(is_about(&wind(&gust).unwrap_err(), "gust"));
}

#[test]
fn frost_can_be_typed() {
    let air = look(&[("air", "-4")]).unwrap().unwrap().air.unwrap();
    assert_eq!(air.temperature.for_person(), "-4 °F");
}

#[test]
fn the_meters_height_goes_with_every_reading() {
    let held = |height, fields: &[(&str, &str)]| {
        let mut all = vec![("height", height), ("height.unit", "ft")];
        all.extend(fields);
        wind(&all)
    };
    let series = held("5", &[("wind1", "5"), ("wind2", "6"), ("span", "1")]).unwrap();
    let heights: Vec<_> = series.iter().filter_map(|r| r.height).collect();
    assert_eq!(heights.len(), 2);
    assert_eq!(heights[0].for_person(), "5 ft");
    assert!(is_about(
        &held("1", &[("wind1", "5")]).unwrap_err(),
        "height"
    ));
    assert!(is_about(&held("5", &[]).unwrap_err(), "wind1"));
    assert_eq!(wind(&[("wind1", "5")]).unwrap()[0].height, None);
}

#[test]
fn a_soil_thermometer_needs_a_look_at_the_soil() {
    let soil = |fields: &[(&str, &str)]| {
        let mut all = vec![("soil-temperature.unit", "degF")];
        all.extend(fields);
        look(&all)
    };
    let seen = soil(&[("soil", "dormant"), ("soil-temperature", "78")]).unwrap();
    let seen = seen.unwrap().soil.unwrap();
    assert_eq!(seen.soil, Soil::DroughtDormant);
    assert_eq!(seen.temperature.unwrap().for_person(), "78 °F");
    assert!(is_about(
        &soil(&[("soil-temperature", "78")]).unwrap_err(),
        "soil"
    ));
}
