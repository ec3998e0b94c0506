//! Dropping the bad fixes of a walk, each by name.
//!
//! The limits are stated constants; what is dropped and why goes back to the person.

use std::collections::BTreeSet;
use std::fmt;

use geo::Coord;
use serde::Serialize;

use super::crossing::segments_meet;
use super::geodesic::{distance_m, local_plane};
use super::{FIXES_MOST, Fix};

/// A fix less accurate than this, in metres, is dropped (common practice, no source).
pub const FIX_ACCURACY_MOST_M: f64 = 20.0;

/// Faster than this between two fixes, in metres a second, nobody walks or runs round a lawn
/// (common practice, no source).
pub const SPEED_MOST_M_PER_S: f64 = 7.0;

/// Fixes nearer than this to the one before, in metres, add nothing to an outline.
pub const STEP_LEAST_M: f64 = 0.5;

/// A loop in the walk shorter than this, in metres, is the receiver's wandering, not an edge.
pub const LOOP_MOST_M: f64 = 10.0;

const PAUSE_RADIUS_M: f64 = 2.0;
const PAUSE_LEAST_MS: i64 = 10_000;
/// How many fixes are held against one: more bad ones in a row split the walk, and a longer pause
/// is thinned to several fixes.
const WINDOW: usize = 120;

/// A fix that was not used.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DroppedFix {
    /// Its number in the file, the first being 1.
    pub number: usize,
    /// Why it was not used.
    #[serde(flatten)]
    pub why: WhyDropped,
}

/// Why a fix was not used. In JSON its name stands under `why`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, strum::VariantNames)]
#[serde(tag = "why", rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum WhyDropped {
    /// The receiver says that it had no position, or wrote 0, 0.
    NoPosition,
    /// Less accurate than [`FIX_ACCURACY_MOST_M`].
    PoorAccuracy {
        /// Its accuracy in millimetres.
        accuracy_mm: u32,
    },
    /// Too far from the others for the time between them, see [`SPEED_MOST_M_PER_S`].
    TooFast,
    /// Taken while standing still.
    StandingStill,
    /// Part of a loop shorter than [`LOOP_MOST_M`].
    SmallLoop,
    /// At the end of the walk, back at its first fix.
    BackAtStart,
}

crate::sentence::names!(WhyDropped);

impl fmt::Display for WhyDropped {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPosition => f.write_str("the receiver had no position"),
            Self::PoorAccuracy { accuracy_mm } => write!(
                f,
                "accuracy {:.1} m, worse than {FIX_ACCURACY_MOST_M} m",
                f64::from(*accuracy_mm) / 1000.0
            ),
            Self::TooFast => write!(f, "a jump faster than {SPEED_MOST_M_PER_S} m/s"),
            Self::StandingStill => f.write_str("taken while standing still"),
            Self::SmallLoop => write!(f, "in a loop shorter than {LOOP_MOST_M} m"),
            Self::BackAtStart => f.write_str("back at the first fix"),
        }
    }
}

/// A fix as read, with its number in the file.
#[derive(Debug, Clone, Copy)]
pub(super) struct Numbered {
    pub(super) number: usize,
    pub(super) has_position: bool,
    pub(super) fix: Fix,
}

/// The fixes to use, and those dropped in the order of the file.
pub(super) fn clean(read: Vec<Numbered>) -> (Vec<Fix>, Vec<DroppedFix>) {
    let mut dropped = Vec::new();
    let mut fixes = drop_by(read, &mut dropped, unusable);
    for (keep, why) in [
        (
            consistent as fn(&[Numbered]) -> Vec<bool>,
            WhyDropped::TooFast,
        ),
        (moving, WhyDropped::StandingStill),
        (before_the_start_again, WhyDropped::BackAtStart),
        (without_small_loops, WhyDropped::SmallLoop),
    ] {
        let kept = keep(&fixes);
        let mut kept = kept.iter();
        fixes = drop_by(fixes, &mut dropped, |_| {
            let keep = *kept.next().expect("one answer a fix");
            (!keep).then(|| why.clone())
        });
    }
    dropped.sort_by_key(|d| d.number);
    (fixes.into_iter().map(|n| n.fix).collect(), dropped)
}

fn drop_by(
    fixes: Vec<Numbered>,
    dropped: &mut Vec<DroppedFix>,
    mut why_not: impl FnMut(&Numbered) -> Option<WhyDropped>,
) -> Vec<Numbered> {
    let mut kept = Vec::with_capacity(fixes.len());
    for fix in fixes {
        match why_not(&fix) {
            Some(why) => dropped.push(DroppedFix {
                number: fix.number,
                why,
            }),
            None => kept.push(fix),
        }
    }
    kept
}

fn unusable(n: &Numbered) -> Option<WhyDropped> {
    if !n.has_position || (n.fix.lat_1e9, n.fix.lon_1e9) == (0, 0) {
        return Some(WhyDropped::NoPosition);
    }
    let accuracy_mm = n.fix.accuracy_mm?;
    (f64::from(accuracy_mm) > FIX_ACCURACY_MOST_M * 1000.0)
        .then_some(WhyDropped::PoorAccuracy { accuracy_mm })
}

