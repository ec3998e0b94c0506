//! What lies around the sections to be treated, as the rules ask for it: each mark with the
//! directions in which it lies.
//!
//! Which of it the wind may reach is theirs to say.

use sward_book::ids::ItemId;
use sward_book::sheet::YardSheet;
use sward_rules::sky::{Nearby, Sector};

use super::from_yard::{mark_point, section};
use super::lay_out::lay_out;
use super::plane::{Point, Ring, holds, nearest_on_edge, sides};

/// What is marked around some sections of a yard; around all of them where none is named. A mark
/// lies in the directions from every place on their edges to it; in none that anybody knows while
/// it, or one of the sections, has no place on the sketch, or a named section is not shown there.
pub fn around(yard: &YardSheet, sections: &[ItemId]) -> Vec<Nearby> {
    let shown_sections = || yard.sections.iter().filter(|s| !s.hidden);
    let drawn: Vec<_> = shown_sections()
        .filter(|s| sections.is_empty() || sections.contains(&s.id))
        .map(section)
        .collect();
    let all_shown = sections
        .iter()
        .all(|named| shown_sections().any(|s| s.id == *named));
    let shown = || yard.marks.iter().filter(|m| !m.hidden);
    let marks_placed = shown().any(|m| mark_point(m).is_some());
    let rings: Option<Vec<Ring>> = lay_out(&drawn, marks_placed)
        .into_iter()
        .map(|laid| laid.filter(|l| l.place_known).map(|l| l.ring))
        .collect();
    let rings = rings.filter(|_| all_shown);
    shown()
        .filter_map(|mark| mark.nearby(lies(rings.as_deref(), mark_point(mark))))
        .collect()
}

/// The directions in which a point lies from rings: from every place on every side.
fn lies(rings: Option<&[Ring]>, point: Option<Point>) -> Option<Sector> {
    let (rings, point) = (rings?, point?);
    let mut swept = Vec::new();
    for ring in rings {
        let (distance_m, _) = nearest_on_edge(ring, point)?;
        if holds(ring, point) || distance_m < 1e-9 {
            // On the lawn every wind reaches it.
            return Sector::new(0, 360).ok();
        }
        swept.extend(sides(ring).map(|(p, q)| Swept::along(p, q, point)));
    }
    smallest_sector(swept)
}

/// The directions in which a point lies from one side, clockwise.
#[derive(Clone, Copy)]
struct Swept {
    /// From 0 to below 360 degrees.
    from_deg: f64,
    /// Less than half a circle.
    wide_deg: f64,
}

impl Swept {
    fn along(p: Point, q: Point, point: Point) -> Self {
        let (from_p, from_q) = (p.bearing_deg(point), q.bearing_deg(point));
        let clockwise = (from_q - from_p).rem_euclid(360.0);
        // Seen from a point beside it, a straight side is less than half a circle wide.
        if clockwise <= 180.0 {
            Self {
                from_deg: from_p,
                wide_deg: clockwise,
            }
        } else {
            Self {
                from_deg: from_q,
                wide_deg: 360.0 - clockwise,
            }
        }
    }
}

/// The smallest sector that holds every direction, widened to whole degrees.
fn smallest_sector(mut swept: Vec<Swept>) -> Option<Sector> {
    swept.sort_by(|a, b| a.from_deg.total_cmp(&b.from_deg));
    let first_deg = swept.first()?.from_deg;
    // The widest stretch without a direction is what the sector leaves out.
    let mut widest = (0.0, first_deg, first_deg);
    let mut reached_deg = first_deg;
    let round_again = swept.first().map(|first| Swept {
        from_deg: first.from_deg + 360.0,
        ..*first
    });
    for one in swept.iter().copied().chain(round_again) {
        if one.from_deg - reached_deg > widest.0 {
            widest = (one.from_deg - reached_deg, reached_deg, one.from_deg);
        }
        reached_deg = reached_deg.max(one.from_deg + one.wide_deg);
    }
    let (_, to, from) = widest;
    // Whole degrees may close a narrow stretch: then nothing is left out.
    if from.floor() <= to.ceil() {
        return Sector::new(0, 360).ok();
    }
    let turned = |degrees: f64| whole(degrees.rem_euclid(360.0));
    Sector::new(turned(from.floor())?, turned(to.ceil())?).ok()
}

