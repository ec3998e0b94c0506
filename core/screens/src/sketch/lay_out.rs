//! Where everything lies on the sketch: sections where they were placed, walked or drawn, the
//! others side by side, what is left out where that is known.
//!
//! How it looks is the drawing's matter.

use sward_rules::measure::{Fix, Outline, Shape};

use super::plane::{Bounds, Point, Ring, middle};
use super::shape::{Assumed, drawn, first_fix, is_drawn, metres_from};
use super::{Place, SketchSection};

/// Between sections that are laid out side by side, in metres.
const GAP_M: f64 = 3.0;

/// The farthest apart that two walks of one yard begin, in metres.
const APART_MOST_M: f64 = 2_000.0;

/// A section on the sketch.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct LaidOut {
    /// Its edge.
    pub(crate) ring: Ring,
    /// What had to be assumed to draw it.
    pub(crate) assumed: Option<Assumed>,
    /// Whether its place on the sketch is known.
    pub(crate) place_known: bool,
    /// What is left out of it.
    pub(crate) left_out: Vec<LeftOut>,
    /// The outlines of its keep-offs, in their order; none for one that cannot be drawn.
    pub(crate) keep_offs: Vec<Option<Ring>>,
}

/// Something left out of a section.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct LeftOut {
    /// Its edge.
    pub(crate) ring: Ring,
    /// Whether its place in the section is known; else it is drawn in the middle.
    pub(crate) place_known: bool,
}

/// Lays sections out, in their order; none for one that cannot be drawn.
pub(crate) fn lay_out(
    sections: &[SketchSection],
    anything_else_placed: bool,
) -> Vec<Option<LaidOut>> {
    let local: Vec<Option<Local>> = sections.iter().map(Local::of).collect();
    let walk = reference_walk(sections, &local, anything_else_placed);
    let mut frames: Vec<Option<Place>> = local
        .iter()
        .zip(sections)
        .map(|(local, section)| known_place(local.as_ref()?, section, walk))
        .collect();
    let known: Vec<bool> = frames.iter().map(Option::is_some).collect();
    let placed = local
        .iter()
        .zip(&frames)
        .filter_map(|(l, f)| Some(put(&l.as_ref()?.ring, (*f)?)));
    let bounds = Bounds::of(placed.flatten());
    let mut east_m = bounds.map_or(0.0, |b| b.most.east_m + GAP_M);
    let south_m = bounds.map_or(0.0, |b| b.least.north_m);
    for (local, frame) in local.iter().zip(&mut frames) {
        let (Some(local), None) = (local, frame.as_ref()) else {
            continue;
        };
        if let Some(own) = Bounds::of(local.ring.iter().copied()) {
            let at = Point::new(east_m, south_m).from(own.least);
            *frame = Some(Place { at, turn_deg: 0.0 });
            east_m += own.width_m() + GAP_M;
        }
    }
    local
        .into_iter()
        .zip(sections)
        .zip(frames.into_iter().zip(known))
        .map(|((local, section), (frame, known))| Some(local?.laid_out(section, frame?, known)))
        .collect()
}

/// A section by itself, its first corner at the origin.
struct Local {
    ring: Ring,
    assumed: Option<Assumed>,
    outline: Outline,
}

impl Local {
    /// Of a section with an outline; of one without, of its keep-off: hiding a section, or an
    /// outline that did not arrive, hides no keep-off.
    fn of(section: &SketchSection) -> Option<Self> {
        let outlines = section
            .outline
            .iter()
            .chain(section.keep_offs.iter().map(|k| &k.outline));
        outlines.into_iter().find_map(|outline| {
            let drawn = drawn(&outline.shape)?;
            Some(Self {
                ring: drawn.ring,
                assumed: drawn.assumed,
                outline: outline.clone(),
            })
        })
    }

