//! Calculations on their own: each reads what was typed, asks the rules, and shows the answer with
//! its working. Nothing is stored.

mod area;
mod calibration;
mod control;
mod convert;
mod degree_days;
mod keep_off;
mod key;
mod mix;
mod notice;
mod place;
mod rate;
mod record_fields;
mod samples;
mod season;
mod sign;
mod sky;
mod spots;
mod tank;
mod water;

pub(super) use control::{control_line, henderson_tilton};

use serde::Serialize;
use serde_json::{Map, Value, json};
use sward_rules::label::{Label, LabelSays, Method};
use sward_rules::measure::AreaEstimate;
use sward_rules::plan::Vessel;
use sward_rules::{Answer as Answered, Entered, Finding, Working};

use crate::args::{Calc, CalcArgs, LabelRates};
use crate::error::Result;
use crate::print::{Answer, Page};
use crate::words;

/// Runs `sward calc`.
pub(super) fn run(args: &CalcArgs) -> Result<Answer> {
    let worked = match &args.what {
        Calc::Area(args) => area::area(args)?,
        Calc::Convert(args) => convert::convert(args)?,
        Calc::Spreader(args) => calibration::spreader(args)?,
        Calc::CatchBoxes(args) => calibration::catch_boxes(args)?,
        Calc::Sprayer(args) => calibration::sprayer(args)?,
        Calc::Nozzles(args) => calibration::nozzles(args)?,
        Calc::Pace(args) => calibration::pace(args)?,
        Calc::Calibration(args) => calibration::calibration(args)?,
        Calc::KeepOff(args) => keep_off::keep_off(args)?,
        Calc::Sign(args) => sign::sign(args)?,
        Calc::Notice(args) => notice::notice(args)?,
        Calc::RecordFields(args) => record_fields::record_fields(args)?,
        Calc::Sun(args) => sky::sun(args)?,
        Calc::Wind(args) => sky::wind(args)?,
        Calc::Air(args) => sky::air(args)?,
        Calc::Inversion(args) => sky::inversion(args)?,
        Calc::DownWind(args) => sky::down_wind(args)?,
        Calc::Rate(args) => rate::rate(args)?,
        Calc::Mix(args) => mix::mix(args)?,
        Calc::Tank(args) => tank::tank(args)?,
        Calc::HoseEnd(args) => water::hose_end(args)?,
        Calc::Passes(args) => water::passes(args)?,
        Calc::Spots(args) => spots::spots(args)?,
        Calc::WateringIn(args) => water::watering_in(args)?,
        Calc::Season(args) => season::season(args)?,
        Calc::Repeat(args) => season::repeat(args)?,
        Calc::Stock(args) => season::stock(args)?,
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
    findings: Vec<Finding>,
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

    /// Adds what the label and others say to it.
    fn findings(&mut self, findings: impl IntoIterator<Item = Finding>) -> &mut Self {
        self.findings.extend(findings);
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
        words::findings_table(&mut page, &self.findings);
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
        if !self.findings.is_empty() {
            let judged = words::findings_json(&self.findings);
            self.values
                .insert("verdict".into(), judged["verdict"].clone());
            self.values
                .insert("findings".into(), judged["findings"].clone());
        }
        self.values
            .insert("working".into(), Value::Object(workings));
        Answer::new(page, Value::Object(self.values))
    }
}

/// An area as stated, without a doubt of its own.
fn stated(area: &Entered) -> Result<AreaEstimate> {
    Ok(AreaEstimate::stated(area, &Entered::parse("0 ft2")?)?)
}

fn vessel(step: Entered) -> Vessel {
    Vessel {
        name: "the measure".into(),
        least_step: step,
    }
}

/// A label sheet with what was typed of rates. What was left out is not known, but for a least: a
/// label with one rate has none.
fn label(rates: &LabelRates) -> Label {
    Label {
        rate_least: rates.least.clone().unwrap_or(LabelSays::Nothing),
        rate_most: rates.most.clone().unwrap_or_default(),
        carrier_least: rates.carrier_least.clone().unwrap_or_default(),
        ..Label::unfilled(Method::Drench)
    }
}

/// A worked-out amount for a person, to four digits; a program has all of them.
fn short(amount: &Entered) -> String {
    let rounded = amount.amount().round_sf(4).map(|digits| digits.normalize());
    let rounded = rounded.and_then(|digits| Entered::new(digits, amount.unit()).ok());
    rounded.as_ref().unwrap_or(amount).for_person()
}
