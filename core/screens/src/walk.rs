//! A walk round a lawn that the device records by itself, with its screen dark, and the line in
//! which a fix goes to and from a page. It is no record yet: that it becomes when it is measured.

use serde::Serialize;
use sward_rules::measure::{FIXES_MOST, Fix};

/// The fixes of the walk that is recorded, or was last.
#[derive(Debug, Default)]
pub(crate) struct Walk {
    recording: bool,
    fixes: Vec<Fix>,
}

/// A walk as a page gets it.
#[derive(Serialize)]
pub(crate) struct Recorded {
    recording: bool,
    fixes: Vec<String>,
}

impl Walk {
    /// Begins a new one.
    pub(crate) fn begin(&mut self) {
        self.recording = true;
        self.fixes.clear();
    }

    /// Adds a fix, while one is recorded and as long as there is room.
    pub(crate) fn add(&mut self, fix: Fix) {
        if self.recording && self.fixes.len() < FIXES_MOST {
            self.fixes.push(fix);
        }
    }

    /// Ends it; its fixes stay until the next begins.
    pub(crate) fn end(&mut self) {
        self.recording = false;
    }

    /// Whether one is recorded now.
    pub(crate) fn is_recording(&self) -> bool {
        self.recording
    }

    /// Its fixes so far.
    pub(crate) fn fixes(&self) -> &[Fix] {
        &self.fixes
    }

    /// For a page.
    pub(crate) fn recorded(&self) -> Recorded {
        Recorded {
            recording: self.recording,
            fixes: self.fixes.iter().map(line_of).collect(),
        }
    }
}

/// A fix as a page and its script write it.
pub(crate) fn line_of(fix: &Fix) -> String {
    let accuracy_m = fix.accuracy_mm.map(|mm| f64::from(mm) / 1000.0);
    serde_json::json!({
        "lat": fix.lat(),
        "lon": fix.lon(),
        "accuracy_m": accuracy_m,
        "utc_ms": fix.at_unix_ms,
    })
    .to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fix(lat: f64) -> Fix {
        Fix::from_degrees(lat, -84.0).expect("on earth")
    }

    #[test]
    fn fixes_count_only_while_a_walk_is_recorded() {
        let mut walk = Walk::default();
        walk.add(fix(40.0));
        assert!(walk.fixes().is_empty());
        walk.begin();
        walk.add(fix(40.0));
        walk.add(fix(40.001));
        walk.end();
        walk.add(fix(40.002));
        assert_eq!(walk.recorded().fixes.len(), 2);
        walk.begin();
        assert!(walk.is_recording() && walk.fixes().is_empty());
    }

    #[test]
    fn no_walk_grows_without_end() {
        let mut walk = Walk::default();
        walk.begin();
        for _ in 0..FIXES_MOST + 10 {
            walk.add(fix(40.0));
        }
        assert_eq!(walk.fixes().len(), FIXES_MOST);
    }
}
