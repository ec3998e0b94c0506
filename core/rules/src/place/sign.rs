//! What a state's rule asks of a sign on the lawn, and when the sign may come down.
//!
//! Whether a given sign is as asked is [`super::sign_check`]; its words are [`super::sign_text`].

use chrono_tz::Tz;
use rust_decimal::Decimal;
use serde::Serialize;

use super::{LawSource, Place, Told, day_after, local_day, minute_up, not_read};
use crate::error::{Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Verdict, Whose};
use crate::note::Note;
use crate::quantity::{Entered, Unit};
use crate::working::{Answer, Working};

const HOUR_MS: i64 = 3_600_000;

/// A length as a rule gives it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(into = "Entered")]
pub struct Inches {
    thousandths: u16,
}

impl Inches {
    /// So many thousandths of an inch.
    pub(super) const fn thousandths(thousandths: u16) -> Self {
        Self { thousandths }
    }

    /// So many inches.
    pub(super) const fn whole(inches: u16) -> Self {
        Self {
            thousandths: inches * 1000,
        }
    }
}

impl From<Inches> for Entered {
    fn from(inches: Inches) -> Self {
        let amount = Decimal::new(i64::from(inches.thousandths), 3).normalize();
        Self::new(amount, Unit::INCH).expect("five digits are not too many")
    }
}

/// A colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Colour {
    /// White.
    White,
}

/// A language of signs and notices.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SignLanguage {
    /// English.
    English,
    /// Spanish.
    Spanish,
}

/// When a sign is put up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PutUp {
    /// At the time of application.
    AtApplication,
    /// Right after the application.
    RightAfter,
}

/// How long a sign stays.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stays {
    /// At least so many hours, in real elapsed time.
    Hours(u32),
    /// Until the day after, by the yard's calendar.
    UntilDayAfter,
    /// It is taken off on the day following: not before that day, and not after it.
    OffDayAfter,
}

/// A part of a rule about signs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SignPart {
    /// The sign's size.
    Size,
    /// How tall its letters are.
    Letters,
    /// How high its bottom edge is above the ground.
    Bottom,
    /// Its colour.
    Colour,
    /// The languages of its words.
    Languages,
    /// When it is put up.
    PutUp,
    /// How long it stays.
    Stays,
}

/// What a rule asks of a sign; none: that part was not read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct SignRule {
    /// The shorter and the longer side, at least.
    pub least_sides: Option<Told<[Inches; 2]>>,
    /// The letters' height, at least.
    pub letters_least: Option<Told<Inches>>,
    /// The bottom edge above the ground, at least. Where a rule only says "above ground", it is
    /// taken for the bottom edge, the stricter reading.
    pub bottom_least: Option<Told<Inches>>,
    /// The bottom edge above the ground, at most.
    pub bottom_most: Option<Told<Inches>>,
    /// The colour.
    pub colour: Option<Told<Colour>>,
    /// The languages of its words.
    pub languages: Option<Told<&'static [SignLanguage]>>,
    /// When it is put up.
    pub put_up: Option<Told<PutUp>>,
    /// How long it stays.
    pub stays: Option<Told<Stays>>,
}

impl SignRule {
    /// The parts that were not read.
    pub fn not_read(&self) -> Vec<SignPart> {
        let parts = [
            (SignPart::Size, self.least_sides.is_none()),
            (SignPart::Letters, self.letters_least.is_none()),
            (
                SignPart::Bottom,
                self.bottom_least.is_none() && self.bottom_most.is_none(),
            ),
            (SignPart::Colour, self.colour.is_none()),
            (SignPart::Languages, self.languages.is_none()),
            (SignPart::PutUp, self.put_up.is_none()),
            (SignPart::Stays, self.stays.is_none()),
        ];
        parts
            .into_iter()
            .filter_map(|(part, missing)| missing.then_some(part))
            .collect()
    }
}

