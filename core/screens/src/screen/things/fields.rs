//! The fields of a sheet as a form shows them: what a field takes decides its input.
//!
//! What a form sent is read in [`super::typed`], what stands in a field is said in [`super::said`].

use maud::{Markup, html};
use sward_book::ids::SheetId;
use sward_book::sheet::schema::{self, Field, FieldKind, NO, SAYS_NOTHING, YES};
use sward_book::sheet::{SheetDoc, SheetKind};
use sward_rules::Entered;
use sward_rules::quantity::{Dimension, Unit};

use super::typed::{REQUIRED, WITHHELD};
use super::{said, units};
use crate::Result;
use crate::ask::Ask;
use crate::part::form::FormPart;

/// The kinds of sheets that these screens write.
#[cfg(test)]
pub(super) const KINDS: [SheetKind; 4] = [
    SheetKind::Label,
    SheetKind::Equipment,
    SheetKind::Stock,
    SheetKind::Person,
];

/// Fields that stand together on a form, under a heading.
pub(super) struct Group {
    /// The heading's message; empty for the first.
    pub(super) heading: &'static str,
    /// The fields' keys.
    pub(super) keys: &'static [&'static str],
}

/// What a field is typed for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Purpose {
    /// To write it: what stands there is shown.
    Write,
    /// To type it with the thing in hand alone: nothing is shown, nothing chosen beforehand.
    Blind,
}

/// The groups of a sheet, filled with what stands in it; none for a new one.
pub(super) fn groups(
    ask: &Ask<'_>,
    form: &FormPart<'_>,
    kind: SheetKind,
    doc: Option<&SheetDoc>,
    groups: &[Group],
) -> Result<Markup> {
    let mut all = Vec::new();
    for group in groups {
        let mut inputs = Vec::new();
        for key in group.keys {
            let field = schema::field(kind, key).expect("the groups name fields of the table");
            let stored = doc.map(|doc| doc.text(key)).unwrap_or_default();
            inputs.push(input(ask, form, field, &stored, Purpose::Write)?);
        }
        all.push((group.heading, inputs));
    }
    Ok(html! {
        @for (heading, inputs) in &all {
            @if !heading.is_empty() { h2 { (ask.t(heading)) } }
            @for input in inputs { (input) }
        }
    })
}

/// One field's input.
pub(super) fn input(
    ask: &Ask<'_>,
    form: &FormPart<'_>,
    field: &Field,
    stored: &str,
    purpose: Purpose,
) -> Result<Markup> {
    let key = field.key;
    let label = said::name_key(key);
    let help = said::help_key(ask, key);
    let of = Of { ask, form, purpose };
    let input = match field.kind {
        FieldKind::Note => form.lines(key, &label, &help, Some(stored)),
        FieldKind::Day => form.day(key, &label, &help, Some(stored)),
        FieldKind::Number(dimensions) => of.number(key, &label, &help, dimensions, stored),
        FieldKind::LabelNumber(dimensions) => html! {
            (of.number(key, &label, &help, dimensions, stored))
            (form.tick(&format!("{key}.nothing"), &ask.t("field-says-nothing"), stored == SAYS_NOTHING && purpose == Purpose::Write))
        },
        FieldKind::LabelYesNo => of.radio(key, &label, &[YES, NO, SAYS_NOTHING], stored),
        FieldKind::YesNo => of.radio(key, &label, &[YES, NO], stored),
        FieldKind::WateringIn => of.watering_in(key, &label, stored),
        FieldKind::Choice(words) => {
            let options: Vec<(&str, String)> = words
                .iter()
                .map(|word| (*word, said::choice(ask, key, word)))
                .collect();
            form.choice(key, &label, &options, of.shown(stored))
        }
        FieldKind::Id(SheetKind::Label) => {
            form.select(key, &label, &products(ask, stored)?, Some(stored))
        }
        _ => form.text(key, &label, &help, Some(stored)),
    };
    let was = format!("{key}.was");
    Ok(html! {
        (input)
        @if purpose == Purpose::Write {
            // What stood there when the form was first shown, also after a slip and in a draft.
            (form.hidden(&was, &form.value(&was, Some(stored))))
        }
    })
}

