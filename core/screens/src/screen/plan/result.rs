//! What a plan comes to: product, mix, passes, loads and water, and what the label says to it.

use maud::{Markup, html};
use sward_book::action::{ReadyInputs, judge};
use sward_rules::finding::{Check, Finding, Reason};
use sward_rules::label::{LabelSays, WateringIn};
use sward_rules::plan::{
    Amount, Load, Passes, Plan, SectionPlan, SettingUse, TimesOver, setting_used,
    watering_in_volume,
};
use sward_rules::{Entered, RuleError};

use super::bring;
use super::label::says;
use super::lines;
use super::season::{Total, totals};
use super::work::Job;
use crate::ask::Ask;
use crate::part::finding::findings;
use crate::part::how::how;
use crate::part::{amounts, row, way};
use crate::screen;
use crate::screen::visit::Here;
use crate::trouble::if_there;
use crate::{Result, Trouble};

/// Why the amounts could not be worked out.
pub(super) fn refused(ask: &Ask<'_>, error: &RuleError) -> Markup {
    let said = ask.words.trouble(&Trouble::Rule(error.clone()));
    html! { div.wrong role="alert" { p { (said) } } }
}

/// What to measure out in all, and what the label says to it.
pub(super) fn in_short(ask: &Ask<'_>, here: &Here, job: &Job, plan: &Plan) -> Result<Markup> {
    let mut found = plan.findings.clone();
    found.extend(label_findings(ask, here, job)?);
    found.extend(swath(ask, job, plan)?);
    Ok(html! {
        (product(ask, plan))
        (findings(ask, &found))
    })
}

/// Everything else: sections, passes, loads, water, ingredients, and what to bring.
pub(super) fn in_full(ask: &Ask<'_>, here: &Here, job: &Job, plan: &Plan) -> Result<Markup> {
    let season = totals(ask.book()?, here, ask.now.utc_ms, plan)?;
    Ok(html! {
        (sections(ask, here, job, plan))
        (passes(ask, plan))
        (lines::sketch(ask, here, job, &plan.passes.value)?)
        (loads(ask, plan))
        (water(ask, job)?)
        (ingredients(ask, job, plan, &season))
        (bring::equipment(ask, job)?)
        (bring::stock(ask, job, plan)?)
        (copied(ask, job))
    })
}

/// What the label says to the yard and to the sheet itself: earliest repeat, reading back.
fn label_findings(ask: &Ask<'_>, here: &Here, job: &Job) -> Result<Vec<Finding>> {
    let book = ask.book()?;
    let (all, _) = judge(book, here.visit.visit, job.label_id, ReadyInputs::default())?;
    let of_the_plan = [Check::Repeat, Check::LabelReadBack];
    Ok(all
        .into_iter()
        .filter(|f| of_the_plan.contains(&f.check))
        .collect())
}

/// What the spreader's setting puts on where the lines lie otherwise than it was calibrated.
///
/// A sprayer's calibration is of the mix, not of the product, and says nothing here.
fn swath(ask: &Ask<'_>, job: &Job, plan: &Plan) -> Result<Option<Finding>> {
    let passes = &plan.passes.value;
    let kept = job.kept.as_ref().filter(|_| !job.is_wet());
    let asked = kept.and_then(|k| Some((k.equipment?, k.rate?, k.swath?, passes.line_spacing?)));
    let Some((machine, planned, swath, line_spacing)) = asked else {
        return Ok(None);
    };
    let Some(sheet) = if_there(ask.book()?.equipment_sheet(machine))? else {
        let finding = Finding::unknown(Check::Swath, Reason::SwathNotKnown);
        return Ok(Some(finding));
    };
    let Some(gives) = sheet.calibrated_rate else {
        return Ok(None);
    };
    let is_same = |of: Entered| of.compare(&swath).is_ok_and(std::cmp::Ordering::is_eq);
    if sheet.swath.is_some_and(is_same) {
        return Ok(None);
    }
    let used = setting_used(&SettingUse {
        label: &job.sheet.label,
        planned,
        gives,
        calibrated_swath: sheet.swath,
        line_spacing,
        times: match passes.passes {
            Passes::TwoAtRightAngles => TimesOver::TwiceAtRightAngles,
            Passes::One | Passes::HalfSwath => TimesOver::Once,
        },
    });
    // A calibration that cannot be held against the plan, such as of another kind, is not known.
    Ok(Some(used.map_or_else(
        |_| Finding::unknown(Check::Swath, Reason::SwathNotKnown),
        |used| used.value.finding,
    )))
}

