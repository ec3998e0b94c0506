//! Who may say what: founding, requests, admissions and roles.

use super::*;

#[test]
fn the_founding_makes_a_crew_lead_and_names_the_crew() {
    let log = Log::founded();
    let roster = log.roster();
    assert!(roster.is_lead(stream(FOUNDER)));
    assert_eq!(roster.crew(), log.crew());
    assert_eq!(roster.crew_name(), Some("Clover crew"));
    assert!(roster.practice());
    assert_eq!(
        roster.recovery_key().unwrap().0,
        recovery_key().verifying_key().to_bytes()
    );
    assert_eq!(
        roster.member(stream(FOUNDER)).unwrap().person,
        Some(person(FOUNDER))
    );
}

#[test]
fn a_founding_in_another_entry_is_ignored() {
    for lamport in [0, 5] {
        let mut log = Log::founded();
        log.say_at(lamport, 2, founded(2));
        log.say(2, admitted(3, Role::CrewLead));
        assert_eq!(log.roster(), Log::founded().roster());
    }
}

#[test]
fn a_founding_for_another_device_founds_nothing() {
    let mut log = Log::default();
    log.say(2, founded(FOUNDER));
    assert_eq!(log.roster().crew_name(), None);
    assert_eq!(log.roster().members().count(), 0);
}

#[test]
fn before_the_founding_arrives_everyone_is_pending() {
    let mut log = Log::founded();
    let crew = log.crew();
    let entry = log.say(2, asked(2));
    log.say(FOUNDER, admitted(2, Role::CrewLead));
    let roster = Roster::compute(crew, &log.facts[1..], &log);
    assert_eq!(roster.crew_name(), None);
    assert!(!roster.practice());
    assert_eq!(roster.recovery_key(), None);
    assert_eq!(
        roster.standing(stream(2), entry.hash, &log),
        Standing::Pending
    );
    assert_eq!(roster.active_recipients(), []);
    assert_eq!(Roster::compute(crew, &[], &log).members().count(), 0);
}

#[test]
fn a_device_that_asks_is_pending_and_once_admitted_all_its_entries_count() {
    let mut log = Log::founded();
    let entry = log.say(2, asked(2));
    assert_eq!(log.standing(2, entry), Standing::Pending);
    assert_eq!(
        log.roster().member(stream(2)).unwrap().state,
        MemberState::Pending
    );
    assert_eq!(log.roster().member(stream(2)).unwrap().role, None);
    assert_eq!(log.roster().active_recipients().len(), 1);

    log.say(FOUNDER, admitted(2, Role::Applicator));
    assert_eq!(log.standing(2, entry), Standing::Counts(Role::Applicator));
    let expected = [1, 2].map(|d| (stream(d), keys(d).recipient));
    assert_eq!(log.roster().active_recipients(), expected);
}

#[test]
fn a_request_in_another_name_is_ignored_and_nobody_knows_the_device() {
    let mut log = Log::founded();
    let entry = log.say(3, asked(2));
    assert_eq!(log.roster(), Log::founded().roster());
    assert_eq!(log.standing(3, entry), Standing::Unknown);
}

#[test]
fn a_request_says_which_stream_it_continues() {
    let mut log = Log::founded();
    let request = JoinAsked {
        device: keys(2),
        person: person(2),
        was: Some(stream(1)),
    };
    log.say(2, Fact::JoinAsked(request));
    assert_eq!(log.roster().member(stream(2)).unwrap().was, Some(stream(1)));
}

#[test]
fn an_admitted_crew_lead_admits() {
    let mut log = Log::with_leads([2]);
    log.say(2, admitted(3, Role::Applicator));
    assert_eq!(role(&log.roster(), 3), Some(Role::Applicator));
}

