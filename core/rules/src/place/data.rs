//! The rules of single states, as far as they were read. Every figure has its mark; a part that
//! stands as none was not read.

use super::sign::{Colour, Inches, PutUp, SignLanguage, SignRule, Stays};
use super::{Kind, LawSource, NoticeRule, NoticeTo, Place, PlaceRule, Told};
use crate::record_rules::{
    self, GEORGIA_40_21_5, MINNESOTA_18B_37, NEW_YORK_33_1205, PENNSYLVANIA_128_35, TEXAS_4_TAC_7,
};

/// Laws were read at one time and in one way.
pub(crate) const READ: &str = "2026-11, stored copy";

const fn source(law: &'static str) -> LawSource {
    LawSource { law, read: READ }
}

const fn sign(law: &'static str, sign: SignRule) -> PlaceRule {
    PlaceRule {
        source: source(law),
        kind: Kind::Sign(sign),
    }
}

const fn record(rule: &'static record_rules::RecordRule) -> PlaceRule {
    PlaceRule {
        source: source(rule.source),
        kind: Kind::Record(rule),
    }
}

const NOT_READ: SignRule = SignRule {
    least_sides: None,
    letters_least: None,
    bottom_least: None,
    bottom_most: None,
    colour: None,
    languages: None,
    put_up: None,
    stays: None,
};

const FOUR_BY_FIVE: Option<Told<[Inches; 2]>> =
    Some(Told::read([Inches::whole(4), Inches::whole(5)]));

/// Since 2020, as the state's own department tells.
const BOTH: Option<Told<&[SignLanguage]>> =
    Some(Told::read(&[SignLanguage::English, SignLanguage::Spanish]));

static NEW_YORK: [PlaceRule; 3] = [
    sign(
        "New York ECL 33-1003; languages: New York DEC",
        SignRule {
            least_sides: FOUR_BY_FIVE,
            letters_least: Some(Told::read(Inches::thousandths(375))),
            bottom_least: Some(Told::read(Inches::whole(12))),
            languages: BOTH,
            stays: Some(Told::read(Stays::Hours(24))),
            ..NOT_READ
        },
    ),
    PlaceRule {
        source: source("New York ECL 33-1004; languages: New York DEC"),
        kind: Kind::Notice(NoticeRule {
            hours_before: Told::read(48),
            within_ft: Told::read(150),
            to: NoticeTo::AbuttingProperty,
            only_where_adopted: true,
            languages: BOTH,
            some_products_exempt: true,
        }),
    },
    record(&NEW_YORK_33_1205),
];

static MARYLAND: [PlaceRule; 1] = [sign(
    "Maryland Agriculture Article 5-208",
    SignRule {
        put_up: Some(Told::read(PutUp::AtApplication)),
        stays: Some(Told::read(Stays::Hours(48))),
        ..NOT_READ
    },
)];

static ILLINOIS: [PlaceRule; 1] = [sign(
    "Illinois 415 ILCS 65/3",
    SignRule {
        least_sides: FOUR_BY_FIVE,
        bottom_least: Some(Told::read(Inches::whole(12))),
        colour: Some(Told::read(Colour::White)),
        put_up: Some(Told::read(PutUp::RightAfter)),
        stays: Some(Told::read(Stays::OffDayAfter)),
        ..NOT_READ
    },
)];

static GEORGIA: [PlaceRule; 2] = [
    sign(
        "Rules of the Georgia Department of Agriculture, 40-21-9",
        SignRule {
            least_sides: FOUR_BY_FIVE,
            bottom_least: Some(Told::read(Inches::whole(8))),
            bottom_most: Some(Told::read(Inches::whole(12))),
            stays: Some(Told::read(Stays::UntilDayAfter)),
            ..NOT_READ
        },
    ),
    record(&GEORGIA_40_21_5),
];

static FLORIDA: [PlaceRule; 1] = [sign(
    "UF/IFAS EDIS PI-6",
    SignRule {
        put_up: Some(Told::read(PutUp::AtApplication)),
        ..NOT_READ
    },
)];

static MINNESOTA: [PlaceRule; 1] = [record(&MINNESOTA_18B_37)];
static TEXAS: [PlaceRule; 1] = [record(&TEXAS_4_TAC_7)];
static PENNSYLVANIA: [PlaceRule; 1] = [record(&PENNSYLVANIA_128_35)];

pub(super) fn rules_of(place: Place) -> &'static [PlaceRule] {
    match place {
        Place::NewYork => &NEW_YORK,
        Place::Maryland => &MARYLAND,
        Place::Illinois => &ILLINOIS,
        Place::Georgia => &GEORGIA,
        Place::Florida => &FLORIDA,
        Place::Minnesota => &MINNESOTA,
        Place::Texas => &TEXAS,
        Place::Pennsylvania => &PENNSYLVANIA,
    }
}
