//! Where a yard lies on the globe, to find the nearest and to know when the sun sets there.

use std::fmt;

use minicbor::{Decode, Encode};
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive as _;
use serde::Serialize;
use sward_rules::measure::{Fix, Shape};

use super::Section;

/// More decimals than this are no longer about a yard: the sixth is a tenth of a metre.
const DECIMALS: u32 = 6;

/// A place by latitude and longitude on WGS84, to a millionth of a degree.
///
/// ```
/// use sward_book::sheet::Position;
/// let position = Position::parse("42.443961, -76.501881").unwrap();
/// assert_eq!(position.lat_deg(), 42.443961);
/// assert_eq!(position.to_string(), "42.443961, -76.501881");
/// assert!(Position::parse("-76.501881").is_none());
/// assert!(Position::parse("91, 0").is_none());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Position {
    /// Latitude in millionths of a degree, north positive, at most 90 degrees.
    #[n(0)]
    pub lat_1e6: i32,
    /// Longitude in millionths of a degree, east positive, at most 180 degrees.
    #[n(1)]
    pub lon_1e6: i32,
}

impl Position {
    /// Reads "latitude, longitude" in degrees, as maps and receivers give it; none where it is no
    /// place on the globe.
    pub fn parse(text: &str) -> Option<Self> {
        let mut parts = text
            .split([',', ' ', ';'])
            .map(str::trim)
            .filter(|part| !part.is_empty());
        let (lat, lon) = (parts.next()?, parts.next()?);
        if parts.next().is_some() {
            return None;
        }
        Some(Self {
            lat_1e6: millionths(lat, 90)?,
            lon_1e6: millionths(lon, 180)?,
        })
    }

    /// Latitude in degrees, north positive.
    pub fn lat_deg(self) -> f64 {
        f64::from(self.lat_1e6) / 1e6
    }

    /// Longitude in degrees, east positive.
    pub fn lon_deg(self) -> f64 {
        f64::from(self.lon_1e6) / 1e6
    }

    /// Where the first walk along a section's edge began; none where no section was walked.
    pub(super) fn of_walks(sections: &[Section]) -> Option<Self> {
        let mut shapes = sections.iter().filter(|s| !s.hidden);
        let first = shapes.find_map(|s| match &s.outline.as_ref()?.shape {
            Shape::Walk { fixes } => fixes.first(),
            _ => None,
        })?;
        Self::of_fix(first)
    }

    /// None where the fix is no place on the globe, as a hostile sheet may have it.
    fn of_fix(fix: &Fix) -> Option<Self> {
        let near = |billionths: i64, most_deg: u64| {
            (billionths.unsigned_abs() <= most_deg * 1_000_000_000)
                .then(|| (billionths + 500 * billionths.signum()) / 1000)
                .and_then(|millionths| i32::try_from(millionths).ok())
        };
        Some(Self {
            lat_1e6: near(fix.lat_1e9, 90)?,
            lon_1e6: near(fix.lon_1e9, 180)?,
        })
    }
}

fn millionths(degrees: &str, most: u32) -> Option<i32> {
    let (below_zero, digits) = match degrees.strip_prefix(['-', '\u{2212}']) {
        Some(digits) => (true, digits),
        None => (false, degrees),
    };
    if !digits.bytes().all(|b| b.is_ascii_digit() || b == b'.') {
        return None;
    }
    let degrees = Decimal::from_str_exact(digits).ok()?;
    if degrees > Decimal::from(most) {
        return None;
    }
    let whole = (degrees.round_dp(DECIMALS) * Decimal::from(1_000_000)).to_i32()?;
    Some(if below_zero { -whole } else { whole })
}

impl fmt::Display for Position {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let degrees = |millionths: i32| Decimal::new(millionths.into(), DECIMALS);
        write!(f, "{}, {}", degrees(self.lat_1e6), degrees(self.lon_1e6))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_read_as_maps_and_receivers_give_them() {
        let read = |text| Position::parse(text).map(|p| p.to_string());
        for text in [
            "42.5, -76.25",
            "42.5 -76.25",
            "42.5;-76.25",
            "42.5,\u{2212}76.25",
        ] {
            assert_eq!(
                read(text).as_deref(),
                Some("42.500000, -76.250000"),
                "{text}"
            );
        }
        assert_eq!(
            read("-0.0000004, 180").as_deref(),
            Some("0.000000, 180.000000")
        );
        assert_eq!(read("90, -180").as_deref(), Some("90.000000, -180.000000"));
    }

    #[test]
    fn what_is_no_place_is_not_read() {
        for text in [
            "",
            "42.5",
            "42.5, -76.25, 3",
            "90.000001, 0",
            "0, 180.1",
            "NaN, 0",
            "1e3, 0",
            "--1, 0",
            "N42, W76",
            "42°, 76°",
        ] {
            assert_eq!(Position::parse(text), None, "{text}");
        }
    }

    #[test]
    fn a_fix_is_rounded_to_the_nearest() {
        let fix = Fix {
            lat_1e9: -42_123_456_500,
            lon_1e9: 76_000_000_499,
            accuracy_mm: None,
            at_unix_ms: None,
        };
        let position = Position::of_fix(&fix).unwrap();
        assert_eq!(
            (position.lat_1e6, position.lon_1e6),
            (-42_123_457, 76_000_000)
        );
    }

    #[test]
    fn a_fix_that_is_no_place_has_none() {
        let at = |lat_1e9, lon_1e9| {
            Position::of_fix(&Fix {
                lat_1e9,
                lon_1e9,
                accuracy_mm: None,
                at_unix_ms: None,
            })
        };
        assert!(at(-90_000_000_000, 180_000_000_000).is_some());
        for (lat_1e9, lon_1e9) in [
            (90_000_000_001, 0),
            (0, -180_000_000_001),
            (i64::MAX, 0),
            (i64::MIN, 0),
            (0, i64::MAX),
            (0, i64::MIN),
        ] {
            assert_eq!(at(lat_1e9, lon_1e9), None, "{lat_1e9} {lon_1e9}");
        }
    }
}
