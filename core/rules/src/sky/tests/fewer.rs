//! The promise: taking data away never yields Clear or Caution where it was worse.
//!
//! What is taken away is a kind of input, a field of it or a part of a forecast. Single readings
//! of a series are not: records are append-only, and a reading only ever ages.

use proptest::prelude::*;

use super::*;

#[derive(Debug, Clone)]
pub(super) struct World {
    pub(super) label: Label,
    now: Now,
    pub(super) meter: Option<Vec<MeterReading>>,
    pub(super) seen: Option<BeaufortSeen>,
    pub(super) air: Option<AirReading>,
    station: Option<StationReport>,
    pub(super) forecast: Option<Forecast>,
    pub(super) inversion: Option<InversionLook>,
    pub(super) soil: Option<SoilLook>,
    pub(super) bloom: Option<BloomLook>,
    place: Option<Place>,
    pub(super) around: Option<Vec<Nearby>>,
}

impl World {
    pub(super) fn outlook(&self) -> Vec<Finding> {
        let advice = SkyAdvice::default();
        let by_meter = self.meter.as_deref().map(YardWind::Meter);
        outlook(&SkyInputs {
            label: &self.label,
            now: self.now,
            job_min: 60,
            yard_wind: by_meter.or(self.seen.as_ref().map(YardWind::Seen)),
            air: self.air.as_ref(),
            station: self.station.as_ref(),
            forecast: self.forecast.as_ref(),
            inversion: self.inversion.as_ref(),
            soil: self.soil.as_ref(),
            bloom: self.bloom.as_ref(),
            place: self.place,
            around: self.around.as_deref(),
            advice: &advice,
        })
    }

    /// Every way to know a little less. A meter stands above an estimate, so both go together.
    fn with_less(&self) -> Vec<(&'static str, World)> {
        let mut less = Vec::new();
        let mut take = |name, change: &dyn Fn(&mut World)| {
            let mut world = self.clone();
            change(&mut world);
            less.push((name, world));
        };
        take("wind at the yard", &|w| (w.meter, w.seen) = (None, None));
        take("air", &|w| w.air = None);
        take("station", &|w| w.station = None);
        take("forecast", &|w| w.forecast = None);
        take("inversion", &|w| w.inversion = None);
        take("soil", &|w| w.soil = None);
        take("bloom", &|w| w.bloom = None);
        take("place", &|w| w.place = None);
        take("around", &|w| w.around = None);
        take("all that is marked around", &|w| {
            w.around.iter_mut().for_each(Vec::clear);
        });
        take("bearings", &|w| {
            w.around.iter_mut().flatten().for_each(|n| n.lies = None);
        });
        take("one bearing", &|w| {
            if let Some(first) = w.around.iter_mut().flatten().next() {
                first.lies = None;
            }
        });
        take("wind's direction", &|w| {
            w.meter
                .iter_mut()
                .flatten()
                .for_each(|r| r.from_degrees = None);
        });
        take("meter's height", &|w| {
            w.meter.iter_mut().flatten().for_each(|r| r.height = None);
        });
        take("soil's temperature", &|w| {
            if let Some(soil) = &mut w.soil {
                soil.temperature = None;
            }
        });
        take("proven time", &|w| w.now.proven = false);
        take("label's wind", &|w| w.label.wind_most = LabelSays::Unfilled);
        take("label's dry time", &|w| {
            w.label.rain_free = LabelSays::Unfilled;
        });
        take("label's least", &|w| {
            w.label.temperature_least = LabelSays::Unfilled;
        });
        take("label's most", &|w| {
            w.label.temperature_most = LabelSays::Unfilled;
        });
        take("gusts", &|w| {
            w.meter.iter_mut().flatten().for_each(|r| r.gust = None);
        });
        take("humidity", &|w| {
            if let Some(air) = &mut w.air {
                air.humidity_percent = None;
            }
        });
        take("station's parts", &|w| {
            if let Some(station) = &mut w.station {
                (station.wind, station.gust, station.temperature) = (None, None, None);
            }
        });
        for (name, part) in PARTS {
            take(name, &|w| {
                if let Some(forecast) = &mut w.forecast {
                    *part(forecast) = Layer::default();
                }
            });
            take(name, &|w| {
                if let Some(forecast) = &mut w.forecast {
                    let mut steps = part(forecast).steps().to_vec();
                    steps.truncate(steps.len() / 2);
                    *part(forecast) = Layer::new(steps);
                }
            });
        }
        less
    }
}