/// The products to choose from, those without a name by a sign that they have none.
pub(in crate::screen) fn products(ask: &Ask<'_>, stored: &str) -> Result<Vec<(String, String)>> {
    let mut products: Vec<(String, String)> = ask
        .book()?
        .labels()?
        .into_iter()
        .map(|label| {
            let name = match label.product.as_str() {
                "" => ask.t("frame-not-known"),
                _ => label.product,
            };
            (label.sheet.to_string(), name)
        })
        .collect();
    products.sort_by(|(_, a), (_, b)| a.cmp(b));
    if stored.parse::<SheetId>().is_err() {
        products.insert(0, (String::new(), ask.t("field-choose-product")));
    } else if !products.iter().any(|(id, _)| id == stored) {
        products.insert(0, (stored.to_owned(), ask.t("frame-not-known")));
    }
    Ok(products)
}

/// What the inputs of one field share.
struct Of<'a> {
    ask: &'a Ask<'a>,
    form: &'a FormPart<'a>,
    purpose: Purpose,
}

impl Of<'_> {
    fn shown<'t>(&self, stored: &'t str) -> Option<&'t str> {
        (self.purpose == Purpose::Write).then_some(stored)
    }

    fn number(
        &self,
        name: &str,
        label: &str,
        help: &str,
        dimensions: &[Dimension],
        stored: &str,
    ) -> Markup {
        let entered = Entered::from_canonical(stored)
            .ok()
            .filter(|_| self.purpose == Purpose::Write);
        let unit = match (&entered, self.purpose) {
            (Some(entered), _) => Some(entered.unit()),
            (None, Purpose::Write) => units::chosen_first(dimensions, self.ask.words.units)
                .and_then(|unit| Unit::parse(unit).ok()),
            (None, Purpose::Blind) => None,
        };
        let nothing_chosen = self.ask.t("field-choose-unit");
        let (options, chosen) = units::options(self.ask.words, dimensions, unit, &nothing_chosen);
        let number = entered.map_or_else(String::new, |e| e.amount().to_string());
        self.form
            .number_in_units(name, label, help, &options, (&number, &chosen))
    }

    /// Yes, no, and where it is written that nothing is known of it.
    fn radio(&self, name: &str, label: &str, words: &[&'static str], stored: &str) -> Markup {
        let mut options: Vec<(&str, String)> = words
            .iter()
            .map(|word| (*word, said::yes_no(self.ask, word)))
            .collect();
        if self.purpose == Purpose::Write {
            options.push(("", self.ask.t("frame-not-known")));
        }
        self.form.choice(name, label, &options, self.shown(stored))
    }

    fn watering_in(&self, name: &str, label: &str, stored: &str) -> Markup {
        let (word, amount) = stored.split_once(' ').unwrap_or((stored, ""));
        let of = |wanted: &str| if word == wanted { amount } else { "" };
        let words = [REQUIRED, WITHHELD, SAYS_NOTHING];
        html! {
            (self.radio(name, label, &words, word))
            (self.number("watering_in.depth", "field-water-depth", "field-water-depth-help", &[Dimension::Length], of(REQUIRED)))
            (self.number("watering_in.time", "field-water-time", "field-water-time-help", &[Dimension::Time], of(WITHHELD)))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{equipment, label, people, stock};
    use super::*;

    /// What a form does not show: it has a button of its own.
    const PUT_AWAY: [&str; 2] = [schema::HIDDEN, "retired"];

    #[test]
    fn every_field_of_a_sheet_stands_on_its_form_once() {
        for (kind, groups) in [
            (SheetKind::Label, label::GROUPS),
            (SheetKind::Equipment, equipment::GROUPS),
            (SheetKind::Stock, stock::GROUPS),
            (SheetKind::Person, people::GROUPS),
        ] {
            let mut shown: Vec<&str> = groups.iter().flat_map(|g| g.keys).copied().collect();
            let mut there: Vec<&str> = schema::fields(kind)
                .iter()
                .map(|f| f.key)
                .filter(|key| !PUT_AWAY.contains(key))
                .collect();
            shown.sort_unstable();
            there.sort_unstable();
            assert_eq!(shown, there, "{kind:?}");
        }
    }
}
