//! Sheets: two people editing one at once.

use sward_book::ids::SheetId;
use sward_book::sheet::{SheetKind, must_be_settled};
use sward_rules::label::LabelSays;
use sward_tests::crew::{Crew, amount, label, lawn, yard};
use sward_tests::orders::{for_every_order, with_observer};

fn with_label() -> (Crew, sward_tests::orders::Observer, SheetId) {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let sheet = label(crew.book(0), "4 h").unwrap();
    crew.swap_all().unwrap();
    (crew, observer, sheet)
}

#[test]
fn of_two_label_limits_the_safer_is_acted_on_and_both_show() {
    let (mut crew, observer, sheet) = with_label();
    // Lower wind, longer wait, "dry" rather than not: whatever Automerge's own winner is.
    crew.book(1)
        .set_label(sheet, "wind_most", "15 mph")
        .unwrap();
    crew.book(2).set_label(sheet, "wind_most", "4 m/s").unwrap();
    crew.book(1)
        .set_label(sheet, "keep_off_wait", "30 min")
        .unwrap();
    crew.book(2)
        .set_label(sheet, "keep_off_wait", "12 h")
        .unwrap();
    crew.book(1)
        .set_label(sheet, "keep_off_until_dry", "no")
        .unwrap();
    crew.book(2)
        .set_label(sheet, "keep_off_until_dry", "nothing")
        .unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let read = book.label_sheet(sheet).unwrap();
        assert_eq!(read.label.wind_most, LabelSays::Value(amount("4 m/s")));
        assert_eq!(read.label.keep_off.wait, LabelSays::Value(amount("12 h")));
        // "No" beside "the label is silent": nobody said yes, so it is not known.
        assert_eq!(read.label.keep_off.until_dry, LabelSays::Unfilled);
        let wind = read
            .conflicts
            .iter()
            .find(|c| c.field == "wind_most")
            .unwrap();
        assert_eq!(wind.values.len(), 2);
        assert_eq!(wind.acted_on.as_deref(), Some("4 m/s"));
        assert_eq!(book.label(sheet).unwrap().read_back, None);
    });
}

#[test]
fn a_safer_most_below_the_least_is_not_known_until_settled() {
    let (mut crew, observer, sheet) = with_label();
    crew.book(0)
        .set_label(sheet, "rate_least", "2 lb/1000 ft2")
        .unwrap();
    crew.swap_all().unwrap();
    crew.book(1)
        .set_label(sheet, "rate_most", "3 lb/1000 ft2")
        .unwrap();
    crew.book(2)
        .set_label(sheet, "rate_least", "1 lb/1000 ft2")
        .unwrap();
    crew.book(2)
        .set_label(sheet, "rate_most", "1.5 lb/1000 ft2")
        .unwrap();
    crew.book(1)
        .set_label(sheet, "rate_least", "1.8 lb/1000 ft2")
        .unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let read = book.label_sheet(sheet).unwrap();
        // The least has no safe side, so it is not known; the most is the lower of the two.
        assert_eq!(read.label.rate_least, LabelSays::Unfilled);
        assert_eq!(
            read.label.rate_most,
            LabelSays::Value(amount("1.5 lb/1000 ft2"))
        );
        assert!(read.conflicts.iter().any(must_be_settled));
    });
    crew.book(0)
        .set_label(sheet, "rate_least", "1 lb/1000 ft2")
        .unwrap();
    crew.swap_all().unwrap();
    crew.book(1)
        .set_label(sheet, "rate_least", "2 lb/1000 ft2")
        .unwrap_err();
    for_every_order(&mut crew, &observer, |book| {
        let read = book.label_sheet(sheet).unwrap();
        assert_eq!(
            read.label.rate_least,
            LabelSays::Value(amount("1 lb/1000 ft2"))
        );
    });
}

