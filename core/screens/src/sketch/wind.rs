//! What lies down wind of the sections that are treated.
//!
//! Whether that wind lets anyone treat at all is for the rules; here is only the geometry.

use sward_rules::sky::{HALF_ANGLE_DEG, apart_deg};

use super::plane::{Point, Ring, holds, nearest_on_edge};

/// Where something lies when the wind blows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Lee {
    /// Down wind, so many metres from the edge; zero for what lies on the section itself.
    DownWind {
        /// Metres from the edge.
        distance_m: f64,
    },
    /// Not down wind.
    Aside,
    /// Its place, or that of the section, was not measured: it counts as down wind.
    NotKnown,
}

/// Where a point lies when the wind comes from a direction: down wind where that is so from any
/// corner of the section or from the nearest place of its edge.
pub(crate) fn lee(from_deg: f64, ring: Option<&Ring>, point: Option<Point>) -> Lee {
    let (Some(ring), Some(point)) = (ring, point) else {
        return Lee::NotKnown;
    };
    let Some((distance_m, foot)) = nearest_on_edge(ring, point).filter(|_| from_deg.is_finite())
    else {
        return Lee::NotKnown;
    };
    if holds(ring, point) || distance_m < 1e-9 {
        return Lee::DownWind { distance_m: 0.0 };
    }
    let blows_deg = from_deg + 180.0;
    let down_wind = ring.iter().copied().chain([foot]).any(|corner| {
        corner.distance_m(point) < 1e-9
            || apart_deg(corner.bearing_deg(point), blows_deg) <= HALF_ANGLE_DEG
    });
    if down_wind {
        Lee::DownWind { distance_m }
    } else {
        Lee::Aside
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn lawn() -> Ring {
        [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
            .into_iter()
            .map(|(e, n)| Point::new(e, n))
            .collect()
    }

    fn at(from_deg: f64, east_m: f64, north_m: f64) -> Lee {
        lee(from_deg, Some(&lawn()), Some(Point::new(east_m, north_m)))
    }

    // Worked by hand: a west wind (270) blows to the east.
    #[test]
    fn a_west_wind_blows_to_the_east() {
        assert_eq!(at(270.0, 25.0, 5.0), Lee::DownWind { distance_m: 15.0 });
        assert_eq!(at(270.0, -15.0, 5.0), Lee::Aside);
        assert_eq!(at(270.0, 5.0, 40.0), Lee::Aside);
        // North-east of the far corner, just within 45 degrees.
        assert!(matches!(at(270.0, 20.0, 19.9), Lee::DownWind { .. }));
        assert_eq!(at(270.0, 10.0, 20.5), Lee::Aside);
    }

    #[test]
    fn directions_go_round_north() {
        // Wind from 350 blows to 170; something due south is 10 degrees off.
        assert!(matches!(at(350.0, 5.0, -10.0), Lee::DownWind { .. }));
        assert!(matches!(at(10.0, 5.0, -10.0), Lee::DownWind { .. }));
        assert_eq!(at(180.0, 5.0, -10.0), Lee::Aside);
    }

    #[test]
    fn on_the_lawn_every_wind_reaches_it() {
        for from in [0.0, 90.0, 215.0] {
            assert_eq!(at(from, 5.0, 5.0), Lee::DownWind { distance_m: 0.0 });
        }
    }

    #[test]
    fn what_was_not_measured_is_not_known() {
        assert_eq!(lee(270.0, Some(&lawn()), None), Lee::NotKnown);
        assert_eq!(lee(270.0, None, Some(Point::new(25.0, 5.0))), Lee::NotKnown);
        assert_eq!(
            lee(f64::NAN, Some(&lawn()), Some(Point::new(25.0, 5.0))),
            Lee::NotKnown
        );
    }

    proptest! {
        #[test]
        fn a_full_turn_changes_nothing_and_no_wind_misses_all_sides(
            from in 0.0..360.0_f64, east in -60.0..60.0_f64, north in -60.0..60.0_f64,
        ) {
            prop_assert_eq!(at(from, east, north), at(from + 360.0, east, north));
            let winds = [from, from + 90.0, from + 180.0, from + 270.0];
            let reached = winds.iter().any(|w| matches!(at(*w, east, north), Lee::DownWind { .. }));
            prop_assert!(reached);
        }
    }
}
