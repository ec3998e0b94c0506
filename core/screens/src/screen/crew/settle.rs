//! Questions to settle: what two phones recorded differently, each with the answers a person can
//! give. Nothing is thrown away by any of them.

use maud::{Markup, html};
use sward_book::Book;
use sward_book::fact::Replacement;
use sward_book::ids::{FactId, SheetId, VisitId};
use sward_book::sheet::{Conflict, SheetKind};
use sward_book::view::visit::{Question, VisitView};

use super::who;
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::trouble::Wrong;
use crate::words::Words;
use crate::{Result, Trouble, part};

pub(super) const SCREEN: Screen = Screen {
    path: "/crew/settle",
    show,
    acts: ACTS,
};

pub(super) const OF_VISIT: Screen = Screen {
    path: "/visit/{visit}/settle",
    show: show_visit,
    acts: ACTS,
};

const ACTS: &[(&str, crate::ask::Act)] = &[
    ("finish", choose_finish),
    ("late", settle_late),
    ("withdraw", withdraw),
    ("one_job", one_job),
    ("field", settle_field),
];

/// How many questions are open.
pub(super) fn count(book: &Book) -> Result<usize> {
    let visits: usize = book
        .visits_with_questions()?
        .iter()
        .map(|v| v.questions.len())
        .sum();
    let labels: usize = book.labels()?.iter().map(|l| l.conflicts.len()).sum();
    let yards: usize = book.yards()?.iter().map(|y| y.conflicts.len()).sum();
    Ok(visits + labels + yards + book.entered_twice()?.len())
}

fn show(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let visits = book.visits_with_questions()?;
    let twice = book.entered_twice()?;
    let nothing = count(book)? == 0;
    Ok(Page {
        title: ask.t("crew-settle-title"),
        main: html! {
            p { (ask.t("crew-settle-how")) }
            @if nothing { p { strong { (ask.t("crew-settle-nothing")) } } (part::next_step("/crew", &ask.t("crew-settle-back"))) }
            @for view in &visits { (questions(ask, book, view)?) }
            @for pair in &twice { (twice_card(ask, book, pair.earlier, pair.later)?) }
            @for label in book.labels()? {
                @for conflict in &label.conflicts { (conflict_card(ask, label.sheet, SheetKind::Label, &label.product, conflict)) }
            }
            @for yard in book.yards()? {
                @for conflict in &yard.conflicts { (conflict_card(ask, yard.yard, SheetKind::Yard, &yard.name, conflict)) }
            }
        },
        place: Place::Crew,
        back: Some("/crew".to_owned()),
    })
}

fn show_visit(ask: &Ask<'_>) -> Result<Page> {
    let book = ask.book()?;
    let view = book.visit(ask.param("visit")?)?;
    Ok(Page {
        title: ask.t("crew-settle-title"),
        main: html! {
            @if view.questions.is_empty() { p { strong { (ask.t("crew-settle-nothing")) } } }
            (questions(ask, book, &view)?)
            (part::way(&format!("/visit/{}", view.visit), &ask.t("crew-settle-to-visit")))
        },
        place: Place::Crew,
        back: Some(format!("/visit/{}", view.visit)),
    })
}

fn yard_of(book: &Book, words: Words, view: &VisitView) -> (String, Words) {
    match view.yard.and_then(|yard| book.yard(yard).ok()) {
        Some(yard) => (yard.name, words.in_zone(yard.zone.parse().ok())),
        None => (words.t("today-yard-missing"), words),
    }
}

/// Who wrote a fact and when, for a person who has to choose.
fn by_and_at(ask: &Ask<'_>, book: &Book, words: Words, fact: FactId) -> Result<String> {
    let entry = book.entry(fact.entry)?;
    Ok(words.t_with(
        "crew-by-at",
        &[
            ("who", who(book, entry.body().stream).into()),
            (
                "at",
                words
                    .moment_near(entry.body().written.utc_ms, ask.now.utc_ms)
                    .into(),
            ),
        ],
    ))
}

