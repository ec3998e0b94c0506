//! What the label asks for: water in, and how deep; keep water off, and how long; or nothing.

use rust_decimal::Decimal;
use serde::Serialize;

use crate::error::{Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Verdict, Whose};
use crate::label::{LabelSays, WateringIn};
use crate::measure::AreaEstimate;
use crate::plan::{SECTIONS_MOST, Section, watering_in_volume};
use crate::quantity::{Dimension, Entered, out_of_range, shown};
use crate::working::{Answer, Working};

/// What the label sheet says of watering in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WaterAsked {
    /// Water in; the depth where the sheet has one.
    WaterIn(Option<Entered>),
    /// Keep water off; the time where the sheet has one.
    KeepOff(Option<Entered>),
    /// A person read the label, and it says nothing of it.
    LabelSilent,
    /// Nobody has filled it in.
    NotKnown,
}

/// Water for one section.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SectionWater {
    /// Its name.
    pub name: String,
    /// Its area.
    pub area: AreaEstimate,
    /// Water to the label's depth.
    pub water: Entered,
}

/// What is asked for, and how much water that is.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WateringNeed {
    /// What the label sheet says.
    pub asked: WaterAsked,
    /// Water on 1000 ft², where a depth is known.
    pub per_1000_ft2: Option<Entered>,
    /// Each section's water, where a depth is known.
    pub sections: Vec<SectionWater>,
    /// Water in all, where a depth is known.
    pub total: Option<Entered>,
    /// The same as a finding.
    pub finding: Finding,
}

/// Reads the label sheet on watering in, and works out the water.
///
/// ```
/// # use sward_rules::{Entered, label::*, measure::AreaEstimate, plan::Section, watering::*};
/// # let e = |t: &str| Entered::parse(t).unwrap();
/// let asks = LabelSays::Value(WateringIn::Required(Some(e("0.25 in"))));
/// let area = AreaEstimate::stated(&e("2000 ft2"), &e("0 ft2"))?;
/// let need = watering_need(&asks, &[Section { name: "front".into(), area }])?.value;
/// assert_eq!(need.total, Some(e("311.688312 gal")));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When the depth is no length, zero or absurd, the time is no time, or there are too many sections.
pub fn watering_need(
    says: &LabelSays<WateringIn>,
    sections: &[Section],
) -> Result<Answer<WateringNeed>> {
    if sections.len() > SECTIONS_MOST {
        return Err(RuleError::TooMany {
            field: Field::Plan,
            count: sections.len(),
            limit: SECTIONS_MOST,
        });
    }
    let (asked, finding) = asked(says)?;
    let mut working = Working::new("depth × area", "geometry");
    let WaterAsked::WaterIn(Some(depth)) = asked else {
        return Ok(working.gives(WateringNeed {
            asked,
            per_1000_ft2: None,
            sections: Vec::new(),
            total: None,
            finding,
        }));
    };
    working = working.input("depth", depth.for_person());
    let thousand = AreaEstimate::stated(&Entered::parse("1000 ft2")?, &Entered::parse("0 ft2")?)?;
    let per_1000_ft2 = watering_in_volume(&depth, &thousand)?.value;
    let each = sections
        .iter()
        .map(|section| {
            working = working.clone().input("area", section.area.for_person());
            let name = section.name.clone();
            let water = watering_in_volume(&depth, &section.area).map_err(|e| {
                let name = section.name.clone();
                e.of(Field::Section { name })
            })?;
            Ok(SectionWater {
                name,
                area: section.area,
                water: water.value,
            })
        })
        .collect::<Result<Vec<_>>>()?;
    let total: Decimal = each.iter().map(|s| s.water.amount()).sum();
    let total = shown(total, per_1000_ft2.unit()).ok_or_else(|| out_of_range(&depth))?;
    Ok(working.gives(WateringNeed {
        asked,
        per_1000_ft2: Some(per_1000_ft2),
        total: (!each.is_empty()).then_some(total),
        sections: each,
        finding,
    }))
}

fn asked(says: &LabelSays<WateringIn>) -> Result<(WaterAsked, Finding)> {
    let check = Check::WateringIn;
    let limited = |verdict, reason, limit: Entered| {
        Finding::new(check, verdict, reason)
            .with_limit(Shown::Amount { amount: limit }, Whose::Label)
    };
    Ok(match says {
        LabelSays::Unfilled => (
            WaterAsked::NotKnown,
            Finding::unknown(check, Reason::WateringEmpty),
        ),
        LabelSays::Nothing => (
            WaterAsked::LabelSilent,
            Finding::new(check, Verdict::Clear, Reason::LabelSetsNoWatering),
        ),
        LabelSays::Value(WateringIn::Required(None)) => (
            WaterAsked::WaterIn(None),
            Finding::unknown(check, Reason::WaterInNoDepth),
        ),
        LabelSays::Value(WateringIn::Required(Some(depth))) => (
            WaterAsked::WaterIn(Some(*depth)),
            limited(Verdict::Caution, Reason::WaterInAsked, *depth),
        ),
        LabelSays::Value(WateringIn::Withheld(time)) => {
            let finding = match time {
                Some(time) => {
                    time.must_be(Dimension::Time)
                        .map_err(|e| e.of(Field::Wait))?;
                    limited(Verdict::Caution, Reason::WaterKeptOff, *time)
                }
                None => Finding::unknown(check, Reason::WaterKeptOff),
            };
            (WaterAsked::KeepOff(*time), finding)
        }
    })
}
