//! Corner cases of mixes: what is not known never clears.

use super::*;
use crate::error::{Result, RuleError};
use crate::finding::{Check, Finding, Reason, Verdict, sum};
use crate::label::{Label, LabelSays, Method};
use crate::measure::AreaEstimate;
use crate::quantity::Entered;

fn e(text: &str) -> Entered {
    Entered::parse(text).unwrap()
}

fn lawn(text: &str) -> AreaEstimate {
    AreaEstimate::stated(&e(text), &e("0 ft2")).unwrap()
}

fn label() -> Label {
    let mut label = Label::unfilled(Method::Drench);
    label.rate_least = LabelSays::Nothing;
    label.rate_most = LabelSays::Value(e("0.6 fl oz/1000 ft2"));
    label.carrier_least = LabelSays::Value(e("2 gal/1000 ft2"));
    label
}

fn served(draws: &[Draw]) -> Result<Served> {
    let serving = Serving {
        label: &label(),
        tank: &TankMix {
            product: e("15 fl oz"),
            mix: e("50 gal"),
        },
        carrier: e("2 gal/1000 ft2"),
        draws,
        to_come: &[],
    };
    serve(&serving).map(|answer| answer.value)
}

fn draw(name: &str, drawn: &str, area: Option<&str>) -> Draw {
    Draw {
        name: name.into(),
        drawn: e(drawn),
        area: area.map(lawn),
    }
}

#[test]
fn two_draws_for_one_yard_are_one_dose() {
    // Each 0.6 fl oz/1000 ft² by itself.
    let twice = [
        draw("Elm", "10 gal", Some("5000 ft2")),
        draw("Oak", "2 gal", Some("1000 ft2")),
        draw(" elm ", "40 qt", Some("5000 ft2")),
    ];
    let served_twice = served(&twice).unwrap();
    let rates: Vec<_> = served_twice.draws.iter().map(|d| d.rate).collect();
    let (double, once) = (e("1.2 fl oz/1000 ft2"), e("0.6 fl oz/1000 ft2"));
    assert_eq!(rates, [Some(double), Some(once), Some(double)]);
    let verdicts: Vec<_> = served_twice
        .draws
        .iter()
        .map(|d| sum(&d.findings))
        .collect();
    let (too_much, clear) = (Verdict::DontTreat, Verdict::Clear);
    assert_eq!(verdicts, [too_much, clear, too_much]);
    // A first draw that is short of the label's water is not, with the second.
    let halves = [
        draw("Elm", "5 gal", Some("5000 ft2")),
        draw("Elm", "5 gal", Some("5000 ft2")),
    ];
    assert_eq!(served(&halves).unwrap().verdict(), Verdict::Clear);
    // What went on an area that was not told counts where it was.
    let one_untold = [
        draw("Elm", "10 gal", Some("5000 ft2")),
        draw("Elm", "10 gal", None),
    ];
    let untold = served(&one_untold).unwrap();
    assert_eq!(untold.draws[0].rate, Some(double));
    assert_eq!(untold.draws[1].rate, None);
    assert_eq!(sum(&untold.draws[1].findings), Verdict::Unknown);
}

#[test]
fn one_yard_has_one_area() {
    let two_areas = [
        draw("Elm", "10 gal", Some("5000 ft2")),
        draw("Elm", "10 gal", Some("6000 ft2")),
    ];
    assert_eq!(
        served(&two_areas).unwrap_err(),
        RuleError::SameName { name: "Elm".into() }
    );
}

