//! Drawing an outline by finger on a sketch to scale: the area to draw on, and reading the corners.
//!
//! The script writes the corners; without it they are typed.

use std::fmt::Write as _;
use std::str::FromStr;

use maud::{Markup, html};
use sward_rules::measure::{DRAWN_CORNERS_MOST, DrawnCorner, Shape};

use crate::ask::Ask;
use crate::part::form::FormPart;
use crate::sketch::length_words;
use crate::trouble::Wrong;
use crate::words::Units;
use crate::{Result, Trouble};

/// The farthest that a corner may lie from the origin: no lawn reaches farther.
const FAR_MOST_CM: i32 = 200_000;

/// How large the ground is at first, side by side, in metres and feet.
const GROUNDS: [(&str, i32, i32); 3] =
    [("small", 20, 60), ("middle", 40, 120), ("large", 100, 300)];

/// The corners as the script writes them, a line each: `east_cm,north_cm`.
///
/// # Errors
/// [`Trouble::InField`] beside the corners.
pub(super) fn corners(text: &str) -> Result<Vec<DrawnCorner>> {
    if text.is_empty() {
        return Err(Trouble::field("corners", Wrong::Missing));
    }
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    // One more than the rules take, so that they say that it is too many.
    let numbered = (1..).zip(lines.take(DRAWN_CORNERS_MOST + 2));
    numbered
        .map(|(line, text)| {
            corner(text).ok_or_else(|| Trouble::field("corners", Wrong::NotACorner { line }))
        })
        .collect()
}

fn corner(text: &str) -> Option<DrawnCorner> {
    let (east, north) = text.split_once(',')?;
    let within = |text: &str| {
        let cm = i32::from_str(text.trim()).ok()?;
        (cm.unsigned_abs() <= FAR_MOST_CM.unsigned_abs()).then_some(cm)
    };
    Some(DrawnCorner {
        east_cm: within(east)?,
        north_cm: within(north)?,
    })
}

/// The area to draw on with its corners. `name` is the one in the address; `around` the section
/// that the drawing is left out of.
pub(super) fn field(
    ask: &Ask<'_>,
    form: &FormPart<'_>,
    name: &str,
    filled: Option<&Shape>,
    around: Option<&Shape>,
) -> Markup {
    let (filled, around) = (corners_of(filled), corners_of(around));
    let lines: Vec<String> = filled
        .iter()
        .map(|c| format!("{},{}", c.east_cm, c.north_cm))
        .collect();
    let before = if around.is_empty() { filled } else { around };
    let frame = Frame::of(ask, before);
    html! {
        @if before.is_empty() {
            p {
                @for (ground, metres, feet) in GROUNDS {
                    @let side = f64::from(if ask.words.units == Units::Us { feet } else { metres });
                    @let unit_m = if ask.words.units == Units::Us { 0.3048 } else { 1.0 };
                    a href=(format!("{}?{name}=drawn&ground={ground}", ask.path)) {
                        (ask.words.t_with("measure-ground", &[("side", length_words(ask.words, side * unit_m).into())]))
                    } " "
                }
            }
        }
        div.draw data-draw {
            (frame.svg(ask, before))
            p.note { (ask.words.t_with("measure-grid", &[("step", frame.step_words(ask).into())])) }
            button.way type="button" data-draw-undo hidden { (ask.t("measure-undo")) }
            (form.by_script("corners", "measure-corners", "measure-corners-help", &lines.join("\n"), false))
        }
    }
}

fn corners_of(shape: Option<&Shape>) -> &[DrawnCorner] {
    match shape {
        Some(Shape::Drawn { corners }) => corners,
        _ => &[],
    }
}

/// The ground that is drawn on, in centimetres, north up.
#[expect(clippy::struct_field_names, reason = "units end the names of numbers")]
struct Frame {
    west_cm: i32,
    south_cm: i32,
    side_cm: i32,
    step_cm: f64,
}

impl Frame {
    /// Around what is drawn already, with as much again to each side; else as large as asked for.
    fn of(ask: &Ask<'_>, corners: &[DrawnCorner]) -> Self {
        let easts = || corners.iter().map(|c| c.east_cm);
        let norths = || corners.iter().map(|c| c.north_cm);
        let metric = ask.words.units == Units::Metric;
        if let (Some(west), Some(east), Some(south), Some(north)) =
            (easts().min(), easts().max(), norths().min(), norths().max())
        {
            let side = (east - west).max(north - south).max(500);
            return Self::new(west - side / 4, south - side / 4, side + side / 2, metric);
        }
        let wanted = ask.query("ground").unwrap_or("middle");
        let (_, metres, feet) = GROUNDS
            .into_iter()
            .find(|g| g.0 == wanted)
            .unwrap_or(GROUNDS[1]);
        let side_cm = if metric {
            metres * 100
        } else {
            feet * 3_048 / 100
        };
        Self::new(0, 0, side_cm, metric)
    }

