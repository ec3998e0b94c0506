//! The few units that fit a kind of amount, those of the person's own system first.
//!
//! What a unit is and how it converts is the rules' matter.

use sward_rules::quantity::{Dimension, Unit};

use crate::words::{Units, Words};

/// Units of one kind in US and in metric measure, as the rules read them.
fn of(dimension: Dimension) -> (&'static [&'static str], &'static [&'static str]) {
    match dimension {
        Dimension::MassPerArea => (
            &["lb/1000 ft2", "oz/1000 ft2", "lb/acre", "oz/acre"],
            &["g/m2", "kg/ha"],
        ),
        Dimension::VolumePerArea => (
            &[
                "fl oz/1000 ft2",
                "gal/1000 ft2",
                "fl oz/acre",
                "pt/acre",
                "qt/acre",
                "gal/acre",
            ],
            &["mL/m2", "L/m2", "L/ha"],
        ),
        Dimension::Mass => (&["lb", "oz"], &["kg", "g"]),
        Dimension::Volume => (&["gal", "qt", "pt", "fl oz"], &["L", "mL"]),
        Dimension::Speed => (&["mph"], &["km/h", "m/s"]),
        Dimension::Temperature => (&["°F"], &["°C"]),
        Dimension::Length => (&["ft", "in"], &["m", "cm", "mm"]),
        Dimension::Time => (&["h", "days", "min", "weeks"], &[]),
        Dimension::Percent => (&["%"], &[]),
        Dimension::MassPerVolume => (&["lb/gal", "oz/gal"], &["g/L"]),
        _ => (&[], &[]),
    }
}

/// The units that fit any of these kinds.
pub(in crate::screen) fn fitting(dimensions: &[Dimension], units: Units) -> Vec<&'static str> {
    let us = dimensions.iter().flat_map(|d| of(*d).0).copied();
    let metric = dimensions.iter().flat_map(|d| of(*d).1).copied();
    match units {
        Units::Us => us.chain(metric).collect(),
        Units::Metric => metric.chain(us).collect(),
    }
}

/// The unit that is chosen before a person chooses: only where a system has one that everybody
/// uses. A rate in ounces must not become one in pounds because nobody looked.
pub(super) fn chosen_first(dimensions: &[Dimension], units: Units) -> Option<&'static str> {
    match dimensions {
        [Dimension::Speed | Dimension::Temperature] => fitting(dimensions, units).first().copied(),
        _ => None,
    }
}

/// The units as options, with a first one that is none where a person has to choose, and the
/// stored one where it is another. The second is the value of the stored one.
pub(super) fn options(
    words: Words,
    dimensions: &[Dimension],
    stored: Option<Unit>,
    nothing_chosen: &str,
) -> (Vec<(String, String)>, String) {
    let fitting = fitting(dimensions, words.units);
    let mut options: Vec<(String, String)> = fitting
        .iter()
        .map(|unit| ((*unit).to_owned(), signed(words, unit)))
        .collect();
    let Some(stored) = stored else {
        options.insert(0, (String::new(), nothing_chosen.to_owned()));
        return (options, String::new());
    };
    let known = fitting
        .iter()
        .find(|unit| Unit::parse(unit).is_ok_and(|u| u == stored));
    let value = known.map_or_else(|| stored.for_person(), |unit| (*unit).to_owned());
    if known.is_none() {
        options.push((value.clone(), words.unit(stored)));
    }
    (options, value)
}

fn signed(words: Words, unit: &str) -> String {
    Unit::parse(unit).map_or_else(|_| unit.to_owned(), |unit| words.unit(unit))
}

#[cfg(test)]
mod tests {
    use sward_book::sheet::schema::{self, FieldKind};

    use super::super::fields::KINDS;
    use super::*;

    #[test]
    fn every_number_has_units_that_the_rules_read_as_its_kind() {
        let mut numbers = 0;
        for kind in KINDS {
            let lists = schema::lists(kind).iter().flat_map(|list| list.fields);
            for field in schema::fields(kind).iter().chain(lists) {
                let (FieldKind::Number(dimensions) | FieldKind::LabelNumber(dimensions)) =
                    field.kind
                else {
                    continue;
                };
                numbers += 1;
                let units = fitting(dimensions, Units::Us);
                assert!(!units.is_empty(), "{}", field.key);
                assert_eq!(units.len(), fitting(dimensions, Units::Metric).len());
                for unit in units {
                    let dimension = Unit::parse(unit).map(Unit::dimension);
                    assert!(
                        dimension.is_ok_and(|d| dimensions.contains(&d)),
                        "{}: {unit}",
                        field.key
                    );
                }
            }
        }
        assert!(numbers > 10, "{numbers}");
    }

    #[test]
    fn no_unit_of_a_rate_is_chosen_before_a_person_chooses() {
        let rates = [Dimension::MassPerArea, Dimension::VolumePerArea];
        assert_eq!(chosen_first(&rates, Units::Us), None);
        assert_eq!(chosen_first(&[Dimension::Time], Units::Us), None);
        assert_eq!(chosen_first(&[Dimension::Speed], Units::Us), Some("mph"));
        assert_eq!(
            chosen_first(&[Dimension::Temperature], Units::Metric),
            Some("°C")
        );
    }
}
