//! Forms that do not fit, and a door that does not open.

use std::net::SocketAddr;

use chrono::NaiveDate;
use sward_book::testing::TestEnv;

use super::Form;
use super::door::Door;
use crate::Trouble;
use crate::trouble::Wrong;

fn form(body: &str) -> Form {
    Form::from_urlencoded(body.as_bytes()).unwrap()
}

fn wrong(trouble: &Trouble, field: &str) -> Option<Wrong> {
    match trouble.of_field(field) {
        Some(Trouble::Wrong(wrong)) => Some(wrong.clone()),
        _ => None,
    }
}

#[test]
fn a_number_goes_with_the_unit_that_its_form_fixed() {
    let sent =
        form("wind=6.5&wind.unit=mph&gust=&gust.unit=mph&rate=3+kg%2Fha&rate.unit=lb%2F1000+ft2");
    assert_eq!(sent.with_unit("wind").as_deref(), Some("6.5 mph"));
    assert_eq!(sent.with_unit("gust"), None);
    // Who types a unit means it.
    assert_eq!(sent.with_unit("rate").as_deref(), Some("3 kg/ha"));
}

#[test]
fn hostile_amounts_are_told_at_their_field() {
    for typed in ["NaN", "1e999", "-4", "6,5", "Infinity", "six", "1%002"] {
        let sent = form(&format!("wind={typed}&wind.unit=mph"));
        let trouble = sent.amount("wind").unwrap_err();
        assert!(trouble.of_field("wind").is_some(), "{typed}: {trouble}");
        assert!(trouble.of_field("gust").is_none());
    }
    assert_eq!(
        wrong(&form("wind=").amount_needed("wind").unwrap_err(), "wind"),
        Some(Wrong::Missing)
    );
}

#[test]
fn whole_numbers_stay_within_what_their_field_allows() {
    let read = |typed: &str| form(&format!("n={typed}")).whole("n", 0, 12);
    assert_eq!(read("12").unwrap(), Some(12));
    assert_eq!(read("").unwrap(), None);
    assert_eq!(
        wrong(&read("13").unwrap_err(), "n"),
        Some(Wrong::Most { most: 12 })
    );
    assert_eq!(
        wrong(&read("-1").unwrap_err(), "n"),
        Some(Wrong::Least { least: 0 })
    );
    assert_eq!(
        wrong(&read("1.5").unwrap_err(), "n"),
        Some(Wrong::NotANumber)
    );
}

#[test]
fn an_hour_that_comes_twice_or_never_is_asked_for_again() {
    let zone = chrono_tz::Tz::America__New_York;
    let read = |typed: &str, day: &str| {
        let day = NaiveDate::parse_from_str(day, "%Y-%m-%d").unwrap();
        form(&format!("at={typed}")).time("at", day, zone)
    };
    assert_eq!(
        read("08:30", "2026-06-15").unwrap(),
        Some(1_781_526_600_000)
    );
    for (typed, day) in [("02:30", "2026-03-08"), ("01:30", "2026-11-01")] {
        assert_eq!(
            wrong(&read(typed, day).unwrap_err(), "at"),
            Some(Wrong::ClockChange)
        );
    }
    assert_eq!(
        wrong(&read("25:00", "2026-06-15").unwrap_err(), "at"),
        Some(Wrong::NotATime)
    );
}

#[test]
fn lines_end_as_they_do_in_records() {
    assert_eq!(form("note=one%0D%0Atwo").text("note"), "one\ntwo");
}

#[test]
fn a_form_with_more_fields_than_any_of_ours_is_refused() {
    let body = "a=1&".repeat(super::form::FIELDS_MOST + 1);
    assert!(matches!(
        Form::from_urlencoded(body.as_bytes()),
        Err(Trouble::TooLarge)
    ));
}

#[test]
fn the_token_that_a_browser_is_started_with_lets_in_once() {
    let address: SocketAddr = "127.0.0.1:4321".parse().unwrap();
    let env = TestEnv::new(7);
    let door = Door::new(address, env.as_ref());
    let token = |entrance: String| entrance.split_once('=').unwrap().1.to_owned();
    let (printed, once) = (token(door.entrance()), token(door.entrance_once()));
    assert_ne!(printed, once);
    assert!(door.lets_in(&once));
    assert!(!door.lets_in(&once), "it lets in a second time");
    assert!(door.lets_in(&printed) && door.lets_in(&printed));
    assert!(!door.lets_in("") && !door.lets_in(&printed[1..]));
}

#[test]
fn only_loopback_names_with_our_port_are_ours() {
    let address: SocketAddr = "127.0.0.1:4321".parse().unwrap();
    let door = Door::new(address, TestEnv::new(7).as_ref());
    for ours in ["127.0.0.1:4321", "localhost:4321"] {
        assert!(door.is_ours(ours));
    }
    for other in [
        "127.0.0.1",
        "127.0.0.1:4322",
        "localhost.example:4321",
        "example:4321",
        "127.0.0.1:4321.example",
    ] {
        assert!(!door.is_ours(other), "{other}");
    }
}
