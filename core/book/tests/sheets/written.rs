//! Writing several fields as one entry, items of lists, and what the typed readers say.

use sward_book::BookError;
use sward_book::fact::ReadBackHow;
use sward_book::ids::{ItemId, SheetId};
use sward_book::sheet::{EquipmentKind, HelpLineKind, MarkKind, SheetKind};
use sward_book::testing::{TestEnv, found};
use sward_rules::Entered;
use sward_rules::label::LabelSays;

use crate::{refused, spreader, yard};

const YARD: SheetKind = SheetKind::Yard;

fn amount(typed: &str) -> Entered {
    Entered::parse(typed).unwrap()
}

#[test]
fn several_fields_are_one_entry_or_none() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = found(folder.path(), &TestEnv::new(1), "lead").unwrap();
    let yard = yard(&mut book);
    let before = book.entry_count().unwrap();
    let typed = [
        ("gate", "side gate"),
        ("street_bearing", "405"),
        ("pets", "one dog"),
    ];
    let error = book.set_yard_fields(yard, &typed).unwrap_err();
    assert_eq!(refused(&error), "street_bearing");
    assert_eq!(book.entry_count().unwrap(), before);
    assert_eq!(book.yard_sheet(yard).unwrap().gate, "");

    let typed = [
        ("gate", "side gate"),
        ("street_bearing", "360"),
        ("pets", "one dog"),
    ];
    book.set_yard_fields(yard, &typed).unwrap();
    assert_eq!(book.entry_count().unwrap(), before + 1);
    let sheet = book.yard_sheet(yard).unwrap();
    assert_eq!(
        (sheet.gate.as_str(), sheet.pets.as_str()),
        ("side gate", "one dog")
    );
    assert_eq!(sheet.street_bearing_deg, Some(0.0));
    // The same again says nothing new.
    book.set_yard_fields(yard, &typed).unwrap();
    assert_eq!(book.entry_count().unwrap(), before + 1);
}

#[test]
fn what_must_stand_cannot_be_left_out_or_emptied() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = found(folder.path(), &TestEnv::new(1), "lead").unwrap();
    for (kind, field) in [
        (SheetKind::Yard, "name"),
        (SheetKind::Label, "product"),
        (SheetKind::Equipment, "name"),
        (SheetKind::Stock, "label"),
        (SheetKind::Person, "name"),
        (SheetKind::Plan, "visit"),
    ] {
        let error = book.add_sheet(kind, &[]).unwrap_err();
        assert_eq!(refused(&error), field);
    }
    let spreader = spreader(&mut book);
    let error = book
        .set_sheet(spreader, SheetKind::Equipment, &[("name", " ")])
        .unwrap_err();
    assert_eq!(refused(&error), "name");
    let yard = yard(&mut book);
    for (list, field) in [
        ("sections", "name"),
        ("contacts", "name"),
        ("marks", "kind"),
    ] {
        let error = book.add_item(yard, SheetKind::Yard, list, &[]).unwrap_err();
        assert_eq!(refused(&error), field);
    }
    let error = book
        .add_help_line(&[("name", "Poison centre")])
        .unwrap_err();
    assert_eq!(refused(&error), "phone");
    assert!(book.help_lines().unwrap().lines.is_empty());
}

#[test]
fn what_is_not_there_is_not_written_to() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = found(folder.path(), &TestEnv::new(1), "lead").unwrap();
    let yard = yard(&mut book);
    let before = book.entry_count().unwrap();
    let no_sheet = SheetId(uuid::Uuid::from_u128(1));
    let no_item = ItemId(uuid::Uuid::from_u128(1));
    let pet = [("pets", "none")];
    let name = [("name", "x")];
    for error in [
        book.set_sheet(no_sheet, YARD, &pet).unwrap_err(),
        book.set_sheet(yard, SheetKind::Person, &name).unwrap_err(),
        book.set_sheet(yard, YARD, &[("colour", "green")])
            .unwrap_err(),
        book.add_item(yard, YARD, "cars", &name).unwrap_err(),
        book.add_item(no_sheet, YARD, "contacts", &name)
            .unwrap_err(),
        book.set_item(yard, YARD, "contacts", no_item, &name)
            .unwrap_err(),
        book.hide_item(yard, YARD, "contacts", no_item, true)
            .unwrap_err(),
        book.equipment_sheet(yard).unwrap_err(),
    ] {
        assert!(matches!(error, BookError::NotFound { .. }), "{error}");
    }
    let stranger = no_sheet.to_string();
    let error = book
        .add_sheet(SheetKind::Stock, &[("label", stranger.as_str())])
        .unwrap_err();
    assert_eq!(refused(&error), "label");
    assert_eq!(book.entry_count().unwrap(), before);
}

