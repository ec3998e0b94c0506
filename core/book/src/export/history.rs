//! What stands beside a result: versions, late additions, amendments, outsiders, keep-offs.
//!
//! Nothing here changes a figure of the record; it says what the figures do not hold.

use std::collections::{BTreeMap, BTreeSet};

use super::gather::{Known, Visit};
use super::record::{Amendment, KeepOffNote, LateLoad, Look, Mark, Outcome, Record};
use super::words::{self, Clock};
use crate::fact::{Fact, Loaded, Replacement};
use crate::ids::{FactId, SheetId};
use crate::view::keep_off::KeepOffView;
use crate::view::visit::Line;

/// Adds all that bears on one result. `covers` are the facts it has taken into account; none for
/// a result without a treatment.
pub(super) fn add(
    visit: &Visit<'_>,
    record: &mut Record,
    result: &Known,
    covers: Option<&[FactId]>,
    clock: Clock,
) {
    let own = result.line.fact;
    if clock.zone.is_none() {
        record.marks.push(Mark::NoZone);
    }
    if !result.line.of_the_crew {
        record.marks.push(Mark::NotOfTheCrew);
    }
    record.marks.extend(outsiders(visit, own));
    if let Some(covers) = covers {
        let covers: BTreeSet<FactId> = covers.iter().copied().collect();
        record.late = late_loads(visit, &covers, clock);
        record.marks.extend(late_mark(&record.late));
        record.marks.extend(starts(visit, &covers));
        record.amendments = amendments(visit, clock, |id| id == own || covers.contains(&id));
    } else {
        record.amendments = amendments(visit, clock, |id| {
            visit.find(id).is_some_and(Known::stands) || id == own
        });
    }
    let count = record
        .amendments
        .iter()
        .filter(|a| !a.in_figures && a.by.of_the_crew)
        .count();
    if count > 0 && covers.is_some() {
        record.marks.push(Mark::Amended { count });
    }
    for other in &visit.view.one_job_with {
        record.marks.push(Mark::OneJobWith { visit: *other });
    }
}

/// Marks the versions of one visit, which come in the order of their facts.
pub(super) fn number_versions(visit: &Visit<'_>, records: &mut [Record]) {
    let set_aside: BTreeMap<FactId, FactId> = visit
        .view
        .finishes
        .iter()
        .filter_map(|f| Some((f.fact, f.set_aside_by?)))
        .collect();
    let started = visit
        .known
        .iter()
        .any(|k| matches!(k.fact, Fact::Started(_)));
    let not_treated = records.iter().any(|r| r.outcome == Outcome::NotTreated);
    let mut standing: BTreeMap<bool, usize> = BTreeMap::new();
    for record in records.iter().filter(|r| !set_aside.contains_key(&r.fact)) {
        *standing
            .entry(record.outcome == Outcome::Treated)
            .or_default() += 1;
    }
    let mut numbers: BTreeMap<bool, usize> = BTreeMap::new();
    for record in records {
        let mut first = Vec::new();
        let treated = record.outcome == Outcome::Treated;
        let clock = Clock::named(&record.zone);
        if let Some(by) = set_aside.get(&record.fact) {
            first.extend(choice(visit, *by, clock).map(Mark::SetAside));
        } else {
            let of = standing.get(&treated).copied().unwrap_or_default();
            let number = numbers.entry(treated).or_default();
            *number += 1;
            if of > 1 {
                first.push(Mark::Version {
                    number: *number,
                    of,
                });
            }
            let chosen = set_aside.values().rev().find(|by| {
                matches!(visit.find(**by).map(|k| &k.fact),
                    Some(Fact::FinishChosen(f)) if f.chosen == record.fact)
            });
            first.extend(
                chosen
                    .and_then(|by| choice(visit, *by, clock))
                    .map(Mark::Chosen),
            );
        }
        if not_treated && started {
            first.push(Mark::TreatedOrNot);
        }
        record.marks.splice(0..0, first);
    }
}

fn choice(visit: &Visit<'_>, by: FactId, clock: Clock) -> Option<Look> {
    let known = visit.find(by)?;
    match &known.fact {
        Fact::FinishChosen(f) => Some(visit.look(&known.line, clock, &f.why)),
        _ => None,
    }
}

fn outsiders(visit: &Visit<'_>, own: FactId) -> Option<Mark> {
    let devices: BTreeSet<String> = visit
        .known
        .iter()
        .filter(|k| !k.line.of_the_crew && k.line.fact != own)
        .map(|k| k.line.by.short())
        .collect();
    (!devices.is_empty()).then(|| Mark::OutsidersWroteToo {
        devices: devices.into_iter().collect(),
    })
}

