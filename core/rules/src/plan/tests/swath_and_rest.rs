//! A setting on another swath, and what is left after the check half-way.

use super::*;

#[test]
fn a_setting_far_beyond_any_rate_is_refused() {
    let label = label(Method::Granule, None, Some("2.5 lb/1000 ft2"));
    let refused = setting_used(&SettingUse {
        label: &label,
        planned: e("0.000000000001 lb/1000 ft2"),
        gives: e("500000000000 lb/1000 ft2"),
        calibrated_swath: Some(e("10000 ft")),
        line_spacing: e("1 ft"),
        times: TimesOver::Once,
    });
    assert!(matches!(refused, Err(RuleError::OutOfRange { .. })));
}

#[test]
fn the_pace_for_the_rest_is_never_shown_slower_than_needed() {
    let needs = for_the_rest(&Rest {
        rate: e("3 lb/1000 ft2"),
        most: None,
        rate_done: e("10 lb/1000 ft2"),
        pace: Some(e("1 mph")),
        setting: None,
        tried: &[],
    });
    // Three and a third.
    let pace = needs.unwrap().value.pace.unwrap();
    assert_eq!(pace.for_person(), "3.33334 mph");
}
