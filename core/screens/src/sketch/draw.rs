//! The drawing: SVG to scale, in shapes and words, with presentation attributes only.
//!
//! Where things lie is [`super::lay_out`]'s matter. Hatches and dashes carry the meaning; colours,
//! which the style sheet may change by class, only help.

use std::borrow::Borrow;
use std::fmt::Write as _;

use maud::{Markup, html};

use super::lay_out::{LaidOut, lay_out};
use super::legend::{compass, kind_words, lines};
use super::plane::{Point, Ring, middle};
use super::view::{ABOVE, BELOW, MARGIN, View, WIDTH};
use super::{Sketch, SketchSection, length_words, passes, symbol};
use crate::words::Words;

/// Height of letters, in units of the drawing.
const LETTERS: f64 = 15.0;
/// About how wide a letter is; a little more than it is on average.
const LETTER_WIDTH: f64 = 8.2;

impl Sketch {
    /// The drawing with the same in words beneath it; where there is nothing to draw, that.
    pub(crate) fn markup(&self, words: impl Borrow<Words>) -> Markup {
        let words = *words.borrow();
        let laid = lay_out(&self.sections, self.is_anything_else_placed());
        let lines = lines(self, &laid, words);
        let has_any = laid.iter().any(Option::is_some) || self.is_anything_else_placed();
        html! {
            figure.drawing {
                @if has_any {
                    (self.svg(&laid, &lines, words))
                } @else {
                    p.note { (words.t("sketch-nothing")) }
                }
                @if !lines.is_empty() {
                    figcaption { ul.list { @for line in &lines { li { (line) } } } }
                }
            }
        }
    }

    fn svg(&self, laid: &[Option<LaidOut>], lines: &[String], words: Words) -> Markup {
        let shown = laid.iter().flatten();
        let rings = shown.flat_map(|l| l.ring.iter().chain(l.keep_offs.iter().flatten().flatten()));
        let view = View::of(
            rings.copied().chain(self.marks.iter().filter_map(|m| m.at)),
            self.orientation,
        );
        let mut plates = Plates::default();
        let (title, desc) = (format!("{}-title", self.id), format!("{}-desc", self.id));
        let name = words.t_with("sketch-title", &[("name", self.name.clone().into())]);
        html! {
            svg.sketch.sk viewBox=(format!("0 0 {WIDTH} {:.0}", view.height)) role="img" aria-labelledby=(title)
                aria-describedby=(desc) fill="none" stroke="currentColor" stroke-width="1.5" font-size=(LETTERS) {
                title id=(title) { (name) }
                desc id=(desc) { (lines.join(". ")) }
                defs { (hatch(&self.keep_hatch())) }
                @for (section, laid) in self.sections.iter().zip(laid) {
                    @if let Some(laid) = laid { (self.section(section, laid, &view)) }
                }
                @for mark in &self.marks {
                    @if let Some(at) = mark.at { (sign(&mark.kind, at, &view)) }
                }
                // Words last, so that no line runs over them.
                @for (number, laid) in laid.iter().enumerate() {
                    @if let Some(laid) = laid { (self.section_words(number, laid, &view, &mut plates, words)) }
                }
                @for mark in &self.marks {
                    @if let Some(at) = mark.at { (mark_words(&mark.kind, at, &view, &mut plates, words)) }
                }
                (north(&view, words))
                (self.wind_arrow(&view, words))
                (scale_bar(&view, words))
            }
        }
    }

    fn keep_hatch(&self) -> String {
        format!("{}-keep", self.id)
    }

    fn section(&self, section: &SketchSection, laid: &LaidOut, view: &View) -> Markup {
        html! {
            path.sk-lawn d=(path(&laid.ring, view)) fill="#e7f0db" stroke-width="2.5"
                stroke-dasharray=[(!laid.place_known).then_some("9 3")] {}
            (pass_lines(section, &laid.ring, view))
            @for ring in laid.keep_offs.iter().flatten() {
                path.sk-keep d=(path(ring, view)) fill=(format!("url(#{})", self.keep_hatch())) stroke-width="3.5" {}
            }
            @for left_out in &laid.left_out {
                path.sk-out d=(path(&left_out.ring, view)) fill="#ffffff"
                    stroke-dasharray=[(!left_out.place_known).then_some("4 3")] {}
            }
        }
    }

