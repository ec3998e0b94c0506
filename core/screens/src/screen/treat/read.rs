//! A treatment under way or finished, read from the visit's facts.
//!
//! How much a plan asks for is the rules'; what was put on is what people said.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use sward_book::Book;
use sward_book::fact::{
    AftercareTask, Fact, HalfWayChecked, Loaded, Replacement, Started, TaskState,
};
use sward_book::ids::KeepOffId;
use sward_book::sheet::PlanSheet;
use sward_book::view::keep_off::KeepOffView;
use sward_rules::Entered;
use sward_rules::label::Method;
use sward_rules::plan::{AreaBasis, Passes, PlanInput, Section, Vessel, plan};
use sward_rules::quantity::{Dimension, Unit};

use crate::Result;
use crate::screen::visit::Here;
use crate::trouble::if_there;
use crate::words::Units;

/// A visit on which treating was started.
pub(super) struct Treating {
    pub(super) here: Here,
    /// The crew's first start; that of another device only where the crew has none.
    pub(super) started: Started,
    pub(super) started_utc_ms: i64,
    pub(super) keep_offs: Vec<KeepOffView>,
    /// Whether a device that is not of the crew wrote a start, a load or a check here.
    pub(super) has_outsiders: bool,
    /// Loads of the crew that stand, in their order.
    pub(super) loads: Vec<Loaded>,
    /// The last check half-way, and when it was made.
    pub(super) half_way: Option<(HalfWayChecked, i64)>,
    /// What was answered of the tasks afterwards.
    pub(super) care: BTreeMap<AftercareTask, TaskState>,
    /// The smallest step of the vessel in the plan: its unit is the one that is read off.
    pub(super) vessel: Option<Entered>,
    /// Product for all sections, as the plan measures it out; none where the plan lacks something.
    pub(super) planned: Option<Entered>,
    /// The pace at which the plan's equipment was calibrated; none where it is not known.
    pub(super) pace: Option<Entered>,
}

impl Treating {
    /// Reads it; none before a start.
    pub(super) fn read(book: &Book, here: Here) -> Result<Option<Self>> {
        let keep_offs = book.keep_offs_of(here.visit.visit)?;
        let plan = book.plan(here.visit.visit)?;
        let mut started = None;
        let mut started_outside = None;
        let mut has_outsiders = false;
        let mut loads = Vec::new();
        let mut half_way = None;
        let mut care = BTreeMap::new();
        for line in here
            .visit
            .history
            .iter()
            .filter(|l| l.superseded_by.is_none())
        {
            match book.fact(line.fact)?.1 {
                // That somebody treats is never dropped, whoever they are.
                Fact::Started(start) if !line.of_the_crew => {
                    has_outsiders = true;
                    started_outside.get_or_insert((start, line.at.utc_ms));
                }
                Fact::Loaded(_) | Fact::HalfWayChecked(_) if !line.of_the_crew => {
                    has_outsiders = true;
                }
                Fact::Started(start) => {
                    started.get_or_insert((start, line.at.utc_ms));
                }
                Fact::Loaded(load) => loads.push(load),
                Fact::Corrected(c) if line.of_the_crew => {
                    if let Replacement::Loaded(load) = c.new {
                        loads.push(load);
                    }
                }
                Fact::HalfWayChecked(check) => half_way = Some((check, line.at.utc_ms)),
                Fact::Aftercare(f) => care.extend(f.done.iter().map(|d| (d.task, d.state))),
                _ => {}
            }
        }
        let started = started.or(started_outside);
        let machine = plan.as_ref().and_then(|p| p.equipment);
        let machine = match machine {
            Some(id) => if_there(book.equipment_sheet(id))?,
            None => None,
        };
        Ok(started.map(|(started, started_utc_ms)| Self {
            has_outsiders,
            planned: planned(&started, plan.as_ref(), &keep_offs),
            vessel: plan.and_then(|p| p.vessel),
            pace: machine.and_then(|sheet| sheet.pace),
            here,
            started,
            started_utc_ms,
            keep_offs,
            loads,
            half_way,
            care,
        }))
    }

