//! The rules about records that were read. Not all there are, and none is a fall-back for another.

use super::FieldName as F;
use super::{AskedWhen, RecordRule, SpotRule};
use crate::place::{Place, Told};

const fn always<const N: usize>(fields: [F; N]) -> [(F, AskedWhen); N] {
    let mut all = [(F::Product, AskedWhen::Always); N];
    let mut i = 0;
    while i < N {
        all[i] = (fields[i], AskedWhen::Always);
        i += 1;
    }
    all
}

/// Federal: restricted-use products.
pub static USDA_7_CFR_110_3: RecordRule = RecordRule {
    name: "USDA 7 CFR 110.3",
    source: "eCFR text and USDA Agricultural Marketing Service",
    about: "restricted-use products only: never a measure for work under a state's rules for hire",
    place: None,
    restricted_use_only: true,
    keep_years: Some(Told::read(2)),
    write_within_days: Some(Told::read(14)),
    fields: &always([
        F::Product,
        F::RegistrationNumber,
        F::TotalProduct,
        F::Location,
        F::Area,
        F::Site,
        F::Date,
        F::Applicator,
        F::LicenceNumber,
    ]),
    spot: Some(SpotRule {
        source: "Minnesota Department of Agriculture",
        under_ft2: 4356,
        fields: &[
            F::Product,
            F::RegistrationNumber,
            F::Date,
            F::TotalProduct,
            F::Location,
        ],
    }),
};

/// New York.
pub static NEW_YORK_33_1205: RecordRule = RecordRule {
    name: "New York ECL 33-1205",
    source: "New York Environmental Conservation Law, section 33-1205",
    about: "applications in New York",
    place: Some(Place::NewYork),
    restricted_use_only: false,
    keep_years: Some(Told::read(3)),
    write_within_days: None,
    fields: &always([
        F::RegistrationNumber,
        F::Product,
        F::TotalProduct,
        F::Date,
        F::AddressWithZip,
        F::Rate,
        F::Method,
        F::Target,
    ]),
    spot: None,
};

/// Minnesota.
pub static MINNESOTA_18B_37: RecordRule = RecordRule {
    name: "Minnesota Stat. 18B.37",
    source: "Minnesota Statutes, section 18B.37, text of 2015",
    about: "commercial applications in Minnesota; the customer gets a copy",
    place: Some(Place::Minnesota),
    restricted_use_only: false,
    keep_years: Some(Told::from_memory(5)),
    write_within_days: Some(Told::read(5)),
    fields: &always([
        F::Date,
        F::FinishTime,
        F::Product,
        F::RegistrationNumber,
        F::Rate,
        F::Area,
        F::Temperature,
        F::WindSpeed,
        F::WindDirection,
        F::Location,
        F::Customer,
        F::Applicator,
        F::Company,
        F::LicenceNumber,
    ]),
    spot: None,
};

/// Texas.
pub static TEXAS_4_TAC_7: RecordRule = RecordRule {
    name: "Texas 4 TAC chapter 7",
    source: "Texas Administrative Code, title 4, chapter 7",
    about: "general records in Texas; structural service records are another section, and which one governs a lawn is for the person to confirm",
    place: Some(Place::Texas),
    restricted_use_only: false,
    keep_years: Some(Told::read(2)),
    write_within_days: None,
    fields: &always([
        F::StartTime,
        F::Customer,
        F::Location,
        F::Product,
        F::RegistrationNumber,
        F::Rate,
        F::TotalMix,
        F::Target,
        F::Site,
        F::Area,
        F::WindDirection,
        F::WindSpeed,
        F::Temperature,
        F::Equipment,
        F::LicenceNumber,
    ]),
    spot: None,
};

/// Georgia.
pub static GEORGIA_40_21_5: RecordRule = RecordRule {
    name: "Georgia 40-21-5",
    source: "Rules of the Georgia Department of Agriculture, 40-21-5",
    about: "commercial applications in Georgia",
    place: Some(Place::Georgia),
    restricted_use_only: false,
    keep_years: Some(Told::read(2)),
    write_within_days: None,
    fields: &always([
        F::Date,
        F::StartTime,
        F::Applicator,
        F::Site,
        F::Target,
        F::Area,
        F::Product,
        F::Rate,
        F::Equipment,
        F::UnexpectedOccurrence,
        F::Disposal,
    ]),
    spot: None,
};

/// Pennsylvania.
pub static PENNSYLVANIA_128_35: RecordRule = RecordRule {
    name: "Pennsylvania 7 Pa. Code 128.35",
    source: "Pennsylvania Code, title 7, section 128.35",
    about: "applications in Pennsylvania; the hour of completion where a re-entry time applies",
    place: Some(Place::Pennsylvania),
    restricted_use_only: false,
    keep_years: Some(Told::read(3)),
    write_within_days: None,
    fields: &[
        (F::Date, AskedWhen::Always),
        (F::FinishTime, AskedWhen::WhereReEntryApplies),
        (F::Customer, AskedWhen::Always),
        (F::Product, AskedWhen::Always),
        (F::TotalProduct, AskedWhen::Always),
        (F::Rate, AskedWhen::Always),
        (F::LicenceNumber, AskedWhen::Always),
        (F::RegistrationNumber, AskedWhen::Always),
        (F::Site, AskedWhen::Always),
    ],
    spot: None,
};

/// The rules that were read. Not all there are, and none is a fall-back for another.
pub static RULES: [&RecordRule; 6] = [
    &USDA_7_CFR_110_3,
    &NEW_YORK_33_1205,
    &MINNESOTA_18B_37,
    &TEXAS_4_TAC_7,
    &GEORGIA_40_21_5,
    &PENNSYLVANIA_128_35,
];
