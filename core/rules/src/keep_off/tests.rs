//! Corner cases of keep-offs, and the property that stands above all: knowing less, or more being
//! claimed, never ends one earlier.

use proptest::prelude::*;

use super::*;
use crate::label::{KeepOffTerms, LabelSays};
use crate::quantity::Entered;

const HOUR_MS: i64 = 3_600_000;
const FOUR_HOURS: Wait = Wait::LastsMs(4 * 3_600_000);

fn keep_off(wait: Wait, dry: DryNeed) -> KeepOff {
    KeepOff {
        claims: vec![Terms { wait, dry }],
        started_utc_ms: 0,
        last_application_utc_ms: Some(HOUR_MS),
        dry_utc_ms: None,
        lengthen_ms: 0,
    }
}

fn at(hour: i64) -> Now {
    Now {
        utc_ms: hour * HOUR_MS,
        proven: true,
    }
}

#[test]
fn every_pair_of_label_fields_has_its_terms() {
    let wait = |text: &str| LabelSays::Value(Entered::parse(text).unwrap());
    let (needed, not) = (DryNeed::Needed, DryNeed::NotNeeded);
    let cases = [
        (LabelSays::Unfilled, LabelSays::Unfilled, None),
        (LabelSays::Unfilled, LabelSays::Nothing, None),
        (LabelSays::Unfilled, wait("4 h"), None),
        (LabelSays::Nothing, LabelSays::Unfilled, None),
        (LabelSays::Nothing, LabelSays::Nothing, None),
        (LabelSays::Nothing, wait("0 h"), None),
        (LabelSays::Nothing, wait("4 h"), Some((FOUR_HOURS, not))),
        (LabelSays::Value(false), LabelSays::Unfilled, None),
        (LabelSays::Value(false), LabelSays::Nothing, None),
        (
            LabelSays::Value(false),
            wait("240 min"),
            Some((FOUR_HOURS, not)),
        ),
        (LabelSays::Value(true), LabelSays::Unfilled, None),
        (
            LabelSays::Value(true),
            LabelSays::Nothing,
            Some((Wait::NotNeeded, needed)),
        ),
        (
            LabelSays::Value(true),
            wait("0 min"),
            Some((Wait::NotNeeded, needed)),
        ),
        (
            LabelSays::Value(true),
            wait("4 h"),
            Some((FOUR_HOURS, needed)),
        ),
        // A typing slip in the unit is no wait that anybody could trust.
        (LabelSays::Value(true), wait("4 lb"), None),
    ];
    for (until_dry, wait, expected) in cases {
        let terms = Terms::from_label(&KeepOffTerms {
            until_dry,
            wait: wait.clone(),
        });
        match expected {
            None => assert!(terms.is_open(), "{wait:?}: {terms:?}"),
            Some((wait, dry)) => assert_eq!(terms, Terms { wait, dry }),
        }
    }
}

#[test]
fn without_a_finish_there_is_no_end() {
    let mut k = keep_off(FOUR_HOURS, DryNeed::NotNeeded);
    k.last_application_utc_ms = None;
    k.dry_utc_ms = Some(2 * HOUR_MS);
    assert_eq!(k.state(at(1_000_000)), State::RunsUntilFinish);
    assert_eq!(k.next_alarm(at(0)), None);
}

#[test]
fn an_empty_label_field_keeps_it_open() {
    let mut k = keep_off(Wait::Open, DryNeed::Needed);
    k.dry_utc_ms = Some(2 * HOUR_MS);
    assert_eq!(k.state(at(1_000_000)), State::RunsUntilLabelIsRead);
    k.claims.clear();
    assert_eq!(k.state(at(1_000_000)), State::RunsUntilLabelIsRead);
    // Terms that ask for nothing at all are not a way round it.
    k.claims = vec![Terms {
        wait: Wait::LastsMs(0),
        dry: DryNeed::NotNeeded,
    }];
    assert_eq!(k.state(at(1_000_000)), State::RunsUntilLabelIsRead);
}

#[test]
fn both_means_the_later() {
    let mut k = keep_off(FOUR_HOURS, DryNeed::Needed);
    assert_eq!(
        k.state(at(2)),
        State::Runs {
            until_utc_ms: 5 * HOUR_MS,
            then_dry: true
        }
    );
    assert_eq!(k.state(at(5)), State::WaitsForDry);
    k.dry_utc_ms = Some(2 * HOUR_MS);
    assert_eq!(
        k.state(at(4)),
        State::Runs {
            until_utc_ms: 5 * HOUR_MS,
            then_dry: false
        }
    );
    assert_eq!(
        k.state(at(5)),
        State::Ended {
            by: EndedBy::Both,
            at_utc_ms: 5 * HOUR_MS
        }
    );
    k.dry_utc_ms = Some(7 * HOUR_MS);
    assert_eq!(k.state(at(6)), State::WaitsForDry);
    assert_eq!(
        k.state(at(7)),
        State::Ended {
            by: EndedBy::Both,
            at_utc_ms: 7 * HOUR_MS
        }
    );
}

