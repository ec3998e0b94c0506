//! Refusals about starting, loading and finishing. What was found unfit travels whole, so that a
//! shell can say every finding in its own words.

use serde::Serialize;
use sward_rules::Finding;
use sward_rules::finding::Check;
use sward_rules::quantity::Dimension;

use super::visit::one_of;
use crate::error::names;

/// Starting, loading and finishing.
#[derive(
    Debug,
    Clone,
    PartialEq,
    Eq,
    Serialize,
    strum::IntoStaticStr,
    strum::VariantNames,
    thiserror::Error,
)]
#[serde(tag = "refusal", rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum TreatRefusal {
    /// One visit, one treatment.
    #[error("this visit was started or ended already: open another visit to treat again")]
    VisitNotOpen,
    /// The findings are old, or the clock was set back since.
    #[error(
        "sky and yard were checked {age_min} min ago, at most {min_most} are accepted: check again, then start"
    )]
    CheckedTooLongAgo {
        /// How long ago, in minutes.
        age_min: i64,
        /// The most, in minutes.
        min_most: i64,
    },
    /// No findings for the label sheet.
    #[error("sky and yard were not checked for this label sheet yet: check them first, then start")]
    NotChecked,
    /// Unknown findings that nobody acknowledged.
    #[error(
        "not known: {}. Check it, or acknowledge each by name",
        listed(findings)
    )]
    NotAcknowledged {
        /// The findings.
        findings: Vec<Finding>,
    },
    /// Limits that are hit.
    #[error(
        "don't treat: {}. To record a start all the same, give the reason",
        listed(findings)
    )]
    DontTreat {
        /// The findings.
        findings: Vec<Finding>,
    },
    /// The visit is known, its yard is still on another phone.
    #[error("the yard of this visit has not arrived yet: swap records first")]
    YardNotArrived,
    /// A section without an outline.
    #[error("{section} is not measured: without its outline nobody can be kept off it")]
    SectionNotMeasured {
        /// Its name.
        section: String,
    },
    /// A section of another yard.
    #[error("a section to treat is not of this yard")]
    SectionOfAnotherYard,
    /// No section with an outline.
    #[error("there is no measured section to treat: measure one first")]
    NothingMeasured,
    /// Loading or finishing before a start.
    #[error("treating has not started on this visit: start first")]
    NotStarted,
    /// An amount that is none.
    #[error("{what}: {amount} cannot be; give {} above zero", one_of(wanted))]
    LoadCannotBe {
        /// Which part of the load.
        what: LoadPart,
        /// What was given, as a person writes it.
        amount: String,
        /// What kinds of amount it may be.
        wanted: Vec<Dimension>,
    },
    /// A time after now.
    #[error("this time is still to come: give when it was done")]
    StillToCome,
    /// A second finish.
    #[error("this visit is finished already: correct the finish, with a reason, instead")]
    FinishedAlready,
}

names!(TreatRefusal);

/// A part of a load.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, strum::Display, strum::VariantNames)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum LoadPart {
    /// The product.
    Product,
    /// The water it is mixed with.
    Water,
}

names!(LoadPart);

fn listed(findings: &[Finding]) -> String {
    let listed: Vec<String> = findings
        .iter()
        .map(|f| format!("{} ({})", check_name(f.check), f.reason))
        .collect();
    listed.join("; ")
}

/// A check's stable name, as the person acknowledges it.
pub fn check_name(check: Check) -> String {
    serde_json::to_value(check)
        .ok()
        .and_then(|v| v.as_str().map(str::to_owned))
        .unwrap_or_default()
}
