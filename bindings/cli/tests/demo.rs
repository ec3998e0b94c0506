//! `sward demo` as a newcomer runs it: what it tells, that it ends well, and that its comparison
//! fails as soon as one of the three books holds something that the others do not.
//!
//! The files it works on are held against what their README says of them.

use std::path::Path;
use std::process::{Command, Output};

use sward_rules::measure::{Outline, Shape, walk_from_gpx};
use sward_rules::sky::{Forecast, StationReport};

const COLUMNS_MOST: usize = 100;
const LINES_MOST: usize = 70;

fn sward() -> Command {
    Command::new(assert_cmd::cargo::cargo_bin!("sward"))
}

fn demo(folder: &Path) -> String {
    let output = sward()
        .arg("demo")
        .arg("--folder")
        .arg(folder)
        .output()
        .expect("it runs");
    assert!(output.status.success(), "{output:?}");
    String::from_utf8(output.stdout).expect("it is text")
}

fn compare(folder: &Path) -> Output {
    sward()
        .arg("demo")
        .arg("--compare")
        .arg(folder)
        .output()
        .expect("it runs")
}

/// A line of words, without what hangs on where the demo ran.
fn flat(told: &str) -> String {
    told.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_newcomer_reads_what_the_tool_is_for() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path().join("demo");
    let told = demo(&folder);
    let path = folder.to_string_lossy();
    for line in told.lines().filter(|line| !line.contains(&*path)) {
        assert!(line.chars().count() <= COLUMNS_MOST, "{line}");
    }
    assert!(
        told.lines().count() <= LINES_MOST,
        "{} lines",
        told.lines().count()
    );
    let flat = flat(&told);
    for wanted in [
        // 12,300 ft² by fixtures/demo/README.md; 80 ft × 45 ft − π·6² = 3,486.9 ft².
        "12,279 ft² ± 426",
        "3,487 ft² ± 51",
        // 12,879.3 ft² × 2.5 lb/1000 ft² = 32.198 lb, rounded down to 0.1 lb.
        "Granules: 32.1 lb",
        "hopper loads of 20 lb and 12.1 lb",
        // 12,879.3 ft² × 2 gal/1000 ft² = 25.76 gal.
        "7.7 fl oz in 25.76 gal of mix, 7 fills",
        // 63 in 6 cans of 6 in: × 5.093 / 6. Threshold: University of Massachusetts Extension.
        "53.5 per ft² (41.1 to 68.4) is above the threshold of 30 to 50 per ft²",
        "3.4 per ft² (0.9 to 8.7) is below the threshold of 30 to 50 per ft²",
        "rate most: the sheet says 25 lb/1000 ft², the second reading 2.5 lb/1000 ft²",
        "DON'T TREAT: 18.0 mph is above the label's 10 mph. By the forecast it may open at 18:00",
        "Not treated, a full result",
        "the shortest time between two treatments",
        "off both sections until 20:55, then until someone sees it dry",
        "The front lawn is free, since 20:55",
        "Side strip: keep off until 22:55, then until someone sees it dry",
        "\"Ring first: there is a dog.\" or \"The gate sticks: lift it.\"",
        "7 Make-Believe Lane, not treated",
    ] {
        assert!(flat.contains(wanted), "{wanted} is not told in:\n{told}");
    }
    assert_eq!(told.matches("\n  ok  ").count(), 7, "{told}");
    assert!(!told.contains("FAILED"), "{told}");
    for phone in ["phone-1", "phone-2", "phone-3"] {
        assert!(
            told.contains(&*folder.join(phone).to_string_lossy()),
            "{told}"
        );
    }
}

#[test]
fn every_run_tells_the_same() {
    let folder = tempfile::tempdir().unwrap();
    let story = |name: &str| -> Vec<String> {
        let told = demo(&folder.path().join(name));
        // The recovery code is the one thing of chance: 13 groups of five.
        let is_code = |line: &str| line.trim().split('-').count() == 13;
        assert_eq!(
            told.lines().filter(|line| is_code(line)).count(),
            1,
            "{told}"
        );
        told.lines()
            .filter(|line| !is_code(line))
            .map(|line| line.replace(name, ""))
            .collect()
    };
    assert_eq!(story("run-1"), story("run-2"));
}