    fn new(west_cm: i32, south_cm: i32, side_cm: i32, metric: bool) -> Self {
        let unit_cm = if metric { 100.0 } else { 30.48 };
        // The smallest round step with at most twelve squares across.
        let step = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0];
        let least = f64::from(side_cm) / 12.0;
        let step_cm = step
            .into_iter()
            .map(|n| n * unit_cm)
            .find(|cm| *cm >= least)
            .unwrap_or(least);
        Self {
            west_cm,
            south_cm,
            side_cm,
            step_cm,
        }
    }

    fn step_words(&self, ask: &Ask<'_>) -> String {
        length_words(ask.words, self.step_cm / 100.0)
    }

    fn svg(&self, ask: &Ask<'_>, corners: &[DrawnCorner]) -> Markup {
        let (x, y) = (self.west_cm, -(self.south_cm + self.side_cm));
        let points: Vec<String> = corners
            .iter()
            .map(|c| format!("{},{}", c.east_cm, -c.north_cm))
            .collect();
        let line = f64::from(self.side_cm) / 300.0;
        html! {
            svg.sk data-draw-area viewBox=(format!("{x} {y} {0} {0}", self.side_cm)) role="img"
                aria-label=(ask.t("measure-draw-area")) fill="none" stroke="currentColor" stroke-width=(line) {
                path.sk-grid d=(self.grid()) stroke-opacity="0.35" stroke-width=(line / 2.0) {}
                // As it was before; the script draws what it becomes.
                polygon points=(points.join(" ")) stroke-width=(line * 2.0) stroke-dasharray=(format!("{0} {0}", line * 6.0)) {}
            }
        }
    }

    fn grid(&self) -> String {
        let (x, y, side) = (
            f64::from(self.west_cm),
            -f64::from(self.south_cm + self.side_cm),
            f64::from(self.side_cm),
        );
        // In whole steps, so that no line is lost to the sum of many roundings.
        let lines = |from: f64| {
            let (first, last) = (from / self.step_cm, (from + side) / self.step_cm);
            let mut number = (first - 1e-9).ceil();
            std::iter::from_fn(move || {
                let here = number;
                number += 1.0;
                (here <= last + 1e-9).then_some(here)
            })
        };
        let mut d = String::new();
        for number in lines(x) {
            let _ = write!(d, "M{:.1} {y}v{side}", number * self.step_cm);
        }
        for number in lines(y) {
            let _ = write!(d, "M{x} {:.1}h{side}", number * self.step_cm);
        }
        d
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn refused_line(text: &str) -> i64 {
        match corners(text) {
            Err(Trouble::InField { error, .. }) => match *error {
                Trouble::Wrong(Wrong::NotACorner { line }) => line,
                other => panic!("{other:?}"),
            },
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn corners_are_read_line_by_line() {
        let read = corners("0,0\r\n 1200 , -30\n\n5,7").unwrap();
        assert_eq!(
            read[1],
            DrawnCorner {
                east_cm: 1200,
                north_cm: -30
            }
        );
        assert_eq!(read.len(), 3);
        assert!(corners("").is_err());
        for (bad, line) in [
            ("0,0\n1;2", 2),
            ("a,b", 1),
            ("1.5,2", 1),
            ("0,0\n1,2\n99999999999,0", 3),
            ("200001,0", 1),
            ("1,2,3", 1),
        ] {
            assert_eq!(refused_line(bad), line, "{bad}");
        }
    }

    #[test]
    fn more_corners_than_the_rules_take_are_left_to_them() {
        let many = "0,0\n".repeat(100_000);
        assert_eq!(corners(&many).unwrap().len(), DRAWN_CORNERS_MOST + 2);
    }

    #[test]
    fn the_ground_lies_around_what_is_drawn() {
        let frame = Frame::new(0, 0, 3_657, false);
        // 120 ft in at most twelve squares: 10 ft.
        assert!((frame.step_cm - 304.8).abs() < 1e-9);
        assert_eq!(frame.grid().matches('M').count(), 24);
    }

    proptest! {
        #[test]
        fn whatever_is_sent_never_panics(text in "[-0-9,. a\\n]{0,200}") {
            let _ = corners(&text);
        }
    }
}