fn late_loads(visit: &Visit<'_>, covers: &BTreeSet<FactId>, clock: Clock) -> Vec<LateLoad> {
    let mut late = Vec::new();
    for known in visit
        .known
        .iter()
        .filter(|k| k.stands() && !covers.contains(&k.line.fact))
    {
        let Some(load) = late_load(known, covers) else {
            continue;
        };
        let settled = visit.known.iter().rev().find_map(|k| match &k.fact {
            Fact::LateSettled(s)
                if s.addition == known.line.fact && k.line.of_the_crew && k.stands() =>
            {
                Some((s.counts, visit.look(&k.line, clock, &s.why)))
            }
            _ => None,
        });
        late.push(LateLoad {
            fact: known.line.fact,
            by: visit.who(&known.line),
            written: clock.when(known.line.at.utc_ms),
            load: visit.load(load, clock),
            counts: settled.as_ref().map(|(counts, _)| *counts),
            // Of no finish at all it is in the view's own list.
            in_other_version: !visit.view.late.iter().any(|l| l.fact == known.line.fact),
            settled: settled.map(|(_, look)| look),
        });
    }
    late
}

/// A correction of loads that the result has taken into account is an amendment, no addition.
fn late_load<'a>(known: &'a Known, covers: &BTreeSet<FactId>) -> Option<&'a Loaded> {
    match &known.fact {
        Fact::Loaded(load) => Some(load),
        Fact::Corrected(c) => match &c.new {
            Replacement::Loaded(load) if !c.supersedes.iter().all(|f| covers.contains(f)) => {
                Some(load)
            }
            _ => None,
        },
        _ => None,
    }
}

fn late_mark(late: &[LateLoad]) -> Option<Mark> {
    let (elsewhere, own): (Vec<_>, Vec<_>) = late.iter().partition(|l| l.in_other_version);
    let to_settle = own.iter().filter(|l| l.counts.is_none()).count();
    let put_on = own.iter().filter(|l| l.counts == Some(true)).count();
    let in_other_version = elsewhere.len();
    (to_settle + put_on + in_other_version > 0).then_some(Mark::LateAdditions {
        to_settle,
        put_on,
        in_other_version,
    })
}

fn starts(visit: &Visit<'_>, covers: &BTreeSet<FactId>) -> Vec<Mark> {
    let mut marks = Vec::new();
    let mut labels: BTreeSet<SheetId> = BTreeSet::new();
    let mut again = false;
    for known in &visit.known {
        if let Fact::Started(start) = &known.fact {
            labels.insert(start.label_sheet);
            again |= !covers.contains(&known.line.fact);
        }
    }
    if again {
        marks.push(Mark::StartedAgain);
    }
    if labels.len() > 1 {
        marks.push(Mark::SeveralProducts);
    }
    marks
}

fn amendments(
    visit: &Visit<'_>,
    clock: Clock,
    in_figures: impl Fn(FactId) -> bool,
) -> Vec<Amendment> {
    let mut amendments = Vec::new();
    for known in &visit.known {
        let Fact::Corrected(c) = &known.fact else {
            continue;
        };
        let old = c
            .supersedes
            .iter()
            .map(|id| match visit.find(*id) {
                Some(old) => words::fact(&old.fact, clock),
                None => format!("{id}, which is no fact of this visit"),
            })
            .collect();
        amendments.push(Amendment {
            fact: known.line.fact,
            by: visit.who(&known.line),
            at: clock.when(known.line.at.utc_ms),
            why: c.why.clone(),
            old,
            new: words::replacement(&c.new, clock),
            in_figures: holds(visit, &known.line, &in_figures),
        });
    }
    amendments
}

/// Whether the figures hold a correction, or what came to stand in its place.
fn holds(visit: &Visit<'_>, line: &Line, in_figures: &impl Fn(FactId) -> bool) -> bool {
    let mut line = line;
    // Two hostile corrections may name each other: no chain is longer than the history.
    for _ in 0..=visit.known.len() {
        if in_figures(line.fact) {
            return true;
        }
        match line.superseded_by.and_then(|by| visit.find(by)) {
            Some(known) => line = &known.line,
            None => return false,
        }
    }
    false
}

/// What is known of a keep-off's end, with who said so.
pub(super) fn keep_off(visit: &Visit<'_>, view: &KeepOffView, clock: Clock) -> KeepOffNote {
    let not_counted: BTreeSet<FactId> = view.dry_not_counted.iter().map(|d| d.fact).collect();
    let dry = view.dry_utc_ms.and_then(|looked_ms| {
        let known = visit.known.iter().find(|k| match &k.fact {
            Fact::LookedDry(f) => {
                f.looked_utc_ms == looked_ms
                    && f.keep_offs.contains(&view.keep_off)
                    && k.stands()
                    && !not_counted.contains(&k.line.fact)
            }
            _ => false,
        })?;
        Some(Look {
            at: clock.when(looked_ms),
            by: visit.who(&known.line),
            why: String::new(),
        })
    });
    let released = view.released_by.and_then(|by| {
        let known = visit.find(by)?;
        match &known.fact {
            Fact::KeepOffReleased(f) => Some(visit.look(&known.line, clock, &f.why)),
            _ => None,
        }
    });
    KeepOffNote {
        terms: view
            .standing_claims()
            .map(|claim| match claim.why.as_str() {
                "" => words::terms(&claim.terms),
                why => format!("{} ({why})", words::terms(&claim.terms)),
            })
            .collect(),
        last_applied: view.last_applied_utc_ms.map(|at| clock.when(at)),
        dry,
        looks_not_counted: view.dry_not_counted.len(),
        released,
    }
}
