//! A walk as it was sent: recorded here line by line, or a GPX file.
//!
//! Which fixes are good enough is for the rules; this reads hostile lines and passes them on.

use std::fmt::Write as _;

use chrono::{DateTime, SecondsFormat};
use serde::Deserialize;
use sward_rules::measure::{Fix, METRES_PER_HDOP, WalkRead, walk_from_gpx};

use crate::server::Form;
use crate::trouble::Wrong;
use crate::{Result, Trouble};

/// The most lines that are read.
const LINES_MOST: usize = 20_000;

/// A line that the script writes.
#[derive(Deserialize)]
struct Line {
    lat: f64,
    lon: f64,
    accuracy_m: Option<f64>,
    utc_ms: Option<f64>,
}

/// The walk that was sent: the file where one was chosen, else what was recorded.
///
/// # Errors
/// [`Trouble::InField`] beside the file or the fixes.
pub(super) fn sent(form: &Form) -> Result<WalkRead> {
    if let Ok(gpx) = form.file("gpx") {
        return walk_from_gpx(gpx).map_err(|error| Trouble::in_field("gpx", error));
    }
    let text = form.text("fixes");
    if text.is_empty() {
        return Err(Trouble::field("fixes", Wrong::Missing));
    }
    let fixes = fixes(text)?;
    walk_from_gpx(gpx_of(&fixes).as_bytes()).map_err(|error| Trouble::in_field("fixes", error))
}

fn fixes(text: &str) -> Result<Vec<Fix>> {
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    (1..)
        .zip(lines.take(LINES_MOST + 1))
        .map(|(line, text)| fix(line, text))
        .collect()
}

fn fix(number: i64, text: &str) -> Result<Fix> {
    let no_fix = || Trouble::field("fixes", Wrong::NotAFix { line: number });
    let line: Line = serde_json::from_str(text).map_err(|_| no_fix())?;
    let fix = Fix::from_degrees(line.lat, line.lon).ok_or_else(no_fix)?;
    Ok(Fix {
        at_unix_ms: line.utc_ms.filter(|ms| ms.is_finite()).map(whole),
        ..fix.accurate_to_m(line.accuracy_m)
    })
}

#[allow(
    clippy::cast_possible_truncation,
    reason = "a cast from a float saturates"
)]
fn whole(ms: f64) -> i64 {
    ms.round() as i64
}

/// The walk as a file, so that what was recorded here is judged as any other walk is.
fn gpx_of(fixes: &[Fix]) -> String {
    let mut gpx = String::from(
        "<?xml version=\"1.0\"?><gpx version=\"1.1\" creator=\"sward\" xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>",
    );
    for fix in fixes {
        let _ = write!(
            gpx,
            "<trkpt lat=\"{:.9}\" lon=\"{:.9}\">",
            fix.lat(),
            fix.lon()
        );
        let time = fix.at_unix_ms.and_then(DateTime::from_timestamp_millis);
        if let Some(time) = time {
            let _ = write!(
                gpx,
                "<time>{}</time>",
                time.to_rfc3339_opts(SecondsFormat::Millis, true)
            );
        }
        if let Some(mm) = fix.accuracy_mm {
            // A tenth of a millimetre more, so that the way back to millimetres loses none.
            let hdop = (f64::from(mm) + 0.1) / 1000.0 / METRES_PER_HDOP;
            let _ = write!(gpx, "<hdop>{hdop:.7}</hdop>");
        }
        gpx.push_str("</trkpt>");
    }
    gpx.push_str("</trkseg></trk></gpx>");
    gpx
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn form(fixes: &str) -> Form {
        crate::testing::sent(&[("fixes", fixes)])
    }

    fn square() -> String {
        let mut lines = String::new();
        for (n, (north, east)) in [(0.0, 0.0), (0.0, 2e-4), (2e-4, 2e-4), (2e-4, 0.0)]
            .into_iter()
            .enumerate()
        {
            let (lat, lon) = (40.0 + north, -75.0 + east);
            let at_ms = 1_700_000_000_000_u64 + 20_000 * n as u64;
            let _ = writeln!(
                lines,
                "{{\"lat\":{lat:.6},\"lon\":{lon:.6},\"accuracy_m\":4.217,\"utc_ms\":{at_ms}.5}}"
            );
        }
        lines
    }

    #[test]
    fn a_recorded_walk_is_read_with_its_accuracies_and_times() {
        let walk = sent(&form(&square())).unwrap();
        assert_eq!((walk.read, walk.fixes.len()), (4, 4));
        assert_eq!(walk.fixes[1].accuracy_mm, Some(4_217));
        assert_eq!(walk.fixes[1].at_unix_ms, Some(1_700_000_020_001));
        assert_eq!(walk.fixes[1].lon_1e9, -74_999_800_000);
    }

    #[test]
    fn a_line_that_is_no_position_is_named() {
        for bad in [
            "x",
            "{\"lat\":91,\"lon\":0}",
            "{\"lat\":1}",
            "[]",
            "{\"lat\":\"1\",\"lon\":2}",
            "{\"lat\":1e999,\"lon\":2}",
        ] {
            let text = format!("{}{bad}", square());
            let Err(Trouble::InField { field, error }) = sent(&form(&text)) else {
                panic!("{bad} was taken");
            };
            assert_eq!(field, "fixes");
            assert!(
                matches!(*error, Trouble::Wrong(Wrong::NotAFix { line: 5 })),
                "{bad}: {error:?}"
            );
        }
        assert!(sent(&form("")).is_err());
        assert!(
            sent(&form("{\"lat\":1,\"lon\":2}")).is_err(),
            "one fix is no walk"
        );
    }

    proptest! {
        #[test]
        fn whatever_is_sent_never_panics(text in "[\\{\\}\\[\\]a-z0-9:,.\"\\n -]{0,300}") {
            let _ = sent(&form(&text));
        }
    }
}
