//! Watering in and a season's sums against published and independently computed values.

use chrono::NaiveDate;
use sward_rules::finding::Reason;
use sward_rules::label::{Ingredient, LabelSays, WateringIn};
use sward_rules::measure::AreaEstimate;
use sward_rules::plan::Section;
use sward_rules::season::{
    Interval, LastPutOn, Lot, Others, PutOn, RepeatAsked, SeasonInput, SeasonMost, StockAsked,
    repeat, season_ingredients, stock,
};
use sward_rules::watering::{
    CanTest, RunAsked, WaterAsked, can_depth, can_test, watering_need, watering_run,
};
use sward_rules::{Entered, RuleError, Verdict};

fn e(text: &str) -> Entered {
    Entered::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

fn number(entered: &Entered) -> f64 {
    entered.amount().to_string().parse().expect("a number")
}

fn near(entered: &Entered, expected: f64, tolerance: f64) {
    let value = number(entered);
    assert!(
        (value - expected).abs() <= tolerance,
        "{} is not {expected}",
        entered.for_person()
    );
}

fn lawn(text: &str) -> AreaEstimate {
    AreaEstimate::stated(&e(text), &e("0 ft2")).expect("an area")
}

fn day(y: i32, m: u32, d: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(y, m, d).expect("a day")
}

/// Computed: 231 cubic inches to the gallon.
#[test]
fn water_by_the_labels_depth() {
    let sections = [
        Section {
            name: "front".into(),
            area: lawn("1000 ft2"),
        },
        Section {
            name: "back".into(),
            area: lawn("3000 ft2"),
        },
    ];
    for (depth, gallons) in [
        ("0.1 in", 62.338),
        ("0.25 in", 155.844),
        ("0.5 in", 311.688),
        ("1 in", 623.377),
    ] {
        let asks = LabelSays::Value(WateringIn::Required(Some(e(depth))));
        let need = watering_need(&asks, &sections).unwrap().value;
        near(&need.per_1000_ft2.unwrap(), gallons, 0.0005);
        near(&need.sections[1].water, 3.0 * gallons, 0.002);
        near(&need.total.unwrap(), 4.0 * gallons, 0.002);
    }
}

/// Whether to water in is the label's word: common practice, no source.
#[test]
fn what_the_label_does_not_say_of_watering_is_not_known() {
    let says = |says: LabelSays<WateringIn>| watering_need(&says, &[]).unwrap().value;
    let not_filled = says(LabelSays::Unfilled);
    assert_eq!(not_filled.asked, WaterAsked::NotKnown);
    assert_eq!(not_filled.finding.verdict, Verdict::Unknown);
    let no_depth = says(LabelSays::Value(WateringIn::Required(None)));
    assert_eq!(
        (no_depth.total, no_depth.finding.verdict),
        (None, Verdict::Unknown)
    );
    let held = says(LabelSays::Value(WateringIn::Withheld(Some(e("24 h")))));
    assert_eq!(held.asked, WaterAsked::KeepOff(Some(e("24 h"))));
    let held = says(LabelSays::Value(WateringIn::Withheld(None)));
    assert_eq!(held.finding.verdict, Verdict::Unknown);
    assert_eq!(says(LabelSays::Nothing).asked, WaterAsked::LabelSilent);
}

/// Computed by hand: eight cans, half an hour.
#[test]
fn cans_tell_minutes_and_evenness() {
    let depths: Vec<Entered> = [
        "0.20 in", "0.30 in", "0.25 in", "0.35 in", "0.15 in", "0.25 in", "0.30 in", "0.20 in",
    ]
    .map(e)
    .to_vec();
    let cans = can_test(&CanTest {
        depths: &depths,
        ran: e("30 min"),
    })
    .unwrap()
    .value;
    assert_eq!(cans.mean, e("0.25 in"));
    assert_eq!(cans.driest_quarter, e("0.175 in"));
    assert!((cans.uniformity_percent - 70.0).abs() < 1e-9);
    let mut asked = RunAsked {
        depth: e("0.5 in"),
        cans: &cans,
        run_off_after: None,
        soak: None,
    };
    let run = watering_run(&asked).unwrap().value;
    // 0.5 at 0.25 in the half hour; the driest quarter needs 85.7 minutes.
    assert_eq!(
        (run.minutes_by_mean, run.minutes_by_driest_quarter),
        (60, Some(86))
    );
    assert_eq!((run.runs, run.in_all_min), (1, Some(60)));
    asked.run_off_after = Some(e("20 min"));
    let run = watering_run(&asked).unwrap().value;
    // Runs of at most 19 minutes: four of 15; how long in all is not known without a time to soak.
    assert_eq!((run.runs, run.minutes_each, run.in_all_min), (4, 15, None));
    asked.soak = Some(e("0.5 h"));
    let run = watering_run(&asked).unwrap().value;
    assert_eq!((run.soak_min, run.in_all_min), (Some(30), Some(150)));

    let dry = can_test(&CanTest {
        depths: &[e("0 in"), e("0 in"), e("0 in"), e("0 in")],
        ran: e("30 min"),
    });
    assert_eq!(dry.unwrap_err(), RuleError::CansEmpty);
    // Computed: 1 L on 1 m² is 1 mm; a can of 112.8379 mm across has 0.01 m².
    let depth = can_depth(&e("100 mL"), &e("112.837917 mm")).unwrap().value;
    near(&depth, 10.0, 1e-6);
}

/// Computed: a granule of 0.2 % at 2.5 lb on 1000 ft² puts 0.2178 lb of ingredient on an acre.
#[test]
fn ingredients_add_up_over_a_season() {
    let treatment = PutOn {
        ingredients: vec![Ingredient {
            name: "bifenthrin".into(),
            content: e("0.2 %"),
        }],
        product: Some(e("30.8625 lb")),
        area: lawn("12345 ft2"),
    };
    let most = [SeasonMost {
        name: "Bifenthrin".into(),
        most: LabelSays::Value(e("0.4 lb/acre")),
    }];
    let mut input = SeasonInput {
        before: std::slice::from_ref(&treatment),
        planned: None,
        most: &most,
        others: Others::SaidNone,
    };
    let one = |input: &SeasonInput<'_>| season_ingredients(input).unwrap().value.remove(0);
    let first = one(&input);
    assert_eq!(first.so_far, e("0.2178 lb/acre"));
    assert_eq!(first.room, Some(e("0.1822 lb/acre")));
    assert_eq!(first.finding.verdict, Verdict::Clear);
    input.others = Others::NotKnown;
    let others = one(&input).finding;
    assert_eq!(others.verdict, Verdict::Unknown);
    assert!(others.reasons().any(|r| *r == Reason::OthersNotKnown));
    input.planned = Some(&treatment);
    let second = one(&input);
    assert_eq!(second.with_planned, Some(e("0.4356 lb/acre")));
    assert_eq!(second.finding.verdict, Verdict::DontTreat);
    assert!(
        second
            .finding
            .reasons()
            .any(|r| *r == Reason::OthersNotKnown)
    );
    // A volume of a product whose content is a share by weight: not known, and named.
    let liquid = PutOn {
        product: Some(e("10 fl oz")),
        ..treatment.clone()
    };
    input.planned = Some(&liquid);
    input.others = Others::SaidNone;
    let part = one(&input);
    assert_eq!(
        (part.not_known, part.finding.verdict),
        (1, Verdict::Unknown)
    );
    let nothing_listed = PutOn {
        ingredients: vec![],
        ..treatment.clone()
    };
    input.planned = Some(&nothing_listed);
    assert_eq!(one(&input).finding.verdict, Verdict::Unknown);
}

/// Computed with a calendar; clocks change on 2026-03-08 and 2026-11-01 in the United States.
#[test]
fn the_earliest_repeat_is_a_day_of_the_calendar() {
    for (interval, from, to) in [
        ("30 days", day(2026, 2, 20), day(2026, 3, 22)),
        ("6 weeks", day(2026, 9, 25), day(2026, 11, 6)),
        ("1 month", day(2026, 1, 31), day(2026, 3, 1)),
        ("1 month", day(2028, 1, 29), day(2028, 2, 29)),
        ("2 months", day(2026, 12, 31), day(2027, 3, 1)),
        ("12 months", day(2028, 2, 29), day(2029, 3, 1)),
        ("25 h", day(2026, 3, 7), day(2026, 3, 9)),
    ] {
        let interval = Interval::parse(interval).unwrap();
        assert_eq!(interval.after(from), Ok(to), "{}", interval.for_person());
    }
    for text in [
        "",
        "30",
        "soon",
        "0 days",
        "-3 days",
        "1.5 months",
        "1001 months",
        "30 lb",
    ] {
        assert!(Interval::parse(text).is_err(), "{text}");
    }

    let mut asked = RepeatAsked {
        shortest: LabelSays::Value(Interval::parse("30 days").unwrap()),
        season_most: LabelSays::Value(2),
        season_from: day(2026, 1, 1),
        before: LastPutOn::Days(vec![day(2026, 5, 1), day(2025, 9, 1)]),
        others: Others::SaidNone,
        planned: day(2026, 5, 31),
    };
    let next = repeat(&asked).unwrap().value;
    assert_eq!(
        (next.earliest, next.this_season),
        (Some(day(2026, 5, 31)), Some(1))
    );
    assert_eq!(next.verdict(), Verdict::Clear);
    asked.others = Others::NotKnown;
    assert_eq!(repeat(&asked).unwrap().value.verdict(), Verdict::Unknown);
    asked.others = Others::SaidNone;
    asked.planned = day(2026, 5, 30);
    assert_eq!(repeat(&asked).unwrap().value.verdict(), Verdict::DontTreat);
    asked.planned = day(2026, 8, 1);
    asked.before = LastPutOn::Days(vec![day(2026, 5, 1), day(2026, 6, 15)]);
    let reached = repeat(&asked).unwrap().value;
    assert_eq!(reached.findings[1].reason, Reason::SeasonCountReached);
    asked.before = LastPutOn::NotKnown;
    assert_eq!(repeat(&asked).unwrap().value.verdict(), Verdict::Unknown);
    asked.before = LastPutOn::Days(vec![day(2026, 8, 2)]);
    assert!(repeat(&asked).is_err());
}

/// Computed by hand.
#[test]
fn stock_is_taken_oldest_first_and_never_past_its_day() {
    let lot = |name: &str, on_hand: Option<&str>, opened, bought, expires| Lot {
        name: name.into(),
        on_hand: on_hand.map(e),
        bought,
        opened,
        expires,
    };
    let spring = Some(day(2026, 3, 1));
    let lots = [
        lot("new", Some("20 lb"), None, spring, LabelSays::Nothing),
        lot(
            "old",
            Some("10 lb"),
            None,
            Some(day(2025, 3, 1)),
            LabelSays::Nothing,
        ),
        lot("open", Some("64 oz"), spring, spring, LabelSays::Nothing),
        lot(
            "past",
            Some("50 lb"),
            spring,
            spring,
            LabelSays::Value(day(2026, 5, 31)),
        ),
        lot("guess", None, None, None, LabelSays::Nothing),
    ];
    let mut asked = StockAsked {
        lots: &lots,
        needed: e("15 lb"),
        day: day(2026, 6, 1),
    };
    let plan = stock(&asked).unwrap().value;
    let uses: Vec<_> = plan.lots.iter().map(|l| (&*l.name, l.take)).collect();
    assert_eq!(
        uses,
        [("open", e("4 lb")), ("old", e("10 lb")), ("new", e("1 lb"))]
    );
    assert_eq!((plan.on_hand, plan.short), (e("34 lb"), None));
    assert_eq!(
        plan.verdict(),
        Verdict::Caution,
        "a lot past its day is named"
    );
    asked.needed = e("40 lb");
    let short = stock(&asked).unwrap().value;
    assert_eq!(short.short, Some(e("6 lb")));
    assert_eq!(short.verdict(), Verdict::Unknown, "nobody measured one lot");
    asked.needed = e("3 fl oz");
    assert!(stock(&asked).is_err());
}
