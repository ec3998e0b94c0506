//! A phone of the demo: one folder with its book, and this very program started anew for every
//! step on it. Which steps there are is the story's business.

use std::cell::Cell;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

use serde_json::Value;

use crate::error::{CliError, Exit, Result};

/// The day of the demo in its invented town, four hours behind UTC.
const DAY: &str = "2026-06-16";
const OFFSET: &str = "-04:00";

/// One phone. Only where its book lies and what its clock shows is held here.
pub(super) struct Phone {
    book: PathBuf,
    files: PathBuf,
    program: PathBuf,
    clock: Cell<&'static str>,
}

impl Phone {
    /// A phone whose book lies in the folder `book`, or will, and whose steps name files in the
    /// folder `files`. Both paths are absolute.
    ///
    /// # Errors
    /// When the system does not tell where this program lies.
    pub(super) fn new(book: PathBuf, files: PathBuf) -> Result<Self> {
        let program = std::env::current_exe().map_err(|source| CliError::NotReadable {
            path: PathBuf::from("this program"),
            source,
        })?;
        let clock = Cell::new("21:30");
        Ok(Self {
            book,
            files,
            program,
            clock,
        })
    }

    /// Sets the practice clock, as hours and minutes of the demo's day.
    pub(super) fn at(&self, clock: &'static str) -> &Self {
        self.clock.set(clock);
        self
    }

    /// Takes a step that must go well, typed as in a shell; gives back what it answers.
    ///
    /// # Errors
    /// When it does not go well.
    pub(super) fn does(&self, typed: &str) -> Result<Value> {
        self.answers(typed, &[Exit::Done])
    }

    /// Asks something to which "no" is an answer too: may I treat, is the book whole.
    ///
    /// # Errors
    /// When there is no answer.
    pub(super) fn asks(&self, typed: &str) -> Result<Value> {
        self.answers(typed, &[Exit::Done, Exit::NotReady, Exit::Damaged])
    }

    /// Takes a step that writes bytes to standard output.
    ///
    /// # Errors
    /// When it does not go well.
    pub(super) fn writes(&self, typed: &str) -> Result<Vec<u8>> {
        Ok(self.ends(typed, &[Exit::Done])?.stdout)
    }

    /// Takes a step that must be refused; gives back why it was.
    ///
    /// # Errors
    /// When it is not refused.
    pub(super) fn is_refused(&self, typed: &str) -> Result<String> {
        let output = self.ends(typed, &[Exit::Refused])?;
        let why = said(&output);
        Ok(why.strip_prefix("sward: ").unwrap_or(&why).to_owned())
    }

    fn answers(&self, typed: &str, exits: &[Exit]) -> Result<Value> {
        let output = self.ends(typed, exits)?;
        serde_json::from_slice(&output.stdout).map_err(|_| self.unexpected(typed, &output))
    }

    fn ends(&self, typed: &str, exits: &[Exit]) -> Result<Output> {
        let clock = format!("{DAY}T{}:00{OFFSET}", self.clock.get());
        let output = Command::new(&self.program)
            .arg("--data")
            .arg(&self.book)
            .args(["--practice-clock", clock.as_str(), "--json", "--yes"])
            .args(words(typed))
            .current_dir(&self.files)
            .stdin(Stdio::null())
            .output()
            .map_err(|source| CliError::NotReadable {
                path: self.files.clone(),
                source,
            })?;
        let exit = output.status.code();
        if exits.iter().any(|wanted| exit == Some(*wanted as i32)) {
            Ok(output)
        } else {
            Err(self.unexpected(typed, &output))
        }
    }

    fn unexpected(&self, typed: &str, output: &Output) -> CliError {
        CliError::Refused(format!(
            "`sward {typed}` on the book in {} ended otherwise than it should ({}): {}",
            self.book.display(),
            output.status,
            said(output),
        ))
    }
}

/// The words of a typed line; single quotes hold one together.
fn words(typed: &str) -> Vec<String> {
    let mut words = Vec::new();
    let mut word: Option<String> = None;
    let mut is_quoted = false;
    for c in typed.chars() {
        match c {
            '\'' => {
                is_quoted = !is_quoted;
                word.get_or_insert_default();
            }
            ' ' if !is_quoted => words.extend(word.take()),
            _ => word.get_or_insert_default().push(c),
        }
    }
    words.extend(word);
    words
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).trim().to_owned()
}

#[cfg(test)]
mod tests {
    use super::words;

    #[test]
    fn quotes_hold_words_together_and_may_be_empty() {
        assert_eq!(
            words("plan '12 Pretend Street'  --carrier '' a='b c'"),
            ["plan", "12 Pretend Street", "--carrier", "", "a=b c"]
        );
    }
}
