//! What to keep in mind beside a number, and how it was rounded: every such sentence.
//!
//! The numbers themselves, and when a note stands beside them, are the subjects' business.

use rust_decimal::Decimal;

use crate::finding::Tenths;
use crate::sentence::sentences;

sentences! {
    /// Something the reader of a number should keep in mind: assumptions, limits of the method.
    /// `Display` is the English; in JSON its name stands under `note`.
    Note, tag = "note";

    TapeErrors
        => ("uncertainty from a reading error of 1 % of each tape, at least 0.1 ft (common \
             practice, no source)");
    BetweenOffsets
        => ("how the edge runs between two offsets is not measured: more offsets make it surer");
    LessRound => ("the less round the shape, the more this falls short of its area");
    LeftOutInside => ("what is left out is taken to lie inside the lawn and not to overlap");
    FixErrors
        => ("uncertainty from the fixes' accuracies, each fix on its own, to first order; a shift \
             common to all of them changes no area, and errors that neighbours share are not counted");
    AccuracyAssumed { fixes: usize, metres: Decimal }
        => ("{fixes} fixes have no accuracy; {metres} m is assumed (common practice, no source)");
    DrawnByHand
        => ("drawn by hand on the sketch: measure by tape or walk before treating");
    DrawnErrors { metres: Decimal }
        => ("uncertainty from each corner being off by {metres} m (root mean square) on its own \
             (common practice, no source)");

    RoutesNotUsed => ("the file also holds routes; only its track is used");
    WaypointsNotUsed { count: usize } => ("{count} single waypoints in the file are not used");
    AccuracyByHdop { metres: Decimal }
        => ("accuracy is taken as HDOP times {metres} m, an assumption: GPX gives no metres");
    NoHdop { fixes: usize, metres: Decimal }
        => ("{fixes} fixes give no HDOP; {metres} m is assumed for them");
    NoTimes { fixes: usize }
        => ("{fixes} fixes have no time; jumps beside them cannot be seen");

    FinishedMix => ("the finished mix: fill with water up to this, product included");
    AreaLessUncertainty => ("planned for the area less one standard deviation");
    EachLoadRounded
        => ("each load's product is rounded by itself: it goes on its own part of the lawn");
    SwathOfCalibration
        => ("a spreader setting holds for the swath on which it was calibrated: at another distance \
             between lines the dose changes");
    NoDensity => ("weight and volume do not go together without the product's density");
    RestAtPlannedRate
        => ("the part that is left gets the planned rate; it never makes up for the part done");

    WetBulbAccuracy => ("good to about 0.3 °C beside a psychrometer, at sea level");

    PestsInPatches
        => ("pests sit in patches, so the true uncertainty is larger than the interval");
    OneSample => ("one sample only: take more, spread over the lawn");
    SameBefore
        => ("takes both plots to have held the same before; count before, and use the other \
             formula, if they may not have");
    CheckHeldNone
        => ("the check held none before, so the formula gives 100 % whatever was left: choose \
             another check");
    AskExtension => ("not sure about the count? Ask your extension office");
    ThresholdOf { life_stage: &'static str, region: &'static str, publisher: &'static str }
        => ("threshold for {life_stage} in {region}: {publisher}");
    SourcesDiffer => ("sources differ for this pest; choose the one for your region");

    SpareRoundedDown => ("what is left and what it covers are rounded down");
    RepeatHoldsThereToo
        => ("the label's shortest time between two treatments holds for a leftover too");
    LeftoverElse
        => ("else by the label and the local code; never into a drain, on the street or on bare ground");
    DialInFinishedMix
        => ("the dial's ratio is taken as product in a gallon of what comes out, water and product \
             together");
    LabelOrderOfMixing => ("the label says in which order to fill and mix");
    HalfSwathIsMoreEven
        => ("lines half a swath apart come out more even than two passes at right angles (Ohio State \
             University, Bulletin 817)");
    DriestQuarter
        => ("by the mean, about half of the lawn gets less than the depth; by the driest quarter \
             little of it does");
    SoakUntilGone
        => ("between two runs wait until no water stands or runs (common practice, no source)");
    RunOffCut => ("the run-off time is cut to whole minutes, so that no run reaches it");
    SameGround => ("every treatment is taken to lie on the same ground");
    DayCarriedOver => ("in a month without that day it counts to the first day of the next");
    WholeDays => ("parts of a day count as a whole day");
    OldestFirst => ("opened lots first, then the day printed, then the day bought; undated lots last");
    MostHoldsForSpots
        => ("a dose for each spot is for spots only: the label's most over the area still holds");
}

sentences! {
    /// How a number was rounded. `Display` is the English; in JSON its name stands under
    /// `rounding`.
    Rounding, tag = "rounding";

    WholeSteps => ("to whole steps, never above the label's most");
    WholeStepsBy { change: Tenths }
        => ("to whole steps, never above the label's most: {change} %");
}
