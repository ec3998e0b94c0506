//! One tank for several stops: what each got, what is left, and where a leftover may go.

use maud::{Markup, html};
use sward_rules::label::Label;
use sward_rules::mix::{
    Already, Draw, Leftover, Served, Serving, Site, Stop, TankMix, leftover_choices, serve,
};
use sward_rules::quantity::Dimension;
use sward_rules::{Entered, Field, RuleError};

use super::shown::Block;
use super::{AMOUNTS, Calc, Given, label_inputs, of_kind, rate};
use crate::part::inputs::{Inputs, beside, needed};
use crate::trouble::Wrong;
use crate::{Result, Trouble};

/// Most stops on the form.
const STOPS_MOST: usize = 6;
/// Stops in sight; the others are folded away.
const IN_SIGHT: usize = 2;

pub(super) const STOPS: Calc = Calc {
    name: "stops",
    title: "work-out-stops",
    first: "work-out-stops-first",
    inputs,
    work,
};

fn inputs(inputs: &Inputs<'_>) -> Result<Markup> {
    let form = &inputs.form;
    let typed = |name: &str| !form.value(name, inputs.last(name).as_deref()).is_empty();
    let more = (IN_SIGHT + 1..=STOPS_MOST)
        .any(|n| typed(&format!("drawn-{n}")) || typed(&format!("area-{n}")));
    let yes_no = [
        ("yes", inputs.ask.t("work-out-yes")),
        ("no", inputs.ask.t("work-out-no")),
    ];
    let nothing = [("nothing", inputs.ask.t("work-out-got-nothing"))];
    let last = |name: &str| inputs.last(name);
    Ok(html! {
        (of_kind(inputs, "product", "work-out-product-filled", "", &AMOUNTS))
        (inputs.number("mix", "work-out-mix-filled", ("gal", "L"), None))
        (of_kind(inputs, "carrier", "work-out-carrier", "", &[Dimension::VolumePerArea]))
        (label_inputs(inputs)?)
        @for n in 1..=IN_SIGHT { (stop(inputs, n)) }
        details open[more] {
            summary { (inputs.ask.t("work-out-more-stops")) }
            @for n in IN_SIGHT + 1..=STOPS_MOST { (stop(inputs, n)) }
        }
        details open[typed("site-area")] {
            summary { (inputs.ask.t("work-out-leftover")) }
            (inputs.number("site-area", "work-out-site-area", ("ft2", "m2"), None))
            (form.choice("site-on-label", "work-out-site-on-label", &yes_no, last("site-on-label").as_deref()))
            (form.choice("site-got", "work-out-site-got", &nothing, last("site-got").as_deref()))
            (rate(inputs, "site-rate", "work-out-site-rate", ""))
        }
    })
}

fn stop(inputs: &Inputs<'_>, n: usize) -> Markup {
    let called = |key: &str| inputs.ask.words.t_with(key, &[("n", n.into())]);
    let (drawn, area) = (called("work-out-stop-drawn"), called("work-out-stop-area"));
    html! {
        (inputs.number_called(&format!("drawn-{n}"), &drawn, ("gal", "L"), None))
        (inputs.number_called(&format!("area-{n}"), &area, ("ft2", "m2"), None))
    }
}

fn work(given: &Given<'_>) -> Result<Vec<Block>> {
    let [product, mix, carrier] = needed(given.form, ["product", "mix", "carrier"])?;
    let tank = TankMix { product, mix };
    let label = given.label()?;
    let names: Vec<String> = (1..=STOPS_MOST)
        .map(|n| given.words.t_with("work-out-stop", &[("n", n.into())]))
        .collect();
    let (mut draws, mut to_come) = (Vec::new(), Vec::new());
    for (n, name) in (1..).zip(&names) {
        let name = name.clone();
        let area = given.area(&format!("area-{n}"))?;
        match (given.form.amount(&format!("drawn-{n}"))?, area) {
            (Some(drawn), area) => draws.push(Draw { name, drawn, area }),
            // Nothing drawn yet.
            (None, Some(area)) => to_come.push(Stop { name, area }),
            (None, None) => {}
        }
    }
    let served = serve(&Serving {
        label: &label,
        tank: &tank,
        carrier,
        draws: &draws,
        to_come: &to_come,
    })
    .map_err(|e| told(e, &names))?;
    let mut rest = Block::headed(given.t("work-out-left-after-all"));
    let served = rest.take(served);
    let mut blocks = each(given, &served);
    left(given, &served, &mut rest);
    blocks.push(rest);
    let site = given.area("site-area")?;
    if let Some(area) = site.filter(|_| !served.left.is_zero()) {
        let on_label = match given.form.text("site-on-label") {
            "yes" => Some(true),
            "no" => Some(false),
            _ => None,
        };
        let site = Site {
            name: given.t("work-out-site"),
            on_label,
            area,
            already: already(given)?,
        };
        blocks.push(leftover(given, &label, &tank, served.left, carrier, site)?);
    }
    Ok(blocks)
}