    fn laid_out(self, section: &SketchSection, frame: Place, place_known: bool) -> LaidOut {
        let keep_offs = section
            .keep_offs
            .iter()
            .map(|keep_off| {
                let ring = drawn(&keep_off.outline.shape)?.ring;
                let shift = apart(&self.outline.shape, &keep_off.outline.shape);
                Some(put(&shifted(ring, shift.unwrap_or_default()), frame))
            })
            .collect();
        LaidOut {
            left_out: left_out(&self.outline, &self.ring, frame),
            ring: put(&self.ring, frame),
            assumed: self.assumed,
            place_known,
            keep_offs,
        }
    }
}

/// How far one walk begins from another; none where either is no walk.
fn apart(of: &Shape, other: &Shape) -> Option<Point> {
    Some(metres_from(first_fix(of)?, first_fix(other)?))
}

fn left_out(outline: &Outline, ring: &Ring, frame: Place) -> Vec<LeftOut> {
    let rings: Vec<(Ring, bool)> = outline
        .left_out
        .iter()
        .filter_map(|shape| {
            let ring = drawn(shape)?.ring;
            let both_drawn = is_drawn(&outline.shape) && is_drawn(shape);
            Some(match apart(&outline.shape, shape) {
                Some(shift) => (shifted(ring, shift), true),
                None => (ring, both_drawn),
            })
        })
        .collect();
    // Those of unknown place stand in a row about the middle.
    let width = |ring: &Ring| Bounds::of(ring.iter().copied()).map_or(0.0, |b| b.width_m());
    let row_m: f64 = rings
        .iter()
        .filter(|(_, known)| !known)
        .map(|(r, _)| width(r))
        .sum();
    let middle = middle(ring).unwrap_or_default();
    let mut east_m = middle.east_m - row_m / 2.0;
    rings
        .into_iter()
        .map(|(ring, place_known)| {
            let ring = match Bounds::of(ring.iter().copied()).filter(|_| !place_known) {
                Some(own) => {
                    let at = Point::new(east_m, middle.north_m - own.height_m() / 2.0);
                    east_m += own.width_m();
                    shifted(ring, at.from(own.least))
                }
                None => ring,
            };
            LeftOut {
                ring: put(&ring, frame),
                place_known,
            }
        })
        .collect()
}

/// The walk from which the places of the other walks follow, and where it lies: one that was
/// placed, or, as long as nothing else was, the first.
fn reference_walk(
    sections: &[SketchSection],
    local: &[Option<Local>],
    anything_else_placed: bool,
) -> Option<(Fix, Place)> {
    let shapes = || local.iter().flatten().map(|l| &l.outline.shape);
    let walks = || {
        local.iter().zip(sections).filter_map(|(local, section)| {
            Some((*first_fix(&local.as_ref()?.outline.shape)?, section.place))
        })
    };
    if let Some(found) = walks().find_map(|(fix, place)| Some((fix, place?))) {
        return Some(found);
    }
    let alone = !anything_else_placed
        && sections.iter().all(|s| s.place.is_none())
        && !shapes().any(is_drawn);
    walks()
        .next()
        .filter(|_| alone)
        .map(|(fix, _)| (fix, Place::default()))
}

fn known_place(
    local: &Local,
    section: &SketchSection,
    walk: Option<(Fix, Place)>,
) -> Option<Place> {
    if let Some(place) = section.place {
        return Some(place);
    }
    if is_drawn(&local.outline.shape) {
        return Some(Place::default());
    }
    let (from, place) = walk?;
    let shift = metres_from(&from, first_fix(&local.outline.shape)?);
    // Farther than any yard reaches: one of the walks is of another place.
    (shift.distance_m(Point::default()) <= APART_MOST_M).then(|| Place {
        at: place.at.moved(shift.turned(place.turn_deg)),
        turn_deg: place.turn_deg,
    })
}

/// A ring by itself, put where its section lies.
fn put(ring: &Ring, frame: Place) -> Ring {
    ring.iter()
        .map(|p| p.turned(frame.turn_deg).moved(frame.at))
        .collect()
}

fn shifted(ring: Ring, by: Point) -> Ring {
    ring.into_iter().map(|p| p.moved(by)).collect()
}

#[cfg(test)]
mod tests {
    use super::super::plane::holds;
    use super::super::testing::{ft, section};
    use super::*;

