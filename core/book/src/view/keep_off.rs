//! Keep-offs: every claim about each, which of them stand, and what is known of its end.
//!
//! The arithmetic of the end is [`sward_rules::keep_off`]. What ends a keep-off earlier is decided
//! here, and nowhere else: a person's finish, "I looked: it is dry", a claim with a reason that
//! saw the older ones, or a crew lead's release. Everything in doubt counts as still keeping off.

use std::collections::{BTreeMap, BTreeSet};

use minicbor::{Decode, Encode};
use serde::Serialize;
use sward_rules::keep_off::{KeepOff, Now, State, Terms};
use sward_rules::label::KeepOffTerms;
use sward_rules::measure::Outline;

use super::after;
use super::visit::{Told, VisitFacts};
use crate::fact::{Fact, Role, SectionDone};
use crate::ids::{FactId, ItemId, KeepOffId, SheetId, StreamId, VisitId};

/// One claim about when a keep-off ends.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Claim {
    /// The fact that makes it.
    #[n(0)]
    pub fact: FactId,
    /// Who made it.
    #[n(1)]
    pub by: StreamId,
    /// What must be true before anyone comes back.
    #[n(2)]
    pub terms: KeepOffTerms,
    /// Why, where a person gave a reason.
    #[n(3)]
    pub why: String,
    /// The fact that supersedes it; none while it stands.
    #[n(4)]
    pub superseded_by: Option<FactId>,
}

/// A keep-off and all that is known of it.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct KeepOffView {
    /// The keep-off.
    #[n(0)]
    pub keep_off: KeepOffId,
    /// The visit it belongs to.
    #[n(1)]
    pub visit: VisitId,
    /// The yard; none while the visit's opening has not arrived.
    #[n(2)]
    pub yard: Option<SheetId>,
    /// The section.
    #[n(3)]
    pub section: ItemId,
    /// The section's name when treating started.
    #[n(4)]
    pub name: String,
    /// Its outline when treating started.
    #[n(5)]
    pub outline: Outline,
    /// The product.
    #[n(6)]
    pub product: String,
    /// Every claim, superseded ones too.
    #[n(7)]
    pub claims: Vec<Claim>,
    /// When treating started; milliseconds since 1970 in UTC.
    #[n(8)]
    pub started_utc_ms: i64,
    /// When it was last applied, once a finish is recorded; milliseconds since 1970 in UTC.
    #[n(9)]
    pub last_applied_utc_ms: Option<i64>,
    /// When a person looked and saw it dry, where that look counts.
    #[n(10)]
    pub dry_utc_ms: Option<i64>,
    /// Looks that do not count (yet), and why.
    #[n(11)]
    pub dry_not_counted: Vec<DryNotCounted>,
    /// By how much the clocks involved may be off, in milliseconds.
    #[n(12)]
    pub lengthen_ms: u64,
    /// A crew lead's release that stands.
    #[n(13)]
    pub released_by: Option<FactId>,
    /// Facts of treating that bear on it: a look has to have seen them.
    #[n(14)]
    pub applications: Vec<FactId>,
    /// Whether somebody who is not (any more) of the crew wrote some of it.
    #[n(15)]
    pub by_outsider: bool,
    /// Who was told of it, and how: the facts that say so and stand.
    #[n(16)]
    pub told: Vec<FactId>,
}

/// Why a "dry" does not count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Encode, Decode, Serialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum DryDoubt {
    /// Whoever said it is not of the crew, or may only read.
    #[n(0)]
    NotOfTheCrew,
    /// Something was applied that whoever looked did not know of: look again.
    #[n(1)]
    NotSeenAll,
}

/// A look that does not count (yet).
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct DryNotCounted {
    /// The fact.
    #[n(0)]
    pub fact: FactId,
    /// Why.
    #[n(1)]
    pub doubt: DryDoubt,
}

/// Where a keep-off stands, a crew lead's release among it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// By its claims.
    ByClaims(State),
    /// A crew lead lifted it.
    Released,
}

impl KeepOffView {
    /// Where it stands at `now`.
    pub fn standing(&self, now: Now) -> Standing {
        if self.released_by.is_some() {
            Standing::Released
        } else {
            Standing::ByClaims(self.for_rules().state(now))
        }
    }

    /// Whether people and pets still have to stay off at `now`, as far as anyone can tell.
    pub fn keeps_off(&self, now: Now) -> bool {
        match self.standing(now) {
            Standing::Released => false,
            Standing::ByClaims(state) => !state.is_over(),
        }
    }

