//! Calculators of product and water: no book, one answer each, errors that name the field.

use serde_json::json;

use crate::support::{Phone, text};

#[test]
fn a_rate_comes_in_every_form() {
    let phone = Phone::new();
    let rate = phone.does([
        "calc",
        "rate",
        "--active",
        "2 lb/acre",
        "--content",
        "80 %",
        "--area",
        "10000 ft2",
        "--vessel",
        "1 oz",
        "--most",
        "2 lb/acre",
    ]);
    assert_eq!(text(&rate, "/rate"), "2.5 [lb_av]/(43560.[ft_i]2)");
    // 2.5 lb an acre on 10,000 ft² are 9.18 oz.
    assert_eq!(text(&rate, "/measured_out/measured_out"), "9 [oz_av]");
    assert_eq!(rate["verdict"], "dont_treat");
    let shown = phone.tries(["calc", "rate", "12.5 lb/5000 ft2", "--how"]);
    assert!(shown.out.contains("2.5 lb/1000 ft²"), "{}", shown.out);
    assert!(shown.out.contains("not known"), "{}", shown.out);
    let refused = phone.is_refused(["calc", "rate", "3 lb"], 1);
    assert!(refused.contains("rate"), "{refused}");
}

#[test]
fn one_tank_serves_several_yards() {
    let phone = Phone::new();
    let mix = phone.does([
        "calc",
        "mix",
        "--rate",
        "0.6 fl oz/1000 ft2",
        "--carrier",
        "2 gal/1000 ft2",
        "--tank",
        "50 gal",
        "--vessel",
        "1 fl oz",
        "--most",
        "0.6 fl oz/1000 ft2",
        "--carrier-least",
        "nothing",
    ]);
    assert_eq!(
        text(&mix, "/fill/product/measured_out"),
        "15 [foz_us]",
        "{mix}"
    );
    assert_eq!(mix["verdict"], "clear");
    let tank = [
        "calc",
        "tank",
        "--product",
        "15 fl oz",
        "--mix",
        "50 gal",
        "--carrier",
        "2 gal/1000 ft2",
        "--most",
        "0.6 fl oz/1000 ft2",
    ];
    let with = |more: &[&'static str]| [&tank[..], more].concat();
    let served = phone.does(with(&[
        "--draw",
        "Elm=47 gal on 23500 ft2",
        "--next",
        "Ash=4000 ft2",
        "--site",
        "strip=1000 ft2; label yes; got nothing",
    ]));
    assert_eq!(text(&served, "/tank/left"), "3 [gal_us]");
    assert_eq!(text(&served, "/tank/short"), "5 [gal_us]");
    assert_eq!(text(&served, "/leftover/sites/0/takes"), "2 [gal_us]");
    let refused = phone.is_refused(with(&["--draw", "Elm=51 gal"]), 1);
    assert!(refused.contains("only 50 gal were left"), "{refused}");
    let refused = phone.is_refused(with(&["--site", "strip=1000 ft2; perhaps"]), 2);
    assert!(refused.contains("label yes"), "{refused}");
}

#[test]
fn water_comes_out_and_goes_in() {
    let phone = Phone::new();
    let hose = phone.does([
        "calc",
        "hose-end",
        "--area",
        "250 ft2",
        "--took",
        "20 s",
        "--caught",
        "1.25 gal",
        "--rate",
        "6 fl oz/1000 ft2",
        "--step",
        "1 fl oz/gal",
        "--step",
        "1.5 fl oz/gal",
        "--most",
        "6 fl oz/1000 ft2",
    ]);
    assert_eq!(text(&hose, "/carrier"), "5 [gal_us]/(1000.[ft_i]2)");
    assert_eq!(text(&hose, "/dial/step"), "1 [foz_us]/[gal_us]");
    let passes = phone.does([
        "calc",
        "passes",
        "--rate",
        "2.5 lb/1000 ft2",
        "--gives",
        "2.5 lb/1000 ft2",
        "--calibrated-swath",
        "12 ft",
        "--spacing",
        "6 ft",
        "--most",
        "2.5 lb/1000 ft2",
    ]);
    assert_eq!(passes["verdict"], "dont_treat");
    let water = phone.does([
        "calc",
        "watering-in",
        "--depth",
        "0.5 in",
        "--section",
        "front=1000 ft2",
        "--can",
        "0.2 in",
        "--can",
        "0.3 in",
        "--can",
        "0.25 in",
        "--can",
        "0.25 in",
        "--ran",
        "15 min",
        "--run-off-after",
        "12 min",
    ]);
    assert_eq!(water["run"]["minutes_by_mean"], 30);
    assert_eq!(water["run"]["runs"], 3);
    assert_eq!(text(&water, "/water/total"), "311.688312 [gal_us]");
    let nothing = phone.does(["calc", "watering-in"]);
    assert_eq!(nothing["verdict"], "unknown");
}

#[test]
fn a_season_adds_up() {
    let phone = Phone::new();
    let season = phone.does([
        "calc",
        "season",
        "--before",
        "bifenthrin=0.2 %; put 100 lb on 1 acre",
        "--planned",
        "bifenthrin=0.2 %; put 150 lb on 1 acre",
        "--most",
        "bifenthrin=0.4 lb/acre",
    ]);
    assert_eq!(season["verdict"], "dont_treat");
    assert_eq!(
        season["findings"][0]["also"][0],
        json!({ "reason": "others-not-known" })
    );
    let repeat = phone.does([
        "calc",
        "repeat",
        "--on",
        "2026-02-28",
        "--last",
        "2026-01-31",
        "--shortest",
        "1 month",
        "--season-most",
        "nothing",
    ]);
    assert_eq!(repeat["repeat"]["earliest"], "2026-03-01");
    assert_eq!(repeat["verdict"], "dont_treat");
    let unknown = phone.does(["calc", "repeat", "--on", "2026-02-28"]);
    assert_eq!(unknown["verdict"], "unknown");
    let stock = phone.does([
        "calc",
        "stock",
        "--needed",
        "24 lb",
        "--on",
        "2026-06-15",
        "--lot",
        "A17=20 lb; opened 2026-05-01; expires nothing",
        "--lot",
        "B2=?; expires nothing",
    ]);
    assert_eq!(text(&stock, "/stock/short"), "4 [lb_av]");
    assert_eq!(stock["verdict"], "unknown");
    let spots = phone.does([
        "calc",
        "spots",
        "--dose",
        "2 tbsp",
        "--count",
        "13",
        "--area",
        "0.5 acre",
        "--vessel",
        "1 tbsp",
        "--most",
        "24 fl oz/acre",
        "--fresh",
        "yes",
    ]);
    assert_eq!(spots["verdict"], "dont_treat");
    assert_eq!(spots["spots"]["spots_most"], 12);
}
