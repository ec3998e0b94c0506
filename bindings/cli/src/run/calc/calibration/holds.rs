//! Whether a calibration still holds, two people's results, and how to go on after the check
//! half-way.

use sward_rules::Entered;
use sward_rules::calibrate::{
    Calibrated, CalibrationAdvice, Part, Person, SetUp, calibration_findings, two_people_finding,
};
use sward_rules::plan::{Rest, for_the_rest};

use super::{findings, short, tried};
use crate::args::CalibrationCalc;
use crate::error::{CliError, Result};
use crate::run::calc::Worked;

/// One of the three.
pub(in crate::run::calc) fn calibration(args: &CalibrationCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    match args {
        CalibrationCalc {
            planned: Some(planned),
            rate_done: Some(done),
            ..
        } => rest(&mut worked, args, planned, done)?,
        CalibrationCalc {
            first: Some(first), ..
        } => two_people(&mut worked, first, args.second.as_deref())?,
        CalibrationCalc {
            days_ago: Some(_), ..
        } => holds(&mut worked, args)?,
        _ => {
            return Err(CliError::Usage(
                "give --days-ago 12 --product \"THEN=NOW\" and so on, or --first \"Ann=3.6 lb/1000 \
                 ft2\", or --planned and --rate-done"
                    .into(),
            ));
        }
    }
    Ok(worked)
}

fn holds(worked: &mut Worked, args: &CalibrationCalc) -> Result<()> {
    let [product, operator, machine, wheel, nozzle] = [
        ("--product", &args.product),
        ("--operator", &args.operator),
        ("--machine", &args.machine),
        ("--wheel", &args.wheel),
        ("--nozzle", &args.nozzle),
    ]
    .map(|(flag, typed)| parts(flag, typed.as_deref()));
    let ((then_product, product), (then_operator, operator)) = (product?, operator?);
    let ((then_machine, machine), (then_wheel, wheel)) = (machine?, wheel?);
    let (then_nozzle, nozzle) = nozzle?;
    let (then_swath, swath) = match &args.swath {
        Some(typed) => {
            let (then, now) = then_and_now("--swath", typed)?;
            (Some(Entered::parse(then)?), Some(Entered::parse(now)?))
        }
        None => (None, None),
    };
    let made = Calibrated {
        age_days: args.days_ago,
        on: SetUp {
            product: then_product,
            operator: then_operator,
            machine: then_machine,
            wheel: then_wheel,
            nozzle: then_nozzle,
            swath: then_swath,
        },
    };
    let now = SetUp {
        product,
        operator,
        machine,
        wheel,
        nozzle,
        swath,
    };
    let mut advice = CalibrationAdvice::default();
    advice.age_most_days = args.most_days.unwrap_or(advice.age_most_days);
    findings(worked, &calibration_findings(Some(&made), &now, advice)?);
    Ok(())
}

fn parts<'a>(flag: &str, typed: Option<&'a str>) -> Result<(Part<'a>, Part<'a>)> {
    let part = |text: &'a str| match text {
        "none" => Part::None,
        "" => Part::NotKnown,
        text => Part::Is(text),
    };
    match typed {
        None => Ok((Part::NotKnown, Part::NotKnown)),
        Some(typed) => {
            let (then, now) = then_and_now(flag, typed)?;
            Ok((part(then), part(now)))
        }
    }
}

fn then_and_now<'a>(flag: &str, typed: &'a str) -> Result<(&'a str, &'a str)> {
    let (then, now) = typed.split_once('=').ok_or_else(|| {
        CliError::Usage(format!(
            "{flag} \"{typed}\": write what it was then and what it is now, like {flag} \"THEN=NOW\""
        ))
    })?;
    Ok((then.trim(), now.trim()))
}

fn two_people(worked: &mut Worked, first: &str, second: Option<&str>) -> Result<()> {
    let first = person("--first", first)?;
    let second = second.map(|text| person("--second", text)).transpose()?;
    findings(worked, &[two_people_finding(&first, second.as_ref())?]);
    Ok(())
}

fn person<'a>(flag: &str, typed: &'a str) -> Result<Person<'a>> {
    let (name, found) = typed.split_once('=').ok_or_else(|| {
        CliError::Usage(format!(
            "{flag} \"{typed}\": write a name and what was found, like {flag} \"Ann=3.6 lb/1000 ft2\""
        ))
    })?;
    Ok(Person {
        name,
        found: Entered::parse(found)?,
    })
}

fn rest(
    worked: &mut Worked,
    args: &CalibrationCalc,
    planned: &Entered,
    done: &Entered,
) -> Result<()> {
    let tried = tried(&args.tried);
    let needs = worked.take(
        "the rest",
        for_the_rest(&Rest {
            rate: *planned,
            most: args.most,
            rate_done: *done,
            pace: args.pace,
            setting: args.setting,
            tried: &tried,
        })?,
    );
    if let Some(pace) = &needs.pace {
        worked.line(format!(
            "With the same setting, go at {} on what is left.",
            short(pace)
        ));
    }
    if let Some(setting) = &needs.setting {
        worked.line(format!(
            "At the same pace, try setting {}: an estimate, check again soon.",
            setting.setting
        ));
    }
    if needs.pace.is_none() && needs.setting.is_none() {
        worked.line("Neither pace nor settings tried are known: calibrate before going on.");
    }
    worked.line("The part done stays as it is; what is left gets the planned rate, never more.");
    worked.value("rest", &needs);
    Ok(())
}
