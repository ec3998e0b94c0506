//! One keep-off: every claim about its end, and stating, confirming or lifting it with a reason.

use maud::{Markup, html};
use sward_book::ids::{KeepOffId, VisitId};
use sward_book::view::keep_off::{Claim, KeepOffView};
use sward_rules::label::{KeepOffTerms, LabelSays};

use super::words_of;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::part::form::NumberField;
use crate::part::keep_off::{card, terms};
use crate::trouble::Wrong;
use crate::words::Words;
use crate::{Result, Trouble};

pub(super) const SCREEN: Screen = Screen {
    path: "/visit/{visit}/keep-off/{keep_off}",
    show,
    acts: &[("claim", claim), ("confirm", confirm), ("lift", lift)],
};

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let visit: VisitId = ask.param("visit")?;
    let view = book.keep_off(visit, ask.param("keep_off")?)?;
    let words = words_of(book, ask.words, visit)?;
    let is_lead = book
        .secret()
        .is_ok_and(|own| book.roster().is_lead(own.stream()));
    Ok(Page {
        title: ask
            .words
            .t_with("keep-one-title", &[("section", view.name.clone().into())]),
        main: html! {
            (card(ask, words, &view))
            (claims(ask, words, &view))
            (claim_form(ask))
            (reason_form(ask, "confirm", "keep-confirm-title", "keep-confirm-help", "keep-confirm"))
            @if is_lead { (reason_form(ask, "lift", "keep-lift-title", "keep-lift-help", "keep-lift")) }
            @else { p.note { (ask.t("keep-lift-lead-only")) } }
        },
        place: Place::Today,
        back: Some(format!("/visit/{visit}/keep-off")),
    })
}

fn claims(ask: &Ask<'_>, words: Words, view: &KeepOffView) -> Markup {
    html! {
        h2 { (ask.t("keep-claims-title")) }
        ul.list {
            @for claim in &view.claims { li { (claim_line(ask, words, claim)) } }
        }
    }
}

fn claim_line(ask: &Ask<'_>, words: Words, claim: &Claim) -> Markup {
    let who = ask
        .book()
        .ok()
        .and_then(|b| {
            b.roster()
                .member(claim.by)?
                .person
                .as_ref()
                .map(|p| p.name.clone())
        })
        .unwrap_or_else(|| claim.by.short());
    let why = if claim.why.is_empty() {
        ask.t("keep-by-label")
    } else {
        claim.why.clone()
    };
    html! {
        (terms(words, &claim.terms)) " \u{2013} " (who) ": " (why)
        @if claim.superseded_by.is_some() { " " em { (ask.t("keep-superseded")) } }
    }
}

fn claim_form(ask: &Ask<'_>) -> Markup {
    let form = ask.form("claim");
    html! {
        section.card {
            h2 { (ask.t("keep-claim-title")) }
            p { (ask.t("keep-claim-help")) }
            (form.wrap(html! {
                (form.choice("wait_said", "keep-claim-wait", &[
                    ("time", ask.t("keep-claim-wait-time")),
                    ("none", ask.t("keep-claim-wait-none")),
                ], None))
                (form.number(&NumberField { name: "wait", label: "keep-claim-wait-long", unit: "h", filled: None, from: String::new() }))
                (form.choice("until_dry", "keep-claim-dry", &[
                    ("yes", ask.t("keep-claim-dry-yes")),
                    ("no", ask.t("keep-claim-dry-no")),
                ], None))
                (form.lines("why", "keep-why", "keep-why-help", None))
                (form.quiet_submit("keep-claim"))
            }))
        }
    }
}

fn claim(doing: &mut Doing<'_>) -> Result<Next> {
    let (visit, keep_off) = names(doing)?;
    let wait = match doing.text("wait_said") {
        "time" => LabelSays::Value(doing.form.amount_needed("wait")?),
        "none" => LabelSays::Nothing,
        _ => return Err(Trouble::field("wait_said", Wrong::Missing)),
    };
    let until_dry = match doing.text("until_dry") {
        "yes" => LabelSays::Value(true),
        "no" => LabelSays::Value(false),
        _ => return Err(Trouble::field("until_dry", Wrong::Missing)),
    };
    let why = doing.needed("why")?.to_owned();
    let asked = KeepOffTerms { until_dry, wait };
    doing.book()?.claim_keep_off(visit, keep_off, asked, &why)?;
    Ok(back(visit, keep_off))
}

fn reason_form(ask: &Ask<'_>, act: &'static str, title: &str, help: &str, button: &str) -> Markup {
    let form = ask.form(act);
    html! {
        section.card {
            h2 { (ask.t(title)) }
            p { (ask.t(help)) }
            (form.wrap(html! {
                (form.lines("why", "keep-why", "keep-why-help", None))
                (form.quiet_submit(button))
            }))
        }
    }
}

fn confirm(doing: &mut Doing<'_>) -> Result<Next> {
    let (visit, keep_off) = names(doing)?;
    let why = doing.needed("why")?.to_owned();
    doing.book()?.confirm_keep_off(visit, keep_off, &why)?;
    Ok(back(visit, keep_off))
}

fn lift(doing: &mut Doing<'_>) -> Result<Next> {
    let (visit, keep_off) = names(doing)?;
    let why = doing.needed("why")?.to_owned();
    doing.book()?.release_keep_off(visit, keep_off, &why)?;
    Ok(back(visit, keep_off))
}

fn names(doing: &Doing<'_>) -> Result<(VisitId, KeepOffId)> {
    Ok((doing.param("visit")?, doing.param("keep_off")?))
}

fn back(visit: VisitId, keep_off: KeepOffId) -> Next {
    Next::Go(format!("/visit/{visit}/keep-off/{keep_off}"))
}
