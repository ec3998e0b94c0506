//! What lies around the sections to be treated, as the rules ask for it: each mark with the
//! directions in which it lies.
//!
//! Which of it the wind may reach is theirs to say.

use sward_book::ids::ItemId;
use sward_book::sheet::YardSheet;
use sward_rules::sky::{Nearby, Sector};

use super::from_yard::{mark_point, section};
use super::lay_out::lay_out;
use super::plane::{Point, Ring, holds, nearest_on_edge};

/// What is marked around some sections of a yard; around all of them where none is named. A mark
/// lies in the directions from every corner to it; in none that anybody knows while it, or one of
/// the sections, has no place on the sketch.
pub fn around(yard: &YardSheet, sections: &[ItemId]) -> Vec<Nearby> {
    let drawn: Vec<_> = yard
        .sections
        .iter()
        .filter(|s| !s.hidden && (sections.is_empty() || sections.contains(&s.id)))
        .map(section)
        .collect();
    let shown = || yard.marks.iter().filter(|m| !m.hidden);
    let marks_placed = shown().any(|m| mark_point(m).is_some());
    let rings: Option<Vec<Ring>> = lay_out(&drawn, marks_placed)
        .into_iter()
        .map(|laid| laid.filter(|l| l.place_known).map(|l| l.ring))
        .collect();
    shown()
        .filter_map(|mark| mark.nearby(lies(rings.as_deref(), mark_point(mark))))
        .collect()
}

/// The directions in which a point lies from rings: from each corner, and from the nearest place of
/// each edge.
fn lies(rings: Option<&[Ring]>, point: Option<Point>) -> Option<Sector> {
    let (rings, point) = (rings?, point?);
    let mut bearings_deg = Vec::new();
    for ring in rings {
        let (distance_m, foot) = nearest_on_edge(ring, point)?;
        if holds(ring, point) || distance_m < 1e-9 {
            // On the lawn every wind reaches it.
            return Sector::new(0, 360).ok();
        }
        let corners = ring.iter().copied().chain([foot]);
        bearings_deg.extend(corners.map(|corner| corner.bearing_deg(point)));
    }
    smallest_sector(bearings_deg)
}

/// The smallest sector that holds every direction, widened to whole degrees.
fn smallest_sector(mut bearings_deg: Vec<f64>) -> Option<Sector> {
    bearings_deg.sort_by(f64::total_cmp);
    let (first, last) = (*bearings_deg.first()?, *bearings_deg.last()?);
    // The widest stretch without a direction is what the sector leaves out.
    let mut widest = (first + 360.0 - last, last, first);
    for pair in bearings_deg.windows(2) {
        if pair[1] - pair[0] > widest.0 {
            widest = (pair[1] - pair[0], pair[0], pair[1]);
        }
    }
    let (_, to, from) = widest;
    Sector::new(whole(from.floor())?, whole(to.ceil())?).ok()
}

fn whole(degrees: f64) -> Option<u16> {
    format!("{degrees:.0}").parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

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
