//! The program as a person runs it: real processes on real folders, in practice books with a
//! pretended clock. What rules and records mean is tested in their own crates.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod bad_files;
mod bad_input;
mod calc_area;
mod calc_look;
mod calc_places;
mod calc_sky;
mod calibration;
mod corrections;
mod crew;
mod keep_offs;
mod locked_files;
mod plans;
mod product_and_water;
mod ready_sky;
mod sheets;
mod store;
mod support;
mod visit;
