//! What forms share that work something out and keep nothing: inputs filled with what was typed
//! last, amounts read together, and what the rules refuse beside the input that it is about.
//!
//! What was typed stands behind the question mark of the address ([`address`]), so that a result can
//! be looked at again; never anything of a customer's.

use maud::{Markup, html};
use sward_rules::quantity::{Unit, pieces};
use sward_rules::{Entered, Field, RuleError};

use crate::ask::Ask;
use crate::part::form::{FormPart, NumberField};
use crate::server::Form;
use crate::words::Units;
use crate::{Result, Trouble};

/// What is sent along with a form and is none of what was typed.
const NOT_TYPED: [&str; 3] = ["do", "key", "once"];

/// The address at which the result of what was typed stands; `more` goes before it and in place of
/// fields of the same name.
pub(crate) fn address(path: &str, form: &Form, more: &[(&str, &str)]) -> String {
    let mut query = form_urlencoded::Serializer::new(String::new());
    for (name, value) in more {
        query.append_pair(name, value);
    }
    for (field, value) in &form.fields {
        let is_more = more.iter().any(|(name, _)| name == field);
        if !is_more && !NOT_TYPED.contains(&field.as_str()) {
            query.append_pair(field, value);
        }
    }
    format!("{path}?{}", query.finish())
}

/// Amounts that must be there, all that is wrong with them at once.
pub(crate) fn needed<const N: usize>(form: &Form, names: [&str; N]) -> Result<[Entered; N]> {
    let mut wrong = Vec::new();
    let mut all = Vec::with_capacity(N);
    for name in names {
        match form.amount_needed(name) {
            Ok(amount) => all.push(amount),
            Err(error) => wrong.push(error),
        }
    }
    <[Entered; N]>::try_from(all).map_err(|_| Trouble::Fields(wrong))
}

