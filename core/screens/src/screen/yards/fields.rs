//! The fields of a yard sheet that are typed freely: their keys in the book and their words.
//!
//! What may stand in each is for the book to say.

use sward_book::BookError;
use sward_book::sheet::YardSheet;

use crate::ask::Ask;
use crate::{Result, Trouble};

/// A field of a yard sheet.
pub(super) struct YardField {
    /// Its key in the book.
    pub(super) key: &'static str,
    /// Its name's message.
    pub(super) label: &'static str,
    /// What helps to fill it; may be empty.
    pub(super) help: &'static str,
    /// What stands in it.
    pub(super) value: fn(&YardSheet) -> &str,
}

/// What may be asked about a place, in the order in which it is looked at.
pub(super) const PLACE: [YardField; 11] = [
    YardField {
        key: "people",
        label: "yards-people",
        help: "yards-people-help",
        value: |s| &s.people,
    },
    YardField {
        key: "children",
        label: "yards-children",
        help: "yards-children-help",
        value: |s| &s.children,
    },
    YardField {
        key: "pets",
        label: "yards-pets",
        help: "",
        value: |s| &s.pets,
    },
    YardField {
        key: "hives",
        label: "yards-hives",
        help: "",
        value: |s| &s.hives,
    },
    YardField {
        key: "well",
        label: "yards-well",
        help: "",
        value: |s| &s.well,
    },
    YardField {
        key: "gate",
        label: "yards-gate",
        help: "",
        value: |s| &s.gate,
    },
    YardField {
        key: "mowing",
        label: "yards-mowing",
        help: "",
        value: |s| &s.mowing,
    },
    YardField {
        key: "irrigation",
        label: "yards-irrigation",
        help: "",
        value: |s| &s.irrigation,
    },
    YardField {
        key: "others_applied",
        label: "yards-others",
        help: "yards-others-help",
        value: |s| &s.others_applied,
    },
    YardField {
        key: "notice",
        label: "yards-notice",
        help: "yards-notice-help",
        value: |s| &s.notice,
    },
    YardField {
        key: "note",
        label: "yards-note",
        help: "",
        value: |s| &s.note,
    },
];

/// A field of a yard in words; a key this program does not know as it is.
pub(super) fn field_words(ask: &Ask<'_>, key: &str) -> String {
    let label = match key {
        "name" => "yards-name",
        "address" => "yards-address",
        "state" => "yards-state",
        "zone" => "yards-zone",
        "street_bearing" => "yards-street",
        "position" => "yards-position",
        "kind" => "yards-mark-kind",
        "phone" => "yards-phone",
        "role" => "yards-role",
        "wants_notice" => "yards-wants-notice",
        "east" => "yards-east",
        "north" => "yards-north",
        "turn" => "yards-turn",
        _ => match PLACE.iter().find(|f| f.key == key) {
            Some(field) => field.label,
            None => return key.replace('_', " "),
        },
    };
    ask.t(label)
}

/// Puts an error of the book beside the field that it names.
pub(super) fn beside<T>(result: sward_book::Result<T>) -> Result<T> {
    result.map_err(|error: BookError| match error.field().map(str::to_owned) {
        Some(field) => Trouble::in_field(field, error),
        None => error.into(),
    })
}

/// Lines as the book takes them: browsers send a carriage return before every line feed.
pub(super) fn lines_of(text: &str) -> String {
    text.replace("\r\n", "\n")
}

/// A number of degrees as the book reads it.
pub(super) fn degrees_of(text: &str) -> String {
    if text.is_empty() || text.contains(char::is_alphabetic) || text.contains('°') {
        text.to_owned()
    } else {
        format!("{text} deg")
    }
}

/// A length to one side as the book reads it; the unit is the form's unless one was typed.
pub(super) fn offset_of(text: &str, unit: &str) -> String {
    if text.is_empty() || text.contains(char::is_alphabetic) {
        text.to_owned()
    } else {
        format!("{text} {unit}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_are_added_unless_typed() {
        assert_eq!(degrees_of("90"), "90 deg");
        assert_eq!(degrees_of("90 deg"), "90 deg");
        assert_eq!(degrees_of(""), "");
        assert_eq!(offset_of("-12.5", "ft"), "-12.5 ft");
        assert_eq!(offset_of("3 m", "ft"), "3 m");
        assert_eq!(offset_of("", "ft"), "");
    }

    #[test]
    fn every_field_is_one_of_the_books() {
        use sward_book::sheet::{SheetKind, schema};
        for field in &PLACE {
            assert!(
                schema::field(SheetKind::Yard, field.key).is_some(),
                "{}",
                field.key
            );
        }
    }
}