fn each(given: &Given<'_>, served: &Served) -> Vec<Block> {
    let words = given.words;
    served
        .draws
        .iter()
        .map(|draw| {
            let mut block = Block::headed(draw.name.clone());
            block.amount(words, "work-out-drawn", &draw.drawn);
            block.amount(words, "work-out-product-in-it", &draw.product);
            block.exact(words, "work-out-it-covers", &draw.covers);
            let rate = draw.rate.as_ref();
            block.row(
                "work-out-rate-there",
                rate.map_or_else(String::new, |rate| words.worked_out(rate)),
            );
            block.exact(words, "work-out-left", &draw.left);
            block.found(draw.findings.clone());
            block
        })
        .collect()
}

fn left(given: &Given<'_>, served: &Served, rest: &mut Block) {
    let words = given.words;
    rest.exact(words, "work-out-left", &served.left);
    rest.amount(words, "work-out-product-in-it", &served.product_left);
    rest.exact(words, "work-out-it-covers", &served.left_covers);
    if let Some(to_come) = &served.to_come {
        rest.exact(words, "work-out-to-come", to_come);
        match &served.short {
            Some(short) => rest.exact(words, "work-out-short", short),
            None => rest.line(given.t("work-out-enough")),
        }
    }
}

fn already(given: &Given<'_>) -> Result<Already> {
    let nothing = given.form.is_ticked("site-got");
    match (nothing, given.form.amount("site-rate")?) {
        (true, Some(_)) => Err(Trouble::field("site-rate", Wrong::BothSaid)),
        (true, None) => Ok(Already::Nothing),
        (false, Some(rate)) => Ok(Already::Rate(rate)),
        (false, None) => Ok(Already::NotKnown),
    }
}

fn leftover(
    given: &Given<'_>,
    label: &Label,
    tank: &TankMix,
    left: Entered,
    carrier: Entered,
    site: Site,
) -> Result<Block> {
    let words = given.words;
    let mut block = Block::headed(given.t("work-out-leftover"));
    let choices = leftover_choices(&Leftover {
        label,
        tank,
        left,
        carrier,
        sites: &[site],
    })
    .map_err(|e| told(e, &[]))?;
    let choices = block.take(choices);
    for site in &choices.sites {
        if let Some(takes) = &site.takes {
            block.exact(words, "work-out-takes", takes);
            if let Some(area) = &site.least_area {
                block.exact(words, "work-out-least-area", area);
            }
        }
        block.found(site.findings.clone());
    }
    block.line(given.t("work-out-leftover-else"));
    Ok(block)
}

/// What the rules refuse, beside the stop or the site that it is about.
fn told(error: RuleError, stops: &[String]) -> Trouble {
    use RuleError as E;
    let (name, input) = match &error {
        E::DrawnMoreThanLeft { stop, .. } => (stop, "drawn"),
        E::NotPositive {
            field: Field::Drawn { name },
            ..
        }
        | E::In {
            field: Field::Drawn { name },
            ..
        } => (name, "drawn"),
        E::In {
            field: Field::Section { name },
            ..
        } => (name, "area"),
        _ => return beside(error, &NAMES),
    };
    match stops.iter().position(|stop| stop == name) {
        Some(index) => Trouble::in_field(format!("{input}-{}", index + 1), error),
        // The one site has no number.
        None => Trouble::in_field("site-area", error),
    }
}

const NAMES: [(Field, &str); 5] = [
    (Field::FilledProduct, "product"),
    (Field::FinishedMix, "mix"),
    (Field::Carrier, "carrier"),
    (Field::Rate, "most"),
    (Field::LeftInTank, "mix"),
];
