//! What lies down wind of the lawn: play areas, water, hives, blooms, open windows.
//!
//! Plain geometry of directions; distances and drawings belong to who has the yard's sketch.
//! Whether the wind lets anyone treat at all is in [`super::wind`].

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};

use super::SkyInputs;
use super::reading::{YardWind, directions, summarise};
use super::wind::kmh_in_mph;
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Source, Verdict, Whose};

/// Half the angle that counts as down wind, in degrees: wind swings (common practice, no source).
pub const HALF_ANGLE_DEG: f64 = 45.0;

/// Most things around one yard.
const AROUND_MOST: usize = 200;

/// What may lie around a lawn and must not be reached by drift.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Encode, Decode, Serialize, Deserialize)]
#[cbor(index_only)]
#[serde(rename_all = "snake_case")]
pub enum Around {
    /// Where children play.
    #[n(0)]
    PlayArea,
    /// A pond, a stream, a pool.
    #[n(1)]
    Water,
    /// A well.
    #[n(2)]
    Well,
    /// A drain.
    #[n(3)]
    Drain,
    /// Blooms that bees visit.
    #[n(4)]
    Blooms,
    /// A bee hive.
    #[n(5)]
    Hive,
    /// A neighbor's place.
    #[n(6)]
    Neighbor,
    /// Windows or air intakes that may be open.
    #[n(7)]
    Windows,
    /// A vegetable garden or fruit.
    #[n(8)]
    FoodGarden,
    /// Something else.
    #[n(9)]
    SomethingElse,
}

impl Around {
    /// Every one, in the order in which they are asked for.
    pub const ALL: [Self; 10] = [
        Self::PlayArea,
        Self::Neighbor,
        Self::Windows,
        Self::Water,
        Self::Well,
        Self::Drain,
        Self::Hive,
        Self::Blooms,
        Self::FoodGarden,
        Self::SomethingElse,
    ];

    /// What it is, as a person says it.
    pub fn name(self) -> &'static str {
        match self {
            Self::PlayArea => "play area",
            Self::Water => "open water",
            Self::Well => "well",
            Self::Drain => "drain",
            Self::Blooms => "blooms",
            Self::Hive => "bee hive",
            Self::Neighbor => "neighbor",
            Self::Windows => "windows or air intakes",
            Self::FoodGarden => "food garden",
            Self::SomethingElse => "something else",
        }
    }
}

/// Something that lies around the lawn.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Nearby {
    /// What it is.
    pub what: Around,
    /// What people call it; may be empty.
    pub name: String,
    /// In which directions from the lawn it lies; none while nobody said.
    pub lies: Option<Sector>,
}

/// Directions from the lawn, clockwise from one to the other, in degrees from north, 0 to 360.
/// Something small lies in one direction: both are the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Sector {
    from_deg: u16,
    to_deg: u16,
}

impl Sector {
    /// The directions clockwise from `from_deg` to `to_deg`, both included.
    ///
    /// # Errors
    /// [`RuleError::NotAllowed`] above 360 degrees.
    pub fn new(from_deg: u16, to_deg: u16) -> Result<Self> {
        for given in [from_deg, to_deg] {
            in_circle(given, Field::Bearing)?;
        }
        Ok(Self { from_deg, to_deg })
    }

    /// One direction.
    ///
    /// # Errors
    /// [`RuleError::NotAllowed`] above 360 degrees.
    pub fn at(degrees: u16) -> Result<Self> {
        Self::new(degrees, degrees)
    }

    /// Whether any of it lies within [`HALF_ANGLE_DEG`] of where the wind blows to.
    ///
    /// ```
    /// use sward_rules::sky::Sector;
    /// let east = Sector::at(90)?;
    /// assert!(east.is_down_wind(270));
    /// assert!(!east.is_down_wind(180));
    /// # Ok::<(), sward_rules::RuleError>(())
    /// ```
    pub fn is_down_wind(self, wind_from_deg: u16) -> bool {
        let blows = f64::from(wind_from_deg) + 180.0;
        let (from, to) = (f64::from(self.from_deg), f64::from(self.to_deg));
        let ends = [from, to].map(|end| apart_deg(end, blows));
        // A full circle is written 0 to 360; from one direction to itself is one direction.
        let wide = if self.from_deg == 0 && self.to_deg == 360 {
            360.0
        } else {
            (to - from).rem_euclid(360.0)
        };
        let inside = (blows - from).rem_euclid(360.0) <= wide;
        inside || ends.iter().any(|apart| *apart <= HALF_ANGLE_DEG)
    }
}

/// How far two directions are apart, 0 to 180 degrees.
///
/// ```
/// assert!((sward_rules::sky::apart_deg(350.0, 10.0) - 20.0).abs() < 1e-9);
/// ```
pub fn apart_deg(a_deg: f64, b_deg: f64) -> f64 {
    let apart = (a_deg - b_deg).rem_euclid(360.0);
    apart.min(360.0 - apart)
}

/// What lies where in a wind.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct DownWind<'a> {
    /// Down wind.
    pub down_wind: Vec<&'a Nearby>,
    /// Perhaps down wind: the wind's direction, or its own, is not known.
    pub maybe: Vec<&'a Nearby>,
    /// Not down wind.
    pub aside: Vec<&'a Nearby>,
}

impl DownWind<'_> {
    /// What it comes to: care for what is down wind, not known for what may be. Where nothing was
    /// marked, nobody knows that nothing is there.
    pub fn verdict(&self) -> Verdict {
        let [down, maybe, aside] =
            [&self.down_wind, &self.maybe, &self.aside].map(|things| !things.is_empty());
        match (maybe, down, aside) {
            (true, ..) | (false, false, false) => Verdict::Unknown,
            (false, true, _) => Verdict::Caution,
            (false, false, true) => Verdict::Clear,
        }
    }
}