#[test]
fn an_outsider_admits_retires_and_promotes_nobody() {
    let mut log = Log::with_leads([2]);
    let before = log.roster();
    for fact in [
        admitted(9, Role::CrewLead),
        admitted(8, Role::CrewLead),
        retired(2, None),
        given(9, Role::CrewLead, None),
        given(FOUNDER, Role::Office, None),
    ] {
        log.say(9, fact);
    }
    log.say(8, retired(FOUNDER, None));
    assert_eq!(log.roster(), before);
}

#[test]
fn applicator_and_office_have_no_say_in_membership() {
    for own in [Role::Applicator, Role::Office] {
        let mut log = Log::with_leads([2]);
        log.say(2, admitted(3, own));
        let before = log.roster();
        log.say(3, admitted(4, Role::Office));
        log.say(3, given(3, Role::CrewLead, None));
        log.say(3, retired(2, None));
        log.say(3, retired(3, None));
        assert_eq!(log.roster(), before);
    }
}

#[test]
fn of_two_roles_given_the_last_in_order_wins() {
    let mut log = Log::with_leads([2]);
    log.say(FOUNDER, admitted(3, Role::Applicator));
    let lamport = log.lamport + 1;
    log.say_at(lamport + 1, FOUNDER, given(3, Role::Office, None));
    log.say_at(lamport, 2, given(3, Role::CrewLead, None));
    assert_eq!(role(&log.roster(), 3), Some(Role::Office));
}

#[test]
fn a_role_given_holds_from_the_entry_after_its_last() {
    let mut log = Log::founded();
    let early = log.say(2, asked(2));
    log.say(FOUNDER, admitted(2, Role::Applicator));
    log.say(FOUNDER, given(2, Role::CrewLead, Some(early)));
    let late = log.say(2, asked(2));
    assert_eq!(log.standing(2, early), Standing::Counts(Role::Applicator));
    assert_eq!(log.standing(2, late), Standing::Counts(Role::CrewLead));
}

#[test]
fn a_role_given_to_someone_not_admitted_does_nothing() {
    let mut log = Log::founded();
    log.say(2, asked(2));
    let entry = log.head(2).unwrap();
    log.say(FOUNDER, given(2, Role::CrewLead, None));
    assert_eq!(log.standing(2, entry), Standing::Pending);
    log.say(FOUNDER, admitted(2, Role::Office));
    assert_eq!(log.standing(2, entry), Standing::Counts(Role::Office));
}

#[test]
fn a_promoted_device_acts_from_then_on_only() {
    let mut log = Log::founded();
    log.say(FOUNDER, admitted(2, Role::Applicator));
    log.say(2, admitted(3, Role::Applicator));
    log.say(FOUNDER, given(2, Role::CrewLead, None));
    log.say(2, admitted(4, Role::Applicator));
    let roster = log.roster();
    assert_eq!(
        role(&roster, 3),
        None,
        "admitted while its author was an applicator"
    );
    assert_eq!(role(&roster, 4), Some(Role::Applicator));
}

#[test]
fn in_one_entry_a_lead_is_given_before_it_is_used() {
    for (facts, expected) in [
        (
            vec![founded(FOUNDER), admitted(2, Role::Office)],
            Some(Role::Office),
        ),
        (vec![admitted(2, Role::Office), founded(FOUNDER)], None),
    ] {
        let mut log = Log::default();
        log.say_after(None, 1, FOUNDER, facts);
        assert_eq!(role(&log.roster(), 2), expected);
    }
}

#[test]
fn an_entry_that_keeps_the_old_role_has_no_lead_whatever_its_number() {
    let mut log = Log::founded();
    log.say(FOUNDER, admitted(2, Role::Applicator));
    let lamport = log.lamport;
    let last = log.say_at(lamport + 9, 2, admitted(3, Role::CrewLead));
    log.say_at(lamport + 1, FOUNDER, given(2, Role::CrewLead, Some(last)));
    assert_eq!(log.standing(2, last), Standing::Counts(Role::Applicator));
    assert_eq!(role(&log.roster(), 3), None);
}

