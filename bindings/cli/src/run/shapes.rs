//! Reading shapes as people type them: "rectangle 60 ft x 25 ft", "circle 6 ft", a GPX walk.
//!
//! What a shape's area is, and whether it can be, is for the rules.

use std::path::Path;

use sward_rules::Entered;
use sward_rules::measure::{
    GPX_BYTES_MOST, OffsetRule, Outline, Shape, SideOfLine, TapedCorner, WalkRead, walk_from_gpx,
};

use crate::args::ShapeArgs;
use crate::error::{CliError, Result};

/// An outline as given, and what was read where it is a walk.
pub(super) struct Given {
    pub(super) outline: Outline,
    pub(super) walk: Option<WalkRead>,
}

/// Reads the flags of a shape.
pub(super) fn outline(args: &ShapeArgs) -> Result<Given> {
    let edge = &args.edge;
    let typed = [
        ("rectangle", &edge.rectangle),
        ("triangle", &edge.triangle),
        ("triangle-height", &edge.triangle_height),
        ("trapezoid", &edge.trapezoid),
        ("circle", &edge.circle),
        ("oval", &edge.oval),
        ("radii", &edge.radii),
        ("offsets", &edge.offsets),
        ("tape-polygon", &edge.tape_polygon),
    ];
    let typed = typed
        .into_iter()
        .find_map(|(kind, text)| Some((kind, text.as_ref()?)));
    let simpson = args.rule == "simpson";
    let (shape, walk) = match (typed, &edge.gpx) {
        (Some((kind, text)), _) => (shape(kind, text, simpson)?, None),
        (None, Some(path)) => {
            let walk = walk_in(path)?;
            (
                Shape::Walk {
                    fixes: walk.fixes.clone(),
                },
                Some(walk),
            )
        }
        (None, None) => return Err(CliError::Usage("say how the section was measured".into())),
    };
    let left_out = args
        .leave_out
        .iter()
        .map(|text| left_out(text))
        .collect::<Result<_>>()?;
    Ok(Given {
        outline: Outline { shape, left_out },
        walk,
    })
}

fn walk_in(path: &Path) -> Result<WalkRead> {
    let most = u64::try_from(GPX_BYTES_MOST).unwrap_or(u64::MAX);
    Ok(walk_from_gpx(&super::read_file(path, most)?)?)
}

/// A shape that is left out: its kind, then its measures.
pub(super) fn left_out(text: &str) -> Result<Shape> {
    match text.trim().split_once(' ') {
        Some((kind, measures)) => shape(&kind.to_lowercase(), measures, false),
        None => Err(refused(text, "rectangle 10 ft x 4 ft, or circle 6 ft")),
    }
}

fn shape(kind: &str, text: &str, simpson: bool) -> Result<Shape> {
    Ok(match kind {
        "rectangle" => {
            let [length, width] = exactly(text, "60 ft x 25 ft")?;
            Shape::Rectangle { length, width }
        }
        "triangle" => {
            let [a, b, c] = exactly(text, "30 ft, 26 ft, 28 ft")?;
            Shape::TriangleSides { a, b, c }
        }
        "triangle-height" => {
            let [base, height] = exactly(text, "30 ft x 26 ft")?;
            Shape::TriangleHeight { base, height }
        }
        "trapezoid" => {
            let [a, b, height] = exactly(text, "40 ft, 30 ft, 20 ft")?;
            Shape::Trapezoid { a, b, height }
        }
        "circle" => {
            let [diameter] = exactly(text, "12 ft")?;
            Shape::Circle { diameter }
        }
        "oval" => {
            let [length, width] = exactly(text, "30 ft x 12 ft")?;
            Shape::Oval { length, width }
        }
        "radii" => Shape::MeanRadius {
            radii: measures(text)?,
        },
        "offsets" => offsets(text, simpson)?,
        "tape-polygon" => tape_polygon(text)?,
        _ => {
            return Err(CliError::Refused(format!(
                "{kind} is no shape known here: write rectangle, triangle, triangle-height, trapezoid, circle, oval or radii, then the measures"
            )));
        }
    })
}

