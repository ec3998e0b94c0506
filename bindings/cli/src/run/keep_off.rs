//! Keep-offs: which run, "I looked: it is dry", and what a person states about one's end.

use serde_json::{Value, json};
use sward_book::Book;
use sward_book::ids::{SheetId, VisitId};
use sward_book::view::keep_off::{DryDoubt, KeepOffView};
use sward_rules::Entered;
use sward_rules::label::{KeepOffTerms, LabelSays};
use sward_rules::quantity::Dimension;

use crate::app::App;
use crate::args::{DryArgs, KeepOffArgs, KeepOffCommand, KeepOffsArgs};
use crate::error::Result;
use crate::names;
use crate::print::{Answer, Page};
use crate::prompt;
use crate::times::{moment, when};
use crate::words::{Told, keep_off_state, terms};

use super::{last_own_fact, who, yard_name};

/// Runs `sward keep-offs`.
pub(super) fn list(app: &App, args: &KeepOffsArgs) -> Result<Answer> {
    let book = app.reading()?;
    let yard = args
        .yard
        .as_deref()
        .map(|name| names::yard(&book, name))
        .transpose()?;
    let now = book.now()?;
    let views: Vec<KeepOffView> = book
        .keep_offs()?
        .into_iter()
        .filter(|k| yard.is_none_or(|yard| k.yard == Some(yard)))
        .filter(|k| args.all || k.keeps_off(now))
        .collect();
    let mut page = Page::default();
    if views.is_empty() {
        page.line(if args.all {
            "No keep-off."
        } else {
            "No keep-off is running."
        });
    }
    let json = table(app, &book, &views, &mut page)?;
    Ok(Answer::new(page, json!({ "now": now, "keep_offs": json })))
}

/// Adds the keep-offs of a visit.
pub(super) fn of_visit(
    app: &App,
    book: &Book,
    visit: VisitId,
    page: &mut Page,
) -> Result<Vec<Value>> {
    table(app, book, &book.keep_offs_of(visit)?, page)
}

/// The keep-offs that run on a yard, each as a sentence.
pub(super) fn running(app: &App, book: &Book, yard: Option<SheetId>) -> Result<Vec<String>> {
    let now = book.now()?;
    let zone = app.zone_of_yard(book, yard);
    Ok(book
        .keep_offs()?
        .iter()
        .filter(|k| k.yard == yard && k.keeps_off(now))
        .map(|k| {
            let Told { state, until } = keep_off_state(k.standing(now), zone);
            format!("{}: {state}, {until}", k.name)
        })
        .collect())
}

fn table(app: &App, book: &Book, views: &[KeepOffView], page: &mut Page) -> Result<Vec<Value>> {
    let now = book.now()?;
    let mut rows = Vec::new();
    let mut json = Vec::new();
    for view in views {
        let zone = app.zone_of_yard(book, view.yard);
        let standing = view.standing(now);
        let Told { state, until } = keep_off_state(standing, zone);
        rows.push(vec![
            yard_name(book, view.yard),
            view.name.clone(),
            "people and pets".to_owned(),
            view.product.clone(),
            state.to_owned(),
            until.clone(),
        ]);
        json.push(json!({
            "keep_off": view.keep_off,
            "visit": view.visit,
            "yard": view.yard,
            "section": view.section,
            "name": view.name,
            "product": view.product,
            "keeps_off": view.keeps_off(now),
            "standing": standing,
            "told": { "state": state, "until": until },
            "last_applied_utc_ms": view.last_applied_utc_ms,
            "dry_utc_ms": view.dry_utc_ms,
            "claims": view.claims,
            "by_outsider": view.by_outsider,
        }));
    }
    page.table(
        &["yard", "section", "who", "product", "state", "until"],
        rows,
    );
    for view in views {
        remarks(book, view, page);
    }
    Ok(json)
}

