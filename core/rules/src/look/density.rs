//! From counts in samples to a density: how many there are per square foot, and how sure that is.
//!
//! Thresholds, and what to do about the number, are in [`super::threshold`].

use minicbor::{Decode, Encode};
use serde::{Deserialize, Serialize};
use uom::si::area::square_foot;
use uom::si::f64::{Area, Length};

use super::poisson::COUNT_MOST;
use super::spread::{dispersion, widened};
use crate::error::{Allowed, Field, Result, RuleError};
use crate::note::Note;
use crate::quantity::Entered;
use crate::working::{Answer, Working};

/// How sure the interval of a density is meant to be: 95 %.
pub const INTERVAL_LEVEL: f64 = 0.95;

/// Smallest and largest area of one sample in square feet: a thimble, and a plot of 30 by 30 ft.
const SAMPLE_FT2: std::ops::RangeInclusive<f64> = 0.005..=900.0;

/// Most samples of one look.
const SAMPLES_MOST: usize = 1_000;

/// How a sample was taken, and the size of what was searched.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SampleMethod {
    /// A square of sod lifted and searched, by the length of its side.
    #[n(0)]
    SodSquare(#[n(0)] Entered),
    /// A can without bottom, pushed in and filled with water, by its diameter.
    #[n(1)]
    FloatingCan(#[n(0)] Entered),
    /// A cup cutter's plug, by its diameter.
    #[n(2)]
    CupCutter(#[n(0)] Entered),
    /// A soap drench, by the area it was poured on. White grubs do not come up from it
    /// (University of California, IPM).
    #[n(3)]
    SoapDrench(#[n(0)] Entered),
    /// Anything else, by the area searched.
    #[n(4)]
    Area(#[n(0)] Entered),
}

/// What one sample held.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize, Deserialize)]
pub struct Sample {
    /// How it was taken.
    #[n(0)]
    pub method: SampleMethod,
    /// How many of the pest were found.
    #[n(1)]
    pub count: u32,
}

/// How many there are per square foot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Density {
    /// Total count over total area searched, per square foot.
    pub mean_per_ft2: f64,
    /// Lower bound of the interval, per square foot.
    pub lower_per_ft2: f64,
    /// Upper bound of the interval, per square foot.
    pub upper_per_ft2: f64,
    /// How much more the samples differ than counts that fall at random would, as a ratio of
    /// variances; `None` with fewer than two samples, or where nothing was found. Above 1 the
    /// interval is widened by it.
    pub dispersion: Option<f64>,
    /// How many samples were taken.
    pub samples: usize,
    /// How many were found in all.
    pub count: u32,
    /// Area searched in all, in square feet.
    pub searched_ft2: f64,
}

/// The number by which a count in one such sample is multiplied to get a count per square foot.
///
/// ```
/// use sward_rules::look::{per_ft2, SampleMethod};
/// use sward_rules::Entered;
/// assert_eq!(per_ft2(&SampleMethod::SodSquare(Entered::parse("6 in")?))?, 4.0);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When the size is of the wrong kind, zero, or no size of a sample.
pub fn per_ft2(method: &SampleMethod) -> Result<f64> {
    Ok(1.0 / sample_area(method)?.get::<square_foot>())
}

/// The density that several samples of one look show together; none when there is no sample, which
/// is not the same as having found none.
///
/// The interval is exact for a count that falls at random (Garwood 1936). Where the samples differ
/// more than that, it is widened by their dispersion (quasi-Poisson). Pests sit in patches, so the
/// true uncertainty is larger still: the working says so, and a single sample is named as such.
///
/// ```
/// use sward_rules::look::{Sample, SampleMethod, density};
/// use sward_rules::Entered;
/// let method = SampleMethod::SodSquare(Entered::parse("6 in")?);
/// let samples = [0, 0, 12].map(|count| Sample { method: method.clone(), count });
/// let found = density(&samples)?.expect("three samples");
/// assert_eq!(found.value.mean_per_ft2, 16.0);
/// assert_eq!(found.value.dispersion, Some(12.0));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a sample's size is of the wrong kind, zero, or no size of a sample, or the counts are
/// beyond what a person can count.
pub fn density(samples: &[Sample]) -> Result<Option<Answer<Density>>> {
    if samples.is_empty() {
        return Ok(None);
    }
    if samples.len() > SAMPLES_MOST {
        let (count, limit) = (samples.len(), SAMPLES_MOST);
        return Err(RuleError::TooMany {
            field: Field::Look,
            count,
            limit,
        });
    }
    let mut count = 0_u32;
    let mut areas_ft2 = Vec::with_capacity(samples.len());
    for (index, sample) in samples.iter().enumerate() {
        let area =
            sample_area(&sample.method).map_err(|e| e.of(Field::Sample { number: index + 1 }))?;
        areas_ft2.push(area.get::<square_foot>());
        count = count.saturating_add(sample.count);
    }
    if count > COUNT_MOST {
        return Err(RuleError::NotAllowed {
            field: Field::TotalCount,
            given: count.to_string(),
            allowed: Allowed::TotalCount,
        });
    }
    let searched_ft2: f64 = areas_ft2.iter().sum();
    let counts: Vec<u32> = samples.iter().map(|s| s.count).collect();
    let dispersion = dispersion(&counts, &areas_ft2);
    let value = of_total(count, searched_ft2, samples.len(), dispersion);
    Ok(Some(working(&value).gives(value)))
}

/// The density that a total shows, its interval widened where the samples differ more than counts
/// that fall at random.
pub(super) fn of_total(
    count: u32,
    searched_ft2: f64,
    samples: usize,
    dispersion: Option<f64>,
) -> Density {
    let (lower, upper) = widened(count, dispersion);
    Density {
        mean_per_ft2: f64::from(count) / searched_ft2,
        lower_per_ft2: lower / searched_ft2,
        upper_per_ft2: upper / searched_ft2,
        dispersion,
        samples,
        count,
        searched_ft2,
    }
}

fn working(density: &Density) -> Working {
    let is_widened = density.dispersion.is_some_and(|d| d > 1.0);
    let (formula, source) = if is_widened {
        (
            "total count / total area, with Garwood's exact Poisson interval at 95 % widened by \
             the square root of the dispersion on the log scale (quasi-Poisson)",
            "Garwood 1936, Biometrika 28, 437; McCullagh and Nelder 1989, Generalized Linear Models",
        )
    } else {
        (
            "total count / total area, with Garwood's exact Poisson interval at 95 %",
            "Garwood 1936, Biometrika 28, 437",
        )
    };
    let mut working = Working::new(formula, source)
        .input("found", density.count)
        .input("samples", density.samples)
        .input("searched", format!("{:.3} ft²", density.searched_ft2));
    if let Some(dispersion) = density.dispersion {
        working = working.input("dispersion", format!("{dispersion:.2}"));
    }
    if is_widened {
        working = working.note(Note::MoreThanChance {
            samples: density.samples,
        });
    }
    working = working.note(Note::PestsInPatches);
    if density.samples == 1 {
        working = working.note(Note::OneSample);
    }
    working
}

fn sample_area(method: &SampleMethod) -> Result<Area> {
    let area = match method {
        SampleMethod::SodSquare(side) => {
            let side: Length = side.to_length()?;
            side * side
        }
        SampleMethod::FloatingCan(diameter) | SampleMethod::CupCutter(diameter) => {
            let radius = diameter.to_length()? / 2.0;
            std::f64::consts::PI * radius * radius
        }
        SampleMethod::SoapDrench(area) | SampleMethod::Area(area) => area.to_area()?,
    };
    if !SAMPLE_FT2.contains(&area.get::<square_foot>()) {
        return Err(RuleError::NotAllowed {
            field: Field::SampleSize,
            given: size(method).for_person(),
            allowed: Allowed::SampleSize,
        });
    }
    Ok(area)
}

fn size(method: &SampleMethod) -> &Entered {
    match method {
        SampleMethod::SodSquare(size)
        | SampleMethod::FloatingCan(size)
        | SampleMethod::CupCutter(size)
        | SampleMethod::SoapDrench(size)
        | SampleMethod::Area(size) => size,
    }
}
