//! An amount in another unit.

use sward_rules::Entered;
use sward_rules::quantity::Unit;

use super::Worked;
use crate::args::ConvertCalc;
use crate::error::Result;

/// The amount as given, and beside it in the unit wanted.
pub(super) fn convert(args: &ConvertCalc) -> Result<Worked> {
    let given = Entered::parse(&args.amount)?;
    let mut worked = Worked::default();
    let converted = worked.take("converted", given.conversion(Unit::parse(&args.unit)?)?);
    worked
        .line(format!(
            "{} = {}",
            given.for_person(),
            converted.for_person()
        ))
        .value("given", given)
        .value("converted", converted);
    Ok(worked)
}
