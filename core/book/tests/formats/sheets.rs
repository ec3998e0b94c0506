//! Sheets: the number of each kind, and the table of fields, whose keys and words are stored.

use std::fmt::Write as _;

use sward_book::sheet::SheetKind;
use sward_book::sheet::schema::{Field, fields, lists, required};

fn row(out: &mut String, indent: &str, field: &Field) {
    let back = if field.read_back { ", read back" } else { "" };
    writeln!(
        out,
        "{indent}{}: {:?}, {:?}{back}",
        field.key, field.kind, field.safer
    )
    .unwrap();
}

#[test]
fn the_table_of_fields() {
    let mut out = String::new();
    for number in 0_u8.. {
        // A new kind takes the next number, and is seen here.
        let Ok(kind) = minicbor::decode::<SheetKind>(&[number]) else {
            assert_eq!(number, 7, "kinds of sheets");
            break;
        };
        assert_eq!(minicbor::to_vec(kind).unwrap(), [number]);
        writeln!(out, "{number} {kind:?}, required: {:?}", required(kind)).unwrap();
        for field in fields(kind) {
            row(&mut out, "  ", field);
        }
        for list in lists(kind) {
            writeln!(out, "  [{}], required: {:?}", list.key, list.required).unwrap();
            for field in list.fields {
                row(&mut out, "    ", field);
            }
        }
    }
    insta::assert_snapshot!("sheet_fields", out);
}
