//! Records as JSON: the exact form, for other programs.

use serde::Serialize;
use sward_rules::record_rules::CHECK_YOUR_RULE;

use super::{EXPORT_FORMAT, IncidentRecord, Record};

#[derive(Serialize)]
struct Document<'a> {
    format: u64,
    note: &'static str,
    records: &'a [Record],
    incidents: &'a [IncidentRecord],
}

/// Records and incidents as one JSON document: the format's number first, fields in a fixed order, two
/// spaces of indent, a line feed at the end. Texts are as they were entered.
#[allow(
    clippy::missing_panics_doc,
    reason = "every part of a record has a form in JSON"
)]
pub fn to_json(records: &[Record], incidents: &[IncidentRecord]) -> String {
    let document = Document {
        format: EXPORT_FORMAT,
        note: CHECK_YOUR_RULE,
        records,
        incidents,
    };
    let mut text =
        serde_json::to_string_pretty(&document).expect("every part of a record has a form in JSON");
    text.push('\n');
    text
}
