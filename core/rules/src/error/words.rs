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

    StripWidth => ("width of the strip");
    StripEdge => ("edge along the strip");
    Slope => ("slope");
    Rise => ("rise");
    Run => ("run");
    WantedRate => ("rate wanted");
    FoundRate => ("rate found");
    StripLength => ("length of the strip");
    TestArea => ("test area");
    ProductAtStart => ("product at the start");
    ProductCaught => ("product caught");
    SettingTried { number: usize } => ("setting tried, number {number}");
    SettingsTried => ("settings tried");
    SettingNow => ("setting now");
    BoxSpacing => ("distance between boxes");
    Boxes => ("boxes");
    Catch { number: usize } => ("catch of box {number}");
    Flow => ("flow");
    NewFlow => ("flow of a new nozzle");
    WantedFlow => ("flow wanted");
    Speed => ("speed");
    TargetSpeed => ("speed wanted");
    SprayWidth => ("spray width");
    Pressure => ("pressure");
    OtherPressure => ("other pressure");
    NozzleCatch { number: usize } => ("catch of nozzle {number}");
    Nozzles => ("nozzles");
    CatchTime => ("time of the catch");
    AreaTime => ("time for the area");
    WaterCaught => ("water caught");
    CourseLength => ("marked distance");
    RunTime { number: usize } => ("time of run {number}");
    Runs => ("runs");
    FirstResult => ("first person's result");
    SecondResult => ("second person's result");
    CoarsestDrops => ("coarsest drops");
    SignWidth => ("the sign's width");
    SignHeight => ("the sign's height");
    SignLetters => ("the sign's letters");
    SignBottom => ("the height of the sign's bottom edge");
    TreatmentEnd => ("the end of the treatment");
    PlannedStart => ("the planned start");
    NeighbourDistance => ("the neighbour's distance");
    Latitude => ("the latitude");
    Longitude => ("the longitude");
    DayOfSun => ("the day");
    PlaceHeight => ("the height above the sea");
    WindSpeed => ("the wind");
    MeterHeight => ("the meter's height");
    WindFrom => ("where the wind comes from");
    Bearing => ("the bearing");
    Around => ("what lies around");
    SoilTemperature => ("the soil's temperature");
    IngredientRate => ("active ingredient per area");
    FinishedMix => ("finished mix");
    MixRatio => ("product in the mix");
    Covered => ("area that it covers");
    PackAmount => ("product in the pack");
    Drawn { name: String } => ("drawn at {name}");
    LeftInTank => ("left in the tank");
    Stops => ("the stops");
    Sites => ("the sites");
    AlreadyPutOn { name: String } => ("put on already at {name}");
    Caught => ("water caught");
    DialStep { number: usize } => ("dial step {number}");
    DialSteps => ("the dial's steps");
    SettingGives => ("what the setting gives");
    CalibratedSwath => ("swath of the calibration");
    LineSpacing => ("distance from line to line");
    CanDepth { number: usize } => ("depth in can {number}");
    Cans => ("the cans");
    CanTime => ("time of the can test");
    RunOffTime => ("time until water ran off");
    SoakTime => ("time to soak in");
    SeasonMost { name: String } => ("most of {name} in a season");
    Treatments => ("the treatments");
    PutOn { number: usize } => ("product of treatment {number}");
    RepeatAfter => ("shortest time between two treatments");
    Lots => ("the lots");
    OnHand { name: String } => ("on hand of lot {name}");
    NeededProduct => ("product needed");
    SpotDose => ("dose for each spot");
    SpotMix => ("mix for each spot");
    Spots => ("number of spots");
    GroundTemperature => ("temperature of the ground");
    ChipMinutes => ("minutes of the chip test");
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
    PartOfTheEdge => "no longer than the whole edge; measure both again";
    Slope => "from level to 45 degrees (100 %); measure it again, run being level and not along the ground";
    LessThanAtStart => "less than at the start; if nothing came out, open the setting and try again";
    OddBoxes => "an odd number from 5 to 101, the middle box on the line walked";
    SwathWithinBoxes => "from two boxes to the width of the whole row";
    CatchKind => "a weight, a volume or a height in its tube, of one kind for all boxes";
    OneNozzleAtLeast => "one at least";
    OneRunAtLeast => "one at least; walk it three times";
    SomethingCaught => "more than nothing in the middle";
    RatesThatDiffer => "two settings that gave different rates: try one farther off";
    SettingNumber => "a number of zero or more, at most 1000";
    NotFinerThanFinest => "no finer than the finest";
    SaneSpeed => "more than 0.1 and less than 25 mph";
    Latitude => "-90 to 90 degrees, north above zero, such as 40.7128";
    Longitude => "-180 to 180 degrees, east above zero, such as -74.0060";
    DayOfSun => "a day of the years 1970 to 2199, such as 2026-06-20";
    AirOutdoors => "that of air outdoors: -90 to 60 °C and 300 to 1100 hPa";
    PlaceHeight => "-500 to 9000 m";
    WindSpeed => "a wind on a lawn, 0 to 134 mph (60 m/s); check the number and its unit";
    MeterHeight => "3 to 100 ft above the lawn, such as 5 ft";
    Degrees => "0 to 360 degrees clockwise from north, such as 270 for west";
    MixRatioKind => "a weight or a volume of product per volume of mix, such as 2 lb/100 gal";
    DialKind => "a volume of product per volume of mix, such as 1 fl oz/gal: the dial takes liquids";
    IngredientRateKind => "a weight of active ingredient per area, such as 0.2 lb/acre";
    ProductKind => "a weight or a volume of product, such as 2 lb or 8 fl oz";
    SpotCount => "1 to 100,000";
    GroundTemperature => "20 to 160 °F: measure the ground again";
    ChipMinutes => "1 to 240";
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