    /// Whether the product goes on in water.
    pub(super) fn is_wet(&self) -> bool {
        matches!(
            self.started.label.method,
            Method::FoliarSpray | Method::Drench
        )
    }

    /// The loads that went on a section; one that names none went on all.
    pub(super) fn loads_on(&self, keep_off: KeepOffId) -> Vec<&Loaded> {
        let on = |load: &&Loaded| load.keep_offs.is_empty() || load.keep_offs.contains(&keep_off);
        self.loads.iter().filter(on).collect()
    }

    /// What was put on in all, in the unit of the first load; none before any.
    pub(super) fn put_on(&self) -> Option<Entered> {
        sum_of(self.loads.iter().map(|l| &l.product))
    }

    /// The unit in which product is read off: the vessel's, else one of the rate's kind.
    pub(super) fn product_unit(&self, units: Units) -> String {
        let by_volume = self.started.rate.dimension() == Dimension::VolumePerArea;
        let kind = if by_volume {
            Dimension::Volume
        } else {
            Dimension::Mass
        };
        let vessel = self.vessel.filter(|v| v.dimension() == kind);
        vessel.map_or_else(
            || {
                let unit = match (by_volume, units) {
                    (true, Units::Us) => "fl oz",
                    (true, Units::Metric) => "mL",
                    (false, Units::Us) => "lb",
                    (false, Units::Metric) => "kg",
                };
                unit.to_owned()
            },
            |v| v.unit().for_person(),
        )
    }
}

/// A sum in the first amount's unit; none of nothing, or where kinds differ.
fn sum_of<'a>(amounts: impl Iterator<Item = &'a Entered>) -> Option<Entered> {
    let mut unit: Option<Unit> = None;
    let mut sum = Decimal::ZERO;
    for amount in amounts {
        let unit = *unit.get_or_insert(amount.unit());
        sum = sum.checked_add(amount.convert(unit).ok()?.amount())?;
    }
    Entered::new(sum, unit?).ok()
}

/// Product for all sections kept off, as it is measured out.
fn planned(
    started: &Started,
    sheet: Option<&PlanSheet>,
    keep_offs: &[KeepOffView],
) -> Option<Entered> {
    let sheet = sheet?;
    let sections: Option<Vec<Section>> = keep_offs
        .iter()
        .map(|k| {
            let area = k.outline.area().ok()?.value;
            Some(Section {
                name: k.name.clone(),
                area,
            })
        })
        .collect();
    let vessel = Vessel {
        name: String::new(),
        least_step: sheet.vessel?,
    };
    let worked = plan(&PlanInput {
        sections: &sections?,
        label: &started.label,
        rate: started.rate,
        carrier: sheet.carrier,
        capacity: sheet.holds?,
        vessel: &vessel,
        passes: if sheet.two_passes {
            Passes::TwoAtRightAngles
        } else {
            Passes::One
        },
        swath: sheet.swath,
        basis: if sheet.less_uncertainty {
            AreaBasis::LessUncertainty
        } else {
            AreaBasis::Best
        },
    });
    Some(worked.ok()?.product.value.measured_out)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sum(amounts: &[&str]) -> Option<String> {
        let amounts: Vec<Entered> = amounts.iter().map(|a| Entered::parse(a).unwrap()).collect();
        sum_of(amounts.iter()).map(|s| s.for_person())
    }

    #[test]
    fn loads_add_up_in_the_first_ones_unit() {
        assert_eq!(sum(&["2.5 lb", "8 oz"]).unwrap(), "3.0 lb");
        assert_eq!(sum(&[]), None);
        assert_eq!(
            sum(&["1 lb", "1 gal"]),
            None,
            "weight and volume do not add up"
        );
    }
}
