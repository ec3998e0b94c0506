//! Corner cases of mixes: what is not known never clears.

use super::*;
use crate::finding::{Verdict, sum};
use crate::label::{Label, LabelSays, Method};
use crate::measure::AreaEstimate;

fn e(text: &str) -> Entered {
    Entered::parse(text).unwrap()
}

fn lawn(text: &str) -> AreaEstimate {
    AreaEstimate::stated(&e(text), &e("0 ft2")).unwrap()
}

fn label() -> Label {
    let mut label = Label::unfilled(Method::Drench);
    label.rate_least = LabelSays::Nothing;
    label.rate_most = LabelSays::Value(e("0.6 fl oz/1000 ft2"));
    label.carrier_least = LabelSays::Value(e("2 gal/1000 ft2"));
    label
}

fn served(draws: &[Draw]) -> Result<Served> {
    let serving = Serving {
        label: &label(),
        tank: &TankMix {
            product: e("15 fl oz"),
            mix: e("50 gal"),
        },
        carrier: e("2 gal/1000 ft2"),
        draws,
        to_come: &[],
    };
    serve(&serving).map(|answer| answer.value)
}

fn draw(name: &str, drawn: &str, area: Option<&str>) -> Draw {
    Draw {
        name: name.into(),
        drawn: e(drawn),
        area: area.map(lawn),
    }
}

#[test]
fn two_draws_for_one_yard_are_one_dose() {
    // Each 0.6 fl oz/1000 ft² by itself.
    let twice = [
        draw("Elm", "10 gal", Some("5000 ft2")),
        draw("Oak", "2 gal", Some("1000 ft2")),
        draw(" elm ", "40 qt", Some("5000 ft2")),
    ];
    let served_twice = served(&twice).unwrap();
    let rates: Vec<_> = served_twice.draws.iter().map(|d| d.rate).collect();
    let (double, once) = (e("1.2 fl oz/1000 ft2"), e("0.6 fl oz/1000 ft2"));
    assert_eq!(rates, [Some(double), Some(once), Some(double)]);
    let verdicts: Vec<_> = served_twice
        .draws
        .iter()
        .map(|d| sum(&d.findings))
        .collect();
    let (too_much, clear) = (Verdict::DontTreat, Verdict::Clear);
    assert_eq!(verdicts, [too_much, clear, too_much]);
    // A first draw that is short of the label's water is not, with the second.
    let halves = [
        draw("Elm", "5 gal", Some("5000 ft2")),
        draw("Elm", "5 gal", Some("5000 ft2")),
    ];
    assert_eq!(served(&halves).unwrap().verdict(), Verdict::Clear);
    // What went on an area that was not told counts where it was.
    let one_untold = [
        draw("Elm", "10 gal", Some("5000 ft2")),
        draw("Elm", "10 gal", None),
    ];
    let untold = served(&one_untold).unwrap();
    assert_eq!(untold.draws[0].rate, Some(double));
    assert_eq!(untold.draws[1].rate, None);
    assert_eq!(sum(&untold.draws[1].findings), Verdict::Unknown);
}

#[test]
fn one_yard_has_one_area() {
    let two_areas = [
        draw("Elm", "10 gal", Some("5000 ft2")),
        draw("Elm", "10 gal", Some("6000 ft2")),
    ];
    assert_eq!(
        served(&two_areas).unwrap_err(),
        RuleError::SameName { name: "Elm".into() }
    );
}
