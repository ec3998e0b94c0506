//! Several treatments of one piece of ground: corner cases, and that nothing but the facts named
//! ends one earlier, and no alarm comes late.

use proptest::prelude::*;

use super::*;
use crate::keep_off::{
    DryNeed, EndedBy, LENGTHEN_MOST_MS, PlaceAsks, SiteKind, Wait, asks_longer, place_claim,
    worker_claim,
};
use crate::quantity::Entered;

const HOUR_MS: i64 = 3_600_000;

fn at(hour: i64) -> Now {
    Now {
        utc_ms: hour * HOUR_MS,
        proven: true,
    }
}

fn treated(wait_h: u64, dry: DryNeed) -> Treatment {
    let wait = match wait_h {
        0 => Wait::NotNeeded,
        hours => Wait::LastsMs(hours * 3_600_000),
    };
    Treatment {
        keep_off: KeepOff {
            claims: vec![Terms { wait, dry }],
            started_utc_ms: 0,
            last_application_utc_ms: Some(HOUR_MS),
            dry_utc_ms: None,
            lengthen_ms: 0,
        },
        water_in: WaterIn::NotAsked,
        watered_utc_ms: None,
    }
}

#[test]
fn an_empty_watering_field_keeps_what_must_be_dry_open() {
    let mut granules = treated(0, DryNeed::Needed);
    granules.water_in = WaterIn::Open;
    granules.keep_off.dry_utc_ms = Some(5 * HOUR_MS);
    let standing = granules.standing(at(100));
    assert_eq!(standing.state, State::RunsUntilLabelIsRead);
    assert_eq!(standing.why, Some(Reason::KeepOffWateringNotRead));
    assert_eq!(
        standing.next.map(|n| (n.at_utc_ms, n.step)),
        Some((100 * HOUR_MS, NextStep::ReadLabel))
    );
    // A wait alone does not ask for water.
    let mut waits = treated(4, DryNeed::NotNeeded);
    waits.water_in = WaterIn::Open;
    assert!(waits.standing(at(5)).state.is_over());
}

#[test]
fn watering_in_starts_dry_anew_and_counts_only_after_the_last_application() {
    let mut granules = treated(0, DryNeed::Needed);
    granules.water_in = WaterIn::Asked;
    granules.keep_off.dry_utc_ms = Some(6 * HOUR_MS);
    let why = |t: &Treatment, hour| t.standing(at(hour)).why;
    assert_eq!(why(&granules, 9), Some(Reason::KeepOffNotWateredIn));
    // Watered before the last application is not watered in.
    granules.watered_utc_ms = Some(HOUR_MS - 1);
    assert_eq!(why(&granules, 9), Some(Reason::KeepOffNotWateredIn));
    granules.watered_utc_ms = Some(7 * HOUR_MS);
    assert_eq!(why(&granules, 6), Some(Reason::KeepOffNotWateredIn));
    assert_eq!(why(&granules, 9), Some(Reason::KeepOffWetAgain));
    granules.watered_utc_ms = Some(6 * HOUR_MS - 1);
    assert_eq!(
        granules.standing(at(6)).state,
        State::Ended {
            by: EndedBy::Dry,
            at_utc_ms: 6 * HOUR_MS
        }
    );
}

#[test]
fn water_that_nobody_asked_for_starts_dry_anew_too() {
    let mut spray = treated(0, DryNeed::Needed);
    spray.keep_off.dry_utc_ms = Some(3 * HOUR_MS);
    assert!(spray.standing(at(4)).state.is_over());
    spray.watered_utc_ms = Some(4 * HOUR_MS);
    let standing = spray.standing(at(5));
    assert_eq!(standing.why, Some(Reason::KeepOffWetAgain));
    assert_eq!(standing.next.unwrap().step, NextStep::Look);
}

#[test]
fn ground_is_free_when_the_last_of_its_treatments_ended() {
    let all = [
        treated(2, DryNeed::NotNeeded),
        treated(4, DryNeed::NotNeeded),
    ];
    let early = ground(&all, at(1));
    assert_eq!(early.held_by.len(), 2);
    assert_eq!(early.next.unwrap().at_utc_ms, 3 * HOUR_MS);
    let between = ground(&all, at(3));
    assert!(!between.is_free());
    assert_eq!(between.held_by[0].0, 1);
    assert_eq!(between.over_since_utc_ms, None);
    let free = ground(&all, at(5));
    assert!(free.is_free());
    assert_eq!(
        (free.over_since_utc_ms, free.next),
        (Some(5 * HOUR_MS), None)
    );
    assert!(ground([], at(0)).is_free());
}

