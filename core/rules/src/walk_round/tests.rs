//! What the walk round makes of answers, and of their absence.

use super::*;

const NOW: Now = Now {
    utc_ms: 100 * MIN_MS,
    proven: true,
};
const METHODS: [Method; 4] = [
    Method::Granule,
    Method::FoliarSpray,
    Method::Drench,
    Method::Bait,
];

fn all(method: Method, answer: WalkAnswer) -> Vec<Answered> {
    questions(method)
        .iter()
        .map(|q| Answered {
            question: *q,
            answer,
            at_utc_ms: NOW.utc_ms,
        })
        .collect()
}

fn verdict(check: Check, findings: &[Finding]) -> Verdict {
    findings
        .iter()
        .find(|f| f.check == check)
        .expect("the check is listed")
        .verdict
}

#[test]
fn nothing_answered_is_unknown_by_name() {
    for method in METHODS {
        let found = findings(method, &[], NOW);
        assert_eq!(
            found.iter().map(|f| f.check).collect::<Vec<_>>(),
            which_checks(method)
        );
        assert!(found.iter().all(|f| f.verdict == Verdict::Unknown));
        let things = found
            .iter()
            .find(|f| f.check == Check::ThingsOffLawn)
            .unwrap();
        assert!(things.why().contains("toys") && things.why().contains("bowls"));
    }
}

#[test]
fn all_seen_to_or_not_here_is_clear() {
    for method in METHODS {
        for answer in [WalkAnswer::Moved, WalkAnswer::NotHere] {
            let found = findings(method, &all(method, answer), NOW);
            assert!(
                found.iter().all(|f| f.verdict == Verdict::Clear),
                "{found:?}"
            );
        }
    }
}

#[test]
fn leaving_one_question_out_is_never_better() {
    for method in METHODS {
        for answer in [WalkAnswer::Moved, WalkAnswer::Cant] {
            let full = all(method, answer);
            let before = findings(method, &full, NOW);
            for left_out in 0..full.len() {
                let mut fewer = full.clone();
                let check = fewer.remove(left_out).question.check();
                let after = verdict(check, &findings(method, &fewer, NOW));
                assert!(
                    after >= Verdict::Unknown,
                    "{check:?} was {:?}",
                    verdict(check, &before)
                );
            }
        }
    }
}

#[test]
fn what_cannot_be_seen_to_forbids_where_people_animals_or_water_are_reached() {
    let found = findings(
        Method::FoliarSpray,
        &all(Method::FoliarSpray, WalkAnswer::Cant),
        NOW,
    );
    for check in [
        Check::PeopleAndPets,
        Check::Drains,
        Check::PondOrHive,
        Check::Puddles,
    ] {
        assert_eq!(verdict(check, &found), Verdict::DontTreat, "{check:?}");
    }
    for check in [
        Check::WindowsShut,
        Check::IrrigationOff,
        Check::Gates,
        Check::HardSurfaces,
    ] {
        assert_eq!(verdict(check, &found), Verdict::Caution, "{check:?}");
    }
}

#[test]
fn windows_and_laundry_are_asked_where_drops_drift() {
    for (method, asked) in [
        (Method::FoliarSpray, true),
        (Method::Drench, true),
        (Method::Granule, false),
        (Method::Bait, false),
    ] {
        assert_eq!(which_checks(method).contains(&Check::WindowsShut), asked);
        assert_eq!(questions(method).contains(&Question::Laundry), asked);
    }
}

#[test]
fn an_old_early_or_undatable_answer_is_no_answer() {
    let method = Method::Granule;
    let moved = |at_min: i64| -> Vec<Answered> {
        let at_utc_ms = NOW.utc_ms - at_min * MIN_MS;
        all(method, WalkAnswer::Moved)
            .into_iter()
            .map(|a| Answered { at_utc_ms, ..a })
            .collect()
    };
    let sum = |answers: &[Answered], now| crate::finding::sum(&findings(method, answers, now));
    assert_eq!(sum(&moved(60), NOW), Verdict::Clear);
    assert_eq!(sum(&moved(61), NOW), Verdict::Unknown);
    assert_eq!(sum(&moved(-2), NOW), Verdict::Clear);
    assert_eq!(sum(&moved(-3), NOW), Verdict::Unknown);
    assert_eq!(
        sum(
            &moved(0),
            Now {
                proven: false,
                ..NOW
            }
        ),
        Verdict::Unknown
    );
}

#[test]
fn of_several_answers_the_latest_counts_and_of_two_at_once_the_worse() {
    let answer = |answer, at_utc_ms| Answered {
        question: Question::Drains,
        answer,
        at_utc_ms,
    };
    let drains =
        |answers: &[Answered]| verdict(Check::Drains, &findings(Method::Granule, answers, NOW));
    let now = NOW.utc_ms;
    let cant_then_moved = [
        answer(WalkAnswer::Cant, now - MIN_MS),
        answer(WalkAnswer::Moved, now),
    ];
    assert_eq!(drains(&cant_then_moved), Verdict::Clear);
    let at_once = [
        answer(WalkAnswer::Cant, now),
        answer(WalkAnswer::Moved, now),
    ];
    assert_eq!(drains(&at_once), Verdict::DontTreat);
    // However old, a bad answer does not turn into "not looked at".
    assert_eq!(drains(&[answer(WalkAnswer::Cant, 0)]), Verdict::DontTreat);
}

#[test]
fn an_old_caution_is_unknown() {
    let gates = Answered {
        question: Question::Gates,
        answer: WalkAnswer::Cant,
        at_utc_ms: 0,
    };
    let found = findings(Method::Granule, &[gates], NOW);
    assert_eq!(verdict(Check::Gates, &found), Verdict::Unknown);
}
