//! A phone of the demo: one folder with its book, and this very program started anew for every
//! step on it. Which steps there are is the story's business.

use std::cell::Cell;
use std::ffi::OsString;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

use serde_json::Value;

use crate::error::{CliError, Exit, Result};

/// The day of the demo in its invented town, four hours behind UTC.
const DAY: &str = "2026-06-16";
const OFFSET: &str = "-04:00";

/// The words of one step on the command line.
macro_rules! step {
    ($($word:expr),+ $(,)?) => {
        &[$(std::ffi::OsString::from($word)),+]
    };
}
pub(super) use step;

/// One phone. Only where its book lies and what its clock shows is held here.
pub(super) struct Phone {
    folder: PathBuf,
    program: PathBuf,
    clock: Cell<&'static str>,
}

impl Phone {
    /// A phone whose book lies in `folder`, or will.
    ///
    /// # Errors
    /// When the system does not tell where this program lies.
    pub(super) fn new(folder: PathBuf) -> Result<Self> {
        let program = std::env::current_exe().map_err(|source| CliError::NotReadable {
            path: PathBuf::from("this program"),
            source,
        })?;
        Ok(Self {
            folder,
            program,
            clock: Cell::new("21:30"),
        })
    }

    /// Sets the practice clock, as hours and minutes of the demo's day.
    pub(super) fn at(&self, clock: &'static str) -> &Self {
        self.clock.set(clock);
        self
    }

    /// Takes a step that must go well; gives back what it answers.
    ///
    /// # Errors
    /// When it does not go well.
    pub(super) fn does(&self, step: &[OsString]) -> Result<Value> {
        let output = self.ends(step, &[Exit::Done])?;
        self.read(step, &output)
    }

    /// Asks "may I treat?", where "no" is an answer too.
    ///
    /// # Errors
    /// When there is no answer.
    pub(super) fn asks(&self, step: &[OsString]) -> Result<Value> {
        let output = self.ends(step, &[Exit::Done, Exit::NotReady])?;
        self.read(step, &output)
    }

    /// Takes a step that writes bytes to standard output.
    ///
    /// # Errors
    /// When it does not go well.
    pub(super) fn writes(&self, step: &[OsString]) -> Result<Vec<u8>> {
        Ok(self.ends(step, &[Exit::Done])?.stdout)
    }

    /// Proves the book, where "not whole" is an answer too.
    ///
    /// # Errors
    /// When there is no answer.
    pub(super) fn proves(&self) -> Result<Value> {
        let step = step!["verify"];
        let output = self.ends(step, &[Exit::Done, Exit::Damaged])?;
        self.read(step, &output)
    }

    /// Takes a step that must be refused; gives back why it was.
    ///
    /// # Errors
    /// When it is not refused.
    pub(super) fn is_refused(&self, step: &[OsString]) -> Result<String> {
        let output = self.ends(step, &[Exit::Refused])?;
        let why = said(&output);
        Ok(why.strip_prefix("sward: ").unwrap_or(&why).to_owned())
    }

    fn ends(&self, step: &[OsString], exits: &[Exit]) -> Result<Output> {
        let clock = format!("{DAY}T{}:00{OFFSET}", self.clock.get());
        let output = Command::new(&self.program)
            .arg("--data")
            .arg(&self.folder)
            .args(["--practice-clock", clock.as_str(), "--json", "--yes"])
            .args(step)
            .stdin(Stdio::null())
            .output()
            .map_err(|source| CliError::NotReadable {
                path: self.program.clone(),
                source,
            })?;
        let exit = output.status.code();
        if exits.iter().any(|wanted| exit == Some(*wanted as i32)) {
            Ok(output)
        } else {
            Err(self.unexpected(step, &output))
        }
    }

    fn read(&self, step: &[OsString], output: &Output) -> Result<Value> {
        serde_json::from_slice(&output.stdout).map_err(|_| self.unexpected(step, output))
    }

    fn unexpected(&self, step: &[OsString], output: &Output) -> CliError {
        let words: Vec<_> = step.iter().map(|word| word.to_string_lossy()).collect();
        CliError::Refused(format!(
            "`sward {}` on the book in {} ended otherwise than it should ({}): {}",
            words.join(" "),
            self.folder.display(),
            output.status,
            said(output),
        ))
    }
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).trim().to_owned()
}
