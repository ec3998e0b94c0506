//! How readiness is shown: one big answer, the one next step, then each finding with its reason.
//!
//! What is asked for is in [`super::form`], [`super::walk`] and [`super::far`]; the start in
//! [`super::start`].

use maud::{Markup, html};
use sward_book::BookError;
use sward_book::ids::VisitId;
use sward_book::view::visit::VisitState;
use sward_rules::finding::{Check, Finding, Verdict, sum};
use sward_rules::sky::{NextWindow, SkyAdvice, summarise, which_checks};
use sward_rules::walk_round;

use super::form::{Group, form, missing_and_had};
use super::read::{HOLDS_MS, Ready, Recorded};
use super::{far, start, sun};
use crate::Result;
use crate::ask::{Ask, Page, Place};
use crate::part;
use crate::part::amounts::rounded;
use crate::part::finding::{finding, verdict, worst_first};
use crate::screen::visit::Here;
use crate::sketch::{Sketch, Wind};
use crate::words::Units;

/// One mile an hour in metres per second, by definition of the international mile.
const MS_PER_MPH: f64 = 0.447_04;

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let visit: VisitId = ask.param("visit")?;
    let here = Here::read(book, visit, ask.words)?;
    let label = book.plan(visit)?.and_then(|plan| plan.label);
    let sheet = label.map(|label| (label, book.label_sheet(label)));
    let main = if here.visit.state != VisitState::Looking {
        no_more(ask, &here)
    } else if let Some((label, Err(BookError::Refused(_)))) = sheet {
        // Its method is empty or in conflict, and without it nothing can be held against it.
        html! {
            p { (ask.t("ready-label-unfit")) }
            (part::next_step(&format!("/things/labels/{label}"), &ask.t("ready-to-label")))
        }
    } else if let Some((_, Ok(_))) = sheet {
        ready(ask, &Ready::read(book, ask.shared, visit, ask.words)?)?
    } else {
        html! {
            p { (ask.t("ready-no-plan")) }
            (part::next_step(&format!("/visit/{visit}/plan"), &ask.t("ready-to-plan")))
        }
    };
    Ok(Page {
        title: ask.t("ready-title"),
        main,
        place: Place::Today,
        back: Some(format!("/visit/{visit}")),
    })
}

/// Treating has started, or the visit has ended.
fn no_more(ask: &Ask<'_>, here: &Here) -> Markup {
    let visit = here.visit.visit;
    html! {
        @if here.visit.state == VisitState::NotTreated {
            p { (ask.t("ready-ended")) }
            (part::next_step(&format!("/visit/{visit}"), &ask.t("ready-to-visit")))
        } @else {
            p { (ask.t("ready-started")) }
            (part::next_step(&format!("/visit/{visit}/treat"), &ask.t("ready-to-treat")))
        }
    }
}

/// What a person does next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Step {
    /// Fill in what can be read or seen.
    Look,
    /// Walk round the yard.
    Walk,
    /// Have it checked and recorded.
    Check,
    /// Start.
    Start,
}

/// The one next step: what is recorded and holds carries a start, whatever else could be looked at.
pub(super) fn next_step(can_start: bool, missing: usize, walk_is_open: bool) -> Step {
    if can_start {
        Step::Start
    } else if missing > 0 {
        Step::Look
    } else if walk_is_open {
        Step::Walk
    } else {
        Step::Check
    }
}

fn ready(ask: &Ask<'_>, ready: &Ready) -> Result<Markup> {
    let clock_ms = ask.shared.setting.env.clock().utc_ms;
    let recorded = ready.to_start_on(clock_ms);
    let (missing, had) = missing_and_had(ready);
    let step = next_step(recorded.is_some(), missing.len(), walk_is_open(ready));
    let visit = ready.here.visit.visit;
    Ok(html! {
        @if !ask.now.proven { (time_uncertain(ask)) }
        (answer(ask, ready, recorded, clock_ms))
        @match step {
            Step::Start => @if let Some(recorded) = recorded { (start::form(ask, ready, recorded)?) },
            Step::Look => (look(ask, ready, &missing)),
            Step::Walk => (part::next_step(&walk_path(visit), &ask.t("ready-to-walk"))),
            Step::Check => (check(ask, true)),
        }
        (opens_next(ask, ready))
        @if step == Step::Look || step == Step::Walk { (check(ask, false)) }
        (findings(ask, ready))
        (part::way(&walk_path(visit), &ask.t("ready-walk-again")))
        (further(ask, ready, &missing, &had, step))
        (far::forms(ask, ready)?)
        (down_wind(ask, ready)?)
        (sun::sun(ask, ready))
        @if step == Step::Start { (check(ask, false)) }
        (part::way(&format!("/visit/{visit}/end"), &ask.t("ready-why-not")))
        p.note { (ask.t("frame-label-is-the-law")) }
    })
}

