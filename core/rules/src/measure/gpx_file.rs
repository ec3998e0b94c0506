//! A walk from a GPX file, read as hostile input.
//!
//! What makes a fix bad is decided in `clean`; nothing is dropped here without being named.

use chrono::DateTime;
use gpx::errors::GpxError;
use gpx::{Gpx, Waypoint};
use serde::Serialize;

use super::clean::{Numbered, clean};
use super::walk::metres;
use super::{ACCURACY_ASSUMED_M, DroppedFix, FIXES_MOST, Fix};
use crate::error::{Axis, Field, Result, RuleError, Walked, shortened};
use crate::note::Note;

/// Largest file read, in bytes.
pub const GPX_BYTES_MOST: usize = 10 * 1024 * 1024;

/// GPX 1.1 gives no accuracy in metres, only the geometry's share in it (HDOP). This many metres
/// for each unit of it is an assumption (common practice, no source).
pub const METRES_PER_HDOP: f64 = 5.0;

const POINTS_MOST: usize = 20_000;

/// A walk as read from a file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct WalkRead {
    /// The fixes to use, in the order of the walk.
    pub fixes: Vec<Fix>,
    /// The fixes not used, in the order of the file.
    pub dropped: Vec<DroppedFix>,
    /// How many fixes the file holds.
    pub read: usize,
    /// What was assumed, and what else in the file was not used.
    pub notes: Vec<Note>,
}

/// Reads the walk in a GPX 1.0 or 1.1 file: its one track, or, without tracks, its one route.
///
/// # Errors
/// When the file is too large, not UTF-8, damaged, cut short or declares entities; when it holds
/// no points, several walks, a point off the earth, or too few good fixes.
pub fn walk_from_gpx(bytes: &[u8]) -> Result<WalkRead> {
    let gpx = parse(bytes)?;
    let mut notes = Vec::new();
    let points = points(&gpx, &mut notes)?;
    let read = points.len();
    if read > POINTS_MOST {
        return Err(RuleError::TooMany {
            field: Field::GpxFile,
            count: read,
            limit: POINTS_MOST,
        });
    }
    let numbered = (1..)
        .zip(points)
        .map(|(n, p)| numbered(n, p))
        .collect::<Result<Vec<_>>>()?;
    let (fixes, dropped) = clean(numbered);
    if fixes.len() < 3 {
        return Err(RuleError::GpxTooFewGood {
            kept: fixes.len(),
            read,
        });
    }
    if fixes.len() > FIXES_MOST {
        let (count, limit) = (fixes.len(), FIXES_MOST);
        return Err(RuleError::TooMany {
            field: Field::Walk,
            count,
            limit,
        });
    }
    notes.extend(assumptions(&fixes));
    Ok(WalkRead {
        fixes,
        dropped,
        read,
        notes,
    })
}

fn parse(bytes: &[u8]) -> Result<Gpx> {
    if bytes.len() > GPX_BYTES_MOST {
        return Err(RuleError::GpxTooLarge { limit_mb: 10 });
    }
    // A NUL is in no text; it is what UTF-16 looks like without its mark.
    let text = std::str::from_utf8(bytes).map_err(|_| RuleError::GpxNotText)?;
    if text.contains('\0') || !text.contains('<') {
        return Err(RuleError::GpxNotText);
    }
    if text.contains("<!DOCTYPE") || text.contains("<!ENTITY") {
        return Err(RuleError::GpxDeclares);
    }
    gpx::read(text.as_bytes()).map_err(|error| match error {
        GpxError::LonLatOutOfBoundsError(what, _, value) => RuleError::GpxOffEarth {
            what: axis(what),
            value: value.to_string(),
        },
        GpxError::InvalidElementLacksAttribute(what @ ("latitude" | "longitude"), _) => {
            RuleError::GpxNoPosition { what: axis(what) }
        }
        other => RuleError::GpxDamaged {
            // What a reader says about a file may hold the file's own text.
            detail: shortened(&other.to_string(), 100),
        },
    })
}

fn axis(name: &str) -> Axis {
    if name.eq_ignore_ascii_case("latitude") {
        Axis::Latitude
    } else {
        Axis::Longitude
    }
}

fn points<'a>(gpx: &'a Gpx, notes: &mut Vec<Note>) -> Result<Vec<&'a Waypoint>> {
    let tracks: Vec<Vec<&Waypoint>> = gpx
        .tracks
        .iter()
        .map(|track| track.segments.iter().flat_map(|s| &s.points).collect())
        .filter(|points: &Vec<_>| !points.is_empty())
        .collect();
    let routes: Vec<Vec<&Waypoint>> = gpx
        .routes
        .iter()
        .map(|route| route.points.iter().collect())
        .filter(|points: &Vec<_>| !points.is_empty())
        .collect();
    let (kind, mut walks) = if tracks.is_empty() {
        (Walked::Route, routes)
    } else {
        if !routes.is_empty() {
            notes.push(Note::RoutesNotUsed);
        }
        (Walked::Track, tracks)
    };
    if !gpx.waypoints.is_empty() {
        notes.push(Note::WaypointsNotUsed {
            count: gpx.waypoints.len(),
        });
    }
    match walks.len() {
        0 => Err(RuleError::GpxNoPoints),
        1 => Ok(walks.remove(0)),
        count => Err(RuleError::GpxSeveral { count, kind }),
    }
}

