//! The demo's files, as a person would have them: saved from a receiver, a wind meter and the
//! weather service, and laid into a folder of the demo.

use std::fs;
use std::path::Path;

use crate::error::{CliError, Result};

/// The station's report of the morning, which the story tells of.
pub(super) const METAR_MORNING: &str = include_str!("../../../../fixtures/demo/metar-morning.txt");

const LAID_OUT: [(&str, &[u8]); 6] = [
    (
        "front-lawn.gpx",
        include_bytes!("../../../../fixtures/demo/front-lawn.gpx"),
    ),
    (
        "forecast.json",
        include_bytes!("../../../../fixtures/demo/forecast.json"),
    ),
    ("metar-morning.txt", METAR_MORNING.as_bytes()),
    (
        "metar-evening.txt",
        include_bytes!("../../../../fixtures/demo/metar-evening.txt"),
    ),
    (
        "wind-morning.csv",
        include_bytes!("../../../../fixtures/demo/wind-morning.csv"),
    ),
    (
        "wind-evening.csv",
        include_bytes!("../../../../fixtures/demo/wind-evening.csv"),
    ),
];

/// Lays the files into a new folder.
///
/// # Errors
/// When it cannot be written.
pub(super) fn lay_out(folder: &Path) -> Result<()> {
    fs::create_dir(folder).map_err(|source| not_writable(folder, source))?;
    for (name, bytes) in LAID_OUT {
        let path = folder.join(name);
        fs::write(&path, bytes).map_err(|source| not_writable(&path, source))?;
    }
    Ok(())
}

/// Says that a path cannot be written.
pub(super) fn not_writable(path: &Path, source: std::io::Error) -> CliError {
    CliError::NotWritable {
        path: path.to_owned(),
        source,
    }
}
