//! Nozzles: the jar test, other pressures, droplet classes.

use sward_rules::calibrate::{
    DropletClass, LabelDrops, NozzleCatches, droplets_finding, flow_at_pressure, nozzle_test,
    pressure_for_flow,
};
use sward_rules::label::LabelSays;

use super::{amounts, findings, short};
use crate::args::NozzlesCalc;
use crate::error::{CliError, Result};
use crate::run::calc::Worked;

/// One of the three.
pub(in crate::run::calc) fn nozzles(args: &NozzlesCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    match args {
        NozzlesCalc {
            catches: Some(catches),
            time: Some(time),
            new_flow,
            ..
        } => {
            let catches = amounts("--catches", catches)?;
            let test = NozzleCatches {
                catches: &catches,
                time: *time,
                new_flow: *new_flow,
            };
            let result = worked.take("nozzles", nozzle_test(&test)?);
            worked.line(format!(
                "Mean flow: {}; all together {}.",
                short(&result.mean_flow),
                short(&result.total_flow)
            ));
            for n in &result.nozzles {
                let wear = n
                    .off_new_percent
                    .map_or_else(String::new, |off| format!(", {off:+.1} % from a new one"));
                worked.line(format!(
                    "Nozzle {}: {}, {:+.1} % from the mean{wear}.",
                    n.number,
                    short(&n.flow),
                    n.off_mean_percent
                ));
            }
            findings(&mut worked, &result.findings);
            worked
                .value("mean_flow", result.mean_flow)
                .value("total_flow", result.total_flow)
                .value("nozzles", &result.nozzles);
        }
        NozzlesCalc {
            flow: Some(flow),
            pressure: Some(at),
            other_pressure: Some(other),
            ..
        } => {
            let then = worked.take("flow", flow_at_pressure(flow, at, other)?);
            worked
                .line(format!("Flow at {}: {}.", other.for_person(), short(&then)))
                .value("flow", then);
        }
        NozzlesCalc {
            flow: Some(flow),
            pressure: Some(at),
            wanted_flow: Some(wanted),
            ..
        } => {
            let then = worked.take("pressure", pressure_for_flow(flow, at, wanted)?);
            worked
                .line(format!(
                    "Pressure for {}: {}; the drops change with it.",
                    wanted.for_person(),
                    short(&then)
                ))
                .value("pressure", then);
        }
        NozzlesCalc {
            label_finest: Some(finest),
            ..
        } => drops(&mut worked, args, *finest)?,
        _ => {
            return Err(CliError::Usage(
                "give --catches \"20, 21, 25 fl oz\" --time \"1 min\", or --flow, --pressure and \
                 --other-pressure, or --label-finest medium"
                    .into(),
            ));
        }
    }
    Ok(worked)
}

fn drops(worked: &mut Worked, args: &NozzlesCalc, finest: DropletClass) -> Result<()> {
    let label = LabelSays::Value(LabelDrops {
        finest,
        coarsest: args.label_coarsest.unwrap_or(DropletClass::UltraCoarse),
    });
    let finding = droplets_finding(&label, args.drops)?;
    if let Some(class) = args.drops {
        worked
            .line(format!("Drops that are {class}: {}.", class.is_for()))
            .value("drops", class);
    }
    findings(worked, &[finding]);
    Ok(())
}
