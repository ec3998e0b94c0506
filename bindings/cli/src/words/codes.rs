//! Single codes as words: verdicts, checks, roles, states, and reading codes from the command
//! line.

use serde::Serialize;
use serde::de::DeserializeOwned;
use sward_book::env::TimeProof;
use sward_book::fact::{NotTreatedWhy, Role};
use sward_book::view::visit::VisitState;
use sward_rules::finding::{Check, Verdict};
use sward_rules::label::Method;

/// A code from its name as typed, with dashes or underscores.
pub(crate) fn code<T: DeserializeOwned>(typed: &str) -> Option<T> {
    let name = typed.trim().to_lowercase().replace(['-', ' '], "_");
    serde_json::from_value(serde_json::Value::String(name)).ok()
}

/// A code's stable name.
pub(crate) fn key_of<T: Serialize>(value: &T) -> String {
    serde_json::to_value(value)
        .ok()
        .and_then(|v| v.as_str().map(str::to_owned))
        .unwrap_or_default()
}

/// A check's name, as it is typed to acknowledge it.
pub(crate) fn check_key(check: Check) -> String {
    key_of(&check)
}

/// A verdict as it stands on every screen.
pub(crate) fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Clear => "no limit hit",
        Verdict::Caution => "take care",
        Verdict::Unknown => "not known",
        Verdict::DontTreat => "don't treat",
    }
}

/// A role.
pub(crate) fn role(role: Role) -> &'static str {
    match role {
        Role::Office => "office (reads only)",
        Role::Applicator => "applicator",
        Role::CrewLead => "crew lead",
    }
}

/// How a time is proven.
pub(crate) fn proof(proof: TimeProof) -> &'static str {
    match proof {
        TimeProof::Unproven => "unproven",
        TimeProof::Person => "confirmed by a person",
        TimeProof::Network => "confirmed by the network",
        TimeProof::Peer => "confirmed by another phone",
    }
}

/// How far a visit has come.
pub(crate) fn visit_state(state: VisitState) -> &'static str {
    match state {
        VisitState::Looking => "looking",
        VisitState::Treating => "treating",
        VisitState::Finished => "finished",
        VisitState::NotTreated => "not treated",
    }
}

/// Why nothing was treated.
pub(crate) fn why_not(why: NotTreatedWhy) -> &'static str {
    match why {
        NotTreatedWhy::BelowThreshold => "too few to matter",
        NotTreatedWhy::LookAlike => "a harmless look-alike",
        NotTreatedWhy::Weather => "the weather",
        NotTreatedWhy::YardNotReady => "the yard was not ready",
        NotTreatedWhy::NotWanted => "not wanted by the people there",
        NotTreatedWhy::Other => "another reason",
    }
}

/// How a product goes on.
pub(crate) fn method(method: Method) -> &'static str {
    match method {
        Method::Granule => "granules by spreader",
        Method::FoliarSpray => "spray on the leaves",
        Method::Drench => "drench into the soil",
        Method::Bait => "bait",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_read_with_dashes_or_underscores() {
        assert_eq!(code("label-read-back"), Some(Check::LabelReadBack));
        assert_eq!(code("label_read_back"), Some(Check::LabelReadBack));
        assert_eq!(code::<Check>("weather"), None);
        assert_eq!(check_key(Check::PeopleAndPets), "people_and_pets");
    }
}