    /// From when on it is over for a proven time, by what is known now; none while no time alone
    /// ends it, and [`i64::MIN`] once a crew lead has lifted it. Milliseconds since 1970 in UTC.
    ///
    /// A time that is not proven can keep off longer, never shorter.
    pub fn over_from_utc_ms(&self) -> Option<i64> {
        // At the end of time only what waits for a person has not ended.
        let last = Now {
            utc_ms: i64::MAX,
            proven: true,
        };
        match self.standing(last) {
            Standing::Released => Some(i64::MIN),
            Standing::ByClaims(State::Ended { at_utc_ms, .. }) => Some(at_utc_ms),
            Standing::ByClaims(_) => None,
        }
    }

    /// The claims that nobody superseded.
    pub fn standing_claims(&self) -> impl Iterator<Item = &Claim> {
        self.claims.iter().filter(|c| c.superseded_by.is_none())
    }

    /// In the form the rules compute with.
    pub fn for_rules(&self) -> KeepOff {
        KeepOff {
            claims: self
                .standing_claims()
                .map(|c| Terms::from_label(&c.terms))
                .collect(),
            started_utc_ms: self.started_utc_ms,
            last_application_utc_ms: self.last_applied_utc_ms,
            dry_utc_ms: self.dry_utc_ms,
            lengthen_ms: self.lengthen_ms,
        }
    }
}

/// An application that bears on a keep-off.
struct Application {
    fact: FactId,
    at_ms: i64,
    /// A correction of facts whose times were no earlier: whoever saw those need not look again.
    instead_of: Vec<FactId>,
}

impl Application {
    /// Whether someone who was shown `shown`, and looked at `looked_ms`, knew of it.
    fn is_known_to(&self, shown: &[FactId], looked_ms: i64) -> bool {
        shown.contains(&self.fact)
            || (!self.instead_of.is_empty()
                && self.instead_of.iter().all(|f| shown.contains(f))
                && self.at_ms <= looked_ms)
    }
}

/// Computes the keep-offs of one visit from all its facts.
pub(crate) fn keep_offs_of(visit: VisitId, facts: &VisitFacts<'_>) -> Vec<KeepOffView> {
    let mut views: BTreeMap<KeepOffId, KeepOffView> = BTreeMap::new();
    let mut openers: BTreeMap<KeepOffId, BTreeSet<StreamId>> = BTreeMap::new();
    for told in &facts.told {
        let Fact::Started(start) = told.fact else {
            continue;
        };
        for opened in &start.keep_offs {
            openers.entry(opened.keep_off).or_default().insert(told.by);
            let view = views.entry(opened.keep_off).or_insert_with(|| KeepOffView {
                keep_off: opened.keep_off,
                visit,
                yard: facts.yard,
                section: opened.section,
                name: opened.name.clone(),
                outline: opened.outline.clone(),
                product: start.label.product.clone(),
                claims: Vec::new(),
                started_utc_ms: told.at.utc_ms,
                last_applied_utc_ms: None,
                dry_utc_ms: None,
                dry_not_counted: Vec::new(),
                lengthen_ms: 0,
                released_by: None,
                applications: Vec::new(),
                by_outsider: false,
                told: after::told_of(opened.keep_off, facts),
            });
            view.started_utc_ms = view.started_utc_ms.min(told.at.utc_ms);
            view.claims.push(Claim {
                fact: told.id,
                by: told.by,
                terms: start.label.keep_off.clone(),
                why: String::new(),
                superseded_by: None,
            });
        }
    }
    for (id, view) in &mut views {
        add_claims(view, facts);
        let release = supersede(view, facts);
        let applications = applications_on(*id, &openers[id], view, facts);
        view.applications = applications.iter().map(|a| a.fact).collect();
        // What the crew lead was not shown, a claim or a load, still keeps off.
        if let Some((release, shown)) = release
            && view.standing_claims().next().is_none()
            && applications.iter().all(|a| a.is_known_to(&shown, i64::MAX))
        {
            view.released_by = Some(release);
        }
        add_dry(view, &applications, facts);
        add_doubts(view, facts);
    }
    views.into_values().collect()
}

fn add_claims(view: &mut KeepOffView, facts: &VisitFacts<'_>) {
    for told in &facts.told {
        if let Fact::KeepOffClaimed(claim) = told.fact
            && claim.keep_off == view.keep_off
        {
            view.claims.push(Claim {
                fact: told.id,
                by: told.by,
                terms: claim.terms.clone(),
                why: claim.why.clone(),
                superseded_by: None,
            });
        }
    }
}

