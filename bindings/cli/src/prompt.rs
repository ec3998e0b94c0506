//! Asking a person at the terminal. Where there is no terminal nothing is asked: the sentence
//! says which flag to give instead.

use std::io::{self, BufRead as _, IsTerminal as _, Write as _};

use crate::app::App;
use crate::error::{CliError, Result};

/// Whether somebody is there to answer.
pub(crate) fn can_ask() -> bool {
    io::stdin().is_terminal()
}

/// Asks for one line. `flag` is what to give where nobody can be asked.
pub(crate) fn ask(question: &str, flag: &str) -> Result<String> {
    if !can_ask() {
        return Err(CliError::Usage(format!(
            "there is no terminal to ask on: give {flag}"
        )));
    }
    let mut err = io::stderr().lock();
    let _ = write!(err, "{question} ");
    let _ = err.flush();
    let mut line = String::new();
    let read = io::stdin().lock().read_line(&mut line).unwrap_or(0);
    if read == 0 {
        return Err(CliError::Refused(
            "nothing was answered, so nothing was done".into(),
        ));
    }
    Ok(line.trim().to_owned())
}

/// Asks to confirm; `--yes` answers for the person.
pub(crate) fn confirm(app: &App, question: &str) -> Result<()> {
    if app.yes {
        return Ok(());
    }
    let answer = ask(&format!("{question} Type yes:"), "--yes to confirm")?;
    if answer.eq_ignore_ascii_case("yes") {
        Ok(())
    } else {
        Err(CliError::Refused(
            "not confirmed, so nothing was done".into(),
        ))
    }
}
