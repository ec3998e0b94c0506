//! Areas, edges and strips.

use serde_json::{Value, json};
use sward_rules::Entered;
use sward_rules::measure::{Outline, Shape, geodesic_polygon};

use crate::{Answered, text};

/// Perimeter and area of `corners`, each latitude and longitude in degrees.
pub(crate) fn geodesic(question: &Value) -> Answered {
    let corners: Vec<(f64, f64)> = serde_json::from_value(question["corners"].clone())?;
    let (perimeter_m, area_m2) = geodesic_polygon(&corners)?;
    Ok(json!({ "perimeter_m": perimeter_m, "area_m2": area_m2 }))
}

/// Area and perimeter of a `shape` in its stored form, and what remains inside a `strip`, if one is
/// asked for.
pub(crate) fn shape(question: &Value) -> Answered {
    let shape: Shape = serde_json::from_value(question["shape"].clone())?;
    let outline = Outline {
        shape,
        left_out: Vec::new(),
    };
    let area = outline.area()?.value;
    let perimeter = outline.perimeter()?.value;
    let rest = match question.get("strip") {
        Some(_) => {
            let width = Entered::parse(text(question, "strip")?)?;
            Some(outline.strip_inside(&width)?.value.rest.square_metres())
        }
        None => None,
    };
    Ok(json!({
        "area_m2": area.square_metres(),
        "perimeter_m": perimeter.metres(),
        "rest_m2": rest,
    }))
}
