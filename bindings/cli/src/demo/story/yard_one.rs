//! Yard 1, phone 1: look, measure, plan, a first try that ends in "don't treat", and in the
//! evening the treatment.

use serde_json::Value;

use super::{Day, FRONT, PEST, PRODUCT, SIDE, YARD_1};
use crate::demo::answer::{amount, list, number, part, text};
use crate::demo::files::{METAR_EVENING, METAR_MORNING};
use crate::demo::phone::step;
use crate::demo::tell::whole;
use crate::error::Result;

impl Day<'_> {
    pub(super) fn first_try_at_yard_one(&self) -> Result<()> {
        self.teller.chapter("09:15", "Yard 1: is it the pest, and are there enough to treat at all?")?;
        self.count_above()?;
        self.teller.chapter("09:20", "How big is the lawn, and how much goes on?")?;
        self.measure()?;
        self.plan()?;
        self.teller.chapter("09:40", "May I, in this wind?")?;
        self.not_in_this_wind()
    }

    fn count_above(&self) -> Result<()> {
        let counted = self.ivy.at("09:15").does(step![
            "count", YARD_1, "--pest", PEST, "--can", "6 in", "--counts", "11,9,13,8,12,10",
            "--note", "brown patch by the walk; hardly any big-eyed bug",
        ])?;
        let decided = part(&counted, "/decisions/0")?;
        self.teller.step(&format!(
            "Chinch bugs, not the big-eyed bugs that hunt them and look alike: a person decides that. \
             Counted in a 6-inch can at six places: {}, nymphs, {}. Treating may pay.",
            text(decided, "/reason")?,
            text(decided, "/threshold/source")?,
        ))
    }

    fn measure(&self) -> Result<()> {
        let walk = self.files.named("front-lawn.gpx");
        let front =
            self.ivy.at("09:25").does(step!["section", "add", YARD_1, FRONT, "--gpx", &walk])?;
        let side = self.ivy.does(step![
            "section", "add", YARD_1, SIDE, "--triangle", "30 ft, 40 ft, 50 ft",
        ])?;
        let dropped = list(&front, "/walk/dropped")?.len();
        self.teller.step(&format!(
            "The front lawn by a walk round it with the phone: {} fixes, {dropped} of them dropped (no \
             position, a jump, under a tree, a pause at the gate): {}. A side strip by tape: {}.",
            number(&front, "/walk/read")?,
            area(&front)?,
            area(&side)?,
        ))
    }

    fn plan(&self) -> Result<()> {
        let planned = self.ivy.at("09:30").does(step![
            "plan", YARD_1, "--label", PRODUCT, "--rate", "2.5 lb/1000 ft2", "--holds", "20 lb",
            "--vessel", "0.1 lb", "--passes", "2", "--swath", "8 ft",
        ])?;
        let loads = list(&planned, "/plan/loads/value")?;
        let loads: Vec<String> =
            loads.iter().map(|load| amount(load, "/product")).collect::<Result<_>>()?;
        self.teller.step(&format!(
            "{}, in two passes at right angles, each at {} and in lines {} apart: {} hopper loads \
             of {}. Never above the label's most: it rounds down.",
            amount(&planned, "/plan/product/value/measured_out")?,
            amount(&planned, "/plan/passes/value/rate_each")?,
            amount(&planned, "/plan/passes/value/line_spacing")?,
            loads.len(),
            loads.join(" and "),
        ))
    }

    fn not_in_this_wind(&self) -> Result<()> {
        let wind = self.files.named("wind-morning.csv");
        let read = self.ivy.at("09:40").does(step!["reading", YARD_1, "--wind-file", &wind])?;
        let ready = self.ready(METAR_MORNING)?;
        let findings = list(&ready, "/findings")?;
        let unknown = findings.iter().filter(|f| f["verdict"] == "unknown").count();
        self.teller.step(&format!(
            "{} The weather service has a forecast; the hand meter at the yard, {} readings: {}.",
            station_words(METAR_MORNING),
            number(&read, "/wind/count")?,
            wind_words(&read)?,
        ))?;
        self.teller.step(&format!(
            "{}: {}. {unknown} checks (soil, blooms, the walk round the yard and more) are not known \
             yet, and not known never counts as allowed.",
            verdict(&ready)?,
            finding(findings, "wind")?,
        ))
    }

    fn ready(&self, metar: &str) -> Result<Value> {
        let forecast = self.files.named("forecast.json");
        self.ivy.asks(step![
            "ready", YARD_1, "--metar", metar.trim(), "--forecast", &forecast, "--job-min", "45",
        ])
    }

    /// The evening: what was not known is looked at, and then it is done.
    pub(super) fn treatment(&self) -> Result<()> {
        self.teller.chapter("18:15", "Yard 1 again: the wind has gone down")?;
        self.look_round()?;
        self.ready_now()?;
        self.spread()
    }
}

/// An area as a person reads it.
pub(super) fn area(measured: &Value) -> Result<String> {
    Ok(format!(
        "{} ft² ± {}",
        whole(number(measured, "/area/area_ft2")?),
        whole(number(measured, "/area/uncertainty_ft2")?),
    ))
}