type Part = fn(&mut Forecast) -> &mut Layer;

const PARTS: [(&str, Part); 5] = [
    ("forecast's wind", |f| &mut f.wind_kmh),
    ("forecast's gusts", |f| &mut f.gust_kmh),
    ("forecast's temperature", |f| &mut f.temperature_c),
    ("forecast's chance of rain", |f| &mut f.rain_chance_percent),
    ("forecast's rain", |f| &mut f.rain_mm),
];

fn says(values: &'static [&'static str]) -> impl Strategy<Value = LabelSays<Entered>> {
    prop_oneof![
        1 => Just(LabelSays::Unfilled),
        1 => Just(LabelSays::Nothing),
        6 => proptest::sample::select(values).prop_map(value),
    ]
}

fn any_label() -> impl Strategy<Value = Label> {
    let methods = [
        Method::Granule,
        Method::FoliarSpray,
        Method::Drench,
        Method::Bait,
    ];
    (
        proptest::sample::select(methods.to_vec()),
        says(&["5 mph", "10 mph", "24 km/h", "40 mph"]),
        says(&["0 h", "30 min", "4 h", "24 h"]),
        says(&["40 F", "15 Cel"]),
        says(&["85 F", "22 Cel"]),
    )
        .prop_map(|(method, wind, rain, least, most)| Label {
            wind_most: wind,
            rain_free: rain,
            temperature_least: least,
            temperature_most: most,
            ..label(method)
        })
}

fn mph(tenths: u32) -> Entered {
    entered(&format!("{}.{} mph", tenths / 10, tenths % 10))
}

fn at(age_min: i64) -> i64 {
    NOW.utc_ms - age_min * MIN_MS
}

fn any_meter() -> impl Strategy<Value = Vec<MeterReading>> {
    let reading = (
        -4_i64..14,
        0_u32..160,
        proptest::option::weighted(0.8, 0_u32..200),
        proptest::option::weighted(0.8, 0_u16..=360),
        proptest::option::weighted(0.8, 3_u32..60),
    )
        .prop_map(|(age_min, wind, gust, from_degrees, feet)| MeterReading {
            at_utc_ms: at(age_min),
            wind: mph(wind),
            gust: gust.map(mph),
            from_degrees,
            height: feet.map(|ft| entered(&format!("{ft} ft"))),
        });
    proptest::collection::vec(reading, 0..6)
}

fn any_layer(most: f64) -> impl Strategy<Value = Layer> {
    let tops = vec![0.0, 0.05 * most, 0.3 * most, most];
    let values = proptest::collection::vec(0.0..1.0_f64, 0..34);
    (proptest::sample::select(tops), values)
        .prop_map(|(top, values)| hourly(&values.iter().map(|v| v * top).collect::<Vec<f64>>()))
}

fn any_forecast() -> impl Strategy<Value = Forecast> {
    (
        -2_i64..15,
        any_layer(40.0),
        any_layer(50.0),
        any_layer(35.0),
        any_layer(100.0),
        any_layer(1.0),
    )
        .prop_map(
            |(age_h, wind_kmh, gust_kmh, temperature_c, rain_chance_percent, rain_mm)| Forecast {
                updated_utc_ms: NOW.utc_ms - age_h * HOUR_MS,
                wind_kmh,
                gust_kmh,
                temperature_c,
                rain_chance_percent,
                rain_mm,
                ..fair()
            },
        )
}

fn any_station() -> impl Strategy<Value = StationReport> {
    (
        0_u32..30,
        proptest::option::of(0_u32..40),
        -5_i32..40,
        0_u32..60,
    )
        .prop_map(|(wind, gust, celsius, minute)| {
            let gust = gust.map_or_else(String::new, |g| format!("G{g:02}"));
            let sign = if celsius < 0 { "M" } else { "" };
            let t = celsius.abs();
            let raw = format!(
                "KXYZ 1507{minute:02}Z 320{wind:02}{gust}KT 10SM CLR {sign}{t:02}/M09 A2992"
            );
            StationReport::parse(&raw).expect("a whole report")
        })
}