fn questions(ask: &Ask<'_>, book: &Book, view: &VisitView) -> Result<Markup> {
    let (yard, words) = yard_of(book, ask.words, view);
    let mut cards = Vec::new();
    for question in &view.questions {
        cards.push(match question {
            Question::WhichFinish { finishes } => which_finish(ask, book, words, view.visit, finishes)?,
            Question::LateLoad { addition } => late_load(ask, book, words, view.visit, *addition)?,
            Question::NotOfTheCrew { device } => html! {
                p { (ask.words.t_with("crew-question-outsider", &[("who", who(book, *device).into())])) }
                (part::way(&format!("/crew/member/{device}"), &ask.t("crew-question-outsider-look")))
                (part::way(&format!("/visit/{}/keep-off", view.visit), &ask.t("crew-question-outsider-lift")))
            },
            Question::TreatedOrNot { not_treated } => treated_or_not(ask, book, words, view.visit, *not_treated)?,
        });
    }
    Ok(html! {
        @for card in &cards { section.card { h2 { (yard) } (card) } }
    })
}

fn which_finish(
    ask: &Ask<'_>,
    book: &Book,
    words: Words,
    visit: VisitId,
    finishes: &[FactId],
) -> Result<Markup> {
    let form = ask.form_keyed("finish", &visit.to_string());
    let mut options = Vec::new();
    for fact in finishes {
        options.push((fact.to_string(), by_and_at(ask, book, words, *fact)?));
    }
    let shown: Vec<(&str, String)> = options
        .iter()
        .map(|(v, w)| (v.as_str(), w.clone()))
        .collect();
    Ok(html! {
        p { (ask.t("crew-question-finish")) }
        (part::way(&format!("/records/{visit}"), &ask.t("crew-question-see")))
        (form.wrap(html! {
            (form.choice("fact", "crew-question-finish-which", &shown, None))
            (form.lines("why", "crew-why", "crew-why-help", None))
            (form.submit("crew-settle-it"))
        }))
    })
}

fn late_load(
    ask: &Ask<'_>,
    book: &Book,
    words: Words,
    visit: VisitId,
    addition: FactId,
) -> Result<Markup> {
    let form = ask.form_keyed("late", &format!("{visit} {addition}"));
    Ok(html! {
        p { (ask.t("crew-question-late")) }
        p { (by_and_at(ask, book, words, addition)?) }
        (part::way(&format!("/records/{visit}"), &ask.t("crew-question-see")))
        (form.wrap(html! {
            (form.choice("counts", "crew-question-late-put-on", &[
                ("yes", ask.t("crew-yes")),
                ("no", ask.t("crew-no")),
            ], None))
            (form.lines("why", "crew-why", "crew-why-help", None))
            (form.submit("crew-settle-it"))
        }))
    })
}

fn treated_or_not(
    ask: &Ask<'_>,
    book: &Book,
    words: Words,
    visit: VisitId,
    not_treated: FactId,
) -> Result<Markup> {
    let form = ask.form_keyed("withdraw", &format!("{visit} {not_treated}"));
    Ok(html! {
        p { (ask.t("crew-question-treated")) }
        p { (by_and_at(ask, book, words, not_treated)?) }
        (form.wrap(html! {
            (form.lines("why", "crew-why", "crew-why-help", None))
            (form.submit("crew-question-withdraw"))
        }))
    })
}

fn twice_card(ask: &Ask<'_>, book: &Book, earlier: VisitId, later: VisitId) -> Result<Markup> {
    let view = book.visit(earlier)?;
    let (yard, _) = yard_of(book, ask.words, &view);
    let form = ask.form_keyed("one_job", &format!("{earlier} {later}"));
    Ok(html! {
        section.card {
            h2 { (yard) }
            p { (ask.t("crew-question-one-job")) }
            (part::way(&format!("/records/{earlier}"), &ask.t("crew-question-earlier")))
            (part::way(&format!("/records/{later}"), &ask.t("crew-question-later")))
            (form.wrap(html! {
                (form.choice("same", "crew-question-one-job-same", &[
                    ("yes", ask.t("crew-yes")),
                    ("no", ask.t("crew-no")),
                ], None))
                (form.submit("crew-settle-it"))
            }))
        }
    })
}

