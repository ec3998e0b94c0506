//! Two phones editing one sheet at once: the safer is acted on, both are shown, nothing is lost,
//! and both phones say the same after a swap and after a rebuild.

use sward_book::sheet::SheetKind;
use sward_book::testing::{TestEnv, ask, found, give};
use sward_rules::Entered;
use sward_rules::label::LabelSays;

use crate::{spreader, two, yard};

const EQUIPMENT: SheetKind = SheetKind::Equipment;
const HELP: SheetKind = SheetKind::HelpLines;
const YARD: SheetKind = SheetKind::Yard;

#[test]
fn of_two_calibrations_neither_rate_is_known_until_settled() {
    let mut crew = two();
    let sheet = spreader(&mut crew.lead);
    crew.swap();
    let first = [
        ("calibrated_rate", "2.4 lb/1000 ft2"),
        ("calibrated_on", "2026-06-01"),
    ];
    crew.lead.set_sheet(sheet, EQUIPMENT, &first).unwrap();
    let second = [
        ("calibrated_rate", "2.9 lb/1000 ft2"),
        ("calibrated_on", "2026-06-03"),
    ];
    crew.other.set_sheet(sheet, EQUIPMENT, &second).unwrap();
    crew.swap();
    let read = crew.lead.equipment_sheet(sheet).unwrap();
    assert_eq!(read, crew.other.equipment_sheet(sheet).unwrap());
    assert_eq!(read.calibrated_rate, None);
    assert_eq!(read.calibrated_on.unwrap().to_string(), "2026-06-01");
    let conflicts = crew.other.conflicts(sheet, EQUIPMENT).unwrap();
    assert_eq!(conflicts, crew.lead.conflicts(sheet, EQUIPMENT).unwrap());
    let of = |field: &str| {
        &conflicts
            .iter()
            .find(|c| c.conflict.field == field)
            .unwrap()
            .conflict
    };
    assert_eq!(conflicts.len(), 2);
    assert_eq!(of("calibrated_rate").acted_on, None);
    assert_eq!(of("calibrated_rate").values.len(), 2);
    assert_eq!(of("calibrated_on").values, ["2026-06-01", "2026-06-03"]);

    // Writing it settles it, the winning value too.
    crew.lead.set_sheet(sheet, EQUIPMENT, &first).unwrap();
    crew.swap();
    assert_eq!(crew.other.conflicts(sheet, EQUIPMENT).unwrap(), []);
    let read = crew.other.equipment_sheet(sheet).unwrap();
    assert_eq!(
        read.calibrated_rate,
        Some(Entered::parse("2.4 lb/1000 ft2").unwrap())
    );
}

#[test]
fn a_retirement_that_met_its_undoing_does_not_retire() {
    let mut crew = two();
    let sheet = spreader(&mut crew.lead);
    crew.swap();
    crew.lead
        .set_sheet(sheet, EQUIPMENT, &[("retired", "yes")])
        .unwrap();
    crew.other
        .set_sheet(sheet, EQUIPMENT, &[("retired", "no")])
        .unwrap();
    crew.swap();
    assert!(!crew.lead.equipment_sheet(sheet).unwrap().retired);
    assert!(!crew.other.equipment_sheet(sheet).unwrap().retired);
}

#[test]
fn of_two_counts_the_lower_and_of_two_licence_ends_the_earlier() {
    let mut crew = two();
    let label = crew
        .lead
        .add_label(&[("product", "Sample")])
        .unwrap()
        .to_string();
    let lot = crew
        .lead
        .add_sheet(SheetKind::Stock, &[("label", label.as_str())])
        .unwrap();
    let person = crew
        .lead
        .add_sheet(SheetKind::Person, &[("name", "A. Sample")])
        .unwrap();
    crew.swap();
    for (book, on_hand, until) in [
        (&mut crew.lead, "20 lb", "2027-01-31"),
        (&mut crew.other, "8 kg", "2026-12-31"),
    ] {
        book.set_sheet(lot, SheetKind::Stock, &[("on_hand", on_hand)])
            .unwrap();
        book.set_sheet(person, SheetKind::Person, &[("licence_until", until)])
            .unwrap();
    }
    crew.swap();
    for book in [&crew.lead, &crew.other] {
        // 8 kg is 17.6 lb.
        let on_hand = book.stock_sheet(lot).unwrap().on_hand;
        assert_eq!(on_hand, Some(Entered::parse("8 kg").unwrap()));
        let until = book.person_sheet(person).unwrap().licence_until.unwrap();
        assert_eq!(until.to_string(), "2026-12-31");
    }
}

