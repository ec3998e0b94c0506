//! How large the lawn is: outlines by tape or by a walk, less what is left out, with uncertainty.
//!
//! The shapes here are stored in records as they were measured. Doses belong to [`crate::plan`].

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};

use crate::quantity::Entered;

mod clean;
mod crossing;
mod drawn;
mod edge;
mod estimate;
mod geodesic;
mod gpx_file;
mod outline;
mod perimeter;
mod ring;
mod slope;
mod strip;
mod tape;
mod taped_polygon;
mod walk;

pub use clean::{
    DroppedFix, FIX_ACCURACY_MOST_M, LOOP_MOST_M, SPEED_MOST_M_PER_S, STEP_LEAST_M, WhyDropped,
};
pub use drawn::{DRAWN_CORNERS_MOST, DRAWN_ERROR_M};
pub use estimate::{AreaEstimate, LengthEstimate};
pub use geodesic::geodesic_polygon;
pub use gpx_file::{GPX_BYTES_MOST, METRES_PER_HDOP, WalkRead, walk_from_gpx};
pub use outline::{AREA_MOST_M2, LEFT_OUT_MOST};
pub use perimeter::WOBBLE_MOST_M;
pub use slope::{Measured, SLOPE_ERROR_DEG, SLOPE_MOST_DEG, Slope, SlopedArea, sloped_area};
pub use strip::Strip;
pub use tape::{OFFSETS_MOST, SIDE_MOST_M, TAPE_ERROR_LEAST_FT, TAPE_ERROR_SHARE};
pub use taped_polygon::TAPED_CORNERS_MOST;
pub use walk::{ACCURACY_ASSUMED_M, FIXES_MOST};

/// The edge of a section of lawn, less the beds, pools and sheds inside it.
///
/// ```
/// use sward_rules::{Entered, measure::{Outline, Shape}};
/// let ft = |text| Entered::parse(text);
/// let lawn = Outline {
///     shape: Shape::Rectangle { length: ft("60 ft")?, width: ft("25 ft")? },
///     left_out: vec![Shape::TriangleHeight { base: ft("30 ft")?, height: ft("26 ft")? }],
/// };
/// assert_eq!(lawn.area()?.value.square_feet().round(), 1_110.0);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct Outline {
    /// The outer edge.
    #[n(0)]
    pub shape: Shape,
    /// What inside it is not treated.
    #[n(1)]
    pub left_out: Vec<Shape>,
}

/// A shape as it was measured.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Shape {
    /// Four right angles.
    #[n(0)]
    Rectangle {
        /// One side.
        #[n(0)]
        length: Entered,
        /// The side next to it.
        #[n(1)]
        width: Entered,
    },
    /// Three sides by tape (Heron).
    #[n(1)]
    TriangleSides {
        /// First side.
        #[n(0)]
        a: Entered,
        /// Second side.
        #[n(1)]
        b: Entered,
        /// Third side.
        #[n(2)]
        c: Entered,
    },
    /// One side of a triangle and the height on it.
    #[n(2)]
    TriangleHeight {
        /// The side.
        #[n(0)]
        base: Entered,
        /// The distance of the third corner from it, at a right angle.
        #[n(1)]
        height: Entered,
    },
    /// Two parallel sides and the distance between them.
    #[n(3)]
    Trapezoid {
        /// One parallel side.
        #[n(0)]
        a: Entered,
        /// The other.
        #[n(1)]
        b: Entered,
        /// Their distance, at a right angle.
        #[n(2)]
        height: Entered,
    },
    /// A circle.
    #[n(4)]
    Circle {
        /// Its diameter.
        #[n(0)]
        diameter: Entered,
    },
    /// Widths across a base line, evenly spaced along it.
    #[n(5)]
    Offsets {
        /// Distance from one offset to the next.
        #[n(0)]
        spacing: Entered,
        /// The widths, first and last included; zero where the lawn runs to a point.
        #[n(1)]
        offsets: Vec<Entered>,
        /// How the edge between two offsets is taken.
        #[n(2)]
        rule: OffsetRule,
    },
    /// Corners by tape: the side from corner 1 to corner 2, then every further corner by two tapes
    /// from corners before it. Corners are numbered in the order in which they lie round the lawn.
    #[n(6)]
    TapePolygon {
        /// From corner 1 to corner 2.
        #[n(0)]
        first_side: Entered,
        /// Corners 3, 4, ...
        #[n(1)]
        corners: Vec<TapedCorner>,
    },
    /// An oval by its two axes.
    #[n(8)]
    Oval {
        /// Its greatest length.
        #[n(0)]
        length: Entered,
        /// Its greatest width, at a right angle to the length.
        #[n(1)]
        width: Entered,
    },
    /// A roundish shape by its mean radius.
    #[n(9)]
    MeanRadius {
        /// Distances from a middle point to the edge, at even angles all round.
        #[n(0)]
        radii: Vec<Entered>,
    },
    /// A walk along the edge with a satellite receiver.
    #[n(7)]
    Walk {
        /// The fixes in the order in which they were walked; the last need not repeat the first.
        #[n(0)]
        fixes: Vec<Fix>,
    },
    /// An outline drawn by finger on a sketch to scale, with straight sides.
    #[n(10)]
    Drawn {
        /// The corners in the order in which they lie round the lawn.
        #[n(0)]
        corners: Vec<DrawnCorner>,
    },
}

