//! Spots and mounds, and whether bait would be taken.

use sward_rules::mix::{self, BaitLook, Foraging, SpotJob, bait_findings};

use super::{Worked, stated, vessel};
use crate::args::SpotsCalc;
use crate::error::Result;
use crate::words::CAUTION;

/// Doses for spots.
pub(super) fn spots(args: &SpotsCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let plan = mix::spots(&SpotJob {
        dose: args.dose,
        mix: args.mix,
        spot_most: args.spot_most.clone().unwrap_or_default(),
        area_most: args.most.clone().unwrap_or_default(),
        count: args.count,
        area: stated(&args.area)?,
        vessel: &vessel(args.vessel),
    })?;
    let plan = worked.take("spots", plan);
    let of_what = if plan.mix.is_some() { "all" } else { "each" };
    worked.line(format!(
        "Product for {of_what}: {} ({:+.1} %)",
        plan.measured.measured_out.for_person(),
        plan.measured.change_percent
    ));
    if let Some(mix) = &plan.mix {
        worked.line(format!("Finished mix for all: {}", mix.for_person()));
    }
    worked.line(format!(
        "Product in all: {}, over the area {}",
        plan.product.for_person(),
        plan.over_area.for_person()
    ));
    if let Some(most) = plan.spots_most {
        worked.line(format!(
            "The label's most over the area allows {most} spots"
        ));
    }
    worked.findings(plan.findings.clone()).value("spots", &plan);
    let foraging = match (args.chip.zip(args.chip_min), args.ground) {
        (Some((ants, minutes)), _) => Some(Foraging::Chip { ants, minutes }),
        (None, ground) => ground.map(Foraging::Ground),
    };
    let look = BaitLook {
        fresh: args.fresh,
        ground_dry: args.dry,
        stays_dry: args.stays_dry,
        foraging,
        // Typed by somebody who stands there.
        age_min: Some(0),
    };
    let unasked = BaitLook {
        age_min: Some(0),
        ..BaitLook::default()
    };
    if look != unasked {
        worked.findings(bait_findings(&look)?);
    }
    worked.line(CAUTION);
    Ok(worked)
}
