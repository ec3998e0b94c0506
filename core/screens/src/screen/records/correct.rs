//! Correcting: a load, a count, the finish; or withdrawing what is wrong. The old stays in the
//! history, and every correction needs its reason.
//!
//! The finish has a file of its own: [`super::finish`].

use maud::{Markup, html};
use sward_book::fact::{Counted, Fact, Loaded, Replacement};
use sward_book::ids::{FactId, VisitId};
use sward_rules::Entered;

use super::fact;
use super::finish;
use super::told::{Known, Told};
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::part::form::{FormPart, NumberField};
use crate::trouble::Wrong;
use crate::words::{Clock, Words};
use crate::{Result, Trouble, part};

pub(super) const SCREEN: Screen = Screen {
    path: "/records/{visit}/correct",
    show,
    acts: &[
        ("load", load),
        ("count", count),
        ("withdraw", withdraw),
        ("finish", finish::correct),
    ],
};

/// What a person can count in one sample.
const COUNT_MOST: i64 = 100_000;

fn show(ask: &Ask<'_>) -> Result<Page> {
    let told = Told::read(ask.book()?, ask.param("visit")?, ask.words)?;
    let loads: Vec<(&Known, &Loaded)> = told
        .standing()
        .filter_map(|k| Some((k, k.load()?)))
        .collect();
    let counts: Vec<(&Known, &Counted)> = told
        .standing()
        .filter_map(|k| Some((k, counted(&k.fact)?)))
        .collect();
    let nothing = told.standing().all(|k| !can_be_withdrawn(&k.fact));
    Ok(Page {
        title: ask.t("records-correct-title"),
        main: html! {
            p { (ask.t("records-correct-help")) }
            @if nothing && told.visit().finishes.is_empty() { p { (ask.t("records-correct-none")) } }
            @for (known, load) in &loads { (load_form(ask, &told, known, load)) }
            @for (known, count) in &counts { (count_form(ask, &told, known, count)) }
            (finish::form(ask, &told)?)
            (withdraw_form(ask, &told))
            (part::way(&format!("/records/{}", told.visit().visit), &ask.t("records-to-record")))
        },
        place: Place::Records,
        back: Some(format!("/records/{}", told.visit().visit)),
    })
}

/// The count that a fact tells, itself or as a correction.
fn counted(fact: &Fact) -> Option<&Counted> {
    match fact {
        Fact::Counted(f) => Some(f),
        Fact::Corrected(c) => match &c.new {
            Replacement::Counted(f) => Some(f),
            _ => None,
        },
        _ => None,
    }
}

/// Whether a fact can be superseded by nothing. A finish is corrected, never withdrawn; what ends a
/// keep-off is stated with the keep-off.
pub(super) fn can_be_withdrawn(fact: &Fact) -> bool {
    match fact {
        Fact::Counted(_)
        | Fact::WindMeasured(_)
        | Fact::WalkedRound(_)
        | Fact::SkySeen(_)
        | Fact::ReturnPlanned(_)
        | Fact::KeepOffTold(_)
        | Fact::Aftercare(_)
        | Fact::HalfWayChecked(_)
        | Fact::ControlCounted(_)
        | Fact::Loaded(_)
        | Fact::LookedDry(_)
        | Fact::NotTreated(_) => true,
        // What replaces an earlier fact can itself be wrong; what withdrew one brings nothing back.
        Fact::Corrected(c) => !matches!(c.new, Replacement::Finished(_) | Replacement::Nothing),
        _ => false,
    }
}

/// A correction of a finished visit does not stand in its record before that is made anew.
fn after(told: &Told) -> Next {
    let visit = told.visit().visit;
    Next::Go(if told.visit().finishes.is_empty() {
        format!("/records/{visit}")
    } else {
        format!("/records/{visit}/correct")
    })
}

fn why_field(form: &FormPart<'_>) -> Markup {
    form.lines("why", "records-why", "records-why-help", None)
}

