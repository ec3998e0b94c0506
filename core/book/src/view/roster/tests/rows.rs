//! What the roster's rows hold, and how they are stored.

use super::*;

#[test]
fn a_stream_is_cut_by_whoever_may_have_a_say() {
    let mut log = Log::with_leads([2]);
    log.say(9, retired(2, None));
    assert!(!log.roster().is_cut(stream(2)));
    log.say(2, given(9, Role::Office, None));
    log.say(2, retired(FOUNDER, None));
    log.say(FOUNDER, retired(2, None));
    // The retirement of the founder has fallen, and may stand again when another entry arrives.
    assert_eq!(
        [1, 2, 3, 9].map(|d| log.roster().is_cut(stream(d))),
        [true, true, false, true]
    );
}

#[test]
fn the_locked_file_key_is_the_own_word_and_the_name_a_leads() {
    let mut log = Log::with_leads([2]);
    let mut other = Admitted {
        device: keys(3),
        person: person(4),
        role: Role::Applicator,
    };
    other.device.recipient = "age1elsewhere".to_owned();
    log.say(2, Fact::Admitted(other.clone()));
    let member = |log: &Log, d| log.roster().member(stream(d)).unwrap().clone();
    assert_eq!(
        member(&log, 3).recipient.as_deref(),
        Some("age1elsewhere"),
        "nothing else known"
    );
    log.say(3, asked(3));
    assert_eq!(member(&log, 3).recipient, Some(keys(3).recipient));
    assert_eq!(member(&log, 3).person, Some(person(4)));

    other.device.stream = stream(FOUNDER);
    log.say(2, Fact::Admitted(other));
    assert_eq!(
        member(&log, FOUNDER).recipient,
        Some(keys(FOUNDER).recipient)
    );
}

#[test]
fn a_stored_roster_reads_back_equal() {
    let mut log = Log::with_leads([2]);
    let last = log.say(2, asked(2));
    log.say(FOUNDER, given(2, Role::Applicator, Some(last)));
    log.say(FOUNDER, retired(2, Some(last)));
    log.say(FOUNDER, retired(3, None));
    let roster = log.roster();
    let bytes = minicbor::to_vec(&roster).unwrap();
    assert_eq!(minicbor::decode::<Roster>(&bytes).unwrap(), roster);
    let json = serde_json::to_value(&roster).unwrap();
    assert_eq!(json["members"][1]["role"], "applicator");
    assert_eq!(json["members"][1]["state"]["state"], "retired");
}
