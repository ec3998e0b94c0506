//! The inversion finding: the signs that a person saw, beside the hours of sunset and sunrise.
//!
//! Hours alone never clear, and never forbid: they say how much a sign, or its absence, is worth.

use super::looks::{InversionSign, recent};
use super::sun::in_inversion_hours;
use super::{SkyAdvice, SkyInputs};
use crate::finding::{Check, Finding, Reason, Shown, Source, Verdict, Whose};

/// Whether the treatment falls in the hours in which air commonly does not mix.
enum Hours {
    In,
    Outside,
    NotKnown(Reason),
}

pub(super) fn finding(inputs: &SkyInputs<'_>) -> Finding {
    let check = Check::Inversion;
    let hours = hours(inputs);
    let look = inputs.inversion.map(|l| (l.at_utc_ms, &l.signs));
    let (signs, age_min) = match recent(look, inputs) {
        Ok(seen) => seen,
        Err(why) => {
            let unknown = Finding::unknown(check, why).with_source(Source::Inversion);
            return match hours {
                Hours::In => unknown.and(hours_now(inputs.advice)),
                Hours::Outside | Hours::NotKnown(_) => unknown,
            };
        }
    };
    let (verdict, mut reasons) = judged(signs, hours, inputs.advice);
    let mut finding = Finding::new(check, verdict, reasons.remove(0));
    finding.also = reasons;
    finding
        .with_value(Shown::InversionSigns {
            count: u32::try_from(signs.len()).unwrap_or(u32::MAX),
        })
        .with_limit(Shown::NoInversionSign, Whose::Advice)
        .with_age_min(age_min)
        .with_source(Source::Inversion)
}

/// The answer and its reasons, the first of which decides.
///
/// Without the hours an answer is never better than it would be in them.
fn judged(signs: &[InversionSign], hours: Hours, advice: &SkyAdvice) -> (Verdict, Vec<Reason>) {
    let seen = |sign| signs.contains(&sign);
    if seen(InversionSign::HangingSmoke) || seen(InversionSign::Fog) {
        return (Verdict::DontTreat, vec![Reason::InversionSeen]);
    }
    // A person who sees a clear sky and a low sun has named the hours.
    let low_sun = seen(InversionSign::ClearSkyLowSun);
    let several = seen(InversionSign::StillAir) && (seen(InversionSign::Dew) || low_sun);
    match (hours, several) {
        (Hours::In, true) => (
            Verdict::DontTreat,
            vec![Reason::InversionLikely, hours_now(advice)],
        ),
        (Hours::NotKnown(_), true) if low_sun => {
            (Verdict::DontTreat, vec![Reason::InversionLikely])
        }
        (Hours::NotKnown(why), true) => (Verdict::Unknown, vec![why, Reason::InversionPossible]),
        (Hours::In, false) if signs.is_empty() => (Verdict::Caution, vec![hours_now(advice)]),
        (Hours::NotKnown(why), false) if signs.is_empty() => {
            (Verdict::Caution, vec![Reason::NoInversionSign, why])
        }
        (Hours::Outside, _) if signs.is_empty() => (Verdict::Clear, vec![Reason::NoInversionSign]),
        (Hours::In, false) => (
            Verdict::Caution,
            vec![Reason::InversionPossible, hours_now(advice)],
        ),
        (Hours::Outside | Hours::NotKnown(_), _) => {
            (Verdict::Caution, vec![Reason::InversionPossible])
        }
    }
}

fn hours(inputs: &SkyInputs<'_>) -> Hours {
    if !inputs.now.proven {
        return Hours::NotKnown(Reason::TimeNotProven);
    }
    let Some(place) = inputs.place else {
        return Hours::NotKnown(Reason::YardPlaceNotKnown);
    };
    let now = inputs.now.utc_ms;
    let job = (now, now.saturating_add(inputs.job_ms()));
    match in_inversion_hours(place, job, inputs.advice) {
        Some(true) => Hours::In,
        Some(false) => Hours::Outside,
        None => Hours::NotKnown(Reason::TimeNotProven),
    }
}

fn hours_now(advice: &SkyAdvice) -> Reason {
    Reason::InversionHoursNow {
        before_min: advice.sunset_before_min,
        after_min: advice.sunrise_after_min,
    }
}
