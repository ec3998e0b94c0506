//! What is looked for among the records. It is kept on the desk, so that no name and no address
//! stands in an address of a page.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use sward_book::book::FindingWanted;

use crate::Result;
use crate::desk::Desk;
use crate::server::Form;
use crate::state::Which;

/// What is looked for; what is empty narrows nothing.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct Wanted {
    /// Words of a yard's name or address, or of a pest.
    pub(super) place: String,
    pub(super) from: Option<NaiveDate>,
    pub(super) to: Option<NaiveDate>,
    pub(super) product: String,
    pub(super) person: String,
}

impl Wanted {
    /// What was typed.
    pub(super) fn typed(form: &Form) -> Result<Self> {
        Ok(Self {
            place: form.text("place").to_owned(),
            from: form.day("from")?,
            to: form.day("to")?,
            product: form.text("product").to_owned(),
            person: form.text("person").to_owned(),
        })
    }

    /// What lies on the desk. What cannot be read looks for nothing.
    pub(super) fn read(desk: &Desk, which: Option<Which>) -> Result<Self> {
        let kept = desk.setting(name(which))?;
        Ok(kept
            .and_then(|text| serde_json::from_str(&text).ok())
            .unwrap_or_default())
    }

    /// Lays it on the desk.
    pub(super) fn keep(&self, desk: &Desk, which: Option<Which>) -> Result<()> {
        desk.set(
            name(which),
            &serde_json::to_string(self).unwrap_or_default(),
        )
    }

    /// Whether nothing is looked for.
    pub(super) fn is_all(&self) -> bool {
        *self == Self::default()
    }

    /// Whether nothing but days is looked for.
    pub(super) fn is_of_days(&self) -> bool {
        [&self.place, &self.product, &self.person]
            .iter()
            .all(|text| text.is_empty())
    }

    /// The same for the book, at most `limit` visits; zero: all.
    pub(super) fn for_book(&self, limit: usize) -> FindingWanted {
        let part = |text: &str| (!text.is_empty()).then(|| text.to_owned());
        FindingWanted {
            yard: None,
            text: part(&self.place),
            from_day: self.from,
            to_day: self.to,
            product: part(&self.product),
            person: part(&self.person),
            limit,
        }
    }
}

/// What is looked for in the invented season is not looked for in the own book.
fn name(which: Option<Which>) -> &'static str {
    match which {
        Some(Which::Season) => "records find, season",
        Some(Which::Own) | None => "records find",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::sent;

    #[test]
    fn what_is_looked_for_lies_on_the_desk_until_all_is_wanted() {
        let folder = tempfile::tempdir().unwrap();
        let desk = Desk::open(folder.path()).unwrap();
        let which = Some(Which::Own);
        assert!(Wanted::read(&desk, which).unwrap().is_all());
        let wanted =
            Wanted::typed(&sent(&[("place", " Corner "), ("from", "2026-06-01")])).unwrap();
        wanted.keep(&desk, which).unwrap();
        assert_eq!(Wanted::read(&desk, which).unwrap(), wanted);
        assert!(Wanted::read(&desk, Some(Which::Season)).unwrap().is_all());
        let asked = wanted.for_book(31);
        assert_eq!((asked.text.as_deref(), asked.limit), (Some("Corner"), 31));
        assert_eq!((asked.product, asked.person), (None, None));
        Wanted::default().keep(&desk, which).unwrap();
        assert!(Wanted::read(&desk, which).unwrap().is_all());
    }

    #[test]
    fn a_day_that_is_none_is_said_beside_its_field() {
        let trouble = Wanted::typed(&sent(&[("to", "June")])).unwrap_err();
        assert!(trouble.of_field("to").is_some(), "{trouble}");
    }
}
