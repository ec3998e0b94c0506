//! An incident is told whether a result stands beside it or not.

use sward_book::action::Incident;
use sward_book::export::{RecordFilter, incidents, incidents_to_csv, records, to_json};
use sward_book::fact::IncidentWhat;

use crate::scene::{Phone, cells};

#[test]
fn an_incident_without_visit_or_yard_is_in_the_export() {
    let mut phone = Phone::founder(false);
    let yard = phone.yard("America/New_York");
    let visit = phone.looked_at(yard);
    let at_ms = phone.now_ms();
    let mut file = |told: &str, yard, visit, hours_ago: i64| {
        phone
            .book
            .file_incident(Incident {
                adds_to: None,
                yard,
                visit,
                what: IncidentWhat::Spill,
                told: told.to_owned(),
                done: "=swept up".to_owned(),
                who_called: String::new(),
                happened_utc_ms: at_ms - hours_ago * 3_600_000,
            })
            .unwrap()
    };
    let nowhere = file("in the truck", None, None, 3);
    let in_yard = file("at the gate", Some(yard), None, 2);
    let on_visit = file("on a visit without result", None, Some(visit), 1);
    let book = &phone.book;
    assert_eq!(records(book, &RecordFilter::default()).unwrap(), []);

    let all = incidents(book, &RecordFilter::default()).unwrap();
    let names: Vec<_> = all.iter().map(|i| i.incident.incident).collect();
    assert_eq!(names, [nowhere, in_yard, on_visit]);
    assert_eq!(all[0].yard_name, "");
    assert_eq!(all[2].yard, Some(yard), "the visit's yard");
    assert!(all[2].incident.happened.local.ends_with("-04:00"));

    let of_yard = RecordFilter {
        yard: Some(yard),
        ..RecordFilter::default()
    };
    let there = incidents(book, &of_yard).unwrap();
    let names: Vec<_> = there.iter().map(|i| i.incident.incident).collect();
    assert_eq!(names, [in_yard, on_visit], "the visit's yard too");
    let by_nobody = RecordFilter {
        person: Some("nobody".to_owned()),
        ..RecordFilter::default()
    };
    assert_eq!(incidents(book, &by_nobody).unwrap(), []);

    let rows = cells(&incidents_to_csv(&all));
    assert_eq!(rows.len(), 3);
    assert_eq!(rows[0]["told"], "in the truck");
    assert_eq!(rows[1]["address"], "12 Test Lane, Sampletown, NY 00000");
    assert_eq!(rows[2]["done"], "'=swept up", "no formula");
    assert_eq!(rows[2]["written_by"], "Lead Example");
    let json: serde_json::Value = serde_json::from_str(&to_json(&[], &all)).unwrap();
    assert_eq!(json["incidents"][2]["said"][0]["done"], "=swept up");
}
