//! The crew: joining by request file, roles, retirement, recovery, copies and restored books.

use std::ffi::OsStr;

use crate::support::{Phone, finished, swap, text, yard_and_visit};

fn role_of(phone: &Phone, name: &str) -> String {
    let crew = phone.does(["crew"]);
    let members = crew["members"].as_array().unwrap();
    let found = members.iter().find(|m| m["person"]["name"] == name);
    found.unwrap_or_else(|| panic!("no {name} in {crew}"))["role"]
        .as_str()
        .unwrap_or("none")
        .into()
}

#[test]
fn phones_join_by_request_and_swap_until_all_are_equal() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    finished(&ben);
    swap(&lead, &ben);
    let csv = |phone: &Phone| phone.tries(["records", "export", "-", "--as", "csv"]).out;
    assert!(csv(&lead).contains("Granule Example"));
    assert_eq!(csv(&lead), csv(&ben));
    let (a, b) = (lead.does(["crew"]), ben.does(["crew"]));
    assert_eq!(
        a["check_digits"], b["check_digits"],
        "both people can compare"
    );
    assert_eq!(role_of(&lead, "Ben"), "applicator");
}

#[test]
fn the_same_digits_stand_on_both_phones_before_admitting() {
    let (lead, ben) = (Phone::founder("Ann"), Phone::new());
    let request = ben.file("request");
    let asked = ben.does([
        OsStr::new("ask"),
        request.as_ref(),
        "--name".as_ref(),
        "Ben".as_ref(),
        "--practice".as_ref(),
    ]);
    let unasked = lead.tries([OsStr::new("admit"), request.as_ref()]);
    assert_eq!(unasked.code, Some(2), "admitting is confirmed by a person");
    let admitted = lead.does([OsStr::new("admit"), request.as_ref()]);
    assert_eq!(asked["check_digits"], admitted["check_digits"]);
    let again = lead.is_refused([OsStr::new("admit"), request.as_ref()], 1);
    assert!(again.contains("belongs to the crew already"), "{again}");
}

#[test]
fn only_a_crew_lead_admits_retires_and_promotes() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    swap(&lead, &ben);
    let cleo = Phone::new();
    let request = cleo.file("request");
    cleo.does([
        OsStr::new("ask"),
        request.as_ref(),
        "--name".as_ref(),
        "Cleo".as_ref(),
        "--practice".as_ref(),
    ]);
    for told in [
        ben.is_refused([OsStr::new("admit"), request.as_ref()], 1),
        ben.is_refused(["retire", "ann", "--why", "x"], 1),
        ben.is_refused(["promote", "ben", "--role", "crew-lead"], 1),
    ] {
        assert!(told.contains("only a crew lead"), "{told}");
    }
    lead.does(["promote", "ben", "--role", "crew-lead"]);
    swap(&lead, &ben);
    ben.does([
        OsStr::new("admit"),
        request.as_ref(),
        "--role".as_ref(),
        "office".as_ref(),
    ]);
    cleo.takes_from(&ben);
    assert_eq!(role_of(&cleo, "Cleo"), "office");
    let told = cleo.is_refused(["yard", "add", "Oak"], 1);
    assert!(told.contains("may only read"), "{told}");
}

#[test]
fn what_a_retired_phone_brings_arrives_marked() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    swap(&lead, &ben);
    lead.does(["retire", "ben", "--why", "phone lost"]);
    finished(&ben);
    let file = ben.makes_file();
    let taken = lead.takes(&file);
    assert_eq!(taken["standing"], "retired");
    assert!(
        taken["new"].as_u64().unwrap() > 0,
        "nothing is refused for that"
    );
    let told = lead.tries(["settle", "list"]);
    assert!(
        told.out.contains("not, or no longer, of the crew"),
        "{}",
        told.out
    );
    let running = lead.does(["keep-offs"]);
    assert_eq!(
        running["keep_offs"].as_array().unwrap().len(),
        2,
        "they keep off all the same"
    );
}

#[test]
fn the_recovery_code_makes_a_restored_book_a_crew_lead_again() {
    let phone = Phone::new();
    let founded = phone.does(["found", "--crew", "Alone", "--name", "Ann", "--practice"]);
    let code = text(&founded, "/recovery_code");
    yard_and_visit(&phone);
    let backup = phone.file("backup");
    phone.does([OsStr::new("backup"), backup.as_ref()]);

    let anew = Phone::new();
    anew.by_the_real_clock();
    let restored = anew.does([
        OsStr::new("restore"),
        backup.as_ref(),
        "--name".as_ref(),
        "Ann".as_ref(),
    ]);
    assert_ne!(restored["device"], founded["device"]);
    let slip = code.replacen(|c: char| c.is_ascii_digit(), "U", 1);
    let told = anew.is_refused(["recover", "--code", &slip], 1);
    assert!(told.contains("slip"), "{told}");
    let other = text(
        &Phone::new().does(["found", "--crew", "B", "--name", "B", "--practice"]),
        "/recovery_code",
    );
    assert!(
        anew.is_refused(["recover", "--code", &other], 1)
            .contains("another crew")
    );
    anew.does(["recover", "--code", &code]);
    anew.does(["retire", &text(&founded, "/device"), "--why", "phone lost"]);
    assert_eq!(
        anew.does(["yard", "list"])["yards"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
}

#[test]
fn a_copied_book_gets_new_keys_and_loses_nothing() {
    let lead = Phone::founder("Ann");
    let ben = Phone::member(&lead, "Ben");
    swap(&lead, &ben);
    let copy = Phone::new();
    std::fs::create_dir(copy.book()).unwrap();
    for name in ["book.sqlite", "device.key"] {
        std::fs::copy(ben.book().join(name), copy.book().join(name)).unwrap();
    }
    ben.does(["yard", "add", "Oak"]);
    copy.does(["yard", "add", "Elm"]);
    lead.takes_from(&ben);
    let taken = copy.takes_from(&lead);
    assert_eq!(taken["began_anew"], true);
    copy.does(["yard", "add", "Ash"]);
    lead.takes_from(&copy);
    let yards = lead.does(["yard", "list"]);
    assert_eq!(yards["yards"].as_array().unwrap().len(), 3);
    // The same name twice: the one that waits is named by its digits.
    let crew = lead.does(["crew"]);
    let waits = crew["members"]
        .as_array()
        .unwrap()
        .iter()
        .find(|m| m["state"]["state"] == "pending");
    let device = text(waits.unwrap(), "/device");
    assert!(
        lead.is_refused(["admit", "ben"], 1)
            .contains("more than one device")
    );
    lead.does(["admit", &device[..8]]);
    copy.takes_from(&lead);
    let again = copy.file("request again");
    copy.does([OsStr::new("request"), again.as_ref()]);
    assert!(again.exists());
}
