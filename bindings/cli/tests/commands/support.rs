//! A phone for tests: a folder of its own, a clock that is told, and the program started anew for
//! each step.

use std::cell::RefCell;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;
use tempfile::TempDir;

/// The day of all tests, a Tuesday in the season.
const DAY: &str = "2026-06-16";

/// One phone.
pub(crate) struct Phone {
    dir: TempDir,
    clock: RefCell<Option<String>>,
}

/// What a step answered.
pub(crate) struct Told {
    /// Its exit code.
    pub(crate) code: Option<i32>,
    /// Standard output.
    pub(crate) out: String,
    /// Standard error.
    pub(crate) err: String,
}

impl Phone {
    /// A phone without a book, at eight in the morning.
    pub(crate) fn new() -> Self {
        let clock = RefCell::new(Some(format!("{DAY}T08:00:00-04:00")));
        Self {
            dir: TempDir::new().unwrap(),
            clock,
        }
    }

    /// A phone that has founded a practice crew; `name` carries it.
    pub(crate) fn founder(name: &str) -> Self {
        let phone = Self::new();
        phone.does([
            "found",
            "--crew",
            "Practice crew",
            "--name",
            name,
            "--practice",
        ]);
        phone
    }

    /// A phone that joined the crew of `lead` as an applicator.
    pub(crate) fn member(lead: &Self, name: &str) -> Self {
        let phone = Self::new();
        let request = phone.file("request");
        phone.does([
            OsStr::new("ask"),
            request.as_ref(),
            "--name".as_ref(),
            name.as_ref(),
            "--practice".as_ref(),
        ]);
        lead.does([OsStr::new("admit"), request.as_ref()]);
        phone.takes_from(lead);
        phone
    }

    /// The folder of its book.
    pub(crate) fn book(&self) -> PathBuf {
        self.dir.path().join("book")
    }

    /// A place for a file on this phone.
    pub(crate) fn file(&self, name: &str) -> PathBuf {
        self.dir.path().join(name)
    }

    /// Writes a file on this phone.
    pub(crate) fn write(&self, name: &str, content: impl AsRef<[u8]>) -> PathBuf {
        let path = self.file(name);
        std::fs::write(&path, content).unwrap();
        path
    }

    /// Sets the clock to an hour and minute of the day.
    pub(crate) fn at(&self, clock: &str) -> &Self {
        self.at_time(&format!("{DAY}T{clock}:00-04:00"))
    }

    /// Sets the clock to a moment in RFC 3339.
    pub(crate) fn at_time(&self, moment: &str) -> &Self {
        *self.clock.borrow_mut() = Some(moment.to_owned());
        self
    }

    /// Goes by the real clock.
    pub(crate) fn by_the_real_clock(&self) -> &Self {
        *self.clock.borrow_mut() = None;
        self
    }

    /// The command for a step, to be started as it is.
    pub(crate) fn command<I, A>(&self, step: I) -> Command
    where
        I: IntoIterator<Item = A>,
        A: AsRef<OsStr>,
    {
        let mut command = Command::new(assert_cmd::cargo::cargo_bin!("sward"));
        command.arg("--data").arg(self.book());
        if let Some(clock) = self.clock.borrow().as_ref() {
            command.args(["--practice-clock", clock]);
        }
        command.args(step).stdin(Stdio::null());
        command
    }

    /// Takes a step and tells how it went.
    pub(crate) fn tries<I, A>(&self, step: I) -> Told
    where
        I: IntoIterator<Item = A>,
        A: AsRef<OsStr>,
    {
        let Output {
            status,
            stdout,
            stderr,
        } = self.command(step).output().unwrap();
        Told {
            code: status.code(),
            out: String::from_utf8(stdout).unwrap(),
            err: String::from_utf8(stderr).unwrap(),
        }
    }

    /// Takes a step that must go well, and confirms what it asks.
    pub(crate) fn does<I, A>(&self, step: I) -> Value
    where
        I: IntoIterator<Item = A>,
        A: AsRef<OsStr>,
    {
        self.ends(step, 0)
    }

    /// Takes a step that must answer and end with `code`.
    pub(crate) fn ends<I, A>(&self, step: I, code: i32) -> Value
    where
        I: IntoIterator<Item = A>,
        A: AsRef<OsStr>,
    {
        let step: Vec<_> = step.into_iter().map(|a| a.as_ref().to_owned()).collect();
        let all = ["--json", "--yes"]
            .iter()
            .map(|a| OsStr::new(a).to_owned())
            .chain(step.clone());
        let told = self.tries(all);
        assert_eq!(told.code, Some(code), "{step:?}: {}{}", told.out, told.err);
        serde_json::from_str(&told.out).unwrap_or_else(|e| panic!("{step:?}: {e}: {}", told.out))
    }

