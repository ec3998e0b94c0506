//! Tests of the door.
