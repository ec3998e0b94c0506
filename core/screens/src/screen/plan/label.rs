//! Which label sheet a plan works from: chosen among those whose numbers were read back.

use maud::{Markup, html};
use sward_book::ids::SheetId;
use sward_book::view::sheets::LabelView;
use sward_rules::Entered;
use sward_rules::label::{LabelSays, Method};

use super::work::Job;
use super::work::last_with;
use crate::Result;
use crate::ask::Ask;
use crate::part;
use crate::screen::visit::Here;

/// The label sheet to plan with: just asked for, the plan's, last time's, or the only one.
pub(super) fn chosen(ask: &Ask<'_>, here: &Here) -> Result<Option<SheetId>> {
    let book = ask.book()?;
    let labels = book.labels()?;
    let known = |id: &SheetId| labels.iter().any(|l| l.sheet == *id);
    let sent = ask.again.map(|a| a.form.text("label"));
    let asked = sent
        .or_else(|| ask.query("label"))
        .and_then(|id| id.parse().ok());
    let read: Vec<SheetId> = usable(&labels).map(|l| l.sheet).collect();
    let planned = book.plan(here.visit.visit)?.and_then(|p| p.label);
    // One that nobody read back can only be the plan's, whose numbers were changed since.
    if let Some(asked) = asked.filter(|id| read.contains(id) || planned == Some(*id)) {
        return Ok(Some(asked).filter(known));
    }
    if planned.is_some() {
        return Ok(planned.filter(known));
    }
    if let Some((last, _)) = last_with(book, here, None)? {
        let label = last.label.filter(|label| read.contains(label));
        if label.is_some() {
            return Ok(label);
        }
    }
    Ok(match read.as_slice() {
        [only] => Some(*only),
        _ => None,
    })
}

fn usable(labels: &[LabelView]) -> impl Iterator<Item = &LabelView> {
    labels.iter().filter(|l| l.read_back.is_some())
}

/// Every label sheet to choose from; what nobody read back is marked and leads to its own screen.
pub(super) fn choose(ask: &Ask<'_>, here: &Here) -> Result<Markup> {
    let labels = ask.book()?.labels()?;
    Ok(html! {
        @if labels.is_empty() {
            p { (ask.t("plan-no-label")) }
            (part::next_step("/things/labels", &ask.t("plan-to-labels")))
        } @else {
            h2 { (ask.t("plan-choose-label")) }
            (ways(ask, here, labels.iter()))
        }
    })
}

/// The other label sheets, folded away.
pub(super) fn others(ask: &Ask<'_>, here: &Here, chosen: SheetId) -> Result<Markup> {
    let labels = ask.book()?.labels()?;
    let others: Vec<_> = labels.iter().filter(|l| l.sheet != chosen).collect();
    Ok(html! {
        @if !others.is_empty() {
            details {
                summary { (ask.t("plan-other-label")) }
                (ways(ask, here, others.into_iter()))
            }
        }
    })
}

fn ways<'a>(ask: &Ask<'_>, here: &Here, labels: impl Iterator<Item = &'a LabelView>) -> Markup {
    html! {
        @for label in labels {
            @let name = format!("{} ({})", label.product, label.registration);
            @if label.read_back.is_some() {
                (part::way(&format!("/visit/{}/plan?label={}", here.visit.visit, label.sheet), &name))
            } @else {
                p { (name) ": " span.unknown { (ask.t("plan-not-read-back")) } }
                (part::way(&format!("/things/labels/{}", label.sheet), &ask.t("plan-to-label")))
            }
        }
    }
}

/// What the label sheet says to the amounts.
pub(super) fn card(ask: &Ask<'_>, job: &Job) -> Markup {
    let not_known = ask.t("frame-not-known");
    let label = &job.sheet.label;
    let read_back = job.read_back_by.as_ref().map_or_else(
        || ask.t("plan-not-read-back"),
        |person| {
            ask.words
                .t_with("plan-read-back-by", &[("person", person.as_str().into())])
        },
    );
    html! {
        div.card {
            h2 { (label.product) }
            dl {
                (part::row(&ask.t("plan-registration"), &label.registration, &not_known))
                (part::row(&ask.t("plan-method"), &method(ask, label.method), &not_known))
                (part::row(&ask.t("plan-rate-least"), &says(ask, &label.rate_least), &not_known))
                (part::row(&ask.t("plan-rate-most"), &says(ask, &label.rate_most), &not_known))
                @if job.is_wet() {
                    (part::row(&ask.t("plan-carrier-least"), &says(ask, &label.carrier_least), &not_known))
                }
                (part::row(&ask.t("plan-read-back"), &read_back, &not_known))
            }
        }
    }
}

fn method(ask: &Ask<'_>, method: Method) -> String {
    ask.t(match method {
        Method::Granule => "plan-method-granule",
        Method::FoliarSpray => "plan-method-foliar",
        Method::Drench => "plan-method-drench",
        Method::Bait => "plan-method-bait",
    })
}

/// What the label says; empty where nobody filled it in, which is shown as not known.
pub(super) fn says(ask: &Ask<'_>, says: &LabelSays<Entered>) -> String {
    match says {
        LabelSays::Unfilled => String::new(),
        LabelSays::Nothing => ask.t("plan-label-silent"),
        LabelSays::Value(value) => ask.words.amount(value),
    }
}