/// What a person has to know beside the state: several claims, looks that do not count.
fn remarks(book: &Book, view: &KeepOffView, page: &mut Page) {
    let standing: Vec<_> = view.standing_claims().collect();
    if standing.len() > 1 {
        for claim in &standing {
            page.item(format!(
                "{}: {} by {}",
                view.name,
                terms(&claim.terms),
                who(book, claim.by)
            ));
        }
    }
    for look in &view.dry_not_counted {
        page.item(match look.doubt {
            DryDoubt::NotOfTheCrew => format!(
                "{}: someone who is not of the crew said it is dry; that does not count",
                view.name
            ),
            DryDoubt::NotSeenAll => format!(
                "{}: whoever said it is dry did not know of everything put on; look again",
                view.name
            ),
        });
    }
    if view.by_outsider {
        page.item(format!(
            "{}: a device that is not of the crew wrote some of this; a crew lead decides",
            view.name
        ));
    }
}

/// Runs `sward dry`.
pub(super) fn dry(app: &App, args: &DryArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let visit = names::visit(&book, &args.visit)?;
    let zone = app.zone_of_visit(&book, visit)?;
    let now = app.now_utc_ms();
    let at = args
        .at
        .as_deref()
        .map_or(Ok(now), |at| when(at, zone, now))?;
    let ids = names::keep_offs(&book, visit, &args.sections)?;
    let names: Vec<String> = ids
        .iter()
        .map(|id| Ok(book.keep_off(visit, *id)?.name))
        .collect::<Result<_>>()?;
    prompt::confirm(
        app,
        &format!(
            "Did you yourself look at {} at {}, and is it dry (granules: the dust settled, or watered in and dry again)?",
            names.join(" and "),
            moment(at, zone)
        ),
    )?;
    book.looked_dry(visit, &ids, at)?;
    let mut page = Page::of(format!("You looked at {}: dry.", names.join(" and ")));
    let keep_offs = of_visit(app, &book, visit, &mut page)?;
    let fact = last_own_fact(&book, visit)?;
    Ok(Answer::new(
        page,
        json!({ "visit": visit, "fact": fact, "keep_offs": keep_offs }),
    ))
}

/// Runs `sward keep-off`.
pub(super) fn run(app: &App, args: &KeepOffArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let (visit, section) = match &args.command {
        KeepOffCommand::Claim { visit, section, .. }
        | KeepOffCommand::Confirm { visit, section, .. }
        | KeepOffCommand::Release { visit, section, .. } => (visit, section),
    };
    let visit = names::visit(&book, visit)?;
    let keep_off = names::keep_off(&book, visit, section)?;
    let id = keep_off.keep_off;
    let done = match &args.command {
        KeepOffCommand::Claim {
            wait,
            until_dry,
            why,
            ..
        } => {
            book.claim_keep_off(visit, id, claimed(wait, until_dry)?, why)?;
            "stated"
        }
        KeepOffCommand::Confirm { why, .. } => {
            book.confirm_keep_off(visit, id, why)?;
            "confirmed"
        }
        KeepOffCommand::Release { why, .. } => {
            let question = format!("Lift the keep-off on {} before its end?", keep_off.name);
            prompt::confirm(app, &question)?;
            book.release_keep_off(visit, id, why)?;
            "lifted"
        }
    };
    let mut page = Page::of(format!("Keep-off on {}: {done}.", keep_off.name));
    let keep_offs = of_visit(app, &book, visit, &mut page)?;
    let fact = last_own_fact(&book, visit)?;
    Ok(Answer::new(
        page,
        json!({ "visit": visit, "fact": fact, "keep_offs": keep_offs }),
    ))
}

fn claimed(wait: &str, until_dry: &str) -> Result<KeepOffTerms> {
    let wait = if wait == "nothing" {
        LabelSays::Nothing
    } else {
        let time = Entered::parse(wait).map_err(|e| e.of(sward_rules::Field::Wait))?;
        time.must_be(Dimension::Time)
            .map_err(|e| e.of(sward_rules::Field::Wait))?;
        LabelSays::Value(time)
    };
    let until_dry = match until_dry {
        "yes" => LabelSays::Value(true),
        "no" => LabelSays::Value(false),
        _ => LabelSays::Nothing,
    };
    Ok(KeepOffTerms { until_dry, wait })
}
