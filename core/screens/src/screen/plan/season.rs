//! What this crew put on the yard this year, by ingredient, with what the plan would add.
//!
//! What others put on, another firm or the owner, no book here can know.

use std::collections::BTreeMap;

use chrono::Datelike as _;
use sward_book::Book;
use sward_book::action::treatment_of;
use sward_book::view::visit::VisitState;
use sward_rules::Entered;
use sward_rules::plan::{IngredientDose, Plan};

use super::work::doses;
use crate::Result;
use crate::screen::visit::Here;

/// More visits than any yard has in a year.
const VISITS_A_YEAR: usize = 200;

/// One ingredient's total over the year.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Total {
    pub(super) name: String,
    /// How often it was put on before.
    pub(super) times: usize,
    /// Weight per acre with this plan; none where one of the doses cannot be known.
    pub(super) per_acre: Option<Entered>,
}

/// The totals of all ingredients of a plan.
pub(super) fn totals(book: &Book, here: &Here, now_ms: i64, plan: &Plan) -> Result<Vec<Total>> {
    let earlier = earlier(book, here, now_ms)?;
    let planned = plan.ingredients.iter().map(|a| &a.value);
    Ok(planned.map(|dose| total(dose, &earlier)).collect())
}

/// Doses by ingredient of this year's finished treatments of the yard.
fn earlier(
    book: &Book,
    here: &Here,
    now_ms: i64,
) -> Result<BTreeMap<String, Vec<Option<Entered>>>> {
    let mut doses_of: BTreeMap<String, Vec<Option<Entered>>> = BTreeMap::new();
    let Some(yard) = here.visit.yard else {
        return Ok(doses_of);
    };
    let year = |utc_ms: i64| here.words.day_of(utc_ms).year();
    for visit in book.visits_to_newest(yard, VISITS_A_YEAR)? {
        let this_year = visit
            .opened
            .is_some_and(|at| year(at.utc_ms) == year(now_ms));
        let is_other = visit.visit != here.visit.visit && visit.state == VisitState::Finished;
        let settled = visit.finish();
        let finish = settled.or(visit.finishes.first().map(|f| f.fact));
        let (true, true, Some(finish)) = (this_year, is_other, finish) else {
            continue;
        };
        let treatment = treatment_of(book, finish)?;
        // Of several finishes that nobody settled no dose is known, only that there was one.
        let known = match settled {
            Some(_) => doses(&treatment.label, &treatment.rate),
            None => Vec::new(),
        };
        for ingredient in &treatment.label.ingredients {
            let dose = known
                .iter()
                .find(|d| d.name == ingredient.name)
                .and_then(|d| d.per_acre);
            doses_of
                .entry(folded(&ingredient.name))
                .or_default()
                .push(dose);
        }
    }
    Ok(doses_of)
}

fn total(planned: &IngredientDose, earlier: &BTreeMap<String, Vec<Option<Entered>>>) -> Total {
    let before = earlier
        .get(&folded(&planned.name))
        .map_or(&[][..], Vec::as_slice);
    let all = before.iter().copied().chain([planned.per_acre]);
    Total {
        name: planned.name.clone(),
        times: before.len(),
        per_acre: all.reduce(sum).flatten(),
    }
}

/// One dose that is not known leaves the sum not known.
fn sum(a: Option<Entered>, b: Option<Entered>) -> Option<Entered> {
    let (a, b) = (a?, b?);
    let b = b.convert(a.unit()).ok()?;
    Entered::new(a.amount().checked_add(b.amount())?, a.unit()).ok()
}

fn folded(name: &str) -> String {
    name.trim().to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn dose(text: &str) -> Entered {
        Entered::parse(text).unwrap()
    }

    fn planned(per_acre: Option<Entered>) -> IngredientDose {
        IngredientDose {
            name: "Bifenthrin".into(),
            per_acre,
        }
    }

    #[test]
    fn doses_add_up_whatever_the_case_of_the_name() {
        let earlier = BTreeMap::from([(
            "bifenthrin".to_owned(),
            vec![Some(dose("0.1 lb/acre")), Some(dose("0.2 lb/acre"))],
        )]);
        let total = total(&planned(Some(dose("0.1 lb/acre"))), &earlier);
        assert_eq!(
            (total.times, total.per_acre),
            (2, Some(dose("0.4 lb/acre")))
        );
    }

    #[test]
    fn one_dose_that_is_not_known_leaves_the_total_not_known() {
        let earlier = BTreeMap::from([("bifenthrin".to_owned(), vec![None])]);
        assert_eq!(
            total(&planned(Some(dose("0.1 lb/acre"))), &earlier).per_acre,
            None
        );
        assert_eq!(total(&planned(None), &BTreeMap::new()).per_acre, None);
    }
}
