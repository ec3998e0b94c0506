//! The screens, a folder each, in the order of a visit. Each answers one question and offers one
//! next step.
//!
//! How a screen is reached is [`crate::server`]'s business; parts that several share are in
//! [`crate::part`].

mod crew;
mod first;
mod help;
pub(crate) mod jobs;
mod keep_off;
mod look;
mod measure;
mod plan;
mod ready;
mod recheck;
mod records;
mod things;
mod today;
mod treat;
mod visit;
mod work_out;
mod yards;

use crate::ask::Screen;

/// Every screen.
pub(crate) fn all() -> impl Iterator<Item = &'static Screen> {
    [
        today::SCREENS,
        first::SCREENS,
        jobs::SCREENS,
        yards::SCREENS,
        measure::SCREENS,
        visit::SCREENS,
        look::SCREENS,
        plan::SCREENS,
        ready::SCREENS,
        treat::SCREENS,
        keep_off::SCREENS,
        recheck::SCREENS,
        crew::SCREENS,
        records::SCREENS,
        help::SCREENS,
        things::SCREENS,
        work_out::SCREENS,
    ]
    .into_iter()
    .flatten()
}
