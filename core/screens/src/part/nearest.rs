//! The nearest first: where a person stands is told by a tap, held while the program runs, and never
//! stored or put into an address.

use maud::{Markup, html};
use sward_book::sheet::Position;

use crate::ask::{Ask, Doing, Next};
use crate::trouble::Wrong;
use crate::{Result, Trouble};

/// The act of [`button`], as it stands among a screen's.
pub(crate) const ACT: &str = "near";

/// The button that puts a list in order of distance; nothing where no place on the list is known.
/// Without the script nobody knows where the person stands, and it stays hidden.
pub(crate) fn button(ask: &Ask<'_>, any_place_known: bool) -> Markup {
    let form = ask.form(ACT);
    html! {
        @if any_place_known {
            (form.wrap(html! {
                (form.hidden("here", ""))
                p {
                    button.way type="button" data-here="here" data-here-send hidden { (ask.t("frame-nearest-first")) }
                    " " output data-here-state {}
                }
            }))
        }
    }
}

/// Takes where the person stands, and shows the same screen in that order.
pub(crate) fn act(doing: &mut Doing<'_>) -> Result<Next> {
    let here = Position::parse(doing.text("here"));
    let here = here.ok_or_else(|| Trouble::field("here", Wrong::NotOffered))?;
    doing.shared.stand_at(here);
    Ok(Next::Go(doing.path.to_owned()))
}

/// The nearest first where it is known where the person stands; what has no place comes last, in
/// the order it had.
pub(crate) fn sort<T>(ask: &Ask<'_>, list: &mut [T], place: impl Fn(&T) -> Option<Position>) {
    let Some(here) = ask.shared.stands_at() else {
        return;
    };
    let far = |item: &T| place(item).map_or(f64::INFINITY, |at| far(here, at));
    list.sort_by(|a, b| far(a).total_cmp(&far(b)));
}

/// How far apart two places are, in degrees; good enough for an order: a plane through the first.
fn far(here: Position, there: Position) -> f64 {
    let east = (there.lon_deg() - here.lon_deg() + 540.0).rem_euclid(360.0) - 180.0;
    let north = there.lat_deg() - here.lat_deg();
    (east * here.lat_deg().to_radians().cos()).hypot(north)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn far_is_far_over_the_date_line_and_in_the_north_too() {
        let at = |text| Position::parse(text).unwrap();
        // A degree of longitude is half as far at 60° as at the equator.
        assert!((far(at("60, 10"), at("60, 11")) - 0.5).abs() < 1e-9);
        assert!((far(at("0, 179.5"), at("0, -179.5")) - 1.0).abs() < 1e-9);
        assert!((far(at("-10, 5"), at("-12, 5")) - 2.0).abs() < 1e-9);
    }
}