    fn section_words(
        &self,
        number: usize,
        laid: &LaidOut,
        view: &View,
        plates: &mut Plates,
        words: Words,
    ) -> Markup {
        let section = &self.sections[number];
        let Some(at) = middle(&laid.ring) else {
            return html! {};
        };
        let wide = drawn_width(&laid.ring, view);
        let short = (number + 1).to_string();
        let long = format!("{short} {}", section.name);
        let label = if width_of(&long) <= wide {
            long
        } else {
            short.clone()
        };
        let keep_off = words.t("sketch-keep-off");
        let (x, y) = view.at(at);
        let mut rows = vec![label];
        if !section.keep_offs.is_empty() && width_of(&keep_off) <= WIDTH - 2.0 * MARGIN {
            rows.push(keep_off);
        }
        if laid.left_out.iter().any(|l| !l.place_known) {
            let unknown = words.t("sketch-left-out-short");
            if width_of(&unknown) <= wide {
                rows.push(unknown);
            }
        }
        // Away from what is left out, which is drawn in the middle where its place is unknown.
        let off = if laid.left_out.is_empty() {
            0.0
        } else {
            1.4 * LETTERS
        };
        let places = [y - off, y - off - 1.2 * LETTERS, y + off + 1.2 * LETTERS];
        let free = |rows: &[String]| {
            let is_free = |y: &f64| plates.is_free(Plates::plate(rows, x, *y));
            places.into_iter().find(is_free)
        };
        match free(&rows[..1]) {
            Some(y) => plates.rows(&rows, x, y),
            // Where another name stands, the number alone; the list beneath has the name.
            None => plates.rows(&[short], x, y - off),
        }
    }

    fn wind_arrow(&self, view: &View, words: Words) -> Markup {
        let Some(wind) = self.wind.as_ref().filter(|w| w.from_deg.is_finite()) else {
            return html! {};
        };
        let blows_deg = view.turned_deg(wind.from_deg + 180.0);
        let from = words.t_with(
            "sketch-wind-from",
            &[("from", compass(wind.from_deg, words).into())],
        );
        html! {
            g.sk-wind transform=(format!("translate(30 28) rotate({blows_deg:.0})")) stroke-width="3" {
                path d="M0 20 V-18 M-8 -8 L0 -19 L8 -8" {}
            }
            (text(&from, 58.0, 24.0, "start"))
            (text(&wind.mean, 58.0, 42.0, "start"))
        }
    }
}

/// Words already on the drawing, so that none is written over another.
#[derive(Default)]
struct Plates {
    taken: Vec<(f64, f64, f64, f64)>,
}

impl Plates {
    fn is_free(&self, plate: (f64, f64, f64, f64)) -> bool {
        let (left, top, right, bottom) = plate;
        left >= 0.0
            && right <= WIDTH
            && !self
                .taken
                .iter()
                .any(|t| left < t.2 && right > t.0 && top < t.3 && bottom > t.1)
    }

    /// The plate of rows about a middle, moved in from the drawing's edge where it would be cut off.
    fn plate(rows: &[String], x: f64, y: f64) -> (f64, f64, f64, f64) {
        let wide = rows.iter().map(|r| width_of(r)).fold(0.0, f64::max);
        let high = LETTERS * 1.2 * rows.len() as f64;
        let x = x.clamp(
            (wide / 2.0 + 2.0).min(WIDTH / 2.0),
            (WIDTH - wide / 2.0 - 2.0).max(WIDTH / 2.0),
        );
        (
            x - wide / 2.0,
            y - high / 2.0,
            x + wide / 2.0,
            y + high / 2.0,
        )
    }

    /// Rows of words about a middle, on a plate of their own; only the first where the others
    /// would lie over something.
    fn rows(&mut self, rows: &[String], x: f64, y: f64) -> Markup {
        let fits = (1..=rows.len())
            .rev()
            .find(|n| self.is_free(Self::plate(&rows[..*n], x, y)));
        let rows = &rows[..fits.unwrap_or(1).min(rows.len())];
        let (left, top, right, bottom) = Self::plate(rows, x, y);
        self.taken.push((left, top, right, bottom));
        html! {
            @for (row, number) in rows.iter().zip(1_u32..) {
                (text(row, f64::midpoint(left, right), top + LETTERS * (1.2 * f64::from(number) - 0.3), "middle"))
            }
        }
    }
}

fn width_of(text: &str) -> f64 {
    text.chars().count() as f64 * LETTER_WIDTH
}

fn drawn_width(ring: &Ring, view: &View) -> f64 {
    let xs = || ring.iter().map(|p| view.at(*p).0);
    xs().fold(f64::MIN, f64::max) - xs().fold(f64::MAX, f64::min)
}

