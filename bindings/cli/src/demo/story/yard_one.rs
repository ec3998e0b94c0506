//! Yard 1 in the morning, on phone 1: look, measure, plan, and a first try that ends in "don't
//! treat".

use sward_rules::Entered;
use sward_rules::sky::StationReport;

use super::{Day, area_words, finding_of, must, opening, unknown, wind_words};
use crate::demo::answer::{amount, list, number, part, text};
use crate::demo::files::METAR_MORNING;
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
        let counted = self.ivy.at("09:15").does(
            "count 12 --pest 'chinch bug' --can '6 in' --counts 11,9,13,8,12,10 \
             --note 'yellow patch by the walk; hardly a big-eyed bug'",
        )?;
        let decided = part(&counted, "/decisions/0")?;
        must(
            text(decided, "/decision")? == "treating_may_pay",
            "there are enough",
        )?;
        let told = format!(
            "Chinch bugs, not the look-alikes that hunt them. {} in six can samples: {} ({}).",
            number(&counted, "/density/count")?,
            text(decided, "/in_english")?,
            text(decided, "/threshold/source")?,
        );
        self.teller.step("1", &told)
    }

    fn measure(&self) -> Result<()> {
        let front = self
            .ivy
            .at("09:25")
            .does("section add 12 'front lawn' --gpx front-lawn.gpx")?;
        let side = self
            .ivy
            .does("section add 12 'side strip' --triangle '30 ft, 40 ft, 50 ft'")?;
        let told = format!(
            "The front lawn by a walk with the phone, {} bad fixes of {} dropped (no position, a \
             jump, poor accuracy, a pause): {}. The side strip by tape: {}.",
            list(&front, "/walk/dropped")?.len(),
            number(&front, "/walk/read")?,
            area_words(&front)?,
            area_words(&side)?,
        );
        self.teller.step("1", &told)
    }

    /// A liquid is looked at first, and turned down.
    fn plan_liquid(&self) -> Result<()> {
        self.ivy.at("09:28").does(
            "label new --field 'product=Demo Liquid' --field method=foliar_spray \
             --field 'registration=EPA Reg. No. 00000-001-DEMO' \
             --field 'rate_most=0.6 fl oz/1000 ft2' --field 'carrier_least=2 gal/1000 ft2'",
        )?;
        let planned = self.ivy.does(
            "plan 12 --label 'Demo Liquid' --rate '0.6 fl oz/1000 ft2' \
             --carrier '2 gal/1000 ft2' --holds '4 gal' --vessel '0.1 fl oz'",
        )?;
        let told = format!(
            "A liquid would take {} in {} of mix, {} fills of the backpack.",
            amount(&planned, "/plan/product/value/measured_out")?,
            amount(&planned, "/plan/carrier/value")?,
            list(&planned, "/plan/loads/value")?.len(),
        );
        self.teller.step("1", &told)
    }

    fn plan_granules(&self) -> Result<()> {
        let planned = self.ivy.at("09:30").does(
            "plan 12 --label 'Demo Granules' --rate '2.5 lb/1000 ft2' --carrier '' \
             --holds '20 lb' --vessel '0.1 lb' --passes 2 --swath '8 ft'",
        )?;
        let loads = list(&planned, "/plan/loads/value")?.iter();
        let loads: Vec<String> = loads
            .map(|load| amount(load, "/product"))
            .collect::<Result<_>>()?;
        let told = format!(
            "Granules: {}, rounded down, never above the label's most. Two passes at right angles \
             at {} each, lines {} apart; hopper loads of {}.",
            amount(&planned, "/plan/product/value/measured_out")?,
            amount(&planned, "/plan/passes/value/rate_each")?,
            amount(&planned, "/plan/passes/value/line_spacing")?,
            loads.join(" and "),
        );
        self.teller.step("1", &told)
    }

    fn measure_wind(&self) -> Result<()> {
        let read = self
            .ivy
            .at("09:40")
            .does("reading 12 --wind-file wind-morning.csv")?;
        let station = StationReport::parse(METAR_MORNING.trim())?;
        let words = |speed: Option<Entered>| {
            speed.map_or_else(|| "not told".to_owned(), |speed| speed.for_person())
        };
        let told = format!(
            "Station {}: {}, gust {}. Forecast at hand. Hand meter here: {}.",
            station.station,
            words(station.wind),
            words(station.gust),
            wind_words(&read)?,
        );
        self.teller.step("1", &told)
    }

    fn not_in_this_wind(&self) -> Result<()> {
        let ready = self
            .ivy
            .asks("ready 12 --metar metar-morning.txt --forecast forecast.json --job-min 45")?;
        let finding = finding_of(&ready, "wind")?;
        must(
            text(&ready, "/verdict")? == "dont_treat",
            "it is no time to treat",
        )?;
        must(
            text(finding, "/verdict")? == "dont_treat",
            "the wind is too strong",
        )?;
        let told = format!(
            "DON'T TREAT: {} is above the label's {}. By the forecast it may open at {}; measure \
             again then. {} more checks are \"not known\" yet, which never counts as allowed.",
            text(finding, "/in_english/value")?,
            text(finding, "/in_english/limit")?,
            opening(&ready)?,
            unknown(&ready)?.len(),
        );
        self.teller.step("1", &told)
    }
}
