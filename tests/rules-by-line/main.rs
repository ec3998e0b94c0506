//! The rules for other languages' tests: each line on the input is a question in JSON, and is
//! answered by one line of JSON. Who asks, and what the answers are held against, is in
//! `tests/differential`.
//!
//! A question names its subject under `ask`. What a rule refuses is answered with `refused` and the
//! error's own JSON; a question that cannot be read ends the program.

mod air;
mod look;
mod measure;
mod quantity;
mod sun;

use std::io::{BufRead as _, BufWriter, Write as _};
use std::process::ExitCode;

use serde_json::{Value, json};
use sward_rules::RuleError;

/// Why there is no answer.
enum Fault {
    /// A rule refused, which is an answer too.
    Refused(RuleError),
    /// The question cannot be read.
    Question(String),
}

impl From<RuleError> for Fault {
    fn from(error: RuleError) -> Self {
        Self::Refused(error)
    }
}

impl From<serde_json::Error> for Fault {
    fn from(error: serde_json::Error) -> Self {
        Self::Question(error.to_string())
    }
}

type Answered = Result<Value, Fault>;

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            let _ = writeln!(std::io::stderr(), "rules-by-line: {error}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<(), Box<dyn std::error::Error>> {
    let mut out = BufWriter::new(std::io::stdout().lock());
    for line in std::io::stdin().lock().lines() {
        let line = line?;
        let answer = match answer(&line) {
            Ok(value) => value,
            Err(Fault::Refused(error)) => json!({ "refused": error }),
            Err(Fault::Question(why)) => return Err(format!("{why}, in {line}").into()),
        };
        writeln!(out, "{answer}")?;
    }
    Ok(out.flush()?)
}

fn answer(line: &str) -> Answered {
    let question: Value = serde_json::from_str(line)?;
    match text(&question, "ask")? {
        "units" => Ok(quantity::units()),
        "convert" => quantity::convert(&question),
        "geodesic" => measure::geodesic(&question),
        "shape" => measure::shape(&question),
        "air" => air::air(&question),
        "poisson" => look::poisson(&question),
        "sun-day" => sun::day(&question),
        "sun-position" => sun::position(&question),
        other => Err(Fault::Question(format!("no such subject: {other}"))),
    }
}

fn text<'q>(question: &'q Value, key: &str) -> Result<&'q str, Fault> {
    question[key]
        .as_str()
        .ok_or_else(|| Fault::Question(format!("`{key}` is no text")))
}

fn number(question: &Value, key: &str) -> Result<f64, Fault> {
    question[key]
        .as_f64()
        .ok_or_else(|| Fault::Question(format!("`{key}` is no number")))
}
