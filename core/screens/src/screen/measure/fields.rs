//! The fields of each way to measure, filled with what was entered before where it is corrected.
//!
//! What they are read as is [`super::read`]'s matter.

use maud::{Markup, html};
use sward_rules::Entered;
use sward_rules::measure::{OffsetRule, Shape, SideOfLine, TapedCorner};

use super::kind::Kind;
use crate::ask::Ask;
use crate::part::form::{FormPart, NumberField};
use crate::walk::line_of;
use crate::words::Units;

/// The unit of an empty length.
fn length_unit(ask: &Ask<'_>) -> &'static str {
    match ask.words.units {
        Units::Us => "ft",
        Units::Metric => "m",
    }
}

/// The fields of a kind.
pub(super) fn fields(
    ask: &Ask<'_>,
    form: &FormPart<'_>,
    kind: Kind,
    filled: Option<&Shape>,
) -> Markup {
    let filled = filled.filter(|shape| Kind::of_shape(shape) == kind);
    let lengths = |named: &[(&'static str, &'static str)]| {
        let values = filled.map(lengths_of).unwrap_or_default();
        html! {
            @for (n, (name, label)) in named.iter().enumerate() {
                (length(ask, form, name, &ask.t(label), values.get(n)))
            }
        }
    };
    match kind {
        Kind::Rectangle | Kind::Oval => {
            lengths(&[("length", "measure-length"), ("width", "measure-width")])
        }
        Kind::Triangle => lengths(&[
            ("a", "measure-first-side"),
            ("b", "measure-second-side"),
            ("c", "measure-third-side"),
        ]),
        Kind::TriangleHeight => lengths(&[
            ("base", "measure-base"),
            ("height", "measure-height-on-base"),
        ]),
        Kind::Trapezoid => lengths(&[
            ("a", "measure-first-parallel"),
            ("b", "measure-second-parallel"),
            ("height", "measure-height-between"),
        ]),
        Kind::Circle => lengths(&[("diameter", "measure-diameter")]),
        Kind::Radii => rows(ask, form, kind, filled, "measure-radius"),
        Kind::Offsets => offsets(ask, form, filled),
        Kind::Taped => taped(ask, form, filled),
        Kind::Walk => walk(ask, form, filled),
        // Drawn on a sketch, which is a file of its own.
        Kind::Drawn => html! {},
    }
}

/// The lengths of a shape in the order of its fields.
fn lengths_of(shape: &Shape) -> Vec<Entered> {
    match shape {
        Shape::Rectangle { length, width } | Shape::Oval { length, width } => vec![*length, *width],
        Shape::TriangleSides { a, b, c } => vec![*a, *b, *c],
        Shape::TriangleHeight { base, height } => vec![*base, *height],
        Shape::Trapezoid { a, b, height } => vec![*a, *b, *height],
        Shape::Circle { diameter } => vec![*diameter],
        Shape::MeanRadius { radii } => radii.clone(),
        Shape::Offsets { offsets, .. } => offsets.clone(),
        _ => Vec::new(),
    }
}

fn length(
    ask: &Ask<'_>,
    form: &FormPart<'_>,
    name: &str,
    label: &str,
    filled: Option<&Entered>,
) -> Markup {
    let unit = filled.map_or_else(|| length_unit(ask).to_owned(), |e| e.unit().for_person());
    form.number_called(
        &NumberField {
            name,
            label: "",
            unit: &unit,
            filled: filled.map(|e| e.amount().to_string()),
            from: String::new(),
        },
        label,
    )
}

fn rows(
    ask: &Ask<'_>,
    form: &FormPart<'_>,
    kind: Kind,
    filled: Option<&Shape>,
    label: &'static str,
) -> Markup {
    let values = filled.map(lengths_of).unwrap_or_default();
    html! {
        @for row in 1..=kind.rows(ask, filled) {
            (length(ask, form, &format!("row.{row}"), &numbered(ask, label, row), values.get(row - 1)))
        }
    }
}

fn numbered(ask: &Ask<'_>, label: &str, number: usize) -> String {
    let number = i64::try_from(number).unwrap_or(i64::MAX);
    ask.words.t_with(label, &[("number", number.into())])
}

fn offsets(ask: &Ask<'_>, form: &FormPart<'_>, filled: Option<&Shape>) -> Markup {
    let (spacing, rule) = match filled {
        Some(Shape::Offsets { spacing, rule, .. }) => (Some(spacing), Some(*rule)),
        _ => (None, None),
    };
    let rules = [
        ("trapezoid", ask.t("measure-rule-trapezoid")),
        ("simpson", ask.t("measure-rule-simpson")),
    ];
    let chosen = match rule {
        Some(OffsetRule::Simpson) => "simpson",
        Some(OffsetRule::Trapezoid) | None => "trapezoid",
    };
    html! {
        (length(ask, form, "spacing", &ask.t("measure-spacing"), spacing))
        (rows(ask, form, Kind::Offsets, filled, "measure-offset"))
        (form.choice("rule", "measure-rule", &rules, Some(chosen)))
    }
}

fn taped(ask: &Ask<'_>, form: &FormPart<'_>, filled: Option<&Shape>) -> Markup {
    let (first, corners): (_, &[TapedCorner]) = match filled {
        Some(Shape::TapePolygon {
            first_side,
            corners,
        }) => (Some(first_side), corners),
        _ => (None, &[]),
    };
    let sides = [
        ("left", ask.t("measure-left")),
        ("right", ask.t("measure-right")),
    ];
    html! {
        (length(ask, form, "side", &ask.t("measure-one-to-two"), first))
        @for row in 1..=Kind::Taped.rows(ask, filled) {
            @let corner = corners.get(row - 1);
            @let name = |field: &str| format!("row.{row}.{field}");
            @let side = corner.map(|c| if c.side == SideOfLine::Left { "left" } else { "right" });
            fieldset.group {
                legend { (numbered(ask, "measure-corner", row + 2)) }
                (form.count(&name("from-a"), "measure-from-a", "", Some(&corner.map_or(row + 1, |c| c.from_a.into()).to_string())))
                (length(ask, form, &name("tape-a"), &ask.t("measure-tape"), corner.map(|c| &c.tape_a)))
                (form.count(&name("from-b"), "measure-from-b", "", Some(&corner.map_or(1, |c| c.from_b).to_string())))
                (length(ask, form, &name("tape-b"), &ask.t("measure-tape"), corner.map(|c| &c.tape_b)))
                (form.choice(&name("side"), "measure-side", &sides, side))
            }
        }
    }
}

fn walk(ask: &Ask<'_>, form: &FormPart<'_>, filled: Option<&Shape>) -> Markup {
    let fixes = match filled {
        Some(Shape::Walk { fixes }) => fixes.iter().map(line_of).collect::<Vec<_>>().join("\n"),
        _ => String::new(),
    };
    html! {
        // The script fills the fixes while the person walks; without it a GPX file is chosen.
        div.walk data-walk {
            button.way type="button" data-walk-start hidden { (ask.t("measure-walk-start")) }
            button.way type="button" data-walk-stop hidden { (ask.t("measure-walk-stop")) }
            button.way type="button" data-walk-recorded hidden { (ask.t("measure-walk-recorded")) }
            output data-walk-state {}
            (form.by_script("fixes", "measure-fixes", "measure-fixes-help", &fixes, true))
        }
        (form.file("gpx", "measure-gpx", "measure-gpx-help", ".gpx,application/gpx+xml"))
    }
}