/// Whether a row of the walk round the yard is not answered.
fn walk_is_open(ready: &Ready) -> bool {
    let yard_checks = walk_round::which_checks(ready.label.method);
    let open = |f: &Finding| yard_checks.contains(&f.check) && f.verdict == Verdict::Unknown;
    ready.findings.iter().any(open)
}

/// Whether sky and yard were looked at as far as a person can.
pub(super) fn nothing_to_look_at(ready: &Ready) -> bool {
    missing_and_had(ready).0.is_empty() && !walk_is_open(ready)
}

fn walk_path(visit: VisitId) -> String {
    format!("/visit/{visit}/ready/walk")
}

/// Said plainly, because no reading's age is known then.
pub(super) fn time_uncertain(ask: &Ask<'_>) -> Markup {
    html! {
        div.wrong {
            p { (ask.t("ready-time-uncertain")) }
            (part::way("/crew/time", &ask.t("ready-confirm-time")))
        }
    }
}

/// The sum in one word and shape, and what it rests on.
fn answer(ask: &Ask<'_>, ready: &Ready, recorded: Option<&Recorded>, clock_ms: i64) -> Markup {
    let words = ready.here.words;
    let with_time =
        |key: &str, at: i64| words.t_with(key, &[("at", words.moment_near(at, clock_ms).into())]);
    html! {
        p.big { (verdict(ask, sum(&ready.findings))) }
        p { strong { (ready.label.product) } }
        @match (recorded, &ready.recorded) {
            (Some(now), _) => p {
                (with_time("ready-checked", now.at_utc_ms)) " "
                (with_time("ready-holds", now.at_utc_ms + HOLDS_MS))
            },
            (None, Some(old)) if old.is_fresh(clock_ms) => p { (ask.t("ready-changed-since")) },
            (None, Some(old)) => p { (with_time("ready-too-old", old.at_utc_ms)) },
            (None, None) => p { (ask.t("ready-not-checked")) },
        }
    }
}

fn check(ask: &Ask<'_>, is_next: bool) -> Markup {
    let form = ask.form("check");
    form.wrap(html! {
        @if is_next { (form.submit("ready-check")) } @else { (form.quiet_submit("ready-check")) }
    })
}

fn look(ask: &Ask<'_>, ready: &Ready, missing: &[Group]) -> Markup {
    html! {
        section.card {
            h2 { (ask.t("ready-look")) }
            (form(ask, ready, missing, true))
        }
    }
}

/// Forms that are not the next step: what is missing still, and reading again.
fn further(ask: &Ask<'_>, ready: &Ready, missing: &[Group], had: &[Group], step: Step) -> Markup {
    let again: Vec<Group> = match step {
        Step::Look => had.to_vec(),
        _ => missing.iter().chain(had).copied().collect(),
    };
    html! {
        @if !again.is_empty() {
            details {
                summary { (ask.t("ready-look-again")) }
                (form(ask, ready, &again, false))
            }
        }
    }
}

/// When it may open next, by the forecast; only where it is not open now.
fn opens_next(ask: &Ask<'_>, ready: &Ready) -> Markup {
    if sum(&ready.findings) < Verdict::Unknown {
        return html! {};
    }
    let words = ready.here.words;
    let at = |utc_ms: i64| words.moment_near(utc_ms, ask.now.utc_ms);
    let (line, reasons) = match &ready.window {
        NextWindow::MayOpen {
            from_utc_ms,
            to_utc_ms,
            reasons,
        } => {
            let args = [
                ("from", at(*from_utc_ms).into()),
                ("to", at(*to_utc_ms).into()),
            ];
            (words.t_with("ready-opens", &args), reasons)
        }
        NextWindow::NotSeen { reasons } => (ask.t("ready-opens-not-known"), reasons),
    };
    html! {
        div.card {
            p { strong { (ask.t("ready-wait")) } " " (line) }
            // words: reason-* shown-* word-*
            @for reason in reasons { p.note { (words.said("reason", reason)) } }
        }
    }
}

