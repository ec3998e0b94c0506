//! What counts say, in words.

use sward_rules::look::{Decision, More};

/// What a count says about treating.
pub(crate) fn decision(decision: Decision) -> &'static str {
    match decision {
        Decision::Leave => "Leave it",
        Decision::Watch => "Watch",
        Decision::TreatingMayPay => "Treating may pay",
        Decision::Unknown => "Not known",
    }
}

/// How many more samples would decide; nothing where the count decides already.
pub(crate) fn more(more: More) -> Option<String> {
    match more {
        More::None => None,
        More::Samples { samples, toward } => {
            let noun = if samples == 1 { "sample" } else { "samples" };
            Some(format!(
                "{samples} more {noun} would decide (\"{}\"), if they hold as many on average.",
                decision(toward)
            ))
        }
        More::NotKnown { because } => Some(format!(
            "How many more samples would decide is not known: {because}."
        )),
    }
}
