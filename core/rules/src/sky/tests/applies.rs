//! Which checks apply to which method, as a table, and that none is ever Clear without its reading.

use proptest::prelude::*;

use super::fewer::{World, any_world};
use super::*;
use crate::walk_round::{self, Question};

const METHODS: [Method; 4] = [
    Method::Granule,
    Method::FoliarSpray,
    Method::Drench,
    Method::Bait,
];

#[test]
#[rustfmt::skip]
fn each_check_of_the_sky_applies_to_these_methods() {
    let expected = [
        (Check::Wind,        [true,  true,  true,  true]),
        (Check::DownWind,    [false, true,  true,  false]),
        (Check::Rain,        [true,  true,  true,  true]),
        (Check::Temperature, [true,  true,  true,  true]),
        (Check::Inversion,   [false, true,  true,  false]),
        (Check::DryingSpeed, [false, true,  false, false]),
        (Check::Soil,        [true,  true,  true,  true]),
        (Check::Bloom,       [true,  true,  true,  true]),
    ];
    for (check, applies) in expected {
        for (method, applies) in METHODS.into_iter().zip(applies) {
            assert_eq!(which_checks(method).contains(&check), applies, "{check:?} {method:?}");
        }
    }
    for method in METHODS {
        let listed = which_checks(method);
        let known: Vec<Check> = expected.iter().map(|row| row.0).collect();
        assert!(listed.iter().all(|check| known.contains(check)));
    }
}

#[test]
#[rustfmt::skip]
fn each_question_of_the_walk_round_applies_to_these_methods() {
    let expected = [
        (Question::PeopleAndPets, [true,  true, true, true]),
        (Question::Toys,          [true,  true, true, true]),
        (Question::Bowls,         [true,  true, true, true]),
        (Question::Laundry,       [false, true, true, false]),
        (Question::Windows,       [false, true, true, false]),
        (Question::PondOrHive,    [true,  true, true, true]),
        (Question::Irrigation,    [true,  true, true, true]),
        (Question::Gates,         [true,  true, true, true]),
        (Question::Puddles,       [true,  true, true, true]),
        (Question::HardSurfaces,  [true,  true, true, true]),
        (Question::Drains,        [true,  true, true, true]),
    ];
    for (question, applies) in expected {
        for (method, applies) in METHODS.into_iter().zip(applies) {
            let asked = walk_round::questions(method).contains(&question);
            assert_eq!(asked, applies, "{question:?} {method:?}");
        }
    }
}

/// Takes away the one reading without which a check cannot be answered well.
fn without_its_reading(world: &mut World, check: Check) {
    match check {
        Check::Wind => (world.meter, world.seen) = (None, None),
        Check::DownWind => world.around = None,
        Check::Rain => world.forecast = None,
        Check::Temperature | Check::DryingSpeed => world.air = None,
        Check::Inversion => world.inversion = None,
        Check::Soil => world.soil = None,
        Check::Bloom => world.bloom = None,
        other => panic!("{other:?} is no check of the sky"),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn no_check_is_clear_without_its_reading(world in any_world()) {
        for method in METHODS {
            for check in which_checks(method) {
                let mut world = world.clone();
                world.label.method = method;
                without_its_reading(&mut world, check);
                // A label that was read and sets no temperature leaves nothing to measure.
                let silent = world.label.temperature_least == LabelSays::Nothing
                    && world.label.temperature_most == LabelSays::Nothing;
                if check == Check::Temperature && silent {
                    continue;
                }
                let found = world.outlook();
                let finding = found.iter().find(|f| f.check == check).expect("it is listed");
                prop_assert!(finding.verdict >= Verdict::Unknown, "{:?}: {:?}", method, finding);
            }
        }
    }
}
