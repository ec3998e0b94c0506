//! Reading what calculators take as one word each: what a label says, a named amount, a lot.

use chrono::NaiveDate;
use sward_rules::Entered;
use sward_rules::label::LabelSays;
use sward_rules::season::Interval;

/// What a label says on one point: a value, or `nothing` where a person read it and it sets none.
pub(crate) fn says(text: &str) -> Result<LabelSays<Entered>, String> {
    says_of(text, |text| Entered::parse(text).map_err(|e| e.to_string()))
}

/// The same of a time between two treatments.
pub(crate) fn says_interval(text: &str) -> Result<LabelSays<Interval>, String> {
    says_of(text, |text| {
        Interval::parse(text).map_err(|e| e.to_string())
    })
}

/// The same of a number.
pub(crate) fn says_count(text: &str) -> Result<LabelSays<u32>, String> {
    says_of(text, |text| {
        text.parse()
            .map_err(|_| format!("`{text}` is no number; write it like 2, or nothing"))
    })
}

/// The same of a day.
pub(crate) fn says_day(text: &str) -> Result<LabelSays<NaiveDate>, String> {
    says_of(text, day)
}

fn says_of<T>(
    text: &str,
    read: impl Fn(&str) -> Result<T, String>,
) -> Result<LabelSays<T>, String> {
    match text.trim() {
        "nothing" => Ok(LabelSays::Nothing),
        text => read(text).map(LabelSays::Value),
    }
}

/// A day.
pub(crate) fn day(text: &str) -> Result<NaiveDate, String> {
    text.trim()
        .parse()
        .map_err(|_| format!("`{}` is no day; write it like 2026-06-15", text.trim()))
}

/// `NAME=rest`, both trimmed.
pub(crate) fn named(text: &str) -> Result<(String, String), String> {
    match text.split_once('=') {
        Some((name, rest)) if !name.trim().is_empty() && !rest.trim().is_empty() => {
            Ok((name.trim().to_owned(), rest.trim().to_owned()))
        }
        _ => Err(format!(
            "`{text}` lacks its name; write it like front=1500 ft2"
        )),
    }
}

/// `NAME=AMOUNT`.
pub(crate) fn named_amount(text: &str) -> Result<(String, Entered), String> {
    let (name, amount) = named(text)?;
    let amount = Entered::parse(&amount).map_err(|e| format!("{name}: {e}"))?;
    Ok((name, amount))
}

/// `AMOUNT on AREA`, or `AMOUNT` alone; a question mark stands for an amount that is not known.
pub(crate) fn amount_on(text: &str) -> Result<(Option<Entered>, Option<Entered>), String> {
    let read = |text: &str| Entered::parse(text).map_err(|e| e.to_string());
    let (amount, area) = match text.split_once(" on ") {
        Some((amount, area)) => (amount, Some(read(area)?)),
        None => (text, None),
    };
    match amount.trim() {
        "?" => Ok((None, area)),
        amount => Ok((Some(read(amount)?), area)),
    }
}

/// The parts between semicolons, the first apart from the others, each of those a key and its rest.
pub(crate) fn parts(text: &str) -> (&str, Vec<(&str, &str)>) {
    let mut parts = text.split(';').map(str::trim);
    let first = parts.next().unwrap_or("");
    let keyed = parts.filter(|part| !part.is_empty());
    let others = keyed
        .map(|part| part.split_once(' ').unwrap_or((part, "")))
        .map(|(key, rest)| (key, rest.trim()));
    (first, others.collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_amount_may_stand_with_its_area_or_not_be_known() {
        let e = |text: &str| Some(Entered::parse(text).unwrap());
        assert_eq!(
            amount_on("10 gal on 5000 ft2"),
            Ok((e("10 gal"), e("5000 ft2")))
        );
        assert_eq!(amount_on("10 gal"), Ok((e("10 gal"), None)));
        assert_eq!(amount_on("? on 1 acre"), Ok((None, e("1 acre"))));
        assert!(amount_on("10 on 5000 ft2").is_err());
    }

    #[test]
    fn parts_have_keys() {
        let (first, others) = parts("20 lb; bought 2026-03-01; expires nothing");
        assert_eq!(first, "20 lb");
        assert_eq!(others, [("bought", "2026-03-01"), ("expires", "nothing")]);
        assert_eq!(says("nothing"), Ok(LabelSays::Nothing));
        assert!(named("=x").is_err() && named("x=").is_err() && says("2.5").is_err());
        assert!(day("June").is_err() && says_count("two").is_err());
        assert!(says_interval("1 month").is_ok() && says_day("2026-01-31").is_ok());
    }
}
