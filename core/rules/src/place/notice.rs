//! Notices to neighbours before a treatment: where they count, to whom, and until when they can
//! be given.

use serde::Serialize;

use super::sign::SignLanguage;
use super::{LawSource, Place, Told, not_read};
use crate::error::{Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Verdict, Whose};
use crate::note::Note;
use crate::quantity::{Dimension, Entered, Unit, whole};
use crate::working::{Answer, Working};

const HOUR_MS: i64 = 3_600_000;

/// Who is given notice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NoticeTo {
    /// Those on property that borders on the yard.
    AbuttingProperty,
}

/// What a rule asks of a written notice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct NoticeRule {
    /// How long before the start, in hours.
    pub hours_before: Told<u32>,
    /// Within which distance of the treated place, in feet.
    pub within_ft: Told<u32>,
    /// To whom.
    pub to: NoticeTo,
    /// Whether it counts only where the county adopted it.
    pub only_where_adopted: bool,
    /// The languages of its words; none: not read.
    pub languages: Option<Told<&'static [SignLanguage]>>,
    /// Whether some products are exempt. Which is not here: the rule itself has to be read.
    pub some_products_exempt: bool,
}

/// Whether the county adopted the rule, by a person's word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Adopted {
    /// Nobody has said.
    #[default]
    NotSaid,
    /// A person says that it did.
    Yes,
    /// A person says that it did not.
    No,
}

/// The times that bear on a notice, in milliseconds since 1970 UTC.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NoticeTimes {
    /// When treating is planned to start.
    pub planned_start_utc_ms: i64,
    /// When the notice was given; none: nobody has said.
    pub given_utc_ms: Option<i64>,
    /// The time now; none: not told, and then no notice is known to be given already.
    pub now_utc_ms: Option<i64>,
}

/// What is known of the notice for one treatment.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct NoticeAsked {
    /// The place; none where it is none of those read.
    pub place: Option<Place>,
    /// Where the rule was read.
    pub source: Option<LawSource>,
    /// What the rule asks for, as read.
    pub rule: Option<&'static NoticeRule>,
    /// The latest moment to give it before the planned start, in milliseconds since 1970 UTC. Also
    /// where nobody has said whether the rule counts: whoever keeps it is on the safe side.
    pub latest_utc_ms: Option<i64>,
    /// Where it stands.
    pub finding: Finding,
}

/// What a place asks of the notice before a planned start, and where it stands.
///
/// ```
/// use sward_rules::finding::Verdict;
/// use sward_rules::place::{Adopted, NoticeTimes, Place, notice_asked};
/// let hour_ms = 3_600_000;
/// let times = NoticeTimes {
///     planned_start_utc_ms: 1_793_491_200_000,
///     given_utc_ms: Some(1_793_491_200_000 - 49 * hour_ms),
///     now_utc_ms: Some(1_793_491_200_000 - 48 * hour_ms),
/// };
/// let asked = |adopted| notice_asked(Some(Place::NewYork), adopted, &times);
/// assert_eq!(asked(Adopted::NotSaid)?.value.finding.verdict, Verdict::Unknown);
/// assert_eq!(asked(Adopted::Yes)?.value.finding.verdict, Verdict::Clear);
/// let latest = asked(Adopted::Yes)?.value.latest_utc_ms;
/// assert_eq!(latest, Some(times.planned_start_utc_ms - 48 * hour_ms));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// [`RuleError::OutOfRange`] when a time cannot be computed with.
pub fn notice_asked(
    place: Option<Place>,
    adopted: Adopted,
    times: &NoticeTimes,
) -> Result<Answer<NoticeAsked>> {
    let Some((source, rule)) = place.and_then(Place::notice_rule) else {
        return Ok(Working::new("not known", "no source")
            .note(Note::CheckCurrentRule)
            .gives(NoticeAsked {
                place,
                source: None,
                rule: None,
                latest_utc_ms: None,
                finding: not_read(Check::Notice, place),
            }));
    };
    let hours = rule.hours_before.value;
    let latest = times
        .planned_start_utc_ms
        .checked_sub(HOUR_MS * i64::from(hours))
        .ok_or_else(|| {
            RuleError::OutOfRange {
                given: format!("{} ms", times.planned_start_utc_ms),
            }
            .of(Field::PlannedStart)
        })?;
    let mut working = Working::new("hours before the start", source.law)
        .input("hours", hours)
        .note(Note::CheckCurrentRule);
    if rule.some_products_exempt {
        working = working.note(Note::SomeProductsExempt);
    }
    let finding = standing(rule, adopted, times, latest)
        .with_limit(Shown::HoursBefore { hours }, Whose::Law)
        .and(Reason::CheckCurrentRule);
    Ok(working.gives(NoticeAsked {
        place,
        source: Some(source),
        rule: Some(rule),
        latest_utc_ms: Some(latest),
        finding,
    }))
}

fn standing(rule: &NoticeRule, adopted: Adopted, times: &NoticeTimes, latest: i64) -> Finding {
    let new = |verdict, reason| Finding::new(Check::Notice, verdict, reason);
    match (adopted, times.given_utc_ms) {
        (Adopted::No, _) if rule.only_where_adopted => {
            new(Verdict::Clear, Reason::NoticeNotAdopted)
        }
        (Adopted::NotSaid, _) if rule.only_where_adopted => {
            new(Verdict::Unknown, Reason::NoticeCountyNotSaid)
        }
        (_, Some(given)) if given > latest => new(Verdict::DontTreat, Reason::NoticeTooLate),
        // A time still to come, or of which nobody knows whether it is, is a plan and no notice.
        (_, Some(given)) if times.now_utc_ms.is_none_or(|now| given > now) => {
            new(Verdict::Unknown, Reason::NoticeNotGiven)
        }
        (_, Some(_)) => new(Verdict::Clear, Reason::NoticeInTime),
        (_, None) if times.now_utc_ms.is_some_and(|now| now > latest) => {
            new(Verdict::DontTreat, Reason::NoticeTooLate)
        }
        (_, None) => new(Verdict::Unknown, Reason::NoticeNotGiven),
    }
}

/// Whether a neighbour at this distance from the treated place is within the rule's reach; the
/// limit itself is.
///
/// # Errors
/// [`RuleError::WrongKind`] when the distance is no length.
pub fn is_within_reach(rule: &NoticeRule, distance: &Entered) -> Result<bool> {
    distance
        .must_be(Dimension::Length)
        .map_err(|error| error.of(Field::NeighbourDistance))?;
    let most = whole(rule.within_ft.value, Unit::FOOT);
    Ok(distance.compare(&most)?.is_le())
}
