//! The yard sketch: an SVG drawing to scale.
//!
//! It draws what it is given; where that comes from is for screens.
