//! Areas from tape measures: rectangle, triangles, trapezoid, circle, offsets.
//!
//! Corners by tape are in `taped_polygon`. The uncertainty comes from a stated reading error.

use std::f64::consts::{FRAC_PI_4, PI};

use rust_decimal::Decimal;

use super::{AreaEstimate, OffsetRule, Shape};
use crate::error::{Allowed, Field, Most, Result, RuleError};
use crate::note::Note;
use crate::quantity::{Dimension, Entered};
use crate::working::{Answer, Working};

/// Longest side taken for one of a lawn, in metres.
pub const SIDE_MOST_M: f64 = 5_000.0;

/// One standard deviation of a tape reading is never less than this, in feet (common practice, no
/// source): the edge of a lawn is no sharper.
pub const TAPE_ERROR_LEAST_FT: f64 = 0.1;

/// One standard deviation of a tape reading as a share of its length (common practice, no source):
/// sag, slope and a tape not quite straight.
pub const TAPE_ERROR_SHARE: f64 = 0.01;

/// Most offsets across one base line, and most radii round one middle point.
pub const OFFSETS_MOST: usize = 1_000;

const RADII_LEAST: usize = 4;

const GEOMETRY: &str = "plane geometry";

/// The area of a shape other than a walk or a taped polygon.
pub(super) fn area(shape: &Shape) -> Result<Answer<AreaEstimate>> {
    let answer = match shape {
        Shape::Rectangle { length, width } => {
            let r = [
                positive(Field::Length, length)?,
                positive(Field::Width, width)?,
            ];
            Working::new("rectangle: length × width", GEOMETRY)
                .input("length", length.for_person())
                .input("width", width.for_person())
                .gives(estimate(&r, |r| r[0] * r[1]))
        }
        Shape::TriangleSides { a, b, c } => triangle(a, b, c)?,
        Shape::TriangleHeight { base, height } => {
            let r = [
                positive(Field::Base, base)?,
                positive(Field::Height, height)?,
            ];
            Working::new("triangle: base × height / 2", GEOMETRY)
                .input("base", base.for_person())
                .input("height", height.for_person())
                .gives(estimate(&r, |r| r[0] * r[1] / 2.0))
        }
        Shape::Trapezoid { a, b, height } => {
            let r = [
                positive(Field::FirstParallelSide, a)?,
                positive(Field::SecondParallelSide, b)?,
                positive(Field::Height, height)?,
            ];
            Working::new("trapezoid: (a + b) / 2 × height", GEOMETRY)
                .input("first parallel side", a.for_person())
                .input("second parallel side", b.for_person())
                .input("height", height.for_person())
                .gives(estimate(&r, |r| f64::midpoint(r[0], r[1]) * r[2]))
        }
        Shape::Circle { diameter } => {
            let d = positive(Field::Diameter, diameter)?;
            Working::new("circle: π/4 × diameter²", GEOMETRY)
                .input("diameter", diameter.for_person())
                .gives(estimate(&[d], |r| FRAC_PI_4 * r[0] * r[0]))
        }
        Shape::Oval { length, width } => {
            let r = [
                positive(Field::Length, length)?,
                positive(Field::Width, width)?,
            ];
            Working::new("oval: π/4 × length × width", GEOMETRY)
                .input("length", length.for_person())
                .input("width", width.for_person())
                .gives(estimate(&r, |r| FRAC_PI_4 * r[0] * r[1]))
        }
        Shape::MeanRadius { radii } => by_radii(radii)?,
        Shape::Offsets {
            spacing,
            offsets,
            rule,
        } => by_offsets(spacing, offsets, *rule)?,
        Shape::TapePolygon { .. } | Shape::Walk { .. } | Shape::Drawn { .. } => {
            unreachable!("these shapes have files of their own")
        }
    };
    Ok(Answer {
        working: answer.working.note(Note::TapeErrors),
        ..answer
    })
}