/// What is known of the sign for one treatment.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SignAsked {
    /// The place; none where it is none of those read.
    pub place: Option<Place>,
    /// Where the rule was read.
    pub source: Option<LawSource>,
    /// What the rule asks for, as read.
    pub rule: Option<&'static SignRule>,
    /// The sign stays at least until then, in milliseconds since 1970 UTC; none: not known. It
    /// also stays as long as anybody has to keep off.
    pub earliest_removal_utc_ms: Option<i64>,
    /// It is down before then, in milliseconds since 1970 UTC, where the rule sets a day for it.
    pub removed_before_utc_ms: Option<i64>,
    /// What was not read, by name.
    pub not_read: Vec<SignPart>,
    /// All of it in one finding: never clear, because a sign that is known to be asked for is
    /// something to see to.
    pub finding: Finding,
}

/// What a place asks of the sign for a treatment that ended at `ended_utc_ms` (or a sign that was
/// put up later than that: give the later), by the calendar of the yard's `zone`.
///
/// Hours are real elapsed time, so that no change of the clocks shortens them; they end on a whole
/// minute, rounded up.
///
/// ```
/// use sward_rules::place::{Place, sign_asked};
/// let zone = chrono_tz::America::New_York;
/// // 31 October 2026 20:00 EDT; the clocks go back that night.
/// let ended = 1_793_491_200_000;
/// let asked = sign_asked(Some(Place::NewYork), ended, zone)?.value;
/// assert_eq!(asked.earliest_removal_utc_ms, Some(ended + 24 * 3_600_000));
/// let nobody = sign_asked(None, ended, zone)?.value;
/// assert_eq!(nobody.earliest_removal_utc_ms, None);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// [`RuleError::OutOfRange`] when the end lies before 1970 or after the year 9999.
pub fn sign_asked(place: Option<Place>, ended_utc_ms: i64, zone: Tz) -> Result<Answer<SignAsked>> {
    let out_of_range = || {
        RuleError::OutOfRange {
            given: format!("{ended_utc_ms} ms"),
        }
        .of(Field::TreatmentEnd)
    };
    let day = local_day(ended_utc_ms, zone).ok_or_else(out_of_range)?;
    let Some((source, rule)) = place.and_then(Place::sign_rule) else {
        let asked = SignAsked {
            place,
            source: None,
            rule: None,
            earliest_removal_utc_ms: None,
            removed_before_utc_ms: None,
            not_read: Vec::new(),
            finding: not_read(Check::Sign, place),
        };
        return Ok(Working::new("not known", "no source")
            .note(Note::CheckCurrentRule)
            .gives(asked));
    };
    let (formula, earliest, before) = match rule.stays.map(|told| told.value) {
        None => ("not known", None, None),
        Some(Stays::Hours(hours)) => {
            let wait = HOUR_MS * i64::from(hours);
            let end = ended_utc_ms.checked_add(wait).and_then(minute_up);
            let end = end.ok_or_else(out_of_range)?;
            ("hours after the end", Some(end), None)
        }
        Some(Stays::UntilDayAfter) => {
            let next = day_after(day, 1, zone).ok_or_else(out_of_range)?;
            ("the day after begins", Some(next), None)
        }
        Some(Stays::OffDayAfter) => {
            let next = day_after(day, 1, zone).ok_or_else(out_of_range)?;
            // Counted from the day that came, should a zone have left one out.
            let came = local_day(next, zone).ok_or_else(out_of_range)?;
            let end = day_after(came, 1, zone).ok_or_else(out_of_range)?;
            ("within the day after", Some(next), Some(end))
        }
    };
    let mut working = Working::new(formula, source.law)
        .input("local day", day)
        .input("time zone", zone.name())
        .note(Note::CheckCurrentRule)
        .note(Note::SignAsLongAsKeepOff);
    if let Some(Stays::Hours(hours)) = rule.stays.map(|told| told.value) {
        working = working.input("hours", hours);
    }
    let unread = rule.not_read();
    Ok(working.gives(SignAsked {
        place,
        source: Some(source),
        rule: Some(rule),
        earliest_removal_utc_ms: earliest,
        removed_before_utc_ms: before,
        finding: summary(&unread),
        not_read: unread,
    }))
}

fn summary(unread: &[SignPart]) -> Finding {
    let finding = if unread.is_empty() {
        let mut finding = Finding::new(Check::Sign, Verdict::Caution, Reason::SignAskedFor);
        finding.whose = Whose::Law;
        finding
    } else {
        Finding::unknown(Check::Sign, Reason::SignAskedFor).and(Reason::SignPartNotRead)
    };
    finding.and(Reason::CheckCurrentRule)
}
