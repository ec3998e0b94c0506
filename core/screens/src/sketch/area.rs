//! Lengths on the sketch and sums of areas, in the person's units.
//!
//! One area with how far off it may be is [`crate::part::amounts`]'.

use sward_rules::measure::AreaEstimate;
use sward_rules::quantity::Unit;

use crate::part::amounts;
use crate::words::{Units, Words};

/// Feet in a metre: the foot is 0.3048 m exactly.
const FT_PER_M: f64 = 1.0 / 0.3048;

/// Several areas together; their uncertainties are independent and add in quadrature. None where
/// there is no area.
pub(crate) fn area_sum_words(words: Words, areas: &[AreaEstimate]) -> Option<String> {
    let first = areas.first()?;
    let sum = areas[1..].iter().fold(*first, |sum, area| AreaEstimate {
        area: sum.area + area.area,
        uncertainty: (sum.uncertainty * sum.uncertainty + area.uncertainty * area.uncertainty)
            .sqrt(),
    });
    Some(amounts::area(words, &sum))
}

/// A length of the sketch: `42 ft`, or `12.8 m`.
pub(crate) fn length_words(words: Words, metres: f64) -> String {
    let (number, unit, decimals) = match words.units {
        Units::Us => (metres * FT_PER_M, "ft", 0),
        Units::Metric => (metres, "m", 1),
    };
    let sign = Unit::parse(unit).map_or_else(|_| unit.to_owned(), |u| words.unit(u));
    format!("{} {sign}", amounts::rounded(words, number, decimals))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Language;
    use sward_rules::Entered;

    fn words(units: Units) -> Words {
        Words {
            language: Language::English,
            units,
            zone: chrono_tz::UTC,
        }
    }

    #[test]
    fn a_length_has_its_unit() {
        assert_eq!(length_words(words(Units::Us), 3.048), "10 ft");
        assert_eq!(length_words(words(Units::Metric), 3.048), "3 m");
    }

    // By hand: 1,500 and 500 square feet, off by 30 and 40: 2,000 off by 50.
    #[test]
    fn uncertainties_add_in_quadrature() {
        let area = |text: &str, off: &str| {
            AreaEstimate::stated(
                &Entered::parse(text).unwrap(),
                &Entered::parse(off).unwrap(),
            )
            .unwrap()
        };
        let areas = [area("1500 ft2", "30 ft2"), area("500 ft2", "40 ft2")];
        assert_eq!(
            area_sum_words(words(Units::Us), &areas).unwrap(),
            "2,000 ft² ± 50 ft²"
        );
        assert_eq!(area_sum_words(words(Units::Us), &[]), None);
    }
}
