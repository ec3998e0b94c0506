//! Measure: how big, honestly? Sections by tape or walk, drawn as entered, with what is left out.
//!
//! What an area is, the rules say; where a section is kept, the book.

mod choose;
mod drawn;
mod fields;
mod kind;
mod new;
mod of_visit;
mod read;
mod rest;
mod section;
#[cfg(test)]
mod terms;
mod walk;

use crate::ask::Screen;

pub(crate) const SCREENS: &[Screen] = &[
    Screen {
        path: "/yards/{yard}/sections/new",
        show: new::show,
        acts: &[("save", new::save)],
    },
    Screen {
        path: "/yards/{yard}/sections/{section}",
        show: section::show,
        acts: &[
            ("correct", section::correct),
            ("leave-out", section::leave_out),
            ("take-back", section::take_back),
            ("choose-outline", section::choose_outline),
            ("hide", section::hide),
            ("rename", section::rename),
            ("rest", rest::worked),
        ],
    },
    Screen {
        path: "/visit/{visit}/measure",
        show: of_visit::show,
        acts: &[],
    },
];
