//! The plan of a visit: product, water, passes and loads; and the check half-way.

use rust_decimal::Decimal;
use serde_json::{Value, json};
use sward_book::Book;
use sward_book::ids::VisitId;
use sward_book::sheet::{LabelSheet, PlanSheet, Section as YardSection};
use sward_rules::Entered;
use sward_rules::finding::{Finding, Verdict, sum};
use sward_rules::label::{LabelSays, WateringIn};
use sward_rules::plan::{
    AreaBasis, HalfWay, Passes, Plan, PlanInput, Section, Vessel, half_way_check, plan as work_out,
    watering_in_volume,
};

use crate::app::App;
use crate::args::{HalfWayArgs, PlanArgs};
use crate::error::{CliError, Result};
use crate::names;
use crate::print::{Answer, Page};
use crate::words::{CAUTION, findings_table, how, method};

/// Runs `sward plan`.
pub(super) fn run(app: &App, args: &PlanArgs) -> Result<Answer> {
    let given = given(args);
    let book = if given.is_empty() && args.label.is_none() {
        app.reading()?
    } else {
        write_down(app, args, given)?
    };
    let visit = names::visit(&book, &args.visit)?;
    show(&book, visit, args)
}

fn given(args: &PlanArgs) -> Vec<(&'static str, String)> {
    [
        ("rate", &args.rate),
        ("carrier", &args.carrier),
        ("holds", &args.holds),
        ("vessel", &args.vessel),
        ("passes", &args.passes),
        ("swath", &args.swath),
    ]
    .into_iter()
    .filter_map(|(key, text)| Some((key, text.clone()?)))
    .collect()
}

fn write_down(app: &App, args: &PlanArgs, mut given: Vec<(&'static str, String)>) -> Result<Book> {
    let mut book = app.writing()?;
    let visit = names::visit(&book, &args.visit)?;
    if let Some(label) = &args.label {
        given.push(("label", names::label(&book, label)?.to_string()));
    }
    let typed: Vec<(&str, &str)> = given.iter().map(|(k, v)| (*k, v.as_str())).collect();
    book.set_plan(visit, &typed)?;
    Ok(book)
}

/// A visit's plan with the label sheet it works from.
pub(super) struct Planned {
    pub(super) sheet: PlanSheet,
    pub(super) label: LabelSheet,
}

/// Reads a plan as far as every step after it needs it.
pub(super) fn planned(book: &Book, visit: VisitId) -> Result<Planned> {
    let missing = |what: &str| {
        CliError::Refused(format!(
            "the plan has no {what} yet: sward plan VISIT --{what} ..."
        ))
    };
    let sheet = book.plan(visit)?.ok_or_else(|| missing("label"))?;
    let label = sheet.label.ok_or_else(|| missing("label"))?;
    Ok(Planned {
        label: book.label_sheet(label)?,
        sheet,
    })
}

/// The sections to treat with their areas: those asked for, or all that are shown and measured.
fn sections(book: &Book, visit: VisitId, asked: &[String]) -> Result<Vec<Section>> {
    let yard = book.visit(visit)?.yard.ok_or_else(|| {
        CliError::Refused("the yard of this visit has not arrived yet: swap records first".into())
    })?;
    let sheet = book.yard_sheet(yard)?;
    let chosen: Vec<&YardSection> = if asked.is_empty() {
        sheet
            .sections
            .iter()
            .filter(|s| !s.hidden && s.outline.is_some())
            .collect()
    } else {
        asked
            .iter()
            .map(|name| names::section(&sheet, name))
            .collect::<Result<_>>()?
    };
    chosen
        .into_iter()
        .map(|section| {
            let outline = section.outline.as_ref().ok_or_else(|| {
                CliError::Refused(format!(
                    "{} is not measured: measure it first",
                    section.name
                ))
            })?;
            Ok(Section {
                name: section.name.clone(),
                area: outline.area()?.value,
            })
        })
        .collect()
}

/// What a plan still lacks, and what was worked out where it lacks nothing.
fn worked_out(
    planned: &Planned,
    sections: &[Section],
    less_uncertainty: bool,
) -> Result<std::result::Result<Plan, Vec<&'static str>>> {
    let sheet = &planned.sheet;
    let lacks: Vec<&'static str> = [
        ("--rate", sheet.rate.is_none()),
        ("--holds", sheet.holds.is_none()),
        ("--vessel", sheet.vessel.is_none()),
    ]
    .into_iter()
    .filter_map(|(flag, is_missing)| is_missing.then_some(flag))
    .collect();
    let (Some(rate), Some(capacity), Some(step)) = (sheet.rate, sheet.holds, sheet.vessel) else {
        return Ok(Err(lacks));
    };
    let vessel = Vessel {
        name: "the vessel".to_owned(),
        least_step: step,
    };
    let input = PlanInput {
        sections,
        label: &planned.label.label,
        rate,
        carrier: sheet.carrier,
        capacity,
        vessel: &vessel,
        passes: if sheet.two_passes {
            Passes::TwoAtRightAngles
        } else {
            Passes::One
        },
        swath: sheet.swath,
        basis: if less_uncertainty {
            AreaBasis::LessUncertainty
        } else {
            AreaBasis::Best
        },
    };
    Ok(Ok(work_out(&input)?))
}