fn product(ask: &Ask<'_>, plan: &Plan) -> Markup {
    let words = ask.words;
    html! {
        div.card {
            h2 { (ask.t("plan-product")) }
            p.big { (words.amount(&plan.product.value.measured_out)) }
            (rounding(ask, &plan.product.value))
            (how(ask, &plan.product.working))
            @if let Some(mix) = &plan.carrier {
                h2 { (ask.t("plan-mix")) }
                p.big { (words.worked_out(&mix.value)) }
                (how(ask, &mix.working))
            }
        }
    }
}

/// What rounding to what the vessel shows does to an amount.
fn rounding(ask: &Ask<'_>, amount: &Amount) -> Markup {
    let exact = ask.words.worked_out(&amount.exact);
    let change = amounts::change(ask.words, amount.change_percent);
    html! {
        p.note {
            (ask.words.t_with("plan-rounding", &[("exact", exact.into()), ("change", change.into())]))
        }
    }
}

fn sections(ask: &Ask<'_>, here: &Here, job: &Job, plan: &Plan) -> Markup {
    html! {
        h2 { (ask.t("plan-sections")) }
        ul.list { @for section in &plan.sections { li { (one_section(ask, section)) } } }
        @for name in &job.unmeasured {
            p { (name) ": " span.unknown { (ask.t("plan-unmeasured")) } }
        }
        @if !job.unmeasured.is_empty() {
            (way(&format!("/visit/{}/measure", here.visit.visit), &ask.t("plan-to-measure")))
        }
    }
}

fn one_section(ask: &Ask<'_>, section: &SectionPlan) -> Markup {
    let words = ask.words;
    let product = section.measured_out.as_ref().map_or_else(
        || words.worked_out(&section.product.value),
        |a| words.amount(&a.measured_out),
    );
    html! {
        p {
            strong { (section.name) } ": " (product)
            @if let Some(mix) = &section.carrier {
                " " (words.t_with("plan-in-mix", &[("mix", words.worked_out(mix).into())]))
            }
        }
        p.note { (amounts::area(words, &section.area)) }
        @if let Some(amount) = &section.measured_out { (rounding(ask, amount)) }
        (how(ask, &section.product.working))
    }
}

fn passes(ask: &Ask<'_>, plan: &Plan) -> Markup {
    let words = ask.words;
    let passes = &plan.passes.value;
    let said = match passes.passes {
        Passes::One => "plan-pass-one",
        Passes::TwoAtRightAngles => "plan-pass-two",
        Passes::HalfSwath => "plan-pass-half-swath",
    };
    html! {
        h2 { (ask.t("plan-passes-title")) }
        p { (words.t_with(said, &[("rate", words.worked_out(&passes.rate_each).into())])) }
        ul.list {
            @if passes.product.len() > 1 {
                @for (index, product) in passes.product.iter().enumerate() {
                    li {
                        (words.t_with("plan-pass-number", &[("n", (index + 1).into())])) ": "
                        (words.worked_out(product))
                        @if let Some(mix) = passes.carrier.get(index) {
                            " " (words.t_with("plan-in-mix", &[("mix", words.worked_out(mix).into())]))
                        }
                    }
                }
            }
        }
        dl {
            (row(
                &ask.t("plan-line-spacing"),
                &passes.line_spacing.map_or_else(String::new, |s| words.worked_out(&s)),
                &ask.t("frame-not-known"),
            ))
        }
        (how(ask, &plan.passes.working))
    }
}

/// Loads that are alike stand in one line.
fn loads(ask: &Ask<'_>, plan: &Plan) -> Markup {
    let words = ask.words;
    html! {
        h2 { (ask.t("plan-loads")) }
        ul.list {
            @for (first, last) in alike(&plan.loads.value) {
                li {
                    @if first.number == last.number {
                        (words.t_with("plan-load", &[("n", first.number.into())]))
                    } @else {
                        (words.t_with("plan-loads-alike", &[("first", first.number.into()), ("last", last.number.into())]))
                    }
                    ": " strong { (words.amount(&first.product)) }
                    @if let Some(mix) = &first.carrier {
                        " " (words.t_with("plan-fill-up", &[("mix", words.worked_out(mix).into())]))
                    }
                    @if let Some(percent) = first.change_percent {
                        p.note { (words.t_with("plan-load-rounding", &[("change", amounts::change(words, percent).into())])) }
                    }
                }
            }
        }
        (how(ask, &plan.loads.working))
    }
}