    fn rectangle(length: &str, width: &str) -> Shape {
        Shape::Rectangle {
            length: ft(length),
            width: ft(width),
        }
    }

    fn walk_at(north_deg: f64, east_deg: f64) -> Shape {
        let at =
            |n: f64, e: f64| Fix::from_degrees(40.0 + north_deg + n, -75.0 + east_deg + e).unwrap();
        Shape::Walk {
            fixes: vec![at(0.0, 0.0), at(0.0, 1e-4), at(1e-4, 1e-4), at(1e-4, 0.0)],
        }
    }

    fn corner(laid: &[Option<LaidOut>], n: usize) -> Point {
        laid[n].as_ref().unwrap().ring[0]
    }

    #[test]
    fn what_has_no_place_stands_beside_what_has_one() {
        let mut placed = section("Front", rectangle("60 ft", "25 ft"));
        placed.place = Some(Place {
            at: Point::new(5.0, 7.0),
            turn_deg: 90.0,
        });
        let loose = section("Side", rectangle("20 ft", "10 ft"));
        let laid = lay_out(&[loose, placed], false);
        let known: Vec<bool> = laid
            .iter()
            .map(|l| l.as_ref().unwrap().place_known)
            .collect();
        assert_eq!(known, [false, true]);
        assert_eq!(corner(&laid, 1), Point::new(5.0, 7.0));
        // Turned a quarter clockwise about its first corner: its length runs south.
        let ring = &laid[1].as_ref().unwrap().ring;
        assert!((ring[1].east_m - 5.0).abs() < 1e-9 && ring[1].north_m < 7.0);
        let most_east = ring.iter().map(|p| p.east_m).fold(f64::MIN, f64::max);
        assert!((corner(&laid, 0).east_m - (most_east + GAP_M)).abs() < 1e-9);
    }

    #[test]
    fn walks_lie_as_they_lay() {
        let sections = [
            section("Front", walk_at(0.0, 0.0)),
            section("Back", walk_at(5e-4, 0.0)),
            section("Elsewhere", walk_at(1.0, 0.0)),
        ];
        let laid = lay_out(&sections, false);
        let known: Vec<bool> = laid
            .iter()
            .map(|l| l.as_ref().unwrap().place_known)
            .collect();
        assert_eq!(known, [true, true, false]);
        // 0.0005 degrees of latitude on WGS84 at 40 degrees north: 111,035 m a degree.
        let way = corner(&laid, 1).from(corner(&laid, 0));
        assert!(
            (way.north_m - 55.52).abs() < 0.05 && way.east_m.abs() < 1e-9,
            "{way:?}"
        );
        let beside_marks = lay_out(&sections, true);
        assert!(!beside_marks[0].as_ref().unwrap().place_known);
    }

    #[test]
    fn a_bed_of_unknown_place_stands_in_the_middle_and_says_so() {
        let mut lawn = section("Front", rectangle("60 ft", "25 ft"));
        if let Some(outline) = &mut lawn.outline {
            outline.left_out = vec![rectangle("6 ft", "5 ft"), rectangle("3 ft", "3 ft")];
        }
        let laid = lay_out(&[lawn], false);
        let lawn = laid[0].as_ref().unwrap();
        assert_eq!(lawn.left_out.len(), 2);
        for bed in &lawn.left_out {
            assert!(!bed.place_known);
            assert!(bed.ring.iter().all(|p| holds(&lawn.ring, *p)));
        }
    }

    #[test]
    fn a_section_without_an_outline_still_shows_its_keep_off() {
        let mut lawn = section("Front", rectangle("60 ft", "25 ft"));
        lawn.outline = None;
        assert_eq!(lay_out(&[lawn.clone()], false), [None]);
        let outline = Outline {
            shape: rectangle("60 ft", "25 ft"),
            left_out: vec![],
        };
        lawn.keep_offs = vec![super::super::KeepOffDrawn {
            outline,
            until: "until 3".into(),
        }];
        let laid = lay_out(&[lawn], false);
        let lawn = laid[0].as_ref().unwrap();
        assert_eq!(lawn.keep_offs[0].as_ref(), Some(&lawn.ring));
    }
}