fn show(book: &Book, visit: VisitId, args: &PlanArgs) -> Result<Answer> {
    let planned = planned(book, visit)?;
    let sections = sections(book, visit, &args.sections)?;
    let plan = match worked_out(&planned, &sections, args.less_uncertainty)? {
        Ok(plan) => plan,
        Err(lacks) => {
            let page = Page::of(format!(
                "Written down. The plan still lacks {}.",
                lacks.join(", ")
            ));
            return Ok(Answer::new(page, json!({ "visit": visit, "lacks": lacks })));
        }
    };
    let mut page = Page::default();
    let label = &planned.label.label;
    page.line(format!("Plan: {}, {}", label.product, method(label.method)));
    section_lines(&mut page, &plan);
    amount_lines(&mut page, &plan);
    let water = watering(&mut page, label, &sections)?;
    page.blank();
    findings_table(&mut page, &plan.findings);
    if args.how {
        page.blank();
        workings(&mut page, &plan);
    }
    if plan.verdict() <= Verdict::Caution {
        page.blank().line(CAUTION);
    }
    let json = json!({
        "visit": visit,
        "label": planned.sheet.label,
        "plan": plan,
        "verdict": plan.verdict(),
        "watering_in": water,
    });
    Ok(Answer::new(page, json))
}

fn section_lines(page: &mut Page, plan: &Plan) {
    let rows = plan
        .sections
        .iter()
        .map(|s| {
            let product = s
                .measured_out
                .as_ref()
                .map_or(s.product.value, |a| a.measured_out);
            vec![
                s.name.clone(),
                s.area.for_person(),
                product.for_person(),
                s.carrier.map_or_else(|| "-".into(), |c| short(&c)),
            ]
        })
        .collect();
    page.table(&["section", "area", "product", "mix"], rows);
}

fn amount_lines(page: &mut Page, plan: &Plan) {
    let product = &plan.product.value;
    page.blank().line(format!(
        "Product to measure out: {} (exactly {}; rounding {:+.1} %)",
        product.measured_out.for_person(),
        short(&product.exact),
        product.change_percent
    ));
    if let Some(carrier) = &plan.carrier {
        page.line(format!("Finished mix in all: {}", short(&carrier.value)));
    }
    let passes = &plan.passes.value;
    let spacing = passes
        .line_spacing
        .map(|s| format!(", lines {} apart", s.for_person()))
        .unwrap_or_default();
    let words = match passes.passes {
        Passes::One => "One pass",
        Passes::TwoAtRightAngles => "Two passes at right angles, each",
        Passes::HalfSwath => "Lines half a swath apart, each",
    };
    page.line(format!(
        "{words} at {}{spacing}",
        passes.rate_each.for_person()
    ));
    if passes.product.len() > 1 {
        let each: Vec<String> = passes.product.iter().map(Entered::for_person).collect();
        page.item(format!("product for each pass: {}", each.join(", ")));
    }
    let rows = plan
        .loads
        .value
        .iter()
        .map(|l| {
            vec![
                format!("load {}", l.number),
                l.product.for_person(),
                l.carrier
                    .map_or_else(|| "-".into(), |c| format!("fill up to {}", short(&c))),
            ]
        })
        .collect();
    page.table(&["load", "product", "mix"], rows);
}

