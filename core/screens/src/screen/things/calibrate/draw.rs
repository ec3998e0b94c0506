//! A pattern and a curve as drawings. What they show stands beside them in words and numbers.

use maud::{Markup, html};
use sward_rules::calibrate::{EVEN_MOST_PERCENT, Evenness, Pattern, STRIPES_PERCENT, svg_points};

use crate::ask::Ask;

const WIDTH: f64 = 320.0;
const HEIGHT: f64 = 140.0;
/// Room for words beneath.
const FOOT: f64 = 30.0;
/// Where the number of a line stands: two lines close to each other have one on either side.
const ABOVE: f64 = -3.0;
const BELOW: f64 = 17.0;
const FOOT_M: f64 = 0.3048;
/// Above this the curve is drawn no higher: such a swath is out of the question.
const CURVE_MOST_PERCENT: f64 = 40.0;

/// What the boxes caught, from left to right; half of the middle's as a dashed line.
pub(super) fn pattern(ask: &Ask<'_>, pattern: &Pattern) -> Markup {
    let points: Vec<(f64, f64)> = pattern
        .points
        .iter()
        .map(|p| (p.distance_ft, p.of_middle_percent))
        .collect();
    let most = points.iter().map(|p| p.1).fold(100.0, f64::max);
    picture(
        ask,
        &ask.t("calibrate-pattern"),
        &html! {
            (level(50.0, most, ABOVE))
            polyline points=(svg_points(&points, most, WIDTH, HEIGHT)) stroke-width="3" {}
        },
        &points,
    )
}

/// The variation over the swaths: back and forth as a whole line, all one way as a dotted one; the
/// two limits dashed.
pub(super) fn curve(ask: &Ask<'_>, curve: &Evenness) -> Markup {
    let line = |percent: fn(&sward_rules::calibrate::EvennessPoint) -> f64| {
        let points: Vec<(f64, f64)> = curve
            .points
            .iter()
            .map(|p| (p.swath_ft, percent(p)))
            .collect();
        points
    };
    let back = line(|p| p.back_and_forth_percent);
    let one_way = line(|p| p.one_way_percent);
    picture(
        ask,
        &ask.t("calibrate-curve"),
        &html! {
            (level(f64::from(EVEN_MOST_PERCENT), CURVE_MOST_PERCENT, BELOW))
            (level(f64::from(STRIPES_PERCENT), CURVE_MOST_PERCENT, ABOVE))
            polyline points=(svg_points(&back, CURVE_MOST_PERCENT, WIDTH, HEIGHT)) stroke-width="3" {}
            polyline points=(svg_points(&one_way, CURVE_MOST_PERCENT, WIDTH, HEIGHT)) stroke-width="2" stroke-dasharray="2 4" {}
        },
        &back,
    )
}

fn picture(ask: &Ask<'_>, title: &str, lines: &Markup, points: &[(f64, f64)]) -> Markup {
    let across = |at: Option<&(f64, f64)>| {
        let feet = at.map_or(0.0, |point| point.0);
        crate::sketch::length_words(ask.words, feet * FOOT_M)
    };
    html! {
        svg.sketch viewBox=(format!("-8 -8 {} {}", WIDTH + 16.0, HEIGHT + FOOT + 8.0)) role="img" aria-label=(title)
            fill="none" stroke="currentColor" {
            path d=(format!("M0 0V{HEIGHT}H{WIDTH}")) stroke-width="1.5" {}
            (lines)
            text x="0" y=(HEIGHT + FOOT - 6.0) font-size="20" fill="currentColor" stroke="none" { (across(points.first())) }
            text x=(WIDTH) y=(HEIGHT + FOOT - 6.0) font-size="20" text-anchor="end" fill="currentColor" stroke="none" { (across(points.last())) }
        }
    }
}

/// A dashed line at a height, its number above or below it.
fn level(at: f64, most: f64, number_off: f64) -> Markup {
    let y = HEIGHT * (1.0 - (at / most).clamp(0.0, 1.0));
    html! {
        path d=(format!("M0 {y:.1}H{WIDTH}")) stroke-width="1" stroke-dasharray="6 4" {}
        text x="2" y=(format!("{:.1}", y + number_off)) font-size="19" fill="currentColor" stroke="none" { (format!("{at:.0} %")) }
    }
}
