//! Reading single values of the command line: codes of the rules, and `key=value`.

use clap::builder::{PossibleValuesParser, TypedValueParser};
use serde::de::DeserializeOwned;

use crate::words::code;

pub(super) const SOILS: [&str; 5] = ["fit", "dust-dry", "soaked", "frozen", "drought-dormant"];
pub(super) const BLOOMS: [&str; 3] = ["none", "beside", "on-lawn"];
pub(super) const QUESTIONS: [&str; 11] = [
    "toys",
    "bowls",
    "laundry",
    "windows",
    "pond-or-hive",
    "irrigation",
    "gates",
    "puddles",
    "hard-surfaces",
    "drains",
    "people-and-pets",
];
pub(super) const CHECKS: [&str; 20] = [
    "wind",
    "rain",
    "temperature",
    "inversion",
    "drying_speed",
    "soil",
    "bloom",
    "things_off_lawn",
    "windows_shut",
    "pond_or_hive",
    "irrigation_off",
    "gates",
    "puddles",
    "hard_surfaces",
    "drains",
    "people_and_pets",
    "rate",
    "repeat",
    "label_read_back",
    "down_wind",
];

/// One of the rules' codes, by its name.
pub(super) fn one_of<T, const N: usize>(
    names: [&'static str; N],
) -> impl TypedValueParser<Value = T>
where
    T: DeserializeOwned + Clone + Send + Sync + 'static,
{
    PossibleValuesParser::new(names)
        .try_map(|name| code(&name).ok_or_else(|| format!("{name} is not known")))
}

/// `key=value`; the value may hold further equals signs, or be empty.
pub(super) fn key_value(text: &str) -> Result<(String, String), String> {
    match text.split_once('=') {
        Some((key, value)) if !key.trim().is_empty() => {
            Ok((key.trim().replace('-', "_"), value.trim().to_owned()))
        }
        _ => Err("write it as key=value, such as wind_most=\"10 mph\"".to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use sward_rules::finding::Check;
    use sward_rules::sky::{Bloom, Soil};
    use sward_rules::walk_round::Question;

    use super::*;

    #[test]
    fn every_name_on_the_command_line_is_a_code_of_the_rules() {
        assert!(SOILS.iter().all(|name| code::<Soil>(name).is_some()));
        assert!(BLOOMS.iter().all(|name| code::<Bloom>(name).is_some()));
        assert!(
            QUESTIONS
                .iter()
                .all(|name| code::<Question>(name).is_some())
        );
        assert!(CHECKS.iter().all(|name| code::<Check>(name).is_some()));
    }

    #[test]
    fn a_key_needs_its_value() {
        assert_eq!(key_value("rate-most = 2 lb/acre").unwrap().0, "rate_most");
        assert_eq!(key_value("note=a=b").unwrap().1, "a=b");
        assert!(key_value("wind").is_err());
        assert!(key_value("=10 mph").is_err());
    }
}
