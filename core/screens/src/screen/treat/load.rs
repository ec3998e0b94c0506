//! A load that was put on: how much, where, when. The amount is never filled in beforehand.

use maud::{Markup, html};
use sward_book::ids::{KeepOffId, VisitId};

use super::read::Treating;
use crate::ask::{Ask, Doing, Next};
use crate::part::form::{FormPart, NumberField};
use crate::screen::visit::Here;
use crate::server::Form;
use crate::trouble::Wrong;
use crate::words::{Units, Words};
use crate::{Result, Trouble};

/// A clock read and typed by hand may be this far ahead before yesterday is meant.
const AHEAD_MOST_MS: i64 = 120_000;

pub(super) fn form(ask: &Ask<'_>, treating: &Treating) -> Markup {
    let form = ask.form_keyed("load", &treating.loads.len().to_string());
    let sections: Vec<(String, String)> = treating
        .keep_offs
        .iter()
        .map(|k| (k.keep_off.to_string(), k.name.clone()))
        .collect();
    let every: Vec<String> = sections.iter().map(|(id, _)| id.clone()).collect();
    let when = [
        ("now", ask.t("treat-just-now")),
        ("at", ask.t("treat-at-time")),
    ];
    form.wrap(html! {
        (amounts(ask, treating, &form))
        @if sections.len() > 1 {
            (form.several("on", "treat-load-on", &sections, &every))
        }
        (form.choice("when", "treat-load-when", &when, None))
        (form.time("at", "treat-time", "treat-time-help", None))
        (form.quiet_submit("treat-load-keep"))
    })
}

/// Product, and water where there is any.
pub(super) fn amounts(ask: &Ask<'_>, treating: &Treating, form: &FormPart<'_>) -> Markup {
    let unit = treating.product_unit(ask.words.units);
    let water = match ask.words.units {
        Units::Us => "gal",
        Units::Metric => "L",
    };
    let number = |name, label, unit: &str| {
        form.number(&NumberField {
            name,
            label,
            unit,
            filled: None,
            from: String::new(),
        })
    };
    html! {
        (number("product", "treat-load-product", &unit))
        @if treating.is_wet() { (number("water", "treat-load-water", water)) }
    }
}

/// Records a load.
pub(super) fn load(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let (now_ms, words) = (doing.now_ms(), doing.words);
    let words = Here::read(doing.book()?, visit, words)?.words;
    let product = doing.form.amount_needed("product")?;
    let water = doing.form.amount("water")?;
    let on: Vec<KeepOffId> = doing
        .form
        .all("on")
        .map(|id| {
            id.parse()
                .map_err(|_| Trouble::field("on", Wrong::NotOffered))
        })
        .collect::<Result<_>>()?;
    let all = doing.book()?.keep_offs_of(visit)?.len();
    if all > 1 && on.is_empty() {
        return Err(Trouble::field("on", Wrong::Missing));
    }
    let at_ms = when(doing.form, now_ms, words)?;
    doing
        .book()?
        .load(visit, on, product, water, at_ms)
        .map_err(|e| Trouble::in_field("product", e))?;
    Ok(Next::Go(format!("/visit/{visit}/treat")))
}

/// Just now, or at a time of day; never taken for granted.
fn when(form: &Form, now_ms: i64, words: Words) -> Result<i64> {
    match form.text("when") {
        "now" => Ok(now_ms),
        "at" => time_before(form, "at", now_ms, words),
        _ => Err(Trouble::field("when", Wrong::Missing)),
    }
}

/// The last time before now that the clock showed what stands in a field: shortly after midnight
/// that was yesterday.
pub(super) fn time_before(form: &Form, field: &str, now_ms: i64, words: Words) -> Result<i64> {
    let today = words.day_of(now_ms);
    let missing = || Trouble::field(field, Wrong::Missing);
    let at = form.time(field, today, words.zone)?.ok_or_else(missing)?;
    if at <= now_ms.saturating_add(AHEAD_MOST_MS) {
        return Ok(at);
    }
    let yesterday = today.pred_opt().ok_or_else(missing)?;
    form.time(field, yesterday, words.zone)?.ok_or_else(missing)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Language;

    /// 2026-06-15 00:10 in New York.
    const NOW: i64 = 1_781_496_600_000;

    fn at(time: &str) -> Result<i64> {
        let words = Words {
            language: Language::English,
            units: Units::Us,
            zone: chrono_tz::Tz::America__New_York,
        };
        let form = crate::testing::sent(&[("at", time)]);
        time_before(&form, "at", NOW, words)
    }

    #[test]
    fn a_time_still_to_come_was_yesterday() {
        assert_eq!(at("00:05").unwrap(), NOW - 5 * 60_000);
        assert_eq!(at("00:12").unwrap(), NOW + 2 * 60_000, "read off by hand");
        assert_eq!(at("23:50").unwrap(), NOW - 20 * 60_000);
        assert!(at("").unwrap_err().of_field("at").is_some());
        assert!(at("25:00").unwrap_err().of_field("at").is_some());
    }
}
