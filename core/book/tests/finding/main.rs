//! Finding without reading a season: each quick read says what a slow one over everything says.
//!
//! And what people record around a treatment: what is refused, and what it leaves behind.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod around;
mod lists;
mod ring;
mod running;
mod scene;
