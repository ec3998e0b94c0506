//! What single states ask for besides the label: signs, notices to neighbours, records.
//!
//! Texts of laws were read in stored copies, and laws change: everything here stands beside
//! "check your state's current rule" ([`Note::CheckCurrentRule`]). No state's rule ever stands in
//! for another's, and what was not read is not known. A place can make a keep-off longer, never
//! shorter: that is [`crate::keep_off`].

mod data;
mod day;
mod notice;
mod sign;
mod sign_check;
mod sign_text;

use serde::Serialize;

use crate::finding::{Check, Finding, Reason};
use crate::record_rules::RecordRule;

#[cfg(doc)]
use crate::Note;

pub use notice::{
    Adopted, NoticeAsked, NoticeRule, NoticeTimes, NoticeTo, is_within_reach, notice_asked,
};
pub use sign::{Colour, PutUp, SignAsked, SignLanguage, SignPart, SignRule, Stays, sign_asked};
pub use sign_check::{SignGiven, check_sign};
pub use sign_text::{SignFacts, sign_text};

pub(crate) use day::{day_after, local_day, minute_up};

/// How a figure was learnt.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// Read in the published text.
    Read,
    /// From memory, not verified.
    FromMemory,
}

/// A figure of a rule, with how it was learnt.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
pub struct Told<T> {
    /// The figure.
    pub value: T,
    /// How it was learnt.
    pub mark: Mark,
}

impl<T> Told<T> {
    /// Read in the published text.
    pub const fn read(value: T) -> Self {
        Self {
            value,
            mark: Mark::Read,
        }
    }

    /// From memory, not verified.
    pub const fn from_memory(value: T) -> Self {
        Self {
            value,
            mark: Mark::FromMemory,
        }
    }
}

/// Where a rule was read, and when.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
pub struct LawSource {
    /// The statute and section, or the public body that tells of it.
    pub law: &'static str,
    /// When it was read, and in what.
    pub read: &'static str,
}

/// What a rule is about, with its facts.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum Kind {
    /// Signs on the lawn.
    Sign(SignRule),
    /// Notices to neighbours.
    Notice(NoticeRule),
    /// What a record holds.
    Record(&'static RecordRule),
}

/// One rule of a place.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PlaceRule {
    /// Where it was read.
    pub source: LawSource,
    /// What it asks for.
    #[serde(flatten)]
    pub kind: Kind,
}

/// A state of which some rules were read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Place {
    /// New York.
    NewYork,
    /// Maryland.
    Maryland,
    /// Illinois.
    Illinois,
    /// Georgia.
    Georgia,
    /// Florida.
    Florida,
    /// Minnesota.
    Minnesota,
    /// Texas.
    Texas,
    /// Pennsylvania.
    Pennsylvania,
}

impl Place {
    /// Every state of which some rules were read.
    pub const ALL: [Self; 8] = [
        Self::NewYork,
        Self::Maryland,
        Self::Illinois,
        Self::Georgia,
        Self::Florida,
        Self::Minnesota,
        Self::Texas,
        Self::Pennsylvania,
    ];

    /// The state's two letters.
    pub const fn code(self) -> &'static str {
        match self {
            Self::NewYork => "NY",
            Self::Maryland => "MD",
            Self::Illinois => "IL",
            Self::Georgia => "GA",
            Self::Florida => "FL",
            Self::Minnesota => "MN",
            Self::Texas => "TX",
            Self::Pennsylvania => "PA",
        }
    }

    /// The state's English name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::NewYork => "New York",
            Self::Maryland => "Maryland",
            Self::Illinois => "Illinois",
            Self::Georgia => "Georgia",
            Self::Florida => "Florida",
            Self::Minnesota => "Minnesota",
            Self::Texas => "Texas",
            Self::Pennsylvania => "Pennsylvania",
        }
    }

    /// The state's Spanish name, where it is another.
    pub const fn spanish_name(self) -> &'static str {
        match self {
            Self::NewYork => "Nueva York",
            Self::Pennsylvania => "Pensilvania",
            _ => self.name(),
        }
    }

    /// The state of which somebody typed the two letters or the whole name, in upper or lower
    /// case. Anything else is none: a state that was not read has no rules here, and no
    /// other's stand in.
    ///
    /// ```
    /// use sward_rules::place::Place;
    /// assert_eq!(Place::from_typed(" ny "), Some(Place::NewYork));
    /// assert_eq!(Place::from_typed("New  york"), Some(Place::NewYork));
    /// assert_eq!(Place::from_typed("Nueva York"), Some(Place::NewYork));
    /// assert_eq!(Place::from_typed("New Jersey"), None);
    /// assert_eq!(Place::from_typed("New York City"), None);
    /// ```
    pub fn from_typed(text: &str) -> Option<Self> {
        // Longer than any state's name: not worth taking apart.
        if text.len() > 100 {
            return None;
        }
        let words: Vec<&str> = text.split_whitespace().collect();
        let typed = words.join(" ");
        Self::ALL.into_iter().find(|place| {
            [place.code(), place.name(), place.spanish_name()]
                .iter()
                .any(|known| typed.eq_ignore_ascii_case(known))
        })
    }

    /// The rules of this state that were read. There may be more.
    pub fn rules(self) -> &'static [PlaceRule] {
        data::rules_of(self)
    }

    /// The rule about signs, where one was read.
    pub fn sign_rule(self) -> Option<(LawSource, &'static SignRule)> {
        self.rules().iter().find_map(|rule| match &rule.kind {
            Kind::Sign(sign) => Some((rule.source, sign)),
            _ => None,
        })
    }

    /// The rule about notices to neighbours, where one was read.
    pub fn notice_rule(self) -> Option<(LawSource, &'static NoticeRule)> {
        self.rules().iter().find_map(|rule| match &rule.kind {
            Kind::Notice(notice) => Some((rule.source, notice)),
            _ => None,
        })
    }

    /// The rule about records, where one was read.
    pub fn record_rule(self) -> Option<&'static RecordRule> {
        self.rules().iter().find_map(|rule| match &rule.kind {
            Kind::Record(record) => Some(*record),
            _ => None,
        })
    }
}

/// Not known: the place is none of those read, or no such rule of it was.
fn not_read(check: Check, place: Option<Place>) -> Finding {
    let reason = match place {
        None => Reason::PlaceNotKnown,
        Some(_) => Reason::NoRuleRead,
    };
    Finding::unknown(check, reason).and(Reason::CheckCurrentRule)
}

#[cfg(test)]
mod tests;
