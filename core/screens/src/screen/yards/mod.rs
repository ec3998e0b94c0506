//! Yards: what is this place? The list, one yard, its people, its sketch and history.
//!
//! How sections are measured is [`super::measure`]'s matter; no rule and no record lives here.

mod contacts;
mod due;
mod edit;
mod fields;
mod list;
mod marks;
mod new;
mod one;
mod sketch;
mod two_values;

use crate::ask::Screen;
use crate::part::nearest;

pub(crate) const SCREENS: &[Screen] = &[
    Screen {
        path: "/yards",
        show: list::show,
        acts: &[(nearest::ACT, nearest::act)],
    },
    Screen {
        path: "/yards/new",
        show: new::show,
        acts: &[("add", new::add)],
    },
    Screen {
        path: "/yards/{yard}",
        show: one::show,
        acts: &[("visit", one::visit), ("settle", two_values::settle)],
    },
    Screen {
        path: "/yards/{yard}/edit",
        show: edit::show,
        acts: &[("save", edit::save)],
    },
    Screen {
        path: "/yards/{yard}/contacts",
        show: contacts::show,
        acts: &[
            ("add", contacts::add),
            ("save", contacts::save),
            ("hide", contacts::hide),
        ],
    },
    Screen {
        path: "/yards/{yard}/marks",
        show: marks::show,
        acts: &[
            ("add", marks::add),
            ("save", marks::save),
            ("hide", marks::hide),
            ("place", marks::place),
        ],
    },
    Screen {
        path: "/yards/{yard}/sketch",
        show: sketch::show,
        acts: &[],
    },
];
