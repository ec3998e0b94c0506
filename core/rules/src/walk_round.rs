//! The walk round the yard before treating: what a person must have seen to, and what an answer
//! means.
//!
//! Weather is in [`crate::sky`]; how answers are stored belongs to the book.

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};

use crate::finding::{Check, Finding, Reason, Shown, Source, Verdict, Whose};
use crate::keep_off::Now;
use crate::label::Method;

/// How old an answer may be, in minutes: children and pets do not stay where they were. Common
/// practice, no source.
pub const ANSWER_AGE_MOST_MIN: u32 = 60;

/// How far an answer's time may lie ahead of now, in minutes, before the clocks are in doubt.
const AHEAD_MOST_MIN: i64 = 2;

const MIN_MS: i64 = 60_000;

/// One thing to see to.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Encode, Decode, Serialize, Deserialize,
)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum Question {
    /// Toys and play things.
    #[n(0)]
    Toys,
    /// Pets' food and water bowls.
    #[n(1)]
    Bowls,
    /// Laundry on the line.
    #[n(2)]
    Laundry,
    /// Windows, doors and air intakes that face the lawn.
    #[n(3)]
    Windows,
    /// Ponds, fish, bird baths and hives.
    #[n(4)]
    PondOrHive,
    /// Irrigation, its timer included.
    #[n(5)]
    Irrigation,
    /// Gates.
    #[n(6)]
    Gates,
    /// Puddles and running water on the lawn.
    #[n(7)]
    Puddles,
    /// Drives, walks and patios beside the lawn.
    #[n(8)]
    HardSurfaces,
    /// Storm drains and open water.
    #[n(9)]
    Drains,
    /// People and pets.
    #[n(10)]
    PeopleAndPets,
}

/// What a person answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize, Deserialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum WalkAnswer {
    /// Seen to: moved, shut, covered, switched off, kept clear.
    #[n(0)]
    Moved,
    /// There is none here.
    #[n(1)]
    NotHere,
    /// It is there, and cannot be seen to.
    #[n(2)]
    Cant,
}

/// One answer, as recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct Answered {
    /// What was asked.
    #[n(0)]
    pub question: Question,
    /// The answer.
    #[n(1)]
    pub answer: WalkAnswer,
    /// When, in milliseconds since 1970 UTC.
    #[n(2)]
    pub at_utc_ms: i64,
}

struct Row {
    question: Question,
    name: &'static str,
    check: Check,
    cant: Verdict,
    why: Reason,
    source: Source,
}

/// What "cannot be seen to" means for each question, and why. Where a person, an animal or water
/// is reached at once there is no treating; where care still helps, it is a caution.
static TABLE: [Row; 11] = [
    row(
        Question::Toys,
        "toys",
        Check::ThingsOffLawn,
        Verdict::Caution,
        Reason::ToysStay,
        Source::Practice,
    ),
    row(
        Question::Bowls,
        "bowls",
        Check::ThingsOffLawn,
        Verdict::DontTreat,
        Reason::BowlsStay,
        Source::Practice,
    ),
    row(
        Question::Laundry,
        "laundry",
        Check::ThingsOffLawn,
        Verdict::Caution,
        Reason::LaundryHangs,
        Source::Practice,
    ),
    row(
        Question::Windows,
        "windows",
        Check::WindowsShut,
        Verdict::Caution,
        Reason::WindowsOpen,
        Source::Practice,
    ),
    row(
        Question::PondOrHive,
        "pond or hive",
        Check::PondOrHive,
        Verdict::DontTreat,
        Reason::PondOrHiveOpen,
        Source::Practice,
    ),
    row(
        Question::Irrigation,
        "irrigation",
        Check::IrrigationOff,
        Verdict::Caution,
        Reason::IrrigationOn,
        Source::Practice,
    ),
    row(
        Question::Gates,
        "gates",
        Check::Gates,
        Verdict::Caution,
        Reason::GatesOpen,
        Source::Practice,
    ),
    row(
        Question::Puddles,
        "puddles",
        Check::Puddles,
        Verdict::DontTreat,
        Reason::PuddlesThere,
        Source::Epa,
    ),
    row(
        Question::HardSurfaces,
        "hard surfaces",
        Check::HardSurfaces,
        Verdict::Caution,
        Reason::HardSurfacesReached,
        Source::Epa,
    ),
    row(
        Question::Drains,
        "drains and open water",
        Check::Drains,
        Verdict::DontTreat,
        Reason::DrainsOpen,
        Source::Epa,
    ),
    row(
        Question::PeopleAndPets,
        "people and pets",
        Check::PeopleAndPets,
        Verdict::DontTreat,
        Reason::PeopleOrPetsThere,
        Source::Practice,
    ),
];

const fn row(
    question: Question,
    name: &'static str,
    check: Check,
    cant: Verdict,
    why: Reason,
    source: Source,
) -> Row {
    Row {
        question,
        name,
        check,
        cant,
        why,
        source,
    }
}

