//! What stands around a visit: the return that is planned, who was told, and what it is found by.
//!
//! How far the visit has come is [`super::visit`]; what ends a keep-off, [`super::keep_off`].

use super::visit::{Names, ProductUsed, ReturnDay, VisitFacts};
use crate::fact::{Fact, Replacement, ReturnWhat};
use crate::ids::{FactId, KeepOffId};

/// The latest return that stands, with a "not treated" or by itself.
pub(super) fn return_day(facts: &VisitFacts<'_>) -> Option<ReturnDay> {
    facts
        .effective()
        .filter_map(|t| {
            if let Fact::ReturnPlanned(f) = t.fact {
                return Some(ReturnDay {
                    fact: t.id,
                    day: f.day.clone(),
                    what: f.what,
                    note: f.note.clone(),
                });
            }
            Some(ReturnDay {
                fact: t.id,
                day: t.not_treated()?.look_again.clone()?,
                what: ReturnWhat::Look,
                note: String::new(),
            })
        })
        .last()
}

/// The facts that say who was told of a keep-off.
pub(super) fn told_of(keep_off: KeepOffId, facts: &VisitFacts<'_>) -> Vec<FactId> {
    facts
        .standing()
        .filter(|t| matches!(t.fact, Fact::KeepOffTold(f) if f.keep_offs.contains(&keep_off)))
        .map(|t| t.id)
        .collect()
}

/// What treating was started with.
pub(super) fn products(facts: &VisitFacts<'_>) -> Vec<ProductUsed> {
    each_once(facts.told.iter().filter_map(|t| match t.fact {
        Fact::Started(start) => Some(ProductUsed {
            product: start.label.product.clone(),
            registration: start.label.registration.clone(),
        }),
        _ => None,
    }))
}

/// The names of those whose devices wrote any of it.
pub(super) fn people(facts: &VisitFacts<'_>, names: &Names<'_>) -> Vec<String> {
    each_once(
        facts
            .told
            .iter()
            .filter_map(|t| names(t.by))
            .filter(|name| !name.is_empty()),
    )
}

/// Pests that were counted.
pub(super) fn pests(facts: &VisitFacts<'_>) -> Vec<String> {
    each_once(facts.effective().filter_map(|t| match t.fact {
        Fact::Counted(count) => Some(count.pest.clone()),
        Fact::Corrected(c) => match &c.new {
            Replacement::Counted(count) => Some(count.pest.clone()),
            _ => None,
        },
        _ => None,
    }))
}

fn each_once<T: PartialEq>(all: impl Iterator<Item = T>) -> Vec<T> {
    let mut once = Vec::new();
    for item in all {
        if !once.contains(&item) {
            once.push(item);
        }
    }
    once
}