#[test]
fn two_lists_of_help_lines_begun_at_once_are_read_as_one() {
    let mut crew = two();
    let mine = [
        ("kind", "poison"),
        ("phone", "000"),
        ("read_on", "2026-05-01"),
    ];
    let (sheet, line) = crew.lead.add_help_line(&mine).unwrap();
    let (other_sheet, _) = crew
        .other
        .add_help_line(&[("kind", "vet"), ("phone", "111")])
        .unwrap();
    assert_ne!(sheet, other_sheet);
    crew.swap();
    let lines = crew.lead.help_lines().unwrap();
    assert_eq!(lines, crew.other.help_lines().unwrap());
    assert_eq!(lines.lines.len(), 2);

    crew.lead
        .set_item(sheet, HELP, "lines", line, &[("phone", "222")])
        .unwrap();
    crew.other
        .set_item(sheet, HELP, "lines", line, &[("phone", "333")])
        .unwrap();
    crew.swap();
    let lines = crew.other.help_lines().unwrap().lines;
    let found = lines.iter().find(|l| l.id == line).unwrap();
    assert_eq!(found.other_phones.len(), 1);
    let conflict = crew.lead.conflicts(sheet, HELP).unwrap().remove(0);
    assert_eq!(conflict.item, Some(("lines".to_owned(), line)));
    assert_eq!(conflict.conflict.field, "phone");
    assert_eq!(
        conflict.conflict.acted_on.as_deref(),
        Some(found.phone.as_str())
    );
}

#[test]
fn contacts_and_marks_made_on_two_phones_are_both_there() {
    let mut crew = two();
    let yard = yard(&mut crew.lead);
    crew.swap();
    let contact = crew
        .lead
        .add_item(yard, YARD, "contacts", &[("name", "next door")])
        .unwrap();
    crew.other
        .add_item(yard, YARD, "contacts", &[("name", "owner")])
        .unwrap();
    crew.other
        .add_item(yard, YARD, "marks", &[("kind", "well"), ("east", "-3 m")])
        .unwrap();
    crew.lead
        .set_yard_fields(yard, &[("hives", "two, north fence")])
        .unwrap();
    crew.swap();
    for (book, wants) in [(&mut crew.lead, "no"), (&mut crew.other, "yes")] {
        let sheet = book.yard_sheet(yard).unwrap();
        assert_eq!((sheet.contacts.len(), sheet.marks.len()), (2, 1));
        assert_eq!(sheet.hives, "two, north fence");
        book.set_item(yard, YARD, "contacts", contact, &[("wants_notice", wants)])
            .unwrap();
    }
    crew.swap();
    let sheet = crew.lead.yard_sheet(yard).unwrap();
    let found = sheet.contacts.iter().find(|c| c.id == contact).unwrap();
    assert_eq!(found.wants_notice, Some(true));
}

#[test]
fn of_two_mosts_of_a_season_the_lower_is_acted_on_and_must_be_read_back_anew() {
    let mut crew = two();
    let label = crew
        .lead
        .add_label(&[("product", "Sample"), ("method", "granule")])
        .unwrap();
    crew.swap();
    let numbers = crew.lead.label_sheet(label).unwrap().numbers;
    crew.lead
        .set_label_fields(label, &[("season_most", "6 lb/1000 ft2")])
        .unwrap();
    crew.other
        .set_label_fields(label, &[("season_most", "5 lb/1000 ft2")])
        .unwrap();
    crew.swap();
    let read = crew.other.label_sheet(label).unwrap();
    assert_eq!(
        read.season_most,
        LabelSays::Value(Entered::parse("5 lb/1000 ft2").unwrap())
    );
    assert_ne!(read.numbers, numbers);
    assert_eq!(
        crew.lead.conflicts(label, SheetKind::Label).unwrap().len(),
        1
    );
}

#[test]
fn the_office_reads_but_does_not_write() {
    let folders = [tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap()];
    let mut lead = found(folders[0].path(), &TestEnv::new(1), "lead").unwrap();
    let (mut office, asked) = ask(folders[1].path(), &TestEnv::new(2), "office").unwrap();
    lead.admit(&asked, sward_book::fact::Role::Office).unwrap();
    let sheet = spreader(&mut lead);
    give(&lead, &mut office).unwrap();
    assert_eq!(office.equipment().unwrap().len(), 1);
    let error = office
        .set_sheet(sheet, EQUIPMENT, &[("setting", "5")])
        .unwrap_err();
    assert!(error.to_string().contains("may only read"), "{error}");
    assert_eq!(error.field(), None);
}
