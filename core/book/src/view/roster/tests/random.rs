//! Random histories: any authors, any lasts, forks, and Lamport numbers that lie.

use proptest::collection::vec;
use proptest::prelude::*;

use super::super::decide::decide;
use super::*;

/// Devices whom the founder and the crew may admit; 8 and 9 are never named by them.
const INSIDERS: [Device; 6] = [1, 2, 3, 4, 5, 6];
const EVERYONE: [Device; 8] = [1, 2, 3, 4, 5, 6, 8, 9];

#[derive(Debug, Clone)]
struct Step {
    by: Device,
    subject: Device,
    what: u8,
    role: Role,
    /// How many of the subject's entries, from the newest, `last` leaves out; none for no `last`.
    left_out: Option<usize>,
    /// Added to the greatest Lamport number so far; negative when written without having seen all.
    lead: i64,
    /// Written beside the stream's last entry, not after it.
    forks: bool,
}

fn step(authors: &'static [Device]) -> impl Strategy<Value = Step> {
    (
        proptest::sample::select(authors),
        proptest::sample::select(&EVERYONE[..]),
        0_u8..12,
        prop_oneof![
            3 => Just(Role::CrewLead),
            1 => Just(Role::Applicator),
            1 => Just(Role::Office)
        ],
        proptest::option::of(0_usize..3),
        -4_i64..3,
        proptest::bool::weighted(0.1),
    )
        .prop_map(|(by, subject, what, role, left_out, lead, forks)| Step {
            by,
            subject,
            what,
            role,
            left_out,
            lead,
            forks,
        })
}

impl Log {
    fn take(&mut self, step: &Step, with_recovery: bool) {
        let is_outsider = |d: Device| !INSIDERS.contains(&d);
        let subject = if is_outsider(step.subject) && !is_outsider(step.by) {
            step.subject - 4
        } else {
            step.subject
        };
        let mut last = self.head(subject);
        for _ in 0..step.left_out.unwrap_or_default() {
            last = last.and_then(|h| self.before(h));
        }
        let last = step.left_out.and(last);
        let fact = match step.what {
            0 => asked(step.by),
            1..=3 => admitted(subject, step.role),
            4..=6 => given(subject, step.role, last),
            7 if with_recovery && !is_outsider(step.by) => recovered(self.crew(), step.by),
            7 => recovered(Hash::NONE, step.by),
            _ => retired(subject, last),
        };
        let head = self.head(step.by);
        let prev = if step.forks {
            head.and_then(|h| self.before(h))
        } else {
            head
        };
        let lamport = self.lamport.saturating_add_signed(step.lead).max(1);
        self.say_after(prev, lamport, step.by, vec![fact]);
    }

    fn before(&self, head: Head) -> Option<Head> {
        let hash = self
            .prev
            .get(&head.hash)
            .copied()
            .filter(|h| *h != Hash::NONE)?;
        Some(Head {
            hash,
            seq: head.seq - 1,
            ..head
        })
    }

    fn that_stand(&self) -> Vec<&MembershipFact> {
        let mut ordered: Vec<_> = self.facts.iter().collect();
        ordered.sort_by_key(|f| f.order());
        decide(self.crew(), &ordered, self).standing
    }

    /// Whom no chain of words from the founder or a recovery could ever have made a lead.
    fn powerless(&self) -> BTreeSet<StreamId> {
        let crew = self.crew();
        let mut leads = BTreeSet::from([stream(FOUNDER)]);
        let is_valid = |f: &MembershipFact| {
            matches!(f.fact, Fact::Recovered(_)) && f.fact == recovered(crew, f.stream.0[0])
        };
        leads.extend(self.facts.iter().filter(|f| is_valid(f)).map(|f| f.stream));
        loop {
            let given = self
                .facts
                .iter()
                .filter(|f| leads.contains(&f.stream) && gives_lead(f));
            let more: BTreeSet<_> = given.map(MembershipFact::subject).collect();
            if more.is_subset(&leads) {
                return EVERYONE
                    .map(stream)
                    .into_iter()
                    .filter(|s| !leads.contains(s))
                    .collect();
            }
            leads.extend(more);
        }
    }
}

fn gives_lead(fact: &MembershipFact) -> bool {
    match &fact.fact {
        Fact::Founded(_) | Fact::Recovered(_) => true,
        Fact::Admitted(f) => f.role == Role::CrewLead,
        Fact::RoleGiven(f) => f.role == Role::CrewLead,
        _ => false,
    }
}

fn log_of(steps: &[Step], with_recovery: bool) -> Log {
    let mut log = Log::founded();
    for step in steps {
        log.take(step, with_recovery);
    }
    log
}

