//! Why a finding is what it is: every sentence, with what is put into it.
//!
//! A finding holds one of these and, beside it, more ([`super::Finding::also`]). Which one is said
//! when is for the subjects; what was held against which limit is in [`super::Shown`].

use crate::quantity::Entered;
use crate::sentence::{sentences, words};
use crate::sky::Around;
use crate::walk_round::Question;

use super::Tenths;

sentences! {
    /// Why a finding is what it is, one sentence.
    ///
    /// `Display` is the English. In JSON a sentence is an object: its name under `reason`, and
    /// beside it what is put in.
    ///
    /// ```
    /// use sward_rules::finding::Reason;
    /// let reason = Reason::LookedTooLongAgo { age_min: 45 };
    /// assert_eq!(reason.to_string(), "looked at 45 min ago; look again");
    /// let json = serde_json::to_value(&reason)?;
    /// assert_eq!(json["reason"], "looked-too-long-ago");
    /// assert_eq!(json["age_min"], 45);
    /// assert!(Reason::NAMES.contains(&"looked-too-long-ago"));
    /// # Ok::<(), serde_json::Error>(())
    /// ```
    stored Reason, tag = "reason";

    0 NotChecked => ("this was not checked");
    1 TimeNotProven => ("the time is not proven, so no reading's age is known; confirm it first");
    2 TimeToCome => ("it bears a time still to come; check the clocks");
    3 NotLookedAt => ("not looked at yet");
    4 LookedTooLongAgo { 0 age_min: u32 } => ("looked at {age_min} min ago; look again");
    5 LabelFieldEmpty { 0 field: LabelField } => ("the label's {field} is not filled in");
    6 LabelFieldUnusable { 0 field: LabelField, 1 given: Entered }
        => ("the label's {field} cannot be {}; read the label again", .given.for_person());

    10 WindNotMeasured => ("no wind was measured at the yard");
    11 NoRecentWindReading { 0 within_min: u32 }
        => ("no meter reading of the last {within_min} min; measure again");
    12 WindJudgedTooLongAgo { 0 age_min: u32 } => ("the wind was judged {age_min} min ago; look again");
    13 NoSuchBeaufortForce { 0 force: u8 } => ("the Beaufort scale has no force {force}; it ends at 12");
    14 WindReadingToCome
        => ("a reading cannot be used: it bears a time still to come; check the clocks");
    15 WindReadingUnusable { 0 given: Entered }
        => ("a reading cannot be used: {} is no wind speed; measure again", .given.for_person());
    16 WindDirectionUnusable { 0 degrees: u16 }
        => ("a reading cannot be used: no wind comes from {degrees} degrees; measure again");
    17 TooFewWindReadings { 0 count: u32, 1 needed: u32 }
        => ("{count} of the {needed} readings a series needs");
    18 WindReadingsTooClose { 0 span_s: u32, 1 needed_s: u32 }
        => ("the readings span {span_s} s, a series needs {needed_s} s");
    19 NoGustNoted => ("no gust was noted; note the highest the meter showed");
    20 FarWindNeverClears => ("a station or forecast alone never clears the wind at a yard");
    21 LabelSetsNoWind => ("the label sets no wind limit");
    22 WindAboveAdvised => ("the wind is above what is advised");
    23 WindCommonAdvice { 0 speed: Entered } => ("{} is common advice", .speed.for_person());
    24 WindAboveLabel => ("the wind is above the label's limit");
    25 WindCalm => ("calm: fine drops hang in the air and wander");
    26 WindNearLabel => ("the wind is close to the label's limit");
    27 WindUnderLabelAboveAdvised
        => ("the wind is under the label's limit, above what is advised");
    28 WindUnderLabel => ("the wind is under the label's limit");
    29 ByMeter { 0 count: u32, 1 mean: Entered, 2 gust: Option<Entered> }
        => ("{count} meter readings, mean {}{}", .mean.for_person(), gust_text(gust.as_ref()));
    30 ByBeaufort { 0 force: u8 } => ("Beaufort force {force}, counted as its upper end");
    31 ByStation { 0 station: String, 1 age_min: u32 } => ("by station {station}, {age_min} min ago");
    32 ByForecast => ("by the forecast for the time of the treatment");
    33 AtYard => ("measured at the yard");

    40 NoForecast => ("there is no forecast");
    41 ForecastToCome => ("the forecast bears a time still to come; check the clock");
    42 ForecastTooOld { 0 age_h: u32, 1 most_h: u32 }
        => ("the forecast is {age_h} h old, over the {most_h} h it counts for; download it again");
    43 RainExpected { 0 amount: Entered, 1 chance_percent: u32 }
        => ("rain expected: {} or more at {chance_percent} % or more in that time", .amount.for_person());
    44 RainPossible { 0 chance_percent: u32 }
        => ("some rain may fall: {chance_percent} % or more, or some amount");
    45 NoRainExpected => ("no rain expected in that time");
    46 ForecastLacks { 0 layer: RainLayer } => ("the forecast has no {layer}");
    47 ForecastEnded { 0 layer: RainLayer, 1 hours_ago: u32 }
        => ("the forecast's {layer} ended {hours_ago} h ago; download it again");
    48 ForecastEndsTooSoon { 0 layer: RainLayer }
        => ("the forecast's {layer} ends before the time that must stay dry does");
    49 ForecastHasGap { 0 layer: RainLayer } => ("the forecast's {layer} has a gap in that time");

    60 LabelSetsNoTemperature => ("a person read the label, and it sets no temperature");
    61 AirNotMeasured => ("the air at the yard was not measured");
    62 AirMeasuredTooLongAgo { 0 age_min: u32 }
        => ("the air was measured {age_min} min ago; measure again");
    63 AirReadingUnusable { 0 given: Entered }
        => ("the air cannot have been at {}; measure again", .given.for_person());
    64 TemperatureBelowLabel => ("the air is below the label's least");
    65 TemperatureAboveLabel => ("the air is above the label's most");
    66 TemperatureNearLabel => ("the air is close to the label's limit");
    67 TemperatureWithinLabel => ("the air is within the label's limits");

    70 NoHumidity => ("no humidity was measured at the yard");
    71 OutsideWetBulbRange
        => ("how fast drops dry can only be told from -20 to 50 °C and from 5 to 99 % humidity");
    72 DropsDryTooFast => ("drops dry too fast: they shrink, drift, and dry before they work");
    73 DropsDryFast => ("drops dry fast: use coarser drops, or wait for cooler air");
    74 DropsDrySlowly => ("drops dry slowly and hang about; it may be an inversion");
    75 DropsDryWell => ("drops dry neither too fast nor too slowly");

    80 NoInversionSign => ("no sign of an inversion was seen");
    81 InversionSeen => ("the air does not mix: fine drops hang in it and wander");
    82 InversionPossible => ("the air may not mix; watch smoke or dust before spraying");
    83 SoilTakesWater => ("the soil takes water");
    84 SoilDustDry => ("on dust-dry soil product stays on top; water first if the label allows");
    85 SoilSoaked => ("from soaked soil product runs off");
    86 SoilFrozen => ("from frozen soil product runs off");
    87 NoBlooms => ("no blooms for bees to come to");
    88 BloomsBeside => ("bees visit blooms beside the lawn: keep drift off them");
    89 BloomsOnLawn => ("bees visit blooms on the lawn: mow them off first");

    100 NotAnswered { 0 question: Question } => ("{}: not looked at yet", .question.name());
    101 AnswerNotDated { 0 question: Question }
        => ("{}: the time is not proven; confirm it, then look again", .question.name());
    102 AnswerToCome { 0 question: Question }
        => ("{}: the answer bears a time still to come; look again", .question.name());
    103 AnswerTooOld { 0 question: Question, 1 age_min: u32 }
        => ("{}: looked at {age_min} min ago; look again", .question.name());
    104 SeenTo { 0 question: Question } => ("{}: seen to", .question.name());
    105 NoneHere { 0 question: Question } => ("{}: none here", .question.name());
    106 ToysStay => ("toys: what stays on the lawn is treated with it; wash it before a child touches it");
    107 BowlsStay => ("bowls: a pet would eat or drink the product");
    108 LaundryHangs => ("laundry: drift settles on laundry; have it washed again");
    109 WindowsOpen
        => ("windows: drift enters by open windows and air intakes; keep away from that side");
    110 PondOrHiveOpen
        => ("pond or hive: fish and bees are killed by small amounts; cover them, or leave that part out");
    111 IrrigationOn
        => ("irrigation: a timer that starts washes the product off, or wets what must stay dry");
    112 GatesOpen
        => ("gates: through an open gate children and pets come in; put somebody or a sign there");
    113 PuddlesThere => ("puddles: product in standing or running water leaves the lawn with it");
    114 HardSurfacesReached
        => ("hard surfaces: what lands on hard surfaces runs to the drain; sweep granules back on to the turf");
    115 DrainsOpen => ("drains and open water: product that reaches a drain reaches open water");
    116 PeopleOrPetsThere
        => ("people and pets: nobody may be on the lawn while it is treated");

    130 RateAboveMost => ("the rate is above the label's most");
    131 RateWithinMost => ("the rate is within the label's most");
    132 RateEmpty => ("the label's rate is not filled in on the label sheet");
    133 LabelSetsNoRate => ("the label sheet says that the label sets no rate");
    134 LeastRateEmpty
        => ("the label's least rate is not filled in on the label sheet; where the label gives one \
             rate and no range, say so there");
    135 RateBelowLeast => ("the rate is below the label's least: it may not work");
    136 CarrierBelowLeast => ("there is less water than the label's least");
    137 CarrierEnough => ("the carrier is not below the label's least");
    138 LeastCarrierEmpty => ("the label's least carrier is not filled in on the label sheet");
    139 LabelSetsNoCarrier => ("the label sets no least carrier");
    140 AreaUnsure { 0 section: String }
        => ("{section} may be smaller or larger than measured, and its dose with it: measure it \
             again, or plan for the area less its uncertainty");
    141 RoundedBelowLeast
        => ("rounded to what the vessel shows, the dose falls below the label's least: use a finer \
             measure");
    142 RoundingChangesMuch
        => ("rounding to what the vessel shows changes a dose by much: use a finer measure");
    143 MostNotOnSheet => ("the label's most is not on the label sheet");
    144 HalfWayAboveMost
        => ("stop: the part done is above the label's most and stays so. Set the rate right, then \
             treat what is left at the planned rate; do not average");
    145 HalfWayHeavy => ("heavy: set the rate right, then treat what is left as planned");
    146 HalfWayLight => ("light: set the rate right, then treat what is left as planned");
    147 HalfWayOnRate => ("on the planned rate");
    148 NoPlan => ("the visit has no plan with this label sheet; make the plan first");
    149 NoRateYet => ("the plan has no rate yet; choose one");
    150 RateNotCompared
        => ("the rate cannot be compared with the label's: they are of different kinds");

    160 ReadBack { 0 person: String } => ("the numbers were read back by {person}");
    161 NotReadBack
        => ("the label sheet's numbers were not read back since they were last changed");
    162 RepeatEmpty
        => ("the label sheet says nothing of the shortest time between two treatments");
    163 YardNotKnown => ("the yard is not known yet");
    164 TreatedTooRecently => ("this product was put on too recently");
    165 TreatedLongAgo
        => ("the crew's last treatment with it lies long enough back; what others put on is not known");
    166 NoTreatmentKnown => ("no treatment with it in this book; what others put on is not known");

    180 MayOpenByForecast => ("by the forecast only; measure the wind at the yard then");
    181 WindHeldToLabel { 0 speed: Entered } => ("wind against the label's {}", .speed.for_person());
    182 WindHeldToAdvice { 0 speed: Entered }
        => ("wind against {}, common advice, as no limit of the label is known", .speed.for_person());
    183 DryHeldToLabel { 0 time: Entered } => ("dry for {} after treating", .time.for_person());
    184 DryHeldToAdvice { 0 minutes: u32 }
        => ("not during rain: dry for {minutes} min, as the label sets no longer time");
    185 ForecastTooShort
        => ("the forecast ends, or has a gap, before the time needed does");
    186 NoHourWillDo { 0 wind_h: u32, 1 rain_h: u32, 2 temperature_h: u32 }
        => ("until the forecast ends no hour will do: {wind_h} h of wind, {rain_h} h of rain and \
             {temperature_h} h of temperature are over the limits");

    260 CalibratedOnRate => ("within 5 % of the rate wanted, and not above the label's most");
    261 CalibratedAboveMost
        => ("above the label's most, which is off the label however little: set it lower and try \
             again");
    262 CalibratedHeavy => ("more than 5 % above the rate wanted: set it lower and try again");
    263 CalibratedLight => ("more than 5 % below the rate wanted: set it higher and try again");
    264 PatternEven => ("passes overlap evenly at this swath");
    265 PatternUneven => ("passes overlap unevenly at this swath: choose another, or set the spreader right");
    266 PatternStripes => ("stripes will show at this swath: choose another, or set the spreader right");
    315 PatternBeyondBoxes
        => ("the pattern reaches beyond the boxes, so how evenly passes overlap is not known: lay more boxes \
             and throw again");
    267 PaceOneRun => ("one run only: walk the distance three times at least");
    268 NozzlesEven => ("each nozzle gives within 10 % of their mean");
    269 NozzleOff { 0 nozzle: u32, 1 change: Tenths }
        => ("nozzle {nozzle} gives {change} % from the mean: clean it, then replace it");
    270 NozzleWorn { 0 nozzle: u32, 1 change: Tenths }
        => ("nozzle {nozzle} gives {change} % from a new one: replace it");
    271 NewFlowNotKnown
        => ("what a new nozzle gives at this pressure is not known, so wear is not known either");
    272 DropsAsLabelAsks => ("the drops are as the label asks");
    273 DropsFinerThanLabel
        => ("the drops are finer than the label allows: use another nozzle or less pressure");
    274 DropsCoarserThanLabel
        => ("the drops are coarser than the label allows: use another nozzle or more pressure");
    275 DropsNotKnown
        => ("the nozzle's droplet class at this pressure is not known: look it up in the nozzle's table");
    276 NozzlesNotWorn => ("no nozzle gives over 10 % more than a new one");
    277 LabelSetsNoDrops => ("a person read the label, and it asks for no droplet class");
    278 PaceOnTarget => ("the pace is within 5 % of the one wanted");
    279 PaceFast { 0 change: Tenths } => ("too fast: the rate changes by {change} %");
    280 PaceSlow { 0 change: Tenths } => ("too slow: the rate changes by {change} %");
    281 PaceVaries { 0 spread: Entered }
        => ("the pace varies by {} from run to run: walk it again", .spread.for_person());
    282 TwoPeopleAgree => ("two people found the same within 5 %");
    283 TwoPeopleDiffer => ("two people found different results: both do it again");
    284 NoSecondPerson => ("nobody else has done it yet");
    285 CalibrationHolds => ("nothing has changed since the calibration");
    286 NeverCalibrated => ("no calibration is written down");
    287 CalibrationOld { 0 age_days: u32, 1 most_days: u32 }
        => ("calibrated {age_days} days ago, over the {most_days} days advised: do it again");
    288 CalibratedOtherwise { 0 part: CalibrationPart }
        => ("not the same as at the calibration: {part}; do it again");
    289 CalibrationPartNotKnown { 0 part: CalibrationPart }
        => ("not known whether it is the same as at the calibration: {part}");
    330 KeepOffNoFinish => ("no finish is recorded, so it has no end yet");
    331 KeepOffLabelNotRead => ("what the label says of the keep-off is not filled in; read the label");
    332 KeepOffWaits => ("the wait after the last application is not over");
    333 KeepOffLook => ("somebody has to look whether it is dry");
    334 KeepOffWateringNotRead
        => ("whether to water it in is not filled in from the label, so no look can count yet");
    335 KeepOffNotWateredIn
        => ("the label wants it watered in, and that is not done: dry counts only after it");
    336 KeepOffWetAgain => ("it was watered after somebody saw it dry; look again");
    337 KeepOffTimeNotProven
        => ("the time is not proven, so no wait can be said to be over; confirm the time");
    338 KeepOffClocksApart => ("the clocks behind its times are too far apart to tell when it is over");
    339 NoticeInTime => ("by what was said, notice was given in time");
    340 PlaceAsksLonger => ("the place asks for longer than the label");
    341 WorkerIntervalNotForLawns
        => ("the federal interval for farm workers leaves out lawns kept for looks: it is not the lawn's rule");
    342 WorkerIntervalAtSodFarm
        => ("a sod farm is inside the federal worker rule: the label's interval for workers counts");
    343 WorkerSiteNotSaid
        => ("nobody has said whether this is a lawn or a sod farm, so whether the interval for workers counts is not known");
    344 SignAskedFor => ("a rule that was read asks for a sign");
    345 SignAsAsked => ("as asked by the rule that was read");
    346 SignSmaller => ("the sign is smaller than asked");
    347 SignLettersSmaller => ("the letters are smaller than asked");
    348 SignTooLow => ("the sign's bottom edge is lower than asked");
    349 SignTooHigh => ("the sign's bottom edge is higher than asked");
    350 SignNotAsAsked => ("this is not as asked");
    351 SignNotMeasured => ("this was not measured, or not looked at");
    352 SignPartNotRead => ("this place's rule was not read whole");
    353 PlaceNotKnown
        => ("the place is none whose rules were read, and no other place's rule stands in");
    354 NoRuleRead => ("no such rule of this place was read; there may be one");
    355 NoticeCountyNotSaid
        => ("it counts only where the county adopted it, and nobody has said whether yours did");
    356 NoticeNotAdopted => ("a person says that the county did not adopt it");
    357 NoticeNotGiven => ("no notice is known to have been given");
    358 NoticeTooLate => ("the notice comes too late for this start; plan a later one");
    359 CheckCurrentRule => ("check your state's current rule");
    290 InversionHoursNow { 0 before_min: u32, 1 after_min: u32 }
        => ("air commonly does not mix at this hour, from {before_min} min before sunset to \
             {after_min} min after sunrise: watch smoke or dust first");
    291 InversionLikely
        => ("still air with dew or a clear low sun: the air hardly mixes, fine drops hang in it and \
             wander");
    292 YardPlaceNotKnown
        => ("where the yard lies is not known, so neither are the hours of sunset and sunrise; give \
             its latitude and longitude");
    293 OutsideInversionHours { 0 before_min: u32, 1 after_min: u32 }
        => ("not from {before_min} min before sunset to {after_min} min after sunrise, when air \
             commonly does not mix");
    294 HoursNotLeftOut
        => ("evening and night are not left out, as it is not known where the yard lies");
    295 NoHourByTheSun { 0 hours: u32 }
        => ("{hours} h lie between evening and morning, when air commonly does not mix");
    296 AroundNotNoted => ("what lies around the lawn was not noted");
    297 NothingMarkedAround
        => ("nothing is marked around this yard: look down wind for play areas, water, hives, blooms \
             and open windows");
    298 WindDirectionNotKnown
        => ("where the wind comes from was not noted at the yard, or it is calm and wanders");
    299 LiesDownWind { 0 around: Around } => ("down wind: {}", .around.name());
    300 NamedLiesDownWind { 0 around: Around, 1 name: String }
        => ("down wind: {} ({name})", .around.name());
    301 MayLieDownWind { 0 around: Around } => ("may lie down wind: {}", .around.name());
    302 NamedMayLieDownWind { 0 around: Around, 1 name: String }
        => ("may lie down wind: {} ({name})", .around.name());
    303 NothingDownWind => ("nothing that is marked lies down wind");
    304 MeterHeldAt { 0 height: Entered } => ("the meter was held at {}", .height.for_person());
    305 MeterHeightNotNoted { 0 height: Entered }
        => ("how high the meter was held was not noted; {} is assumed", .height.for_person());
    306 MeterHeightUnusable { 0 given: Entered }
        => ("how high the meter was held is not known: none is held at {}; measure again", .given.for_person());
    307 WindAboveLabelHigherUp { 0 speed: Entered }
        => ("under the label's limit where it was measured, but by estimate {} at 33 ft (10 m), above \
             it: read at which height the label means it", .speed.for_person());
    308 TurfDormant
        => ("turf dormant from drought is easily harmed and takes little up: water first if the \
             label allows, or wait");
    309 SoilTemperatureWas { 0 fahrenheit: Entered, 1 celsius: Entered }
        => ("soil at {} ({})", .fahrenheit.for_person(), .celsius.for_person());
    310 SoilTemperatureUnusable { 0 given: Entered }
        => ("the soil cannot have been at {}; measure again", .given.for_person());
    311 BeesWaterIn => ("for bees, water it in right after, as the label allows");
    312 BeesWindBelow { 0 speed: Entered }
        => ("for bees, not in wind above {}", .speed.for_person());
    313 BeesTellBeekeepers { 0 miles: u32, 1 hours: u32 }
        => ("tell beekeepers within {miles} miles {hours} h before");
    314 WetBulbMethodsDiffer { 0 celsius: Entered }
        => ("within {} of a limit, by which methods differ: taken on the safe side", .celsius.for_person());
    220 StopAreaNotKnown { 0 section: String }
        => ("{section}: the area treated is not known, and so its rate is not");
    221 SiteNotOnLabel { 0 section: String } => ("{section}: the label does not name such a site");
    222 SiteNotChecked { 0 section: String }
        => ("{section}: nobody has looked whether the label names such a site");
    223 AlreadyNotKnown { 0 section: String }
        => ("{section}: what was put on there already is not known");
    224 NoRoomUnderMost { 0 section: String } => ("{section} has the label's most already");
    225 NoDialStep
        => ("the dial has no step that low: walk faster, as far as the label's least water allows, or use \
             another sprayer");
    226 SwathAsCalibrated => ("the lines lie so that the setting gives the planned rate");
    227 SwathNotKnown
        => ("on which swath the setting was calibrated is not known: at another distance between \
             lines the dose changes");
    228 SwathCloser
        => ("the lines lie closer than the setting was calibrated for: more goes on than planned");
    229 SwathWider
        => ("the lines lie farther apart than the setting was calibrated for: less goes on than \
             planned");
    230 SwathAboveMost
        => ("with this setting, these lines and so many times over more goes on than the label's most");
    231 WaterInAsked => ("the label asks for watering in");
    232 WaterInNoDepth
        => ("the label asks for watering in, and no depth is on the label sheet: read the label \
             again");
    233 WaterKeptOff => ("the label asks to keep water off");
    234 WateringEmpty => ("whether to water in is not filled in on the label sheet");
    235 LabelSetsNoWatering => ("a person read the label, and it says nothing of watering in");
    236 SeasonAboveMost { 0 ingredient: String }
        => ("{ingredient}: above the label's most for a season");
    237 SeasonWithinMost { 0 ingredient: String }
        => ("{ingredient}: within the label's most for a season");
    238 SeasonMostNotKnown { 0 ingredient: String }
        => ("{ingredient}: the label's most for a season is not on the label sheet");
    239 SeasonPartNotKnown { 0 ingredient: String, 1 count: u32 }
        => ("{ingredient}: how much of it {count} of the treatments put on is not known");
    240 OthersNotKnown => ("what others put on is not known: ask");
    241 OthersSaidNone => ("others put on nothing, as told");
    242 LastTreatmentNotKnown => ("when this was last put on is not known");
    243 LabelSetsNoLimit => ("a person read the label, and it sets no limit here");
    244 SeasonCountReached => ("the label's most treatments of a season are reached");
    245 SeasonCountWithin => ("within the label's most treatments of a season");
    246 SeasonCountEmpty
        => ("the label's most treatments of a season are not filled in on the label sheet");
    247 StockEnough => ("there is enough on hand");
    248 StockShort { 0 amount: Entered } => ("{} are missing", .amount.for_person());
    249 StockNotKnown { 0 lot: String } => ("lot {lot}: how much is left is not known: measure it");
    250 LotExpired { 0 lot: String } => ("lot {lot} is past the day printed on it: leave it out");
    251 LotExpiryNotKnown { 0 lot: String }
        => ("lot {lot}: nobody has looked for a day printed on it");
    252 BaitFresh => ("the bait is fresh");
    253 BaitNotFresh => ("the bait is stale, damp or rancid: ants leave it lying");
    254 BaitWet
        => ("bait that gets wet is spoilt: wait for dry ground and no rain or watering ahead");
    255 BaitDry => ("the ground is dry, with no rain or watering ahead");
    256 AntsForage => ("ants are out for food");
    257 AntsDoNotForage => ("few ants are out for food: bait would lie; come at a better hour");
    258 SpotsAboveMost => ("the spots together are above the label's most over this area");
    259 SpotsWithinMost => ("the spots together are within the label's most over this area");
}