fn triangle(a: &Entered, b: &Entered, c: &Entered) -> Result<Answer<AreaEstimate>> {
    let sides = [
        positive(Field::FirstSide, a)?,
        positive(Field::SecondSide, b)?,
        positive(Field::ThirdSide, c)?,
    ];
    // In exact decimals: 10, 20 and 30 ft lie on one line, and rounding must not lift them off it.
    let si = |e: &Entered| e.si(Dimension::Length);
    let (da, db, dc) = (si(a)?, si(b)?, si(c)?);
    let longest: Decimal = da.max(db).max(dc);
    if longest + longest >= da + db + dc {
        return Err(RuleError::ImpossibleTriangle {
            a: a.for_person(),
            b: b.for_person(),
            c: c.for_person(),
        });
    }
    Ok(Working::new("triangle by three sides (Heron)", GEOMETRY)
        .input("first side", a.for_person())
        .input("second side", b.for_person())
        .input("third side", c.for_person())
        .gives(estimate(&sides, |r| heron(r[0], r[1], r[2]))))
}

/// Heron's formula in Kahan's arrangement, which keeps its digits for needle-like triangles; not a
/// number where there is no triangle.
fn heron(a: f64, b: f64, c: f64) -> f64 {
    let mut sides = [a, b, c];
    sides.sort_by(|x, y| y.total_cmp(x));
    let [a, b, c] = sides;
    0.25 * ((a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c))).sqrt()
}

fn by_offsets(
    spacing: &Entered,
    offsets: &[Entered],
    rule: OffsetRule,
) -> Result<Answer<AreaEstimate>> {
    let mut readings = vec![positive(Field::Spacing, spacing)?];
    if offsets.len() > OFFSETS_MOST {
        let (count, limit) = (offsets.len(), OFFSETS_MOST);
        return Err(RuleError::TooMany {
            field: Field::Offsets,
            count,
            limit,
        });
    }
    for (index, offset) in offsets.iter().enumerate() {
        let length = offset
            .to_length()
            .map_err(|e| e.of(Field::Offset { number: index + 1 }))?;
        let field = Field::Offset { number: index + 1 };
        readings.push(within_limit(field, length.value, offset)?);
    }
    let (count, simpson) = (offsets.len(), rule == OffsetRule::Simpson);
    let needed = if simpson { 3 } else { 2 };
    if count < needed {
        return Err(RuleError::TooFewOffsets { count, needed });
    }
    if simpson && count.is_multiple_of(2) {
        return Err(RuleError::SimpsonNeedsOdd { count });
    }
    within_limit(Field::BaseLine, readings[0] * (count - 1) as f64, spacing)?;
    let all: Vec<String> = offsets.iter().map(Entered::for_person).collect();
    let working = Working::new(
        if simpson {
            "offsets, Simpson's rule"
        } else {
            "offsets, trapezoid rule"
        },
        GEOMETRY,
    )
    .input("spacing", spacing.for_person())
    .input("offsets", all.join(", "))
    .note(Note::BetweenOffsets);
    Ok(working.gives(if simpson {
        estimate(&readings, |r| simpsons_rule(r[0], &r[1..]))
    } else {
        estimate(&readings, |r| trapezoid_rule(r[0], &r[1..]))
    }))
}

fn by_radii(radii: &[Entered]) -> Result<Answer<AreaEstimate>> {
    if !(RADII_LEAST..=OFFSETS_MOST).contains(&radii.len()) {
        return Err(RuleError::NotAllowed {
            field: Field::Radii,
            given: radii.len().to_string(),
            allowed: Allowed::Radii,
        });
    }
    let readings: Vec<f64> = radii
        .iter()
        .map(|r| positive(Field::Radius, r))
        .collect::<Result<_>>()?;
    let all: Vec<String> = radii.iter().map(Entered::for_person).collect();
    let mean = |r: &[f64]| r.iter().sum::<f64>() / r.len() as f64;
    Ok(
        Working::new("mean radius: π × (mean of the radii)²", GEOMETRY)
            .input("radii", all.join(", "))
            .note(Note::LessRound)
            .gives(estimate(&readings, |r| PI * mean(r).powi(2))),
    )
}