#[test]
fn what_waits_for_a_person_is_due_at_once() {
    let mut open = treated(4, DryNeed::NotNeeded);
    open.keep_off.last_application_utc_ms = None;
    let due = |t: &Treatment, now| {
        let next = t.standing(now).next.unwrap();
        (next.at_utc_ms, next.step)
    };
    assert_eq!(due(&open, at(2)), (2 * HOUR_MS, NextStep::RecordFinish));
    open.keep_off.claims.clear();
    open.keep_off.last_application_utc_ms = Some(HOUR_MS);
    assert_eq!(due(&open, at(2)), (2 * HOUR_MS, NextStep::ReadLabel));
    let timed = treated(4, DryNeed::NotNeeded);
    let unproven = Now {
        proven: false,
        ..at(2)
    };
    assert_eq!(due(&timed, unproven), (2 * HOUR_MS, NextStep::ConfirmTime));
    assert_eq!(
        timed.standing(unproven).why,
        Some(Reason::KeepOffTimeNotProven)
    );
    let mut apart = timed.clone();
    apart.keep_off.lengthen_ms = LENGTHEN_MOST_MS + 1;
    assert_eq!(apart.standing(at(99)).why, Some(Reason::KeepOffClocksApart));
    assert_eq!(due(&timed, at(2)), (5 * HOUR_MS, NextStep::WaitOver));
    let both = treated(4, DryNeed::Needed);
    assert_eq!(due(&both, at(2)), (5 * HOUR_MS, NextStep::Look));
    assert_eq!(due(&both, at(9)), (9 * HOUR_MS, NextStep::Look));
}

#[test]
fn a_look_by_another_clock_counts_only_when_it_surely_came_after_the_water() {
    const MINUTE_MS: i64 = 60_000;
    let mut watered = treated(1, DryNeed::Needed);
    watered.water_in = WaterIn::Asked;
    watered.watered_utc_ms = Some(3 * HOUR_MS);
    watered.keep_off.dry_utc_ms = Some(3 * HOUR_MS);
    assert_eq!(
        watered.standing(at(9)).why,
        Some(Reason::KeepOffWetAgain),
        "a look at the same moment"
    );
    watered.keep_off.dry_utc_ms = Some(3 * HOUR_MS + 8 * MINUTE_MS);
    assert!(watered.standing(at(9)).state.is_over());
    watered.keep_off.lengthen_ms = 10 * 60_000;
    assert_eq!(watered.standing(at(9)).why, Some(Reason::KeepOffWetAgain));
    watered.keep_off.dry_utc_ms = Some(3 * HOUR_MS + 11 * MINUTE_MS);
    assert!(watered.standing(at(9)).state.is_over());
}

#[test]
fn a_section_is_reached_by_all_that_are_not_known_to_lie_apart() {
    let treated = [(1_u32, "a"), (2, "b"), (3, "c")];
    let touch = |_: &u32, other: &u32| match other {
        2 => Touch::Overlap,
        _ => Touch::Apart,
    };
    let reached: Vec<_> = reaching(&1, &treated, touch).collect();
    assert_eq!(reached, [&"a", &"b"]);
}

#[test]
fn a_place_lengthens_and_an_unreadable_wait_opens() {
    let label = [Terms {
        wait: Wait::LastsMs(24 * 3_600_000),
        dry: DryNeed::NotNeeded,
    }];
    let claim = |wait: &str, until_dry| {
        place_claim(&PlaceAsks {
            wait: Some(Entered::parse(wait).unwrap()),
            until_dry,
        })
    };
    assert!(asks_longer(&label, claim("72 h", false).unwrap()));
    assert!(!asks_longer(&label, claim("1 h", false).unwrap()));
    assert!(asks_longer(&label, claim("1 h", true).unwrap()));
    assert!(claim("72 lb", false).unwrap().is_open());
    assert!(claim("0 lb", true).unwrap().is_open());
    assert_eq!(claim("0 h", false), None);
    assert_eq!(place_claim(&PlaceAsks::default()), None);
    // An empty label stays open, whatever the place says.
    let open = Terms::strictest(&[Terms::OPEN, claim("72 h", true).unwrap()]);
    assert!(open.is_open());
}

#[test]
fn the_worker_interval_is_never_a_lawns_rule_and_counts_at_a_sod_farm() {
    for hours in ["12 h", "24 h", "48 h"] {
        let interval = LabelSays::Value(Entered::parse(hours).unwrap());
        let lawn = worker_claim(SiteKind::Lawn, &interval);
        assert_eq!(lawn.claim, None);
        assert_eq!(lawn.reason, Reason::WorkerIntervalNotForLawns);
        let farm = worker_claim(SiteKind::SodFarm, &interval).claim.unwrap();
        assert_eq!(farm.dry, DryNeed::NotNeeded);
        assert!(!farm.is_open());
    }
    for unread in [LabelSays::Unfilled, LabelSays::Nothing] {
        let farm = worker_claim(SiteKind::SodFarm, &unread);
        assert_eq!(farm.claim, Some(Terms::OPEN));
        assert_eq!(worker_claim(SiteKind::Lawn, &unread).claim, None);
    }
}

