//! The same facts in every order of arrival give the same roster.

use super::*;

/// Calls `check` with every order of `items`.
fn permute<T: Clone>(items: &mut Vec<T>, from: usize, check: &mut impl FnMut(&[T])) {
    if from == items.len() {
        return check(items);
    }
    for i in from..items.len() {
        items.swap(from, i);
        permute(items, from + 1, check);
        items.swap(from, i);
    }
}

/// Every order of the facts, some of them arriving twice.
fn assert_equal_in_every_order(log: &Log) -> Roster {
    let expected = log.roster();
    let mut orders = 0_u32;
    permute(&mut log.facts.clone(), 0, &mut |facts| {
        orders += 1;
        assert_eq!(Roster::compute(log.crew(), facts, log), expected);
    });
    assert_eq!(orders, (1..).take(log.facts.len()).product::<u32>());
    let twice = [log.facts.as_slice(), &log.facts].concat();
    assert_eq!(Roster::compute(log.crew(), &twice, log), expected);
    expected
}

#[test]
fn admit_retire_promote_and_demote() {
    let mut log = Log::with_leads([2]);
    log.say(3, asked(3));
    log.say(2, admitted(3, Role::Applicator));
    log.say(FOUNDER, given(3, Role::CrewLead, log.head(3)));
    let last = log.head(2);
    log.say(3, given(2, Role::Applicator, last));
    log.say(FOUNDER, retired(3, log.head(3)));
    let roster = assert_equal_in_every_order(&log);
    assert_eq!(leads(&roster), [1].into());
    assert_eq!(role(&roster, 2), Some(Role::Applicator));
}

#[test]
fn two_leads_retire_each_other_and_admit() {
    let mut log = Log::with_leads([2, 3]);
    let lamport = log.lamport + 1;
    log.say_at(lamport, 3, retired(2, None));
    log.say_at(lamport, 2, retired(3, None));
    log.say_at(lamport + 1, 3, admitted(4, Role::CrewLead));
    log.say_at(lamport + 1, 2, admitted(5, Role::Applicator));
    let roster = assert_equal_in_every_order(&log);
    assert_eq!(leads(&roster), [1, 2].into());
    assert_eq!(role(&roster, 4), None);
    assert_eq!(role(&roster, 5), Some(Role::Applicator));
}

#[test]
fn three_leads_retire_each_other_in_a_ring() {
    let mut log = Log::with_leads([2, 3, 4]);
    let lamport = log.lamport + 1;
    log.say_at(lamport, 2, retired(3, None));
    log.say_at(lamport, 3, retired(4, None));
    log.say_at(lamport, 4, retired(2, None));
    let roster = assert_equal_in_every_order(&log);
    assert_eq!(leads(&roster), [1, 2, 4].into());
}

#[test]
fn founder_sponsor_and_protege_in_one_tangle() {
    let mut log = Log::with_leads([2]);
    let lamport = log.lamport + 1;
    log.say_at(lamport, 2, admitted(3, Role::CrewLead));
    log.say_at(lamport + 1, 3, retired(2, None));
    log.say_at(lamport + 1, 3, retired(FOUNDER, None));
    log.say_at(lamport + 1, 2, retired(FOUNDER, None));
    log.say_at(lamport + 2, FOUNDER, retired(3, None));
    let roster = assert_equal_in_every_order(&log);
    // Each of them undoes what another one's word rests on, so the founder's stands.
    assert_eq!(leads(&roster), [1, 2].into());
}

#[test]
fn two_knots_at_once() {
    let mut log = Log::with_leads([2, 3]);
    let lamport = log.lamport + 1;
    log.say_at(lamport, 2, retired(3, None));
    log.say_at(lamport, 3, retired(2, None));
    log.say_at(lamport, FOUNDER, retired(FOUNDER, None));
    log.say_after(None, lamport, FOUNDER, vec![retired(FOUNDER, None)]);
    let roster = assert_equal_in_every_order(&log);
    assert!(is_retired(&roster, FOUNDER), "by one branch of its own");
    assert_eq!(leads(&roster), [2].into());
}

#[test]
fn recovery_against_a_stolen_founder() {
    let mut log = Log::founded();
    let last = log.head(FOUNDER);
    log.say(2, recovered(log.crew(), 2));
    log.say(FOUNDER, retired(2, log.head(2)));
    log.say(FOUNDER, admitted(9, Role::CrewLead));
    log.say(9, retired(2, log.head(2)));
    log.say(2, retired(FOUNDER, last));
    let roster = assert_equal_in_every_order(&log);
    assert_eq!(leads(&roster), [2].into());
}
