//! One tank for several yards, spots and bait against values computed by hand.

use sward_rules::finding::{Reason, sum};
use sward_rules::label::{Label, LabelSays, Method};
use sward_rules::measure::AreaEstimate;
use sward_rules::mix::{
    Already, BaitLook, Draw, Foraging, Leftover, Serving, Site, SiteTakes, SpotJob, Stop, TankFill,
    TankMix, bait_findings, leftover_choices, serve, spots, tank_fill,
};
use sward_rules::plan::Vessel;
use sward_rules::{Entered, RuleError, Verdict};

fn e(text: &str) -> Entered {
    Entered::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn lawn(text: &str) -> AreaEstimate {
    AreaEstimate::stated(&e(text), &e("0 ft2")).expect("an area")
}

fn label(most: &str) -> Label {
    Label {
        rate_least: LabelSays::Nothing,
        rate_most: LabelSays::Value(e(most)),
        carrier_least: LabelSays::Nothing,
        ..Label::unfilled(Method::Drench)
    }
}

fn vessel(step: &str) -> Vessel {
    Vessel {
        name: "measure".into(),
        least_step: e(step),
    }
}

/// Computed by hand: one tank of 50 gal for three yards.
#[test]
fn one_tank_for_several_yards() {
    let label = label("0.6 fl oz/1000 ft2");
    let cup = vessel("1 fl oz");
    let fill = tank_fill(&TankFill {
        label: &label,
        rate: e("0.6 fl oz/1000 ft2"),
        carrier: e("2 gal/1000 ft2"),
        tank: e("50 gal"),
        mix: None,
        vessel: &cup,
    })
    .unwrap()
    .value;
    assert_eq!(fill.product.measured_out, e("15 fl oz"));
    assert_eq!(fill.covers, e("25000 ft2"));
    assert_eq!(fill.water, Some(e("49.8828125 gal")));
    assert_eq!(fill.verdict(), Verdict::Clear);

    let tank = TankMix {
        product: fill.product.measured_out,
        mix: fill.mix,
    };
    let stops = [
        Draw {
            name: "Elm".into(),
            drawn: e("20 gal"),
            area: Some(lawn("10000 ft2")),
        },
        // 12 gal on 5000 ft² are 0.72 fl oz on 1000: above the label's most.
        Draw {
            name: "Oak".into(),
            drawn: e("12 gal"),
            area: Some(lawn("5000 ft2")),
        },
        Draw {
            name: "Fir".into(),
            drawn: e("48 qt"),
            area: None,
        },
    ];
    let to_come = [Stop {
        name: "Ash".into(),
        area: lawn("4000 ft2"),
    }];
    let mut serving = Serving {
        label: &label,
        tank: &tank,
        carrier: e("2 gal/1000 ft2"),
        draws: &stops,
        to_come: &to_come,
    };
    let served = serve(&serving).unwrap().value;
    let rates: Vec<_> = served.draws.iter().map(|d| d.rate).collect();
    assert_eq!(
        rates,
        [
            Some(e("0.6 fl oz/1000 ft2")),
            Some(e("0.72 fl oz/1000 ft2")),
            None
        ]
    );
    let verdicts: Vec<_> = served.draws.iter().map(|d| sum(&d.findings)).collect();
    assert_eq!(
        verdicts,
        [Verdict::Clear, Verdict::DontTreat, Verdict::Unknown]
    );
    assert_eq!(
        (served.left, served.left_covers),
        (e("6 gal"), e("3000 ft2"))
    );
    assert_eq!(served.product_left, e("1.8 fl oz"));
    assert_eq!(
        (served.to_come, served.short),
        (Some(e("8 gal")), Some(e("2 gal")))
    );

    let too_much = [
        stops[0].clone(),
        Draw {
            name: "Yew".into(),
            drawn: e("30.1 gal"),
            area: None,
        },
    ];
    serving.draws = &too_much;
    let refused = serve(&serving).unwrap_err();
    assert!(
        matches!(&refused, RuleError::DrawnMoreThanLeft { stop, left, .. }
            if stop == "Yew" && left == "30 gal"),
        "{refused}"
    );
}

/// Computed by hand: 3 gal left of 15 fl oz in 50 gal hold 0.9 fl oz.
#[test]
fn a_leftover_goes_only_where_the_label_has_room() {
    let label = label("0.6 fl oz/1000 ft2");
    let tank = TankMix {
        product: e("15 fl oz"),
        mix: e("50 gal"),
    };
    let site = |name: &str, on_label, area: &str, already| Site {
        name: name.into(),
        on_label,
        area: lawn(area),
        already,
    };
    let sites = [
        site("strip", Some(true), "1000 ft2", Already::Nothing),
        site(
            "half",
            Some(true),
            "1000 ft2",
            Already::Rate(e("0.3 fl oz/1000 ft2")),
        ),
        site(
            "full",
            Some(true),
            "1000 ft2",
            Already::Rate(e("0.6 fl oz/1000 ft2")),
        ),
        site("guess", Some(true), "1000 ft2", Already::NotKnown),
        site("beds", Some(false), "1000 ft2", Already::Nothing),
        site("ditch", None, "1000 ft2", Already::Nothing),
        site("field", Some(true), "9000 ft2", Already::Nothing),
    ];
    let choices = leftover_choices(&Leftover {
        label: &label,
        tank: &tank,
        left: e("3 gal"),
        carrier: e("2 gal/1000 ft2"),
        sites: &sites,
    })
    .unwrap()
    .value;
    assert_eq!(choices.product, e("0.9 fl oz"));
    assert_eq!(choices.covers, e("1500 ft2"));
    let takes: Vec<_> = choices.sites.iter().map(|s| s.takes).collect();
    assert_eq!(
        takes,
        [
            Some(e("2 gal")),
            Some(e("1 gal")),
            None,
            None,
            None,
            None,
            Some(e("3 gal"))
        ]
    );
    let verdicts: Vec<_> = choices.sites.iter().map(SiteTakes::verdict).collect();
    assert_eq!(
        verdicts,
        [
            Verdict::Clear,
            Verdict::Clear,
            Verdict::DontTreat,
            Verdict::Unknown,
            Verdict::DontTreat,
            Verdict::Unknown,
            Verdict::Clear
        ]
    );
    assert_eq!(choices.sites[0].least_area, Some(e("1500 ft2")));
    assert_eq!(choices.sites[1].least_area, Some(e("3000 ft2")));
}

/// Computed by hand: mounds with tablespoons, and drenched.
#[test]
fn spots_are_held_against_the_labels_most_over_the_area() {
    let cup = vessel("0.5 tbsp");
    let job = SpotJob {
        dose: e("2 tbsp"),
        mix: None,
        spot_most: LabelSays::Value(e("1 fl oz")),
        area_most: LabelSays::Value(e("24 fl oz/acre")),
        count: 12,
        area: lawn("0.5 acre"),
        vessel: &cup,
    };
    let plan = spots(&job).unwrap().value;
    // 2 tbsp are 1 fl oz; 12 of them on half an acre are 24 fl oz an acre.
    assert_eq!(plan.product, e("24 tbsp"));
    assert_eq!(plan.spots_most, Some(12));
    assert_eq!(plan.verdict(), Verdict::Clear);
    let one_more = spots(&SpotJob {
        count: 13,
        ..job.clone()
    });
    assert_eq!(one_more.unwrap().value.verdict(), Verdict::DontTreat);
    let heavy = spots(&SpotJob {
        dose: e("2.5 tbsp"),
        ..job.clone()
    });
    assert_eq!(
        heavy.unwrap().value.findings[0].reason,
        Reason::RateAboveMost
    );

    let ounce = vessel("0.5 fl oz");
    let drench = spots(&SpotJob {
        dose: e("0.5 fl oz/gal"),
        mix: Some(e("1.5 gal")),
        spot_most: LabelSays::Unfilled,
        area_most: LabelSays::Unfilled,
        vessel: &ounce,
        ..job
    })
    .unwrap()
    .value;
    assert_eq!(drench.mix, Some(e("18 gal")));
    assert_eq!(drench.product, e("9 fl oz"));
    assert_eq!(drench.verdict(), Verdict::Unknown);
}

/// Common practice, no source.
#[test]
fn bait_wants_dry_ground_and_ants_out_for_food() {
    let look = BaitLook {
        fresh: Some(true),
        ground_dry: Some(true),
        stays_dry: Some(true),
        foraging: Some(Foraging::Ground(e("80 F"))),
        age_min: Some(10),
    };
    let verdict = |look: &BaitLook| sum(&bait_findings(look).unwrap());
    assert_eq!(verdict(&look), Verdict::Clear);
    let cold = BaitLook {
        foraging: Some(Foraging::Ground(e("55 F"))),
        ..look.clone()
    };
    assert_eq!(verdict(&cold), Verdict::Caution);
    let early = BaitLook {
        foraging: Some(Foraging::Chip {
            ants: false,
            minutes: 10,
        }),
        ..look.clone()
    };
    assert_eq!(verdict(&early), Verdict::Unknown);
    let wet = BaitLook {
        ground_dry: Some(false),
        ..look.clone()
    };
    assert_eq!(verdict(&wet), Verdict::Caution);
    let undated = BaitLook {
        age_min: None,
        ..look.clone()
    };
    assert_eq!(verdict(&undated), Verdict::Unknown);
    let absurd = BaitLook {
        foraging: Some(Foraging::Ground(e("500 F"))),
        ..look
    };
    assert!(bait_findings(&absurd).is_err());
}
