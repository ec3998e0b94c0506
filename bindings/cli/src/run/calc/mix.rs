//! What goes into one tank.

use sward_rules::mix::{TankFill, tank_fill};

use super::{Worked, label, short, vessel};
use crate::args::MixCalc;
use crate::error::Result;
use crate::words::CAUTION;

/// One fill.
pub(super) fn mix(args: &MixCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let filled = tank_fill(&TankFill {
        label: &label(&args.label),
        rate: args.rate,
        carrier: args.carrier,
        tank: args.tank,
        mix: args.mix,
        vessel: &vessel(args.vessel),
    })?;
    let filled = worked.take("fill", filled);
    worked.line(format!(
        "Product: {} ({:+.1} %)",
        filled.product.measured_out.for_person(),
        filled.product.change_percent
    ));
    let water = filled.water.map_or_else(String::new, |water| {
        format!(" ({} of water)", water.for_person())
    });
    worked
        .line(format!(
            "Fill with water up to {}{water}",
            filled.mix.for_person()
        ))
        .line(format!("Covers {}", filled.covers.for_person()))
        .line(format!("Rate: {}", short(&filled.rate)))
        .line(CAUTION)
        .findings(filled.findings.clone())
        .value("fill", &filled);
    Ok(worked)
}