#[test]
fn a_yard_sketch_with_its_marks_and_contacts() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = found(folder.path(), &TestEnv::new(1), "lead").unwrap();
    let yard = yard(&mut book);
    let pond = [
        ("kind", "water"),
        ("name", "pond"),
        ("east", "-4.5 m"),
        ("north", "30 ft"),
    ];
    let pond = book.add_item(yard, YARD, "marks", &pond).unwrap();
    let next_door = [("name", "next door"), ("wants_notice", "yes")];
    let next_door = book.add_item(yard, YARD, "contacts", &next_door).unwrap();
    let front = book
        .add_item(yard, YARD, "sections", &[("name", "front")])
        .unwrap();
    let place = [("east", "2 m"), ("north", "-1 m"), ("turn", "90")];
    book.set_item(yard, YARD, "sections", front, &place)
        .unwrap();

    let sheet = book.yard_sheet(yard).unwrap();
    let mark = &sheet.marks[0];
    assert_eq!((mark.id, mark.kind), (pond, Some(MarkKind::Water)));
    assert!((mark.east.unwrap().metres() + 4.5).abs() < 1e-9);
    assert!((mark.north.unwrap().metres() - 9.144).abs() < 1e-9);
    assert_eq!(sheet.contacts[0].wants_notice, Some(true));
    let section = &sheet.sections[0];
    assert_eq!(
        (section.turn_deg, section.outline.as_ref()),
        (Some(90.0), None)
    );
    assert!((section.north.unwrap().metres() + 1.0).abs() < 1e-9);

    book.hide_item(yard, YARD, "contacts", next_door, true)
        .unwrap();
    assert!(book.yard_sheet(yard).unwrap().contacts[0].hidden);
    book.hide_item(yard, YARD, "contacts", next_door, false)
        .unwrap();
    assert!(!book.yard_sheet(yard).unwrap().contacts[0].hidden);
}

#[test]
fn equipment_stock_people_and_help_lines_are_listed() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = found(folder.path(), &TestEnv::new(1), "lead").unwrap();
    let spreader = spreader(&mut book);
    let calibration = [
        ("setting", "4 1/2"),
        ("calibrated_on", "2026-06-01"),
        ("calibrated_rate", "2.4 lb/1000 ft2"),
        ("pace", "3 mph"),
        ("holds", "50 lb"),
    ];
    book.set_sheet(spreader, SheetKind::Equipment, &calibration)
        .unwrap();
    let (id, sheet) = book.equipment().unwrap().remove(0);
    assert_eq!(
        (id, sheet.kind),
        (spreader, Some(EquipmentKind::RotarySpreader))
    );
    assert_eq!(sheet.calibrated_rate, Some(amount("2.4 lb/1000 ft2")));
    assert_eq!(sheet.calibrated_on.unwrap().to_string(), "2026-06-01");
    assert!(!sheet.retired);
    book.set_sheet(spreader, SheetKind::Equipment, &[("retired", "yes")])
        .unwrap();
    assert!(book.equipment_sheet(spreader).unwrap().retired);

    let label = book
        .add_label(&[("product", "Sample")])
        .unwrap()
        .to_string();
    let lot = [("label", label.as_str()), ("on_hand", "10 lb")];
    let lot = book.add_sheet(SheetKind::Stock, &lot).unwrap();
    assert_eq!(book.stock_sheet(lot).unwrap().is_short(), None);
    book.set_sheet(lot, SheetKind::Stock, &[("least", "160 oz")])
        .unwrap();
    assert_eq!(book.stock().unwrap()[0].1.is_short(), Some(true));
    book.set_sheet(lot, SheetKind::Stock, &[("least", "9 lb")])
        .unwrap();
    assert_eq!(book.stock_sheet(lot).unwrap().is_short(), Some(false));

    let typed = [("name", "A. Sample"), ("licence_until", "2027-01-31")];
    book.add_sheet(SheetKind::Person, &typed).unwrap();
    let (_, person) = book.people().unwrap().remove(0);
    assert_eq!(person.licence_until.unwrap().to_string(), "2027-01-31");

    let line = [("kind", "vet"), ("phone", "000"), ("read_on", "2026-05-01")];
    let (sheet, item) = book.add_help_line(&line).unwrap();
    let line = book.help_lines().unwrap().lines.remove(0);
    assert_eq!((line.sheet, line.id), (sheet, item));
    assert_eq!(line.kind, Some(HelpLineKind::Vet));
    // The second line goes into the same list.
    let (second, _) = book.add_help_line(&[("phone", "111")]).unwrap();
    assert_eq!(second, sheet);
}