/// The largest number of fixes that one person could have walked: the longest chain in which each
/// fix can be reached from the one before. A bad first fix then falls itself instead of all others.
fn consistent(fixes: &[Numbered]) -> Vec<bool> {
    let mut chain: Vec<(usize, Option<usize>)> = Vec::with_capacity(fixes.len());
    for (i, n) in fixes.iter().enumerate() {
        let before = (i.saturating_sub(WINDOW)..i)
            .filter(|&j| walkable(&fixes[j].fix, &n.fix))
            .max_by_key(|&j| (chain[j].0, j));
        chain.push((before.map_or(1, |j| chain[j].0 + 1), before));
    }
    let mut keep = vec![false; fixes.len()];
    let mut at = (0..chain.len()).max_by_key(|&i| (chain[i].0, i));
    while let Some(i) = at {
        keep[i] = true;
        at = chain[i].1;
    }
    keep
}

fn walkable(from: &Fix, to: &Fix) -> bool {
    let (Some(start), Some(end)) = (from.at_unix_ms, to.at_unix_ms) else {
        return true;
    };
    // Clocks of receivers tick in seconds; a time that runs back counts as no time at all.
    let seconds = (end.saturating_sub(start) as f64 / 1000.0).max(1.0);
    distance_m(from, to) <= SPEED_MOST_M_PER_S * seconds
}

/// Thins a pause to its first fix, and steps too short to matter.
fn moving(fixes: &[Numbered]) -> Vec<bool> {
    let mut keep = vec![false; fixes.len()];
    let mut i = 0;
    while i < fixes.len() {
        keep[i] = true;
        let here = &fixes[i].fix;
        let near = |radius_m: f64| {
            fixes[i + 1..]
                .iter()
                .take(WINDOW)
                .take_while(|n| distance_m(here, &n.fix) < radius_m)
                .count()
        };
        let pause = near(PAUSE_RADIUS_M);
        let lasted_ms = match (here.at_unix_ms, fixes[i + pause].fix.at_unix_ms) {
            (Some(start), Some(end)) => end.saturating_sub(start),
            _ => 0,
        };
        i += 1 + if lasted_ms >= PAUSE_LEAST_MS {
            pause
        } else {
            near(STEP_LEAST_M)
        };
    }
    keep
}

fn before_the_start_again(fixes: &[Numbered]) -> Vec<bool> {
    let mut keep = vec![true; fixes.len()];
    for i in (1..fixes.len()).rev() {
        if distance_m(&fixes[0].fix, &fixes[i].fix) >= STEP_LEAST_M {
            break;
        }
        keep[i] = false;
    }
    keep
}

/// Cuts off loops that the receiver wandered, and what was walked on past the start.
fn without_small_loops(fixes: &[Numbered]) -> Vec<bool> {
    // Such a walk is refused as a whole; looking for its loops would only take time.
    if fixes.len() > FIXES_MOST {
        return vec![true; fixes.len()];
    }
    let plane = local_plane(&fixes.iter().map(|n| n.fix).collect::<Vec<_>>());
    let mut ring: Vec<usize> = (0..plane.len()).collect();
    let around_m: f64 = (0..ring.len())
        .map(|i| length(plane[i], plane[(i + 1) % ring.len()]))
        .sum();
    let most_m = LOOP_MOST_M.min(around_m / 4.0);
    let mut i = 0;
    while i < ring.len() {
        match small_loop(&plane, &ring, i, most_m) {
            Some(cut) => {
                let cut: BTreeSet<usize> = cut.into_iter().collect();
                ring.retain(|v| !cut.contains(v));
                // The new side may close a loop with one before it.
                i = i.saturating_sub(24);
            }
            None => i += 1,
        }
    }
    let mut keep = vec![false; plane.len()];
    for v in ring {
        keep[v] = true;
    }
    keep
}

/// The corners between side `i` of the ring and the farthest side within `most_m` along the walk
/// that meets it.
fn small_loop(plane: &[Coord<f64>], ring: &[usize], i: usize, most_m: f64) -> Option<Vec<usize>> {
    let n = ring.len();
    if n < 5 {
        return None;
    }
    let corner = |k: usize| plane[ring[(i + k) % n]];
    let (mut walked_m, mut found) = (0.0, None);
    for k in 2..n - 1 {
        walked_m += length(corner(k - 1), corner(k));
        if walked_m > most_m {
            break;
        }
        if segments_meet((corner(0), corner(1)), (corner(k), corner(k + 1))) {
            found = Some(k);
        }
    }
    found.map(|k| (1..=k).map(|c| ring[(i + c) % n]).collect())
}