/// An amount worked out rather than measured, with no more digits than anyone can use.
fn short(entered: &Entered) -> String {
    match entered.amount().round_sf(5) {
        Some(amount) => format!(
            "{} {}",
            Decimal::normalize(&amount),
            entered.unit().for_person()
        ),
        None => entered.for_person(),
    }
}

fn watering(
    page: &mut Page,
    label: &sward_rules::label::Label,
    sections: &[Section],
) -> Result<Option<Value>> {
    let depth = match &label.watering_in {
        LabelSays::Value(WateringIn::Required(Some(depth))) => depth,
        LabelSays::Value(WateringIn::Required(None)) => {
            page.line("Water in after treating: the label gives no depth.");
            return Ok(None);
        }
        LabelSays::Value(WateringIn::Withheld(time)) => {
            let long = time.map_or_else(|| "as the label says".into(), |t| t.for_person());
            page.line(format!("Keep water off after treating: {long}."));
            return Ok(None);
        }
        LabelSays::Unfilled | LabelSays::Nothing => return Ok(None),
    };
    let volumes = sections
        .iter()
        .map(|s| Ok((s, watering_in_volume(depth, &s.area)?.value)))
        .collect::<Result<Vec<_>>>()?;
    for (section, volume) in &volumes {
        page.line(format!(
            "Water in {} to {}: {}",
            section.name,
            depth.for_person(),
            short(volume)
        ));
    }
    let json = volumes
        .iter()
        .map(|(s, v)| json!({ "section": s.name, "volume": v }))
        .collect();
    Ok(Some(json))
}

fn workings(page: &mut Page, plan: &Plan) {
    how(page, "product", &plan.product.working);
    if let Some(carrier) = &plan.carrier {
        how(page, "mix", &carrier.working);
    }
    how(page, "passes", &plan.passes.working);
    how(page, "loads", &plan.loads.working);
    for ingredient in &plan.ingredients {
        let dose = ingredient.value.per_acre.map_or_else(
            || "not known".to_owned(),
            |dose| format!("{} of it", short(&dose)),
        );
        how(
            page,
            &format!("{}: {dose}", ingredient.value.name),
            &ingredient.working,
        );
    }
}

/// The findings on rate and carrier, as the plan has them.
pub(super) fn rate_findings(planned: &Planned) -> Result<Vec<Finding>> {
    let label = &planned.label.label;
    let mut findings = match &planned.sheet.rate {
        Some(rate) => sward_rules::plan::rate_findings(label, rate)?,
        None => vec![Finding::unknown(
            sward_rules::finding::Check::Rate,
            sward_rules::finding::Reason::NoRateYet,
        )],
    };
    if let Some(carrier) = &planned.sheet.carrier {
        findings.push(sward_rules::plan::carrier_finding(label, carrier)?);
    }
    Ok(findings)
}

/// Runs `sward half-way`.
pub(super) fn half_way(app: &App, args: &HalfWayArgs) -> Result<Answer> {
    let book = app.reading()?;
    let visit = names::visit(&book, &args.visit)?;
    let planned = planned(&book, visit)?;
    let sections = sections(&book, visit, &args.sections)?;
    let plan = worked_out(&planned, &sections, false)?
        .map_err(|lacks| CliError::Refused(format!("the plan still lacks {}", lacks.join(", "))))?;
    let answer = half_way_check(&HalfWay {
        label: &planned.label.label,
        rate: planned
            .sheet
            .rate
            .ok_or_else(|| CliError::Refused("the plan has no rate".into()))?,
        planned: plan.product.value.measured_out,
        filled: args.filled,
        left: args.left,
        done: args.done,
    })?;
    let found = &answer.value;
    let mut page = Page::default();
    page.line(format!(
        "Used {}, due {} ({:+.1} %): the part done has {}.",
        short(&found.used),
        short(&found.due),
        found.off_percent,
        short(&found.rate_done)
    ));
    page.line(format!(
        "For the rest at the planned rate: {}.",
        short(&found.for_the_rest)
    ));
    if let Some(missing) = &found.missing {
        page.line(format!("Missing for it: {}.", short(missing)));
    }
    findings_table(&mut page, std::slice::from_ref(&found.finding));
    let verdict = sum(std::slice::from_ref(&found.finding));
    Ok(Answer::new(
        page,
        json!({ "visit": visit, "half_way": found, "verdict": verdict }),
    ))
}
