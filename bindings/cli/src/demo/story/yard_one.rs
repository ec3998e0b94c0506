//! Yard 1 in the morning, on phone 1: look, measure, plan, and a first try that ends in "don't
//! treat".

use serde_json::Value;
use sward_rules::sky::StationReport;

use super::{
    Day, FRONT, LIQUID, PEST, PRODUCT, SIDE, YARD_1, area_words, finding_of, must, opening,
    unknown, wind_words,
};
use crate::demo::answer::{amount, list, number, part, text};
use crate::demo::files::METAR_MORNING;
use crate::demo::phone::step;
use crate::error::Result;

impl Day<'_> {
    pub(super) fn first_try(&self) -> Result<()> {
        self.teller.chapter(
            "09:15",
            "Yard 1: is it the pest, are there enough, how big is the lawn, how much goes on?",
        )?;
        self.count_above()?;
        self.measure()?;
        self.plan_liquid()?;
        self.plan_granules()?;
        self.teller.chapter("09:40", "May I, in this wind?")?;
        self.measure_wind()?;
        self.not_in_this_wind()
    }

    fn count_above(&self) -> Result<()> {
        let counted = self.ivy.at("09:15").does(step![
            "count",
            YARD_1,
            "--pest",
            PEST,
            "--can",
            "6 in",
            "--counts",
            "11,9,13,8,12,10",
            "--note",
            "yellow patch by the walk; hardly a big-eyed bug",
        ])?;
        let decided = part(&counted, "/decisions/0")?;
        must(
            text(decided, "/decision")? == "treating_may_pay",
            "treating may pay",
        )?;
        self.teller.step(
            "1",
            &format!(
                "Chinch bugs, not the look-alikes that hunt them. {} in six cans: {} ({}).",
                number(&counted, "/density/count")?,
                text(decided, "/reason")?,
                text(decided, "/threshold/source")?,
            ),
        )
    }

    fn measure(&self) -> Result<()> {
        let walk = self.files.named("front-lawn.gpx");
        let front = self
            .ivy
            .at("09:25")
            .does(step!["section", "add", YARD_1, FRONT, "--gpx", &walk])?;
        let side = self.ivy.does(step![
            "section",
            "add",
            YARD_1,
            SIDE,
            "--triangle",
            "30 ft, 40 ft, 50 ft",
        ])?;
        self.teller.step("1", &format!(
            "The front lawn by a walk with the phone, {} bad fixes of {} dropped (no position, a jump, poor \
accuracy, a pause): {}. The side strip by tape: {}.",
            list(&front, "/walk/dropped")?.len(),
            number(&front, "/walk/read")?,
            area_words(&front)?,
            area_words(&side)?,
        ))
    }

    /// A liquid is looked at first, and turned down.
    fn plan_liquid(&self) -> Result<()> {
        self.ivy.at("09:28").does(step![
            "label",
            "new",
            "--field",
            format!("product={LIQUID}"),
            "--field",
            "registration=EPA Reg. No. 00000-001-DEMO",
            "--field",
            "method=foliar_spray",
            "--field",
            "rate_most=0.6 fl oz/1000 ft2",
            "--field",
            "carrier_least=2 gal/1000 ft2",
        ])?;
        let planned = self.ivy.does(step![
            "plan",
            YARD_1,
            "--label",
            LIQUID,
            "--rate",
            "0.6 fl oz/1000 ft2",
            "--carrier",
            "2 gal/1000 ft2",
            "--holds",
            "4 gal",
            "--vessel",
            "0.1 fl oz",
        ])?;
        self.teller.step(
            "1",
            &format!(
                "A liquid would take {} in {} of mix, {} fills of the backpack.",
                amount(&planned, "/plan/product/value/measured_out")?,
                amount(&planned, "/plan/carrier/value")?,
                list(&planned, "/plan/loads/value")?.len(),
            ),
        )
    }

    fn plan_granules(&self) -> Result<()> {
        let planned = self.ivy.at("09:30").does(step![
            "plan",
            YARD_1,
            "--label",
            PRODUCT,
            "--rate",
            "2.5 lb/1000 ft2",
            "--carrier",
            "",
            "--holds",
            "20 lb",
            "--vessel",
            "0.1 lb",
            "--passes",
            "2",
            "--swath",
            "8 ft",
        ])?;
        let loads: Vec<String> = list(&planned, "/plan/loads/value")?
            .iter()
            .map(|load| amount(load, "/product"))
            .collect::<Result<_>>()?;
        self.teller.step("1", &format!(
            "Granules: {}, rounded down, never above the label's most. Two passes at right angles at {} \
             each, lines {} apart; hopper loads of {}.",
            amount(&planned, "/plan/product/value/measured_out")?,
            amount(&planned, "/plan/passes/value/rate_each")?,
            amount(&planned, "/plan/passes/value/line_spacing")?,
            loads.join(" and "),
        ))
    }

    fn measure_wind(&self) -> Result<()> {
        let wind = self.files.named("wind-morning.csv");
        let read = self
            .ivy
            .at("09:40")
            .does(step!["reading", YARD_1, "--wind-file", &wind])?;
        let station = StationReport::parse(METAR_MORNING.trim())?;
        let words = |speed: Option<sward_rules::Entered>| {
            speed.map_or_else(|| "not told".to_owned(), |speed| speed.for_person())
        };
        self.teller.step(
            "1",
            &format!(
                "Station {}: {}, gust {}. A forecast is at hand. By hand meter at the yard: {}.",
                station.station,
                words(station.wind),
                words(station.gust),
                wind_words(&read)?,
            ),
        )
    }

    fn not_in_this_wind(&self) -> Result<()> {
        let ready = self.ready(METAR_MORNING)?;
        let finding = finding_of(&ready, "wind")?;
        must(
            text(&ready, "/verdict")? == "dont_treat",
            "the answer is: don't treat",
        )?;
        must(
            text(finding, "/verdict")? == "dont_treat",
            "because of the wind",
        )?;
        self.teller.step("1", &format!(
            "DON'T TREAT: {} is above the label's {}. By the forecast it may open at {}; measure again then. {} \
more checks are \"not known\" yet, which never counts as allowed.",
            text(finding, "/value")?,
            text(finding, "/limit")?,
            opening(&ready)?,
            unknown(&ready)?.len(),
        ))
    }

    /// Asks "may I?", with all that is known from afar.
    pub(super) fn ready(&self, metar: &str) -> Result<Value> {
        let forecast = self.files.named("forecast.json");
        self.ivy.asks(step![
            "ready",
            YARD_1,
            "--metar",
            metar.trim(),
            "--forecast",
            &forecast,
            "--job-min",
            "45",
        ])
    }
}
