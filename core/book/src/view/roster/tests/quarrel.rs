//! Quarrels: leads who take the lead from each other, directly or through others.

use super::*;

#[test]
fn of_two_leads_who_retire_each_other_the_seniors_word_stands() {
    for (senior, junior) in [(FOUNDER, 2), (2, 3)] {
        for senior_first in [true, false] {
            let mut log = Log::with_leads([2, 3]);
            let lamport = log.lamport + 1;
            let (s, j) = if senior_first {
                (lamport, lamport + 1)
            } else {
                (lamport + 1, lamport)
            };
            let (of_junior, of_senior) = (log.head(junior), log.head(senior));
            log.say_at(s, senior, retired(junior, of_junior));
            log.say_at(j, junior, retired(senior, of_senior));
            let roster = log.roster();
            assert!(roster.is_lead(stream(senior)));
            assert!(is_retired(&roster, junior));
        }
    }
}

#[test]
fn of_two_leads_who_demote_each_other_the_seniors_word_stands() {
    let mut log = Log::with_leads([2, 3]);
    let lamport = log.lamport + 1;
    log.say_at(lamport, 3, given(2, Role::Office, None));
    log.say_at(lamport, 2, given(3, Role::Applicator, None));
    assert_eq!(role(&log.roster(), 2), Some(Role::CrewLead));
    assert_eq!(role(&log.roster(), 3), Some(Role::Applicator));
}

#[test]
fn in_a_ring_of_three_the_third_does_not_win_by_the_seconds_fall() {
    for ring in [[1, 2, 3], [1, 3, 2]] {
        let mut log = Log::with_leads([2, 3]);
        let lamport = log.lamport + 1;
        let heads = ring.map(|d| log.head(d));
        for i in 0..3 {
            let next = (i + 1) % 3;
            log.say_at(lamport, ring[i], retired(ring[next], heads[next]));
        }
        let roster = log.roster();
        assert_eq!(leads(&roster), [1, ring[2]].into());
        assert!(is_retired(&roster, ring[1]));
    }
}

#[test]
fn a_quarrel_of_juniors_is_settled_before_what_hangs_on_it() {
    // Devices 2 and 3 retire each other; 3 also retires the founder, who said something since.
    let mut log = Log::with_leads([2, 3]);
    let lamport = log.lamport + 1;
    let last = log.head(FOUNDER);
    log.say_at(lamport, 2, retired(3, None));
    log.say_at(lamport, 3, retired(2, None));
    log.say_at(lamport, 3, retired(FOUNDER, last));
    log.say_at(lamport, FOUNDER, admitted(4, Role::Applicator));
    assert_eq!(leads(&log.roster()), [1, 2].into());
    assert_eq!(role(&log.roster(), 4), Some(Role::Applicator));

    // The other way round the junior's word is good, and the founder's later admission is not.
    let mut log = Log::with_leads([2, 3]);
    let last = log.head(FOUNDER);
    log.say_at(lamport, 2, retired(3, None));
    log.say_at(lamport, 3, retired(2, None));
    log.say_at(lamport, 2, retired(FOUNDER, last));
    log.say_at(lamport, FOUNDER, admitted(4, Role::Applicator));
    assert_eq!(leads(&log.roster()), [2].into());
    assert_eq!(role(&log.roster(), 4), None);
}

#[test]
fn an_accomplice_admitted_after_the_theft_wins_no_quarrel() {
    // 3 is stolen. 2, its senior, retires it; 3 admits 9, which retires 2.
    let mut log = Log::with_leads([2, 3]);
    let lamport = log.lamport + 1;
    let last = log.head(3);
    log.say_at(lamport, 3, admitted(9, Role::CrewLead));
    log.say_at(lamport + 1, 9, retired(2, None));
    log.say_at(lamport + 5, 2, retired(3, last));
    assert_eq!(leads(&log.roster()), [1, 2].into());
}

#[test]
fn a_second_admission_lifts_nobody_above_the_lead_who_wrote_it() {
    // 3 admits 4 anew with the smallest number it can, so that 4 might outrank 2.
    let mut log = Log::with_leads([2, 3, 4]);
    let of_three = log
        .facts
        .iter()
        .find(|f| f.subject() == stream(3))
        .unwrap()
        .lamport;
    log.say_at(of_three - 1, 3, admitted(4, Role::CrewLead));
    let lamport = log.lamport + 1;
    log.say_at(lamport, 2, retired(4, None));
    log.say_at(lamport, 4, retired(2, None));
    assert_eq!(leads(&log.roster()), [1, 2, 3].into());
}

#[test]
fn a_superfluous_lead_ties_nobody_into_a_quarrel() {
    // Devices 2 and 3 retire each other. The founder, whom 2 retires, has admitted 2 once more, or
    // given it a lower role that 4's later word replaces: neither bears on what 2 may say.
    let more = Admitted {
        device: keys(2),
        person: person(9),
        role: Role::CrewLead,
    };
    for superfluous in [Fact::Admitted(more), given(2, Role::Office, None)] {
        let mut log = Log::with_leads([2, 3, 4]);
        let early = log.say(2, asked(2));
        let lamport = log.lamport + 1;
        let last = log.head(FOUNDER);
        log.say_at(lamport, FOUNDER, superfluous);
        log.say_at(lamport + 1, 4, given(2, Role::CrewLead, Some(early)));
        log.say_at(lamport + 2, 2, retired(3, None));
        log.say_at(lamport + 2, 3, retired(2, None));
        log.say_at(lamport + 2, 2, retired(FOUNDER, last));
        let roster = log.roster();
        assert_eq!(leads(&roster), [2, 4].into());
        assert_eq!(roster.member(stream(2)).unwrap().person, Some(person(2)));
        assert_eq!(log.standing(2, early), Standing::Counts(Role::CrewLead));
    }
}

#[test]
fn a_role_given_waits_for_the_admission_it_needs() {
    // 2 admits 4 after its theft, and the founder, unaware, makes 4 a lead, which retires it.
    let mut log = Log::with_leads([2]);
    let last = log.head(2);
    log.say(2, admitted(4, Role::Applicator));
    log.say(FOUNDER, given(4, Role::CrewLead, None));
    log.say(4, retired(FOUNDER, None));
    log.say(FOUNDER, retired(2, last));
    let roster = log.roster();
    assert_eq!(leads(&roster), [1].into());
    assert!(is_retired(&roster, 2));
    assert!(roster.member(stream(4)).is_none());
}