#[test]
fn one_entry_more_on_one_phone_fails_the_comparison() {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path().join("demo");
    demo(&folder);
    assert!(compare(&folder).status.success());

    let more = sward()
        .arg("--data")
        .arg(folder.join("phone-3"))
        .args(["yard", "set", "12", "address=1 Elsewhere Road"])
        .output()
        .expect("it runs");
    assert!(more.status.success(), "{more:?}");
    let output = compare(&folder);
    assert_eq!(output.status.code(), Some(1), "{output:?}");
    let told = String::from_utf8_lossy(&output.stdout);
    let failed: Vec<&str> = told
        .lines()
        .filter(|line| line.contains("FAILED"))
        .collect();
    assert_eq!(failed.len(), 3, "{told}");
    for (line, what) in failed.iter().zip([
        "the same entries",
        "all views equal",
        "all document heads equal",
    ]) {
        assert!(
            line.contains(what) && line.contains("not so on phone 3"),
            "{told}"
        );
    }
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(
        said.contains("the three phones do not hold the same"),
        "{said}"
    );
}

#[test]
fn nothing_is_overwritten_and_nothing_compared_that_is_not_there() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("mine.txt"), "mine").unwrap();
    let output = sward()
        .arg("demo")
        .arg("--folder")
        .arg(folder.path())
        .output()
        .expect("it runs");
    assert_eq!(output.status.code(), Some(1), "{output:?}");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains("is not empty"), "{said}");
    assert!(!compare(&folder.path().join("nowhere")).status.success());
}

#[test]
fn the_walk_is_as_its_readme_says() {
    let bytes = include_bytes!("../../../fixtures/demo/front-lawn.gpx");
    let walk = walk_from_gpx(bytes).unwrap();
    let dropped: Vec<usize> = walk.dropped.iter().map(|fix| fix.number).collect();
    assert_eq!(walk.read, 72);
    assert_eq!(
        dropped,
        [4, 19, 33, 34, 45, 46, 47, 48, 49, 50, 51, 52, 53, 72]
    );
    let lawn = Outline {
        shape: Shape::Walk { fixes: walk.fixes },
        left_out: Vec::new(),
    };
    let area = lawn.area().unwrap().value;
    let off_ft2 = (area.square_feet() - 12_300.0).abs();
    assert!(
        off_ft2 < area.uncertainty_percent() / 100.0 * area.square_feet(),
        "{off_ft2}"
    );
}

#[test]
fn the_weather_is_as_its_readme_says() {
    let forecast = Forecast::parse(include_bytes!("../../../fixtures/demo/forecast.json")).unwrap();
    let at = |text: &str| {
        chrono::DateTime::parse_from_rfc3339(text)
            .unwrap()
            .timestamp_millis()
    };
    let over_10_mph = |from: &str, to: &str| {
        forecast
            .gust_kmh
            .touching(at(from), at(to))
            .any(|kmh| kmh / 1.609_344 > 10.0)
    };
    assert!(over_10_mph(
        "2026-06-16T17:00:00-04:00",
        "2026-06-16T18:00:00-04:00"
    ));
    assert!(!over_10_mph(
        "2026-06-16T18:00:00-04:00",
        "2026-06-16T23:00:00-04:00"
    ));
    let report =
        StationReport::parse(include_str!("../../../fixtures/demo/metar-morning.txt")).unwrap();
    assert_eq!(report.gust.unwrap().for_person(), "21 kn");
    let report =
        StationReport::parse(include_str!("../../../fixtures/demo/metar-evening.txt")).unwrap();
    assert_eq!(report.wind.unwrap().for_person(), "5 kn");
}