fn trapezoid_rule(spacing: f64, offsets: &[f64]) -> f64 {
    spacing
        * offsets
            .windows(2)
            .map(|w| f64::midpoint(w[0], w[1]))
            .sum::<f64>()
}

fn simpsons_rule(spacing: f64, offsets: &[f64]) -> f64 {
    let thirds = offsets
        .windows(3)
        .step_by(2)
        .map(|w| w[0] + 4.0 * w[1] + w[2])
        .sum::<f64>();
    spacing * thirds / 3.0
}

/// A length of more than zero and no longer than a lawn's, in metres.
pub(super) fn positive(field: Field, entered: &Entered) -> Result<f64> {
    let length = entered.to_length().map_err(|e| e.of(field.clone()))?;
    if entered.is_zero() {
        return Err(RuleError::NotPositive {
            field,
            given: entered.for_person(),
        });
    }
    within_limit(field, length.value, entered)
}

fn within_limit(field: Field, length_m: f64, entered: &Entered) -> Result<f64> {
    if length_m > SIDE_MOST_M {
        let given = entered.for_person();
        return Err(RuleError::OverLimit {
            field,
            given,
            limit: Most::Side,
        });
    }
    Ok(length_m)
}

/// Area and uncertainty from readings in metres.
pub(super) fn estimate(readings: &[f64], area: impl Fn(&[f64]) -> f64) -> AreaEstimate {
    let (best, uncertainty) = spread(readings, area);
    AreaEstimate::from_si(best, uncertainty)
}

/// What is worked out from readings in metres, and its standard deviation.
///
/// Each reading has an independent error of [`TAPE_ERROR_SHARE`], at least [`TAPE_ERROR_LEAST_FT`];
/// the variance is the sum of (∂f/∂r · σ_r)², with numeric derivatives.
pub(super) fn spread(readings: &[f64], of: impl Fn(&[f64]) -> f64) -> (f64, f64) {
    let best = of(readings);
    let mut moved = readings.to_vec();
    let mut variance = 0.0;
    for (index, &reading) in readings.iter().enumerate() {
        let sigma = reading_error_m(reading);
        let step = sigma / 100.0;
        let mut at = |value: f64| {
            moved[index] = value;
            let there = of(&moved);
            moved[index] = reading;
            there
        };
        let (above, below) = (at(reading + step) - best, best - at(reading - step));
        // A triangle near its limit exists on one side only; the other derivative is then NaN.
        let change = match (above.is_finite(), below.is_finite()) {
            (true, true) => f64::midpoint(above, below),
            (true, false) => above,
            (false, _) => below,
        };
        variance += (change / step * sigma).powi(2);
    }
    // Not a number only where no derivative exists: then nothing is known of the area.
    let uncertainty = if variance.is_finite() {
        variance.sqrt()
    } else {
        best
    };
    (best, uncertainty)
}

/// One standard deviation of a tape reading, both in metres.
pub(super) fn reading_error_m(length_m: f64) -> f64 {
    (TAPE_ERROR_SHARE * length_m.abs()).max(TAPE_ERROR_LEAST_FT * 0.3048)
}

#[cfg(test)]
mod tests {
    use super::OffsetRule::{Simpson, Trapezoid};
    use super::*;

    fn ft(text: &str) -> Entered {
        Entered::parse(&format!("{text} ft")).unwrap()
    }

    #[test]
    fn a_rectangles_error_follows_the_product_rule() {
        let lawn = Shape::Rectangle {
            length: ft("60"),
            width: ft("25"),
        }
        .area()
        .unwrap()
        .value;
        // By hand: (25 ft · 0.6 ft)² + (60 ft · 0.25 ft)² = 450 ft⁴.
        let by_hand = 450.0_f64.sqrt() * 0.3048 * 0.3048;
        assert!((lawn.uncertainty.value - by_hand).abs() < 1e-9);
    }

