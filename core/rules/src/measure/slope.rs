//! A lawn on a slope: the area on the ground, and the level area that a map shows.
//!
//! Labels give rates per area and do not say which. The level area is the smaller and gives the
//! smaller dose, so it is the one to plan for (common practice, no source).

use rust_decimal::Decimal;
use serde::Serialize;

use super::AreaEstimate;
use super::tape::{positive, spread};
use super::walk::metres;
use crate::error::{Allowed, Field, Result, RuleError};
use crate::note::Note;
use crate::quantity::{Entered, to_f64};
use crate::working::{Answer, Working};

/// Steepest slope taken for a lawn, in degrees.
pub const SLOPE_MOST_DEG: f64 = 45.0;

/// One standard deviation of a slope given as an angle or a grade, in degrees (common practice, no
/// source): ground is not even.
pub const SLOPE_ERROR_DEG: f64 = 2.0;

/// How steep the ground is, as it was measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Slope {
    /// By its angle to the level.
    Angle {
        /// The angle in degrees.
        degrees: Decimal,
    },
    /// By its grade: 100 % is as much up as along.
    Grade {
        /// The grade, a percentage.
        grade: Entered,
    },
    /// By a level board: how far up on how far along, the latter level and not along the ground.
    Rise {
        /// How far up.
        rise: Entered,
        /// On how far along, level.
        run: Entered,
    },
}

/// How a lawn on a slope was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Measured {
    /// Along the ground, as a tape lies.
    AlongGround,
    /// Level: by a walk with a satellite receiver, from a map, or with the tape held level.
    Level,
}

/// The two areas of a lawn on a slope.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct SlopedArea {
    /// On the ground: what a spreader passes over.
    pub surface: AreaEstimate,
    /// Level, as on a map: the smaller, and the one to plan for.
    pub level: AreaEstimate,
    /// The slope in degrees.
    pub angle_deg: f64,
    /// The slope in percent.
    pub grade_percent: f64,
}

/// The area on the ground and the level area of an evenly sloping lawn.
///
/// ```
/// use sward_rules::{Entered, measure::{AreaEstimate, Measured, Slope, sloped_area}};
/// let measured = AreaEstimate::stated(&Entered::parse("1000 ft2")?, &Entered::parse("10 ft2")?)?;
/// let slope = Slope::Rise { rise: Entered::parse("3 ft")?, run: Entered::parse("4 ft")? };
/// let both = sloped_area(&measured, Measured::AlongGround, &slope)?.value;
/// assert_eq!(both.level.square_feet().round(), 800.0);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a measure is of the wrong kind, or the slope is below level or above [`SLOPE_MOST_DEG`].
pub fn sloped_area(
    area: &AreaEstimate,
    measured: Measured,
    slope: &Slope,
) -> Result<Answer<SlopedArea>> {
    let Steepness {
        tangent,
        error_rad,
        working,
    } = steepness(slope)?;
    let angle_rad = tangent.atan();
    let (sin, cos) = angle_rad.sin_cos();
    let (measured_m2, error_m2) = (area.square_metres(), area.uncertainty.value);
    let (surface, level, name) = match measured {
        Measured::AlongGround => (
            *area,
            AreaEstimate::from_si(
                measured_m2 * cos,
                (error_m2 * cos).hypot(measured_m2 * sin * error_rad),
            ),
            "area, along the ground",
        ),
        Measured::Level => (
            AreaEstimate::from_si(
                measured_m2 / cos,
                (error_m2 / cos).hypot(measured_m2 * sin / cos.powi(2) * error_rad),
            ),
            *area,
            "area, level",
        ),
    };
    Ok(working
        .input(name, area.for_person())
        .note(Note::SlopeEven)
        .note(Note::LabelSilentOnSlope)
        .note(Note::SlopeRunOff)
        .gives(SlopedArea {
            surface,
            level,
            angle_deg: angle_rad.to_degrees(),
            grade_percent: 100.0 * tangent,
        }))
}

struct Steepness {
    tangent: f64,
    error_rad: f64,
    working: Working,
}

fn steepness(slope: &Slope) -> Result<Steepness> {
    let working = Working::new(
        "level area = area on the ground × cos(slope)",
        "plane geometry",
    );
    let by_eye = |working: Working| {
        working.note(Note::SlopeErrors {
            degrees: metres(SLOPE_ERROR_DEG),
        })
    };
    match slope {
        Slope::Angle { degrees } => {
            let given = format!("{degrees}°");
            let angle_deg = to_f64(*degrees);
            if !(0.0..=SLOPE_MOST_DEG).contains(&angle_deg) {
                return Err(not_a_lawns(given));
            }
            Ok(Steepness {
                tangent: angle_deg.to_radians().tan(),
                error_rad: SLOPE_ERROR_DEG.to_radians(),
                working: by_eye(working).input("slope", given),
            })
        }
        Slope::Grade { grade } => {
            let tangent = grade.to_share().map_err(|e| e.of(Field::Slope))?.value;
            Ok(Steepness {
                tangent: no_steeper(tangent, || grade.for_person())?,
                error_rad: SLOPE_ERROR_DEG.to_radians(),
                working: by_eye(working).input("slope", grade.for_person()),
            })
        }
        Slope::Rise { rise, run } => {
            let run_m = positive(Field::Run, run)?;
            let rise_m = rise.to_length().map_err(|e| e.of(Field::Rise))?.value;
            let given = || format!("{} / {}", rise.for_person(), run.for_person());
            no_steeper(rise_m / run_m, given)?;
            let (angle_rad, error_rad) = spread(&[rise_m, run_m], |r| r[0].atan2(r[1]));
            Ok(Steepness {
                tangent: angle_rad.tan(),
                error_rad,
                working: working
                    .input("rise", rise.for_person())
                    .input("run", run.for_person())
                    .note(Note::TapeErrors),
            })
        }
    }
}

