//! Calculations for product and water, each a page of its own: one short form, the answer and how
//! it comes about.
//!
//! The rules work it out and nothing is kept. What was typed stands behind the question mark of the
//! address; so there are no fields for names here: stops are numbered.

mod hose_end;
mod pace;
mod passes;
mod rates;
mod shown;
mod spots;
mod stops;
mod tank;
#[cfg(test)]
mod tests;
mod watering;

use maud::{Markup, html};
use sward_book::Book;
use sward_book::ids::SheetId;
use sward_rules::Entered;
use sward_rules::label::{Label, LabelSays, Method};
use sward_rules::measure::AreaEstimate;
use sward_rules::plan::Vessel;
use sward_rules::quantity::Dimension;

use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::part::inputs::{Inputs, address};
use crate::screen::things::{fitting, products};
use crate::server::Form;
use crate::trouble::Wrong;
use crate::words::{Units, Words};
use crate::{Result, Trouble};
use shown::{Block, blocks};

pub(crate) const SCREENS: &[Screen] = &[
    Screen {
        path: "/things/work-out",
        show: list,
        acts: &[],
    },
    Screen {
        path: "/things/work-out/{what}",
        show,
        acts: &[("work-out", work_out)],
    },
];

const RATES: [Dimension; 2] = [Dimension::MassPerArea, Dimension::VolumePerArea];
const AMOUNTS: [Dimension; 2] = [Dimension::Mass, Dimension::Volume];

/// One calculation.
struct Calc {
    /// Its name in the address.
    name: &'static str,
    /// The title's message.
    title: &'static str,
    /// The message of what to do first.
    first: &'static str,
    /// Its inputs.
    inputs: fn(&Inputs<'_>) -> Result<Markup>,
    /// What it comes to.
    work: fn(&Given<'_>) -> Result<Vec<Block>>,
}

const CALCS: [&Calc; 11] = [
    &rates::FORMS,
    &rates::PACK,
    &rates::INGREDIENT,
    &rates::IN_MIX,
    &tank::FILL,
    &stops::STOPS,
    &hose_end::DIAL,
    &passes::PASSES,
    &watering::WATERING,
    &spots::SPOTS,
    &pace::PACE,
];

/// What a calculation is given.
struct Given<'a> {
    book: &'a Book,
    words: Words,
    form: &'a Form,
}

/// The address where minutes are worked out for a label's depth.
pub(crate) fn watering_in(depth: &Entered) -> String {
    let typed = ("depth".to_owned(), depth.for_person());
    address(
        &format!("/things/work-out/{}", watering::WATERING.name),
        &Form::of_query(&[typed]),
        &[],
    )
}

fn list(ask: &Ask<'_>) -> Result<Page> {
    ask.book()?;
    Ok(Page {
        title: ask.t("work-out-title"),
        main: html! {
            p.note { (ask.t("work-out-nothing-kept")) }
            ul.list {
                @for calc in CALCS {
                    li { a.way href=(format!("/things/work-out/{}", calc.name)) { (ask.t(calc.title)) } }
                }
            }
        },
        place: Place::Things,
        back: Some("/things".to_owned()),
    })
}

fn named(name: &str) -> Result<&'static Calc> {
    let calc = CALCS.into_iter().find(|calc| calc.name == name);
    calc.ok_or(Trouble::NotFound)
}

fn show(ask: &Ask<'_>) -> Result<Page> {
    let calc = named(&ask.param::<String>("what")?)?;
    let last = Form::of_query(ask.query);
    let result = if last.fields.is_empty() || ask.again.is_some() {
        None
    } else {
        let given = Given {
            book: ask.book()?,
            words: ask.words,
            form: &last,
        };
        // An address that was changed by hand has no result; sent again the form says what is wrong.
        (calc.work)(&given).ok()
    };
    let inputs = Inputs::new(ask, "work-out", last);
    let fields = (calc.inputs)(&inputs)?;
    Ok(Page {
        title: ask.t(calc.title),
        main: html! {
            @if let Some(result) = &result {
                section {
                    h2 { (ask.t("calibrate-result")) }
                    (blocks(ask, result))
                    p.note { (ask.t("frame-label-is-the-law")) }
                }
            }
            p.note { (ask.t(calc.first)) }
            (inputs.form.wrap(html! {
                (fields)
                (inputs.form.submit("calibrate-work-out"))
            }))
        },
        place: Place::Things,
        back: Some("/things/work-out".to_owned()),
    })
}

