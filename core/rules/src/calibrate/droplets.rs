//! The size of the drops, by the class names of ASABE S572, against what a label asks for.
//!
//! Which class a nozzle makes at a pressure stands in its maker's table; here it is never guessed.

use serde::Serialize;

use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, LabelField, Reason, Shown, Source, Verdict, Whose};
use crate::label::LabelSays;
use crate::sentence::words;

words! {
    /// A droplet class of ASABE S572, from finest to coarsest (names from memory).
    stored DropletClass;
    0 ExtremelyFine => "extremely fine (XF)";
    1 VeryFine => "very fine (VF)";
    2 Fine => "fine (F)";
    3 Medium => "medium (M)";
    4 Coarse => "coarse (C)";
    5 VeryCoarse => "very coarse (VC)";
    6 ExtremelyCoarse => "extremely coarse (XC)";
    7 UltraCoarse => "ultra coarse (UC)";
}

words! {
    /// What drops of a class are for on a lawn. Common practice, no source; the label decides.
    DropletUse;
    NotOutdoors => "fogs indoors; outdoors they hang in the air and wander";
    LeavesStillAir => "covering leaves closely; they drift";
    LeavesGeneral => "covering leaves, with some drift";
    LeavesAndSoil => "leaves and soil, with little drift";
    Soil => "soil, drenches and the least drift; leaves are covered badly";
}

impl DropletClass {
    /// Every class, from finest to coarsest.
    pub const ALL: [Self; 8] = [
        Self::ExtremelyFine,
        Self::VeryFine,
        Self::Fine,
        Self::Medium,
        Self::Coarse,
        Self::VeryCoarse,
        Self::ExtremelyCoarse,
        Self::UltraCoarse,
    ];

    /// What it is for.
    pub fn is_for(self) -> DropletUse {
        match self {
            Self::ExtremelyFine | Self::VeryFine => DropletUse::NotOutdoors,
            Self::Fine => DropletUse::LeavesStillAir,
            Self::Medium => DropletUse::LeavesGeneral,
            Self::Coarse => DropletUse::LeavesAndSoil,
            Self::VeryCoarse | Self::ExtremelyCoarse | Self::UltraCoarse => DropletUse::Soil,
        }
    }
}

/// The classes that a label allows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct LabelDrops {
    /// The finest.
    pub finest: DropletClass,
    /// The coarsest; the coarsest there is where the label says "or coarser".
    pub coarsest: DropletClass,
}

/// A nozzle's droplet class against the label's.
///
/// ```
/// use sward_rules::{Verdict, calibrate::*, label::LabelSays};
/// let label = LabelSays::Value(LabelDrops {
///     finest: DropletClass::Coarse,
///     coarsest: DropletClass::UltraCoarse,
/// });
/// let fine = droplets_finding(&label, Some(DropletClass::Fine))?;
/// assert_eq!(fine.verdict, Verdict::DontTreat);
/// assert_eq!(droplets_finding(&label, None)?.verdict, Verdict::Unknown);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When the label's coarsest class is finer than its finest.
pub fn droplets_finding(
    label: &LabelSays<LabelDrops>,
    nozzle: Option<DropletClass>,
) -> Result<Finding> {
    let of = |verdict, reason| {
        let finding = Finding::new(Check::Drops, verdict, reason);
        match nozzle {
            Some(drops) => finding.with_value(Shown::Drops { drops }),
            None => finding,
        }
    };
    let drops = match label {
        LabelSays::Unfilled => {
            let field = LabelField::Droplets;
            return Ok(of(Verdict::Unknown, Reason::LabelFieldEmpty { field }));
        }
        LabelSays::Nothing => return Ok(of(Verdict::Clear, Reason::LabelSetsNoDrops)),
        LabelSays::Value(drops) => *drops,
    };
    let (finest, coarsest) = (drops.finest, drops.coarsest);
    if rank(coarsest) < rank(finest) {
        return Err(RuleError::NotAllowed {
            field: Field::CoarsestDrops,
            given: coarsest.to_string(),
            allowed: Allowed::NotFinerThanFinest,
        });
    }
    let (verdict, reason) = match nozzle {
        None => (Verdict::Unknown, Reason::DropsNotKnown),
        Some(class) if rank(class) < rank(finest) => {
            (Verdict::DontTreat, Reason::DropsFinerThanLabel)
        }
        Some(class) if rank(class) > rank(coarsest) => {
            (Verdict::DontTreat, Reason::DropsCoarserThanLabel)
        }
        Some(_) => (Verdict::Clear, Reason::DropsAsLabelAsks),
    };
    Ok(of(verdict, reason)
        .with_limit(Shown::DropsBetween { finest, coarsest }, Whose::Label)
        .with_source(Source::DropletSize))
}

fn rank(class: DropletClass) -> usize {
    DropletClass::ALL
        .iter()
        .position(|c| *c == class)
        .unwrap_or_default()
}