#[test]
fn a_leftover_brings_the_labels_water_too() {
    let sites = |already| Site {
        name: "strip".into(),
        on_label: Some(true),
        area: lawn("1000 ft2"),
        already,
    };
    let takes = |label: &Label, site: Site, carrier: &str| {
        let tank = TankMix {
            product: e("15 fl oz"),
            mix: e("50 gal"),
        };
        let choices = leftover_choices(&Leftover {
            label,
            tank: &tank,
            left: e("3 gal"),
            carrier: e(carrier),
            sites: &[site],
        });
        choices.unwrap().value.sites.remove(0)
    };
    let planned = takes(&label(), sites(Already::Nothing), "2 gal/1000 ft2");
    assert_eq!(planned.verdict(), Verdict::Clear);
    assert_eq!(planned.takes, Some(e("2 gal")));
    // Too little water was planned.
    let dry = takes(&label(), sites(Already::Nothing), "1.5 gal/1000 ft2");
    assert_eq!((dry.verdict(), dry.takes), (Verdict::DontTreat, None));
    assert_eq!(dry.findings[0].reason, Reason::CarrierBelowLeast);
    // Room for half the rate is room for half the mix, and half of the water.
    let half = sites(Already::Rate(e("0.3 fl oz/1000 ft2")));
    let half = takes(&label(), half, "2 gal/1000 ft2");
    assert_eq!((half.verdict(), half.takes), (Verdict::DontTreat, None));
    // A least that nobody read is not known to be kept.
    let unread = Label {
        carrier_least: LabelSays::Unfilled,
        ..label()
    };
    let unread = takes(&unread, sites(Already::Nothing), "2 gal/1000 ft2");
    assert_eq!(
        (unread.verdict(), unread.takes),
        (Verdict::Unknown, Some(e("2 gal")))
    );
}

#[test]
fn where_no_step_of_a_dial_will_do_the_water_is_judged_all_the_same() {
    let dial = hose_end_dial(&DialAsked {
        label: &label(),
        rate: e("0.5 fl oz/1000 ft2"),
        carrier: e("1 gal/1000 ft2"),
        steps: &[e("1 fl oz/gal")],
    });
    let dial = dial.unwrap().value;
    assert_eq!(dial.step, None);
    let of = |check: fn(&Finding) -> bool| dial.findings.iter().any(check);
    assert!(of(|f| f.reason == Reason::NoDialStep));
    assert!(of(|f| f.reason == Reason::CarrierBelowLeast));
}

#[test]
fn what_was_seen_of_bait_too_long_ago_or_at_no_known_time_is_not_known() {
    let seen = |age_min| BaitLook {
        fresh: Some(true),
        ground_dry: Some(false),
        stays_dry: Some(true),
        foraging: Some(Foraging::Chip {
            ants: false,
            minutes: 40,
        }),
        age_min,
    };
    let found = |age_min| bait_findings(&seen(age_min)).unwrap();
    let verdicts = |all: &[Finding]| all.iter().map(|f| f.verdict).collect::<Vec<_>>();
    let lately = found(Some(60));
    let (clear, caution) = (Verdict::Clear, Verdict::Caution);
    assert_eq!(verdicts(&lately), [clear, caution, caution]);
    assert!(lately.iter().all(|f| f.age_min == Some(60)));
    for (age_min, why) in [
        (Some(61), Reason::LookedTooLongAgo { age_min: 61 }),
        (None, Reason::TimeNotProven),
    ] {
        let all = found(age_min);
        assert_eq!(verdicts(&all), [Verdict::Unknown; 3]);
        assert!(all.iter().all(|f| f.reason == why));
        // What was seen is named.
        assert!(all[1].reasons().any(|r| *r == Reason::BaitWet));
        assert_eq!(all[2].check, Check::AntsForaging);
        assert!(all[2].value.is_some());
    }
}

#[test]
fn spots_that_reach_the_labels_most_exactly_are_within_it() {
    // 2000 times a hundredth of an ounce are 1.25 lb, on half an acre 2.5 lb an acre.
    let scale = crate::plan::Vessel {
        name: "scale".into(),
        least_step: e("0.01 oz"),
    };
    let plan = spots(&SpotJob {
        dose: e("0.01 oz"),
        mix: None,
        spot_most: LabelSays::Nothing,
        area_most: LabelSays::Value(e("2.5 lb/acre")),
        count: 2000,
        area: lawn("21780 ft2"),
        vessel: &scale,
    });
    let plan = plan.unwrap().value;
    assert_eq!(plan.spots_most, Some(2000));
    assert_eq!(plan.findings[1].verdict, Verdict::Clear);
}
