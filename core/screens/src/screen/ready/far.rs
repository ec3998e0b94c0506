//! What is known from afar: a station's report as text, a forecast as a file. That it was heard is
//! recorded with the visit; its text lies on the desk until newer visits take its place.
//!
//! What it is worth for a yard is the rules' to say.

use maud::{Markup, html};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use sha2::{Digest as _, Sha256};
use sward_book::ids::{Hash, VisitId};
use sward_rules::RuleError;
use sward_rules::finding::Check;
use sward_rules::sky::{Forecast, StationReport};

use super::read::Ready;
use crate::ask::{Ask, Doing, Next};
use crate::state::Shared;
use crate::{Result, Trouble};

/// Texts are kept for this many visits: a few stops of one day.
const VISITS_MOST: usize = 4;

/// What the rules read of a forecast file; the rest of it is not kept.
const LAYERS: [&str; 9] = [
    "updateTime",
    "windSpeed",
    "windGust",
    "windDirection",
    "relativeHumidity",
    "temperature",
    "probabilityOfPrecipitation",
    "quantitativePrecipitation",
    "skyCover",
];

/// A text on the desk.
#[derive(Serialize, Deserialize)]
struct Kept {
    visit: String,
    at_utc_ms: i64,
    text: String,
}

/// The report that was heard for a visit, and when.
pub(super) fn report(shared: &Shared, visit: VisitId) -> Result<Option<(i64, StationReport)>> {
    let kept = kept(shared, "report", visit)?;
    // It could be read when it was kept; what cannot be any more is not there.
    Ok(kept.and_then(|k| Some((k.at_utc_ms, StationReport::parse(&k.text).ok()?))))
}

/// The forecast that was taken in for a visit, and when.
pub(super) fn forecast(shared: &Shared, visit: VisitId) -> Result<Option<(i64, Forecast)>> {
    let kept = kept(shared, "forecast", visit)?;
    Ok(kept.and_then(|k| Some((k.at_utc_ms, Forecast::parse(k.text.as_bytes()).ok()?))))
}

fn slot_name(what: &str, slot: usize) -> String {
    format!("ready {what} {slot}")
}

fn slots(shared: &Shared, what: &str) -> Result<Vec<Option<Kept>>> {
    let desk = shared.desk();
    (0..VISITS_MOST)
        .map(|slot| {
            let text = desk.setting(&slot_name(what, slot))?;
            Ok(text.and_then(|text| serde_json::from_str(&text).ok()))
        })
        .collect()
}

fn kept(shared: &Shared, what: &str, visit: VisitId) -> Result<Option<Kept>> {
    let visit = visit.to_string();
    let all = slots(shared, what)?;
    Ok(all.into_iter().flatten().find(|kept| kept.visit == visit))
}

/// Keeps a text in the visit's own slot, or in that of the visit heard of longest ago.
fn keep(shared: &Shared, what: &str, kept: &Kept) -> Result<()> {
    let all = slots(shared, what)?;
    let own = all
        .iter()
        .position(|s| s.as_ref().is_some_and(|s| s.visit == kept.visit));
    let oldest =
        (0..VISITS_MOST).min_by_key(|slot| all[*slot].as_ref().map_or(i64::MIN, |s| s.at_utc_ms));
    let slot = own.or(oldest).unwrap_or(0);
    let text = serde_json::to_string(kept).unwrap_or_default();
    shared.desk().set(&slot_name(what, slot), &text)
}

