//! Keep off: who may be where? Each keep-off of a visit with its reason and end, "I looked: it is
//! dry", and who was told.
//!
//! What ends a keep-off is the book's to say; here a person only states what they saw or decide.

mod one;
mod sign;
mod words;

use maud::{Markup, html};
use sward_book::Book;
use sward_book::fact::{Fact, ToldHow};
use sward_book::ids::{KeepOffId, VisitId};
use sward_book::view::keep_off::KeepOffView;
use sward_rules::keep_off::WaterIn;

use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::part;
use crate::part::keep_off::{card, terms, told};
use crate::trouble::Wrong;
use crate::words::Words;
use crate::{Result, Trouble};

pub(crate) const SCREENS: &[Screen] = &[
    Screen {
        path: "/visit/{visit}/keep-off",
        show,
        acts: &[("dry", dry), ("told", tell)],
    },
    one::SCREEN,
    sign::SCREEN,
    words::SCREEN,
];

/// Ways of telling people, with the names of their messages and of the form's values.
const WAYS: [(ToldHow, &str, &str); 5] = [
    (ToldHow::InPerson, "in_person", "keep-told-in-person"),
    (ToldHow::Phone, "phone", "keep-told-phone"),
    (ToldHow::Message, "message", "keep-told-message"),
    (ToldHow::Note, "note", "keep-told-note"),
    (ToldHow::Sign, "sign", "keep-told-sign"),
];

/// The words in the zone of a visit's yard.
fn words_of(book: &Book, words: Words, visit: VisitId) -> Result<Words> {
    let yard = book.visit(visit)?.yard;
    let zone = yard
        .and_then(|yard| book.yard_sheet(yard).ok())
        .and_then(|sheet| sheet.zone);
    Ok(words.in_zone(zone))
}

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let visit: VisitId = ask.param("visit")?;
    let words = words_of(book, ask.words, visit)?;
    let all = book.keep_offs_of(visit)?;
    let main = html! {
        @if all.is_empty() {
            p { (ask.t("keep-none")) }
            (part::next_step(&format!("/visit/{visit}"), &ask.t("keep-to-visit")))
        } @else {
            @for view in &all {
                (card(ask, words, view))
                p.note { (reason(words, view)) }
                (part::way(&format!("/visit/{visit}/keep-off/{}", view.keep_off), &ask.t("keep-change")))
            }
            (dry_form(ask, words, &all)?)
            (part::way(&format!("/visit/{visit}/keep-off/words"), &ask.t("keep-words")))
            (part::way(&format!("/visit/{visit}/keep-off/sign"), &ask.t("keep-sign-page")))
            (told_form(ask, words, &all)?)
            (part::way(&format!("/visit/{visit}/recheck"), &ask.t("keep-to-recheck")))
            p.note { (ask.t("frame-label-is-the-law")) }
        }
    };
    Ok(Page {
        title: ask.t("keep-title"),
        main,
        place: Place::Today,
        back: Some(format!("/visit/{visit}")),
    })
}

/// Why it keeps off: what the standing claims ask for.
fn reason(words: Words, view: &KeepOffView) -> String {
    let asked: Vec<String> = view
        .standing_claims()
        .map(|c| terms(words, &c.terms))
        .collect();
    words.t_with("keep-asked", &[("terms", asked.join("; ").into())])
}

/// What the labels with which these sections were treated say of watering in.
fn water_in(book: &Book, views: &[&KeepOffView]) -> Vec<WaterIn> {
    let facts = views.iter().flat_map(|view| &view.applications);
    facts
        .filter_map(|fact| match book.fact(*fact) {
            Ok((_, Fact::Started(start))) => Some(WaterIn::from_label(&start.label.watering_in)),
            _ => None,
        })
        .collect()
}

fn dry_form(ask: &Ask<'_>, words: Words, all: &[KeepOffView]) -> Result<Markup> {
    let waiting: Vec<&KeepOffView> = all
        .iter()
        .filter(|view| view.last_applied_utc_ms.is_some())
        .filter(|view| told(words, view.standing(ask.now), ask.now).needs_look)
        .collect();
    let wait_for_look: Vec<(String, String)> = waiting
        .iter()
        .map(|view| (view.keep_off.to_string(), view.name.clone()))
        .collect();
    let water_in = water_in(ask.book()?, &waiting);
    let form = ask.form("dry");
    Ok(html! {
        @if !wait_for_look.is_empty() {
            section.card {
                h2 { (ask.t("keep-dry-title")) }
                p { (ask.t("keep-dry-how")) }
                @if water_in.contains(&WaterIn::Asked) { p { strong { (ask.t("keep-dry-water-in")) } } }
                @if water_in.contains(&WaterIn::Open) { p.unknown { (ask.t("keep-dry-water-open")) } }
                (form.wrap(html! {
                    (form.several("keep_off", "keep-dry-where", &wait_for_look, &[]))
                    (form.choice("when", "keep-dry-when", &[
                        ("now", ask.t("keep-dry-now")),
                        ("at", ask.t("keep-dry-at")),
                    ], None))
                    (form.time("at", "keep-dry-time", "keep-dry-time-help", None))
                    (form.submit("keep-dry-say"))
                }))
            }
        }
    })
}

