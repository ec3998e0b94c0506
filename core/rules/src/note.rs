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
    MoreThanChance { samples: usize }
        => ("the samples differ more than chance would have them: the interval is widened by that, \
             and how much rests on {samples} samples");
    IfTheyHoldAsMany
        => ("a forecast: it holds if further samples, taken the same way all over the lawn, hold as \
             many on average and differ as much");
    IntervalByLogRatio
        => ("interval at 95 % by the delta method on the logarithm of the ratio; counts are taken to \
             fall at random");
    IntervalByLogShares
        => ("interval at 95 % by the delta method on the logarithm of the ratio of the two shares \
             alive (Katz and others 1978, Biometrics 34, 469)");
    HalfAdded
        => ("a count is 0, so one half is added to each count for the interval (Haldane and Anscombe)");
    SharesHaveNoInterval
        => ("shares do not tell how many were counted, so there is no interval: give counts");
    DaysMissing { count: usize }
        => ("days that are missing: {count}; the sum is what it is at least");
    SameBaseAndStart
        => ("compare it only with a sum of the same base, start and method");
}

sentences! {
    /// How a number was rounded. `Display` is the English; in JSON its name stands under
    /// `rounding`.
    Rounding, tag = "rounding";

    WholeSteps => ("to whole steps, never above the label's most");
    WholeStepsBy { change: Tenths }
        => ("to whole steps, never above the label's most: {change} %");
}
