//! What stands in the sentences of an error: fields, bounds and parts, by name.
//!
//! The sentences are in [`super`].

use crate::sentence::{sentences, words};

sentences! {
    /// The field in which an error stands, as the person knows it.
    ///
    /// `Display` is the English. In JSON its name stands under `field`, a number or a name that
    /// belongs to it beside it.
    Field, tag = "field";

    Rate => ("rate");
    LeastRate => ("label's least rate");
    Carrier => ("carrier");
    LeastCarrier => ("label's least carrier");
    Area => ("area");
    AreaUncertainty => ("uncertainty of the area");
    TheArea => ("the area");
    LeastStep => ("step of the vessel");
    Tank => ("tank");
    Hopper => ("hopper");
    Swath => ("swath");
    Content => ("content");
    Ingredient { name: String } => ("{name}");
    Section { name: String } => ("{name}");
    PlannedProduct => ("planned product");
    FilledProduct => ("product filled in");
    ProductLeft => ("product left");
    ShareDone => ("share done");
    WateringDepth => ("watering depth");

    Length => ("length");
    Width => ("width");
    FirstSide => ("first side");
    SecondSide => ("second side");
    ThirdSide => ("third side");
    Base => ("base");
    Height => ("height");
    FirstParallelSide => ("first parallel side");
    SecondParallelSide => ("second parallel side");
    Diameter => ("diameter");
    Radius => ("a radius");
    Radii => ("number of radii");
    Spacing => ("spacing of the offsets");
    Offset { number: usize } => ("offset {number}");
    Offsets => ("offsets");
    BaseLine => ("the base line");
    Tape => ("tape");
    Corner { number: usize } => ("corner {number}");
    TapedCorners => ("taped corners");
    DrawnCorners => ("the drawing");
    LeftOut { number: usize } => ("left out, number {number}");
    AllLeftOut => ("what is left out");
    Walk => ("the walk");
    GpxFile => ("the GPX file");
    Plan => ("the plan");

    Look => ("the look");
    Sample { number: usize } => ("sample {number}");
    SampleSize => ("the sample's size");
    TotalCount => ("the total count");
    AliveInCheck => ("alive in the check");
    AliveWhenTreated => ("alive when treated");
    DeadInCheck => ("dead in the check");
    DeadWhenTreated => ("dead when treated");
    BaseTemperature => ("the base temperature");
    Days => ("the days");
    Day { name: String } => ("{name}");
    Answers => ("the answers");

    BeaufortForce => ("the Beaufort force");
    Humidity => ("the humidity");
    AirTemperature => ("the air temperature");
    ForecastLayer { layer: &'static str } => ("{layer}");

    Air => ("air");
    Wait => ("wait");
}

words! {
    /// What is allowed where something else was given.
    Allowed;
    RateKind => "a weight or a volume per area, such as 2.5 lb/1000 ft2";
    ContentKind => "a percentage by weight or a weight per volume, such as 0.2 % or 2 lb/gal";
    ContentMost => "at most 100 %";
    LawnArea => "between 0 and 100 hectares, and surer than that; measure the section again";
    NoMoreThanFilled => "no more than was filled in";
    PartOfTheWhole => "more than 0 % and less than 100 %";
    Radii => "from 4 to 1000, at even angles";
    TotalCount => "at most 100,000; check the counts";
    SampleSize => "that of a sample: about an inch to 30 ft across";
    ZeroOrMore => "a count, or a share, of zero or more";
    BeaufortForce => "0 to 12";
    WetBulbHumidity => "5 to 99 % for the wet bulb formula";
    Humidity => "above 0 and at most 100 %";
    AirTemperature => "-20 to 50 °C for this formula";
    AtMostLookedAt => "at most as many as were looked at";
}

words! {
    /// The most that is taken for a lawn's.
    Most;
    Side => "5 km (about 3 miles)";
    Lawn => "100 hectares (about 247 acres)";
}

words! {
    /// One of a position's two numbers.
    Axis;
    Latitude => "latitude";
    Longitude => "longitude";
}

words! {
    /// How a GPX file holds a walk.
    Walked;
    Track => "track";
    Route => "route";
}

words! {
    /// A group that every station report has.
    MetarGroup;
    Station => "station";
    Wind => "wind";
}

words! {
    /// The count without which control is not defined.
    ControlCount;
    AliveInCheck => "what lives in the check";
    BeforeTreating => "the count before treating";
    CheckAfter => "the check's count after";
    CheckLookedAt => "how many were looked at in the check";
    TreatedLookedAt => "how many were looked at when treated";
}