/// What the rules refuse, beside the input that it is about.
pub(crate) fn beside(error: RuleError, names: &[(Field, &'static str)]) -> Trouble {
    use RuleError as E;
    let of = |field: &Field| names.iter().find(|(name, _)| same_field(name, field));
    let input = match &error {
        E::NotPositive { field, .. }
        | E::NotAllowed { field, .. }
        | E::TooMany { field, .. }
        | E::OverLimit { field, .. }
        | E::In { field, .. } => of(field),
        E::VesselTooCoarse { .. } => of(&Field::LeastStep),
        E::MixOverTank { .. } => of(&Field::FinishedMix),
        E::ProductFillsTank { .. } => of(&Field::FilledProduct),
        E::TooFewCans { .. } | E::CansEmpty => of(&Field::Cans),
        _ => None,
    };
    match input {
        Some((_, input)) => Trouble::in_field(*input, error),
        None => error.into(),
    }
}

/// The same field, whichever number of it.
fn same_field(one: &Field, other: &Field) -> bool {
    std::mem::discriminant(one) == std::mem::discriminant(other)
}

/// Amounts of a list ([`pieces`]), in the unit chosen beside them.
pub(crate) fn listed(form: &Form, name: &str) -> Result<Vec<Entered>> {
    let unit = form.text(&format!("{name}.unit"));
    pieces(form.text(name))
        .into_iter()
        .map(|part| {
            let typed = if part.chars().any(char::is_alphabetic) {
                part.to_owned()
            } else {
                format!("{part} {unit}")
            };
            Entered::parse(&typed).map_err(|error| Trouble::in_field(name, error))
        })
        .collect()
}

/// An amount as it is filled into a number field: with its unit only where that is another.
pub(crate) fn filled(amount: &Entered, unit: &str) -> String {
    match Unit::parse(unit) {
        Ok(unit) if unit == amount.unit() => amount.amount().to_string(),
        _ => format!("{} {}", amount.amount(), amount.unit().for_person()),
    }
}

/// The inputs of a form that works something out, filled with what was typed last.
pub(crate) struct Inputs<'a> {
    pub(crate) ask: &'a Ask<'a>,
    pub(crate) form: FormPart<'a>,
    last: Form,
}

impl<'a> Inputs<'a> {
    pub(crate) fn new(ask: &'a Ask<'a>, act: &'static str, last: Form) -> Self {
        let form = ask.form(act);
        Self { ask, form, last }
    }

    /// What was typed last in a field.
    pub(crate) fn last(&self, name: &str) -> Option<String> {
        self.last.raw(name).map(str::to_owned)
    }

    /// What was typed last in a number field, with its unit where that was another.
    fn last_in(&self, name: &str, unit: &str) -> Option<String> {
        let typed = self.last.text(&format!("{name}.unit"));
        if typed.is_empty() || typed == unit {
            return self.last(name);
        }
        self.last.with_unit(name)
    }

    /// A number in the one unit that the person's system has for it; another may be typed with it.
    pub(crate) fn number(
        &self,
        name: &str,
        label: &str,
        units: (&str, &str),
        sheet: Option<&Entered>,
    ) -> Markup {
        self.number_called(name, &self.ask.t(label), units, sheet)
    }

    /// The same with a label already in words.
    pub(crate) fn number_called(
        &self,
        name: &str,
        label: &str,
        (us, metric): (&str, &str),
        sheet: Option<&Entered>,
    ) -> Markup {
        let unit = match self.ask.words.units {
            Units::Us => us,
            Units::Metric => metric,
        };
        let field = NumberField {
            name,
            label: "",
            unit,
            filled: self
                .last_in(name, unit)
                .or(sheet.map(|amount| filled(amount, unit))),
            from: String::new(),
        };
        self.form.number_called(&field, label)
    }

    /// A number whose unit is chosen, none of them before a person chooses.
    pub(crate) fn in_units(&self, name: &str, label: &str, help: &str, units: &[&str]) -> Markup {
        let mut options = vec![(String::new(), self.ask.t("field-choose-unit"))];
        options.extend(self.signs(units));
        let unit = self.last(&format!("{name}.unit")).unwrap_or_default();
        let last = self.last(name).unwrap_or_default();
        self.form
            .number_in_units(name, label, help, &options, (&last, &unit))
    }

    pub(crate) fn text(&self, name: &str, label: &str, help: &str) -> Markup {
        self.form
            .text(name, label, help, self.last(name).as_deref())
    }

    /// A list of numbers, with one unit for all.
    pub(crate) fn list(&self, name: &str, label: &str, help: &str, units: &[&str]) -> Markup {
        let options = self.signs(units);
        let unit = format!("{name}.unit");
        let last = self.last(&unit);
        html! {
            (self.form.lines(name, label, help, self.last(name).as_deref()))
            (self.form.select(&unit, "calibrate-unit", &options, last.as_deref().or(units.first().copied())))
        }
    }

    fn signs(&self, units: &[&str]) -> Vec<(String, String)> {
        let words = self.ask.words;
        let sign = |unit: &str| {
            Unit::parse(unit).map_or_else(|_| unit.to_owned(), |unit| words.unit(unit))
        };
        units
            .iter()
            .map(|unit| ((*unit).to_owned(), sign(unit)))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::sent;

    fn read(text: &str) -> Result<Vec<String>> {
        let form = sent(&[("cans", text), ("cans.unit", "in")]);
        let all = listed(&form, "cans")?;
        Ok(all.iter().map(Entered::for_person).collect())
    }

    #[test]
    fn a_comma_that_may_be_a_decimals_is_never_taken_for_two_amounts() {
        assert_eq!(
            read("0.2, 0.3;1 cm\n2").unwrap().join(" "),
            "0.2 in 0.3 in 1 cm 2 in"
        );
        for two_ways in ["1,5", "1,5; 2,5", "0,2, 0,3", "1,2,3"] {
            let trouble = read(two_ways).unwrap_err();
            assert!(
                matches!(
                    trouble.of_field("cans"),
                    Some(Trouble::Rule(RuleError::Comma { .. }))
                ),
                "{two_ways}: {trouble:?}"
            );
        }
        assert!(read("1, , 2").is_err(), "one was left out");
        assert!(read(" \n").unwrap().is_empty());
    }
}
