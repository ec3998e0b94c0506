//! The two forms of an export: CSV by RFC 4180, and JSON.

use proptest::prelude::*;
use sward_book::export::{to_csv, to_json};

use crate::scene::{Phone, cells, sample_record};

#[test]
fn csv_reads_back_to_the_same_cells() {
    let mut phone = Phone::founder(false);
    phone.treated_visit();
    let csv = to_csv(&phone.records());
    assert!(csv.ends_with("\r\n"));
    // RFC 4180: a quote inside a quoted cell is doubled.
    assert!(csv.contains("\"Test \"\"granule\"\", fine\""), "{csv}");
    let rows = cells(&csv);
    assert_eq!(rows.len(), 1);
    let record = phone.only();
    let expected = [
        ("yard", "Corner, \"north\""),
        ("product", "Test \"granule\", fine"),
        ("note", "Gate left open;\n\"swept\" the drive"),
        ("active_ingredients", "bifenthrin 0.2 %"),
        ("rate", "2.5 lb/1000 ft²"),
        ("product_total", "3.75 lb"),
        ("water_total", ""),
        ("loads", "1"),
        ("temperatures", "77 °F"),
        ("wind_from_degrees", "270; 280"),
        ("findings", "not known"),
        ("acknowledged_unknown", "rain"),
        ("seen_dry", "Front: not yet"),
        ("counts", "chinch bug: 44 in 2 samples, 22.0 per ft²"),
        ("record_id", &record.visit.to_string()),
        ("frozen_hash", &record.frozen.unwrap().to_string()),
        ("entry_hash", &record.fact.entry.to_string()),
    ];
    for (column, cell) in expected {
        assert_eq!(rows[0][column], cell, "{column}");
    }
}

#[test]
fn a_total_that_cannot_be_added_up_is_no_empty_cell() {
    let mut record = sample_record().clone();
    record.treatment.as_mut().unwrap().product_total = None;
    let row = cells(&to_csv(&[record])).remove(0);
    assert_eq!(row["product_total"], "cannot be added up");
    assert_eq!(row["water_total"], "");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn no_cell_is_a_formula_and_no_text_is_lost(
        text in "[=+@\\-\t\r\n＝a\",;' 0\u{7}]{0,6}",
    ) {
        let mut record = sample_record().clone();
        record.yard_name.clone_from(&text);
        record.note.clone_from(&text);
        let row = cells(&to_csv(&[record])).remove(0);
        let told = text.replace('\u{7}', "\u{fffd}");
        let trap = told.starts_with(['=', '+', '-', '@', '＝', '\t', '\r', '\n']);
        let cell = if trap { format!("'{told}") } else { told };
        prop_assert_eq!(&row["yard"], &cell);
        prop_assert_eq!(&row["note"], &cell);
    }
}

#[test]
fn one_record_in_json() {
    let json = to_json(std::slice::from_ref(sample_record()), &[]);
    assert!(json.starts_with("{\n  \"format\": 3,\n"));
    assert!(json.ends_with("}\n"));
    insta::assert_snapshot!(json);
}

#[test]
fn the_columns_of_csv() {
    let csv = to_csv(&[]);
    insta::assert_snapshot!(csv.trim_end().replace(',', "\n"));
}