#[test]
fn a_second_admission_does_not_undo_a_demotion() {
    let mut log = Log::with_leads([2]);
    log.say(FOUNDER, given(2, Role::Applicator, log.head(2)));
    log.say(FOUNDER, admitted(2, Role::CrewLead));
    log.say(2, admitted(3, Role::Applicator));
    assert_eq!(role(&log.roster(), 2), Some(Role::Applicator));
    assert_eq!(role(&log.roster(), 3), None);
}

#[test]
fn a_lead_is_not_used_by_an_entry_of_the_same_lamport_number() {
    let mut log = Log::founded();
    log.say_at(5, FOUNDER, admitted(2, Role::CrewLead));
    log.say_at(5, 2, admitted(3, Role::Applicator));
    log.say_at(6, 2, admitted(4, Role::Applicator));
    assert_eq!(role(&log.roster(), 3), None);
    assert_eq!(role(&log.roster(), 4), Some(Role::Applicator));
}

#[test]
fn a_demotion_takes_what_was_said_after_its_last() {
    let mut log = Log::with_leads([2]);
    let last = log.say(2, admitted(3, Role::Applicator));
    log.say(2, admitted(4, Role::Applicator));
    log.say(FOUNDER, given(2, Role::Applicator, Some(last)));
    log.say(2, admitted(5, Role::Applicator));
    let roster = log.roster();
    assert_eq!(role(&roster, 2), Some(Role::Applicator));
    assert_eq!(role(&roster, 3), Some(Role::Applicator));
    assert_eq!(role(&roster, 4), None);
    assert_eq!(role(&roster, 5), None);
}

#[test]
fn promoted_again_after_a_demotion_it_acts_again() {
    let mut log = Log::with_leads([2]);
    log.say(FOUNDER, given(2, Role::Applicator, None));
    log.say(2, admitted(3, Role::Applicator));
    let last = log.head(2);
    log.say(FOUNDER, given(2, Role::CrewLead, last));
    log.say(2, admitted(4, Role::Applicator));
    let roster = log.roster();
    assert_eq!(leads(&roster), [1, 2].into());
    assert_eq!(role(&roster, 3), None);
    assert_eq!(role(&roster, 4), Some(Role::Applicator));
}

#[test]
fn nobody_promotes_themselves_out_of_a_demotion() {
    let mut log = Log::with_leads([2]);
    log.say(FOUNDER, given(2, Role::Applicator, None));
    log.say_at(1_000, 2, given(2, Role::CrewLead, None));
    log.say_at(1_001, 2, admitted(3, Role::CrewLead));
    assert_eq!(leads(&log.roster()), [1].into());
    assert_eq!(role(&log.roster(), 3), None);
}

#[test]
fn a_lead_gives_up_its_lead_and_what_it_said_before_stands() {
    let mut log = Log::with_leads([2]);
    log.say(2, admitted(3, Role::Applicator));
    log.say(2, given(2, Role::Applicator, None));
    log.say(2, admitted(4, Role::Applicator));
    let roster = log.roster();
    assert_eq!(role(&roster, 2), Some(Role::Applicator));
    assert_eq!(role(&roster, 3), Some(Role::Applicator));
    assert_eq!(role(&roster, 4), None);
}

#[test]
fn a_second_admission_never_lowers_a_role() {
    let mut log = Log::with_leads([2]);
    log.say(FOUNDER, admitted(2, Role::Office));
    assert_eq!(role(&log.roster(), 2), Some(Role::CrewLead));
}

#[test]
fn what_a_fallen_admission_led_to_falls_with_it() {
    let mut log = Log::with_leads([2]);
    let last = log.head(2);
    log.say(2, admitted(3, Role::CrewLead));
    log.say(3, admitted(4, Role::CrewLead));
    log.say(4, admitted(5, Role::Applicator));
    assert_eq!(leads(&log.roster()), [1, 2, 3, 4].into());
    log.say(FOUNDER, retired(2, last));
    assert_eq!(leads(&log.roster()), [1].into());
    assert_eq!(role(&log.roster(), 5), None);
}
