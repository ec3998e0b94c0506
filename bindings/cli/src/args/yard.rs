//! Yards and their sections: shapes by tape, and walks.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use super::values::key_value;

/// Yards.
#[derive(Debug, Args)]
pub(crate) struct YardArgs {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: YardCommand,
}

/// What can be done with yards.
#[derive(Debug, Subcommand)]
pub(crate) enum YardCommand {
    /// Add a yard
    Add {
        /// What people call it
        name: String,
        /// Postal address
        #[arg(long, default_value = "", hide_default_value = true)]
        address: String,
        /// Its time zone, like America/New_York; else this device's
        #[arg(long)]
        zone: Option<String>,
    },
    /// Change fields: name, address, state, zone, people, note
    Set {
        /// The yard
        yard: String,
        /// A field and its new value; an empty value empties it
        #[arg(required = true, value_name = "KEY=VALUE", value_parser = key_value)]
        fields: Vec<(String, String)>,
    },
    /// List the yards
    List,
    /// Show a yard with its sections
    Show {
        /// The yard
        yard: String,
    },
}

/// Sections.
#[derive(Debug, Args)]
pub(crate) struct SectionArgs {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: SectionCommand,
}

/// What can be done with sections.
#[derive(Debug, Subcommand)]
pub(crate) enum SectionCommand {
    /// Add a section, measured by tape or by a walk
    #[command(override_usage = "sward section add <YARD> <SECTION> <SHAPE> [OPTIONS]")]
    Add {
        /// The yard
        yard: String,
        /// What people call the section
        section: String,
        /// Its shape.
        #[command(flatten)]
        shape: ShapeArgs,
    },
    /// Measure a section anew
    #[command(override_usage = "sward section measure <YARD> <SECTION> <SHAPE> [OPTIONS]")]
    Measure {
        /// The yard
        yard: String,
        /// The section
        section: String,
        /// Its new shape.
        #[command(flatten)]
        shape: ShapeArgs,
    },
    /// Leave a bed, a pool or a shed out of a section
    LeaveOut {
        /// The yard
        yard: String,
        /// The section
        section: String,
        /// What is left out, like "circle 6 ft" or "rectangle 10 ft x 4 ft"
        #[arg(required = true, value_name = "SHAPE")]
        shapes: Vec<String>,
    },
    /// Hide a section from new visits; its keep-offs stay
    Hide {
        /// The yard
        yard: String,
        /// The section
        section: String,
    },
    /// Show a hidden section again
    Unhide {
        /// The yard
        yard: String,
        /// The section
        section: String,
    },
    /// List the sections of a yard with their areas
    List {
        /// The yard
        yard: String,
        /// Show the working behind each area
        #[arg(long)]
        how: bool,
    },
}

/// A shape, in one of these ways.
#[derive(Debug, Args)]
#[group(skip)]
pub(crate) struct ShapeArgs {
    /// The outer edge.
    #[command(flatten)]
    pub(crate) edge: EdgeArgs,
    /// The rule for offsets: straight (trapezoid) or bent (simpson, an odd number of offsets)
    #[arg(long, help_heading = "More on the shape", value_name = "RULE", default_value = "trapezoid", value_parser = ["trapezoid", "simpson"])]
    pub(crate) rule: String,
    /// Leave this out, like "circle 6 ft" or "rectangle 10 ft x 4 ft"; may be given several times
    #[arg(long, help_heading = "More on the shape", value_name = "SHAPE")]
    pub(crate) leave_out: Vec<String>,
}

/// The outer edge, in exactly one way.
#[derive(Debug, Args)]
#[command(next_help_heading = "Shape, one of")]
#[group(required = true, multiple = false)]
pub(crate) struct EdgeArgs {
    /// Length and width: "60 ft x 25 ft"
    #[arg(long, value_name = "L x W", allow_hyphen_values = true)]
    pub(crate) rectangle: Option<String>,
    /// Three sides: "30 ft, 26 ft, 28 ft"
    #[arg(long, value_name = "A, B, C", allow_hyphen_values = true)]
    pub(crate) triangle: Option<String>,
    /// A side and the height on it: "30 ft x 26 ft"
    #[arg(long, value_name = "SIDE x HEIGHT", allow_hyphen_values = true)]
    pub(crate) triangle_height: Option<String>,
    /// Two parallel sides and their distance: "40 ft, 30 ft, 20 ft"
    #[arg(long, value_name = "A, B, HEIGHT", allow_hyphen_values = true)]
    pub(crate) trapezoid: Option<String>,
    /// The diameter: "12 ft"
    #[arg(long, value_name = "DIAMETER", allow_hyphen_values = true)]
    pub(crate) circle: Option<String>,
    /// Greatest length and width: "30 ft x 12 ft"
    #[arg(long, value_name = "L x W", allow_hyphen_values = true)]
    pub(crate) oval: Option<String>,
    /// Distances from a middle point to the edge, all round: "20 ft, 22 ft, 19 ft, 21 ft"
    #[arg(long, value_name = "R, R, ...", allow_hyphen_values = true)]
    pub(crate) radii: Option<String>,
    /// The spacing along a base line, then the widths: "10 ft; 0 ft, 18 ft, 24 ft, 20 ft"
    #[arg(long, value_name = "SPACING; W, W, ...", allow_hyphen_values = true)]
    pub(crate) offsets: Option<String>,
    /// Corners by two tapes: the side from corner 1 to 2, then for each further corner two earlier
    /// corners with the tape from each, and the side of the line it lies on:
    /// "40 ft; 2 30 ft, 1 50 ft, left; 3 40 ft, 1 30 ft, left"
    #[arg(long, value_name = "SIDE; CORNER; ...", allow_hyphen_values = true)]
    pub(crate) tape_polygon: Option<String>,
    /// A walk along the edge, recorded as a GPX file
    #[arg(long, value_name = "FILE")]
    pub(crate) gpx: Option<PathBuf>,
}
