//! The one error of this crate. Each message says what the person can do about it.
//!
//! A finding is no error: a limit that is hit, or one that nobody knows, is a
//! [`crate::Finding`]. Here is only what cannot be worked out at all.

use crate::quantity::Dimension;
use crate::sentence::sentences;

mod words;

pub use words::{Allowed, Axis, ControlCount, Field, MetarGroup, Most, Walked};

sentences! {
    /// What went wrong, and what the person can do about it.
    ///
    /// `Display` is the English. In JSON the sentence's name stands under `error`, and beside it what
    /// is put in; where a field is named, its own name stands under `field`.
    ///
    /// ```
    /// use sward_rules::{Entered, Field, RuleError};
    /// let error = Entered::parse("12 parsecs").unwrap_err().of(Field::Offset { number: 2 });
    /// let json = serde_json::to_value(&error)?;
    /// assert_eq!((&json["error"], &json["field"]), (&"in".into(), &"offset".into()));
    /// assert_eq!((&json["number"], &json["inner"]["error"]), (&2.into(), &"unknown-unit".into()));
    /// assert!(RuleError::NAMES.contains(&"unknown-unit"));
    /// # Ok::<(), serde_json::Error>(())
    /// ```
    #[non_exhaustive]
    RuleError, tag = "error";

    In { #[serde(flatten)] field: Field, inner: Box<RuleError> }
        => ("{field}: {inner}");

    Empty
        => ("nothing is written here; write a number and its unit, such as 2.5 lb/1000 ft2");
    TooLong
        => ("that is too long for an amount; write a number and its unit, such as 24 h");
    ControlCharacter
        => ("the text holds a character that cannot be seen; type the amount again");
    Comma { text: String }
        => ("`{text}` has a comma, which can be read in two ways; write 2.5 or 12345 instead");
    NotANumber { text: String }
        => ("`{text}` does not begin with a plain number; write it like 2.5 lb/1000 ft2");
    TooManyDigits { text: String }
        => ("`{text}` has more than 12 digits; round it");
    NoUnit { text: String }
        => ("`{text}` has no unit; write it behind the number, such as {text} ft or {text} %");
    UnknownUnit { unit: String }
        => ("`{unit}` is not a unit known here; write one such as ft, lb/1000 ft2, fl oz, gal, mph, h");
    SurveyAcre
        => ("`[acr_us]` is the survey acre; write acre, which is 43,560 square feet");
    Negative { text: String, dimension: Dimension }
        => ("`{text}` is below zero, and {dimension} cannot be; check the sign");
    NotCanonical { text: String }
        => ("`{text}` is not an amount in stored form; the record was made or changed by another program");
    WrongKind { given: String, is: Dimension, needed: Dimension }
        => ("{given} is {is}, where {needed} is needed{}", ounce_hint(*.is, *.needed));
    OutOfRange { given: String }
        => ("{given} is out of range; check the number and its unit");

    NotPositive { #[serde(flatten)] field: Field, given: String }
        => ("{field} is {given}; it must be more than zero, measure it again");
    OverLimit { #[serde(flatten)] field: Field, given: String, limit: Most }
        => ("{field} is {given}, over the limit of {limit} for a lawn; check the number and its unit");
    SideTooLong { corner: usize, length_m: u64, limit: Most }
        => ("the side after corner {corner} is {length_m} m long, over the limit of {limit} for a lawn; \
         leave out the corners that lie off it");
    ImpossibleTriangle { a: String, b: String, c: String }
        => ("sides of {a}, {b} and {c} do not make a triangle: the longest must be shorter than the \
         other two together; measure them again");
    TooFewOffsets { count: usize, needed: usize }
        => ("{count} offsets are too few; measure at least {needed}, evenly spaced");
    SimpsonNeedsOdd { count: usize }
        => ("Simpson's rule needs an odd number of offsets, and there are {count}; add or leave out \
         one, or use the trapezoid rule");
    CornerFrom { corner: usize, known: usize }
        => ("corner {corner} must be taped from two different corners before it; choose two of the \
         first {known}");
    TapesDoNotMeet { corner: usize }
        => ("the tapes to corner {corner} do not meet off the line between its two corners; measure \
         them again");
    TooFewCorners { count: usize }
        => ("{count} corners do not enclose an area; at least 3 different ones are needed");
    TooMany { #[serde(flatten)] field: Field, count: usize, limit: usize }
        => ("{field} has {count} parts, more than the {limit} allowed; leave out those not needed");
    SidesCross { first: usize, second: usize }
        => ("the side after corner {first} crosses the side after corner {second}; put the corners in \
         the order in which they lie, or walk the edge again");
    NoSuchPlace { fix: usize, lat: String, lon: String }
        => ("fix {fix} lies at latitude {lat}, longitude {lon}, which is no place on earth; leave it out");
    AcrossDateLine
        => ("the walk crosses the date line; measure such a lawn by tape");
    NearPole
        => ("the walk lies beyond 85 degrees of latitude; measure such a lawn by tape");
    LeftOutTooLarge { left_out: String, lawn: String }
        => ("what is left out ({left_out}) is not smaller than the lawn ({lawn}); check the measures \
         of both");
    EdgeNotGiven
        => ("these measures do not say how long the edge is; measure every side, or the corners by two \
         tapes each");
    StripTakesAll { width: String }
        => ("a strip of {width} leaves nothing to treat; check its width against the label, or leave \
         this lawn out");

    GpxTooLarge { limit_mb: u32 }
        => ("the file is larger than {limit_mb} MB; save the walk round this lawn as a file of its own");
    GpxNotText
        => ("this is not a GPX file in UTF-8; export the walk again as GPX");
    GpxDeclares
        => ("the file declares XML entities, which a GPX file has no use for; export the walk again");
    GpxDamaged { detail: String }
        => ("the GPX file is damaged or cut short ({detail}); export the walk again");
    GpxNoPosition { what: Axis }
        => ("a point in the GPX file has no {what}; export the walk again");
    GpxOffEarth { what: Axis, value: String }
        => ("a point in the GPX file has {what} {value}, which is no place on earth; export it again");
    GpxNoPoints
        => ("the GPX file holds no track or route points; record the walk as a track and export it");
    GpxSeveral { count: usize, kind: Walked }
        => ("the GPX file holds {count} {kind}s; save the walk round this lawn as a file of its own");
    GpxTooFewGood { kept: usize, read: usize }
        => ("only {kept} of {read} fixes are good enough to use; walk the edge again in the open");

    NoSections
        => ("no section is chosen; choose at least one to plan for");
    SameName { name: String }
        => ("two sections are called `{name}`; give each its own name");
    LeastAboveMost { #[serde(flatten)] field: Field, least: String, most: String }
        => ("{field}: the label sheet has {least} as least and {most} as most; read the label again");
    TooManyLoads { #[serde(flatten)] field: Field, given: String, count: String, limit: u32 }
        => ("{field}: {given} would need {count} loads, more than {limit}; check the size and its unit");
    ProductFillsTank { product: String, capacity: String }
        => ("one load's product ({product}) is as much as the tank holds ({capacity}); check the rate \
         and the carrier");
    VesselTooCoarse { vessel: String, step: String, needed: String }
        => ("the smallest step of {vessel} ({step}) is more than the {needed} needed; use a finer \
         measure");
    NotAllowed { #[serde(flatten)] field: Field, given: String, allowed: Allowed }
        => ("{field} is {given}; it must be {allowed}");
    CarrierForDry { given: String }
        => ("carrier is {given}; granules and bait go on dry, so leave it out");
    CarrierNeeded
        => ("sprays and drenches need a carrier; fill it in, such as 2 gal/1000 ft2");

    MetarTooLong
        => ("this is too long for a METAR; give one report, from the station's letters to its end");
    MetarDamaged { group: String }
        => ("the METAR cannot be read at `{group}`; copy it again, or enter a reading by hand");
    MetarLacks { group: MetarGroup }
        => ("the METAR has no {group} group; copy the whole report again");
    MetarTime { day: u8, hour: u8, minute: u8 }
        => ("no day {day} with {hour:02}:{minute:02} UTC lies in the past year; copy the METAR again");
    ForecastTooLarge { limit_mb: u32 }
        => ("the forecast file is larger than {limit_mb} MB; save the gridpoint forecast of one place");
    ForecastDamaged { line: usize, column: usize }
        => ("this is not a whole gridpoint forecast in JSON (line {line}, column {column}); download \
         it again");
    ForecastTime { text: String }
        => ("the forecast's updateTime is `{text}`, which is no time; download the forecast again");
    ForecastUnit { layer: &'static str, unit: String, wanted: &'static str }
        => ("the forecast's layer {layer} is in `{unit}`, not in {wanted}; download the gridpoint \
         forecast in its original units");
    ForecastInterval { layer: &'static str, text: String }
        => ("the forecast's layer {layer} has the time `{text}`, which cannot be read; download it again");
    ForecastValue { layer: &'static str, value: String }
        => ("the forecast's layer {layer} has the value {value}, which cannot be; download it again");

    ControlUndefined { missing: ControlCount }
        => ("control cannot be worked out: {missing} is 0, so there is nothing to compare with");

    MixOverTank { mix: String, tank: String }
        => ("{mix} of finished mix do not fit into a tank of {tank}; mix less, or in two fills");
    DrawnMoreThanLeft { stop: String, drawn: String, left: String }
        => ("{stop}: {drawn} cannot be drawn, as only {left} were left in the tank; measure what is in \
         it and enter the draws again");
    TooFewCans { count: usize, needed: usize }
        => ("{count} cans are too few; set out at least {needed}, spread over the lawn");
    CansEmpty
        => ("no can caught any water; let it run longer and measure again");
    SameLot { name: String }
        => ("two lots are called `{name}`; give each its own number or name");
    IntervalUnclear { text: String }
        => ("`{text}` is no time between two treatments; write it like 30 days, 6 weeks or 2 months");
    DayAfter { day: String, planned: String }
        => ("{day} is after {planned}, the day in question; check both days");
    DayOutOfCalendar { day: String }
        => ("counted from {day}, that leaves the calendar; check the day and the time");

    NoDays
        => ("no day with its lowest and highest temperature lies from the start on; give some, such \
         as 2026-04-01 with 40 F and 80 F");
    EndBeforeStart { start: String, end: String }
        => ("the end ({end}) lies before the start ({start}); check both days");
    DayTwice { day: String }
        => ("{day} stands there twice; leave one of them out");
    ColdestAboveWarmest { least: String, most: String }
        => ("the lowest temperature ({least}) is above the highest ({most}); check both");

    NoSuchKey { text: String, offered: String }
        => ("there is no key `{text}`; choose one of {offered}");
    NoSuchQuestion { text: String, offered: String }
        => ("this key does not ask `{text}`; it asks {offered}");
    NoSuchChoice { text: String, question: String, offered: String }
        => ("`{text}` is no answer to `{question}`; choose one of {offered}");
    AnsweredTwice { question: String }
        => ("`{question}` is answered twice; keep one of the answers");
}

/// The result of a rule.
pub(crate) type Result<T> = std::result::Result<T, RuleError>;

impl RuleError {
    /// This error, with the name of the field in which it stands.
    ///
    /// ```
    /// use sward_rules::{Entered, Field};
    /// let error = Entered::parse("2,5 lb").unwrap_err().of(Field::Rate);
    /// assert!(error.to_string().starts_with("rate: `2,5 lb` has a comma"));
    /// ```
    #[must_use]
    pub fn of(self, field: Field) -> Self {
        Self::In {
            field,
            inner: Box::new(self),
        }
    }
}

/// Enough of a foreign text to recognise it by in a sentence, without what cannot be seen.
pub(crate) fn shortened(text: &str, most: usize) -> String {
    let seen = text.chars().filter(|c| !c.is_control());
    seen.take(most).collect()
}

fn ounce_hint(is: Dimension, needed: Dimension) -> &'static str {
    use Dimension::{Mass, MassPerArea, Volume, VolumePerArea};
    match (is, needed) {
        (Mass, Volume) | (MassPerArea, VolumePerArea) => {
            "; an ounce of weight is not a fluid ounce: write fl oz if that is meant"
        }
        (Volume, Mass) | (VolumePerArea, MassPerArea) => {
            "; a fluid ounce is not an ounce of weight: write oz if that is meant"
        }
        _ => "; check the number and its unit",
    }
}