/// Both forms, with what was heard and how old it is.
pub(super) fn forms(ask: &Ask<'_>, ready: &Ready) -> Result<Markup> {
    let visit = ready.here.visit.visit;
    let words = ready.here.words;
    let aged = |key: &str, at: i64, heard: i64| {
        let ago = |ms| words.ago(ms, ask.now.utc_ms);
        words.t_with(
            key,
            &[("made", ago(at).into()), ("heard", ago(heard).into())],
        )
    };
    let forecast = forecast(ask.shared, visit)?;
    let report = report(ask.shared, visit)?;
    let lacks_rain = ready
        .findings
        .iter()
        .any(|f| f.check == Check::Rain && f.verdict == sward_rules::Verdict::Unknown);
    let rain = ask.form("forecast").with_files();
    let station = ask.form("report");
    Ok(html! {
        details open[lacks_rain] {
            summary { (ask.t("ready-forecast-title")) }
            p {
                @if let Some((heard, forecast)) = &forecast {
                    (aged("ready-forecast-kept", forecast.updated_utc_ms, *heard))
                } @else { (ask.t("ready-forecast-none")) }
            }
            (rain.wrap(html! {
                (rain.file("file", "ready-forecast-file", "ready-forecast-help", ".json,.geojson,application/json,application/geo+json"))
                (rain.quiet_submit("ready-forecast-keep"))
            }))
        }
        details {
            summary { (ask.t("ready-report-title")) }
            p {
                @if let Some((heard, report)) = &report {
                    @if let Ok(made) = report.at_utc_ms(ask.now.utc_ms) {
                        (aged("ready-report-kept", made, *heard)) " " code { (report.raw) }
                    }
                } @else { (ask.t("ready-report-none")) }
            }
            (station.wrap(html! {
                (station.lines("text", "ready-report-text", "ready-report-help", None))
                (station.quiet_submit("ready-report-keep"))
            }))
        }
    })
}

/// Takes in a station's report.
pub(super) fn keep_report(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let typed = doing.needed("text")?;
    let text = typed.split_whitespace().collect::<Vec<_>>().join(" ");
    let at_utc_ms = doing.now_ms();
    let in_text = |error: RuleError| Trouble::in_field("text", error);
    let report = StationReport::parse(&text).map_err(in_text)?;
    report.at_utc_ms(at_utc_ms).map_err(in_text)?;
    let whole = sha256(text.as_bytes());
    doing
        .book()?
        .hear_station(visit, &report.station, &report.raw, whole)?;
    let visit_text = visit.to_string();
    keep(
        doing.shared,
        "report",
        &Kept {
            visit: visit_text,
            at_utc_ms,
            text,
        },
    )?;
    Ok(Next::Go(format!("/visit/{visit}/ready")))
}

/// Takes in a forecast's file.
pub(super) fn keep_forecast(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let bytes = doing.form.file("file")?;
    let forecast = Forecast::parse(bytes).map_err(|e| Trouble::in_field("file", e))?;
    let at_utc_ms = doing.now_ms();
    let (whole, text) = (sha256(bytes), what_is_read(bytes));
    let words = doing.words;
    let zone = crate::screen::visit::Here::read(doing.book()?, visit, words)?.words;
    let made = zone.moment(forecast.updated_utc_ms, crate::words::Clock::DayAndTime);
    let made = words.t_with("ready-forecast-made", &[("at", made.into())]);
    doing
        .book()?
        .hear_station(visit, &words.t("ready-forecast-from"), &made, whole)?;
    let visit_text = visit.to_string();
    keep(
        doing.shared,
        "forecast",
        &Kept {
            visit: visit_text,
            at_utc_ms,
            text,
        },
    )?;
    Ok(Next::Go(format!("/visit/{visit}/ready")))
}

fn sha256(bytes: &[u8]) -> Hash {
    Hash(Sha256::digest(bytes).into())
}

/// A forecast's file without what nobody reads: a tenth of it.
fn what_is_read(json: &[u8]) -> String {
    let mut file: Value = serde_json::from_slice(json).unwrap_or_default();
    let mut read = serde_json::Map::new();
    if let Some(all) = file.get_mut("properties").and_then(Value::as_object_mut) {
        for layer in LAYERS {
            if let Some(values) = all.remove(layer) {
                read.insert(layer.to_owned(), values);
            }
        }
    }
    serde_json::json!({ "properties": read }).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_kept_of_a_forecast_reads_as_the_whole_file_does() {
        let whole = include_bytes!("../../../../../fixtures/demo/forecast.json");
        let kept = what_is_read(whole);
        assert_eq!(
            Forecast::parse(kept.as_bytes()).unwrap(),
            Forecast::parse(whole).unwrap()
        );
    }
}