/// The first and the last of each run of loads with the same content.
fn alike(loads: &[Load]) -> Vec<(&Load, &Load)> {
    loads
        .chunk_by(|a, b| a.product == b.product && a.carrier == b.carrier)
        .filter_map(|run| Some((run.first()?, run.last()?)))
        .collect()
}

/// Watering in: required, withheld, or not stated.
fn water(ask: &Ask<'_>, job: &Job) -> Result<Markup> {
    let words = ask.words;
    let said = match &job.sheet.label.watering_in {
        LabelSays::Unfilled => ask.t("frame-not-known"),
        LabelSays::Nothing => ask.t("plan-water-silent"),
        LabelSays::Value(WateringIn::Required(None)) => ask.t("plan-water-no-depth"),
        LabelSays::Value(WateringIn::Required(Some(depth))) => {
            words.t_with("plan-water-depth", &[("depth", words.amount(depth).into())])
        }
        LabelSays::Value(WateringIn::Withheld(None)) => ask.t("plan-water-withheld"),
        LabelSays::Value(WateringIn::Withheld(Some(time))) => words.t_with(
            "plan-water-withheld-for",
            &[("time", words.amount(time).into())],
        ),
    };
    let mut volumes = Vec::new();
    let mut can_test = None;
    if let LabelSays::Value(WateringIn::Required(Some(depth))) = &job.sheet.label.watering_in {
        can_test = Some(screen::work_out::watering_in(depth));
        for section in &job.sections {
            volumes.push((section, watering_in_volume(depth, &section.area)?));
        }
    }
    Ok(html! {
        h2 { (ask.t("plan-water")) }
        p { (said) }
        ul.list {
            @for (section, volume) in &volumes {
                li { (section.name) ": " (words.worked_out(&volume.value)) (how(ask, &volume.working)) }
            }
        }
        @if let Some(href) = &can_test { (way(href, &ask.t("plan-to-can-test"))) }
        dl { (row(&ask.t("plan-water-by"), "", &ask.t("frame-not-known"))) }
    })
}

/// Ingredients: the dose of this plan, and the year's total with it.
fn ingredients(ask: &Ask<'_>, job: &Job, plan: &Plan, season: &[Total]) -> Markup {
    let words = ask.words;
    let not_known = ask.t("frame-not-known");
    html! {
        h2 { (ask.t("plan-ingredients")) }
        @if plan.ingredients.is_empty() { p { span.unknown { (not_known) } } }
        ul.list {
            @for (dose, total) in plan.ingredients.iter().zip(season) {
                li {
                    p { strong { (dose.value.name) } }
                    dl {
                        (row(
                            &ask.t("plan-dose"),
                            &dose.value.per_acre.map_or_else(String::new, |d| words.worked_out(&d)),
                            &not_known,
                        ))
                        (row(
                            &words.t_with("plan-season-total", &[("n", total.times.into())]),
                            &total.per_acre.map_or_else(String::new, |d| words.worked_out(&d)),
                            &not_known,
                        ))
                        (row(&ask.t("plan-season-others"), "", &not_known))
                    }
                    (how(ask, &dose.working))
                }
            }
        }
        dl { (row(&ask.t("plan-season-most"), &says(ask, &job.sheet.season_most), &not_known)) }
    }
}

/// What stands on the label in words, and what no book here knows.
fn copied(ask: &Ask<'_>, job: &Job) -> Markup {
    let not_known = ask.t("frame-not-known");
    let said = &job.sheet.words;
    let texts = [
        ("plan-sites", &said.sites),
        ("plan-pests", &said.pests),
        ("plan-mixing-order", &said.mixing_order),
        ("plan-gear", &said.protective_gear),
        ("plan-leftovers", &said.leftovers),
        ("plan-forbids", &said.forbids),
    ];
    html! {
        h2 { (ask.t("plan-label-words")) }
        dl {
            @for (key, text) in texts { (row(&ask.t(key), text, &not_known)) }
            (row(&ask.t("plan-tank-fill"), "", &not_known))
        }
    }
}