fn dry(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let words = doing.words;
    let words = words_of(doing.book()?, words, visit)?;
    let keep_offs = chosen(doing.form.all("keep_off"))?;
    let now_ms = doing.now_ms();
    let looked_ms = match doing.text("when") {
        "now" => now_ms,
        "at" => doing
            .form
            .time("at", words.day_of(now_ms), words.zone)?
            .ok_or_else(|| Trouble::field("at", Wrong::Missing))?,
        _ => return Err(Trouble::field("when", Wrong::Missing)),
    };
    doing.book()?.looked_dry(visit, &keep_offs, looked_ms)?;
    Ok(Next::Go(format!("/visit/{visit}/keep-off")))
}

fn chosen<'a>(values: impl Iterator<Item = &'a str>) -> Result<Vec<KeepOffId>> {
    let keep_offs: Vec<KeepOffId> = values
        .map(|v| {
            v.parse()
                .map_err(|_| Trouble::field("keep_off", Wrong::NotOffered))
        })
        .collect::<Result<_>>()?;
    if keep_offs.is_empty() {
        return Err(Trouble::field("keep_off", Wrong::Missing));
    }
    Ok(keep_offs)
}

fn told_form(ask: &Ask<'_>, words: Words, all: &[KeepOffView]) -> Result<Markup> {
    let book = ask.book()?;
    let mut lines = Vec::new();
    let mut facts: Vec<_> = all
        .iter()
        .flat_map(|view| view.told.iter().copied())
        .collect();
    facts.sort_unstable();
    facts.dedup();
    for fact in facts {
        let (entry, Fact::KeepOffTold(told)) = book.fact(fact)? else {
            continue;
        };
        let way = WAYS
            .iter()
            .find(|(how, _, _)| *how == told.how)
            .map_or("", |(_, _, key)| key);
        let key = if told.told_dry_check {
            "keep-told-line-dry"
        } else {
            "keep-told-line"
        };
        lines.push(
            words.t_with(
                key,
                &[
                    ("who", told.who.clone().into()),
                    ("how", words.t(way).into()),
                    (
                        "at",
                        words
                            .moment_near(entry.body().written.utc_ms, ask.now.utc_ms)
                            .into(),
                    ),
                ],
            ),
        );
    }
    let form = ask.form("told");
    let ways: Vec<(&str, String)> = WAYS
        .iter()
        .map(|(_, value, key)| (*value, ask.t(key)))
        .collect();
    let sections: Vec<(String, String)> = all
        .iter()
        .map(|v| (v.keep_off.to_string(), v.name.clone()))
        .collect();
    let every: Vec<String> = sections.iter().map(|(id, _)| id.clone()).collect();
    Ok(html! {
        section.card {
            h2 { (ask.t("keep-told-title")) }
            @if lines.is_empty() { p.unknown { (ask.t("keep-told-nobody")) } }
            ul.list { @for line in &lines { li { (line) } } }
            (form.wrap(html! {
                (form.text("who", "keep-told-who", "", None))
                (form.choice("how", "keep-told-how", &ways, None))
                (form.several("keep_off", "keep-told-where", &sections, &every))
                (form.tick("dry_check", &ask.t("keep-told-dry-check"), false))
                (form.submit("keep-told-say"))
            }))
        }
    })
}

fn tell(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let who = doing.needed("who")?.to_owned();
    let how = WAYS
        .iter()
        .find(|(_, value, _)| *value == doing.text("how"))
        .map(|(how, _, _)| *how)
        .ok_or_else(|| Trouble::field("how", Wrong::Missing))?;
    let keep_offs = chosen(doing.form.all("keep_off"))?;
    let dry_check = doing.form.is_ticked("dry_check");
    doing
        .book()?
        .tell_keep_off(visit, &keep_offs, &who, how, dry_check)?;
    Ok(Next::Go(format!("/visit/{visit}/keep-off")))
}
