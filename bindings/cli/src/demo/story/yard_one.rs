//! Yard 1 in the morning, on phone 1: look, measure, plan, and a first try that ends in "don't
//! treat".

use serde_json::Value;

use super::{Day, FRONT, LIQUID, PEST, PRODUCT, SIDE, YARD_1, area_words, finding_of, opening, unknown, wind_words};
use crate::demo::answer::{amount, list, number, part, text};
use crate::demo::files::METAR_MORNING;
use crate::demo::phone::step;
use crate::error::{CliError, Result};

impl Day<'_> {
    pub(super) fn first_try(&self) -> Result<()> {
        self.teller.chapter("09:15", "Yard 1: is it the pest, and are there enough to treat?")?;
        self.count_above()?;
        self.teller.chapter("09:25", "How big is the lawn, and how much goes on?")?;
        self.measure()?;
        self.plan_liquid()?;
        self.plan_granules()?;
        self.teller.chapter("09:40", "May I, in this wind?")?;
        self.not_in_this_wind()
    }

    fn count_above(&self) -> Result<()> {
        let counted = self.ivy.at("09:15").does(step![
            "count", YARD_1, "--pest", PEST, "--can", "6 in", "--counts", "11,9,13,8,12,10",
            "--note", "yellow patch by the walk; hardly a big-eyed bug",
        ])?;
        let decided = part(&counted, "/decisions/0")?;
        self.teller.step(&format!(
            "Ivy looks closely: chinch bugs, not the big-eyed bugs that are taken for them and eat them. \
             {} nymphs in a 6-inch can at six places: {} ({}).",
            number(&counted, "/density/count")?,
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
        self.teller.step(&format!(
            "The front lawn by walking round it with the phone: of {} fixes {} are dropped (no position, \
             a jump, under a tree, a pause at the gate): {}. The side strip by tape: {}.",
            number(&front, "/walk/read")?,
            list(&front, "/walk/dropped")?.len(),
            area_words(&front)?,
            area_words(&side)?,
        ))
    }

    /// A liquid is looked at first, and turned down.
    fn plan_liquid(&self) -> Result<()> {
        self.ivy.at("09:28").does(step![
            "label", "new", "--field", format!("product={LIQUID}"), "--field",
            "registration=EPA Reg. No. 00000-001-DEMO", "--field", "method=foliar_spray", "--field",
            "rate_most=0.6 fl oz/1000 ft2", "--field", "carrier_least=2 gal/1000 ft2",
        ])?;
        let planned = self.ivy.does(step![
            "plan", YARD_1, "--label", LIQUID, "--rate", "0.6 fl oz/1000 ft2", "--carrier",
            "2 gal/1000 ft2", "--holds", "4 gal", "--vessel", "0.1 fl oz",
        ])?;
        self.teller.step(&format!(
            "A liquid ({LIQUID}, 0.6 fl oz in 2 gal per 1000 ft²) would take {} in {} of mix: {} fills of \
             the 4-gal backpack.",
            amount(&planned, "/plan/product/value/measured_out")?,
            amount(&planned, "/plan/carrier/value")?,
            list(&planned, "/plan/loads/value")?.len(),
        ))
    }

    fn plan_granules(&self) -> Result<()> {
        let planned = self.ivy.at("09:30").does(step![
            "plan", YARD_1, "--label", PRODUCT, "--rate", "2.5 lb/1000 ft2", "--carrier", "",
            "--holds", "20 lb", "--vessel", "0.1 lb", "--passes", "2", "--swath", "8 ft",
        ])?;
        let loads: Vec<String> = list(&planned, "/plan/loads/value")?
            .iter()
            .map(|load| amount(load, "/product"))
            .collect::<Result<_>>()?;
        self.teller.step(&format!(
            "Granules: {}, rounded down so as not to pass the label's most. Two passes at right angles at \
             {} each, lines {} apart; hopper loads of {}.",
            amount(&planned, "/plan/product/value/measured_out")?,
            amount(&planned, "/plan/passes/value/rate_each")?,
            amount(&planned, "/plan/passes/value/line_spacing")?,
            loads.join(" and "),
        ))
    }

    fn not_in_this_wind(&self) -> Result<()> {
        let wind = self.files.named("wind-morning.csv");
        let read = self.ivy.at("09:40").does(step!["reading", YARD_1, "--wind-file", &wind])?;
        self.teller.step(&format!(
            "Station report {}; the gridpoint forecast of the weather service; {} readings of the hand \
             meter at the yard, {}.",
            METAR_MORNING.trim().trim_end_matches('='),
            number(&read, "/wind/count")?,
            wind_words(&read)?,
        ))?;
        let ready = self.ready(METAR_MORNING)?;
        let finding = finding_of(&ready, "wind")?;
        if ready["verdict"] != "dont_treat" || finding["verdict"] != "dont_treat" {
            return Err(CliError::Refused(format!("the demo's wind is not too strong: {finding}")));
        }
        self.teller.step(&format!(
            "DON'T TREAT: the wind of {} is above the label's {}. By the forecast it may open at {}; \
             measure again then.",
            text(finding, "/value")?,
            text(finding, "/limit")?,
            opening(&ready)?,
        ))?;
        self.teller.step(&format!(
            "{} more checks, such as soil, blooms and the walk round the yard, are not made yet. What is \
             not known never counts as allowed.",
            unknown(&ready)?.len(),
        ))
    }

    /// Asks "may I?", with all that is known from afar.
    pub(super) fn ready(&self, metar: &str) -> Result<Value> {
        let forecast = self.files.named("forecast.json");
        self.ivy.asks(step![
            "ready", YARD_1, "--metar", metar.trim(), "--forecast", &forecast, "--job-min", "45",
        ])
    }
}
