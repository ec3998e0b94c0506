//! A keep-off in words: who stays off, until when, or what it waits for.
//!
//! The words are never milder than what is known; when it ends is [`sward_rules::keep_off`]'s.

use maud::{Markup, html};
use sward_book::Book;
use sward_book::ids::SheetId;
use sward_book::view::keep_off::{DryDoubt, KeepOffView, Standing};
use sward_rules::keep_off::{EndedBy, Now, State};
use sward_rules::label::{KeepOffTerms, LabelSays};

use crate::Result;
use crate::ask::Ask;
use crate::words::Words;

/// The keep-offs that run on a yard, whichever visit they are of.
pub(crate) fn running_on(book: &Book, yard: SheetId) -> Result<Vec<KeepOffView>> {
    let (_, mut running) = book.keep_offs_to_watch()?;
    running.retain(|k| k.yard == Some(yard));
    Ok(running)
}

/// A keep-off's standing in words.
pub(crate) struct Told {
    /// "Keep off", "over" or "lifted".
    pub(crate) state: String,
    /// Until when, or what it waits for.
    pub(crate) until: String,
    /// The end, where one can be told: the screen counts down to it.
    pub(crate) until_utc_ms: Option<i64>,
    /// Whether people and pets still stay off.
    pub(crate) keeps_off: bool,
    /// Whether a person's look at the lawn is what it needs, now or at its end.
    pub(crate) needs_look: bool,
}

/// Puts a standing into words, times in the zone of `words`.
pub(crate) fn told(words: Words, standing: Standing, now: Now) -> Told {
    let at = |utc_ms: i64| words.moment_near(utc_ms, now.utc_ms);
    let keep = |until: String, until_utc_ms, needs_look| Told {
        state: words.t("stay-keep-off"),
        until,
        until_utc_ms,
        keeps_off: true,
        needs_look,
    };
    let with = |key: &str, when: i64| words.t_with(key, &[("at", at(when).into())]);
    match standing {
        Standing::Released => Told {
            state: words.t("stay-lifted"),
            until: words.t("stay-lifted-by-lead"),
            until_utc_ms: None,
            keeps_off: false,
            needs_look: false,
        },
        Standing::ByClaims(State::RunsUntilFinish) => {
            keep(words.t("stay-until-finish"), None, false)
        }
        Standing::ByClaims(State::RunsUntilLabelIsRead) => {
            keep(words.t("stay-until-label"), None, false)
        }
        Standing::ByClaims(State::Runs {
            until_utc_ms,
            then_dry,
        }) => {
            let key = if then_dry {
                "stay-until-then-dry"
            } else {
                "stay-until"
            };
            keep(with(key, until_utc_ms), Some(until_utc_ms), then_dry)
        }
        Standing::ByClaims(State::WaitsForDry) => keep(words.t("stay-waits-for-dry"), None, true),
        Standing::ByClaims(State::TimeUncertain {
            not_before_utc_ms,
            then_dry,
        }) => {
            let until = match not_before_utc_ms {
                Some(when) => with("stay-uncertain-not-before", when),
                None => words.t("stay-uncertain"),
            };
            keep(until, None, then_dry)
        }
        Standing::ByClaims(State::Ended { by, at_utc_ms }) => {
            let key = match by {
                EndedBy::Time => "stay-over-time",
                EndedBy::Dry => "stay-over-dry",
                EndedBy::Both => "stay-over-both",
            };
            Told {
                state: words.t("stay-over"),
                until: with(key, at_utc_ms),
                until_utc_ms: None,
                keeps_off: false,
                needs_look: false,
            }
        }
    }
}

/// One keep-off as it is shown in lists: section, state, end, and what is to be minded.
pub(crate) fn card(ask: &Ask<'_>, words: Words, view: &KeepOffView) -> Markup {
    let told = told(words, view.standing(ask.now), ask.now);
    html! {
        div.stay .over[!told.keeps_off] {
            p.state { (sign(told.keeps_off)) " " strong { (told.state) } ": " (view.name) }
            p.big {
                @if let Some(end) = told.until_utc_ms { time data-until=(end) { (told.until) } }
                @else { (told.until) }
            }
            p.note { (words.t("stay-who")) " \u{b7} " (view.product) }
            (doubts(words, view))
        }
    }
}

/// A barred hand for "keep off", an open ring for "over": the shape alone tells which.
fn sign(keeps_off: bool) -> Markup {
    html! {
        svg.mark viewBox="0 0 24 24" aria-hidden="true" {
            @if keeps_off { path d="M8 1h8l7 7v8l-7 7H8l-7-7V8zM6 10v4h12v-4z" fill-rule="evenodd" {} }
            @else { circle cx="12" cy="12" r="9" fill="none" stroke="currentColor" stroke-width="3" {} }
        }
    }
}

fn doubts(words: Words, view: &KeepOffView) -> Markup {
    html! {
        @for look in &view.dry_not_counted {
            p.note {
                @match look.doubt {
                    DryDoubt::NotOfTheCrew => (words.t("stay-dry-outsider")),
                    DryDoubt::NotSeenAll => (words.t("stay-dry-not-all")),
                }
            }
        }
        @if view.by_outsider { p.note { (words.t("stay-by-outsider")) } }
    }
}

/// What a claim asks for.
pub(crate) fn terms(words: Words, terms: &KeepOffTerms) -> String {
    let wait = match &terms.wait {
        LabelSays::Unfilled => words.t("stay-wait-unknown"),
        LabelSays::Nothing => words.t("stay-wait-none"),
        LabelSays::Value(time) => words.t_with("stay-wait", &[("time", words.amount(time).into())]),
    };
    let dry = words.t(match terms.until_dry {
        LabelSays::Unfilled => "stay-dry-unknown",
        LabelSays::Nothing | LabelSays::Value(false) => "stay-dry-not-asked",
        LabelSays::Value(true) => "stay-dry-asked",
    });
    format!("{wait}, {dry}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::{Language, Units};

    const NOW: Now = Now {
        utc_ms: 1_781_526_600_000,
        proven: true,
    };

    fn in_words(standing: Standing) -> Told {
        let words = Words {
            language: Language::English,
            units: Units::Us,
            zone: chrono_tz::Tz::America__New_York,
        };
        told(words, standing, NOW)
    }

    #[test]
    fn only_an_end_or_a_crew_leads_word_lets_anyone_back() {
        let running = [
            State::RunsUntilFinish,
            State::RunsUntilLabelIsRead,
            State::Runs {
                until_utc_ms: NOW.utc_ms + 1,
                then_dry: false,
            },
            State::WaitsForDry,
            State::TimeUncertain {
                not_before_utc_ms: None,
                then_dry: false,
            },
        ];
        for state in running {
            assert!(in_words(Standing::ByClaims(state)).keeps_off, "{state:?}");
        }
        let ended = State::Ended {
            by: EndedBy::Time,
            at_utc_ms: NOW.utc_ms,
        };
        assert!(!in_words(Standing::ByClaims(ended)).keeps_off);
        assert!(!in_words(Standing::Released).keeps_off);
    }

    #[test]
    fn an_uncertain_time_is_never_called_over() {
        let state = State::TimeUncertain {
            not_before_utc_ms: Some(NOW.utc_ms - 86_400_000),
            then_dry: false,
        };
        let told = in_words(Standing::ByClaims(state));
        assert!(told.until.contains("uncertain"), "{}", told.until);
        assert_eq!(told.until_utc_ms, None);
    }
}
