//! The signs of an inversion beside the hours of sunset and sunrise.

use super::*;

/// New York. At [`NOW`], 08:00 UTC on 15 January 2027, it is night there.
fn place() -> Place {
    Place::new(40.7128, -74.006).unwrap()
}

/// 16:00 UTC: late morning in New York.
const DAY: Now = Now {
    utc_ms: NOW.utc_ms + 8 * HOUR_MS,
    proven: true,
};

fn seen(now: Now, place: Option<Place>, signs: &[InversionSign]) -> Finding {
    let (label, advice) = (label(Method::FoliarSpray), SkyAdvice::default());
    let look = InversionLook {
        at_utc_ms: now.utc_ms,
        signs: signs.to_vec(),
    };
    let inputs = SkyInputs {
        place,
        inversion: Some(&look),
        ..SkyInputs::new(&label, now, &advice)
    };
    find(Check::Inversion, &inputs)
}

#[test]
fn signs_weigh_more_in_the_hours_and_less_outside_them() {
    use InversionSign::{ClearSkyLowSun, Dew, Fog, HangingSmoke, StillAir};
    type Row<'a> = (&'a [InversionSign], Verdict, Verdict, Verdict);
    let rows: [Row<'_>; 8] = [
        // Signs; by night, by day, where nobody knows.
        (&[], Verdict::Caution, Verdict::Clear, Verdict::Caution),
        (&[Dew], Verdict::Caution, Verdict::Caution, Verdict::Caution),
        (
            &[StillAir],
            Verdict::Caution,
            Verdict::Caution,
            Verdict::Caution,
        ),
        (
            &[ClearSkyLowSun],
            Verdict::Caution,
            Verdict::Caution,
            Verdict::Caution,
        ),
        (
            &[StillAir, Dew],
            Verdict::DontTreat,
            Verdict::Caution,
            Verdict::Unknown,
        ),
        (
            &[StillAir, ClearSkyLowSun],
            Verdict::DontTreat,
            Verdict::Caution,
            Verdict::DontTreat,
        ),
        (
            &[HangingSmoke],
            Verdict::DontTreat,
            Verdict::DontTreat,
            Verdict::DontTreat,
        ),
        (
            &[Fog, Dew],
            Verdict::DontTreat,
            Verdict::DontTreat,
            Verdict::DontTreat,
        ),
    ];
    for (signs, night, day, nobody) in rows {
        assert_eq!(seen(NOW, Some(place()), signs).verdict, night, "{signs:?}");
        assert_eq!(seen(DAY, Some(place()), signs).verdict, day, "{signs:?}");
        assert_eq!(seen(DAY, None, signs).verdict, nobody, "{signs:?}");
    }
}

#[test]
fn hours_alone_neither_clear_nor_forbid() {
    let (label, advice) = (label(Method::FoliarSpray), SkyAdvice::default());
    for (now, word) in [(NOW, Some("before sunset")), (DAY, None)] {
        let inputs = SkyInputs {
            place: Some(place()),
            ..SkyInputs::new(&label, now, &advice)
        };
        let finding = find(Check::Inversion, &inputs);
        assert_eq!(finding.verdict, Verdict::Unknown);
        assert_eq!(finding.why().contains("before sunset"), word.is_some());
    }
}

#[test]
fn without_a_proven_time_no_hour_helps() {
    let now = Now {
        proven: false,
        ..DAY
    };
    assert_eq!(seen(now, Some(place()), &[]).verdict, Verdict::Unknown);
    let finding = seen(NOW, None, &[]);
    assert!(finding.why().contains("latitude"), "{}", finding.why());
}

#[test]
fn a_job_that_runs_into_the_evening_counts_as_evening() {
    let (label, advice) = (label(Method::FoliarSpray), SkyAdvice::default());
    // Sunset is at 16:51 in New York, 21:51 UTC: the hours begin at 19:51.
    let at = |hour: i64, job_min: u32| {
        let now = Now {
            utc_ms: NOW.utc_ms + (hour - 8) * HOUR_MS,
            proven: true,
        };
        let look = InversionLook {
            at_utc_ms: now.utc_ms,
            signs: Vec::new(),
        };
        let inputs = SkyInputs {
            place: Some(place()),
            inversion: Some(&look),
            job_min,
            ..SkyInputs::new(&label, now, &advice)
        };
        verdict(Check::Inversion, &inputs)
    };
    assert_eq!(at(18, 60), Verdict::Clear);
    assert_eq!(at(18, 180), Verdict::Caution);
    assert_eq!(at(20, 1), Verdict::Caution);
    assert_eq!(at(12, 60), Verdict::Caution);
    assert_eq!(at(14, 60), Verdict::Clear);
}

#[test]
fn the_hours_of_a_day_run_from_evening_to_morning() {
    let advice = SkyAdvice::default();
    let span = (NOW.utc_ms + 4 * HOUR_MS, NOW.utc_ms + 28 * HOUR_MS);
    let hours = inversion_hours(place(), span, &advice).unwrap().value;
    assert_eq!(hours.len(), 2, "{hours:?}");
    for night in &hours {
        let (from, to) = (night.from_utc_ms.unwrap(), night.to_utc_ms.unwrap());
        // Sunset 16:51, sunrise 07:18: 14 h 27 min, two hours before and one after.
        let length_min = (to - from) / MIN_MS;
        assert!((1_040..1_055).contains(&length_min), "{length_min}");
    }
    let north = Place::new(78.2, 15.6).unwrap();
    let polar = inversion_hours(north, span, &advice).unwrap().value;
    assert_eq!(polar.len(), 1);
    assert_eq!((polar[0].from_utc_ms, polar[0].to_utc_ms), (None, None));
    let summer = span.0 + 160 * 24 * HOUR_MS;
    let midsummer = inversion_hours(north, (summer, summer + 24 * HOUR_MS), &advice);
    assert!(midsummer.unwrap().value.is_empty());
    for (from, to) in [(1, 0), (i64::MIN, 0), (0, i64::MAX), (0, 16 * 24 * HOUR_MS)] {
        assert!(inversion_hours(place(), (from, to), &advice).is_err());
    }
}

