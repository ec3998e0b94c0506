//! What stands in the plan's fields at first, and where it comes from.
//!
//! Nothing measured, counted or seen is ever copied: only what a person chose last time and can
//! still be true.

use sward_book::ids::{ItemId, SheetId};
use sward_book::sheet::{EquipmentSheet, PlanSheet};
use sward_rules::Entered;
use sward_rules::label::{Label, LabelSays};
use sward_rules::quantity::Dimension;

use super::work::is_wet;
use crate::words::Units;

/// Where a value that stands in a field comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum From {
    /// It is this visit's own plan already, or nothing stands there.
    Here,
    /// It was so at an earlier visit; milliseconds since 1970 in UTC.
    Last(i64),
    /// The label gives one rate.
    Label,
    /// It stands on the sheet of the only equipment that fits.
    Equipment,
}

/// A number that stands in a field, the unit the field has, and where both come from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Filled {
    pub(super) amount: Option<Entered>,
    pub(super) unit: String,
    pub(super) from: From,
}

/// All fields as they stand at first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Prefill {
    pub(super) rate: Filled,
    /// None where the product goes on dry.
    pub(super) carrier: Option<Filled>,
    pub(super) holds: Filled,
    pub(super) vessel: Filled,
    pub(super) swath: Filled,
    /// None until somebody chose.
    pub(super) two_passes: Option<bool>,
    /// Sections to treat; empty: all.
    pub(super) sections: Vec<ItemId>,
    pub(super) equipment: Option<SheetId>,
    pub(super) stock: Option<SheetId>,
    pub(super) gear: String,
    pub(super) less_uncertainty: bool,
    /// Where the plan comes from as a whole.
    pub(super) from: From,
}

/// A piece of equipment that may be chosen.
pub(super) type Equipment<'a> = (SheetId, &'a EquipmentSheet);

impl Prefill {
    /// From this visit's plan, else from an earlier one with the same label sheet, else from the
    /// label and the only equipment that fits it.
    pub(super) fn new(
        kept: Option<&PlanSheet>,
        last: Option<(&PlanSheet, i64)>,
        label: &Label,
        equipment: &[Equipment<'_>],
        units: Units,
    ) -> Self {
        let (plan, from) = match (kept, last) {
            (Some(kept), _) => (Some(kept), From::Here),
            (None, Some((last, at_ms))) => (Some(last), From::Last(at_ms)),
            (None, None) => (None, From::Here),
        };
        let offered = Offered::new(label, units);
        let filled = |amount: Option<Entered>, unit: &str| Filled {
            unit: amount.map_or_else(|| unit.to_owned(), |a| a.unit().for_person()),
            from: if amount.is_some() { from } else { From::Here },
            amount,
        };
        let mut rate = filled(plan.and_then(|p| p.rate), &offered.rate);
        if rate.amount.is_none()
            && let Some(only) = only_rate(label)
        {
            rate = Filled {
                amount: Some(only),
                unit: only.unit().for_person(),
                from: From::Label,
            };
        }
        let only = if plan.is_none() {
            only_fitting(label, equipment)
        } else {
            None
        };
        let or_equipment = |mut value: Filled, own: Option<Entered>| {
            if let (None, Some(own)) = (value.amount, own) {
                value = Filled {
                    amount: Some(own),
                    unit: own.unit().for_person(),
                    from: From::Equipment,
                };
            }
            value
        };
        let sheet = only.map(|(_, sheet)| sheet);
        let holds = filled(plan.and_then(|p| p.holds), offered.holds);
        let vessel = filled(plan.and_then(|p| p.vessel), offered.vessel);
        let swath = filled(plan.and_then(|p| p.swath), offered.swath);
        Self {
            rate,
            carrier: is_wet(label.method)
                .then(|| filled(plan.and_then(|p| p.carrier), &offered.carrier)),
            holds: or_equipment(holds, sheet.and_then(|e| e.holds)),
            vessel: or_equipment(vessel, sheet.and_then(|e| e.vessel)),
            swath: or_equipment(swath, sheet.and_then(|e| e.swath)),
            two_passes: plan.map(|p| p.two_passes),
            sections: plan.map(|p| p.sections.clone()).unwrap_or_default(),
            equipment: plan.and_then(|p| p.equipment).or(only.map(|(id, _)| id)),
            stock: plan.and_then(|p| p.stock),
            gear: plan.map(|p| p.gear.clone()).unwrap_or_default(),
            less_uncertainty: plan.is_some_and(|p| p.less_uncertainty),
            from,
        }
    }

    /// When the visit was from which anything is copied; milliseconds since 1970 in UTC.
    pub(super) fn last_ms(&self) -> Option<i64> {
        match self.from {
            From::Last(at_ms) => Some(at_ms),
            From::Here | From::Label | From::Equipment => None,
        }
    }
}

/// The only equipment that can hold what goes on; none where several can.
fn only_fitting<'a>(label: &Label, equipment: &[Equipment<'a>]) -> Option<Equipment<'a>> {
    let needed = if is_wet(label.method) {
        Dimension::Volume
    } else {
        Dimension::Mass
    };
    let mut fitting = equipment.iter().filter(|(_, sheet)| {
        !sheet.retired && sheet.holds.is_some_and(|holds| holds.dimension() == needed)
    });
    match (fitting.next(), fitting.next()) {
        (Some(only), None) => Some(*only),
        _ => None,
    }
}

