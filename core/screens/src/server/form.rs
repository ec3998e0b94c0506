//! Reading what a browser sends: fields and files, bounded.
//!
//! Numbers, days and times are read here too, so that every form says the same of the same slip.

use chrono::{LocalResult, NaiveDate, NaiveTime, TimeZone as _};
use sward_rules::Entered;

use crate::trouble::Wrong;
use crate::{Result, Trouble};

/// The most fields of one form; the longest list of GPS fixes is one field.
pub(crate) const FIELDS_MOST: usize = 500;

/// Browsers end the lines of a text area by two characters; a record by one.
pub(super) fn with_plain_line_ends(text: &str) -> String {
    text.replace("\r\n", "\n")
}

/// A form as it was sent.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Form {
    /// Names and values in their order.
    pub(crate) fields: Vec<(String, String)>,
    /// Files by the name of their field, empty choices left out.
    pub(crate) files: Vec<(String, Vec<u8>)>,
}

impl Form {
    /// Reads `a=1&b=2`.
    pub(crate) fn from_urlencoded(body: &[u8]) -> Result<Self> {
        let fields: Vec<(String, String)> = form_urlencoded::parse(body)
            .take(FIELDS_MOST + 1)
            .map(|(name, value)| (name.into_owned(), with_plain_line_ends(&value)))
            .collect();
        if fields.len() > FIELDS_MOST {
            return Err(Trouble::TooLarge);
        }
        Ok(Self {
            fields,
            files: Vec::new(),
        })
    }

    /// What stands behind the question mark of an address, as if it had been sent.
    pub(crate) fn of_query(query: &[(String, String)]) -> Self {
        Self {
            fields: query.to_vec(),
            files: Vec::new(),
        }
    }

    /// What is typed in a field, trimmed; empty where nothing is.
    pub(crate) fn text(&self, field: &str) -> &str {
        self.raw(field).unwrap_or_default().trim()
    }

    /// What is typed in a field, as it is; none when the form has no such field.
    pub(crate) fn raw(&self, field: &str) -> Option<&str> {
        self.fields
            .iter()
            .find(|(name, _)| name == field)
            .map(|(_, value)| value.as_str())
    }

    /// Every value of a field that may be there more than once.
    pub(crate) fn all<'a>(&'a self, field: &'a str) -> impl Iterator<Item = &'a str> {
        self.fields
            .iter()
            .filter(move |(name, _)| name == field)
            .map(|(_, value)| value.as_str())
    }

    /// Whether a box is ticked.
    pub(crate) fn is_ticked(&self, field: &str) -> bool {
        !self.text(field).is_empty()
    }

    /// A number field as "number unit", the unit fixed by the form; none where it is empty.
    pub(crate) fn with_unit(&self, field: &str) -> Option<String> {
        let number = self.text(field);
        if number.is_empty() {
            return None;
        }
        let unit = self.text(&format!("{field}.unit"));
        // A person may type the unit all the same: then theirs is meant, and the rules read it.
        if number.chars().any(char::is_alphabetic) || number.contains('%') {
            return Some(number.to_owned());
        }
        Some(format!("{number} {unit}"))
    }

    /// An amount; none where the field is empty.
    ///
    /// # Errors
    /// [`Trouble::Field`] by way of the rules' own words.
    pub(crate) fn amount(&self, field: &str) -> Result<Option<Entered>> {
        self.with_unit(field)
            .map(|text| Entered::parse(&text).map_err(|error| Trouble::in_field(field, error)))
            .transpose()
    }

    /// An amount that must be there.
    ///
    /// # Errors
    /// [`Trouble::Field`].
    pub(crate) fn amount_needed(&self, field: &str) -> Result<Entered> {
        self.amount(field)?
            .ok_or_else(|| Trouble::field(field, Wrong::Missing))
    }

    /// A whole number between two others; none where the field is empty.
    ///
    /// # Errors
    /// [`Trouble::Field`].
    pub(crate) fn whole(&self, field: &str, least: i64, most: i64) -> Result<Option<i64>> {
        let text = self.text(field);
        if text.is_empty() {
            return Ok(None);
        }
        let number: i64 = text
            .parse()
            .map_err(|_| Trouble::field(field, Wrong::NotANumber))?;
        if number < least {
            return Err(Trouble::field(field, Wrong::Least { least }));
        }
        if number > most {
            return Err(Trouble::field(field, Wrong::Most { most }));
        }
        Ok(Some(number))
    }

    /// A day; none where the field is empty.
    ///
    /// # Errors
    /// [`Trouble::Field`].
    pub(crate) fn day(&self, field: &str) -> Result<Option<NaiveDate>> {
        match self.text(field) {
            "" => Ok(None),
            text => NaiveDate::parse_from_str(text, "%Y-%m-%d")
                .map(Some)
                .map_err(|_| Trouble::field(field, Wrong::NotADay)),
        }
    }

    /// A time of day on a day, in a zone, as milliseconds since 1970 in UTC; none where it is empty.
    ///
    /// # Errors
    /// [`Trouble::Field`], also for an hour that comes twice or never when the clocks change.
    pub(crate) fn time(
        &self,
        field: &str,
        day: NaiveDate,
        zone: chrono_tz::Tz,
    ) -> Result<Option<i64>> {
        let text = self.text(field);
        if text.is_empty() {
            return Ok(None);
        }
        let time = NaiveTime::parse_from_str(text, "%H:%M")
            .or_else(|_| NaiveTime::parse_from_str(text, "%H:%M:%S"))
            .map_err(|_| Trouble::field(field, Wrong::NotATime))?;
        match zone.from_local_datetime(&day.and_time(time)) {
            LocalResult::Single(at) => Ok(Some(at.timestamp_millis())),
            LocalResult::None | LocalResult::Ambiguous(..) => {
                Err(Trouble::field(field, Wrong::ClockChange))
            }
        }
    }

    /// The file of a field.
    ///
    /// # Errors
    /// [`Trouble::Field`] when none was chosen.
    pub(crate) fn file(&self, field: &str) -> Result<&[u8]> {
        self.files
            .iter()
            .find(|(name, _)| name == field)
            .map(|(_, bytes)| bytes.as_slice())
            .ok_or_else(|| Trouble::field(field, Wrong::NoFile))
    }
}
