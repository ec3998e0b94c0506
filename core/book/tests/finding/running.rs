//! Running keep-offs: the quick read never misses one that keeps off, and shows no other.
//!
//! Random claims, looks, releases and doubts about the clock; at proven and unproven times.

use proptest::prelude::*;
use sward_book::book::Book;
use sward_book::env::TimeProof;
use sward_book::fact::{ClockSeen, Fact};
use sward_book::ids::{KeepOffId, VisitId};
use sward_rules::keep_off::Now;
use sward_rules::label::{KeepOffTerms, LabelSays};

use crate::scene::{HOUR_MS, Scene, amount};

#[derive(Debug, Clone)]
enum Step {
    Finish,
    Claim {
        dry: u8,
        hours: Option<u16>,
    },
    Dry,
    Release,
    LoadAfterwards,
    /// The device's clock is seen off by so many minutes.
    ClockOff(u16),
    Pass(u16),
    Proven(bool),
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        4 => Just(Step::Finish),
        3 => (0..3_u8, proptest::option::of(0..30_u16))
            .prop_map(|(dry, hours)| Step::Claim { dry, hours }),
        3 => Just(Step::Dry),
        1 => Just(Step::Release),
        1 => Just(Step::LoadAfterwards),
        1 => (0..30_u16).prop_map(Step::ClockOff),
        2 => (0..400_u16).prop_map(Step::Pass),
        1 => any::<bool>().prop_map(Step::Proven),
    ]
}

/// What cannot be done in this state is refused, which is fine here.
fn take(scene: &mut Scene, visit: VisitId, keep_off: KeepOffId, step: &Step) {
    let now_ms = sward_book::env::Env::clock(scene.env.as_ref()).utc_ms;
    let book = &mut scene.book;
    match step {
        Step::Finish => drop(book.finish(visit, &[], "")),
        Step::Claim { dry, hours } => {
            let terms = KeepOffTerms {
                until_dry: match dry {
                    0 => LabelSays::Value(false),
                    1 => LabelSays::Value(true),
                    _ => LabelSays::Unfilled,
                },
                wait: hours.map_or(LabelSays::Nothing, |h| {
                    LabelSays::Value(amount(&format!("{h} h")))
                }),
            };
            book.claim_keep_off(visit, keep_off, terms, "by the test")
                .unwrap();
        }
        Step::Dry => drop(book.looked_dry(visit, &[keep_off], now_ms)),
        Step::Release => book
            .release_keep_off(visit, keep_off, "by the test")
            .unwrap(),
        Step::LoadAfterwards => {
            book.load(visit, Vec::new(), amount("1 lb"), None, now_ms)
                .unwrap();
        }
        Step::ClockOff(minutes) => {
            let stream = book.secret().unwrap().stream();
            let seen = ClockSeen {
                stream,
                seq: 10_000,
                ahead_ms_least: Some(i64::from(*minutes) * 60_000),
                ahead_ms_most: None,
            };
            book.write(|w| {
                w.fact(Fact::ClockSeen(seen));
                Ok(())
            })
            .unwrap();
        }
        Step::Pass(minutes) => scene.env.pass_ms(u64::from(*minutes) * 60_000),
        Step::Proven(proven) => scene.env.set_vouched(proven.then_some(TimeProof::Network)),
    }
}

fn slow(book: &Book, now: Now) -> Vec<KeepOffId> {
    let mut all = book.keep_offs().unwrap();
    all.retain(|k| k.keeps_off(now));
    all.iter().map(|k| k.keep_off).collect()
}

fn quick(book: &Book, now: Now) -> Vec<KeepOffId> {
    let running = book.keep_offs_running(now).unwrap();
    running.iter().map(|k| k.keep_off).collect()
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 24,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn none_that_keeps_off_is_missed_and_no_other_is_shown(
        steps in proptest::collection::vec((0..3_usize, step()), 0..24),
        asked in proptest::collection::vec((-2_000..4_000_i64, any::<bool>()), 12),
    ) {
        let mut scene = Scene::new();
        let label = scene.label("Granule A");
        let yard = scene.yard("Corner lot", "1 Test Lane");
        let mut visits = Vec::new();
        for _ in 0..3 {
            let visit = scene.visit(yard);
            let keep_off = scene.start(visit, label);
            visits.push((visit, keep_off));
        }
        for (of, step) in &steps {
            let (visit, keep_off) = visits[*of];
            take(&mut scene, visit, keep_off, step);
        }
        let base_ms = sward_book::env::Env::clock(scene.env.as_ref()).utc_ms;
        let mut nows: Vec<Now> = asked
            .iter()
            .map(|(minutes, proven)| Now { utc_ms: base_ms + minutes * 60_000, proven: *proven })
            .collect();
        // The very ends, and the moments beside them.
        for view in scene.book.keep_offs().unwrap() {
            if let Some(at) = view.over_from_utc_ms() {
                nows.extend([-1, 0, 1].map(|d| Now { utc_ms: at.saturating_add(d), proven: true }));
            }
        }
        for utc_ms in [i64::MIN, i64::MAX] {
            nows.extend([true, false].map(|proven| Now { utc_ms, proven }));
        }
        for now in nows {
            prop_assert_eq!(quick(&scene.book, now), slow(&scene.book, now), "{:?}", now);
        }
        let (now, watched) = scene.book.keep_offs_to_watch().unwrap();
        prop_assert!(watched.iter().all(|k| k.keeps_off(now)));
        if now.proven {
            prop_assert_eq!(watched.len(), slow(&scene.book, now).len());
        }
        let faults = scene.book.verify(&mut |_, _| {}).unwrap().faults;
        prop_assert_eq!(faults, Vec::<String>::new());
    }
}

#[test]
fn an_unproven_time_brings_back_only_what_had_not_ended_at_the_last_proven_one() {
    let mut scene = Scene::new();
    let label = scene.label("Granule A");
    let yard = scene.yard("Corner lot", "1 Test Lane");
    let (ended, keep_off) = scene.treated(yard, label);
    scene.env.pass_ms(60_000);
    let now_ms = sward_book::env::Env::clock(scene.env.as_ref()).utc_ms;
    scene.book.looked_dry(ended, &[keep_off], now_ms).unwrap();
    scene.env.pass_ms(u64::try_from(5 * HOUR_MS).unwrap());
    let (_, running) = scene.treated(yard, label);
    let watched = |book: &Book| -> Vec<KeepOffId> {
        let (_, watched) = book.keep_offs_to_watch().unwrap();
        watched.iter().map(|k| k.keep_off).collect()
    };
    assert_eq!(watched(&scene.book), [running]);
    scene.env.set_vouched(None);
    scene.env.reboot();
    scene.env.pass_ms(u64::try_from(9 * HOUR_MS).unwrap());
    let now = scene.book.now().unwrap();
    assert!(!now.proven);
    assert_eq!(watched(&scene.book), [running]);
    assert_eq!(quick(&scene.book, now).len(), 2, "in doubt both keep off");
}
