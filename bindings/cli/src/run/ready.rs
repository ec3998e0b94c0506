//! May I treat, here and now? Every finding of label, sky and yard, as it is then recorded.

use std::path::Path;

use chrono::TimeZone as _;
use chrono_tz::Tz;
use serde_json::json;
use sha2::{Digest as _, Sha256};
use sward_book::Book;
use sward_book::action::{ReadyInputs, judge};
use sward_book::ids::{Hash, SheetId, VisitId};
use sward_rules::finding::{Finding, Verdict, sum};
use sward_rules::sky::{Forecast, NextWindow, Place, StationReport, SunDay, sun_day, which_checks};
use sward_rules::walk_round;

use crate::app::App;
use crate::args::ReadyArgs;
use crate::error::{CliError, Exit, Result};
use crate::names;
use crate::print::{Answer, Page};
use crate::times::moment;
use crate::words::{CAUTION, findings_json, findings_table, opens_next, verdict};

use super::plan::{planned, rate_findings};

/// Files of a forecast are a tenth of this.
const FORECAST_BYTES_MOST: u64 = 5 * 1024 * 1024;
const METAR_BYTES_MOST: u64 = 4096;

/// Runs `sward ready`.
pub(super) fn run(app: &App, args: &ReadyArgs) -> Result<Answer> {
    // Whatever cannot be read is told before anything is written.
    let station = args.metar.as_deref().map(station_report).transpose()?;
    let forecast = args.forecast.as_deref().map(read_forecast).transpose()?;
    let mut book = app.writing()?;
    let visit = names::visit(&book, &args.visit)?;
    let label = label_of(&book, visit, args.label.as_deref())?;
    if let Some(report) = &station {
        report.at_utc_ms(app.now_utc_ms())?;
        book.hear_station(
            visit,
            &report.station,
            &report.raw,
            sha256(report.raw.as_bytes()),
        )?;
    }
    if let Some((forecast, whole)) = &forecast {
        let made = moment(forecast.updated_utc_ms, app.zone_of_visit(&book, visit)?);
        let from = "gridpoint forecast, US National Weather Service";
        book.hear_station(visit, from, &format!("made {made}"), *whole)?;
    }
    let yard = book.visit(visit)?.yard;
    let yard = yard.and_then(|yard| book.yard_sheet(yard).ok());
    let sections = book.plan(visit)?.map(|plan| plan.sections);
    let around = yard.map(|y| sward_screens::around(&y, sections.as_deref().unwrap_or_default()));
    let inputs = ReadyInputs {
        station: station.as_ref(),
        forecast: forecast.as_ref().map(|(forecast, _)| forecast),
        job_min: args.job_min,
        around: around.as_deref(),
    };
    let (mut findings, window) = judge(&book, visit, label, inputs)?;
    let with_rate = planned(&book, visit)
        .ok()
        .filter(|p| p.sheet.label == Some(label));
    match with_rate {
        Some(planned) => findings.extend(rate_findings(&planned)?),
        None => findings.push(Finding::unknown(
            sward_rules::finding::Check::Rate,
            sward_rules::finding::Reason::NoPlan,
        )),
    }
    let opens = match window {
        NextWindow::MayOpen { from_utc_ms, .. } => Some(from_utc_ms),
        NextWindow::NotSeen { .. } => None,
    };
    book.record_findings(visit, label, findings.clone(), opens)?;
    told(app, &book, (visit, label), &findings, &window)
}

/// The label sheet asked for, or the plan's.
fn label_of(book: &Book, visit: VisitId, asked: Option<&str>) -> Result<SheetId> {
    match asked {
        Some(label) => names::label(book, label),
        None => book
            .plan(visit)?
            .and_then(|plan| plan.label)
            .ok_or_else(|| {
                CliError::Usage(
                    "the visit has no plan yet: say which label sheet with --label".into(),
                )
            }),
    }
}

