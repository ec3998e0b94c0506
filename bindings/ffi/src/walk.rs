//! A walk round a lawn, recorded while the screen is dark. The page that measures takes it from
//! there.

use sward_rules::measure;
use sward_screens::{Trouble, WalkSoFar};

use crate::{Result, Swardbook};

/// A place from the device's receiver.
#[derive(Debug, Clone, Copy, PartialEq, uniffi::Record)]
pub struct Fix {
    /// Degrees on WGS84, north positive.
    pub lat: f64,
    /// Degrees on WGS84, east positive.
    pub lon: f64,
    /// The radius of 68 % in metres; none where the receiver gives none.
    pub accuracy_m: Option<f64>,
    /// When; milliseconds since 1970 in UTC.
    pub utc_ms: i64,
}

/// How far the walk is recorded.
#[derive(Debug, Clone, Copy, PartialEq, uniffi::Record)]
pub struct Walk {
    /// Whether it goes on.
    pub recording: bool,
    /// Fixes so far.
    pub fixes: u32,
    /// The accuracy of the last, in metres; none without one.
    pub last_accuracy_m: Option<f64>,
}

#[uniffi::export]
impl Swardbook {
    /// Begins to record a walk; the one before is let go.
    pub fn begin_walk(&self) -> Result<()> {
        self.with(|open| {
            open.books.begin_walk();
            Ok(())
        })
    }

    /// Adds a fix to the walk that is recorded. `BadInput` for a place that is not on earth.
    pub fn add_fix(&self, fix: Fix) -> Result<Walk> {
        self.with(|open| {
            let place = measure::Fix::from_degrees(fix.lat, fix.lon).ok_or(Trouble::NotFound)?;
            let place = measure::Fix {
                at_unix_ms: Some(fix.utc_ms),
                ..place.accurate_to_m(fix.accuracy_m)
            };
            Ok(open.books.add_fix(place).into())
        })
    }

    /// Ends the walk; its fixes wait on the page that measures.
    pub fn end_walk(&self) -> Result<Walk> {
        self.with(|open| Ok(open.books.end_walk().into()))
    }

    /// How far the walk is.
    pub fn walk(&self) -> Result<Walk> {
        self.with(|open| Ok(open.books.walk().into()))
    }
}

impl From<WalkSoFar> for Walk {
    fn from(walk: WalkSoFar) -> Self {
        Self {
            recording: walk.recording,
            // There are at most a few thousand.
            fixes: u32::try_from(walk.fixes).unwrap_or(u32::MAX),
            last_accuracy_m: walk.accuracy_mm.map(|mm| f64::from(mm) / 1000.0),
        }
    }
}
