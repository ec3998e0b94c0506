//! A full plan and the whole readiness check (weather outlook and walk-round, summed to one word),
//! beside geographiclib-rs's polygon area of the same lawn's walk, in one run.
//!
//! Goal: plan and readiness together within 50 us.

#![allow(clippy::print_stdout, reason = "a bench is read on the terminal")]

use std::hint::black_box;
use std::time::Instant;

use geographiclib_rs::{Geodesic, PolygonArea, Winding};
use sward_rules::finding::sum;
use sward_rules::keep_off::Now;
use sward_rules::label::{Ingredient, KeepOffTerms, Label, LabelSays, Method};
use sward_rules::measure::{AreaEstimate, Fix, Outline, Shape, walk_from_gpx};
use sward_rules::plan::{AreaBasis, Passes, PlanInput, Section, Vessel, plan};
use sward_rules::sky::{
    AirReading, Bloom, BloomLook, Forecast, InversionLook, MeterReading, Place, SkyAdvice,
    SkyInputs, Soil, SoilLook, YardWind, outlook,
};
use sward_rules::walk_round::{self, Answered, WalkAnswer};
use sward_rules::{Entered, Verdict};
use sward_tests::measure::{cpu_ns, median, ratio};

const RUNS: usize = 25;
/// Calls a run: a single one is shorter than what the clock can tell.
const CALLS: u32 = 2_000;
const GOAL_NS: u64 = 50_000;

const WALK: &[u8] = include_bytes!("../../fixtures/demo/front-lawn.gpx");
const FORECAST: &[u8] = include_bytes!("../../fixtures/demo/forecast.json");

fn main() {
    let walk = walk_from_gpx(WALK).expect("the walk can be read").fixes;
    let lawn = Outline {
        shape: Shape::Walk {
            fixes: walk.clone(),
        },
        left_out: Vec::new(),
    };
    let sections = sections(lawn.area().expect("the walk goes round a lawn").value);
    let (label, vessel) = (label(), vessel());
    let input = plan_input(&sections, &label, &vessel);
    let forecast = Forecast::parse(FORECAST).expect("the forecast can be read");
    let day = Day::new(&forecast);
    let advice = SkyAdvice::default();
    let sky = day.inputs(&label, &forecast, &advice);

    let ready = || {
        let mut findings = outlook(&sky);
        findings.extend(walk_round::findings(label.method, &day.answers, day.now));
        findings
    };
    // What is measured is a whole plan and a readiness check in which everything is known.
    assert!(plan(&input).expect("it can be planned").loads.value.len() > 1);
    let unknown: Vec<_> = ready()
        .into_iter()
        .filter(|f| f.verdict == Verdict::Unknown)
        .collect();
    assert!(unknown.is_empty(), "{unknown:?}");

    let earth = Geodesic::wgs84();
    let mut times: [Vec<u64>; 4] = Default::default();
    // By turns, so that what disturbs one disturbs all.
    for _ in 0..RUNS {
        times[0].push(each_ns(|| plan(black_box(&input)).expect("as before")));
        times[1].push(each_ns(|| sum(&ready())));
        times[2].push(each_ns(|| {
            let planned = plan(black_box(&input)).expect("as before").verdict();
            planned.max(sum(&ready()))
        }));
        times[3].push(each_ns(|| polygon(&earth, black_box(&walk))));
    }
    let [plan_ns, ready_ns, both_ns, peer_ns] = times.map(median);
    println!(
        "a plan of {} sections and a readiness check of {} findings, processor time, medians of {RUNS} × {CALLS}",
        sections.len(),
        ready().len()
    );
    println!("  plan               {:.1} us", us(plan_ns));
    println!("  readiness          {:.1} us", us(ready_ns));
    println!(
        "  both               {:.1} us (goal: at most {:.0}), {}",
        us(both_ns),
        us(GOAL_NS),
        if both_ns <= GOAL_NS { "met" } else { "missed" }
    );
    println!(
        "  polygon area       {:.1} us, geographiclib-rs, the walk's {} fixes",
        us(peer_ns),
        walk.len()
    );
    println!("  ratio              {}", ratio(both_ns, peer_ns));
}

fn us(ns: u64) -> f64 {
    ns as f64 / 1000.0
}

fn each_ns<T>(mut call: impl FnMut() -> T) -> u64 {
    let since = Instant::now();
    let start = cpu_ns(since);
    for _ in 0..CALLS {
        black_box(call());
    }
    (cpu_ns(since) - start) / u64::from(CALLS)
}

