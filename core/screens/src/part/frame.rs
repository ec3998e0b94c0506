//! The frame around every screen: title, way back, help, and the places at the foot.

use maud::{DOCTYPE, Markup, html};

use crate::ask::{Ask, Page, Place};
use crate::state::Which;
use crate::words::Language;

/// How bright the screen is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Light {
    /// Black on white, for the sun.
    Day,
    /// White on black.
    Night,
    /// As the device is set.
    Device,
}

impl Light {
    /// Its code in settings and in the page.
    pub(crate) fn code(self) -> &'static str {
        match self {
            Self::Day => "day",
            Self::Night => "night",
            Self::Device => "device",
        }
    }

    /// The light of a code; in the sun unless chosen otherwise.
    pub(crate) fn of(code: &str) -> Self {
        [Self::Night, Self::Device]
            .into_iter()
            .find(|l| l.code() == code)
            .unwrap_or(Self::Day)
    }
}

/// The version of a page that is shown once: the script never exchanges it for another.
pub(crate) const SHOWN_ONCE: u64 = 0;

/// A whole page. `version` is what of the book it shows.
pub(crate) fn whole(ask: &Ask<'_>, page: &Page, version: u64) -> Markup {
    let light = ask
        .desk()
        .setting("light")
        .ok()
        .flatten()
        .unwrap_or_default();
    let light = Light::of(&light);
    html! {
        (DOCTYPE)
        html lang=(ask.words.language.code()) data-light=(light.code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (page.title) " \u{2013} Swardbook" }
                link rel="stylesheet" href="/app.css";
                link rel="icon" href="/icon.svg" type="image/svg+xml";
                script src="/app.js" defer {}
            }
            body data-version=(version) data-now=(ask.now.utc_ms) {
                a.skip href="#main" { (ask.t("frame-skip")) }
                (head(ask, page))
                @if ask.shared.which() == Some(Which::Season) {
                    aside.banner { p { (ask.t("frame-season")) } }
                }
                main id="main" tabindex="-1" { (content(ask, page)) }
                p.fresh hidden id="fresh" role="status" {
                    a href=(ask.path) { (ask.t("frame-changed-elsewhere")) }
                }
                @if page.place != Place::Front { (foot(ask, page.place)) }
                (script_words(ask))
            }
        }
    }
}

/// What is between head and foot: this alone is exchanged when something changed elsewhere.
pub(crate) fn content(ask: &Ask<'_>, page: &Page) -> Markup {
    html! {
        h1 { (page.title) }
        @if let Some(again) = ask.again {
            div.wrong role="alert" id="wrong" tabindex="-1" {
                p {
                    @if again.trouble.is_of_fields() { (ask.t("frame-fields-wrong")) }
                    @else { (ask.words.trouble(&again.trouble)) }
                }
                p { (ask.t("frame-nothing-lost")) }
            }
        }
        (page.main)
    }
}

fn head(ask: &Ask<'_>, page: &Page) -> Markup {
    html! {
        header {
            @if let Some(back) = &page.back {
                a.back href=(back) { span aria-hidden="true" { "\u{2190}" } " " (ask.t("frame-back")) }
            } @else {
                span.name { "Swardbook" }
            }
            @if page.place != Place::Front {
                a.help href="/help" { (mark_help()) (ask.t("frame-help")) }
            } @else {
                (languages(ask))
            }
        }
    }
}

/// A ring buoy would be another's sign; a plain cross in a square says aid everywhere.
fn mark_help() -> Markup {
    html! {
        svg.mark viewBox="0 0 24 24" aria-hidden="true" {
            path d="M9 2h6v7h7v6h-7v7H9v-7H2V9h7z" {}
        }
    }
}

/// The other language, before there are settings.
fn languages(ask: &Ask<'_>) -> Markup {
    let other = match ask.words.language {
        Language::English => (Language::Spanish, "Español"),
        Language::Spanish => (Language::English, "English"),
    };
    html! {
        form method="post" action="/language" {
            input type="hidden" name="then" value=(ask.path);
            button.quiet name="language" value=(other.0.code()) lang=(other.0.code()) { (other.1) }
        }
    }
}

fn foot(ask: &Ask<'_>, here: Place) -> Markup {
    let places = [
        (Place::Today, "/", "frame-today"),
        (Place::Yards, "/yards", "frame-yards"),
        (Place::Records, "/records", "frame-records"),
        (Place::Crew, "/crew", "frame-crew"),
        (Place::Things, "/things", "frame-things"),
    ];
    html! {
        nav.foot aria-label=(ask.t("frame-places")) {
            @for (place, href, key) in places {
                a href=(href) aria-current=[(place == here).then_some("page")] { (ask.t(key)) }
            }
        }
    }
}

/// The few words that the script shows.
fn script_words(ask: &Ask<'_>) -> Markup {
    let words = [
        "frame-pad-done",
        "frame-pad-delete",
        "frame-pad-earlier",
        "frame-draft-kept",
        "frame-draft-failed",
        "frame-location-refused",
        "frame-location-waiting",
    ];
    html! {
        div hidden id="words" {
            @for key in words { span data-word=(key) { (ask.t(key)) } }
        }
    }
}