fn length(a: Coord<f64>, b: Coord<f64>) -> f64 {
    (b.x - a.x).hypot(b.y - a.y)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Shape;

    /// Fixes a second apart at metres east and north of 40 N, 75 W.
    fn walk(metres: &[(f64, f64)]) -> Vec<Numbered> {
        (1..)
            .zip(metres)
            .map(|(number, &(east, north))| {
                let fix = Fix::from_degrees(40.0 + north / 111_035.0, -75.0 + east / 85_394.0);
                let at_unix_ms = i64::try_from(number)
                    .ok()
                    .map(|n| 1_700_000_000_000 + 1000 * n);
                Numbered {
                    number,
                    has_position: true,
                    fix: Fix {
                        at_unix_ms,
                        ..fix.unwrap()
                    },
                }
            })
            .collect()
    }

    /// Once round a lawn of 40 by 20 m, a step each metre, from its south-west corner.
    fn round() -> Vec<(f64, f64)> {
        let mut metres = Vec::new();
        metres.extend((0..40).map(|i| (f64::from(i), 0.0)));
        metres.extend((0..20).map(|i| (40.0, f64::from(i))));
        metres.extend((0..40).map(|i| (40.0 - f64::from(i), 20.0)));
        metres.extend((0..20).map(|i| (0.0, 20.0 - f64::from(i))));
        metres
    }

    fn why(dropped: &[DroppedFix]) -> Vec<(usize, WhyDropped)> {
        dropped.iter().map(|d| (d.number, d.why.clone())).collect()
    }

    fn square_metres(fixes: Vec<Fix>) -> f64 {
        Shape::Walk { fixes }.area().unwrap().value.square_metres()
    }

    #[test]
    fn a_good_walk_loses_nothing() {
        let (fixes, dropped) = clean(walk(&round()));
        assert_eq!((fixes.len(), dropped.len()), (120, 0));
        assert!((square_metres(fixes) - 800.0).abs() < 0.5);
    }

    #[test]
    fn jumps_fall_even_when_the_first_fix_is_the_bad_one() {
        let mut metres = round();
        metres[0] = (400.0, 300.0);
        metres[57] = (40.0, 90.0);
        let (fixes, dropped) = clean(walk(&metres));
        assert_eq!(
            why(&dropped),
            [(1, WhyDropped::TooFast), (58, WhyDropped::TooFast)]
        );
        assert_eq!(fixes.len(), 118);
    }

    #[test]
    fn a_lasting_offset_costs_one_fix_and_not_the_rest_of_the_walk() {
        let mut metres = round();
        for m in &mut metres[60..] {
            m.1 += 7.5;
        }
        let (_, dropped) = clean(walk(&metres));
        assert_eq!(dropped.len(), 1, "{dropped:?}");
    }

    #[test]
    fn fixes_without_position_or_accuracy_fall() {
        let mut fixes = walk(&round());
        fixes[3].has_position = false;
        fixes[4].fix = Fix {
            lat_1e9: 0,
            lon_1e9: 0,
            ..fixes[4].fix
        };
        fixes[5].fix.accuracy_mm = Some(20_001);
        fixes[6].fix.accuracy_mm = Some(20_000);
        let (_, dropped) = clean(fixes);
        let poor = WhyDropped::PoorAccuracy {
            accuracy_mm: 20_001,
        };
        assert_eq!(
            why(&dropped),
            [
                (4, WhyDropped::NoPosition),
                (5, WhyDropped::NoPosition),
                (6, poor)
            ]
        );
    }

    #[test]
    fn a_pause_is_thinned_to_its_first_fix() {
        let mut metres = round();
        let pause = (0..30).map(|i| (20.0 + f64::from(i % 3) * 0.7, f64::from(i % 2) * 0.8));
        metres.splice(21..21, pause);
        let (fixes, dropped) = clean(walk(&metres));
        assert!(
            dropped.iter().all(|d| d.why == WhyDropped::StandingStill),
            "{dropped:?}"
        );
        assert!((28..=34).contains(&dropped.len()), "{}", dropped.len());
        assert!((square_metres(fixes) - 800.0).abs() < 2.0);
    }

    #[test]
    fn a_small_loop_and_the_way_past_the_start_are_cut_off() {
        let mut metres = round();
        metres.extend([(0.5, 0.0), (1.5, -0.6), (2.5, 0.6), (3.5, 0.6)]);
        metres.splice(
            21..21,
            [(21.5, -1.0), (22.5, 0.5), (21.0, 1.0), (20.5, -0.7)],
        );
        let (fixes, dropped) = clean(walk(&metres));
        assert!(!dropped.is_empty());
        assert!((square_metres(fixes) - 800.0).abs() < 10.0);
    }

    #[test]
    fn a_large_crossing_is_left_for_the_person_to_see() {
        let mut metres = round();
        metres[10..50].reverse();
        let mut fixes = walk(&metres);
        for n in &mut fixes {
            n.fix.at_unix_ms = None;
        }
        let (fixes, _) = clean(fixes);
        assert!(Shape::Walk { fixes }.area().is_err());
    }
}