fn conflict_card(
    ask: &Ask<'_>,
    sheet: SheetId,
    kind: SheetKind,
    name: &str,
    conflict: &Conflict,
) -> Markup {
    let kind = if kind == SheetKind::Label {
        "label"
    } else {
        "yard"
    };
    let form = ask.form_keyed("field", &format!("{kind} {sheet} {}", conflict.field));
    let options: Vec<(&str, String)> = conflict
        .values
        .iter()
        .map(|v| (v.as_str(), v.clone()))
        .collect();
    let acted_on = conflict
        .acted_on
        .clone()
        .unwrap_or_else(|| ask.t("frame-not-known"));
    html! {
        section.card {
            h2 { (name) }
            p { (ask.t("crew-question-field")) }
            p.note { (ask.words.t_with("crew-question-acted-on", &[("value", acted_on.into())])) }
            (form.wrap(html! {
                (form.choice("value", "crew-question-field-which", &options, None))
                (form.submit("crew-settle-it"))
            }))
        }
    }
}

fn keyed<A: std::str::FromStr, B: std::str::FromStr>(doing: &Doing<'_>) -> Result<(A, B)> {
    let (a, b) = doing.text("key").split_once(' ').ok_or(Trouble::NotFound)?;
    Ok((
        a.parse().map_err(|_| Trouble::NotFound)?,
        b.parse().map_err(|_| Trouble::NotFound)?,
    ))
}

fn yes_or_no(doing: &Doing<'_>, field: &str) -> Result<bool> {
    match doing.text(field) {
        "yes" => Ok(true),
        "no" => Ok(false),
        _ => Err(Trouble::field(field, Wrong::Missing)),
    }
}

fn done(doing: &Doing<'_>) -> Next {
    Next::Go(doing.path.to_owned())
}

fn choose_finish(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.text("key").parse().map_err(|_| Trouble::NotFound)?;
    let fact: FactId = doing
        .needed("fact")?
        .parse()
        .map_err(|_| Trouble::field("fact", Wrong::NotOffered))?;
    let why = doing.needed("why")?.to_owned();
    doing.book()?.choose_finish(visit, fact, &why)?;
    Ok(done(doing))
}

fn settle_late(doing: &mut Doing<'_>) -> Result<Next> {
    let (visit, addition): (VisitId, FactId) = keyed(doing)?;
    let counts = yes_or_no(doing, "counts")?;
    let why = doing.needed("why")?.to_owned();
    doing.book()?.settle_late(visit, addition, counts, &why)?;
    Ok(done(doing))
}

fn withdraw(doing: &mut Doing<'_>) -> Result<Next> {
    let (visit, fact): (VisitId, FactId) = keyed(doing)?;
    let why = doing.needed("why")?.to_owned();
    doing
        .book()?
        .correct(visit, vec![fact], Replacement::Nothing, &why)?;
    Ok(done(doing))
}

fn one_job(doing: &mut Doing<'_>) -> Result<Next> {
    let (earlier, later): (VisitId, VisitId) = keyed(doing)?;
    let same = yes_or_no(doing, "same")?;
    doing.book()?.settle_one_job(earlier, later, same)?;
    Ok(done(doing))
}

/// Writing either value again settles a field.
fn settle_field(doing: &mut Doing<'_>) -> Result<Next> {
    let key = doing.text("key").to_owned();
    let mut parts = key.split(' ');
    let (kind, sheet, field) = (
        parts.next(),
        parts.next(),
        parts.next().ok_or(Trouble::NotFound)?,
    );
    let sheet: SheetId = sheet
        .and_then(|s| s.parse().ok())
        .ok_or(Trouble::NotFound)?;
    let value = doing.needed("value")?.to_owned();
    match kind {
        Some("label") => doing.book()?.set_label(sheet, field, &value)?,
        Some("yard") => doing.book()?.set_yard(sheet, field, &value)?,
        _ => return Err(Trouble::NotFound),
    }
    Ok(done(doing))
}
