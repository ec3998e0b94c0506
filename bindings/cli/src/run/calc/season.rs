//! A season: active ingredient, the earliest repeat, product on hand.

use chrono::{Datelike as _, NaiveDate};
use sward_rules::Entered;
use sward_rules::label::{Ingredient, LabelSays};
use sward_rules::season::{
    LastPutOn, Lot, Others, PutOn, RepeatAsked, SeasonInput, SeasonMost, StockAsked,
    season_ingredients,
};

use super::{Worked, stated};
use crate::args::{RepeatCalc, SeasonCalc, StockCalc, typed};
use crate::error::{CliError, Result};
use crate::words::CAUTION;

/// Each ingredient's sum.
pub(super) fn season(args: &SeasonCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let before = args.before.iter().map(put_on).collect::<Result<Vec<_>>>()?;
    let planned = args.planned.as_ref().map(put_on).transpose()?;
    let most: Vec<SeasonMost> = args
        .most
        .iter()
        .map(|(name, most)| SeasonMost {
            name: name.clone(),
            most: LabelSays::Value(*most),
        })
        .collect();
    if before.is_empty() && planned.is_none() && most.is_empty() {
        let example = "--before \"bifenthrin=0.2 %; put 100 lb on 1 acre\"";
        return Err(CliError::Usage(format!(
            "give a treatment, such as {example}"
        )));
    }
    let others = others(args.others_none);
    let sums = season_ingredients(&SeasonInput {
        before: &before,
        planned: planned.as_ref(),
        most: &most,
        others,
    })?;
    let sums = worked.take("season", sums);
    for sum in &sums {
        let mut parts = vec![format!("{}: {} so far", sum.name, sum.so_far.for_person())];
        parts.extend(
            sum.with_planned
                .map(|all| format!("{} with the planned treatment", all.for_person())),
        );
        parts.extend(
            sum.room
                .map(|room| format!("room for {} as far as is known", room.for_person())),
        );
        worked
            .line(parts.join(", "))
            .findings([sum.finding.clone()]);
    }
    worked.line(CAUTION).value("ingredients", &sums);
    Ok(worked)
}

fn others(said_none: bool) -> Others {
    if said_none {
        Others::SaidNone
    } else {
        Others::NotKnown
    }
}

/// The earliest day.
pub(super) fn repeat(args: &RepeatCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let before = match (args.last.is_empty(), args.never) {
        (true, false) => LastPutOn::NotKnown,
        _ => LastPutOn::Days(args.last.clone()),
    };
    let first = NaiveDate::from_ymd_opt(args.on.year(), 1, 1);
    let next = sward_rules::season::repeat(&RepeatAsked {
        shortest: args.shortest.clone().unwrap_or_default(),
        season_most: args.season_most.clone().unwrap_or_default(),
        season_from: args.season_from.or(first).unwrap_or(args.on),
        before,
        others: others(args.others_none),
        planned: args.on,
    })?;
    let next = worked.take("repeat", next);
    match next.earliest {
        Some(earliest) => worked.line(format!("Not before {earliest}")),
        None => worked.line("No earliest day is known."),
    };
    worked
        .line(CAUTION)
        .findings(next.findings.clone())
        .value("repeat", &next);
    Ok(worked)
}

/// Lots for a plan.
pub(super) fn stock(args: &StockCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let lots = args.lot.iter().map(lot).collect::<Result<Vec<_>>>()?;
    let plan = sward_rules::season::stock(&StockAsked {
        lots: &lots,
        needed: args.needed,
        day: args.on,
    })?;
    let plan = worked.take("stock", plan);
    for lot in &plan.lots {
        worked.line(format!(
            "Take {} of lot {}; {} stay",
            lot.take.for_person(),
            lot.name,
            lot.left_after.for_person()
        ));
    }
    if let Some(short) = &plan.short {
        worked.line(format!("{} are missing", short.for_person()));
    }
    worked.findings(plan.findings.clone()).value("stock", &plan);
    Ok(worked)
}

/// `bifenthrin=0.2 %; put 100 lb on 1 acre`; more ingredients as further `with NAME=CONTENT`.
fn put_on((name, text): &(String, String)) -> Result<PutOn> {
    let usage = || {
        let form = "0.2 %; put 100 lb on 1 acre";
        CliError::Usage(format!("{name}: write it like {name}=\"{form}\""))
    };
    let (content, others) = typed::parts(text);
    let ingredient = |name: &str, content: &str| -> Result<Ingredient> {
        Ok(Ingredient {
            name: name.to_owned(),
            content: Entered::parse(content)?,
        })
    };
    let mut ingredients = vec![ingredient(name, content)?];
    let mut put = None;
    for (key, rest) in others {
        match key {
            "put" => put = Some(typed::amount_on(rest).map_err(CliError::Usage)?),
            "with" => {
                let (name, content) = typed::named(rest).map_err(CliError::Usage)?;
                ingredients.push(ingredient(&name, &content)?);
            }
            _ => return Err(usage()),
        }
    }
    let (product, area) = put.ok_or_else(usage)?;
    Ok(PutOn {
        ingredients,
        product,
        area: stated(&area.ok_or_else(usage)?)?,
    })
}

fn lot((name, text): &(String, String)) -> Result<Lot> {
    let in_lot = |e: String| CliError::Usage(format!("lot {name}: {e}"));
    let (amount, others) = typed::parts(text);
    let mut lot = Lot {
        name: name.clone(),
        on_hand: typed::amount_on(amount).map_err(in_lot)?.0,
        bought: None,
        opened: None,
        expires: LabelSays::Unfilled,
    };
    for (key, rest) in others {
        match key {
            "bought" => lot.bought = Some(typed::day(rest).map_err(in_lot)?),
            "opened" => lot.opened = Some(typed::day(rest).map_err(in_lot)?),
            "expires" => lot.expires = typed::says_day(rest).map_err(in_lot)?,
            _ => {
                return Err(in_lot(format!(
                    "`{key}` is not understood; write it like 20 lb; bought 2026-03-01; expires nothing"
                )));
            }
        }
    }
    Ok(lot)
}
