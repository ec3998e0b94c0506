//! Hose-end sprayers, passes, watering in.

use sward_rules::Entered;
use sward_rules::calibrate::TimedCatch;
use sward_rules::label::{LabelSays, WateringIn};
use sward_rules::mix::{DialAsked, hose_end_dial, hose_end_test};
use sward_rules::plan::{Section, SettingUse, TimesOver, setting_used};
use sward_rules::watering::{
    CanTest, RunAsked, WaterAsked, can_depth, can_test, watering_need, watering_run,
};

use super::{Worked, label, short, stated};
use crate::args::{HoseEndCalc, PassesCalc, WateringInCalc};
use crate::error::Result;
use crate::words::CAUTION;

/// What a hose-end sprayer puts on, and its dial.
pub(super) fn hose_end(args: &HoseEndCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let carrier = worked.take(
        "carrier",
        hose_end_test(&TimedCatch {
            area: args.area,
            area_time: args.took,
            caught: args.caught,
            // Left out, it was caught as long as the area took.
            catch_time: args.caught_in.unwrap_or(args.took),
        })?,
    );
    worked
        .line(format!("Puts on {}", short(&carrier)))
        .value("carrier", carrier);
    let Some(rate) = args.rate else {
        return Ok(worked);
    };
    let dial = hose_end_dial(&DialAsked {
        label: &label(&args.label),
        rate,
        carrier,
        steps: &args.step,
    })?;
    let dial = worked.take("dial", dial);
    worked.line(format!("Needs {}", short(&dial.needed)));
    if let (Some(step), Some(rate), Some(change)) = (dial.step, dial.rate, dial.change_percent) {
        worked.line(format!(
            "Set the dial to {}: {} ({change:+.1} %)",
            step.for_person(),
            short(&rate)
        ));
    }
    if let Some(most) = &dial.carrier_for_lowest {
        worked.line(format!(
            "With the lowest step put on at most {}",
            most.for_person()
        ));
    }
    worked
        .line(CAUTION)
        .findings(dial.findings.clone())
        .value("dial", &dial);
    Ok(worked)
}

/// What a setting gives on another swath.
pub(super) fn passes(args: &PassesCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let times = if args.crosswise {
        TimesOver::TwiceAtRightAngles
    } else {
        TimesOver::Once
    };
    let used = setting_used(&SettingUse {
        label: &label(&args.label),
        planned: args.rate,
        gives: args.gives,
        calibrated_swath: args.calibrated_swath,
        line_spacing: args.spacing,
        times,
    })?;
    let used = worked.take("setting", used);
    if let (Some(each), Some(in_all), Some(off), Some(should)) = (
        used.rate_each,
        used.rate_in_all,
        used.off_percent,
        used.should_give,
    ) {
        worked
            .line(format!("Each time over: {}", short(&each)))
            .line(format!("In all: {} ({off:+.1} %)", short(&in_all)))
            .line(format!(
                "For the planned rate the setting should give {} on its own swath",
                short(&should)
            ));
        for (how, spacing) in [
            ("parallel, once over", used.spacing_once),
            ("crosswise, twice over", used.spacing_crosswise),
        ] {
            if let Some(spacing) = spacing {
                worked.line(format!(
                    "This setting gives the planned rate {how}, in lines {} apart",
                    spacing.for_person()
                ));
            }
        }
    } else {
        worked.line("What goes on is not known without the swath of the calibration.");
    }
    worked
        .findings([used.finding.clone()])
        .value("setting", &used);
    Ok(worked)
}

/// Water by the label's depth, and minutes from cans.
pub(super) fn watering_in(args: &WateringInCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let sections = args
        .section
        .iter()
        .map(|(name, area)| {
            Ok(Section {
                name: name.clone(),
                area: stated(area)?,
            })
        })
        .collect::<Result<Vec<_>>>()?;
    let need = worked.take("water", watering_need(&says(args), &sections)?);
    if let Some(per) = &need.per_1000_ft2 {
        worked.line(format!("On 1000 ft²: {}", short(per)));
    }
    for section in &need.sections {
        worked.line(format!("{}: {}", section.name, short(&section.water)));
    }
    if let Some(total) = &need.total {
        worked.line(format!("In all: {}", short(total)));
    }
    worked
        .findings([need.finding.clone()])
        .value("water", &need);
    if let Some(ran) = args.ran {
        let depth = match need.asked {
            WaterAsked::WaterIn(depth) => depth,
            _ => None,
        };
        cans(args, ran, depth, &mut worked)?;
    }
    Ok(worked)
}

fn says(args: &WateringInCalc) -> LabelSays<WateringIn> {
    if let Some(time) = args.withheld {
        return LabelSays::Value(WateringIn::Withheld(Some(time)));
    }
    match args.depth {
        None => LabelSays::Unfilled,
        Some(LabelSays::Value(depth)) => LabelSays::Value(WateringIn::Required(Some(depth))),
        Some(_) => LabelSays::Nothing,
    }
}

fn cans(
    args: &WateringInCalc,
    ran: Entered,
    depth: Option<Entered>,
    worked: &mut Worked,
) -> Result<()> {
    let depths = args
        .can
        .iter()
        .map(|can| match &args.opening {
            Some(opening) => Ok(can_depth(can, opening)?.value),
            None => Ok(*can),
        })
        .collect::<Result<Vec<_>>>()?;
    let test = CanTest {
        depths: &depths,
        ran,
    };
    let test = worked.take("cans", can_test(&test)?);
    worked
        .line(format!(
            "Cans: mean {}, driest quarter {}, uniformity {:.0} %",
            test.mean.for_person(),
            test.driest_quarter.for_person(),
            test.uniformity_percent
        ))
        .value("cans", &test);
    let Some(depth) = depth else { return Ok(()) };
    let run = watering_run(&RunAsked {
        depth,
        cans: &test,
        run_off_after: args.run_off_after,
        soak: args.soak,
    })?;
    let run = worked.take("run", run);
    let driest = run.minutes_by_driest_quarter.map_or_else(
        || "the driest quarter stayed dry".to_owned(),
        |minutes| format!("{minutes} min for the driest quarter"),
    );
    worked.line(format!(
        "Run {} min by the mean; {driest}",
        run.minutes_by_mean
    ));
    if run.runs > 1 {
        let soak = run.soak_min.map_or_else(
            || "with time to soak in between".to_owned(),
            |soak| format!("with {soak} min between"),
        );
        worked.line(format!(
            "In {} runs of at most {} min, {soak}",
            run.runs, run.minutes_each
        ));
    }
    worked.value("run", &run);
    Ok(())
}