/// Only the crew's word sets a claim aside. Anyone's claim adds to what must be true.
/// Returns the last release, with what the crew lead was shown.
fn supersede(view: &mut KeepOffView, facts: &VisitFacts<'_>) -> Option<(FactId, Vec<FactId>)> {
    let mut release: Option<(FactId, Vec<FactId>)> = None;
    for told in &facts.told {
        let superseded = match told.fact {
            Fact::KeepOffClaimed(claim)
                if claim.keep_off == view.keep_off && told.counts(Role::Applicator) =>
            {
                &claim.supersedes
            }
            Fact::KeepOffReleased(released)
                if released.keep_off == view.keep_off && told.counts(Role::CrewLead) =>
            {
                release = Some((told.id, released.supersedes.clone()));
                &released.supersedes
            }
            _ => continue,
        };
        if release
            .as_ref()
            .is_some_and(|(r, _)| superseded.contains(r))
        {
            release = None;
        }
        for claim in &mut view.claims {
            if claim.fact != told.id && superseded.contains(&claim.fact) {
                claim.superseded_by.get_or_insert(told.id);
            }
        }
    }
    release
}

/// Everything that put product on the section, and when it was last done by the finishes.
fn applications_on(
    id: KeepOffId,
    openers: &BTreeSet<StreamId>,
    view: &mut KeepOffView,
    facts: &VisitFacts<'_>,
) -> Vec<Application> {
    let mut applications = Vec::new();
    let mut last_ms: Option<i64> = None;
    let mut latest_load_ms = i64::MIN;
    for told in &facts.told {
        match told.fact {
            Fact::Started(start) if start.keep_offs.iter().any(|k| k.keep_off == id) => {
                applications.push(Application {
                    fact: told.id,
                    at_ms: told.at.utc_ms,
                    instead_of: Vec::new(),
                });
            }
            _ => {}
        }
        if facts.superseded_by(told.id).is_some() {
            continue;
        }
        let instead_of = told.supersedes();
        if let Some(load) = told.load()
            && (load.keep_offs.is_empty() || load.keep_offs.contains(&id))
        {
            latest_load_ms = latest_load_ms.max(load.applied_utc_ms);
            applications.push(Application {
                fact: told.id,
                at_ms: load.applied_utc_ms,
                instead_of: instead_of.clone(),
            });
        }
        if let Some(finish) = told.finish()
            && let Some(SectionDone {
                last_applied_utc_ms,
                ..
            }) = finish.sections.iter().find(|s| s.keep_off == id)
        {
            // A finish by someone who is not of the crew bounds only what they started.
            if told.counts(Role::Applicator) || openers.contains(&told.by) {
                last_ms = last_ms.max(Some(*last_applied_utc_ms));
            }
            applications.push(Application {
                fact: told.id,
                at_ms: *last_applied_utc_ms,
                instead_of,
            });
        }
    }
    view.last_applied_utc_ms = last_ms.map(|last| last.max(latest_load_ms));
    applications
}

fn add_dry(view: &mut KeepOffView, applications: &[Application], facts: &VisitFacts<'_>) {
    for told in &facts.told {
        let Fact::LookedDry(dry) = told.fact else {
            continue;
        };
        if !dry.keep_offs.contains(&view.keep_off) || facts.superseded_by(told.id).is_some() {
            continue;
        }
        let doubt = if !told.counts(Role::Applicator) {
            Some(DryDoubt::NotOfTheCrew)
        } else if !applications
            .iter()
            .all(|a| a.is_known_to(&dry.saw, dry.looked_utc_ms))
        {
            Some(DryDoubt::NotSeenAll)
        } else {
            None
        };
        match doubt {
            Some(doubt) => view.dry_not_counted.push(DryNotCounted {
                fact: told.id,
                doubt,
            }),
            None => view.dry_utc_ms = view.dry_utc_ms.max(Some(dry.looked_utc_ms)),
        }
    }
}

/// How far the clocks behind the times may be off, and whether outsiders wrote any of it.
fn add_doubts(view: &mut KeepOffView, facts: &VisitFacts<'_>) {
    let concerned: Vec<&Told<'_>> = facts.told.iter().filter(|t| concerns(t, view)).collect();
    for told in concerned {
        view.lengthen_ms = view.lengthen_ms.max(told.clock_doubt_ms);
        view.by_outsider |= !told.counts(Role::Applicator);
    }
}

fn concerns(told: &Told<'_>, view: &KeepOffView) -> bool {
    view.applications.contains(&told.id)
        || matches!(told.fact, Fact::LookedDry(d) if d.keep_offs.contains(&view.keep_off))
        || view.claims.iter().any(|c| c.fact == told.id)
}