    #[test]
    fn short_tapes_have_the_least_error() {
        let bed = Shape::Rectangle {
            length: ft("5"),
            width: ft("4"),
        }
        .area()
        .unwrap()
        .value;
        let by_hand = (0.4_f64.powi(2) + 0.5_f64.powi(2)).sqrt() * 0.3048 * 0.3048;
        assert!((bed.uncertainty.value - by_hand).abs() < 1e-9);
    }

    #[test]
    fn zero_and_absurd_tapes_are_refused() {
        let shape = |l: &str, w: &str| {
            let (length, width) = (Entered::parse(l).unwrap(), Entered::parse(w).unwrap());
            Shape::Rectangle { length, width }.area().unwrap_err()
        };
        assert!(matches!(
            shape("0 ft", "5 ft"),
            RuleError::NotPositive {
                field: Field::Length,
                ..
            }
        ));
        assert!(matches!(
            shape("5 ft", "6 km"),
            RuleError::OverLimit {
                field: Field::Width,
                ..
            }
        ));
        assert!(matches!(
            shape("4 km", "4 km"),
            RuleError::OverLimit {
                field: Field::TheArea,
                ..
            }
        ));
        assert!(matches!(
            shape("1 mm", "1 mm"),
            RuleError::NotPositive {
                field: Field::TheArea,
                ..
            }
        ));
        assert_eq!(
            shape("5 gal", "4 ft").to_string(),
            "length: 5 gal is a volume, where a length is needed; check the number and its unit"
        );
    }

    #[test]
    fn a_triangle_on_a_line_is_refused_in_any_unit() {
        for (a, b, c) in [
            ("10", "20", "30"),
            ("10", "20", "35"),
            ("0.1", "0.2", "0.3"),
        ] {
            let triangle = Shape::TriangleSides {
                a: ft(a),
                b: ft(b),
                c: ft(c),
            };
            assert!(matches!(
                triangle.area(),
                Err(RuleError::ImpossibleTriangle { .. })
            ));
        }
        let mixed = Shape::TriangleSides {
            a: ft("10"),
            b: Entered::parse("120 in").unwrap(),
            c: Entered::parse("20 ft").unwrap(),
        };
        assert!(matches!(
            mixed.area(),
            Err(RuleError::ImpossibleTriangle { .. })
        ));
    }

    #[test]
    fn a_needle_triangle_says_how_unsure_it_is() {
        let needle = Shape::TriangleSides {
            a: ft("100"),
            b: ft("100"),
            c: ft("199.999"),
        };
        let area = needle.area().unwrap().value;
        assert!(area.uncertainty_percent() > 100.0, "{}", area.for_person());
    }

    #[test]
    fn offsets_need_enough_of_them_and_some_width() {
        let strip = |offsets: &[&str], rule| {
            let offsets = offsets.iter().map(|o| ft(o)).collect();
            Shape::Offsets {
                spacing: ft("10"),
                offsets,
                rule,
            }
            .area()
        };
        assert!(matches!(
            strip(&["5"], Trapezoid),
            Err(RuleError::TooFewOffsets { .. })
        ));
        assert!(matches!(
            strip(&[], Trapezoid),
            Err(RuleError::TooFewOffsets { .. })
        ));
        assert!(matches!(
            strip(&["5", "6"], Simpson),
            Err(RuleError::TooFewOffsets { .. })
        ));
        assert!(matches!(
            strip(&["5", "6", "7", "8"], Simpson),
            Err(RuleError::SimpsonNeedsOdd { count: 4 })
        ));
        assert!(matches!(
            strip(&["0", "0"], Trapezoid),
            Err(RuleError::NotPositive { .. })
        ));
        // Simpson's rule is exact for a parabola: 0, 3, 4, 3, 0 is 4 − x² from −2 to 2, 32/3.
        let bow = strip(&["0", "3", "4", "3", "0"], Simpson).unwrap().value;
        assert!((bow.square_feet() - 320.0 / 3.0).abs() < 1e-9);
    }
}