    /// Takes a step that must be refused with `code`, changing nothing; gives the sentence.
    pub(crate) fn is_refused<I, A>(&self, step: I, code: i32) -> String
    where
        I: IntoIterator<Item = A>,
        A: AsRef<OsStr>,
    {
        let before = self.state();
        let step: Vec<_> = step.into_iter().map(|a| a.as_ref().to_owned()).collect();
        let all = std::iter::once(OsStr::new("--yes").to_owned()).chain(step.clone());
        let told = self.tries(all);
        assert_eq!(told.code, Some(code), "{step:?}: {}{}", told.out, told.err);
        assert!(!told.err.contains("panicked"), "{}", told.err);
        assert_eq!(self.state(), before, "{step:?} changed something");
        told.err
    }

    /// Entries, and one hash over all of them, of a book that is whole; none without a book.
    pub(crate) fn state(&self) -> Option<(u64, String)> {
        if !self.book().join("book.sqlite").exists() {
            return None;
        }
        let verified = self.does(["verify"]);
        assert_eq!(verified["whole"], true, "{verified}");
        let crew = self.does(["crew"]);
        Some((
            crew["entries"].as_u64().unwrap(),
            crew["digest"].as_str().unwrap().to_owned(),
        ))
    }

    /// Takes a locked file that `other` makes for it.
    pub(crate) fn takes_from(&self, other: &Self) -> Value {
        let file = other.makes_file();
        self.takes(&file)
    }

    /// Makes a locked file under a new name.
    pub(crate) fn makes_file(&self) -> PathBuf {
        let number = std::fs::read_dir(self.dir.path()).unwrap().count();
        let file = self.file(&format!("{number}.locked"));
        self.does([OsStr::new("swap"), "make".as_ref(), file.as_ref()]);
        file
    }

    /// Takes one locked file; gives what it brought.
    pub(crate) fn takes(&self, file: &Path) -> Value {
        self.does([OsStr::new("swap"), "take".as_ref(), file.as_ref()])["files"][0].clone()
    }
}

/// Brings both to the same records.
pub(crate) fn swap(a: &Phone, b: &Phone) {
    a.takes_from(b);
    b.takes_from(a);
    assert_eq!(a.state(), b.state(), "the two differ after a swap");
}

/// The text at a JSON pointer.
pub(crate) fn text(value: &Value, at: &str) -> String {
    let found = value
        .pointer(at)
        .unwrap_or_else(|| panic!("no {at} in {value}"));
    found
        .as_str()
        .unwrap_or_else(|| panic!("{at} is no text in {value}"))
        .to_owned()
}

/// The label sheet that most tests use, as typed from an invented label.
pub(crate) const LABEL: [&str; 12] = [
    "product=Granule Example",
    "registration=00000-0",
    "method=granule",
    "rate_least=nothing",
    "rate_most=2.5 lb/1000 ft2",
    "wind_most=10 mph",
    "rain_free=12 h",
    "temperature_least=50 F",
    "temperature_most=90 F",
    "keep_off_until_dry=yes",
    "keep_off_wait=4 h",
    "repeat_after=30 days",
];

/// Types the label and reads it back.
pub(crate) fn label(phone: &Phone) -> Value {
    let mut new = vec!["label", "new", "--ingredient", "bifenthrin=0.2 %"];
    let mut again = vec!["label", "read-back", "granule"];
    for field in LABEL {
        new.extend(["--field", field]);
    }
    for field in &LABEL[3..] {
        again.extend(["--field", field]);
    }
    let made = phone.does(new);
    phone.does(again);
    made
}

/// A yard with two measured sections, and a visit to it.
pub(crate) fn yard_and_visit(phone: &Phone) -> Value {
    phone.does(["yard", "add", "Maple", "--zone", "America/New_York"]);
    phone.does([
        "section",
        "add",
        "maple",
        "front",
        "--rectangle",
        "60 ft x 25 ft",
    ]);
    phone.does([
        "section",
        "add",
        "maple",
        "back",
        "--triangle",
        "30 ft, 40 ft, 50 ft",
    ]);
    phone.does(["visit", "open", "maple", "--target", "white grubs"])
}

/// Everything before a start: label, yard, visit, plan.
pub(crate) fn planned(phone: &Phone) {
    label(phone);
    yard_and_visit(phone);
    phone.does([
        "plan",
        "maple",
        "--label",
        "granule",
        "--rate",
        "2.5 lb/1000 ft2",
        "--holds",
        "3 lb",
        "--vessel",
        "0.1 lb",
    ]);
}

/// Treats without having checked much, acknowledging what is not known.
pub(crate) fn started(phone: &Phone) {
    planned(phone);
    let told = phone.ends(["ready", "maple"], 3);
    let mut step = vec!["start".to_owned(), "maple".to_owned()];
    for finding in told["findings"].as_array().unwrap() {
        if finding["verdict"] == "unknown" {
            step.extend(["--acknowledge".to_owned(), text(finding, "/check")]);
        }
    }
    phone.does(step);
}

/// A treatment with its finish.
pub(crate) fn finished(phone: &Phone) {
    started(phone);
    phone.does(["load", "maple", "--product", "5.2 lb"]);
    phone.does(["finish", "maple"]);
}