/// Sky, yard, label and rate; in each the worst first, what hits no limit folded away.
fn findings(ask: &Ask<'_>, ready: &Ready) -> Markup {
    let sky = which_checks(ready.label.method);
    let yard = walk_round::which_checks(ready.label.method);
    let group = |title: &str, is_in: &dyn Fn(Check) -> bool| {
        let own: Vec<Finding> = ready
            .findings
            .iter()
            .filter(|f| is_in(f.check))
            .cloned()
            .collect();
        let (clear, other): (Vec<_>, Vec<_>) = worst_first(&own)
            .into_iter()
            .partition(|f| f.verdict == Verdict::Clear);
        let n = i64::try_from(clear.len()).unwrap_or(i64::MAX);
        html! {
            h2 { (ask.t(title)) " " (verdict(ask, sum(&own))) }
            @for one in other { (finding(ask, one)) }
            @if !clear.is_empty() {
                details {
                    summary { (ask.words.t_with("ready-clear", &[("n", n.into())])) }
                    @for one in clear { (finding(ask, one)) }
                }
            }
        }
    };
    html! {
        (group("ready-sky", &|c| sky.contains(&c)))
        (group("ready-yard", &|c| yard.contains(&c)))
        (group("ready-label-and-rate", &|c| !sky.contains(&c) && !yard.contains(&c)))
    }
}

/// Where the wind blows to, and what lies there by the yard sketch.
fn down_wind(ask: &Ask<'_>, ready: &Ready) -> Result<Markup> {
    let advice = SkyAdvice::default();
    let wind = summarise(&ready.readings, ask.now, &advice);
    let from = wind
        .as_ref()
        .and_then(|w| Some((w.from_degrees?, w.mean_mph, w.age_min)));
    let (Some((from_degrees, mean_mph, age_min)), Some(yard), Some(sheet)) =
        (from, ready.here.visit.yard, &ready.here.yard)
    else {
        return Ok(html! {
            h2 { (ask.t("ready-down-wind")) }
            p { span.unknown { (ask.t("frame-not-known")) } " " (ask.t("ready-down-wind-why")) }
        });
    };
    let words = ready.here.words;
    let age = words.span(i64::from(age_min) * 60_000);
    let mean = words.t_with(
        "ready-wind-mean",
        &[("mean", speed(ask, mean_mph).into()), ("age", age.into())],
    );
    let sketch = Sketch::for_yard(ask, yard, sheet)?;
    let sketch = if ready.plan.sections.is_empty() {
        sketch
    } else {
        sketch.only(&ready.plan.sections)
    };
    let sketch = sketch
        .with_wind(Some(Wind {
            from_deg: f64::from(from_degrees),
            mean,
        }))
        .seen_from_street(sheet.street_bearing_deg);
    Ok(html! {
        h2 { (ask.t("ready-down-wind")) }
        (sketch.markup(words))
        @if sheet.marks.iter().all(|m| m.hidden) { p.note { (ask.t("ready-no-marks")) } }
    })
}

fn speed(ask: &Ask<'_>, mph: f64) -> String {
    let (value, unit) = match ask.words.units {
        Units::Us => (mph, "mph"),
        Units::Metric => (mph * MS_PER_MPH, "m/s"),
    };
    let sign = sward_rules::quantity::Unit::parse(unit)
        .map_or_else(|_| unit.to_owned(), |u| ask.words.unit(u));
    format!("{} {sign}", rounded(ask.words, value, 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_recorded_carries_a_start_and_else_the_eyes_come_first() {
        assert_eq!(next_step(true, 3, true), Step::Start);
        assert_eq!(next_step(false, 1, true), Step::Look);
        assert_eq!(next_step(false, 0, true), Step::Walk);
        assert_eq!(next_step(false, 0, false), Step::Check);
    }
}