#[test]
fn dry_before_the_last_application_does_not_count() {
    let mut k = keep_off(Wait::NotNeeded, DryNeed::Needed);
    k.dry_utc_ms = Some(HOUR_MS - 1);
    assert_eq!(k.state(at(9)), State::WaitsForDry);
    k.dry_utc_ms = Some(HOUR_MS);
    assert_eq!(
        k.state(at(9)),
        State::Ended {
            by: EndedBy::Dry,
            at_utc_ms: HOUR_MS
        }
    );
    // A look does not need a proven clock: a person stood there.
    assert!(
        k.state(Now {
            utc_ms: 9 * HOUR_MS,
            proven: false
        })
        .is_over()
    );
}

#[test]
fn dry_does_not_shorten_a_wait_and_time_does_not_dry_a_lawn() {
    let mut timed = keep_off(FOUR_HOURS, DryNeed::NotNeeded);
    timed.dry_utc_ms = Some(2 * HOUR_MS);
    assert_eq!(
        timed.state(at(3)),
        State::Runs {
            until_utc_ms: 5 * HOUR_MS,
            then_dry: false
        }
    );
    let dry = keep_off(Wait::NotNeeded, DryNeed::Needed);
    assert_eq!(dry.state(at(1_000_000)), State::WaitsForDry);
}

#[test]
fn unproven_time_is_uncertain_and_never_over() {
    let k = keep_off(FOUR_HOURS, DryNeed::NotNeeded);
    let uncertain = State::TimeUncertain {
        not_before_utc_ms: Some(5 * HOUR_MS),
        then_dry: false,
    };
    assert_eq!(
        k.state(Now {
            utc_ms: 2 * HOUR_MS,
            proven: false
        }),
        uncertain
    );
    assert_eq!(
        k.state(Now {
            utc_ms: i64::MAX,
            proven: false
        }),
        uncertain
    );
    assert_eq!(
        k.next_alarm(Now {
            utc_ms: 2 * HOUR_MS,
            proven: false
        }),
        None
    );
    assert!(k.state(at(5)).is_over());
}

#[test]
fn another_clock_lengthens_up_to_ten_minutes_and_is_uncertain_beyond() {
    let mut k = keep_off(FOUR_HOURS, DryNeed::NotNeeded);
    k.lengthen_ms = LENGTHEN_MOST_MS;
    let until_utc_ms = 5 * HOUR_MS + 600_000;
    assert_eq!(
        k.state(at(5)),
        State::Runs {
            until_utc_ms,
            then_dry: false
        }
    );
    k.lengthen_ms += 1;
    let uncertain = State::TimeUncertain {
        not_before_utc_ms: None,
        then_dry: false,
    };
    assert_eq!(k.state(at(1_000_000)), uncertain);

    let mut dry = keep_off(Wait::NotNeeded, DryNeed::Needed);
    dry.lengthen_ms = u64::MAX;
    assert_eq!(dry.state(at(9)), State::WaitsForDry);
    dry.dry_utc_ms = Some(9 * HOUR_MS);
    assert!(matches!(
        dry.state(at(9)),
        State::TimeUncertain { then_dry: true, .. }
    ));
}

#[test]
fn a_finish_from_a_clock_set_back_counts_from_the_start() {
    let mut k = keep_off(FOUR_HOURS, DryNeed::NotNeeded);
    k.started_utc_ms = 3 * HOUR_MS;
    assert_eq!(
        k.state(at(6)),
        State::Runs {
            until_utc_ms: 7 * HOUR_MS,
            then_dry: false
        }
    );
}

#[test]
fn the_next_alarm_is_the_earliest_and_says_what_for() {
    let timed = keep_off(FOUR_HOURS, DryNeed::NotNeeded);
    let both = keep_off(Wait::LastsMs(2 * 3_600_000), DryNeed::Needed);
    let waits = keep_off(Wait::NotNeeded, DryNeed::Needed);
    let all = [timed, both, waits];
    let alarm = |hour| next_alarm(&all, at(hour));
    assert_eq!(
        alarm(1),
        Some(Alarm {
            at_utc_ms: 3 * HOUR_MS,
            then_look: true
        })
    );
    assert_eq!(
        alarm(3),
        Some(Alarm {
            at_utc_ms: 5 * HOUR_MS,
            then_look: false
        })
    );
    assert_eq!(alarm(5), None);
}

