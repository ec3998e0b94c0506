//! Which fields rules about records ask for, until when a record is written and how long it is
//! kept: texts of laws and rules, read in 2026-11 in stored copies.

use chrono::NaiveDate;
use chrono_tz::Tz;
use sward_rules::place::{Mark, Place};
use sward_rules::record_rules::FieldName::{
    self, AddressWithZip, Applicator, Area, Company, Customer, Date, Disposal, Equipment,
    FinishTime, LicenceNumber, Location, Method, Product, Rate, RegistrationNumber, Site,
    StartTime, Target, Temperature, TotalMix, TotalProduct, UnexpectedOccurrence, WindDirection,
    WindSpeed,
};
use sward_rules::record_rules::{
    Circumstances, Filled, GEORGIA_40_21_5, MINNESOTA_18B_37, NEW_YORK_33_1205,
    PENNSYLVANIA_128_35, RULES, RecordRule, TEXAS_4_TAC_7, USDA_7_CFR_110_3, asked, record_times,
    rules_that_may_govern,
};
use sward_rules::{Entered, Note};

fn fields(rule: &RecordRule, circumstances: &Circumstances) -> Vec<FieldName> {
    let mut fields: Vec<_> = asked(rule, circumstances, |_| Filled::No)
        .expect("an area, or none")
        .into_iter()
        .filter(|asked| asked.filled != Filled::NotApplicable)
        .map(|asked| asked.field)
        .collect();
    fields.sort_unstable();
    fields
}

fn assert_asks(rule: &RecordRule, expected: &[FieldName]) {
    let mut expected = expected.to_vec();
    expected.sort_unstable();
    assert_eq!(fields(rule, &Circumstances::default()), expected);
}

/// Days to write it, years to keep it, and how the years were learnt.
fn times(rule: &RecordRule) -> (Option<u8>, Option<u8>, Option<Mark>) {
    let days = rule.write_within_days.map(|told| told.value);
    let years = rule.keep_years.map(|told| told.value);
    (days, years, rule.keep_years.map(|told| told.mark))
}

/// USDA 7 CFR 110.3 (eCFR text; USDA Agricultural Marketing Service).
#[test]
fn federal_records() {
    assert_asks(
        &USDA_7_CFR_110_3,
        &[
            Product,
            RegistrationNumber,
            TotalProduct,
            Location,
            Area,
            Site,
            Date,
            Applicator,
            LicenceNumber,
        ],
    );
    assert_eq!(
        times(&USDA_7_CFR_110_3),
        (Some(14), Some(2), Some(Mark::Read))
    );
    let day = |y, m, d| NaiveDate::from_ymd_opt(y, m, d);
    let ended = day(2026, 6, 15)
        .unwrap()
        .and_hms_opt(12, 0, 0)
        .unwrap()
        .and_utc();
    let times = record_times(&USDA_7_CFR_110_3, ended.timestamp_millis(), Tz::UTC).unwrap();
    assert_eq!(times.value.write_by, day(2026, 6, 29));
    assert_eq!(times.value.keep_through, day(2028, 6, 15));
}

/// A spot under a tenth of an acre: brand, number, date, total, location (Minnesota Department of
/// Agriculture).
#[test]
fn federal_spots() {
    let spot = Circumstances {
        spots_only: Some(true),
        area: Entered::parse("0.09 acre").ok(),
        re_entry_applies: None,
    };
    let mut expected = vec![Product, RegistrationNumber, Date, TotalProduct, Location];
    expected.sort_unstable();
    assert_eq!(fields(&USDA_7_CFR_110_3, &spot), expected);
    let larger = Circumstances {
        area: Entered::parse("0.1 acre").ok(),
        ..spot
    };
    assert_eq!(fields(&USDA_7_CFR_110_3, &larger).len(), 9);
}

/// New York ECL 33-1205.
#[test]
fn new_york_records() {
    assert_asks(
        &NEW_YORK_33_1205,
        &[
            RegistrationNumber,
            Product,
            TotalProduct,
            Date,
            AddressWithZip,
            Rate,
            Method,
            Target,
        ],
    );
    assert_eq!(times(&NEW_YORK_33_1205), (None, Some(3), Some(Mark::Read)));
}

/// Minnesota Stat. 18B.37, text of 2015. Five years are from memory.
#[test]
fn minnesota_records() {
    assert_asks(
        &MINNESOTA_18B_37,
        &[
            Date,
            FinishTime,
            Product,
            RegistrationNumber,
            Rate,
            Area,
            Temperature,
            WindSpeed,
            WindDirection,
            Location,
            Customer,
            Applicator,
            Company,
            LicenceNumber,
        ],
    );
    assert_eq!(
        times(&MINNESOTA_18B_37),
        (Some(5), Some(5), Some(Mark::FromMemory))
    );
    let kept = record_times(&MINNESOTA_18B_37, 1_781_526_600_000, Tz::America__Chicago).unwrap();
    assert!(kept.working.notes.contains(&Note::KeptFromMemory));
}

/// Texas 4 TAC chapter 7, general records.
#[test]
fn texas_records() {
    assert_asks(
        &TEXAS_4_TAC_7,
        &[
            StartTime,
            Customer,
            Location,
            Product,
            RegistrationNumber,
            Rate,
            TotalMix,
            Target,
            Site,
            Area,
            WindDirection,
            WindSpeed,
            Temperature,
            Equipment,
            LicenceNumber,
        ],
    );
    assert_eq!(times(&TEXAS_4_TAC_7), (None, Some(2), Some(Mark::Read)));
    assert!(TEXAS_4_TAC_7.about.contains("confirm"));
}

/// Georgia 40-21-5.
#[test]
fn georgia_records() {
    assert_asks(
        &GEORGIA_40_21_5,
        &[
            Date,
            StartTime,
            Applicator,
            Site,
            Target,
            Area,
            Product,
            Rate,
            Equipment,
            UnexpectedOccurrence,
            Disposal,
        ],
    );
    assert_eq!(times(&GEORGIA_40_21_5), (None, Some(2), Some(Mark::Read)));
}

/// Pennsylvania 7 Pa. Code 128.35: the hour completed where a re-entry time applies.
#[test]
fn pennsylvania_records() {
    assert_asks(
        &PENNSYLVANIA_128_35,
        &[
            Date,
            FinishTime,
            Customer,
            Product,
            TotalProduct,
            Rate,
            LicenceNumber,
            RegistrationNumber,
            Site,
        ],
    );
    let without = Circumstances {
        re_entry_applies: Some(false),
        ..Circumstances::default()
    };
    assert!(!fields(&PENNSYLVANIA_128_35, &without).contains(&FinishTime));
    assert_eq!(
        times(&PENNSYLVANIA_128_35),
        (None, Some(3), Some(Mark::Read))
    );
}

/// The federal rule is a floor for restricted-use products only; no rule stands in for another.
#[test]
fn no_rule_is_a_fall_back() {
    assert_eq!(RULES.len(), 6);
    let of = |place, restricted| rules_that_may_govern(place, restricted);
    for place in Place::ALL {
        let state = of(Some(place), Some(false));
        assert!(state.iter().all(|rule| rule.place == Some(place)));
        assert_eq!(state.first().copied(), place.record_rule());
    }
    assert!(of(None, Some(false)).is_empty());
    assert_eq!(of(None, Some(true)), [&USDA_7_CFR_110_3]);
    assert!(USDA_7_CFR_110_3.restricted_use_only);
}
