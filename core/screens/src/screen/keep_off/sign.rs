//! The sign on the lawn: what the yard's state asks of it, when it may come down, and a paper sign
//! in English and Spanish, ready to print.
//!
//! What states ask for, and a sign's words, are the rules' matter.

use maud::{Markup, html};
use sward_book::ids::VisitId;
use sward_book::view::keep_off::{KeepOffView, Standing};
use sward_rules::Entered;
use sward_rules::keep_off::{Now, State};
use sward_rules::place::{
    Place as Where, SignAsked, SignFacts, SignLanguage, SignPart, SignRule, sign_asked, sign_text,
};

use super::words_of;
use crate::Result;
use crate::ask::{Ask, Page, Place, Screen};
use crate::part;
use crate::part::keep_off::running_on;
use crate::words::{Clock, Words};

pub(super) const SCREEN: Screen = Screen {
    path: "/visit/{visit}/keep-off/sign",
    show,
    acts: &[],
};

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let visit: VisitId = ask.param("visit")?;
    let words = words_of(book, ask.words, visit)?;
    let own = book.keep_offs_of(visit)?;
    let yard = book.visit(visit)?.yard;
    // Who reads a sign stands before the whole yard, whichever visit treated it.
    let mut others = match yard {
        Some(yard) => running_on(book, yard)?,
        None => Vec::new(),
    };
    others.retain(|view| view.visit != visit);
    let state = yard
        .and_then(|yard| book.yard_sheet(yard).ok())
        .map_or_else(String::new, |sheet| sheet.state);
    let place = Where::from_typed(&state);
    let ended = last_applied(&own, &others);
    let asked = ended.map(|ended| sign_asked(place, ended, words.zone));
    let asked = asked.transpose()?;
    let main = html! {
        @if let Some(rule) = place.and_then(Where::sign_rule) { (asks(words, &state, rule.1)) }
        @if let Some(asked) = &asked {
            (up_until(words, &asked.value))
            (part::finding::finding(ask, &asked.value.finding))
            (part::how::how(ask, &asked.working))
        } @else {
            p.unknown { (ask.t("keep-sign-not-finished")) }
        }
        @if let (true, Some(yard)) = (place.is_none(), yard) {
            (part::way(&format!("/yards/{yard}/edit"), &ask.t("keep-sign-set-state")))
        }
        @if !others.is_empty() { p { strong { (ask.t("keep-sign-others")) } } }
        p.note { (ask.t("keep-sign-paper-help")) }
        @if let (Some(ended), Some(asked)) = (ended, &asked) {
            @let all: Vec<&KeepOffView> = own.iter().chain(&others).collect();
            (paper(words, &all, ended, &asked.value, ask.now))
        }
    };
    Ok(Page {
        title: ask.t("keep-sign-page"),
        main,
        place: Place::Today,
        back: Some(format!("/visit/{visit}/keep-off")),
    })
}

/// When the last of it was put on, whatever else was since; none while some of the own is not
/// finished, or nothing was.
fn last_applied(own: &[KeepOffView], others: &[KeepOffView]) -> Option<i64> {
    let each: Option<Vec<i64>> = own.iter().map(|view| view.last_applied_utc_ms).collect();
    let last = each?.into_iter().max()?;
    let since = others.iter().filter_map(|view| view.last_applied_utc_ms);
    Some(since.fold(last, i64::max))
}

fn asks(words: Words, state: &str, rule: &SignRule) -> Markup {
    let length = |inches| words.amount(&Entered::from(inches));
    let row = |part: SignPart, value: Option<String>| {
        part::row(
            // words: keep-sign-part-*
            &words.said("keep-sign-part", &part),
            &value.unwrap_or_default(),
            &words.t("keep-sign-not-read"),
        )
    };
    let size = rule.least_sides.map(|told| {
        let [short, long] = told.value.map(length);
        words.t_with(
            "keep-sign-size",
            &[("short", short.into()), ("long", long.into())],
        )
    });
    let letters = rule
        .letters_least
        .map(|told| words.t_with("keep-sign-least", &[("least", length(told.value).into())]));
    let bottom = match (rule.bottom_least, rule.bottom_most) {
        (Some(least), Some(most)) => Some(words.t_with(
            "keep-sign-between",
            &[
                ("least", length(least.value).into()),
                ("most", length(most.value).into()),
            ],
        )),
        (Some(least), None) => {
            Some(words.t_with("keep-sign-least", &[("least", length(least.value).into())]))
        }
        (None, Some(most)) => {
            Some(words.t_with("keep-sign-most", &[("most", length(most.value).into())]))
        }
        (None, None) => None,
    };
    // words: keep-sign-is-*
    let colour = rule
        .colour
        .map(|told| words.said("keep-sign-is", &told.value));
    let languages = rule.languages.map(|told| {
        let names: Vec<String> = told
            .value
            .iter()
            .map(|language| words.said("keep-sign-is", language))
            .collect();
        names.join(", ")
    });
    let put_up = rule
        .put_up
        .map(|told| words.said("keep-sign-is", &told.value));
    html! {
        section.card {
            h2 { (words.t_with("keep-sign-asks", &[("state", state.to_owned().into())])) }
            dl {
                (row(SignPart::Size, size))
                (row(SignPart::Letters, letters))
                (row(SignPart::Bottom, bottom))
                (row(SignPart::Colour, colour))
                (row(SignPart::Languages, languages))
                (row(SignPart::PutUp, put_up))
            }
        }
    }
}

