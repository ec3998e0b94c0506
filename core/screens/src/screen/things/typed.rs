//! What a form sent, made into the text that the book takes: number and unit together, "the label
//! says nothing", watering in.
//!
//! Whether it may stand in its field is for the book to say.

use sward_book::sheet::schema::{self, Field, FieldKind, SAYS_NOTHING};
use sward_book::sheet::{SheetKind, check_text};

use super::fields::Group;
use crate::server::Form;
use crate::trouble::Wrong;
use crate::{Result, Trouble};

/// The word for watering in that takes a depth.
pub(super) const REQUIRED: &str = "required";
/// The word for watering in that takes a time.
pub(super) const WITHHELD: &str = "withheld";

/// A number with its unit, or that the label says nothing; empty where nothing is typed.
fn number(number: &str, unit: &str, says_nothing: bool) -> std::result::Result<String, Wrong> {
    match (number, says_nothing) {
        ("", false) => Ok(String::new()),
        ("", true) => Ok(SAYS_NOTHING.to_owned()),
        (_, true) => Err(Wrong::BothSaid),
        // A person may type the unit all the same: then theirs is meant, and the rules read it.
        _ if number.contains(|c: char| c.is_alphabetic() || c == '%') => Ok(number.to_owned()),
        _ if unit.is_empty() => Err(Wrong::NoUnit),
        _ => Ok(format!("{number} {unit}")),
    }
}

/// The word for watering in with its depth or time, where one is typed.
fn watering_in(word: &str, depth: &str, time: &str) -> std::result::Result<String, Wrong> {
    let (own, other) = match word {
        REQUIRED => (depth, time),
        WITHHELD => (time, depth),
        _ if depth.is_empty() && time.is_empty() => return Ok(word.to_owned()),
        _ => return Err(Wrong::BothSaid),
    };
    if !other.is_empty() {
        return Err(Wrong::BothSaid);
    }
    Ok(format!("{word} {own}").trim_end().to_owned())
}

/// Lines as the book takes them: browsers send a carriage return before every line feed.
fn lines(text: &str) -> String {
    text.replace("\r\n", "\n")
}

/// What stands in a field of the form, as the book takes it.
pub(super) fn composed(form: &Form, field: &Field) -> Result<String> {
    let number_of = |name: &str| {
        number(
            form.text(name),
            form.text(&format!("{name}.unit")),
            form.is_ticked(&format!("{name}.nothing")),
        )
        .map_err(|wrong| Trouble::field(name, wrong))
    };
    match field.kind {
        FieldKind::Number(_) | FieldKind::LabelNumber(_) => number_of(field.key),
        FieldKind::WateringIn => watering_in(
            form.text(field.key),
            &number_of("watering_in.depth")?,
            &number_of("watering_in.time")?,
        )
        .map_err(|wrong| Trouble::field(field.key, wrong)),
        _ => Ok(lines(form.text(field.key))),
    }
}

/// The same, checked by the book, in the form in which it is stored.
fn stored(form: &Form, field: &Field) -> Result<String> {
    let text = composed(form, field)?;
    let value = check_text(field, &text).map_err(|error| Trouble::in_field(field.key, error))?;
    Ok(value.text().unwrap_or_default().to_owned())
}

/// The fields that say something else than when the form was shown. What nobody touched is not
/// written: a value that came in meanwhile, or one in doubt between two phones, stays.
///
/// # Errors
/// [`Trouble::Fields`] with everything that does not fit.
pub(super) fn changed(
    form: &Form,
    kind: SheetKind,
    groups: &[Group],
) -> Result<Vec<(&'static str, String)>> {
    let mut changed = Vec::new();
    let mut troubles = Vec::new();
    for key in groups.iter().flat_map(|group| group.keys) {
        let field = schema::field(kind, key).expect("the groups name fields of the table");
        match stored(form, field) {
            Ok(text) => {
                if text != lines(form.text(&format!("{key}.was"))) {
                    changed.push((*key, text));
                }
            }
            Err(trouble) => troubles.push(trouble),
        }
    }
    if troubles.is_empty() {
        Ok(changed)
    } else {
        Err(Trouble::Fields(troubles))
    }
}

