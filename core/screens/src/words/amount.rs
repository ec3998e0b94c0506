//! Numbers and amounts as a person reads them: thousands by comma, units with their signs.
//!
//! What was typed keeps its digits; what was worked out has no more of them than anyone can use.

use rust_decimal::Decimal;
use sward_rules::Entered;
use sward_rules::quantity::Unit;

use super::{Language, Words};

/// Digits of a number that was worked out: more than any spreader, tank or tape can follow.
const DIGITS_SHOWN: u32 = 4;

impl Words {
    /// A number with all its digits, thousands apart.
    #[expect(
        clippy::unused_self,
        reason = "both languages write numbers alike, which others would not"
    )]
    pub(crate) fn number(self, number: Decimal) -> String {
        let text = number.to_string();
        let (whole, rest) = text
            .split_once('.')
            .map_or((text.as_str(), None), |(w, r)| (w, Some(r)));
        let (sign, digits) = whole
            .strip_prefix('-')
            .map_or(("", whole), |d| ("\u{2212}", d));
        let mut grouped = String::from(sign);
        for (place, digit) in digits.char_indices() {
            if place > 0 && (digits.len() - place).is_multiple_of(3) {
                grouped.push(',');
            }
            grouped.push(digit);
        }
        if let Some(rest) = rest {
            grouped.push('.');
            grouped.push_str(rest);
        }
        grouped
    }

    /// An amount as it was typed.
    pub(crate) fn amount(self, entered: &Entered) -> String {
        format!(
            "{} {}",
            self.number(entered.amount()),
            self.unit(entered.unit())
        )
    }

    /// An amount that was worked out.
    pub(crate) fn worked_out(self, entered: &Entered) -> String {
        let amount = entered.amount();
        let shown = amount.round_sf(DIGITS_SHOWN).unwrap_or(amount).normalize();
        format!("{} {}", self.number(shown), self.unit(entered.unit()))
    }

    /// A unit's sign. Most are the same in both languages.
    pub(crate) fn unit(self, unit: Unit) -> String {
        let sign = unit.for_person();
        match self.language {
            Language::English => sign,
            Language::Spanish => sign
                .split('/')
                .map(|part| in_spanish(part.trim()))
                .collect::<Vec<_>>()
                .join("/"),
        }
    }
}

/// The signs that differ in Spanish, numbers before them kept.
fn in_spanish(part: &str) -> String {
    let (number, sign) = match part.rsplit_once(' ') {
        Some((number, sign)) if number.chars().all(|c| c.is_ascii_digit() || c == ',') => {
            (format!("{number} "), sign)
        }
        _ => (String::new(), part),
    };
    let sign = match sign {
        "ft" => "pie",
        "ft²" => "pie²",
        "in" => "pulg",
        "yd" => "yarda",
        "yd²" => "yarda²",
        "fl oz" => "oz líq",
        "gal" => "gal",
        "qt" => "cuarto",
        "pt" => "pinta",
        "acre" => "acre",
        "mph" => "mi/h",
        "d" | "day" | "days" => "días",
        other => other,
    };
    format!("{number}{sign}")
}