/// Words with a rim in the colour of the ground, so that lines beneath do not disturb them.
fn text(words: &str, x: f64, y: f64, anchor: &str) -> Markup {
    html! {
        text.sk-text x=(format!("{x:.1}")) y=(format!("{y:.1}")) text-anchor=(anchor) fill="currentColor"
            stroke="#ffffff" stroke-width="4" stroke-linejoin="round" paint-order="stroke" { (words) }
    }
}

/// A ring as a path; corners that fall on one spot of the drawing are one.
fn path(ring: &Ring, view: &View) -> String {
    let mut points: Vec<(f64, f64)> = ring.iter().map(|p| view.at(*p)).collect();
    points.dedup();
    let mut d = String::new();
    for (n, (x, y)) in points.iter().enumerate() {
        d.push(if n == 0 { 'M' } else { 'L' });
        let _ = write!(d, "{x} {y}");
    }
    d.push('Z');
    d
}

fn hatch(id: &str) -> Markup {
    html! {
        pattern id=(id) width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)" {
            path.sk-hatch d="M0 0 V9" stroke="#b00020" stroke-width="3.5" {}
        }
    }
}

fn pass_lines(section: &SketchSection, ring: &Ring, view: &View) -> Markup {
    let Some(asked) = section.passes else {
        return html! {};
    };
    let along = passes::along_longest_side(ring, asked.spacing_m);
    let across = along
        .as_ref()
        .filter(|_| asked.crosswise)
        .and_then(|a| passes::at_bearing(ring, asked.spacing_m, a.bearing_deg + 90.0));
    let d = |walked: &passes::Walked| {
        let mut d = String::new();
        for (p, q) in &walked.lines {
            let ((x1, y1), (x2, y2)) = (view.at(*p), view.at(*q));
            let _ = write!(d, "M{x1} {y1}L{x2} {y2}");
        }
        d
    };
    html! {
        @if let Some(along) = &along { path.sk-pass d=(d(along)) stroke-width="1" {} }
        @if let Some(across) = &across { path.sk-pass d=(d(across)) stroke-width="1" stroke-dasharray="5 3" {} }
        // Where to begin.
        @if let Some((start, _)) = along.as_ref().and_then(|a| a.lines.first()) {
            @let (x, y) = view.at(*start);
            circle.sk-start cx=(x) cy=(y) r="4" fill="currentColor" {}
        }
    }
}

fn sign(kind: &str, at: Point, view: &View) -> Markup {
    let (x, y) = view.at(at);
    html! {
        g.sk-mark transform=(format!("translate({x} {y})")) {
            circle.sk-plate r="12" fill="#ffffff" stroke-width="1" {}
            path d=(symbol::lines(kind)) {}
        }
    }
}

fn mark_words(kind: &str, at: Point, view: &View, plates: &mut Plates, words: Words) -> Markup {
    let word = kind_words(kind, words);
    let (x, y) = view.at(at);
    let half = width_of(&word) / 2.0;
    // Beneath, above, right, left: the first place that is free; else the sign stands alone, and
    // the list names it.
    let places = [
        (x, y + 22.0),
        (x, y - 22.0),
        (x + 14.0 + half, y),
        (x - 14.0 - half, y),
    ];
    let free = places.into_iter().find(|(cx, cy)| {
        plates.is_free((cx - half, cy - LETTERS * 0.6, cx + half, cy + LETTERS * 0.6))
    });
    if let Some((cx, cy)) = free {
        plates.rows(&[word], cx, cy)
    } else {
        html! {}
    }
}

fn north(view: &View, words: Words) -> Markup {
    let deg = view.turned_deg(0.0);
    let letter = words.t("sketch-north-letter");
    let x = WIDTH - 28.0;
    html! {
        g transform=(format!("translate({x} {}) rotate({deg:.0})", ABOVE / 2.0)) {
            path.sk-north d="M0 -18 L7 14 L0 8 L-7 14 Z" fill="currentColor" {}
        }
        (text(&letter, x - 18.0, ABOVE / 2.0 + 5.0, "middle"))
    }
}

fn scale_bar(view: &View, words: Words) -> Markup {
    let (metres, long) = view.scale_bar(words.units);
    let y = view.height - BELOW / 2.0;
    let right = MARGIN + long;
    html! {
        path d=(format!("M{MARGIN} {:.1}V{:.1}H{right:.1}V{:.1}", y - 5.0, y + 5.0, y - 5.0)) stroke-width="2" {}
        (text(&length_words(words, metres), right + 8.0, y + 6.0, "start"))
    }
}

#[cfg(test)]
mod tests;
