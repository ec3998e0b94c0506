//! The one error of this crate. Each message says what the person can do about it.
//!
//! A finding is no error: a limit that is hit, or one that nobody knows, is a
//! [`crate::Finding`]. Here is only what cannot be worked out at all.

use serde::Serialize;
use thiserror::Error;

use crate::quantity::Dimension;

mod words;

pub use words::{Allowed, Axis, ControlCount, Field, MetarGroup, Most, Walked};

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
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Error, strum::VariantNames)]
#[serde(tag = "error", rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum RuleError {
    /// Another error, with the name of the field in which it stands.
    #[error("{field}: {inner}")]
    In {
        /// The field's name as the person knows it.
        #[serde(flatten)]
        field: Field,
        /// What is wrong there.
        inner: Box<RuleError>,
    },

    /// Nothing was typed.
    #[error("nothing is written here; write a number and its unit, such as 2.5 lb/1000 ft2")]
    Empty,
    /// The text is far longer than any amount.
    #[error("that is too long for an amount; write a number and its unit, such as 24 h")]
    TooLong,
    /// A control character hides in the text.
    #[error("the text holds a character that cannot be seen; type the amount again")]
    ControlCharacter,
    /// A comma in a number: it could be a decimal point or a thousands mark.
    #[error("`{text}` has a comma, which can be read in two ways; write 2.5 or 12345 instead")]
    Comma {
        /// What was typed.
        text: String,
    },
    /// The text does not begin with a plain number.
    #[error("`{text}` does not begin with a plain number; write it like 2.5 lb/1000 ft2")]
    NotANumber {
        /// What was typed.
        text: String,
    },
    /// More digits than any tape, scale or label gives.
    #[error("`{text}` has more than 12 digits; round it")]
    TooManyDigits {
        /// What was typed.
        text: String,
    },
    /// A number stands without its unit.
    #[error("`{text}` has no unit; write it behind the number, such as {text} ft or {text} %")]
    NoUnit {
        /// What was typed.
        text: String,
    },
    /// A unit that is not in the table.
    #[error(
        "`{unit}` is not a unit known here; write one such as ft, lb/1000 ft2, fl oz, gal, mph, h"
    )]
    UnknownUnit {
        /// The unit as typed.
        unit: String,
    },
    /// The US survey acre (UCUM `[acr_us]`), which differs from the acre of lawn work.
    #[error("[acr_us] is the survey acre; write acre, which is 43,560 square feet")]
    SurveyAcre,
    /// An amount below zero where there can be none.
    #[error("`{text}` is below zero, and {dimension} cannot be; check the sign")]
    Negative {
        /// What was typed.
        text: String,
        /// What kind of amount it is.
        dimension: Dimension,
    },
    /// A stored amount is not in the one form in which amounts are stored.
    #[error(
        "`{text}` is not an amount in stored form; the record was made or changed by another program"
    )]
    NotCanonical {
        /// The stored text.
        text: String,
    },
    /// An amount of one kind stands where another is needed.
    #[error("{given} is {is}, where {needed} is needed{}", ounce_hint(*.is, *.needed))]
    WrongKind {
        /// The amount as typed.
        given: String,
        /// Its kind.
        is: Dimension,
        /// The kind that is needed.
        needed: Dimension,
    },
    /// An amount outside what can be worked with.
    #[error("{given} is out of range; check the number and its unit")]
    OutOfRange {
        /// The amount as given.
        given: String,
    },

    /// A length or the like that must be more than zero.
    #[error("{field} is {given}; it must be more than zero, measure it again")]
    NotPositive {
        /// The field's name.
        #[serde(flatten)]
        field: Field,
        /// The amount as typed.
        given: String,
    },
    /// Larger than any lawn.
    #[error(
        "{field} is {given}, over the limit of {limit} for a lawn; check the number and its unit"
    )]
    OverLimit {
        /// The field's name.
        #[serde(flatten)]
        field: Field,
        /// The amount as given.
        given: String,
        /// The limit.
        limit: Most,
    },
    /// A side of a walk or a drawing longer than any lawn's.
    #[error(
        "the side after corner {corner} is {length_m} m long, over the limit of {limit} for a lawn; \
         leave out the corners that lie off it"
    )]
    SideTooLong {
        /// Number of the corner or fix where it starts, the first being 1.
        corner: usize,
        /// Its length in whole metres.
        length_m: u64,
        /// The limit.
        limit: Most,
    },
    /// Three sides that do not meet.
    #[error(
        "sides of {a}, {b} and {c} do not make a triangle: the longest must be shorter than the \
         other two together; measure them again"
    )]
    ImpossibleTriangle {
        /// First side.
        a: String,
        /// Second side.
        b: String,
        /// Third side.
        c: String,
    },
    /// Too few offsets for the rule.
    #[error("{count} offsets are too few; measure at least {needed}, evenly spaced")]
    TooFewOffsets {
        /// How many there are.
        count: usize,
        /// How many are needed.
        needed: usize,
    },
    /// Simpson's rule needs an odd number of offsets.
    #[error(
        "Simpson's rule needs an odd number of offsets, and there are {count}; add or leave out \
         one, or use the trapezoid rule"
    )]
    SimpsonNeedsOdd {
        /// How many there are.
        count: usize,
    },
    /// A taped corner is measured from a corner that does not come before it.
    #[error(
        "corner {corner} must be taped from two different corners before it; choose two of the \
         first {known}"
    )]
    CornerFrom {
        /// Number of the corner, the first being 1.
        corner: usize,
        /// How many corners are known before it.
        known: usize,
    },
    /// The two tapes to a corner do not meet, or only on the line.
    #[error(
        "the tapes to corner {corner} do not meet off the line between its two corners; measure \
         them again"
    )]
    TapesDoNotMeet {
        /// Number of the corner, the first being 1.
        corner: usize,
    },
    /// Too few corners or fixes for an area.
    #[error("{count} corners do not enclose an area; at least 3 different ones are needed")]
    TooFewCorners {
        /// How many there are.
        count: usize,
    },
    /// Too many parts to check.
    #[error("{field} has {count} parts, more than the {limit} allowed; leave out those not needed")]
    TooMany {
        /// The field's name.
        #[serde(flatten)]
        field: Field,
        /// How many there are.
        count: usize,
        /// The limit.
        limit: usize,
    },
    /// Two sides of an outline cross.
    #[error(
        "the side after corner {first} crosses the side after corner {second}; put the corners in \
         the order in which they lie, or walk the edge again"
    )]
    SidesCross {
        /// The corner where the first side starts, the first being 1.
        first: usize,
        /// The corner where the second side starts.
        second: usize,
    },
    /// A position that is not on the earth.
    #[error(
        "fix {fix} lies at latitude {lat}, longitude {lon}, which is no place on earth; leave it out"
    )]
    NoSuchPlace {
        /// Number of the fix, the first being 1.
        fix: usize,
        /// Latitude in degrees.
        lat: String,
        /// Longitude in degrees.
        lon: String,
    },
    /// A walk that crosses the 180th meridian.
    #[error("the walk crosses the date line; measure such a lawn by tape")]
    AcrossDateLine,
    /// A walk near a pole.
    #[error("the walk lies beyond 85 degrees of latitude; measure such a lawn by tape")]
    NearPole,
    /// What is left out is as large as the lawn or larger.
    #[error(
        "what is left out ({left_out}) is not smaller than the lawn ({lawn}); check the measures \
         of both"
    )]
    LeftOutTooLarge {
        /// Area left out.
        left_out: String,
        /// Area of the lawn's outer shape.
        lawn: String,
    },
    /// Measures that give an area and leave open how its edge runs.
    #[error(
        "these measures do not say how long the edge is; measure every side, or the corners by two \
         tapes each"
    )]
    EdgeNotGiven,
    /// A strip so wide that nothing of the lawn remains.
    #[error(
        "a strip of {width} leaves nothing to treat; check its width against the label, or leave \
         this lawn out"
    )]
    StripTakesAll {
        /// The strip's width as typed.
        width: String,
    },

    /// A GPX file beyond the size limit.
    #[error(
        "the file is larger than {limit_mb} MB; save the walk round this lawn as a file of its own"
    )]
    GpxTooLarge {
        /// The limit in megabytes.
        limit_mb: u32,
    },
    /// Not text at all, or not in UTF-8.
    #[error("this is not a GPX file in UTF-8; export the walk again as GPX")]
    GpxNotText,
    /// A GPX file that declares a document type or entities, which GPX never needs.
    #[error(
        "the file declares XML entities, which a GPX file has no use for; export the walk again"
    )]
    GpxDeclares,
    /// Damaged or cut short.
    #[error("the GPX file is damaged or cut short ({detail}); export the walk again")]
    GpxDamaged {
        /// What the reader met.
        detail: String,
    },
    /// A point without latitude or longitude.
    #[error("a point in the GPX file has no {what}; export the walk again")]
    GpxNoPosition {
        /// Which number is missing.
        what: Axis,
    },
    /// A point that is not on the earth.
    #[error(
        "a point in the GPX file has {what} {value}, which is no place on earth; export it again"
    )]
    GpxOffEarth {
        /// Which number it is.
        what: Axis,
        /// The value in degrees.
        value: String,
    },
    /// No track or route point in the file.
    #[error(
        "the GPX file holds no track or route points; record the walk as a track and export it"
    )]
    GpxNoPoints,
    /// Several tracks in one file.
    #[error(
        "the GPX file holds {count} {kind}s; save the walk round this lawn as a file of its own"
    )]
    GpxSeveral {
        /// How many there are.
        count: usize,
        /// What they are.
        kind: Walked,
    },
    /// No fix of a file is good enough.
    #[error("only {kept} of {read} fixes are good enough to use; walk the edge again in the open")]
    GpxTooFewGood {
        /// How many are left.
        kept: usize,
        /// How many the file holds.
        read: usize,
    },

    /// No section to treat.
    #[error("no section is chosen; choose at least one to plan for")]
    NoSections,
    /// Two sections of one name.
    #[error("two sections are called `{name}`; give each its own name")]
    SameName {
        /// The name.
        name: String,
    },
    /// The label sheet contradicts itself.
    #[error(
        "{field}: the label sheet has {least} as least and {most} as most; read the label again"
    )]
    LeastAboveMost {
        /// The field's name.
        #[serde(flatten)]
        field: Field,
        /// The least.
        least: String,
        /// The most.
        most: String,
    },
    /// A vessel or tank too small for the job, or the other way round.
    #[error(
        "{field}: {given} would need {count} loads, more than {limit}; check the size and its unit"
    )]
    TooManyLoads {
        /// The field's name.
        #[serde(flatten)]
        field: Field,
        /// The capacity as typed.
        given: String,
        /// How many loads it would need.
        count: String,
        /// The limit.
        limit: u32,
    },
    /// The product's volume does not fit beside the carrier's.
    #[error(
        "one load's product ({product}) is as much as the tank holds ({capacity}); check the rate \
         and the carrier"
    )]
    ProductFillsTank {
        /// Product in one load.
        product: String,
        /// The tank.
        capacity: String,
    },
    /// The vessel's smallest step is more than is needed in all.
    #[error(
        "the smallest step of {vessel} ({step}) is more than the {needed} needed; use a finer \
         measure"
    )]
    VesselTooCoarse {
        /// The vessel's name.
        vessel: String,
        /// Its smallest step.
        step: String,
        /// What is needed.
        needed: String,
    },
    /// A number that only makes sense within bounds.
    #[error("{field} is {given}; it must be {allowed}")]
    NotAllowed {
        /// The field's name.
        #[serde(flatten)]
        field: Field,
        /// What was given.
        given: String,
        /// What is allowed.
        allowed: Allowed,
    },
    /// A carrier for a product that goes on dry.
    #[error("carrier is {given}; granules and bait go on dry, so leave it out")]
    CarrierForDry {
        /// The carrier as typed.
        given: String,
    },
    /// No carrier for a product that goes on in water.
    #[error("sprays and drenches need a carrier; fill it in, such as 2 gal/1000 ft2")]
    CarrierNeeded,

    /// A station report longer than any real one.
    #[error("this is too long for a METAR; give one report, from the station's letters to its end")]
    MetarTooLong,
    /// A station report that cannot be read.
    #[error("the METAR cannot be read at `{group}`; copy it again, or enter a reading by hand")]
    MetarDamaged {
        /// The group at which reading stopped.
        group: String,
    },
    /// A station report without a group that every report has.
    #[error("the METAR has no {group} group; copy the whole report again")]
    MetarLacks {
        /// Which group.
        group: MetarGroup,
    },
    /// A report's day and time that cannot lie in the past year.
    #[error(
        "no day {day} with {hour:02}:{minute:02} UTC lies in the past year; copy the METAR again"
    )]
    MetarTime {
        /// Day of the month as reported.
        day: u8,
        /// Hour as reported.
        hour: u8,
        /// Minute as reported.
        minute: u8,
    },
    /// A forecast file beyond the size limit.
    #[error(
        "the forecast file is larger than {limit_mb} MB; save the gridpoint forecast of one place"
    )]
    ForecastTooLarge {
        /// The limit in megabytes.
        limit_mb: u32,
    },
    /// A forecast file that is no gridpoint forecast, or is cut short.
    #[error(
        "this is not a whole gridpoint forecast in JSON (line {line}, column {column}); download \
         it again"
    )]
    ForecastDamaged {
        /// Line at which reading stopped.
        line: usize,
        /// Column at which reading stopped.
        column: usize,
    },
    /// A forecast without the time at which it was made.
    #[error("the forecast's updateTime is `{text}`, which is no time; download the forecast again")]
    ForecastTime {
        /// The text that stands there.
        text: String,
    },
    /// A forecast layer in a unit that is not the expected one.
    #[error(
        "the forecast's layer {layer} is in `{unit}`, not in {wanted}; download the gridpoint \
         forecast in its original units"
    )]
    ForecastUnit {
        /// The layer's name.
        layer: &'static str,
        /// The unit as given.
        unit: String,
        /// The unit that is expected.
        wanted: &'static str,
    },
    /// A forecast layer with a time that cannot be read.
    #[error(
        "the forecast's layer {layer} has the time `{text}`, which cannot be read; download it again"
    )]
    ForecastInterval {
        /// The layer's name.
        layer: &'static str,
        /// The time as given.
        text: String,
    },
    /// A forecast layer with a value that cannot be.
    #[error(
        "the forecast's layer {layer} has the value {value}, which cannot be; download it again"
    )]
    ForecastValue {
        /// The layer's name.
        layer: &'static str,
        /// The value as given.
        value: String,
    },

    /// Percent control that the counts do not define.
    #[error("control cannot be worked out: {missing} is 0, so there is nothing to compare with")]
    ControlUndefined {
        /// The count that is zero.
        missing: ControlCount,
    },

    /// More finished mix wanted than the tank holds.
    #[error("{mix} of finished mix do not fit into a tank of {tank}; mix less, or in two fills")]
    MixOverTank {
        /// The mix wanted.
        mix: String,
        /// What the tank holds.
        tank: String,
    },
    /// More drawn from a tank than was left in it.
    #[error(
        "{stop}: {drawn} cannot be drawn, as only {left} were left in the tank; measure what is in \
         it and enter the draws again"
    )]
    DrawnMoreThanLeft {
        /// Where it was drawn.
        stop: String,
        /// What is said to have been drawn.
        drawn: String,
        /// What was left.
        left: String,
    },
    /// Too few cans caught water.
    #[error("{count} cans are too few; set out at least {needed}, spread over the lawn")]
    TooFewCans {
        /// How many there are.
        count: usize,
        /// How many are needed.
        needed: usize,
    },
    /// No can caught anything.
    #[error("no can caught any water; let it run longer and measure again")]
    CansEmpty,
    /// Two lots of one name.
    #[error("two lots are called `{name}`; give each its own number or name")]
    SameLot {
        /// The name.
        name: String,
    },
    /// A time between two treatments that cannot be read.
    #[error(
        "`{text}` is no time between two treatments; write it like 30 days, 6 weeks or 2 months"
    )]
    IntervalUnclear {
        /// What was typed.
        text: String,
    },
    /// A day that comes after the one planned for.
    #[error("{day} is after {planned}, the day in question; check both days")]
    DayAfter {
        /// The day that should come before.
        day: String,
        /// The day it should not come after.
        planned: String,
    },
    /// A day outside the calendar.
    #[error("counted from {day}, that leaves the calendar; check the day and the time")]
    DayOutOfCalendar {
        /// The day it was counted from.
        day: String,
    /// No day with temperatures counts.
    #[error(
        "no day with its lowest and highest temperature lies from the start on; give some, such \
         as 2026-04-01 with 40 F and 80 F"
    )]
    NoDays,
    /// The last day lies before the first.
    #[error("the end ({end}) lies before the start ({start}); check both days")]
    EndBeforeStart {
        /// The first day.
        start: String,
        /// The last day.
        end: String,
    },
    /// One day is given twice.
    #[error("{day} stands there twice; leave one of them out")]
    DayTwice {
        /// The day.
        day: String,
    },
    /// A day's lowest temperature is above its highest.
    #[error("the lowest temperature ({least}) is above the highest ({most}); check both")]
    ColdestAboveWarmest {
        /// The lowest.
        least: String,
        /// The highest.
        most: String,
    },

    /// A key that is not there.
    #[error("there is no key `{text}`; choose one of {offered}")]
    NoSuchKey {
        /// What was asked for.
        text: String,
        /// The keys there are.
        offered: String,
    },
    /// A question that the key does not ask.
    #[error("this key does not ask `{text}`; it asks {offered}")]
    NoSuchQuestion {
        /// What was answered.
        text: String,
        /// The questions there are.
        offered: String,
    },
    /// An answer that is not offered.
    #[error("`{text}` is no answer to `{question}`; choose one of {offered}")]
    NoSuchChoice {
        /// What was answered.
        text: String,
        /// To what.
        question: String,
        /// The answers there are.
        offered: String,
    },
    /// One question is answered twice.
    #[error("`{question}` is answered twice; keep one of the answers")]
    AnsweredTwice {
        /// The question.
        question: String,
    },
}

/// The result of a rule.
pub(crate) type Result<T> = std::result::Result<T, RuleError>;

crate::sentence::names!(RuleError);

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