#[test]
fn the_listed_hours_and_the_single_answer_agree() {
    let advice = SkyAdvice::default();
    let span = (NOW.utc_ms, NOW.utc_ms + 3 * 24 * HOUR_MS);
    for lat in [-55.0, 0.0, 40.0, 66.0] {
        let place = Place::new(lat, -93.0).unwrap();
        let hours = inversion_hours(place, span, &advice).unwrap().value;
        for at in (span.0..span.1).step_by(usize::try_from(37 * MIN_MS).unwrap()) {
            let listed = hours.iter().any(|h| {
                h.from_utc_ms.is_none_or(|f| f <= at) && h.to_utc_ms.is_none_or(|t| at <= t)
            });
            let single = sun::in_inversion_hours(place, (at, at), &advice);
            assert_eq!(single, Some(listed), "{lat} {at}");
        }
    }
}

#[test]
fn a_treatment_is_in_the_hours_when_any_of_it_is() {
    let advice = SkyAdvice::default();
    let year = (NOW.utc_ms, NOW.utc_ms + 365 * 24 * HOUR_MS);
    // On and beyond the polar circle the sun also grazes the horizon.
    for lat in [-55.0, 0.0, 40.0, 64.0, 65.7, 66.6, 70.0] {
        let place = Place::new(lat, -93.0).unwrap();
        for minutes in [1, 45, 300, 1500] {
            let job_ms = minutes * MIN_MS;
            for at in (year.0..year.1).step_by(usize::try_from(2_713 * MIN_MS).unwrap()) {
                let job = (at, at + job_ms);
                let hours = inversion_hours(place, job, &advice).unwrap().value;
                let listed = hours.iter().any(|h| {
                    h.from_utc_ms.is_none_or(|f| f <= job.1)
                        && h.to_utc_ms.is_none_or(|t| job.0 <= t)
                });
                let single = sun::in_inversion_hours(place, job, &advice);
                assert_eq!(single, Some(listed), "{lat} {at} {minutes}");
            }
        }
    }
}

#[test]
fn the_next_window_for_a_spray_leaves_the_night_out() {
    let (mut spray, advice) = (label(Method::FoliarSpray), SkyAdvice::default());
    spray.rain_free = LabelSays::Value(entered("0 h"));
    let forecast = fair();
    let opens = |label: &Label, place| {
        let inputs = SkyInputs {
            place,
            forecast: Some(&forecast),
            ..SkyInputs::new(label, NOW, &advice)
        };
        match next_window(&inputs) {
            NextWindow::MayOpen {
                from_utc_ms,
                reasons,
                ..
            } => (
                (from_utc_ms - NOW.utc_ms) / HOUR_MS,
                crate::finding::in_english(&reasons),
            ),
            NextWindow::NotSeen { reasons } => panic!("{}", crate::finding::in_english(&reasons)),
        }
    };
    // The sun rises at 12:18 UTC, five hours from now; the first full hour that is over an hour
    // later is 14:00.
    let (hours, why) = opens(&spray, Some(place()));
    assert_eq!(hours, 6, "{why}");
    assert!(why.contains("after sunrise"), "{why}");
    let (hours, why) = opens(&spray, None);
    assert_eq!(hours, 0);
    assert!(why.contains("not left out"), "{why}");
    // Who starts at the end of the window is done before the evening's hours.
    let inputs = SkyInputs {
        place: Some(place()),
        forecast: Some(&forecast),
        ..SkyInputs::new(&spray, NOW, &advice)
    };
    let NextWindow::MayOpen { to_utc_ms, .. } = next_window(&inputs) else {
        panic!("it opened before");
    };
    let evening = (to_utc_ms, to_utc_ms + 12 * HOUR_MS);
    let nights = inversion_hours(place(), evening, &advice).unwrap().value;
    let begins = nights[0].from_utc_ms.unwrap();
    assert!(to_utc_ms + i64::from(inputs.job_min) * MIN_MS < begins);
    assert!(begins - to_utc_ms < 2 * HOUR_MS + i64::from(inputs.job_min) * MIN_MS);
    // Granules do not drift by night.
    let mut granule = spray.clone();
    granule.method = Method::Granule;
    let (hours, why) = opens(&granule, Some(place()));
    assert_eq!(hours, 0);
    assert!(
        !why.contains("sunrise") && !why.contains("left out"),
        "{why}"
    );
    // Polar night: no hour will do.
    let inputs = SkyInputs {
        place: Some(Place::new(78.2, 15.6).unwrap()),
        forecast: Some(&forecast),
        ..SkyInputs::new(&spray, NOW, &advice)
    };
    let NextWindow::NotSeen { reasons } = next_window(&inputs) else {
        panic!("the sun never rises");
    };
    assert!(
        matches!(reasons[0], Reason::NoHourByTheSun { .. }),
        "{reasons:?}"
    );
}
