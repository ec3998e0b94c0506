//! What lies down wind.

use proptest::prelude::*;

use super::*;

fn thing(what: Around, lies: Option<(u16, u16)>) -> Nearby {
    Nearby {
        what,
        name: String::new(),
        lies: lies.map(|(from, to)| Sector::new(from, to).unwrap()),
    }
}

fn found(around: Option<&[Nearby]>, series: &[MeterReading]) -> Finding {
    let (label, advice) = (label(Method::FoliarSpray), SkyAdvice::default());
    let inputs = SkyInputs {
        around,
        yard_wind: Some(YardWind::Meter(series)),
        ..SkyInputs::new(&label, NOW, &advice)
    };
    find(Check::DownWind, &inputs)
}

// Worked by hand: a wind from 270 (west) blows to 90, and reaches from 45 to 135.
#[test]
fn within_half_a_right_angle_counts_as_down_wind() {
    for (from, to, expected) in [
        (90, 90, true),
        (45, 45, true),
        (44, 44, false),
        (135, 135, true),
        (136, 136, false),
        (270, 270, false),
        // A long wall, of which only the end is reached.
        (0, 50, true),
        // One that goes the other way round, over north.
        (130, 20, true),
        (200, 40, false),
        // All round, and a wall that holds the whole cone.
        (0, 360, true),
        (300, 200, true),
    ] {
        let sector = Sector::new(from, to).unwrap();
        assert_eq!(sector.is_down_wind(270), expected, "{from} to {to}");
    }
    assert!(Sector::at(10).unwrap().is_down_wind(200));
    assert!(Sector::at(350).unwrap().is_down_wind(200));
    assert!(Sector::at(361).is_err() && Sector::new(0, 400).is_err());
}

#[test]
fn the_finding_names_what_the_wind_may_reach() {
    let fine = readings(&[("5 mph", "6 mph"); 3]);
    let hive = thing(Around::Hive, Some((140, 140)));
    let play = Nearby {
        name: "number 14".into(),
        ..thing(Around::PlayArea, Some((10, 30)))
    };
    // The readings have the wind from 320: it blows to 140.
    let finding = found(Some(&[hive.clone(), play.clone()]), &fine);
    assert_eq!(finding.verdict, Verdict::Caution);
    assert_eq!(finding.why(), "down wind: bee hive");
    let finding = found(Some(std::slice::from_ref(&play)), &fine);
    assert_eq!(finding.verdict, Verdict::Clear, "{}", finding.why());
    // Its place was not noted.
    let anywhere = thing(Around::Windows, None);
    let finding = found(Some(&[hive.clone(), anywhere]), &fine);
    assert_eq!(finding.verdict, Verdict::Unknown);
    assert!(
        finding.why().contains("may lie down wind: windows"),
        "{}",
        finding.why()
    );
    assert!(
        finding.why().contains("down wind: bee hive"),
        "{}",
        finding.why()
    );
}

#[test]
fn without_a_direction_all_of_it_may_be_reached() {
    let around = [
        thing(Around::Hive, Some((140, 140))),
        Nearby {
            name: "number 14".into(),
            ..thing(Around::PlayArea, Some((10, 30)))
        },
    ];
    let mut series = readings(&[("5 mph", "6 mph"); 3]);
    for reading in &mut series {
        reading.from_degrees = None;
    }
    let calm = readings(&[("1 mph", "1 mph"); 3]);
    for series in [&series, &calm, &Vec::new()] {
        let finding = found(Some(&around), series);
        assert_eq!(finding.verdict, Verdict::Unknown);
        assert!(
            finding.why().contains("may lie down wind: bee hive"),
            "{}",
            finding.why()
        );
        assert!(
            finding.why().contains("play area (number 14)"),
            "{}",
            finding.why()
        );
    }
    // One direction noted among the readings is enough.
    series[1].from_degrees = Some(320);
    assert_eq!(found(Some(&around), &series).verdict, Verdict::Caution);
    // A swinging wind reaches what any of its directions does.
    series[2].from_degrees = Some(200);
    assert!(found(Some(&around), &series).why().contains("play area"));
}

#[test]
fn what_a_series_lacks_is_not_known_of_its_direction_either() {
    let play = [thing(Around::PlayArea, Some((10, 30)))];
    let hive = [thing(Around::Hive, Some((140, 140)))];
    let two = readings(&[("5 mph", "6 mph"); 2]);
    let aside = found(Some(&play), &two);
    assert_eq!(aside.verdict, Verdict::Unknown);
    assert!(matches!(
        aside.reason,
        Reason::TooFewWindReadings { count: 2, .. }
    ));
    let reached = found(Some(&hive), &two);
    assert_eq!(reached.verdict, Verdict::Unknown);
    assert!(reached.why().contains("down wind: bee hive"));
}

#[test]
fn a_direction_is_as_old_as_the_reading_it_was_noted_with() {
    let play = [thing(Around::PlayArea, Some((10, 30)))];
    let mut series = readings(&[("5 mph", "6 mph"); 5]);
    for reading in &mut series[1..] {
        reading.from_degrees = None;
    }
    let finding = found(Some(&play), &series);
    assert_eq!(
        (finding.verdict, finding.age_min),
        (Verdict::Clear, Some(4))
    );
}

#[test]
fn nothing_marked_is_not_known_to_be_nothing_there() {
    let hive = [thing(Around::Hive, Some((140, 140)))];
    let verdict = |around: &[Nearby], from: &[u16]| down_wind(around, from).unwrap().verdict();
    assert_eq!(verdict(&hive, &[320]), Verdict::Caution);
    assert_eq!(verdict(&hive, &[140]), Verdict::Clear);
    assert_eq!(verdict(&hive, &[]), Verdict::Unknown);
    assert_eq!(verdict(&[], &[320]), Verdict::Unknown);
}

#[test]
fn nothing_noted_and_nothing_marked_are_two_things() {
    let fine = readings(&[("5 mph", "6 mph"); 3]);
    assert_eq!(found(None, &fine).verdict, Verdict::Unknown);
    let finding = found(Some(&[]), &fine);
    assert_eq!(finding.verdict, Verdict::Unknown);
    assert!(
        finding.why().contains("nothing is marked"),
        "{}",
        finding.why()
    );
    let many = vec![thing(Around::Hive, Some((0, 0))); 201];
    assert!(down_wind(&many, &[0]).is_err());
    assert!(down_wind(&many[..1], &[361]).is_err());
    assert_eq!(found(Some(&many), &fine).verdict, Verdict::Unknown);
}

proptest! {
    #[test]
    fn a_full_turn_changes_nothing_and_no_wind_misses_all_sides(
        from in 0_u16..360, to in 0_u16..360, wind in 0_u16..360, turn in 0_u16..360,
    ) {
        let sector = Sector::new(from, to).unwrap();
        let turned = Sector::new((from + turn) % 360, (to + turn) % 360).unwrap();
        prop_assert_eq!(sector.is_down_wind(wind), turned.is_down_wind((wind + turn) % 360));
        let sides = [0, 90, 180, 270].map(|side| sector.is_down_wind((wind + side) % 360));
        prop_assert!(sides.contains(&true));
    }

    #[test]
    fn a_wider_sector_is_never_reached_less(
        from in 0_u16..180, wide in 0_u16..170, more in 0_u16..10, wind in 0_u16..=360,
    ) {
        let narrow = Sector::new(from, from + wide).unwrap();
        let wider = Sector::new(from, from + wide + more).unwrap();
        prop_assert!(!narrow.is_down_wind(wind) || wider.is_down_wind(wind));
    }
}
