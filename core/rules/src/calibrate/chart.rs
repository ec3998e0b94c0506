//! A series of points ready to be drawn: the pattern of the boxes, the curve over the swaths.

/// Points scaled into a picture, y upwards, as the `points` of an SVG `polyline`.
///
/// The picture reaches from the least x to the most, and from zero to `y_most`; what lies above is
/// drawn at its upper edge. Empty where there are not two points, or nothing to scale by.
///
/// ```
/// use sward_rules::calibrate::svg_points;
/// let points = svg_points(&[(-1.0, 0.0), (0.0, 100.0), (1.0, 50.0)], 100.0, 200.0, 40.0);
/// assert_eq!(points, "0.0,40.0 100.0,0.0 200.0,20.0");
/// ```
pub fn svg_points(points: &[(f64, f64)], y_most: f64, width: f64, height: f64) -> String {
    let xs = || points.iter().map(|p| p.0);
    let (least, most) = (
        xs().fold(f64::INFINITY, f64::min),
        xs().fold(f64::NEG_INFINITY, f64::max),
    );
    let sane = points.len() > 1 && most > least && (most - least).is_finite() && y_most > 0.0;
    if !sane {
        return String::new();
    }
    let at = |(x, y): &(f64, f64)| {
        let share = (y / y_most).clamp(0.0, 1.0);
        let across = (x - least) / (most - least) * width;
        format!("{across:.1},{:.1}", height * (1.0 - share))
    };
    points.iter().map(at).collect::<Vec<_>>().join(" ")
}

/// A bar of a plain-text chart, of at most `width` characters.
///
/// ```
/// use sward_rules::calibrate::text_bar;
/// assert_eq!(text_bar(50.0, 100.0, 10), "#####");
/// assert_eq!(text_bar(500.0, 100.0, 10), "##########");
/// ```
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to the width before"
)]
pub fn text_bar(value: f64, most: f64, width: usize) -> String {
    let share = (value / most).clamp(0.0, 1.0);
    if share.is_nan() {
        return String::new();
    }
    "#".repeat((share * width as f64).round() as usize)
}
