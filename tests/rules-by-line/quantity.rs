//! Units and conversions.

use serde_json::{Value, json};
use sward_rules::Entered;
use sward_rules::quantity::Unit;

use crate::{Answered, text};

/// Every unit by its code, with its kind.
pub(crate) fn units() -> Value {
    let units: Vec<Value> = Unit::all()
        .map(|unit| json!({ "code": unit.to_string(), "kind": unit.dimension() }))
        .collect();
    json!({ "units": units })
}

/// `amount` in another `unit`, as the number alone.
pub(crate) fn convert(question: &Value) -> Answered {
    let amount = Entered::parse(text(question, "amount")?)?;
    let converted = amount.convert(Unit::parse(text(question, "unit")?)?)?;
    Ok(json!({ "number": converted.amount().to_string() }))
}