words! {
    /// A field of the label sheet, as a sentence names it.
    stored LabelField;
    0 WindMost => "wind limit";
    1 RainFree => "rain-free time";
    2 TemperatureLeast => "lowest temperature";
    3 TemperatureMost => "highest temperature";
    260 Droplets => "droplet class";
}

words! {
    /// What a forecast says of rain.
    stored RainLayer;
    0 Chance => "chance of rain";
    1 Amount => "amount of rain";
}

words! {
    /// What a calibration holds for, and nothing else.
    stored CalibrationPart;
    0 CalibrationDay => "day";
    1 CalibrationProduct => "product";
    2 CalibrationOperator => "who walks or drives";
    3 CalibrationMachine => "spreader or sprayer";
    4 CalibrationWheel => "wheels and tires";
    5 CalibrationNozzle => "nozzles";
    6 CalibrationSwath => "swath";
}

/// Several sentences as one English line.
///
/// ```
/// use sward_rules::finding::{Reason, in_english};
/// let reasons = [Reason::WindNotMeasured, Reason::FarWindNeverClears];
/// let line = in_english(&reasons);
/// assert!(line.starts_with("no wind was measured at the yard; a station or forecast"));
/// ```
pub fn in_english<'a>(reasons: impl IntoIterator<Item = &'a Reason>) -> String {
    let sentences: Vec<String> = reasons.into_iter().map(ToString::to_string).collect();
    sentences.join("; ")
}

fn gust_text(gust: Option<&Entered>) -> String {
    gust.map_or_else(String::new, |g| format!(", gust {}", g.for_person()))
}
