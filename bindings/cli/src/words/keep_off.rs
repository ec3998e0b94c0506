//! Where a keep-off stands, in words that are never milder than what is known.

use chrono_tz::Tz;
use sward_book::view::keep_off::Standing;
use sward_rules::Entered;
use sward_rules::keep_off::{EndedBy, State};
use sward_rules::label::{KeepOffTerms, LabelSays};

use crate::times::moment;

/// A keep-off in words: whether people and pets stay off, and until when.
pub(crate) struct Told {
    /// Keep off, may look, over.
    pub(crate) state: &'static str,
    /// Until when, or what it waits for.
    pub(crate) until: String,
}

/// Puts a keep-off's standing into words.
pub(crate) fn keep_off_state(standing: Standing, zone: Tz) -> Told {
    let told = |state, until: String| Told { state, until };
    let then = |dry: bool| {
        if dry {
            ", then until someone sees it dry"
        } else {
            ""
        }
    };
    match standing {
        Standing::Released => told("lifted", "by a crew lead's decision".into()),
        Standing::ByClaims(State::RunsUntilFinish) => {
            told("keep off", "no end yet: treating is not finished".into())
        }
        Standing::ByClaims(State::RunsUntilLabelIsRead) => told(
            "keep off",
            "no end yet: enter what the label says (`sward keep-off claim`)".into(),
        ),
        Standing::ByClaims(State::Runs {
            until_utc_ms,
            then_dry,
        }) => told(
            "keep off",
            format!("until {}{}", moment(until_utc_ms, zone), then(then_dry)),
        ),
        Standing::ByClaims(State::WaitsForDry) => told(
            "keep off",
            "waits for someone to see it dry (`sward dry`)".into(),
        ),
        Standing::ByClaims(State::TimeUncertain {
            not_before_utc_ms,
            then_dry,
        }) => {
            let end = match not_before_utc_ms {
                Some(at) => format!("not before {}", moment(at, zone)),
                None => "no end can be told".to_owned(),
            };
            told(
                "keep off",
                format!(
                    "time uncertain, {end}{}; `sward confirm-time` helps",
                    then(then_dry)
                ),
            )
        }
        Standing::ByClaims(State::Ended { by, at_utc_ms }) => {
            let by = match by {
                EndedBy::Time => "the wait is over",
                EndedBy::Dry => "seen dry",
                EndedBy::Both => "the wait is over and it was seen dry",
            };
            told("over", format!("since {} ({by})", moment(at_utc_ms, zone)))
        }
    }
}

/// What a claim asks for.
pub(crate) fn terms(terms: &KeepOffTerms) -> String {
    let wait = match &terms.wait {
        LabelSays::Unfilled => "wait not known".to_owned(),
        LabelSays::Nothing => "no wait".to_owned(),
        LabelSays::Value(time) => format!("wait {}", Entered::for_person(time)),
    };
    let dry = match terms.until_dry {
        LabelSays::Unfilled => "whether until dry not known",
        LabelSays::Nothing | LabelSays::Value(false) => "not until dry",
        LabelSays::Value(true) => "until dry",
    };
    format!("{wait}, {dry}")
}