/// Keys and texts as the book takes them.
pub(super) fn borrowed<'a>(typed: &'a [(&'static str, String)]) -> Vec<(&'a str, &'a str)> {
    typed
        .iter()
        .map(|(key, text)| (*key, text.as_str()))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::label::GROUPS;
    use super::*;
    use crate::testing::sent as form;

    #[test]
    fn a_number_needs_its_unit() {
        assert_eq!(
            number("2.5", "lb/1000 ft2", false).as_deref(),
            Ok("2.5 lb/1000 ft2")
        );
        assert_eq!(number("2.5", "", false), Err(Wrong::NoUnit));
        assert_eq!(
            number("2.5 oz/acre", "lb/acre", false).as_deref(),
            Ok("2.5 oz/acre")
        );
        assert_eq!(number("0.2 %", "", false).as_deref(), Ok("0.2 %"));
    }

    #[test]
    fn an_empty_number_is_not_the_same_as_a_silent_label() {
        assert_eq!(number("", "mph", false).as_deref(), Ok(""));
        assert_eq!(number("", "mph", true).as_deref(), Ok("nothing"));
        assert_eq!(number("10", "mph", true), Err(Wrong::BothSaid));
    }

    #[test]
    fn watering_in_takes_what_belongs_to_its_word() {
        assert_eq!(
            watering_in("required", "0.5 in", "").as_deref(),
            Ok("required 0.5 in")
        );
        assert_eq!(watering_in("required", "", "").as_deref(), Ok("required"));
        assert_eq!(
            watering_in("withheld", "", "24 h").as_deref(),
            Ok("withheld 24 h")
        );
        assert_eq!(watering_in("nothing", "", "").as_deref(), Ok("nothing"));
        assert_eq!(watering_in("", "", "").as_deref(), Ok(""));
        for (word, depth, time) in [
            ("required", "0.5 in", "24 h"),
            ("withheld", "0.5 in", ""),
            ("nothing", "", "24 h"),
            ("", "0.5 in", ""),
        ] {
            assert_eq!(
                watering_in(word, depth, time),
                Err(Wrong::BothSaid),
                "{word}"
            );
        }
    }

    #[test]
    fn only_what_was_changed_is_written() {
        let sent = form(&[
            ("product", "Example granules"),
            ("product.was", "Example granules"),
            ("rate_most", "2.50"),
            ("rate_most.unit", "lb/1000 ft2"),
            ("rate_most.was", "2.50 [lb_av]/(1000.[ft_i]2)"),
            ("wind_most", "12"),
            ("wind_most.unit", "mph"),
            ("wind_most.was", "10 [mi_i]/h"),
            ("first_aid", "One.\r\nTwo."),
            ("first_aid.was", "One.\r\nTwo."),
        ]);
        let changed = changed(&sent, SheetKind::Label, GROUPS).unwrap();
        assert_eq!(changed, [("wind_most", "12 [mi_i]/h".to_owned())]);
    }

    #[test]
    fn everything_that_does_not_fit_is_said_at_once() {
        let sent = form(&[
            ("rate_most", "2.5"),
            ("wind_most", "ten"),
            ("rain_free", "-1"),
            ("rain_free.unit", "h"),
            ("watering_in", "nothing"),
            ("watering_in.depth", "1"),
            ("watering_in.depth.unit", "in"),
        ]);
        let Err(Trouble::Fields(all)) = changed(&sent, SheetKind::Label, GROUPS) else {
            panic!("four fields do not fit");
        };
        assert_eq!(all.len(), 4);
        for field in ["rate_most", "wind_most", "rain_free", "watering_in"] {
            assert!(all.iter().any(|t| t.of_field(field).is_some()), "{field}");
        }
    }
}