#[test]
fn a_plan_names_what_it_goes_on_with() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = found(folder.path(), &TestEnv::new(1), "lead").unwrap();
    let yard = yard(&mut book);
    let spreader = spreader(&mut book);
    let section = book
        .add_item(yard, SheetKind::Yard, "sections", &[("name", "front")])
        .unwrap();
    let visit = book.open_visit(yard, "grubs").unwrap();
    let (equipment, sections) = (spreader.to_string(), section.to_string());
    book.set_plan(
        visit,
        &[
            ("equipment", equipment.as_str()),
            ("sections", sections.as_str()),
            ("gear", "gloves"),
            ("less_uncertainty", "yes"),
        ],
    )
    .unwrap();
    let plan = book.plan(visit).unwrap().unwrap();
    assert_eq!(plan.equipment, Some(spreader));
    assert_eq!(plan.stock, None);
    assert_eq!(plan.sections, [section]);
    assert_eq!(plan.gear, "gloves");
    assert!(plan.less_uncertainty);
}

#[test]
fn the_most_of_a_season_is_read_back_and_words_are_not() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = found(folder.path(), &TestEnv::new(1), "lead").unwrap();
    let label = book
        .add_label(&[
            ("product", "Sample"),
            ("method", "granule"),
            ("rate_most", "2.5 lb/1000 ft2"),
            ("season_most", "5 lb/1000 ft2"),
            ("first_aid", "as printed"),
        ])
        .unwrap();
    let sheet = book.label_sheet(label).unwrap();
    assert_eq!(sheet.season_most, LabelSays::Value(amount("5 lb/1000 ft2")));
    assert_eq!(sheet.words.first_aid, "as printed");
    let keys: Vec<_> = book
        .to_read_back(label)
        .unwrap()
        .into_iter()
        .map(|(key, _)| key)
        .collect();
    assert_eq!(keys, ["rate_most", "season_most"]);
    let again = [
        ("rate_most", "2.5 lb/1000 ft2"),
        ("season_most", "5 lb/1000 ft2"),
    ];
    book.read_back(label, &again, ReadBackHow::TypedTwice, "")
        .unwrap();
    assert!(book.label(label).unwrap().read_back.is_some());
    book.set_label_fields(label, &[("spill", "as printed"), ("forbids", "ponds")])
        .unwrap();
    assert!(book.label(label).unwrap().read_back.is_some());
    book.set_label_fields(label, &[("season_most", "6 lb/1000 ft2")])
        .unwrap();
    assert_eq!(book.label(label).unwrap().read_back, None);

    for (typed, field) in [
        ([("season_most", "2 lb/1000 ft2")], "season_most"),
        ([("season_most", "2 gal/1000 ft2")], "season_most"),
        ([("rate_least", "3 lb/1000 ft2")], "rate_least"),
    ] {
        let error = book.set_label_fields(label, &typed).unwrap_err();
        assert_eq!(refused(&error), field);
    }
}

#[test]
fn first_aid_is_there_before_the_method_is() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = found(folder.path(), &TestEnv::new(1), "lead").unwrap();
    let label = book
        .add_sheet(
            SheetKind::Label,
            &[("product", "Sample"), ("first_aid", "as printed")],
        )
        .unwrap();
    assert!(book.label_sheet(label).is_err());
    assert_eq!(book.label_words(label).unwrap().first_aid, "as printed");
}