/// Works it out, and leads to where the result stands.
fn work_out(doing: &mut Doing<'_>) -> Result<Next> {
    let calc = named(&doing.param::<String>("what")?)?;
    let (words, form, path) = (doing.words, doing.form, doing.path);
    let book = doing.book()?;
    (calc.work)(&Given { book, words, form })?;
    Ok(Next::Go(address(path, form, &[])))
}

impl Given<'_> {
    /// A message.
    fn t(&self, key: &str) -> String {
        self.words.t(key)
    }

    /// An area as stated, without a doubt of its own; none where the field is empty.
    fn area(&self, name: &str) -> Result<Option<AreaEstimate>> {
        let Some(area) = self.form.amount(name)? else {
            return Ok(None);
        };
        let sure = Entered::parse("0 ft2")?;
        let stated = AreaEstimate::stated(&area, &sure);
        stated.map(Some).map_err(|e| Trouble::in_field(name, e))
    }

    /// An area that must be there.
    fn area_needed(&self, name: &str) -> Result<AreaEstimate> {
        self.area(name)?
            .ok_or_else(|| Trouble::field(name, Wrong::Missing))
    }

    /// What the product is measured out with; none where the field is empty.
    fn vessel(&self, name: &str) -> Result<Option<Vessel>> {
        let step = self.form.amount(name)?;
        Ok(step.map(|least_step| Vessel {
            name: self.t("work-out-the-measure"),
            least_step,
        }))
    }

    /// The label sheet that was chosen, or what was typed of the label; the rest is not known.
    fn label(&self) -> Result<Label> {
        let most = self.form.amount("most")?;
        match (self.form.text("label").parse::<SheetId>(), most) {
            (Ok(_), Some(_)) => Err(Trouble::field("most", Wrong::BothSaid)),
            (Ok(id), None) => Ok(self.book.label_sheet(id)?.label),
            (Err(_), most) => Ok(Label {
                // A label with one rate has no least.
                rate_least: LabelSays::Nothing,
                rate_most: most.map_or(LabelSays::Unfilled, LabelSays::Value),
                ..Label::unfilled(Method::Drench)
            }),
        }
    }
}

/// Which label counts: a sheet, or its most typed.
fn label_inputs(inputs: &Inputs<'_>) -> Result<Markup> {
    let label = inputs.last("label").unwrap_or_default();
    let sheets = products(inputs.ask, &label)?;
    Ok(html! {
        (inputs.form.select("label", "calibrate-label", &sheets, Some(&label)))
        (rate(inputs, "most", "work-out-most", "work-out-most-help"))
    })
}

/// A rate in any unit of labels.
fn rate(inputs: &Inputs<'_>, name: &str, label: &str, help: &str) -> Markup {
    of_kind(inputs, name, label, help, &RATES)
}

/// An amount in a unit of these kinds.
fn of_kind(
    inputs: &Inputs<'_>,
    name: &str,
    label: &str,
    help: &str,
    kinds: &[Dimension],
) -> Markup {
    inputs.in_units(name, label, help, &fitting(kinds, inputs.ask.words.units))
}

/// Units of both systems, those of the person's own first.
fn own_first<'u>(inputs: &Inputs<'_>, us: &[&'u str], metric: &[&'u str]) -> Vec<&'u str> {
    match inputs.ask.words.units {
        Units::Us => [us, metric].concat(),
        Units::Metric => [metric, us].concat(),
    }
}

/// What the product is measured out with.
fn step(inputs: &Inputs<'_>) -> Markup {
    let us = ["fl oz", "oz", "lb", "pt", "qt", "tbsp", "tsp"];
    let units = own_first(inputs, &us, &["mL", "L", "g", "kg"]);
    inputs.in_units("step", "work-out-step", "work-out-step-help", &units)
}

/// Product in a volume of finished mix.
fn ratio(inputs: &Inputs<'_>, name: &str, label: &str, more: &[&'static str]) -> Markup {
    let us = ["fl oz/gal", "fl oz/100 gal", "oz/gal", "lb/100 gal"];
    let mut units = more.to_vec();
    units.extend(own_first(inputs, &us, &["mL/L", "g/L"]));
    inputs.in_units(name, label, "", &units)
}
