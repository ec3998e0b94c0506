//! Calculations on their own: each reads what was typed, asks the rules, and shows the answer with
//! its working. Nothing is stored.

mod area;
mod control;
mod degree_days;
mod key;
mod samples;

pub(super) use control::{control_line, henderson_tilton};

use serde::Serialize;
use serde_json::{Map, Value, json};
use sward_rules::{Answer as Answered, Working};

use crate::args::{Calc, CalcArgs};
use crate::error::Result;
use crate::print::{Answer, Page};
use crate::words;

/// Runs `sward calc`.
pub(super) fn run(args: &CalcArgs) -> Result<Answer> {
    let worked = match &args.what {
        Calc::Area(args) => area::area(args)?,
        Calc::Key(args) => key::key(args)?,
        Calc::Samples(args) => samples::samples(args)?,
        Calc::DegreeDays(args) => degree_days::degree_days(args)?,
        Calc::Abbott(args) => control::abbott(args)?,
        Calc::HendersonTilton(args) => control::by_change(args)?,
        Calc::SchneiderOrelli(args) => control::schneider_orelli(args)?,
    };
    Ok(worked.answer(args.how))
}

/// What was worked out: lines for a person, values for a program, and the working behind each.
#[derive(Default)]
struct Worked {
    lines: Vec<String>,
    values: Map<String, Value>,
    workings: Vec<(&'static str, Working)>,
}

impl Worked {
    /// Adds a line for a person.
    fn line(&mut self, text: impl Into<String>) -> &mut Self {
        self.lines.push(text.into());
        self
    }

    /// Adds a value for a program, units in its name.
    fn value(&mut self, name: &str, value: impl Serialize) -> &mut Self {
        self.values.insert(name.into(), json!(value));
        self
    }

    /// Adds the working behind an answer, and hands on its value.
    fn take<T>(&mut self, of: &'static str, answer: Answered<T>) -> T {
        self.workings.push((of, answer.working));
        answer.value
    }

    fn answer(mut self, with_working: bool) -> Answer {
        let mut page = Page::default();
        for line in self.lines {
            page.line(line);
        }
        if with_working {
            for (of, working) in &self.workings {
                words::how(&mut page, of, working);
            }
        }
        let workings: Map<String, Value> = self
            .workings
            .iter()
            .map(|(of, working)| ((*of).to_owned(), json!(working)))
            .collect();
        self.values
            .insert("working".into(), Value::Object(workings));
        Answer::new(page, Value::Object(self.values))
    }
}
