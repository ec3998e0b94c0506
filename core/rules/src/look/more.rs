//! "Three more samples decide": how many more samples it would take until a count lies surely on
//! one side of a threshold.

use serde::Serialize;

use super::density::{Density, of_total};
use super::poisson::COUNT_MOST;
use super::threshold::{Decision, Threshold, decide};
use crate::note::Note;
use crate::sentence::words;
use crate::working::{Answer, Working};

/// Most samples that are looked ahead for; a lawn that needs more is looked at again later.
pub const MORE_MOST: u32 = 50;

/// How many more samples would decide.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(tag = "more", rename_all = "kebab-case")]
pub enum More {
    /// None: the count lies on one side as it is.
    None,
    /// So many, if they hold as many on average and differ as much.
    Samples {
        /// How many.
        samples: u32,
        /// What they would then say.
        toward: Decision,
    },
    /// It cannot be said.
    NotKnown {
        /// Why.
        because: MoreUnknown,
    },
}

words! {
    /// Why it cannot be said how many more samples would decide.
    MoreUnknown;
    NoSample => "no sample was taken";
    OneSample => "one sample does not show how much samples differ here; take at least two more";
    NoThreshold => "no threshold is known for this pest";
    BetweenLimits => "the mean lies within the threshold's own range, and more samples may leave it there";
    CountedTogether
        => "the threshold counts armyworms and cutworms together, and no number of samples of one says \
            how many there are of both";
    TooMany => "more than 50 samples like these would be needed; look again in a week or two";
}

/// How many more samples of the same kind it would take, at the mean and the spread so far, until
/// [`decide`] no longer says [`Decision::Watch`].
///
/// The total is rounded to a whole count on the side that decides later, so the number errs to
/// more samples. Small differences are chance: it is a forecast, never a promise.
///
/// ```
/// use sward_rules::look::{More, Sample, SampleMethod, density, more_samples, threshold_for, Pest};
/// use sward_rules::Entered;
/// let method = SampleMethod::SodSquare(Entered::parse("6 in")?);
/// let samples = [1, 2, 1, 3, 1].map(|count| Sample { method: method.clone(), count });
/// let found = density(&samples)?.expect("five samples").value;
/// let threshold = threshold_for(Pest::JapaneseBeetle)[0];
/// let more = more_samples(Some(&found), Some(threshold)).value;
/// assert!(matches!(more, More::Samples { .. } | More::None));
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
pub fn more_samples(density: Option<&Density>, threshold: Option<&Threshold>) -> Answer<More> {
    let mut working = Working::new(
        "the same mean and spread on more samples, until mean and interval agree",
        "common practice, no source",
    );
    if let Some(d) = density {
        working = working
            .input("samples", d.samples)
            .input("found", d.count)
            .input("searched", format!("{:.3} ft²", d.searched_ft2));
        if let Some(dispersion) = d.dispersion {
            working = working.input("dispersion", format!("{dispersion:.2}"));
        }
    }
    working
        .note(Note::IfTheyHoldAsMany)
        .gives(ahead(density, threshold))
}

fn ahead(density: Option<&Density>, threshold: Option<&Threshold>) -> More {
    let not_known = |because| More::NotKnown { because };
    let Some(d) = density else {
        return not_known(MoreUnknown::NoSample);
    };
    let Some(t) = threshold else {
        return not_known(MoreUnknown::NoThreshold);
    };
    match decide(Some(d), Some(t)).decision {
        Decision::Watch => {}
        Decision::Leave | Decision::TreatingMayPay => return More::None,
        Decision::Unknown => return not_known(MoreUnknown::NoSample),
    }
    if d.samples < 2 {
        return not_known(MoreUnknown::OneSample);
    }
    let is_above = d.mean_per_ft2 >= t.most_per_ft2;
    if !is_above && t.counts_another_too() {
        return not_known(MoreUnknown::CountedTogether);
    }
    if !is_above && d.mean_per_ft2 >= t.least_per_ft2 {
        return not_known(MoreUnknown::BetweenLimits);
    }
    for samples in 1..=MORE_MOST {
        let Some(then) = with_more(d, samples, is_above) else {
            break;
        };
        let toward = decide(Some(&then), Some(t)).decision;
        if toward != Decision::Watch {
            return More::Samples { samples, toward };
        }
    }
    not_known(MoreUnknown::TooMany)
}

/// The density after so many more samples at the mean so far; none where the count is beyond what a
/// person can count.
fn with_more(d: &Density, more: u32, is_above: bool) -> Option<Density> {
    let so_far = u64::try_from(d.samples).ok()?;
    let all = so_far + u64::from(more);
    let total = u64::from(d.count) * all;
    // Rounded toward the threshold, so that rounding never decides early.
    let count = if is_above {
        total / so_far
    } else {
        total.div_ceil(so_far)
    };
    let count = u32::try_from(count).ok().filter(|c| *c <= COUNT_MOST)?;
    let (all_u32, so_far_u32) = (u32::try_from(all).ok()?, u32::try_from(so_far).ok()?);
    let searched_ft2 = d.searched_ft2 * f64::from(all_u32) / f64::from(so_far_u32);
    Some(of_total(
        count,
        searched_ft2,
        usize::try_from(all).ok()?,
        d.dispersion,
    ))
}
