//! How large a lawn is, how long its edge, a strip set back from it, and a slope.

use sward_rules::measure::{AreaEstimate, Measured, Outline, Shape, Slope, sloped_area};
use sward_rules::{Entered, Field, RuleError};

use super::Worked;
use crate::args::AreaCalc;
use crate::error::{CliError, Result};
use crate::run::shapes;

/// The area of a shape, and what else was asked.
pub(super) fn area(args: &AreaCalc) -> Result<Worked> {
    let outline = shapes::outline(&args.shape)?.outline;
    let mut worked = Worked::default();
    let area = worked.take("area", outline.area()?);
    worked
        .line(format!("area: {}", area.for_person()))
        .value("area", area);
    edge(&mut worked, &outline)?;
    let to_treat = match &args.strip {
        Some(width) => strip(&mut worked, &outline, width, args.along.as_deref())?,
        None => area,
    };
    if let Some(text) = &args.slope {
        let measured = match outline.shape {
            Shape::Walk { .. } => Measured::Level,
            _ if args.level => Measured::Level,
            _ => Measured::AlongGround,
        };
        on_slope(&mut worked, &to_treat, measured, text)?;
    }
    Ok(worked)
}

/// The edge, or why it is not known: the area stands without it.
fn edge(worked: &mut Worked, outline: &Outline) -> Result<()> {
    match outline.perimeter() {
        Ok(answer) => {
            let edge = worked.take("edge", answer);
            worked
                .line(format!("edge: {}", edge.for_person()))
                .value("edge", edge);
        }
        Err(why @ RuleError::EdgeNotGiven) => {
            worked
                .line(format!("edge: not known; {why}"))
                .value("edge", ());
        }
        Err(other) => return Err(other.into()),
    }
    Ok(())
}

/// What remains to treat.
fn strip(
    worked: &mut Worked,
    outline: &Outline,
    width: &str,
    along: Option<&str>,
) -> Result<AreaEstimate> {
    let read = |text: &str, field| Entered::parse(text).map_err(|e| e.of(field));
    let width = read(width, Field::StripWidth)?;
    let answer = match along {
        Some(edge) => outline.strip_along(&read(edge, Field::StripEdge)?, &width)?,
        None => outline.strip_inside(&width)?,
    };
    let both = worked.take("strip", answer);
    worked
        .line(format!("strip: {}", both.strip.for_person()))
        .line(format!("left to treat: {}", both.rest.for_person()))
        .value("strip", both.strip)
        .value("left_to_treat", both.rest);
    Ok(both.rest)
}

fn on_slope(
    worked: &mut Worked,
    area: &AreaEstimate,
    measured: Measured,
    text: &str,
) -> Result<()> {
    let both = worked.take("slope", sloped_area(area, measured, &slope(text)?)?);
    worked
        .line(format!(
            "slope: {:.1}° ({:.1} %)",
            both.angle_deg, both.grade_percent
        ))
        .line(format!("on the ground: {}", both.surface.for_person()))
        .line(format!(
            "level, the one to plan for: {}",
            both.level.for_person()
        ))
        .value("slope", both);
    Ok(())
}

/// A slope as typed: "12 %", "7 deg" or "3 ft / 25 ft".
fn slope(text: &str) -> Result<Slope> {
    let read = |text: &str, field| Entered::parse(text).map_err(|e| e.of(field));
    let parted = text.split_once('/').or_else(|| text.split_once(" in "));
    if let Some((rise, run)) = parted {
        let rise = read(rise, Field::Rise)?;
        let run = read(run, Field::Run)?;
        return Ok(Slope::Rise { rise, run });
    }
    let angle = ["degrees", "degree", "deg", "°"]
        .iter()
        .find_map(|unit| text.trim().strip_suffix(unit));
    if let Some(degrees) = angle {
        let degrees = degrees.trim().parse().map_err(|_| refused(text))?;
        return Ok(Slope::Angle { degrees });
    }
    let grade = read(text, Field::Slope)?;
    Ok(Slope::Grade { grade })
}

fn refused(text: &str) -> CliError {
    CliError::Refused(format!(
        "slope: \"{text}\" cannot be read: write it like \"12 %\", \"7 deg\" or \"3 ft / 25 ft\""
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slope_is_read_in_three_ways() {
        assert!(matches!(slope("12 %").unwrap(), Slope::Grade { .. }));
        for angle in ["7 deg", "7.5°", "7 degrees"] {
            assert!(
                matches!(slope(angle).unwrap(), Slope::Angle { .. }),
                "{angle}"
            );
        }
        for rise in ["3 ft / 25 ft", "3 ft in 25 ft", "36 in / 25 ft"] {
            let Slope::Rise { rise, run } = slope(rise).unwrap() else {
                panic!("{rise}");
            };
            assert_eq!(
                rise.compare(&Entered::parse("3 ft").unwrap()),
                Ok(std::cmp::Ordering::Equal)
            );
            assert_eq!(run, Entered::parse("25 ft").unwrap());
        }
        for bad in ["steep deg", "12", "-3 deg °", "3 ft / flat", ""] {
            assert!(slope(bad).is_err(), "{bad}");
        }
    }
}