fn numbered(number: usize, point: &Waypoint) -> Result<Numbered> {
    let (lon, lat) = point.point().x_y();
    let fix = Fix::from_degrees(lat, lon)
        .ok_or_else(|| super::geodesic::no_such_place(number - 1, lat, lon))?;
    let at_unix_ms = point
        .time
        .and_then(|t| t.format().ok())
        .and_then(|text| DateTime::parse_from_rfc3339(&text).ok())
        .map(|t| t.timestamp_millis());
    Ok(Numbered {
        number,
        has_position: point.fix != Some(gpx::Fix::None),
        fix: Fix {
            accuracy_mm: point.hdop.and_then(accuracy_mm),
            at_unix_ms,
            ..fix
        },
    })
}

/// Accuracy from HDOP; a value that no receiver can have (zero, negative, not a number) is none.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped above zero"
)]
fn accuracy_mm(hdop: f64) -> Option<u32> {
    // Infinity is a receiver's way to say that it is lost: it stays, and is dropped for it.
    (hdop > 0.0).then(|| (hdop * METRES_PER_HDOP * 1000.0).clamp(1.0, f64::from(u32::MAX)) as u32)
}

fn assumptions(fixes: &[Fix]) -> Vec<Note> {
    let without = fixes.iter().filter(|f| f.accuracy_mm.is_none()).count();
    let untimed = fixes.iter().filter(|f| f.at_unix_ms.is_none()).count();
    let mut notes = Vec::new();
    if without < fixes.len() {
        notes.push(Note::AccuracyByHdop {
            metres: metres(METRES_PER_HDOP),
        });
    }
    if without > 0 {
        notes.push(Note::NoHdop {
            fixes: without,
            metres: metres(ACCURACY_ASSUMED_M),
        });
    }
    if untimed > 0 {
        notes.push(Note::NoTimes { fixes: untimed });
    }
    notes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Outline, Shape, WhyDropped};

    fn file(points: &str) -> Vec<u8> {
        format!(
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\
             <gpx version=\"1.1\" creator=\"test\" xmlns=\"http://www.topografix.com/GPX/1/1\">\
             <trk><trkseg>{points}</trkseg></trk></gpx>"
        )
        .into_bytes()
    }

    fn point(lat: f64, lon: f64, inner: &str) -> String {
        format!("<trkpt lat=\"{lat}\" lon=\"{lon}\">{inner}</trkpt>")
    }

    fn square(inner: &str) -> String {
        [
            (40.0, -75.0),
            (40.0, -74.9996),
            (40.0003, -74.9996),
            (40.0003, -75.0),
        ]
        .map(|(lat, lon)| point(lat, lon, inner))
        .concat()
    }

    #[test]
    fn a_track_is_read_with_its_assumptions() {
        let walk = walk_from_gpx(&file(&square("<hdop>1.2</hdop>"))).unwrap();
        assert_eq!((walk.read, walk.fixes.len()), (4, 4));
        assert_eq!(walk.fixes[0].accuracy_mm, Some(6000));
        assert!(
            walk.notes
                .iter()
                .any(|n| n.to_string().contains("HDOP times 5 m, an assumption"))
        );
        assert!(
            walk.notes
                .iter()
                .any(|n| n.to_string().contains("have no time"))
        );
        let lawn = Outline {
            shape: Shape::Walk { fixes: walk.fixes },
            left_out: vec![],
        };
        assert!(lawn.area().is_ok());

        let bare = walk_from_gpx(&file(&square(""))).unwrap();
        assert_eq!(bare.fixes[0].accuracy_mm, None);
        assert!(
            bare.notes
                .iter()
                .any(|n| n.to_string().contains("10 m is assumed"))
        );
    }

    #[test]
    fn times_are_kept_to_the_millisecond() {
        let walk =
            walk_from_gpx(&file(&square("<time>2024-05-01T14:00:00.250Z</time>"))).unwrap_err();
        // Four corners in the same second: nobody runs that fast.
        assert!(matches!(
            walk,
            RuleError::GpxTooFewGood { kept: 1, read: 4 }
        ));
        let mut points = String::new();
        for (minute, (lat, lon)) in (0..).zip([(40.0, -75.0), (40.0, -74.9996), (40.0003, -75.0)]) {
            points += &point(
                lat,
                lon,
                &format!("<time>2024-05-01T16:0{minute}:00.25+02:00</time>"),
            );
        }
        let walk = walk_from_gpx(&file(&points)).unwrap();
        assert_eq!(walk.fixes[0].at_unix_ms, Some(1_714_572_000_250));
        assert_eq!(walk.fixes[1].at_unix_ms, Some(1_714_572_060_250));
    }

    #[test]
    fn a_fix_without_position_is_dropped_by_name() {
        let points = square("")
            + &point(40.1, -75.1, "<fix>none</fix>")
            + &point(0.0, 0.0, "")
            + &point(40.0001, -75.0, "<hdop>99.9</hdop>")
            + &point(40.0001, -75.0, "<hdop>inf</hdop>");
        let walk = walk_from_gpx(&file(&points)).unwrap();
        let why: Vec<_> = walk
            .dropped
            .iter()
            .map(|d| (d.number, d.why.clone()))
            .collect();
        assert_eq!(
            why,
            [
                (5, WhyDropped::NoPosition),
                (6, WhyDropped::NoPosition),
                (
                    7,
                    WhyDropped::PoorAccuracy {
                        accuracy_mm: 499_500
                    }
                ),
                (
                    8,
                    WhyDropped::PoorAccuracy {
                        accuracy_mm: u32::MAX
                    }
                ),
            ]
        );
    }

    #[test]
    fn a_route_serves_without_a_track() {
        let route = String::from_utf8(file(&square("")))
            .unwrap()
            .replace("<trk><trkseg>", "<rte>")
            .replace("</trkseg></trk>", "</rte>")
            .replace("trkpt", "rtept");
        assert_eq!(walk_from_gpx(route.as_bytes()).unwrap().read, 4);
    }

    #[test]
    fn bad_files_are_refused_in_words() {
        let e = |bytes: &[u8]| walk_from_gpx(bytes).unwrap_err();
        assert_eq!(e(&file("")), RuleError::GpxNoPoints);
        assert_eq!(e(b"<gpx version=\"1.1\"></gpx>"), RuleError::GpxNoPoints);
        assert_eq!(e(b""), RuleError::GpxNotText);
        assert_eq!(e(b"\xff\xfe<\0g\0"), RuleError::GpxNotText);
        assert_eq!(e(b"<\0g\0p\0x\0>\0"), RuleError::GpxNotText);
        assert!(matches!(e(b"lat,lon\n<1,2"), RuleError::GpxDamaged { .. }));
        assert!(matches!(e(b"<kml></kml>"), RuleError::GpxDamaged { .. }));
        assert!(matches!(
            e(&vec![b' '; GPX_BYTES_MOST + 1]),
            RuleError::GpxTooLarge { .. }
        ));
        let off = e(&file(&(square("") + &point(91.0, 0.0, ""))));
        assert_eq!(
            off,
            RuleError::GpxOffEarth {
                what: Axis::Latitude,
                value: "91".into()
            }
        );
        assert!(matches!(
            e(&file(&point(0.0, 181.0, ""))),
            RuleError::GpxOffEarth { .. }
        ));
        assert!(matches!(
            e(&file(&point(f64::NAN, 0.0, ""))),
            RuleError::GpxOffEarth { .. }
        ));
        let bare = file("<trkpt lon=\"3\"></trkpt>");
        assert_eq!(
            e(&bare),
            RuleError::GpxNoPosition {
                what: Axis::Latitude
            }
        );
        let two = String::from_utf8(file(&square(""))).unwrap().replace(
            "</trk>",
            "</trk><trk><trkseg><trkpt lat=\"1\" lon=\"1\"/></trkseg></trk>",
        );
        assert_eq!(
            e(two.as_bytes()),
            RuleError::GpxSeveral {
                count: 2,
                kind: Walked::Track
            }
        );
        assert!(matches!(
            e(&file(&point(40.0, -75.0, "").repeat(9))),
            RuleError::GpxTooFewGood { kept: 1, read: 9 }
        ));
    }

    #[test]
    fn entities_are_refused_before_they_grow() {
        let bomb = b"<?xml version=\"1.0\"?><!DOCTYPE gpx [<!ENTITY a \"aaaaaaaaaa\">\
            <!ENTITY b \"&a;&a;&a;&a;&a;&a;\">]><gpx version=\"1.1\"><wpt lat=\"1\" lon=\"1\">\
            <name>&b;</name></wpt></gpx>";
        assert_eq!(walk_from_gpx(bomb).unwrap_err(), RuleError::GpxDeclares);
    }

    #[test]
    fn a_file_cut_short_anywhere_is_an_error() {
        let whole = file(&square("<hdop>1.2</hdop><time>2024-05-01T14:00:00Z</time>"));
        for length in 0..whole.len() - 1 {
            assert!(walk_from_gpx(&whole[..length]).is_err(), "{length}");
        }
    }

    proptest::proptest! {
        #[test]
        fn changed_bytes_never_panic(changes in proptest::collection::vec((0_usize..900, 0_u8..), 1..20)) {
            let mut bytes = file(&square("<hdop>1.2</hdop><time>2024-05-01T14:00:00Z</time>"));
            for (at, byte) in changes {
                let at = at % bytes.len();
                bytes[at] = byte;
            }
            let _ = walk_from_gpx(&bytes);
        }
    }
}
