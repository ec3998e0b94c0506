//! The invented season: a practice book that a new user may look at.
//!
//! Everything in it is made up; nothing here is a record.
