//! The recovery code: who holds it gets back in.

use ed25519_dalek::VerifyingKey;

use super::*;

#[test]
fn the_recovery_code_makes_a_crew_lead() {
    let mut log = Log::founded();
    let entry = log.say(2, recovered(log.crew(), 2));
    log.say(2, admitted(3, Role::Applicator));
    assert_eq!(leads(&log.roster()), [1, 2].into());
    assert_eq!(role(&log.roster(), 3), Some(Role::Applicator));
    assert_eq!(log.standing(2, entry), Standing::Counts(Role::CrewLead));
    assert_eq!(log.roster().active_recipients().len(), 3);
    assert_eq!(
        log.roster().member(stream(2)).unwrap().person,
        Some(person(2))
    );
}

#[test]
fn a_recovery_signed_otherwise_is_ignored() {
    let crew = Log::founded().crew();
    let tampered = |change: fn(&mut Recovered)| {
        let Fact::Recovered(mut recovered) = recovered(crew, 2) else {
            unreachable!()
        };
        change(&mut recovered);
        Fact::Recovered(recovered)
    };
    for (why, by, fact) in [
        ("another crew's", 2, recovered(Hash([5; 32]), 2)),
        ("another device's", 3, recovered(crew, 2)),
        ("no signature", 2, tampered(|r| r.signature.clear())),
        ("an altered signature", 2, tampered(|r| r.signature[3] ^= 1)),
        (
            "an altered recipient",
            2,
            tampered(|r| r.device.recipient.push('x')),
        ),
        (
            "another stream in it",
            2,
            tampered(|r| r.device.stream = stream(3)),
        ),
    ] {
        let mut log = Log::founded();
        log.say(by, fact);
        log.say(by, retired(FOUNDER, None));
        assert_eq!(log.roster(), Log::founded().roster(), "{why}");
    }
}

#[test]
fn a_recovered_device_outranks_the_founder() {
    let mut log = Log::founded();
    let last = log.head(FOUNDER);
    let recovery = log.say(2, recovered(log.crew(), 2));
    log.say(FOUNDER, retired(2, Some(recovery)));
    assert_eq!(
        leads(&log.roster()),
        [1].into(),
        "while it does not contradict"
    );
    log.say(2, retired(FOUNDER, last));
    assert_eq!(leads(&log.roster()), [2].into());
}

#[test]
fn the_later_recovery_outranks_the_earlier_one() {
    let mut log = Log::founded();
    let last = [2, 3].map(|d| log.say(d, recovered(log.crew(), d)));
    let lamport = log.lamport + 1;
    log.say_at(lamport, 2, retired(3, Some(last[1])));
    log.say_at(lamport, 3, retired(2, Some(last[0])));
    assert_eq!(leads(&log.roster()), [1, 3].into());
}

#[test]
fn nobody_undoes_a_recovery_they_did_not_know_or_wish_to_know_of() {
    for attack in [retired(2, None), given(2, Role::Office, None)] {
        let mut log = Log::with_leads([3]);
        log.say(FOUNDER, admitted(2, Role::Applicator));
        log.say(2, recovered(log.crew(), 2));
        log.say(3, attack.clone());
        log.say(FOUNDER, attack);
        assert_eq!(leads(&log.roster()), [1, 2, 3].into());
    }
}

#[test]
fn a_retirement_before_the_recovery_is_undone_by_it() {
    let mut log = Log::with_leads([2]);
    log.say(2, asked(2));
    log.say(FOUNDER, retired(2, log.head(2)));
    let entry = log.say(2, recovered(log.crew(), 2));
    assert_eq!(leads(&log.roster()), [1, 2].into());
    assert_eq!(log.standing(2, entry), Standing::Counts(Role::CrewLead));
}

#[test]
fn a_later_recovered_device_may_undo_an_earlier_recovery() {
    let mut log = Log::founded();
    log.say(2, recovered(log.crew(), 2));
    log.say(3, recovered(log.crew(), 3));
    log.say(3, retired(2, None));
    assert!(is_retired(&log.roster(), 2));

    let mut log = Log::founded();
    log.say(2, recovered(log.crew(), 2));
    log.say(3, recovered(log.crew(), 3));
    log.say(2, retired(3, None));
    assert!(!is_retired(&log.roster(), 3), "nor the other way round");
}

#[test]
fn a_recovered_device_is_retired_by_a_lead_who_knows_of_it_and_repeating_gains_nothing() {
    let mut log = Log::founded();
    let last = log.say(2, recovered(log.crew(), 2));
    log.say(FOUNDER, retired(2, Some(last)));
    log.say(2, recovered(log.crew(), 2));
    let forked = log.say_after(None, 1, 2, vec![recovered(log.crew(), 2)]);
    log.say_after(Some(forked), 3, 2, vec![admitted(9, Role::CrewLead)]);
    assert!(is_retired(&log.roster(), 2));
    assert_eq!(leads(&log.roster()), [1].into());
}

#[test]
fn a_demoted_device_does_not_recover_by_repeating() {
    let mut log = Log::founded();
    let last = log.say(2, recovered(log.crew(), 2));
    log.say(FOUNDER, given(2, Role::Applicator, Some(last)));
    log.say(2, recovered(log.crew(), 2));
    log.say(2, admitted(9, Role::CrewLead));
    assert_eq!(role(&log.roster(), 2), Some(Role::Applicator));
    assert_eq!(leads(&log.roster()), [1].into());
}

#[test]
fn a_recovery_lifts_a_demoted_device() {
    let mut log = Log::with_leads([2]);
    log.say(FOUNDER, given(2, Role::Office, log.head(2)));
    log.say(2, recovered(log.crew(), 2));
    log.say(2, admitted(3, Role::Applicator));
    assert_eq!(role(&log.roster(), 2), Some(Role::CrewLead));
    assert_eq!(role(&log.roster(), 3), Some(Role::Applicator));
}

#[test]
fn a_lower_role_dated_before_the_recovery_it_knows_of_does_not_touch_it() {
    let mut log = Log::with_leads([2]);
    log.say(FOUNDER, admitted(3, Role::Applicator));
    let lamport = log.lamport;
    let last = log.say_at(lamport + 5, 3, recovered(log.crew(), 3));
    log.say_at(lamport + 1, 2, given(3, Role::Office, Some(last)));
    log.say(3, admitted(4, Role::Applicator));
    assert_eq!(role(&log.roster(), 3), Some(Role::CrewLead));
    assert_eq!(role(&log.roster(), 4), Some(Role::Applicator));
}

#[test]
fn a_founding_with_a_useless_key_has_no_recovery() {
    let not_a_point = Hash([2; 32]).0;
    assert!(VerifyingKey::from_bytes(&not_a_point).is_err());
    // The neutral element: a lax check takes one signature for every message.
    let mut weak = [0; 32];
    weak[0] = 1;
    for key in [not_a_point, weak] {
        let mut log = Log::default();
        let Fact::Founded(mut founding) = founded(FOUNDER) else {
            unreachable!()
        };
        founding.recovery_key = StreamId(key);
        log.say(FOUNDER, Fact::Founded(founding));
        let signature = [weak, [0; 32]].concat();
        let recovery = Recovered {
            device: keys(2),
            person: person(2),
            signature,
        };
        log.say(2, Fact::Recovered(recovery));
        assert_eq!(leads(&log.roster()), [1].into());
    }
}