/// The label's rate where it gives one and no range.
fn only_rate(label: &Label) -> Option<Entered> {
    match (&label.rate_least, &label.rate_most) {
        (LabelSays::Nothing, LabelSays::Value(most)) => Some(*most),
        _ => None,
    }
}

/// The units of fields in which nothing stands: the label's own, else those of the settings.
struct Offered {
    rate: String,
    carrier: String,
    holds: &'static str,
    vessel: &'static str,
    swath: &'static str,
}

impl Offered {
    fn new(label: &Label, units: Units) -> Self {
        let wet = is_wet(label.method);
        let us = units == Units::Us;
        let rate = label.rate_most.value();
        let by_volume = rate.map_or(wet, |r| r.dimension() == Dimension::VolumePerArea);
        let pick = |in_us: &'static str, metric: &'static str| if us { in_us } else { metric };
        let of = |said: Option<&Entered>, else_unit: &str| {
            said.map_or_else(|| else_unit.to_owned(), |s| s.unit().for_person())
        };
        let own_rate = if by_volume {
            pick("fl oz/1000 ft2", "mL/m2")
        } else {
            pick("lb/1000 ft2", "g/m2")
        };
        Self {
            rate: of(rate, own_rate),
            carrier: of(label.carrier_least.value(), pick("gal/1000 ft2", "L/m2")),
            holds: if wet {
                pick("gal", "L")
            } else {
                pick("lb", "kg")
            },
            vessel: if by_volume {
                pick("fl oz", "mL")
            } else {
                pick("oz", "g")
            },
            swath: pick("ft", "m"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sward_rules::label::Method;
    use sward_rules::quantity::Unit;

    fn amount(text: &str) -> Entered {
        Entered::parse(text).unwrap()
    }

    fn label(method: Method) -> Label {
        Label {
            product: "Invented".into(),
            registration: "00000-0".into(),
            rate_least: LabelSays::Value(amount("1.5 lb/1000 ft2")),
            rate_most: LabelSays::Value(amount("3 lb/1000 ft2")),
            ..Label::unfilled(method)
        }
    }

    fn plan(rate: &str) -> PlanSheet {
        PlanSheet {
            label: None,
            rate: Some(amount(rate)),
            carrier: None,
            holds: Some(amount("20 lb")),
            vessel: Some(amount("0.1 lb")),
            two_passes: true,
            swath: None,
            equipment: None,
            stock: None,
            gear: "gloves".into(),
            sections: Vec::new(),
            less_uncertainty: false,
        }
    }

    fn equipment(holds: &str) -> EquipmentSheet {
        EquipmentSheet {
            name: "Spreader 1".into(),
            kind: None,
            holds: Some(amount(holds)),
            vessel: Some(amount("0.1 lb")),
            swath: Some(amount("8 ft")),
            setting: String::new(),
            pace: None,
            calibrated_on: None,
            calibrated_for: String::new(),
            calibrated_rate: None,
            calibrated_by: String::new(),
            parts: String::new(),
            note: String::new(),
            retired: false,
        }
    }

    fn id(n: u128) -> SheetId {
        SheetId(uuid::Uuid::from_u128(n))
    }

    #[test]
    fn the_only_equipment_that_fits_fills_what_it_holds_and_says_so() {
        let (spreader, tank) = (equipment("50 lb"), equipment("4 gal"));
        let both = [(id(1), &spreader), (id(2), &tank)];
        let filled = Prefill::new(None, None, &label(Method::Granule), &both, Units::Us);
        assert_eq!(filled.equipment, Some(id(1)));
        assert_eq!(filled.holds.amount, Some(amount("50 lb")));
        assert_eq!(filled.holds.from, From::Equipment);
        let two = [(id(1), &spreader), (id(2), &spreader)];
        let filled = Prefill::new(None, None, &label(Method::Granule), &two, Units::Us);
        assert_eq!((filled.equipment, filled.holds.amount), (None, None));
        let retired = EquipmentSheet {
            retired: true,
            ..spreader.clone()
        };
        let one = [(id(1), &retired)];
        let filled = Prefill::new(None, None, &label(Method::Granule), &one, Units::Us);
        assert_eq!(filled.equipment, None);
        let last = plan("2 lb/1000 ft2");
        let filled = Prefill::new(
            None,
            Some((&last, 5)),
            &label(Method::Granule),
            &both,
            Units::Us,
        );
        assert_eq!(filled.equipment, None, "last time comes before a guess");
    }

    #[test]
    fn a_plan_that_is_kept_comes_before_last_time() {
        let (kept, last) = (plan("2 lb/1000 ft2"), plan("3 lb/1000 ft2"));
        let label = label(Method::Granule);
        let filled = Prefill::new(Some(&kept), Some((&last, 5)), &label, &[], Units::Us);
        assert_eq!(filled.rate.amount, Some(amount("2 lb/1000 ft2")));
        assert_eq!(filled.rate.from, From::Here);
        assert_eq!(filled.last_ms(), None);
    }

    #[test]
    fn what_is_copied_from_last_time_says_so_and_what_was_empty_does_not() {
        let last = plan("2.5 lb/1000 ft2");
        let filled = Prefill::new(
            None,
            Some((&last, 5)),
            &label(Method::Granule),
            &[],
            Units::Metric,
        );
        assert_eq!(filled.rate.from, From::Last(5));
        assert_eq!(filled.holds.amount, Some(amount("20 lb")));
        assert_eq!(filled.holds.unit, "lb", "a stored value keeps its unit");
        assert_eq!(filled.two_passes, Some(true));
        assert_eq!(filled.gear, "gloves");
        assert_eq!(filled.swath.amount, None);
        assert_eq!(filled.swath.from, From::Here);
        assert_eq!(filled.swath.unit, "m");
        assert_eq!(filled.carrier, None, "granules go on dry");
    }

    #[test]
    fn only_a_label_with_one_rate_fills_the_rate() {
        let ranged = label(Method::Granule);
        let filled = Prefill::new(None, None, &ranged, &[], Units::Us);
        assert_eq!(filled.rate.amount, None, "of a range a person chooses");
        assert_eq!(filled.rate.unit, "lb/1000 ft²");
        let unread = Label {
            rate_least: LabelSays::Unfilled,
            ..ranged.clone()
        };
        assert_eq!(
            Prefill::new(None, None, &unread, &[], Units::Us)
                .rate
                .amount,
            None
        );
        let one = Label {
            rate_least: LabelSays::Nothing,
            ..ranged
        };
        let filled = Prefill::new(None, None, &one, &[], Units::Us);
        assert_eq!(filled.rate.amount, Some(amount("3 lb/1000 ft2")));
        assert_eq!(filled.rate.from, From::Label);
        assert_eq!(filled.two_passes, None);
    }

    #[test]
    fn every_unit_that_is_offered_can_be_read() {
        for method in [
            Method::Granule,
            Method::FoliarSpray,
            Method::Drench,
            Method::Bait,
        ] {
            for rate_most in [
                LabelSays::Unfilled,
                LabelSays::Value(amount("3 fl oz/1000 ft2")),
            ] {
                let label = Label {
                    rate_most,
                    ..label(method)
                };
                for units in [Units::Us, Units::Metric] {
                    let o = Offered::new(&label, units);
                    for unit in [&o.rate, &o.carrier, o.holds, o.vessel, o.swath] {
                        assert!(Unit::parse(unit).is_ok(), "{unit}");
                    }
                }
            }
        }
    }
}
