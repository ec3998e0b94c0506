//! From metres on the ground to units of the drawing: turned, scaled, with room at the edges.
//!
//! The drawing is 360 units wide, so that a unit is about a pixel on the narrowest screen and
//! words keep a size that can be read.

use super::Orientation;
use super::plane::{Bounds, Point};
use crate::words::Units;

/// Width of every drawing.
pub(super) const WIDTH: f64 = 360.0;
/// Room at the left, the right and between things.
pub(super) const MARGIN: f64 = 14.0;
/// Room above, for the wind and the north arrow.
pub(super) const ABOVE: f64 = 56.0;
/// Room below, for the scale bar.
pub(super) const BELOW: f64 = 40.0;
/// The most height for the ground itself.
const GROUND_HEIGHT_MOST: f64 = 400.0;

/// How a drawing shows the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct View {
    /// The direction on the ground that is up, in degrees from north.
    up_deg: f64,
    /// Units a metre.
    scale: f64,
    /// The drawing's place of the turned ground's south-west corner.
    x0: f64,
    y0: f64,
    /// Height of the drawing.
    pub(super) height: f64,
}

impl View {
    /// A view of points; of a patch of ten metres where there are none.
    pub(super) fn of(points: impl IntoIterator<Item = Point>, orientation: Orientation) -> Self {
        let up_deg = match orientation {
            Orientation::North => 0.0,
            Orientation::Street(bearing_deg) => (bearing_deg + 180.0).rem_euclid(360.0),
        };
        // Turned back by as much as the direction lies from north, so that it points up.
        let bounds = Bounds::of(points.into_iter().map(|p| p.turned(-up_deg))).unwrap_or(Bounds {
            least: Point::default(),
            most: Point::new(10.0, 10.0),
        });
        let (wide_m, high_m) = (bounds.width_m().max(1.0), bounds.height_m().max(1.0));
        let room = WIDTH - 2.0 * MARGIN;
        let scale = (room / wide_m).min(GROUND_HEIGHT_MOST / high_m);
        let ground_height = high_m * scale;
        Self {
            up_deg,
            scale,
            x0: (WIDTH - bounds.width_m() * scale) / 2.0 - bounds.least.east_m * scale,
            y0: ABOVE + ground_height + bounds.least.north_m * scale,
            height: ABOVE + ground_height + BELOW,
        }
    }

    /// Where a point of the ground is drawn, in tenths of a unit.
    pub(super) fn at(&self, point: Point) -> (f64, f64) {
        let turned = point.turned(-self.up_deg);
        let tenth = |v: f64| (v * 10.0).round() / 10.0 + 0.0;
        (
            tenth(self.x0 + turned.east_m * self.scale),
            tenth(self.y0 - turned.north_m * self.scale),
        )
    }

    /// By how much a direction on the ground is turned on the drawing, in degrees clockwise from
    /// up.
    pub(super) fn turned_deg(&self, bearing_deg: f64) -> f64 {
        (bearing_deg - self.up_deg).rem_euclid(360.0)
    }

    /// A round length for the scale bar: its metres, its number in the person's unit, and how long
    /// it is drawn.
    pub(super) fn scale_bar(&self, units: Units) -> (f64, f64) {
        let unit_m = match units {
            Units::Us => 0.3048,
            Units::Metric => 1.0,
        };
        // The largest 1, 2 or 5 times a power of ten that is drawn no longer than this.
        let most = 110.0 / (self.scale * unit_m);
        let power = 10_f64.powf(most.log10().floor());
        let round = [5.0, 2.0, 1.0]
            .into_iter()
            .map(|n| n * power)
            .find(|n| *n <= most)
            .unwrap_or(power);
        (round * unit_m, round * unit_m * self.scale)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lawn() -> [Point; 2] {
        [Point::new(0.0, 0.0), Point::new(20.0, 10.0)]
    }

    #[test]
    fn north_is_up_unless_the_street_is_down() {
        let north = View::of(lawn(), Orientation::North);
        let (south_west, north_east) = (north.at(lawn()[0]), north.at(lawn()[1]));
        assert!(south_west.0 < north_east.0 && south_west.1 > north_east.1);
        assert_eq!(north, View::of(lawn(), Orientation::Street(180.0)));
        // The street lies east: east is down, so north is to the right.
        let street = View::of(lawn(), Orientation::Street(90.0));
        let (a, b) = (street.at(Point::default()), street.at(Point::new(5.0, 0.0)));
        assert!(b.1 > a.1 && (a.0 - b.0).abs() < 0.2);
        let n = street.at(Point::new(0.0, 5.0));
        assert!((street.turned_deg(0.0) - 90.0).abs() < 1e-9);
        assert!(
            n.0 > a.0,
            "seen from the street in the east, north is at the right hand"
        );
    }

    #[test]
    fn everything_lies_on_the_drawing() {
        for deg in [0.0, 33.0, 180.0, 271.0] {
            let view = View::of(lawn(), Orientation::Street(deg));
            for point in [(0.0, 0.0), (20.0, 10.0)] {
                let (x, y) = view.at(Point::new(point.0, point.1));
                assert!(
                    (MARGIN - 0.1..=WIDTH - MARGIN + 0.1).contains(&x),
                    "{deg} {x}"
                );
                assert!(
                    (ABOVE - 0.1..=view.height - BELOW + 0.1).contains(&y),
                    "{deg} {y}"
                );
            }
        }
    }

    #[test]
    fn the_scale_bar_is_a_round_length_to_scale() {
        // 20 m on 332 units: 16.6 units a metre; 20 ft are 6.096 m.
        let view = View::of(lawn(), Orientation::North);
        let (metres, units) = view.scale_bar(Units::Us);
        assert!((metres - 6.096).abs() < 1e-9, "{metres}");
        assert!((units - 6.096 * 16.6).abs() < 1e-6, "{units}");
        let (metres, _) = view.scale_bar(Units::Metric);
        assert!((metres - 5.0).abs() < 1e-9);
    }
}