/// Histories with a few leads in them from the start, so that their quarrels are the rule.
fn history(with_recovery: bool) -> impl Strategy<Value = Log> {
    (0_u8..5, vec(step(&EVERYONE), 0..28)).prop_map(move |(count, steps)| {
        let mut log = Log::with_leads(INSIDERS.into_iter().skip(1).take(usize::from(count)));
        for step in &steps {
            log.take(step, with_recovery);
        }
        log
    })
}

/// Whether `f` takes from the author of `g` what `g` needs.
fn reaches(log: &Log, f: &MembershipFact, g: &MembershipFact) -> bool {
    let cut = f.cut().map(|h| h.hash);
    f.subject() == g.stream && !cut.is_some_and(|last| log.is_at_or_before(g.id.entry, last))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, ..ProptestConfig::default() })]

    #[test]
    fn any_order_of_arrival_gives_the_same_roster(
        (log, shuffled) in history(true)
            .prop_flat_map(|log| (Just(log.clone()), Just(log.facts).prop_shuffle())),
    ) {
        prop_assert_eq!(Roster::compute(log.crew(), &shuffled, &log), log.roster());
    }

    #[test]
    fn whoever_was_never_a_lead_changes_nothing(log in history(true)) {
        let powerless = log.powerless();
        let mut without = log.clone();
        without.facts.retain(|f| {
            matches!(f.fact, Fact::JoinAsked(_)) || !powerless.contains(&f.stream)
        });
        prop_assert_eq!(log.roster(), without.roster());
        for outsider in [8, 9] {
            prop_assert!(powerless.contains(&stream(outsider)));
            prop_assert_eq!(role(&log.roster(), outsider), None);
        }
    }

    #[test]
    fn every_fact_that_stands_rests_on_a_lead_that_stands(log in history(true)) {
        let standing = log.that_stand();
        for fact in &standing {
            let rests = standing.iter().any(|e| {
                let same = e.id.entry == fact.id.entry && e.id.index < fact.id.index;
                gives_lead(e) && e.subject() == fact.stream && (same || e.lamport < fact.lamport)
            });
            let own = matches!(fact.fact, Fact::Founded(_) | Fact::Recovered(_));
            prop_assert!(own || rests, "{:?}", fact);
        }
    }

    #[test]
    fn no_two_retirements_stand_that_undo_each_other(log in history(true)) {
        let standing = log.that_stand();
        let retirements = || standing.iter().filter(|f| matches!(f.fact, Fact::Retired(_)));
        for f in retirements() {
            for g in retirements() {
                prop_assert!(!(reaches(&log, f, g) && reaches(&log, g, f)), "{:?} {:?}", f, g);
            }
        }
    }

    #[test]
    fn a_founder_who_answers_every_attack_stays(mut log in history(false)) {
        let attackers: BTreeSet<_> = log
            .facts
            .iter()
            .filter(|f| f.subject() == stream(FOUNDER) && f.stream != stream(FOUNDER))
            .map(|f| f.stream)
            .collect();
        // What the founder said of itself is no attack.
        log.facts.retain(|f| {
            f.stream != stream(FOUNDER)
                || f.subject() != stream(FOUNDER)
                || matches!(f.fact, Fact::Founded(_))
        });
        for attacker in attackers {
            log.say(FOUNDER, retired(attacker.0[0], None));
        }
        prop_assert!(log.roster().is_lead(stream(FOUNDER)));
    }

    #[test]
    fn what_an_unchallenged_founder_says_stands(steps in vec(step(&EVERYONE), 0..28)) {
        let mut log = log_of(&steps, false);
        log.facts.retain(|f| {
            f.subject() != stream(FOUNDER) || matches!(f.fact, Fact::Founded(_))
        });
        let standing: BTreeSet<FactId> = log.that_stand().iter().map(|f| f.id).collect();
        for fact in log.facts.iter().filter(|f| f.stream == stream(FOUNDER)) {
            if matches!(fact.fact, Fact::Admitted(_) | Fact::Retired(_)) && fact.lamport > 1 {
                prop_assert!(standing.contains(&fact.id), "{:?}", fact);
            }
        }
    }

    #[test]
    fn whoever_recovers_last_is_a_lead(mut log in history(true)) {
        let crew = log.crew();
        log.say(7, recovered(crew, 7));
        let others = EVERYONE.into_iter();
        for other in others {
            log.say(other, retired(7, None));
            log.say(other, given(7, Role::Office, None));
        }
        prop_assert!(log.roster().is_lead(stream(7)));
    }

    #[test]
    fn a_stored_roster_reads_back(log in history(true)) {
        let roster = log.roster();
        let bytes = minicbor::to_vec(&roster).unwrap();
        prop_assert_eq!(minicbor::decode::<Roster>(&bytes).unwrap(), roster);
    }
}
