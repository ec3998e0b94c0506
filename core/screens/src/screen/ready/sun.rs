//! The sun over the yard today: when it rises and sets, and for sprays the hours in which air
//! commonly does not mix.

use maud::{Markup, html};
use sward_book::sheet::YardSheet;
use sward_rules::finding::{Check, Reason};
use sward_rules::sky::{
    AllDay, InversionHours, Place, SkyAdvice, inversion_hours, sun_day, which_checks,
};

use super::read::Ready;
use crate::ask::Ask;
use crate::part::how::how;

/// How far ahead the hours are shown.
const DAY_MS: i64 = 24 * 3_600_000;

/// Sunrise, sunset and the hours; or that the yard's place is not known.
pub(super) fn sun(ask: &Ask<'_>, ready: &Ready) -> Markup {
    let place = ready.here.yard.as_ref().and_then(YardSheet::place);
    html! {
        h2 { (ask.t("ready-sun")) }
        @if let Some(place) = place {
            (told(ask, ready, place))
        } @else {
            // words: reason-*
            p {
                span.unknown { (ask.t("frame-not-known")) } " "
                (ask.words.said("reason", &Reason::YardPlaceNotKnown))
            }
        }
    }
}

fn told(ask: &Ask<'_>, ready: &Ready, place: Place) -> Markup {
    let (words, now_ms) = (ready.here.words, ask.now.utc_ms);
    let at = |utc_ms: i64| words.moment_near(utc_ms, now_ms);
    let Ok(sun) = sun_day(place, words.day_of(now_ms), words.zone) else {
        return html! { p { span.unknown { (ask.t("frame-not-known")) } } };
    };
    let line = |key: &str, utc_ms: Option<i64>| {
        let said = utc_ms.map(|utc_ms| words.t_with(key, &[("at", at(utc_ms).into())]));
        html! { @if let Some(said) = said { p { (said) } } }
    };
    html! {
        (line("ready-sun-rises", sun.value.rises_utc_ms))
        (line("ready-sun-sets", sun.value.sets_utc_ms))
        @if sun.value.all_day == Some(AllDay::Up) { p { (ask.t("ready-sun-up")) } }
        @if sun.value.all_day == Some(AllDay::Down) { p { (ask.t("ready-sun-down")) } }
        @for night in hours(ready, place, now_ms) {
            @if let (Some(from), Some(to)) = (night.from_utc_ms, night.to_utc_ms) {
                p { (words.t_with("ready-sun-hours", &[("from", at(from).into()), ("to", at(to).into())])) }
            } @else {
                p { (ask.t("ready-sun-hours-all-day")) }
            }
        }
        (how(ask, &sun.working))
    }
}

/// The hours of now and of the night to come, where the method asks for them.
fn hours(ready: &Ready, place: Place, now_ms: i64) -> Vec<InversionHours> {
    if !which_checks(ready.label.method).contains(&Check::Inversion) {
        return Vec::new();
    }
    let span = (now_ms, now_ms.saturating_add(DAY_MS));
    inversion_hours(place, span, &SkyAdvice::default()).map_or_else(|_| Vec::new(), |h| h.value)
}
