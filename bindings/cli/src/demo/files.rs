//! The demo's files, as a person would have them: saved from a receiver, a wind meter and the
//! weather service, and laid into the folder of the demo.

use std::fs;
use std::path::{Path, PathBuf};

use crate::error::{CliError, Result};

/// The station's report of the morning.
pub(super) const METAR_MORNING: &str = include_str!("../../../../fixtures/demo/metar-morning.txt");
/// The station's report of the evening.
pub(super) const METAR_EVENING: &str = include_str!("../../../../fixtures/demo/metar-evening.txt");

const LAID_OUT: [(&str, &[u8]); 4] = [
    (
        "front-lawn.gpx",
        include_bytes!("../../../../fixtures/demo/front-lawn.gpx"),
    ),
    (
        "forecast.json",
        include_bytes!("../../../../fixtures/demo/forecast.json"),
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

/// The folder with the files that go in and that go from phone to phone.
pub(super) struct Files {
    folder: PathBuf,
}

impl Files {
    /// Lays the files into a folder of their own in `demo`.
    ///
    /// # Errors
    /// When it cannot be written.
    pub(super) fn lay_out(demo: &Path) -> Result<Self> {
        let folder = demo.join("files");
        fs::create_dir(&folder).map_err(|source| not_writable(&folder, source))?;
        for (name, bytes) in LAID_OUT {
            let path = folder.join(name);
            fs::write(&path, bytes).map_err(|source| not_writable(&path, source))?;
        }
        Ok(Self { folder })
    }

    /// Where a file of this name lies, or will.
    pub(super) fn named(&self, name: &str) -> PathBuf {
        self.folder.join(name)
    }
}

/// Says that a path cannot be written.
pub(super) fn not_writable(path: &Path, source: std::io::Error) -> CliError {
    CliError::NotWritable {
        path: path.to_owned(),
        source,
    }
}