fn load_form(ask: &Ask<'_>, told: &Told, known: &Known, load: &Loaded) -> Markup {
    let form = ask.form_keyed("load", &known.line.fact.to_string());
    let words = told.words();
    let was = |old: String| words.t_with("records-was", &[("old", old.into())]);
    let number = |name, label, amount: &Entered| {
        form.number(&NumberField {
            name,
            label,
            unit: &amount.unit().for_person(),
            filled: None,
            from: was(words.amount(amount)),
        })
    };
    html! {
        section.card {
            h2 { (ask.t("records-correct-load")) }
            p { (ask.words.t_with("records-recorded", &[("old", fact::loaded(told, load).into())])) }
            (form.wrap(html! {
                p.note { (ask.t("records-empty-stays")) }
                (number("product", "records-load-product", &load.product))
                @if let Some(water) = &load.water {
                    (number("water", "records-load-water", water))
                    (form.tick("no_water", &ask.t("records-load-no-water"), false))
                }
                (form.day("day", "records-load-day", "records-empty-day", None))
                (form.time("time", "records-load-time", "", None))
                (why_field(&form))
                (form.quiet_submit("records-correct-load"))
            }))
        }
    }
}

fn load(doing: &mut Doing<'_>) -> Result<Next> {
    let (told, old) = named(doing)?;
    let old_load = told
        .find(old)
        .and_then(Known::load)
        .ok_or(Trouble::NotFound)?;
    let product = doing.form.amount("product");
    let water = doing.form.amount("water");
    let at = moment(
        doing,
        told.words(),
        ("day", "time"),
        old_load.applied_utc_ms,
    );
    let why = doing.needed("why").map(str::to_owned);
    let (product, water, at, why) = match (product, water, at, why) {
        (Ok(product), Ok(water), Ok(at), Ok(why)) => (product, water, at, why),
        (product, water, at, why) => {
            let wrong = [product.err(), water.err(), at.err(), why.err()];
            return Err(Trouble::Fields(wrong.into_iter().flatten().collect()));
        }
    };
    let no_water = doing.form.is_ticked("no_water");
    if no_water && water.is_some() {
        return Err(Trouble::field("no_water", Wrong::BothSaid));
    }
    let new = Loaded {
        product: product.unwrap_or(old_load.product),
        water: if no_water {
            None
        } else {
            water.or(old_load.water)
        },
        applied_utc_ms: at.unwrap_or(old_load.applied_utc_ms),
        ..old_load.clone()
    };
    if new == *old_load {
        return Err(Trouble::field("product", Wrong::Missing));
    }
    let visit = told.visit().visit;
    doing
        .book()?
        .correct(visit, vec![old], Replacement::Loaded(new), &why)?;
    Ok(after(&told))
}

/// A moment typed as day and time; a day alone or a time alone changes only that part of the old.
pub(super) fn moment(
    doing: &Doing<'_>,
    words: Words,
    (day, time): (&str, &str),
    old_ms: i64,
) -> Result<Option<i64>> {
    let typed = doing.form.day(day)?;
    let on = typed.unwrap_or_else(|| words.day_of(old_ms));
    match doing.form.time(time, on, words.zone)? {
        Some(at) => Ok(Some(at)),
        None if typed.is_some() => Err(Trouble::field(time, Wrong::Missing)),
        None => Ok(None),
    }
}

fn count_field(number: usize) -> String {
    format!("count{number}")
}

fn count_form(ask: &Ask<'_>, told: &Told, known: &Known, count: &Counted) -> Markup {
    let form = ask.form_keyed("count", &known.line.fact.to_string());
    let words = told.words();
    html! {
        section.card {
            h2 { (ask.t("records-correct-count")) }
            p { (ask.words.t_with("records-recorded", &[("old", fact::counted(words, count).into())])) }
            (form.wrap(html! {
                p.note { (ask.t("records-empty-stays")) }
                @for (number, sample) in count.samples.iter().enumerate() {
                    p { (ask.words.t_with("records-sample", &[("n", (number + 1).into()), ("old", sample.count.into())])) }
                    (form.count(&count_field(number + 1), "records-sample-right", "", None))
                }
                (form.lines("note", "records-note", "", Some(&count.note)))
                (why_field(&form))
                (form.quiet_submit("records-correct-count"))
            }))
        }
    }
}