fn any_around() -> impl Strategy<Value = Vec<Nearby>> {
    let lies = proptest::option::weighted(0.8, (0_u16..=360, 0_u16..=360));
    let thing =
        (proptest::sample::select(Around::ALL.to_vec()), lies).prop_map(|(what, lies)| Nearby {
            what,
            name: String::new(),
            lies: lies.map(|(from, to)| Sector::new(from, to).expect("within the circle")),
        });
    proptest::collection::vec(thing, 0..4)
}

pub(super) fn any_world() -> impl Strategy<Value = World> {
    let air = (0_i64..40, 0_u32..40, proptest::option::of(0_u8..=100)).prop_map(
        |(age_min, celsius, humidity_percent)| AirReading {
            at_utc_ms: at(age_min),
            temperature: entered(&format!("{celsius} Cel")),
            humidity_percent,
        },
    );
    let signs = proptest::sample::subsequence(
        vec![
            InversionSign::HangingSmoke,
            InversionSign::Dew,
            InversionSign::StillAir,
            InversionSign::ClearSkyLowSun,
        ],
        0..=4,
    );
    let inversion = (0_i64..40, signs).prop_map(|(age_min, signs)| InversionLook {
        at_utc_ms: at(age_min),
        signs,
    });
    let soil = proptest::sample::select(vec![
        Soil::Fit,
        Soil::DustDry,
        Soil::Soaked,
        Soil::DroughtDormant,
    ]);
    let soil = (0_i64..40, soil).prop_map(|(age_min, soil)| SoilLook {
        at_utc_ms: at(age_min),
        soil,
        temperature: Some(entered("55 F")),
    });
    let bloom = proptest::sample::select(vec![Bloom::None, Bloom::Beside, Bloom::OnLawn]);
    let bloom = (0_i64..40, bloom).prop_map(|(age_min, bloom)| BloomLook {
        at_utc_ms: at(age_min),
        bloom,
    });
    let seen = (0_i64..14, 0_u8..6).prop_map(|(age, force)| BeaufortSeen {
        at_utc_ms: at(age),
        force,
    });
    (
        (any_label(), proptest::bool::weighted(0.8)),
        (
            proptest::option::weighted(0.6, any_meter()),
            proptest::option::of(seen),
        ),
        proptest::option::of(air),
        (
            proptest::option::of(any_station()),
            proptest::option::weighted(0.8, any_forecast()),
        ),
        (
            proptest::option::of(inversion),
            proptest::option::of(soil),
            proptest::option::of(bloom),
        ),
        (
            // By night, by day, and where the sun stays down.
            proptest::option::weighted(
                0.7,
                proptest::sample::select(vec![
                    (40.7, -74.0),
                    (-33.9, 151.2),
                    (0.0, 60.0),
                    (80.0, 0.0),
                ]),
            ),
            proptest::option::weighted(0.8, any_around()),
        ),
    )
        .prop_map(
            |((label, proven), (meter, seen), air, (station, forecast), looks, (place, around))| {
                let now = Now { proven, ..NOW };
                let (inversion, soil, bloom) = looks;
                World {
                    label,
                    now,
                    meter,
                    seen,
                    air,
                    station,
                    forecast,
                    inversion,
                    soil,
                    bloom,
                    place: place.map(|(lat, lon)| Place::new(lat, lon).expect("on earth")),
                    around,
                }
            },
        )
}

proptest! {
    #[test]
    fn taking_data_away_never_makes_a_finding_look_better(world in any_world()) {
        let full = world.outlook();
        for (taken, less) in world.with_less() {
            for (before, after) in full.iter().zip(less.outlook()) {
                prop_assert_eq!(before.check, after.check);
                let better = after.verdict < before.verdict && after.verdict < Verdict::Unknown;
                prop_assert!(!better, "without {}: {:?} became {:?}", taken, before, after);
            }
        }
    }

    #[test]
    fn a_wind_is_only_cleared_at_the_yard(mut world in any_world()) {
        (world.meter, world.seen) = (None, None);
        let wind = &world.outlook()[0];
        prop_assert_eq!(wind.check, Check::Wind);
        prop_assert!(wind.verdict >= Verdict::Unknown);
    }
}
