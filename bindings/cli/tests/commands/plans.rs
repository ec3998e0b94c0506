//! Plans: what they lack, granules by the hopper, sprays by the tank, changes after the check.

use crate::support::{Phone, label, planned, text, yard_and_visit};

#[test]
fn a_plan_is_worked_out_as_soon_as_it_lacks_nothing() {
    let phone = Phone::founder("Ann");
    label(&phone);
    yard_and_visit(&phone);
    let lacking = phone.does([
        "plan",
        "maple",
        "--label",
        "granule",
        "--rate",
        "2.5 lb/1000 ft2",
    ]);
    assert_eq!(lacking["lacks"][0], "--holds");
    // 1,500 and 600 ft² at 2.5 lb/1000 ft²: 3.75 lb, down to 3.7 lb, and 1.5 lb; by hand.
    let plan = phone.does([
        "plan", "maple", "--holds", "3 lb", "--vessel", "0.1 lb", "--passes", "2", "--swath",
        "8 ft",
    ]);
    assert_eq!(
        text(&plan, "/plan/product/value/measured_out"),
        "5.2 [lb_av]"
    );
    assert_eq!(plan["plan"]["loads"]["value"].as_array().unwrap().len(), 2);
    assert_eq!(
        plan["plan"]["passes"]["value"]["product"]
            .as_array()
            .unwrap()
            .len(),
        2
    );
    let shown = phone.tries(["plan", "maple", "--section", "back", "--how"]);
    assert!(shown.out.contains("rate × area"), "{}", shown.out);
    assert!(shown.out.contains("1.5 lb"), "{}", shown.out);

    let half = phone.does([
        "half-way", "maple", "--filled", "3 lb", "--left", "0.4 lb", "--done", "50 %",
    ]);
    assert_eq!(text(&half, "/half_way/used"), "2.6 [lb_av]");
    assert_eq!(half["verdict"], "clear");
}

#[test]
fn a_spray_is_planned_by_the_tank() {
    let phone = Phone::founder("Ann");
    yard_and_visit(&phone);
    phone.does([
        "label",
        "new",
        "--field",
        "product=Spray Example",
        "--field",
        "method=foliar_spray",
        "--field",
        "rate_least=0.5 fl oz/1000 ft2",
        "--field",
        "rate_most=1 fl oz/1000 ft2",
        "--field",
        "carrier_least=1 gal/1000 ft2",
    ]);
    let plan = phone.does([
        "plan",
        "maple",
        "--label",
        "spray",
        "--rate",
        "1 fl oz/1000 ft2",
        "--carrier",
        "2 gal/1000 ft2",
        "--holds",
        "3 gal",
        "--vessel",
        "0.1 fl oz",
    ]);
    // 2,100 ft² at 2 gal/1000 ft²: 4.2 gal, so two tanks; by hand.
    assert_eq!(text(&plan, "/plan/carrier/value"), "4.2 [gal_us]");
    assert_eq!(plan["plan"]["loads"]["value"].as_array().unwrap().len(), 2);
    let round = phone.does(["walk-round", "maple", "--moved", "toys"]);
    assert_eq!(
        round["not_looked_at"].as_array().unwrap().len(),
        10,
        "sprays ask everything"
    );
}

#[test]
fn a_plan_changed_after_the_check_has_to_be_checked_again() {
    let phone = Phone::founder("Ann");
    planned(&phone);
    phone.ends(["ready", "maple"], 3);
    phone.does(["plan", "maple", "--rate", "3 lb/1000 ft2"]);
    let told = phone.is_refused(["start", "maple", "--against", "test"], 1);
    assert!(told.contains("run sward ready again"), "{told}");
}