fn polygon(earth: &Geodesic, fixes: &[Fix]) -> f64 {
    let mut polygon = PolygonArea::new(earth, Winding::CounterClockwise);
    for fix in fixes {
        polygon.add_point(fix.lat(), fix.lon());
    }
    polygon.compute(true).1
}

fn e(text: &str) -> Entered {
    Entered::parse(text).expect("an amount")
}

/// The walked lawn and two that were taped.
fn sections(walked: AreaEstimate) -> Vec<Section> {
    let taped = |name: &str, area: &str| Section {
        name: name.into(),
        area: AreaEstimate::stated(&e(area), &e("20 ft2")).expect("an area"),
    };
    vec![
        Section {
            name: "front".into(),
            area: walked,
        },
        taped("back", "4200 ft2"),
        taped("strip", "380 ft2"),
    ]
}

fn label() -> Label {
    Label {
        product: "Example".into(),
        registration: "000-0".into(),
        method: Method::FoliarSpray,
        ingredients: vec![Ingredient {
            name: "bifenthrin".into(),
            content: e("7.9 %"),
        }],
        rate_least: LabelSays::Value(e("0.5 fl oz/1000 ft2")),
        rate_most: LabelSays::Value(e("1 fl oz/1000 ft2")),
        carrier_least: LabelSays::Value(e("1 gal/1000 ft2")),
        wind_most: LabelSays::Value(e("10 mph")),
        rain_free: LabelSays::Value(e("6 h")),
        temperature_least: LabelSays::Value(e("50 F")),
        temperature_most: LabelSays::Value(e("90 F")),
        keep_off: KeepOffTerms::default(),
        watering_in: LabelSays::Nothing,
        repeat_after: LabelSays::Nothing,
    }
}

fn vessel() -> Vessel {
    Vessel {
        name: "jug".into(),
        least_step: e("0.1 fl oz"),
    }
}

fn plan_input<'a>(sections: &'a [Section], label: &'a Label, vessel: &'a Vessel) -> PlanInput<'a> {
    PlanInput {
        sections,
        label,
        rate: e("0.8 fl oz/1000 ft2"),
        carrier: Some(e("2 gal/1000 ft2")),
        capacity: e("4 gal"),
        vessel,
        passes: Passes::TwoAtRightAngles,
        swath: Some(e("4 ft")),
        basis: AreaBasis::Best,
    }
}

/// A morning on which everything was read and looked at.
struct Day {
    now: Now,
    wind: Vec<MeterReading>,
    air: AirReading,
    inversion: InversionLook,
    soil: SoilLook,
    bloom: BloomLook,
    answers: Vec<Answered>,
}

impl Day {
    fn new(forecast: &Forecast) -> Self {
        let utc_ms = forecast.updated_utc_ms + 2 * 3_600_000;
        let at_utc_ms = utc_ms - 120_000;
        let reading = |number: i64| MeterReading {
            at_utc_ms: at_utc_ms - number * 30_000,
            wind: e("5 mph"),
            gust: Some(e("7 mph")),
            from_degrees: Some(225),
            height: None,
        };
        let answer = |question| Answered {
            question,
            answer: WalkAnswer::Moved,
            at_utc_ms,
        };
        let questions = walk_round::questions(Method::FoliarSpray);
        Self {
            now: Now {
                utc_ms,
                proven: true,
            },
            wind: (0..5).map(reading).collect(),
            air: AirReading {
                at_utc_ms,
                temperature: e("70 F"),
                humidity_percent: Some(55),
            },
            inversion: InversionLook {
                at_utc_ms,
                signs: Vec::new(),
            },
            soil: SoilLook {
                at_utc_ms,
                soil: Soil::Fit,
                temperature: None,
            },
            bloom: BloomLook {
                at_utc_ms,
                bloom: Bloom::None,
            },
            answers: questions.iter().copied().map(answer).collect(),
        }
    }

    fn inputs<'a>(
        &'a self,
        label: &'a Label,
        forecast: &'a Forecast,
        advice: &'a SkyAdvice,
    ) -> SkyInputs<'a> {
        SkyInputs {
            yard_wind: Some(YardWind::Meter(&self.wind)),
            air: Some(&self.air),
            forecast: Some(forecast),
            inversion: Some(&self.inversion),
            soil: Some(&self.soil),
            bloom: Some(&self.bloom),
            place: Place::new(40.0, -75.0).ok(),
            around: Some(&[]),
            ..SkyInputs::new(label, self.now, advice)
        }
    }
}
