//! What rules ask a record to hold, by when it is written, and how long it is kept.

use chrono_tz::Tz;
use serde_json::{Value, json};
use sward_rules::place::{Mark, Place, Told};
use sward_rules::record_rules::{
    Asked, CHECK_YOUR_RULE, Circumstances, FieldName, Filled, RecordRule, asked, record_times,
    rules_that_may_govern,
};

use super::Worked;
use super::place::{amount_if, tell_place, time, yes_if, zone};
use crate::args::RecordFieldsCalc;
use crate::error::{CliError, Result};
use crate::words::{code, key_of};

/// The rules that may govern, each with its fields.
pub(super) fn record_fields(args: &RecordFieldsCalc) -> Result<Worked> {
    let place = Place::from_typed(&args.state);
    let circumstances = Circumstances {
        spots_only: yes_if(args.spots_only.as_deref()),
        area: amount_if("area", args.area.as_deref())?,
        re_entry_applies: yes_if(args.re_entry.as_deref()),
    };
    let filled = args
        .filled
        .iter()
        .map(|name| field(name))
        .collect::<Result<Vec<_>>>()?;
    let ended = match (&args.ended, &args.zone) {
        (Some(ended), Some(name)) => {
            let zone = zone(name)?;
            Some((time("ended", ended, zone)?, zone))
        }
        _ => None,
    };
    let mut worked = Worked::default();
    tell_place(&mut worked, &args.state, place);
    let rules = rules_that_may_govern(place, yes_if(args.restricted_use.as_deref()));
    if place.is_none_or(|place| place.record_rule().is_none()) {
        worked.line("No rule of this place about records was read; there may be one.");
    }
    let mut each = Vec::new();
    for rule in rules {
        let fields = asked(rule, &circumstances, |field| {
            if filled.contains(&field) {
                Filled::Yes
            } else {
                Filled::No
            }
        })?;
        each.push(tell(&mut worked, rule, &fields, ended)?);
    }
    worked.line("Which rule governs is for you to confirm.");
    worked.line(CHECK_YOUR_RULE);
    worked.value("rules", each).value("note", CHECK_YOUR_RULE);
    Ok(worked)
}

fn field(name: &str) -> Result<FieldName> {
    code(name).ok_or_else(|| {
        CliError::Refused(format!(
            "filled: {name} is no field: write one like product, total-product or wind-speed"
        ))
    })
}

fn tell(
    worked: &mut Worked,
    rule: &'static RecordRule,
    fields: &[Asked],
    ended: Option<(i64, Tz)>,
) -> Result<Value> {
    worked.line(format!("{} ({})", rule.name, rule.about));
    for asked in fields {
        let state = match asked.filled {
            Filled::Yes => "filled",
            Filled::LookInText => "look in the text",
            Filled::No => "not filled",
            Filled::NotApplicable => "not asked for here",
        };
        let name = key_of(&asked.field).replace('_', " ");
        worked.line(format!("- {name}: {state}"));
    }
    let mut lines = vec![
        number("Write it within", rule.write_within_days, "days"),
        number("Keep it", rule.keep_years, "years"),
    ];
    let mut times = Value::Null;
    if let Some((ended, zone)) = ended {
        let told = worked.take(rule.name, record_times(rule, ended, zone)?);
        if let Some(day) = told.write_by {
            lines.push(format!("Write it by {day}"));
        }
        if let Some(day) = told.keep_through {
            lines.push(format!("Keep it through {day}"));
        }
        times = json!(told);
    }
    for line in lines {
        worked.line(line);
    }
    Ok(json!({
        "rule": rule.name,
        "source": rule.source,
        "about": rule.about,
        "fields": fields,
        "write_within_days": rule.write_within_days,
        "keep_years": rule.keep_years,
        "times": times,
    }))
}

fn number(what: &str, told: Option<Told<u8>>, unit: &str) -> String {
    match told {
        None => format!("{what}: not known"),
        Some(Told { value, mark }) => {
            let mark = match mark {
                Mark::Read => "",
                Mark::FromMemory => " (from memory, not read)",
            };
            format!("{what}: {value} {unit}{mark}")
        }
    }
}
