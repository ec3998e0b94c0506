//! Whether it worked: percent control and corrected mortality, each with its interval.

use sward_rules::look::{self, BeforeAfter, Control, DeadOf};
use sward_rules::quantity::Dimension;
use sward_rules::{Answer, Entered, Note};

use super::Worked;
use crate::args::{AbbottCalc, ControlArgs, SchneiderOrelliCalc};
use crate::error::{CliError, Result};

/// By what lives now: counts with an interval, or shares without.
pub(super) fn abbott(args: &AbbottCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let both = [&args.check, &args.treated].map(|text| alive(text));
    match both {
        [Ok(Alive::Count(check)), Ok(Alive::Count(treated))] => {
            let control = worked.take("percent control", look::abbott(check, treated)?);
            shown(&mut worked, "Control", control);
        }
        [Ok(Alive::Share(check)), Ok(Alive::Share(treated))] => {
            let mut answer = look::abbott_percent(check, treated)?;
            answer.working = answer.working.note(Note::SharesHaveNoInterval);
            let percent = worked.take("percent control", answer);
            let interval = None;
            shown(&mut worked, "Control", Control { percent, interval });
        }
        [Err(error), _] | [_, Err(error)] => return Err(error),
        _ => {
            return Err(CliError::Usage(
                "--check and --treated are not alike: give two counts, like 26 and 6, or two \
                 shares, like \"50 %\" and \"2 %\""
                    .into(),
            ));
        }
    }
    Ok(worked)
}

/// By counts before and after.
pub(super) fn by_change(args: &ControlArgs) -> Result<Worked> {
    let mut worked = Worked::default();
    let control = worked.take("percent control", henderson_tilton(args)?);
    shown(&mut worked, "Control", control);
    Ok(worked)
}

/// By the dead among those looked at.
pub(super) fn schneider_orelli(args: &SchneiderOrelliCalc) -> Result<Worked> {
    let ([check_dead, check_total], [treated_dead, treated_total]) =
        (pair(&args.check)?, pair(&args.treated)?);
    let counts = DeadOf {
        check_dead,
        check_total,
        treated_dead,
        treated_total,
    };
    let mut worked = Worked::default();
    let mortality = worked.take("corrected mortality", look::schneider_orelli(counts)?);
    shown(&mut worked, "Corrected mortality", mortality);
    Ok(worked)
}

/// Percent control by the counts that were given.
pub(in crate::run) fn henderson_tilton(args: &ControlArgs) -> Result<Answer<Control>> {
    let ([treated_before, treated_after], [check_before, check_after]) =
        (pair(&args.treated)?, pair(&args.check)?);
    Ok(look::henderson_tilton(BeforeAfter {
        treated_before,
        treated_after,
        check_before,
        check_after,
    })?)
}

/// Percent control for a person, with its interval or that there is none.
pub(in crate::run) fn control_line(of: &str, control: Control) -> String {
    let interval = match control.interval {
        Some(i) => format!("{:.1} to {:.1} %, 95 %", i.lower_percent, i.upper_percent),
        None => "interval not known".into(),
    };
    format!("{of}: {:.1} % ({interval})", control.percent)
}

fn shown(worked: &mut Worked, of: &str, control: Control) {
    worked.line(control_line(of, control));
    if control.interval.is_some_and(|i| i.lower_percent < 0.0) {
        worked.line("So few were counted that it may have done nothing.");
    }
    worked
        .value("percent", control.percent)
        .value("interval", control.interval);
}

enum Alive {
    Count(u32),
    Share(f64),
}

fn alive(text: &str) -> Result<Alive> {
    if let Ok(count) = text.trim().parse() {
        return Ok(Alive::Count(count));
    }
    let share = Entered::parse(text).ok();
    share
        .filter(|share| share.dimension() == Dimension::Percent)
        .and_then(|share| share.amount().to_string().parse().ok())
        .map(Alive::Share)
        .ok_or_else(|| {
            CliError::Usage(format!(
                "`{text}` is neither a count nor a share; give one like 26, or like \"50 %\""
            ))
        })
}

fn pair(values: &[u32]) -> Result<[u32; 2]> {
    values
        .try_into()
        .map_err(|_| CliError::Usage("give two counts, like 30 6".into()))
}
