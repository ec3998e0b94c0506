//! How large a lawn is.

use super::Worked;
use crate::args::AreaCalc;
use crate::error::Result;
use crate::run::shapes;

/// The area of a shape.
pub(super) fn area(args: &AreaCalc) -> Result<Worked> {
    let given = shapes::outline(&args.shape)?;
    let mut worked = Worked::default();
    let area = worked.take("area", given.outline.area()?);
    worked.line(area.for_person()).value("area", area);
    Ok(worked)
}
