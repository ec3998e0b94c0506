//! The sketch in words: what the drawing's description says, and the list beneath it.
//!
//! Both say the same as the drawing, for whoever does not see it.

use super::lay_out::LaidOut;
use super::shape::Assumed;
use super::{Lee, Sketch, SketchMark, SketchSection, length_words, passes};
use crate::part::amounts;
use crate::words::Words;

/// Everything on a sketch, a line a thing.
pub(super) fn lines(sketch: &Sketch, laid: &[Option<LaidOut>], words: Words) -> Vec<String> {
    let mut lines: Vec<String> = sketch
        .sections
        .iter()
        .zip(laid)
        .zip(1..)
        .map(|((section, laid), number)| section_line(number, section, laid.as_ref(), words))
        .collect();
    lines.extend(sketch.marks.iter().map(|mark| mark_line(mark, words)));
    lines.extend(wind_lines(sketch, words));
    lines
}

fn section_line(
    number: i64,
    section: &SketchSection,
    laid: Option<&LaidOut>,
    words: Words,
) -> String {
    let area = section.outline.as_ref().and_then(|o| o.area().ok());
    let area = area.map_or_else(
        || words.t("sketch-not-measured"),
        |a| amounts::area(words, &a.value),
    );
    let mut parts = vec![words.t_with(
        "sketch-section",
        &[
            ("number", number.into()),
            ("name", section.name.clone().into()),
            ("area", area.into()),
        ],
    )];
    for keep_off in &section.keep_offs {
        parts.push(keep_off.until.clone());
    }
    if let Some(laid) = laid {
        if !laid.place_known {
            parts.push(words.t("sketch-not-placed"));
        }
        if let Some(assumed) = laid.assumed {
            parts.push(words.t(assumed_key(assumed)));
        }
        let unknown = laid.left_out.iter().filter(|l| !l.place_known).count();
        if unknown > 0 {
            let count = i64::try_from(unknown).unwrap_or(i64::MAX);
            parts.push(words.t_with("sketch-left-out-unplaced", &[("n", count.into())]));
        }
        let placed = laid.left_out.len() - unknown;
        if placed > 0 {
            let count = i64::try_from(placed).unwrap_or(i64::MAX);
            parts.push(words.t_with("sketch-left-out-placed", &[("n", count.into())]));
        }
        parts.extend(pass_words(section, laid, words));
    }
    parts.join(" · ")
}

fn assumed_key(assumed: Assumed) -> &'static str {
    match assumed {
        Assumed::TipOverMiddle => "sketch-assumed-tip",
        Assumed::SidesCentred => "sketch-assumed-sides",
        Assumed::BaseStraight => "sketch-assumed-base",
        Assumed::ThroughRadii => "sketch-assumed-radii",
    }
}

fn pass_words(section: &SketchSection, laid: &LaidOut, words: Words) -> Option<String> {
    let asked = section.passes?;
    let along = passes::along_longest_side(&laid.ring, asked.spacing_m)?;
    let said = |key: &str, count: usize| {
        let spacing = length_words(words, asked.spacing_m);
        let count = i64::try_from(count).unwrap_or(i64::MAX);
        words.t_with(key, &[("n", count.into()), ("spacing", spacing.into())])
    };
    if along.count > passes::LINES_MOST {
        return Some(said("sketch-lines-too-many", along.count));
    }
    if !asked.crosswise {
        return Some(said("sketch-lines", along.count));
    }
    let across = passes::at_bearing(&laid.ring, asked.spacing_m, along.bearing_deg + 90.0)?;
    Some(format!(
        "{} {}",
        said("sketch-lines", along.count),
        said("sketch-lines-across", across.count)
    ))
}

/// The word for a kind of mark.
pub(crate) fn kind_words(kind: &str, words: Words) -> String {
    // words: sketch-mark-*
    let key = format!("sketch-mark-{}", kind.replace('_', "-"));
    if words.has(&key) {
        words.t(&key)
    } else {
        words.t("sketch-mark-unknown")
    }
}

fn named(mark: &SketchMark, words: Words) -> String {
    let kind = kind_words(&mark.kind, words);
    if mark.name.trim().is_empty() {
        kind
    } else {
        format!("{kind}: {}", mark.name)
    }
}

fn mark_line(mark: &SketchMark, words: Words) -> String {
    let place = match mark.at {
        None => words.t("sketch-place-unknown"),
        Some(at) => {
            let side = |metres: f64, more: &str, less: &str| {
                let key = if metres < 0.0 { less } else { more };
                words.t_with(key, &[("length", length_words(words, metres.abs()).into())])
            };
            format!(
                "{}, {}",
                side(at.east_m, "sketch-east", "sketch-west"),
                side(at.north_m, "sketch-north", "sketch-south")
            )
        }
    };
    format!("{} · {place}", named(mark, words))
}

fn wind_lines(sketch: &Sketch, words: Words) -> Vec<String> {
    let (Some(wind), Some(lees)) = (&sketch.wind, sketch.lees()) else {
        return Vec::new();
    };
    let from = compass(wind.from_deg, words);
    let mut lines = vec![words.t_with(
        "sketch-wind",
        &[("from", from.into()), ("mean", wind.mean.clone().into())],
    )];
    for (mark, lee) in lees {
        let name = named(mark, words);
        match lee {
            Lee::DownWind { distance_m } if distance_m > 0.0 => {
                let distance = length_words(words, distance_m);
                lines.push(words.t_with(
                    "sketch-down-wind",
                    &[("name", name.into()), ("distance", distance.into())],
                ));
            }
            Lee::DownWind { .. } => {
                lines.push(words.t_with("sketch-down-wind-on-it", &[("name", name.into())]));
            }
            Lee::NotKnown => {
                lines.push(words.t_with("sketch-down-wind-unknown", &[("name", name.into())]));
            }
            Lee::Aside => {}
        }
    }
    lines
}

/// One of eight directions in words.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "0 to 7 after the modulus"
)]
pub(super) fn compass(deg: f64, words: Words) -> String {
    const KEYS: [&str; 8] = [
        "sketch-from-n",
        "sketch-from-ne",
        "sketch-from-e",
        "sketch-from-se",
        "sketch-from-s",
        "sketch-from-sw",
        "sketch-from-w",
        "sketch-from-nw",
    ];
    let eighth = (deg / 45.0).round().rem_euclid(8.0);
    words.t(KEYS[if eighth.is_finite() {
        eighth as usize
    } else {
        0
    }])
}
