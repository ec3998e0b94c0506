//! Retirements: what they spare, and what they take.

use super::*;

#[test]
fn a_retirement_spares_entries_up_to_its_last() {
    let mut log = Log::founded();
    let early = log.say(2, asked(2));
    let late = log.say(2, asked(2));
    log.say(FOUNDER, admitted(2, Role::Applicator));
    log.say(FOUNDER, retired(2, Some(early)));
    assert_eq!(log.standing(2, early), Standing::Counts(Role::Applicator));
    assert_eq!(log.standing(2, late), Standing::AfterRetirement);
    let roster = log.roster();
    let by = log.facts.last().unwrap().id;
    let member = roster.member(stream(2)).unwrap();
    assert_eq!(
        member.state,
        MemberState::Retired {
            last: Some(early),
            by
        }
    );
    assert_eq!(member.role, Some(Role::Applicator));
    assert_eq!(roster.active_recipients().len(), 1);
}

#[test]
fn a_retirement_without_a_last_or_with_one_of_another_stream_spares_nothing() {
    for last in [None, Log::founded().head(FOUNDER)] {
        let mut log = Log::founded();
        let entry = log.say(2, asked(2));
        log.say(FOUNDER, admitted(2, Role::Applicator));
        log.say(FOUNDER, retired(2, last));
        assert_eq!(log.standing(2, entry), Standing::AfterRetirement);
        let state = log.roster().member(stream(2)).unwrap().state.clone();
        assert!(matches!(state, MemberState::Retired { last: None, .. }));
    }
}

#[test]
fn a_retirement_before_its_last_has_arrived_spares_nothing_yet() {
    let mut log = Log::with_leads([2]);
    let last = log.say(2, admitted(3, Role::Applicator));
    log.say(FOUNDER, retired(2, Some(last)));
    assert_eq!(role(&log.roster(), 3), Some(Role::Applicator));
    let mut without = log.clone();
    assert!(without.roster().is_cut(stream(2)));
    without.facts.retain(|f| f.id.entry != last.hash);
    without.prev.remove(&last.hash);
    assert!(is_retired(&without.roster(), 2));
    assert_eq!(without.standing(2, last), Standing::AfterRetirement);
}

#[test]
fn of_a_forked_stream_only_the_named_branch_counts() {
    let mut log = Log::with_leads([2]);
    let base = log.say(2, asked(2));
    let lamport = log.lamport + 1;
    let kept = log.say_after(Some(base), lamport, 2, vec![admitted(3, Role::Applicator)]);
    let other = log.say_after(Some(base), lamport, 2, vec![admitted(4, Role::Applicator)]);
    assert_eq!(
        role(&log.roster(), 4),
        Some(Role::Applicator),
        "both until then"
    );
    log.say(FOUNDER, retired(2, Some(kept)));
    let roster = log.roster();
    assert_eq!(role(&roster, 3), Some(Role::Applicator));
    assert_eq!(role(&roster, 4), None);
    let lead = Standing::Counts(Role::CrewLead);
    assert_eq!([base, kept].map(|e| log.standing(2, e)), [lead, lead]);
    assert_eq!(log.standing(2, other), Standing::AfterRetirement);
}

#[test]
fn an_entry_has_to_be_spared_by_every_retirement() {
    let mut log = Log::with_leads([2]);
    let early = log.say(3, asked(3));
    let late = log.say(3, asked(3));
    log.say(FOUNDER, admitted(3, Role::Applicator));
    log.say(2, retired(3, Some(late)));
    log.say(FOUNDER, retired(3, Some(early)));
    assert_eq!(log.standing(3, early), Standing::Counts(Role::Applicator));
    assert_eq!(log.standing(3, late), Standing::AfterRetirement);
}

#[test]
fn a_device_that_retires_itself_cannot_take_back_what_it_wrote() {
    let mut log = Log::with_leads([2]);
    log.say(2, admitted(3, Role::Applicator));
    let last = log.say(2, retired(2, None));
    let after = log.say(2, admitted(4, Role::Applicator));
    let roster = log.roster();
    assert!(is_retired(&roster, 2));
    assert_eq!(role(&roster, 3), Some(Role::Applicator));
    assert_eq!(role(&roster, 4), None);
    assert_eq!(log.standing(2, last), Standing::Counts(Role::CrewLead));
    assert_eq!(log.standing(2, after), Standing::AfterRetirement);
}

#[test]
fn in_one_entry_a_lead_admits_a_successor_and_retires_itself() {
    let mut log = Log::founded();
    let last = log.head(FOUNDER);
    let facts = vec![retired(FOUNDER, last), admitted(2, Role::CrewLead)];
    log.say_after(last, log.lamport + 1, FOUNDER, facts);
    assert_eq!(leads(&log.roster()), [2].into());
}

#[test]
fn what_a_stolen_phone_says_later_does_not_count() {
    let mut log = Log::with_leads([2, 3]);
    let last = log.say(2, asked(2));
    log.say(FOUNDER, retired(2, Some(last)));
    log.say(2, admitted(9, Role::CrewLead));
    log.say(2, retired(3, None));
    log.say(2, given(3, Role::Office, None));
    log.say(9, retired(3, None));
    assert_eq!(leads(&log.roster()), [1, 3].into());
    assert!(log.roster().member(stream(9)).is_none());
}

#[test]
fn a_junior_may_retire_a_senior_who_does_not_contradict() {
    let mut log = Log::with_leads([2]);
    let last = log.head(FOUNDER);
    log.say(2, retired(FOUNDER, last));
    log.say(FOUNDER, admitted(9, Role::CrewLead));
    assert_eq!(leads(&log.roster()), [2].into());
    assert!(log.roster().member(stream(9)).is_none());
}

#[test]
fn a_lead_may_retire_who_admitted_it_though_nothing_of_theirs_counts() {
    let mut log = Log::with_leads([2]);
    log.say(FOUNDER, admitted(3, Role::Applicator));
    log.say(2, retired(FOUNDER, None));
    let roster = log.roster();
    assert_eq!(leads(&roster), [2].into());
    assert_eq!(
        role(&roster, 3),
        None,
        "only what the retirement rests on is spared"
    );
}

#[test]
fn a_retired_stream_is_not_admitted_again_but_a_new_one_is() {
    let mut log = Log::founded();
    log.say(FOUNDER, admitted(2, Role::Applicator));
    log.say(FOUNDER, retired(2, None));
    log.say(FOUNDER, admitted(2, Role::CrewLead));
    log.say(FOUNDER, given(2, Role::CrewLead, None));
    log.say(2, admitted(4, Role::CrewLead));
    log.say(FOUNDER, admitted(3, Role::Applicator));
    assert!(is_retired(&log.roster(), 2));
    assert_eq!(leads(&log.roster()), [1].into());
    assert_eq!(role(&log.roster(), 3), Some(Role::Applicator));
}

#[test]
fn a_request_is_turned_down_by_retiring_it() {
    let mut log = Log::founded();
    let entry = log.say(2, asked(2));
    log.say(FOUNDER, retired(2, None));
    assert!(is_retired(&log.roster(), 2));
    assert_eq!(log.standing(2, entry), Standing::AfterRetirement);
    let member = log.roster().member(stream(2)).unwrap().clone();
    assert_eq!((member.role, member.person), (None, Some(person(2))));
}
