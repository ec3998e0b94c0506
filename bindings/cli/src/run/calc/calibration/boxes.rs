//! A spreader's pattern by catch boxes.

use serde_json::json;
use sward_rules::calibrate::{
    CatchBoxes, EVEN_MOST_PERCENT, STRIPES_PERCENT, evenness, evenness_finding, pattern,
    svg_points, text_bar,
};

use super::{amounts, findings};
use crate::args::CatchBoxesCalc;
use crate::error::Result;
use crate::run::calc::Worked;

const BAR: usize = 30;
/// Above this many percent a curve is drawn no higher: such a swath is out of the question.
const CURVE_MOST_PERCENT: f64 = 40.0;
const PICTURE: (f64, f64) = (320.0, 120.0);

/// The pattern, the effective swath, and how evenly passes overlap.
pub(in crate::run::calc) fn catch_boxes(args: &CatchBoxesCalc) -> Result<Worked> {
    let catches = amounts("--catches", &args.catches)?;
    let boxes = CatchBoxes {
        spacing: args.spacing,
        catches: &catches,
    };
    let mut worked = Worked::default();
    let pattern = worked.take("effective swath", pattern(&boxes)?);
    let curve = worked.take("evenness", evenness(&boxes)?);
    worked.line(match pattern.effective_swath {
        Some(swath) => format!("Effective swath: {}.", swath.for_person()),
        None => "Effective swath: not known, the catch does not fall to half within the boxes."
            .to_owned(),
    });
    let best = |best: Option<sward_rules::Entered>| {
        best.map_or_else(|| "none".to_owned(), |swath| swath.for_person())
    };
    worked.line(format!(
        "Widest even swath (at most {EVEN_MOST_PERCENT} %, a figure for farm fertilizer; stripes show over {STRIPES_PERCENT} %): {} back and forth, {} all one way.",
        best(curve.best_back_and_forth),
        best(curve.best_one_way)
    ));
    if let Some(swath) = &args.swath {
        findings(
            &mut worked,
            &[evenness_finding(&curve, swath, args.travel)?],
        );
    }
    let most = pattern.points.iter().map(|p| p.of_middle_percent);
    let most = most.fold(100.0, f64::max);
    worked.line("Pattern, in percent of the middle box:");
    for p in &pattern.points {
        let bar = text_bar(p.of_middle_percent, most, BAR);
        worked.line(format!(
            "{:<9} {:>4.0} {bar}",
            format!("{:.2} ft", p.distance_ft),
            p.of_middle_percent
        ));
    }
    worked.line("Variation by swath (n - 1), back and forth | all one way:");
    for p in &curve.points {
        let bar = text_bar(p.back_and_forth_percent, CURVE_MOST_PERCENT, BAR);
        worked.line(format!(
            "{:<9} {:>6.1} % | {:>5.1} % {bar}",
            p.swath.for_person(),
            p.back_and_forth_percent,
            p.one_way_percent
        ));
    }
    let drawn = |points: Vec<(f64, f64)>, y_most| {
        let (width, height) = PICTURE;
        svg_points(&points, y_most, width, height)
    };
    let pattern_points = pattern
        .points
        .iter()
        .map(|p| (p.distance_ft, p.of_middle_percent))
        .collect();
    let back = curve.points.iter();
    let back = back
        .map(|p| (p.swath_ft, p.back_and_forth_percent))
        .collect();
    let one_way = curve.points.iter();
    let one_way = one_way.map(|p| (p.swath_ft, p.one_way_percent)).collect();
    worked
        .value("effective_swath", pattern.effective_swath)
        .value("pattern", &pattern)
        .value("evenness", &curve)
        .value(
            "svg_polylines",
            json!({
                "width": PICTURE.0,
                "height": PICTURE.1,
                "pattern": drawn(pattern_points, most),
                "back_and_forth": drawn(back, CURVE_MOST_PERCENT),
                "one_way": drawn(one_way, CURVE_MOST_PERCENT),
            }),
        );
    Ok(worked)
}