fn any_terms() -> impl Strategy<Value = Terms> {
    let wait = prop_oneof![
        1 => Just(Wait::Open),
        3 => Just(Wait::NotNeeded),
        6 => (0_u64..20).prop_map(Wait::LastsMs),
        1 => Just(Wait::LastsMs(u64::MAX)),
    ];
    let dry = prop_oneof![
        1 => Just(DryNeed::Open),
        4 => Just(DryNeed::NotNeeded),
        4 => Just(DryNeed::Needed),
    ];
    (wait, dry).prop_map(|(wait, dry)| Terms { wait, dry })
}

fn any_keep_off() -> impl Strategy<Value = KeepOff> {
    let lengthen = prop_oneof![4 => 0_u64..10, 1 => Just(LENGTHEN_MOST_MS + 1)];
    (
        proptest::collection::vec(any_terms(), 1..3),
        0_i64..20,
        proptest::option::weighted(0.9, 0_i64..40),
        proptest::option::weighted(0.7, 0_i64..60),
        lengthen,
    )
        .prop_map(
            |(claims, started_utc_ms, last_application_utc_ms, dry_utc_ms, lengthen_ms)| KeepOff {
                claims,
                started_utc_ms,
                last_application_utc_ms,
                dry_utc_ms,
                lengthen_ms,
            },
        )
}

fn any_now() -> impl Strategy<Value = Now> {
    (-5_i64..90, proptest::bool::weighted(0.8)).prop_map(|(utc_ms, proven)| Now { utc_ms, proven })
}

proptest! {
    #[test]
    fn a_further_claim_never_ends_it_earlier(
        k in any_keep_off(), claim in any_terms(), now in any_now(),
    ) {
        let mut more = k.clone();
        more.claims.push(claim);
        prop_assert!(k.state(now).is_over() || !more.state(now).is_over());
    }

    #[test]
    fn knowing_less_never_ends_it_earlier(k in any_keep_off(), now in any_now()) {
        let over = k.state(now).is_over();
        let no_finish = KeepOff { last_application_utc_ms: None, ..k.clone() };
        let no_dry = KeepOff { dry_utc_ms: None, ..k.clone() };
        let no_claims = KeepOff { claims: Vec::new(), ..k.clone() };
        prop_assert!(!no_finish.state(now).is_over());
        prop_assert!(!no_claims.state(now).is_over());
        prop_assert!(over || !no_dry.state(now).is_over());
        let unproven = k.state(Now { proven: false, ..now });
        prop_assert!(over || !unproven.is_over());
    }

    #[test]
    fn a_later_application_or_clock_never_ends_it_earlier(
        k in any_keep_off(), later in 1_i64..30, now in any_now(),
    ) {
        let over = k.state(now).is_over();
        let treated_later = KeepOff {
            last_application_utc_ms: k.last_application_utc_ms.map(|t| t + later),
            ..k.clone()
        };
        let lengthened =
            KeepOff { lengthen_ms: k.lengthen_ms + later.unsigned_abs(), ..k.clone() };
        prop_assert!(over || !treated_later.state(now).is_over());
        prop_assert!(over || !lengthened.state(now).is_over());
    }

    #[test]
    fn what_is_over_stays_over_as_time_passes(
        k in any_keep_off(), now in any_now(), later in 0_i64..50,
    ) {
        let then = Now { utc_ms: now.utc_ms + later, ..now };
        prop_assert!(!k.state(now).is_over() || k.state(then).is_over());
    }

    #[test]
    fn no_wait_is_over_before_it_has_passed(k in any_keep_off(), now in any_now()) {
        if let State::Ended { at_utc_ms, .. } = k.state(now) {
            let last = k.last_application_utc_ms.expect("ended, so a finish is recorded");
            let longest = k.claims.iter().filter_map(|c| c.wait_ms()).max().unwrap_or(0);
            prop_assert!(at_utc_ms >= last.saturating_add_unsigned(longest));
            prop_assert!(at_utc_ms <= now.utc_ms);
            let waits = longest > 0;
            prop_assert!(now.proven || !waits);
        }
    }

    #[test]
    fn an_alarm_rings_when_the_state_changes(k in any_keep_off(), now in any_now()) {
        if let Some(alarm) = k.next_alarm(now) {
            let before = k.state(Now { utc_ms: alarm.at_utc_ms - 1, ..now });
            let after = k.state(Now { utc_ms: alarm.at_utc_ms, ..now });
            prop_assert!(alarm.at_utc_ms > now.utc_ms);
            let runs = |state: State| matches!(state, State::Runs { .. });
            prop_assert!(runs(before) && !runs(after));
        }
    }
}
