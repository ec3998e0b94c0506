//! Calibration: a file a calculation, and what they share.

mod boxes;
mod holds;
mod nozzles;
mod pace;
mod sprayer;
mod spreader;

pub(super) use boxes::catch_boxes;
pub(super) use holds::calibration;
pub(super) use nozzles::nozzles;
pub(super) use pace::pace;
pub(super) use sprayer::sprayer;
pub(super) use spreader::spreader;

use rust_decimal::Decimal;
use sward_rules::Entered;
use sward_rules::calibrate::{Tried, rate_found_finding};
use sward_rules::finding::Finding;
use sward_rules::label::LabelSays;
use sward_rules::quantity::pieces;

use super::{Worked, short};
use crate::args::AgainstArgs;
use crate::error::{CliError, Result};
use crate::words;

/// Amounts of a list ([`pieces`]), the unit with each or once at the end: "20, 21, 25 fl oz".
fn amounts(flag: &str, text: &str) -> Result<Vec<Entered>> {
    let wrong = |error: &dyn std::fmt::Display| {
        CliError::Refused(format!(
            "{flag} \"{text}\" cannot be read: {error}. Write it like \"20, 21, 25 UNIT\""
        ))
    };
    let of_number = |c: char| c.is_ascii_digit() || "+-.,".contains(c);
    let parts = pieces(text);
    let Some(last) = parts.last() else {
        return Err(wrong(&"nothing stands there"));
    };
    let number_end = last.find(|c| !of_number(c));
    let unit = number_end.map_or("", |end| &last[end..]);
    parts
        .iter()
        .map(|part| {
            let bare = !part.is_empty() && part.chars().all(of_number);
            let typed = if bare {
                format!("{part} {unit}")
            } else {
                (*part).to_owned()
            };
            Entered::parse(&typed).map_err(|error| wrong(&error))
        })
        .collect()
}

/// Findings: a line each for a person, the worst first, and all of them for a program.
fn findings(worked: &mut Worked, findings: &[Finding]) {
    let mut sorted: Vec<&Finding> = findings.iter().collect();
    sorted.sort_by_key(|f| std::cmp::Reverse(f.verdict));
    for finding in sorted {
        let found = finding
            .value
            .as_ref()
            .map_or_else(String::new, |value| format!(" {value}:"));
        let limit = finding
            .limit
            .as_ref()
            .map_or_else(String::new, |limit| format!(" (limit {limit})"));
        let word = words::verdict(finding.verdict);
        worked.line(format!("{word}:{found} {}{limit}", finding.why()));
    }
    worked.value("checked", words::findings_json(findings));
}

/// A rate found against the rate wanted, where one was given.
fn against(args: &AgainstArgs, found: &Entered) -> Result<Option<Finding>> {
    let Some(wanted) = &args.wanted else {
        return Ok(None);
    };
    let most = args.most.map_or(LabelSays::Unfilled, LabelSays::Value);
    Ok(Some(rate_found_finding(found, wanted, &most, args.passes)?))
}

/// Settings as typed.
fn tried(typed: &[(Decimal, Entered)]) -> Vec<Tried> {
    let each = typed.iter();
    each.map(|(setting, rate)| Tried {
        setting: *setting,
        rate: *rate,
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_unit_stands_with_each_amount_or_once_at_the_end() {
        let listed = |text: &str| {
            let all = amounts("--catches", text).unwrap();
            all.iter()
                .map(Entered::for_person)
                .collect::<Vec<_>>()
                .join(";")
        };
        assert_eq!(listed("1, 2.5; 3 g"), "1 g;2.5 g;3 g");
        assert_eq!(listed("1 oz, 2 g"), "1 oz;2 g");
        for two_ways in ["1,5 g", "2, 1,5 g", "1,5, 2 g", "1,2,3 g"] {
            let error = amounts("--catches", two_ways).unwrap_err().to_string();
            assert!(error.contains("read in two ways"), "{two_ways}: {error}");
        }
        assert!(amounts("--catches", "1, , 2 g").is_err());
        assert!(amounts("--catches", "1, 2").is_err());
        assert!(amounts("--catches", "").is_err());
    }
}