/// A corner on a sketch, from the sketch's own origin. Whole centimetres, so that two phones that
/// draw the same have the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize, Deserialize)]
pub struct DrawnCorner {
    /// Centimetres east of the origin.
    #[n(0)]
    pub east_cm: i32,
    /// Centimetres north of the origin.
    #[n(1)]
    pub north_cm: i32,
}

/// How the edge between two offsets is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize, Deserialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum OffsetRule {
    /// Straight from offset to offset.
    #[n(0)]
    Trapezoid,
    /// A parabola through three offsets; for edges that bend. Needs an odd number of them.
    #[n(1)]
    Simpson,
}

/// A corner found by two tapes.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct TapedCorner {
    /// Number of an earlier corner, the first being 1.
    #[n(0)]
    pub from_a: u16,
    /// The tape from there.
    #[n(1)]
    pub tape_a: Entered,
    /// Number of another earlier corner.
    #[n(2)]
    pub from_b: u16,
    /// The tape from there.
    #[n(3)]
    pub tape_b: Entered,
    /// On which side the corner lies for a person who stands at `from_a` and looks to `from_b`.
    #[n(4)]
    pub side: SideOfLine,
}

/// A side of the line from one corner to another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize, Deserialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum SideOfLine {
    /// Left of it.
    #[n(0)]
    Left,
    /// Right of it.
    #[n(1)]
    Right,
}

/// One position on WGS84.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize, Deserialize)]
pub struct Fix {
    /// Latitude in billionths of a degree, north positive.
    #[n(0)]
    pub lat_1e9: i64,
    /// Longitude in billionths of a degree, east positive.
    #[n(1)]
    pub lon_1e9: i64,
    /// Horizontal accuracy in millimetres, the root mean square of the distance from the true
    /// place (about what phones call the 68 % radius); none when the receiver gave none.
    #[n(2)]
    pub accuracy_mm: Option<u32>,
    /// When it was taken, in milliseconds since 1970-01-01 UTC.
    #[n(3)]
    pub at_unix_ms: Option<i64>,
}

impl Fix {
    /// A fix from degrees, rounded to billionths (a tenth of a millimetre); none when the place is
    /// not on earth.
    #[allow(clippy::cast_possible_truncation, reason = "at most 180e9 in size")]
    pub fn from_degrees(lat: f64, lon: f64) -> Option<Self> {
        let on_earth = lat.abs() <= 90.0 && lon.abs() <= 180.0;
        on_earth.then(|| Self {
            lat_1e9: (lat * 1e9).round() as i64,
            lon_1e9: (lon * 1e9).round() as i64,
            accuracy_mm: None,
            at_unix_ms: None,
        })
    }

    /// The same with its horizontal accuracy in metres, as a receiver gives it; a number that can
    /// be none is left out.
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to what fits"
    )]
    #[must_use]
    pub fn accurate_to_m(self, metres: Option<f64>) -> Self {
        let given = metres.filter(|m| m.is_finite() && *m > 0.0);
        let mm = |m: f64| (m * 1000.0).round().clamp(1.0, f64::from(u32::MAX)) as u32;
        Self {
            accuracy_mm: given.map(mm),
            ..self
        }
    }

    /// Latitude in degrees.
    pub fn lat(&self) -> f64 {
        self.lat_1e9 as f64 / 1e9
    }

    /// Longitude in degrees.
    pub fn lon(&self) -> f64 {
        self.lon_1e9 as f64 / 1e9
    }
}