fn offsets(text: &str, simpson: bool) -> Result<Shape> {
    let Some((spacing, widths)) = text.split_once(';') else {
        return Err(refused(text, "10 ft; 0 ft, 18 ft, 24 ft, 20 ft"));
    };
    Ok(Shape::Offsets {
        spacing: Entered::parse(spacing)?,
        offsets: measures(widths)?,
        rule: if simpson {
            OffsetRule::Simpson
        } else {
            OffsetRule::Trapezoid
        },
    })
}

const POLYGON: &str = "40 ft; 2 30 ft, 1 50 ft, left; 3 40 ft, 1 30 ft, left";

fn tape_polygon(text: &str) -> Result<Shape> {
    let mut parts = text
        .split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty());
    let first_side = Entered::parse(parts.next().unwrap_or_default())?;
    let corners = parts.map(corner).collect::<Result<_>>()?;
    Ok(Shape::TapePolygon {
        first_side,
        corners,
    })
}

fn corner(text: &str) -> Result<TapedCorner> {
    let no_corner = || refused(text, POLYGON);
    let parts: Vec<&str> = text.split(',').map(str::trim).collect();
    let [a, b, side] = parts[..] else {
        return Err(no_corner());
    };
    let tape = |part: &str| -> Result<(u16, Entered)> {
        let (from, tape) = part.split_once(' ').ok_or_else(no_corner)?;
        Ok((
            from.parse().map_err(|_| no_corner())?,
            Entered::parse(tape)?,
        ))
    };
    let ((from_a, tape_a), (from_b, tape_b)) = (tape(a)?, tape(b)?);
    let side = match side {
        "left" => SideOfLine::Left,
        "right" => SideOfLine::Right,
        _ => return Err(no_corner()),
    };
    Ok(TapedCorner {
        from_a,
        tape_a,
        from_b,
        tape_b,
        side,
    })
}

fn exactly<const N: usize>(text: &str, like: &str) -> Result<[Entered; N]> {
    measures(text)?.try_into().map_err(|_| refused(text, like))
}

/// Measures set apart by commas, "x" or "by".
fn measures(text: &str) -> Result<Vec<Entered>> {
    text.replace(" x ", ",")
        .replace(" by ", ",")
        .replace('×', ",")
        .split(',')
        .map(|part| Ok(Entered::parse(part)?))
        .collect()
}

fn refused(text: &str, like: &str) -> CliError {
    CliError::Refused(format!(
        "\"{text}\" cannot be read as measures: write it like \"{like}\""
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ft2(kind: &str, text: &str) -> f64 {
        let shape = shape(kind, text, false).unwrap();
        shape.area().unwrap().value.square_feet()
    }

    // Plane geometry, worked by hand.
    #[test]
    fn shapes_are_read_as_typed() {
        let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 0.01, "{found}");
        near(ft2("rectangle", "60 ft x 25 ft"), 1500.0);
        near(ft2("rectangle", "12 ft 6 in by 8 ft"), 100.0);
        near(ft2("triangle", "3 ft, 4 ft, 5 ft"), 6.0);
        near(ft2("triangle-height", "30 ft × 26 ft"), 390.0);
        near(ft2("trapezoid", "40 ft, 30 ft, 20 ft"), 700.0);
        near(ft2("circle", "12 ft"), 113.097);
        near(ft2("offsets", "10 ft; 0 ft, 18 ft, 24 ft, 20 ft"), 520.0);
        // 40 by 30 ft, its diagonal 50 ft.
        near(
            ft2(
                "tape-polygon",
                "40 ft; 2 30 ft, 1 50 ft, left; 3 40 ft, 1 30 ft, left",
            ),
            1200.0,
        );
    }

    #[test]
    fn what_cannot_be_read_is_refused_with_an_example() {
        for (kind, text) in [
            ("rectangle", "60 ft"),
            ("triangle", "3 ft, 4 ft"),
            ("offsets", "10 ft, 12 ft"),
            ("tape-polygon", "40 ft; 2 30 ft, 1 50 ft"),
            ("tape-polygon", "40 ft; x 30 ft, 1 50 ft, left"),
        ] {
            let told = shape(kind, text, false).unwrap_err().to_string();
            assert!(told.contains("write it like"), "{kind} {text}: {told}");
        }
        assert!(
            left_out("blob 3 ft")
                .unwrap_err()
                .to_string()
                .contains("no shape known")
        );
        assert!(left_out("circle").is_err());
    }
}