/// What lies down wind when the wind comes from any of these directions, in degrees from north.
/// Without a direction all of it may.
///
/// ```
/// use sward_rules::sky::{Around, Nearby, Sector, down_wind};
/// let hive = Nearby { what: Around::Hive, name: String::new(), lies: Some(Sector::at(90)?) };
/// let around = [hive];
/// assert_eq!(down_wind(&around, &[270])?.down_wind.len(), 1);
/// assert_eq!(down_wind(&around, &[])?.maybe.len(), 1);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// [`RuleError::NotAllowed`] for a direction above 360 degrees, [`RuleError::TooMany`].
pub fn down_wind<'a>(around: &'a [Nearby], wind_from_deg: &[u16]) -> Result<DownWind<'a>> {
    if around.len() > AROUND_MOST {
        return Err(RuleError::TooMany {
            field: Field::Around,
            count: around.len(),
            limit: AROUND_MOST,
        });
    }
    for from in wind_from_deg {
        in_circle(*from, Field::WindFrom)?;
    }
    let mut sorted = DownWind::default();
    for thing in around {
        match thing.lies.filter(|_| !wind_from_deg.is_empty()) {
            None => sorted.maybe.push(thing),
            Some(sector) if wind_from_deg.iter().any(|from| sector.is_down_wind(*from)) => {
                sorted.down_wind.push(thing);
            }
            Some(_) => sorted.aside.push(thing),
        }
    }
    Ok(sorted)
}

pub(super) fn finding(inputs: &SkyInputs<'_>) -> Finding {
    let check = Check::DownWind;
    let Some(around) = inputs.around else {
        return Finding::unknown(check, Reason::AroundNotNoted);
    };
    // A yard on which nothing is marked is not one around which there is nothing.
    if around.is_empty() {
        return Finding::unknown(check, Reason::NothingMarkedAround)
            .with_limit(Shown::NothingDownWind, Whose::Advice)
            .with_source(Source::Practice);
    }
    let wind = wind_from(inputs);
    let Ok(sorted) = down_wind(around, &wind.from_deg) else {
        return Finding::unknown(check, Reason::AroundNotNoted);
    };
    let (mut verdict, mut reasons) = judged(&sorted, wind.from_deg.is_empty());
    if let Some(lacks) = wind.lacks.filter(|_| verdict < Verdict::Unknown) {
        verdict = Verdict::Unknown;
        reasons.insert(0, lacks);
    }
    let mut finding = Finding::new(check, verdict, reasons.remove(0));
    finding.also = reasons;
    finding.age_min = wind.age_min;
    finding
        .with_value(Shown::LiesDownWind {
            count: count(sorted.down_wind.len() + sorted.maybe.len()),
        })
        .with_limit(Shown::NothingDownWind, Whose::Advice)
        .with_source(Source::Practice)
}

fn judged(sorted: &DownWind<'_>, direction_missing: bool) -> (Verdict, Vec<Reason>) {
    let maybe = sorted.maybe.iter().map(|thing| {
        let (around, name) = (thing.what, thing.name.clone());
        if name.is_empty() {
            Reason::MayLieDownWind { around }
        } else {
            Reason::NamedMayLieDownWind { around, name }
        }
    });
    let down = sorted.down_wind.iter().map(|thing| {
        let (around, name) = (thing.what, thing.name.clone());
        if name.is_empty() {
            Reason::LiesDownWind { around }
        } else {
            Reason::NamedLiesDownWind { around, name }
        }
    });
    if direction_missing {
        let reasons = std::iter::once(Reason::WindDirectionNotKnown).chain(maybe);
        return (Verdict::Unknown, reasons.collect());
    }
    let mut reasons: Vec<Reason> = maybe.chain(down).collect();
    if reasons.is_empty() {
        reasons.push(Reason::NothingDownWind);
    }
    (sorted.verdict(), reasons)
}

/// Where the wind at the yard comes from.
#[derive(Default)]
struct WindFrom {
    /// Every direction noted of late, in degrees from north. A calm has none: it wanders.
    from_deg: Vec<u16>,
    /// How old the newest of them is; that of the newest reading where none counts.
    age_min: Option<u32>,
    /// What the readings lack to count as a measurement.
    lacks: Option<Reason>,
}

fn wind_from(inputs: &SkyInputs<'_>) -> WindFrom {
    let Some(YardWind::Meter(readings)) = inputs.yard_wind else {
        return WindFrom::default();
    };
    let Some(summary) = summarise(readings, inputs.now, inputs.advice) else {
        return WindFrom::default();
    };
    let calm_mph = kmh_in_mph(f64::from(inputs.advice.wind_calm_kmh));
    let noted = if summary.mean_mph < calm_mph {
        Vec::new()
    } else {
        directions(readings, inputs.now, inputs.advice)
    };
    let newest = noted.iter().map(|(_, age_min)| *age_min).min();
    WindFrom {
        from_deg: noted.into_iter().map(|(degrees, _)| degrees).collect(),
        age_min: newest.or(Some(summary.age_min)),
        lacks: summary.lacks,
    }
}

fn in_circle(degrees: u16, field: Field) -> Result<()> {
    if degrees <= 360 {
        return Ok(());
    }
    Err(RuleError::NotAllowed {
        field,
        given: degrees.to_string(),
        allowed: Allowed::Degrees,
    })
}

fn count(of: usize) -> u32 {
    u32::try_from(of).unwrap_or(u32::MAX)
}