fn told(
    app: &App,
    book: &Book,
    (visit, label): (VisitId, SheetId),
    findings: &[Finding],
    window: &NextWindow,
) -> Result<Answer> {
    let sheet = book.label_sheet(label)?;
    let zone = app.zone_of_visit(book, visit)?;
    let sky_checks = which_checks(sheet.label.method);
    let yard_checks = walk_round::which_checks(sheet.label.method);
    let of = |wanted: &dyn Fn(&Finding) -> bool| -> Vec<Finding> {
        findings.iter().filter(|f| wanted(f)).cloned().collect()
    };
    let sky = of(&|f| sky_checks.contains(&f.check));
    let yard = of(&|f| yard_checks.contains(&f.check));
    let rest = of(&|f| !sky_checks.contains(&f.check) && !yard_checks.contains(&f.check));
    let verdict_now = sum(findings);
    let mut page = Page::of(format!("{}: {}", sheet.label.product, verdict(verdict_now)));
    for (heading, part) in [("Sky", &sky), ("Yard", &yard), ("Label and rate", &rest)] {
        page.blank().line(heading);
        findings_table(&mut page, part);
    }
    page.blank();
    let sun = book
        .visit(visit)?
        .yard
        .and_then(|yard| book.yard_sheet(yard).ok()?.place())
        .and_then(|place| sun_today(place, app.now_utc_ms(), zone));
    if let Some(sun) = &sun {
        let at = |name: &str, at: Option<i64>| at.map(|at| format!("{name} {}", moment(at, zone)));
        let times = [
            at("Sunrise", sun.rises_utc_ms),
            at("Sunset", sun.sets_utc_ms),
        ];
        page.line(times.into_iter().flatten().collect::<Vec<_>>().join(", "));
    }
    if verdict_now >= Verdict::Unknown {
        page.line(opens_next(window, zone));
        page.line(next_step(findings));
    } else {
        page.line(CAUTION);
    }
    let mut json = findings_json(findings);
    json["visit"] = json!(visit);
    json["label"] = json!(label);
    json["sun"] = json!(sun);
    json["opens_next"] = json!(window);
    json["fact"] = json!(super::last_own_fact(book, visit)?);
    let mut answer = Answer::new(page, json);
    if verdict_now >= Verdict::Unknown {
        answer.exit = Exit::NotReady;
    }
    Ok(answer)
}

fn sun_today(place: Place, now_utc_ms: i64, zone: Tz) -> Option<SunDay> {
    let today = zone.timestamp_millis_opt(now_utc_ms).single()?;
    Some(sun_day(place, today.date_naive(), zone).ok()?.value)
}

fn next_step(findings: &[Finding]) -> String {
    let unknown = findings
        .iter()
        .filter(|f| f.verdict == Verdict::Unknown)
        .count();
    let hit = findings
        .iter()
        .filter(|f| f.verdict == Verdict::DontTreat)
        .count();
    match (unknown, hit) {
        (0, _) => "Don't treat. What changes a finding is named beside it; then ask again.".into(),
        (_, 0) => format!("{unknown} not known: check each, then ask again."),
        _ => format!("Don't treat; {unknown} more are not known."),
    }
}

/// A report given as text, or in a file of that name.
fn station_report(given: &str) -> Result<StationReport> {
    let path = Path::new(given);
    if path.is_file() {
        let bytes = super::read_file(path, METAR_BYTES_MOST)?;
        return Ok(StationReport::parse(
            String::from_utf8_lossy(&bytes).trim(),
        )?);
    }
    Ok(StationReport::parse(given)?)
}

fn read_forecast(path: &Path) -> Result<(Forecast, Hash)> {
    let bytes = super::read_file(path, FORECAST_BYTES_MOST)?;
    Ok((Forecast::parse(&bytes)?, sha256(&bytes)))
}

fn sha256(bytes: &[u8]) -> Hash {
    Hash(Sha256::digest(bytes).into())
}
