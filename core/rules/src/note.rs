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

    WetBulbAccuracy
        => ("beside ASHRAE's wet bulb at sea level 0.34 °C off on average from 1 to 50 °C: up to \
             0.6 °C up to 35 °C and from 15 % humidity, up to 1.2 °C in hotter or drier air");

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
    CountedTogether
        => ("the threshold counts armyworms and cutworms together: few of one do not say that there \
             are few of both");
    SourcesDiffer => ("sources differ for this pest; choose the one for your region");

    CoordinatesRounded { decimals: u32 }
        => ("the coordinates are rounded to {decimals} decimals of a degree; that counts as \
             uncertainty too");
    OuterEdgeOnly => ("the outer edge only; what is left out inside has edges of its own");
    BetweenRadii
        => ("how the edge runs between two radii is not measured: more radii make it surer");
    BaseLineIsEdge => ("the base line is taken for one straight edge of the lawn");
    WalkSmoothed { metres: Decimal }
        => ("wobbles of less than {metres} m are smoothed away for the edge's length (common \
             practice, no source); what they add to the walk counts as uncertainty");
    EdgeErrors
        => ("uncertainty from the fixes' accuracies, each fix on its own; such errors make an edge \
             longer, never shorter on the whole, and about how much counts as uncertainty");
    LeftOutBeyondStrip
        => ("what is left out is taken to lie beyond the strip, so that no more than what remains \
             is planned for");
    StripCutSquare
        => ("the strip is taken as straight, cut off square at its ends and inside the lawn");
    SlopeEven => ("the whole lawn is taken to slope evenly");
    SlopeErrors { degrees: Decimal }
        => ("uncertainty from the slope being off by {degrees} degrees (common practice, no source)");
    LabelSilentOnSlope
        => ("a label that does not say which area it means is taken to mean the level one, as on a \
             map: it gives the smaller dose (common practice, no source)");
    SlopeRunOff
        => ("spray and water run off a slope sooner: stop before they do; the label, and the law \
             near water, decide (common practice, no source)");
    TrySettingAgain
        => ("an estimate from two settings that were tried, not a setting: set it and try it again");
    BeyondSettingsTried
        => ("the rate wanted lies outside those tried, so the estimate is the less sure");
    EachPassByItself
        => ("where it goes on in two passes, the two together must give the rate");
    SampleDeviation => ("standard deviation with n - 1, over the boxes between two lines");
    FarmEvenness
        => ("15 % is a figure for farm fertilizer (EN 13739, as a good practice note sums it up); \
             there is none for lawns");
    WorseOverlap
        => ("back and forth, right meets right and left meets left: the worse of the two counts");
    BoxesEndTooSoon
        => ("the outermost boxes still caught a good part, so the pattern reaches beyond them: lay \
             more boxes and throw again");
    SamePressureEach
        => ("catch each nozzle for the same time, at the pressure used for spraying");
    SteadyFlow
        => ("where the flow is steady, half as fast is twice the rate (common practice, no source)");
    SettingOrPace => ("change the setting or the pace, not both; then check again");
    DropsChangeToo => ("holds for one nozzle; with the pressure the size of its drops changes too");
    TriedWithWater
        => ("tried with water: a mix that is denser or thicker flows otherwise");
    CheckCurrentRule => ("laws were read in stored copies: check your state's current rule");
    SignAsLongAsKeepOff => ("whatever a rule says, leave the sign up as long as anybody has to keep off");
    SomeProductsExempt => ("some products are exempt; which, only the rule itself says");
    KeptFromMemory => ("how long to keep it is from memory, not read: confirm it");
    FlatHorizon
        => ("for a flat horizon at sea level: behind hills, trees and houses the sun is gone sooner");
    InversionAnyHour
        => ("air may fail to mix at other hours too: watch smoke, dust, dew and fog");
    ProfileRaisesOnly
        => ("an estimate, and among houses and trees a rough one: it may raise a wind, and never \
             lowers one");
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
    SignificantDigits { digits: u32 } => ("to {digits} significant digits, for showing");

    TowardsLess => ("to the decimals of the settings tried, towards less product");
}
