//! Which fields some rules ask for, and which of them a record holds.

use sward_book::export::{Outcome, Record, fields_asked};
use sward_rules::label::Method;
use sward_rules::record_rules::{Asked, FieldName, Filled, NEW_YORK_33_1205, RULES};

use crate::scene::sample_record;

#[test]
fn each_rule_asks_for_its_fields() {
    use FieldName as F;
    let expected: [(&str, usize, &[F]); 6] = [
        ("USDA 7 CFR 110.3", 9, &[]),
        ("New York ECL 33-1205", 8, &[]),
        ("Minnesota Stat. 18B.37", 14, &[F::Customer]),
        ("Texas 4 TAC chapter 7", 15, &[F::Customer, F::Equipment]),
        (
            "Georgia 40-21-5",
            11,
            &[F::Equipment, F::UnexpectedOccurrence, F::Disposal],
        ),
        ("Pennsylvania 7 Pa. Code 128.35", 9, &[F::Customer]),
    ];
    for (rule, (name, count, in_text)) in RULES.into_iter().zip(expected) {
        assert_eq!(rule.name, name);
        let asked = fields_asked(sample_record(), rule);
        assert_eq!(asked.len(), count, "{name}");
        for Asked { field, filled } in asked {
            let want = if in_text.contains(&field) {
                Filled::LookInText
            } else {
                Filled::Yes
            };
            assert_eq!(filled, want, "{name}: {field:?}");
        }
    }
}

#[test]
fn a_field_that_is_empty_is_told_as_empty() {
    use FieldName as F;
    type Emptied = (F, fn(&mut Record));
    let emptied: [Emptied; 11] = [
        // A spray without its water is no whole mix.
        (F::TotalMix, |r| {
            r.treatment.as_mut().unwrap().method = Method::FoliarSpray;
        }),
        (F::LicenceNumber, |r| {
            r.applicator.as_mut().unwrap().licence.clear();
        }),
        (F::Applicator, |r| r.applicator = None),
        (F::Temperature, |r| r.temperatures.clear()),
        (F::WindSpeed, |r| r.wind.readings.clear()),
        (F::WindDirection, |r| {
            r.wind
                .readings
                .iter_mut()
                .for_each(|w| w.from_degrees = None);
        }),
        (F::TotalProduct, |r| {
            r.treatment.as_mut().unwrap().product_total = None;
        }),
        (F::Area, |r| {
            r.treatment.as_mut().unwrap().sections[0].area.clear();
        }),
        (F::AddressWithZip, |r| {
            r.address = "12345 Test Lane, Sampletown".to_owned();
        }),
        (F::Location, |r| r.address = " ".to_owned()),
        (F::Equipment, |r| r.note.clear()),
    ];
    for (field, empty) in emptied {
        let mut record = sample_record().clone();
        empty(&mut record);
        let rules = RULES.into_iter().filter(|rule| rule.asks_for(field));
        assert!(rules.clone().count() > 0, "{field:?}");
        for rule in rules {
            let asked = fields_asked(&record, rule);
            assert!(
                asked.contains(&Asked {
                    field,
                    filled: Filled::No
                }),
                "{}: {field:?}",
                rule.name
            );
        }
    }
    let mut record = sample_record().clone();
    record.address = "12 Test Lane, NY 00000-0000, USA".to_owned();
    let zip = Asked {
        field: F::AddressWithZip,
        filled: Filled::Yes,
    };
    assert!(fields_asked(&record, &NEW_YORK_33_1205).contains(&zip));
    record.outcome = Outcome::NotTreated;
    assert_eq!(fields_asked(&record, &NEW_YORK_33_1205), vec![]);
}
