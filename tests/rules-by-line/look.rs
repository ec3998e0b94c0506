//! Counts.

use serde_json::{Value, json};
use sward_rules::Entered;
use sward_rules::look::{Sample, SampleMethod, density};

use crate::{Answered, Fault};

/// The 95 % interval of a `count` on one square foot.
pub(crate) fn poisson(question: &Value) -> Answered {
    let count = question["count"]
        .as_u64()
        .and_then(|count| u32::try_from(count).ok())
        .ok_or_else(|| Fault::Question("`count` is no count".into()))?;
    let method = SampleMethod::Area(Entered::parse("1 ft2")?);
    let density = density(&[Sample { method, count }])?
        .ok_or_else(|| Fault::Question("a sample shows a density".into()))?
        .value;
    Ok(json!({ "lower": density.lower_per_ft2, "upper": density.upper_per_ft2 }))
}
