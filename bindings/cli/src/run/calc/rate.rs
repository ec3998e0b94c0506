//! Rates in every form, and product for an area.

use sward_rules::Entered;
use sward_rules::mix::{
    product_for_ingredient, product_over, rate_forms, rate_from_mix, rate_of_coverage,
};
use sward_rules::plan::{measure_out, rate_findings};

use super::{Worked, label, short, stated, vessel};
use crate::args::RateCalc;
use crate::error::{CliError, Result};
use crate::words::CAUTION;

/// A rate, however the label gives it.
pub(super) fn rate(args: &RateCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let rate = per_area(args, &mut worked)?;
    let forms = worked.take("forms", rate_forms(&rate)?);
    for form in &forms {
        worked.line(short(form));
    }
    worked.value("rate", rate).value("forms", &forms);
    if let Some(area) = &args.area {
        let area = stated(area)?;
        let product = worked.take("product", product_over(&rate, &area)?);
        let for_area = format!("For {}: {}", area.for_person(), short(&product));
        worked.line(for_area).value("product", product);
        if let Some(step) = args.vessel {
            let amount = worked.take("measured out", measure_out(&product, &vessel(step))?);
            worked
                .line(format!(
                    "Measure out {} ({:+.1} %)",
                    amount.measured_out.for_person(),
                    amount.change_percent
                ))
                .value("measured_out", amount);
        }
    }
    worked.findings(rate_findings(&label(&args.label), &rate)?);
    worked.line(CAUTION);
    Ok(worked)
}

fn per_area(args: &RateCalc, worked: &mut Worked) -> Result<Entered> {
    if let Some(rate) = args.rate {
        return Ok(rate);
    }
    Ok(match (&args.pack, &args.active, &args.in_mix) {
        (Some(pack), _, _) => {
            let covers = given(args.covers.as_ref(), "--covers 5000ft2")?;
            worked.take("rate", rate_of_coverage(pack, covers)?)
        }
        (_, Some(active), _) => {
            let content = given(args.content.as_ref(), "--content 80%")?;
            worked.take("rate", product_for_ingredient(active, content)?)
        }
        (_, _, Some(ratio)) => {
            let carrier = given(args.carrier.as_ref(), "--carrier \"2 gal/1000 ft2\"")?;
            worked.take("rate", rate_from_mix(ratio, carrier)?)
        }
        _ => {
            return Err(CliError::Usage(
                "give a rate, such as \"3.6 pt/acre\"".into(),
            ));
        }
    })
}

fn given<'a>(value: Option<&'a Entered>, example: &str) -> Result<&'a Entered> {
    value.ok_or_else(|| CliError::Usage(format!("give {example} with it")))
}