fn count(doing: &mut Doing<'_>) -> Result<Next> {
    let (told, old) = named(doing)?;
    let old_count = told
        .find(old)
        .and_then(|k| counted(&k.fact))
        .ok_or(Trouble::NotFound)?;
    let mut new = old_count.clone();
    for (number, sample) in new.samples.iter_mut().enumerate() {
        let typed = doing.form.whole(&count_field(number + 1), 0, COUNT_MOST)?;
        if let Some(right) = typed.and_then(|n| u32::try_from(n).ok()) {
            sample.count = right;
        }
    }
    doing.text("note").clone_into(&mut new.note);
    let why = doing.needed("why")?.to_owned();
    if new == *old_count {
        return Err(Trouble::field(count_field(1), Wrong::Missing));
    }
    let visit = told.visit().visit;
    doing
        .book()?
        .correct(visit, vec![old], Replacement::Counted(new), &why)?;
    Ok(after(&told))
}

fn withdraw_form(ask: &Ask<'_>, told: &Told) -> Markup {
    let form = ask.form("withdraw");
    let words = told.words();
    let facts: Vec<(String, String)> = told
        .standing()
        .filter(|k| can_be_withdrawn(&k.fact))
        .map(|k| (k.line.fact.to_string(), withdrawable(told, words, k)))
        .collect();
    let options: Vec<(&str, String)> = facts
        .iter()
        .map(|(id, said)| (id.as_str(), said.clone()))
        .collect();
    html! {
        @if !options.is_empty() {
            section.card {
                h2 { (ask.t("records-withdraw")) }
                p { (ask.t("records-withdraw-help")) }
                (form.wrap(html! {
                    (form.choice("fact", "records-withdraw-what", &options, None))
                    (why_field(&form))
                    (form.quiet_submit("records-withdraw"))
                }))
            }
        }
    }
}

fn withdrawable(told: &Told, words: Words, known: &Known) -> String {
    let at = words.moment(known.line.at.utc_ms, Clock::DayAndTime);
    let name = fact::name(words, &known.fact);
    format!("{name}: {} ({at})", fact::text(told, &known.fact))
}

fn withdraw(doing: &mut Doing<'_>) -> Result<Next> {
    let told = told_of(doing)?;
    let fact = doing
        .needed("fact")?
        .parse::<FactId>()
        .map_err(|_| Trouble::field("fact", Wrong::NotOffered))?;
    let offered = told
        .find(fact)
        .is_some_and(|k| k.stands() && can_be_withdrawn(&k.fact));
    if !offered {
        return Err(Trouble::field("fact", Wrong::ChangedMeanwhile));
    }
    let why = doing.needed("why")?.to_owned();
    let visit = told.visit().visit;
    doing
        .book()?
        .correct(visit, vec![fact], Replacement::Nothing, &why)?;
    Ok(after(&told))
}

/// Everything told of the visit in the address.
pub(super) fn told_of(doing: &mut Doing<'_>) -> Result<Told> {
    let visit: VisitId = doing.param("visit")?;
    let words = doing.words;
    Told::read(doing.book()?, visit, words)
}

/// The visit, and the fact that a form is about. It must still stand: two may not correct the same.
fn named(doing: &mut Doing<'_>) -> Result<(Told, FactId)> {
    let told = told_of(doing)?;
    let fact: FactId = doing
        .text("key")
        .parse()
        .map_err(|_: sward_book::BookError| Trouble::NotFound)?;
    match told.find(fact) {
        Some(known) if known.stands() => Ok((told, fact)),
        Some(_) => Err(Trouble::field("why", Wrong::ChangedMeanwhile)),
        None => Err(Trouble::NotFound),
    }
}