fn up_until(words: Words, asked: &SignAsked) -> Markup {
    let at = |utc_ms| words.moment(utc_ms, Clock::DayAndTime);
    html! {
        @if let Some(earliest) = asked.earliest_removal_utc_ms {
            p.big { (words.t_with("keep-sign-until", &[("at", at(earliest).into())])) }
        } @else {
            p.unknown { (words.t("keep-sign-until-not-known")) }
        }
        @if let Some(before) = asked.removed_before_utc_ms {
            p { (words.t_with("keep-sign-before", &[("at", at(before).into())])) }
        }
    }
}

/// Until when people keep off by all of them; none while somebody still has to say so.
fn keep_off_until(all: &[&KeepOffView], now: Now) -> Option<i64> {
    let mut until = None;
    for view in all {
        match view.standing(now) {
            Standing::Released => {}
            Standing::ByClaims(
                State::Ended { at_utc_ms: end, .. }
                | State::Runs {
                    until_utc_ms: end,
                    then_dry: false,
                },
            ) => until = until.max(Some(end)),
            Standing::ByClaims(_) => return None,
        }
    }
    until
}

fn paper(words: Words, all: &[&KeepOffView], ended: i64, asked: &SignAsked, now: Now) -> Markup {
    let mut products: Vec<&str> = all.iter().map(|view| view.product.as_str()).collect();
    products.sort_unstable();
    products.dedup();
    let products = products.join(", ");
    let facts = SignFacts {
        product: &products,
        registration: "",
        ended_utc_ms: ended,
        keep_off_until_utc_ms: keep_off_until(all, now),
        stays_until_utc_ms: asked.earliest_removal_utc_ms,
        by: "",
        phone: "",
        zone: words.zone,
    };
    let languages = [(SignLanguage::English, "en"), (SignLanguage::Spanish, "es")];
    html! {
        @for (language, code) in languages {
            section.card.sign lang=(code) {
                @for line in sign_text(language, &facts) { p { (line) } }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use sward_book::Book;
    use sward_book::ids::SheetId;

    use super::*;
    use crate::testing::{Scene, lawn, read_back, treat};
    use crate::words::{Language, Units};

    fn words(language: Language) -> Words {
        Words {
            language,
            units: Units::Us,
            zone: chrono_tz::Tz::America__New_York,
        }
    }

    #[test]
    fn every_states_sign_is_told_whole_in_both_languages() {
        for language in Language::ALL {
            let words = words(language);
            for place in Where::ALL {
                let asked = sign_asked(Some(place), 1_793_491_200_000, words.zone).unwrap();
                let mut told = up_until(words, &asked.value).into_string();
                if let Some((_, rule)) = place.sign_rule() {
                    told += &asks(words, place.code(), rule).into_string();
                }
                assert!(!told.contains('\u{27e6}'), "{place:?}: {told}");
            }
        }
        let (_, rule) = Where::NewYork.sign_rule().unwrap();
        let told = asks(words(Language::English), "NY", rule).into_string();
        for part in [
            "at least 4 in by 5 in",
            "0.375 in",
            "English, Spanish",
            "not read",
        ] {
            assert!(told.contains(part), "{part}: {told}");
        }
    }

    #[test]
    fn a_paper_sign_stands_there_in_both_languages_and_names_no_end_that_is_not_known() {
        let now = Now {
            utc_ms: 1_793_491_200_000,
            proven: true,
        };
        let place = Some(Where::NewYork);
        let words = words(Language::English);
        let asked = sign_asked(place, now.utc_ms, words.zone).unwrap().value;
        let paper = paper(words, &[], now.utc_ms, &asked, now).into_string();
        for part in [
            "KEEP OFF",
            "NO ENTRAR",
            "until whoever treated it says",
            "November 1, 2026, 7:00 pm",
        ] {
            assert!(paper.contains(part), "{part}: {paper}");
        }
    }

    #[test]
    fn what_is_not_finished_has_no_last_application() {
        assert_eq!(last_applied(&[], &[]), None);
    }

    /// Treats the yard with a product whose label keeps off so long, or does not say; the visit.
    fn treated(
        book: &mut Book,
        yard: SheetId,
        product: &str,
        wait: &str,
    ) -> sward_book::Result<VisitId> {
        let label = book.add_label(&[
            ("product", product),
            ("method", "granule"),
            ("rate_most", "3 lb/1000 ft2"),
            ("keep_off_until_dry", "no"),
            ("keep_off_wait", wait),
        ])?;
        read_back(book, label)?;
        let visit = book.open_visit(yard, "white grub")?;
        treat(book, visit, label)?;
        Ok(visit)
    }

    #[test]
    fn a_sign_tells_the_latest_end_on_the_yard_and_none_while_another_visit_knows_none() {
        let (scene, (yard, short)) = Scene::new(|book| {
            let yard = lawn(book, "Corner")?;
            treated(book, yard, "Invented Granules", "4 h")?;
            Ok((yard, treated(book, yard, "Example Bait", "1 h")?))
        });
        let sign = format!("/visit/{short}/keep-off/sign");
        let page = scene.show(&sign);
        // Noon in UTC is 8 in the morning there.
        assert!(
            page.contains("Keep off until June 15, 2026, 12:0"),
            "{page}"
        );
        assert!(
            page.contains("Product: Example Bait, Invented Granules"),
            "{page}"
        );
        assert!(page.contains("other keep-offs run too"), "{page}");
        scene.book(|book| treated(book, yard, "Third", ""));
        let page = scene.show(&sign);
        assert!(page.contains("until whoever treated it says"), "{page}");
    }
}