#[test]
fn a_most_that_falls_below_the_least_by_merging_is_not_known() {
    let (mut crew, observer, sheet) = with_label();
    // Each phone's own range is sound; together the lower most lies under the only least.
    crew.book(1)
        .set_label(sheet, "rate_least", "2 lb/1000 ft2")
        .unwrap();
    crew.book(2)
        .set_label(sheet, "rate_most", "1.5 lb/1000 ft2")
        .unwrap();
    crew.book(1)
        .set_label(sheet, "rate_most", "2.4 lb/1000 ft2")
        .unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let read = book.label_sheet(sheet).unwrap();
        assert_eq!(
            read.label.rate_least,
            LabelSays::Value(amount("2 lb/1000 ft2"))
        );
        assert_eq!(read.label.rate_most, LabelSays::Unfilled);
    });
}

#[test]
fn of_two_names_one_wins_everywhere_and_the_other_is_kept() {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let yard = yard(crew.book(0)).unwrap();
    crew.swap_all().unwrap();
    crew.book(1).set_yard(yard, "name", "North corner").unwrap();
    crew.book(2).set_yard(yard, "name", "Old mill").unwrap();
    crew.book(1)
        .set_yard(yard, "note", "dog in the evening")
        .unwrap();
    let won = std::cell::RefCell::new(None);
    for_every_order(&mut crew, &observer, |book| {
        let versions = book
            .sheet(yard, SheetKind::Yard)
            .unwrap()
            .get("name")
            .unwrap();
        assert_eq!(versions.others.len(), 1);
        let first = won
            .borrow_mut()
            .get_or_insert_with(|| versions.value.clone())
            .clone();
        assert_eq!(versions.value, first);
        assert_eq!(book.yards().unwrap()[0].conflicts.len(), 1);
        assert_eq!(book.yard_sheet(yard).unwrap().note, "dog in the evening");
    });
}

#[test]
fn sections_added_on_two_phones_are_both_there() {
    let mut crew = Crew::of(3).unwrap();
    let observer = with_observer(&mut crew).unwrap();
    let yard = yard(crew.book(0)).unwrap();
    crew.swap_all().unwrap();
    let section = crew.phones[0].book.yard_sheet(yard).unwrap().sections[0].id;
    crew.book(1).add_section(yard, "back", &lawn()).unwrap();
    crew.book(2).add_section(yard, "side", &lawn()).unwrap();
    // One hides while another measures anew: shown, and nothing lost.
    crew.book(1).hide_section(yard, section, true).unwrap();
    crew.book(2).set_outline(yard, section, &lawn()).unwrap();
    for_every_order(&mut crew, &observer, |book| {
        let mut names: Vec<String> = book
            .yard_sheet(yard)
            .unwrap()
            .sections
            .into_iter()
            .map(|s| s.name)
            .collect();
        names.sort();
        assert_eq!(names, ["back", "front", "side"]);
    });
}

#[test]
fn a_change_whose_predecessor_is_missing_waits_and_is_applied_when_it_comes() {
    let mut crew = Crew::of(2).unwrap();
    let yard = yard(crew.book(0)).unwrap();
    crew.book(0).set_yard(yard, "name", "Second name").unwrap();
    let lead = crew.phones[0].book.secret().unwrap().stream();
    let head = crew.phones[0]
        .book
        .heads()
        .unwrap()
        .into_iter()
        .find(|h| h.stream == lead)
        .unwrap();
    let wires = crew.phones[0]
        .book
        .wires_up_to(head.hash, None, usize::MAX)
        .unwrap();
    let (last, before) = wires.split_last().unwrap();
    crew.book(1)
        .take_in(std::slice::from_ref(last), Some(lead))
        .unwrap();
    assert_eq!(crew.phones[1].book.waiting_for().unwrap(), vec![(lead, 1)]);
    crew.book(1).take_in(before, Some(lead)).unwrap();
    assert_eq!(crew.phones[1].book.waiting_for().unwrap(), vec![]);
    assert_eq!(
        crew.phones[1].book.yard_sheet(yard).unwrap().name,
        "Second name"
    );
}