/// What is asked before treating by this method. Windows and laundry matter where drops drift;
/// everything else for every method.
pub fn questions(method: Method) -> &'static [Question] {
    const ALL: [Question; 11] = [
        Question::PeopleAndPets,
        Question::Toys,
        Question::Bowls,
        Question::Laundry,
        Question::Windows,
        Question::PondOrHive,
        Question::Irrigation,
        Question::Gates,
        Question::Puddles,
        Question::HardSurfaces,
        Question::Drains,
    ];
    const DRY: [Question; 9] = [
        Question::PeopleAndPets,
        Question::Toys,
        Question::Bowls,
        Question::PondOrHive,
        Question::Irrigation,
        Question::Gates,
        Question::Puddles,
        Question::HardSurfaces,
        Question::Drains,
    ];
    match method {
        Method::FoliarSpray | Method::Drench => &ALL,
        Method::Granule | Method::Bait => &DRY,
    }
}

/// The checks that a walk round answers for this method, in the order of its questions.
pub fn which_checks(method: Method) -> Vec<Check> {
    let mut checks: Vec<Check> = Vec::new();
    for check in questions(method).iter().map(|q| q.row().check) {
        if !checks.contains(&check) {
            checks.push(check);
        }
    }
    checks
}

/// One finding for each check, from the answers given. Of several answers to one question the
/// latest counts, of two at one time the worse; an old one, or one from the future, counts as not
/// given. Without a proven time no answer's age is known, so all are Unknown.
pub fn findings(method: Method, answers: &[Answered], now: Now) -> Vec<Finding> {
    which_checks(method)
        .into_iter()
        .map(|check| {
            let parts = questions(method)
                .iter()
                .filter(|q| q.row().check == check)
                .map(|q| part(*q, answers, now))
                .collect();
            join(check, parts)
        })
        .collect()
}

impl Question {
    /// The question's name as a person says it.
    pub fn name(self) -> &'static str {
        self.row().name
    }

    /// The check that it belongs to.
    pub fn check(self) -> Check {
        self.row().check
    }

    fn row(self) -> &'static Row {
        TABLE
            .iter()
            .find(|r| r.question == self)
            .expect("every question has its row")
    }
}

fn part(question: Question, answers: &[Answered], now: Now) -> Finding {
    let row = question.row();
    let latest = answers
        .iter()
        .filter(|a| a.question == question)
        .max_by_key(|a| (a.at_utc_ms, a.answer == WalkAnswer::Cant));
    let Some(answered) = latest else {
        return Finding::unknown(row.check, Reason::NotAnswered { question });
    };
    let age_ms = now.utc_ms.saturating_sub(answered.at_utc_ms);
    let age_min = u32::try_from(age_ms.max(0) / MIN_MS).unwrap_or(u32::MAX);
    let finding = if answered.answer == WalkAnswer::Cant {
        // A bad answer stays bad however old: only looking again can better it.
        Finding::new(
            row.check,
            row.cant.max(freshness(age_ms, now)),
            row.why.clone(),
        )
        .with_limit(Shown::MustBeSeenTo, Whose::Advice)
        .with_source(row.source)
    } else if !now.proven {
        Finding::unknown(row.check, Reason::AnswerNotDated { question })
    } else if age_ms < -AHEAD_MOST_MIN * MIN_MS {
        Finding::unknown(row.check, Reason::AnswerToCome { question })
    } else if age_min > ANSWER_AGE_MOST_MIN {
        Finding::unknown(row.check, Reason::AnswerTooOld { question, age_min })
    } else {
        let said = if answered.answer == WalkAnswer::Moved {
            Reason::SeenTo { question }
        } else {
            Reason::NoneHere { question }
        };
        Finding::new(row.check, Verdict::Clear, said)
            .with_limit(Shown::MustBeSeenTo, Whose::Advice)
            .with_source(row.source)
    };
    finding.with_age_min(age_min)
}

/// The least that an answer of this age may count as.
fn freshness(age_ms: i64, now: Now) -> Verdict {
    let fresh =
        (-AHEAD_MOST_MIN * MIN_MS..=i64::from(ANSWER_AGE_MOST_MIN) * MIN_MS).contains(&age_ms);
    if now.proven && fresh {
        Verdict::Clear
    } else {
        Verdict::Unknown
    }
}

/// The worst part, with the reasons of all that are as bad.
fn join(check: Check, parts: Vec<Finding>) -> Finding {
    let worst = crate::finding::sum(&parts);
    let oldest = parts.iter().filter_map(|p| p.age_min).max();
    let mut worst_parts = parts.into_iter().filter(|p| p.verdict == worst);
    let mut finding = worst_parts
        .next()
        .unwrap_or_else(|| Finding::unknown(check, Reason::NotLookedAt));
    finding.also.extend(worst_parts.map(|p| p.reason));
    finding.age_min = oldest;
    finding
}

#[cfg(test)]
mod tests;