fn no_steeper(tangent: f64, given: impl Fn() -> String) -> Result<f64> {
    // A hair above, since 45 degrees have a tangent of one only on paper.
    if tangent > SLOPE_MOST_DEG.to_radians().tan() + 1e-9 {
        return Err(not_a_lawns(given()));
    }
    Ok(tangent)
}

fn not_a_lawns(given: String) -> RuleError {
    RuleError::NotAllowed {
        field: Field::Slope,
        given,
        allowed: Allowed::Slope,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn e(text: &str) -> Entered {
        Entered::parse(text).unwrap()
    }

    fn of(slope: &Slope, measured: Measured) -> Result<SlopedArea> {
        let area = AreaEstimate::stated(&e("1000 ft2"), &e("20 ft2")).unwrap();
        Ok(sloped_area(&area, measured, slope)?.value)
    }

    // By hand: a slope of 3 in 4 has a cosine of 4/5.
    #[test]
    fn one_slope_given_in_three_ways_is_one_slope() {
        let slopes = [
            Slope::Rise {
                rise: e("3 ft"),
                run: e("48 in"),
            },
            Slope::Grade { grade: e("75 %") },
            Slope::Angle {
                degrees: Decimal::new(36_869_897_646, 9),
            },
        ];
        for slope in slopes {
            let found = of(&slope, Measured::AlongGround).unwrap();
            assert!(
                (found.level.square_feet() - 800.0).abs() < 1e-6,
                "{found:?}"
            );
            assert!((found.surface.square_feet() - 1000.0).abs() < 1e-9);
            assert!((found.grade_percent - 75.0).abs() < 1e-6);
            let found = of(&slope, Measured::Level).unwrap();
            assert!((found.surface.square_feet() - 1250.0).abs() < 1e-6);
            assert!((found.level.square_feet() - 1000.0).abs() < 1e-9);
        }
    }

    // By hand: 2° is π/90; at a cosine of 4/5 the level area moves by 1000 · 3/5 · π/90.
    #[test]
    fn a_slopes_error_adds_to_the_areas() {
        let found = of(&Slope::Grade { grade: e("75 %") }, Measured::AlongGround).unwrap();
        let by_hand = 16.0_f64.hypot(1000.0 * 0.6 * std::f64::consts::PI / 90.0);
        let ft2 = found.level.uncertainty.value / 0.092_903_04;
        assert!((ft2 - by_hand).abs() < 1e-6, "{ft2} {by_hand}");
    }

    #[test]
    fn level_ground_changes_nothing_and_never_is_a_plan_for_more() {
        for grade in ["0 %", "3 %", "30 %", "100 %"] {
            for measured in [Measured::AlongGround, Measured::Level] {
                let found = of(&Slope::Grade { grade: e(grade) }, measured).unwrap();
                assert!(found.level.square_feet() <= 1000.0 + 1e-9, "{found:?}");
                assert!(found.level.area <= found.surface.area);
            }
        }
    }

    #[test]
    fn slopes_that_are_no_lawns_are_refused() {
        let bad = [
            Slope::Grade { grade: e("101 %") },
            Slope::Angle {
                degrees: Decimal::from(46),
            },
            Slope::Angle {
                degrees: Decimal::from(-1),
            },
            Slope::Rise {
                rise: e("6 ft"),
                run: e("5 ft"),
            },
        ];
        for slope in bad {
            assert!(matches!(
                of(&slope, Measured::Level),
                Err(RuleError::NotAllowed {
                    field: Field::Slope,
                    ..
                })
            ));
        }
        let (rise, run) = (e("1 ft"), e("0 ft"));
        assert!(matches!(
            of(&Slope::Rise { rise, run }, Measured::Level),
            Err(RuleError::NotPositive {
                field: Field::Run,
                ..
            })
        ));
        let (rise, run) = (e("1 lb"), e("4 ft"));
        let error = of(&Slope::Rise { rise, run }, Measured::Level).unwrap_err();
        assert!(
            error.to_string().starts_with("rise: 1 lb is a weight"),
            "{error}"
        );
    }
}