fn any_terms() -> impl Strategy<Value = Terms> {
    let wait = prop_oneof![
        1 => Just(Wait::Open),
        3 => Just(Wait::NotNeeded),
        6 => (0_u64..20).prop_map(Wait::LastsMs),
    ];
    let dry = prop_oneof![
        1 => Just(DryNeed::Open),
        4 => Just(DryNeed::NotNeeded),
        4 => Just(DryNeed::Needed),
    ];
    (wait, dry).prop_map(|(wait, dry)| Terms { wait, dry })
}

fn any_treatment() -> impl Strategy<Value = Treatment> {
    let water_in = prop_oneof![
        1 => Just(WaterIn::Open),
        4 => Just(WaterIn::NotAsked),
        4 => Just(WaterIn::Asked),
    ];
    (
        proptest::collection::vec(any_terms(), 1..3),
        0_i64..20,
        proptest::option::weighted(0.9, 0_i64..40),
        proptest::option::weighted(0.7, 0_i64..60),
        prop_oneof![4 => 0_u64..10, 1 => Just(LENGTHEN_MOST_MS + 1)],
        water_in,
        proptest::option::weighted(0.6, 0_i64..50),
    )
        .prop_map(
            |(claims, started, last, dry, lengthen_ms, water_in, watered)| Treatment {
                keep_off: KeepOff {
                    claims,
                    started_utc_ms: started,
                    last_application_utc_ms: last,
                    dry_utc_ms: dry,
                    lengthen_ms,
                },
                water_in,
                watered_utc_ms: watered,
            },
        )
}

fn any_now() -> impl Strategy<Value = Now> {
    (-5_i64..90, proptest::bool::weighted(0.8)).prop_map(|(utc_ms, proven)| Now { utc_ms, proven })
}

proptest! {
    #[test]
    fn a_further_treatment_never_frees_ground_earlier(
        some in proptest::collection::vec(any_treatment(), 0..4),
        further in any_treatment(), place in 0_usize..4, now in any_now(),
    ) {
        let mut more = some.clone();
        more.insert(place.min(some.len()), further);
        prop_assert!(ground(&some, now).is_free() || !ground(&more, now).is_free());
    }

    #[test]
    fn water_or_a_stricter_field_never_ends_a_treatment_earlier(
        t in any_treatment(), watered in 0_i64..60, now in any_now(),
    ) {
        let over = |t: &Treatment| t.standing(now).state.is_over();
        // Not watering in what has to be is a fact missing, not one that ends anything.
        let dry_ground = Treatment { water_in: WaterIn::NotAsked, watered_utc_ms: None, ..t.clone() };
        prop_assert!(over(&dry_ground) || !over(&t));
        let wetter = Treatment { watered_utc_ms: Some(watered), ..dry_ground.clone() };
        prop_assert!(over(&dry_ground) || !over(&wetter));
        let open = Treatment { water_in: WaterIn::Open, ..t.clone() };
        prop_assert!(over(&t) || !over(&open));
        prop_assert!(over(&t) == t.standing(now).why.is_none());
    }

    #[test]
    fn a_places_claim_never_ends_a_keep_off_earlier(
        t in any_treatment(), hours in 0_u32..100, until_dry in any::<bool>(), now in any_now(),
    ) {
        let wait = Entered::parse(&format!("{hours} h")).ok();
        let mut more = t.clone();
        more.keep_off.claims.extend(place_claim(&PlaceAsks { wait, until_dry }));
        prop_assert!(t.standing(now).state.is_over() || !more.standing(now).state.is_over());
    }

    #[test]
    fn what_is_free_stays_free_as_time_passes(
        all in proptest::collection::vec(any_treatment(), 0..4),
        now in any_now(), later in 0_i64..50,
    ) {
        let then = Now { utc_ms: now.utc_ms + later, ..now };
        prop_assert!(!ground(&all, now).is_free() || ground(&all, then).is_free());
    }

    #[test]
    fn no_alarm_comes_after_the_moment_a_state_changes(
        all in proptest::collection::vec(any_treatment(), 1..4), now in any_now(),
    ) {
        let states = |utc_ms| -> Vec<State> {
            let now = Now { utc_ms, ..now };
            all.iter().map(|t| t.standing(now).state).collect()
        };
        let next = ground(&all, now).next;
        let until = next.map_or(now.utc_ms + 20, |n| n.at_utc_ms);
        for utc_ms in now.utc_ms..until {
            prop_assert_eq!(states(utc_ms), states(now.utc_ms), "at {}", utc_ms);
        }
    }
}