fn whole(degrees: f64) -> Option<u16> {
    format!("{degrees:.0}").parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::Scene;

    fn ring(corners: &[(f64, f64)]) -> Ring {
        corners.iter().map(|&(e, n)| Point::new(e, n)).collect()
    }

    fn lawn() -> Ring {
        ring(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)])
    }

    // Worked by hand.
    #[test]
    fn a_mark_lies_in_the_directions_from_every_corner() {
        let east = lies(Some(&[lawn()]), Some(Point::new(20.0, 5.0))).unwrap();
        // From the near corners 90 -+ 26.57 degrees: 63.43 to 116.57.
        assert_eq!(east, Sector::new(63, 117).unwrap());
        assert!(east.is_down_wind(270) && !east.is_down_wind(90));
        let north = lies(Some(&[lawn()]), Some(Point::new(5.0, 20.0))).unwrap();
        assert_eq!(north, Sector::new(333, 27).unwrap());
        assert!(north.is_down_wind(180));
        let beside = lawn()
            .iter()
            .map(|p| p.moved(Point::new(30.0, 0.0)))
            .collect();
        let between = lies(Some(&[lawn(), beside]), Some(Point::new(20.0, 5.0))).unwrap();
        assert!(between.is_down_wind(270) && between.is_down_wind(90));
    }

    // A C open to the east, with a tongue of lawn that ends a metre from the mark: no corner, and
    // not the nearest place of the edge either, tells of the wall in the west.
    #[test]
    fn in_the_mouth_of_a_lawn_only_the_opening_is_free_of_it() {
        let c = ring(&[
            (0.0, 0.0),
            (20.0, 0.0),
            (20.0, 2.0),
            (2.0, 2.0),
            (2.0, 38.0),
            (8.0, 38.0),
            (8.0, 21.0),
            (9.0, 21.0),
            (9.0, 38.0),
            (20.0, 38.0),
            (20.0, 40.0),
            (0.0, 40.0),
        ]);
        let lies = lies(Some(&[c]), Some(Point::new(8.5, 20.0))).unwrap();
        assert!(lies.is_down_wind(270), "from the wall it lies to the east");
        // From the corners of the opening 327.43 and 212.57 degrees.
        assert_eq!(lies, Sector::new(327, 213).unwrap());
    }

    #[test]
    fn what_is_widened_to_whole_degrees_never_closes_to_almost_nothing() {
        let side = |from_deg, wide_deg| Swept { from_deg, wide_deg };
        let around = [side(10.6, 170.0), side(170.0, 170.0), side(340.0, 30.2)];
        let sector = smallest_sector(around.to_vec()).unwrap();
        assert_eq!(sector, Sector::new(0, 360).unwrap());
        let north = smallest_sector(vec![side(0.4, 0.0), side(359.5, 0.0)]).unwrap();
        assert_eq!(north, Sector::new(359, 1).unwrap());
        let edge = smallest_sector(vec![side(355.0, 4.5)]).unwrap();
        assert_eq!(edge, Sector::new(355, 0).unwrap());
    }

    #[test]
    fn a_section_that_is_hidden_or_has_not_arrived_is_nowhere_that_anybody_knows() {
        use sward_book::sheet::SheetKind::Yard;
        use sward_rules::Entered;
        use sward_rules::measure::{Outline, Shape};
        let (scene, (yard, [front, back])) = Scene::new(|book| {
            let yard = book.add_yard("Corner", "", "UTC")?;
            let side = Entered::parse("10 m")?;
            let shape = Shape::Rectangle {
                length: side,
                width: side,
            };
            let left_out = Vec::new();
            let outline = Outline { shape, left_out };
            let mut sections = Vec::new();
            for (name, east) in [("front", "0 m"), ("back", "-40 m")] {
                let id = book.add_section(yard, name, &outline)?;
                let place = [("east", east), ("north", "0 m")];
                book.set_item(yard, Yard, "sections", id, &place)?;
                sections.push(id);
            }
            let mark = [("kind", "hive"), ("east", "20 m"), ("north", "5 m")];
            book.add_item(yard, Yard, "marks", &mark)?;
            Ok((yard, [sections[0], sections[1]]))
        });
        let lies = |sections: &[ItemId]| {
            let sheet = scene.book(|book| book.yard_sheet(yard));
            let [hive] = <[Nearby; 1]>::try_from(around(&sheet, sections)).unwrap();
            hive.lies
        };
        assert!(lies(&[front]).unwrap().is_down_wind(270));
        assert!(lies(&[front, back]).is_some() && lies(&[]).is_some());
        let not_arrived = ItemId(uuid::Uuid::nil());
        assert_eq!(lies(&[front, not_arrived]), None);
        scene.book(|book| book.hide_item(yard, Yard, "sections", back, true));
        assert_eq!(lies(&[front, back]), None);
        assert!(lies(&[]).is_some(), "it is not among those that are shown");
    }

    #[test]
    fn on_the_lawn_every_wind_reaches_it_and_without_a_place_nobody_knows() {
        let on_it = lies(Some(&[lawn()]), Some(Point::new(5.0, 5.0))).unwrap();
        assert!(
            [0, 90, 180, 270]
                .iter()
                .all(|from| on_it.is_down_wind(*from))
        );
        assert_eq!(lies(Some(&[lawn()]), None), None);
        assert_eq!(lies(None, Some(Point::new(5.0, 5.0))), None);
        assert_eq!(lies(Some(&[]), Some(Point::new(5.0, 5.0))), None);
    }
}
