# Why a finding is what it is. Names after `reason-` are those of the core's `Reason`.
reason-not-checked = This was not checked.
reason-time-not-proven = The time is not proven, so no reading's age is known: confirm it first.
reason-time-to-come = It bears a time still to come: check the clocks.
reason-not-looked-at = Not looked at yet.
reason-looked-too-long-ago = Looked at { $age-min } min ago: look again.
reason-label-field-empty = The label's { $field } is not filled in.
reason-label-field-unusable = The label's { $field } cannot be { $given }: read the label again.
# Wind.
reason-wind-not-measured = No wind was measured at the yard.
reason-no-recent-wind-reading = No meter reading of the last { $within-min } min: measure again.
reason-wind-judged-too-long-ago = The wind was judged { $age-min } min ago: look again.
reason-no-such-beaufort-force = The Beaufort scale has no force { $force }; it ends at 12.
reason-wind-reading-to-come = A reading cannot be used: it bears a time still to come. Check the clocks.
reason-wind-reading-unusable = A reading cannot be used: { $given } is no wind speed. Measure again.
reason-wind-direction-unusable = A reading cannot be used: no wind comes from { $degrees } degrees. Measure again.
reason-too-few-wind-readings = { $count } of the { $needed } readings a series needs.
reason-wind-readings-too-close = The readings span { $span-s } s; a series needs { $needed-s } s.
reason-no-gust-noted = No gust was noted: note the highest the meter showed.
reason-far-wind-never-clears = A station or forecast alone never clears the wind at a yard.
reason-label-sets-no-wind = The label sets no wind limit.
reason-wind-above-advised = The wind is above what is advised.
reason-wind-common-advice = { $speed } is common advice.
reason-wind-above-label = The wind is above the label's limit.
reason-wind-calm = Calm: fine drops hang in the air and wander.
reason-wind-near-label = The wind is close to the label's limit.
reason-wind-under-label-above-advised = The wind is under the label's limit, above what is advised.
reason-wind-under-label = The wind is under the label's limit.
reason-by-meter = { $count } meter readings, mean { $mean }{ $gust ->
    [none] {""}
   *[other] , gust { $gust }
}.
reason-by-beaufort = Beaufort force { $force }, counted as its upper end.
reason-by-station = By station { $station }, { $age-min } min ago.
reason-by-forecast = By the forecast for the time of the treatment.
reason-at-yard = Measured at the yard.
# Rain.
reason-no-forecast = There is no forecast.
reason-forecast-to-come = The forecast bears a time still to come: check the clock.
reason-forecast-too-old = The forecast is { $age-h } h old, over the { $most-h } h it counts for: download it again.
reason-rain-expected = Rain expected: { $amount } or more at { $chance-percent } % or more in that time.
reason-rain-possible = Some rain may fall: { $chance-percent } % or more, or some amount.
reason-no-rain-expected = No rain expected in that time.
reason-forecast-lacks = The forecast has no { $layer }.
reason-forecast-ended = The forecast's { $layer } ended { $hours-ago } h ago: download it again.
reason-forecast-ends-too-soon = The forecast's { $layer } ends before the time that must stay dry does.
reason-forecast-has-gap = The forecast's { $layer } has a gap in that time.
# Air.
reason-label-sets-no-temperature = A person read the label, and it sets no temperature.
reason-air-not-measured = The air at the yard was not measured.
reason-air-measured-too-long-ago = The air was measured { $age-min } min ago: measure again.
reason-air-reading-unusable = The air cannot have been at { $given }: measure again.
reason-temperature-below-label = The air is below the label's least.
reason-temperature-above-label = The air is above the label's most.
reason-temperature-near-label = The air is close to the label's limit.
reason-temperature-within-label = The air is within the label's limits.
reason-no-humidity = No humidity was measured at the yard.
reason-outside-wet-bulb-range = How fast drops dry can only be told from -20 to 50 °C and from 5 to 99 % humidity.
reason-drops-dry-too-fast = Drops dry too fast: they shrink, drift, and dry before they work.
reason-drops-dry-fast = Drops dry fast: use coarser drops, or wait for cooler air.
reason-drops-dry-slowly = Drops dry slowly and hang about; it may be an inversion.
reason-drops-dry-well = Drops dry neither too fast nor too slowly.
# What was seen.
reason-no-inversion-sign = No sign of an inversion was seen.
reason-inversion-seen = The air does not mix: fine drops hang in it and wander.
reason-inversion-possible = The air may not mix: watch smoke or dust before spraying.
reason-soil-takes-water = The soil takes water.
reason-soil-dust-dry = On dust-dry soil product stays on top: water first if the label allows.
reason-soil-soaked = From soaked soil product runs off.
reason-soil-frozen = From frozen soil product runs off.
reason-no-blooms = No blooms for bees to come to.
reason-blooms-beside = Bees visit blooms beside the lawn: keep drift off them.
reason-blooms-on-lawn = Bees visit blooms on the lawn: mow them off first.
# The walk round the yard.
reason-not-answered = { $question }: not looked at yet.
reason-answer-not-dated = { $question }: the time is not proven; confirm it, then look again.
reason-answer-to-come = { $question }: the answer bears a time still to come; look again.
reason-answer-too-old = { $question }: looked at { $age-min } min ago; look again.
reason-seen-to = { $question }: seen to.
reason-none-here = { $question }: none here.
reason-toys-stay = Toys: what stays on the lawn is treated with it; wash it before a child touches it.
reason-bowls-stay = Bowls: a pet would eat or drink the product.
reason-laundry-hangs = Laundry: drift settles on laundry; have it washed again.
reason-windows-open = Windows: drift enters by open windows and air intakes; keep away from that side.
reason-pond-or-hive-open = Pond or hive: fish and bees are killed by small amounts; cover them, or leave that part out.
reason-irrigation-on = Irrigation: a timer that starts washes the product off, or wets what must stay dry.
reason-gates-open = Gates: through an open gate children and pets come in; put somebody or a sign there.
reason-puddles-there = Puddles: product in standing or running water leaves the lawn with it.
reason-hard-surfaces-reached = Hard surfaces: what lands on hard surfaces runs to the drain; sweep granules back on to the turf.
reason-drains-open = Drains and open water: product that reaches a drain reaches open water.
reason-people-or-pets-there = People and pets: nobody may be on the lawn while it is treated.
# Rate and plan.
reason-rate-above-most = The rate is above the label's most.
reason-rate-within-most = The rate is within the label's most.
reason-rate-empty = The label's rate is not filled in on the label sheet.
reason-label-sets-no-rate = The label sheet says that the label sets no rate.
reason-least-rate-empty = The label's least rate is not filled in on the label sheet; where the label gives one rate and no range, say so there.
reason-rate-below-least = The rate is below the label's least: it may not work.
reason-carrier-below-least = There is less water than the label's least.
reason-carrier-enough = The water is not below the label's least.
reason-least-carrier-empty = The label's least water is not filled in on the label sheet.
reason-label-sets-no-carrier = The label sets no least water.
reason-area-unsure = { $section } may be smaller or larger than measured, and its dose with it: measure it again, or plan for the area less its uncertainty.
reason-rounded-below-least = Rounded to what the vessel shows, the dose falls below the label's least: use a finer measure.
reason-rounding-changes-much = Rounding to what the vessel shows changes a dose by much: use a finer measure.
reason-most-not-on-sheet = The label's most is not on the label sheet.
reason-half-way-above-most = Stop: the part done is above the label's most and stays so. Set the rate right, then treat what is left at the planned rate; do not average.
reason-half-way-heavy = Heavy: set the rate right, then treat what is left as planned.
reason-half-way-light = Light: set the rate right, then treat what is left as planned.
reason-half-way-on-rate = On the planned rate.
reason-no-plan = The visit has no plan with this label sheet: make the plan first.
reason-no-rate-yet = The plan has no rate yet: choose one.
# Label sheet and repeat.
reason-read-back = The numbers were read back by { $person }.
reason-not-read-back = The label sheet's numbers were not read back since they were last changed.
reason-repeat-empty = The label sheet says nothing of the shortest time between two treatments.
reason-yard-not-known = The yard is not known yet.
reason-treated-too-recently = This product was put on too recently.
reason-treated-long-ago = The crew's last treatment with it lies long enough back; what others put on is not known.
reason-no-treatment-known = No treatment with it in this book; what others put on is not known.
# When it may open next.
reason-may-open-by-forecast = By the forecast only: measure the wind at the yard then.
reason-wind-held-to-label = Wind against the label's { $speed }.
reason-wind-held-to-advice = Wind against { $speed }, common advice, as no limit of the label is known.
reason-dry-held-to-label = Dry for { $time } after treating.
reason-dry-held-to-advice = Not during rain: dry for { $minutes } min, as the label sets no longer time.
reason-forecast-too-short = The forecast ends, or has a gap, before the time needed does.
reason-no-hour-will-do = Until the forecast ends no hour will do: { $wind-h } h of wind, { $rain-h } h of rain and { $temperature-h } h of temperature are over the limits.
# Tanks, dials, passes.
reason-stop-area-not-known = { $section }: the area treated is not known, and so its rate is not.
reason-site-not-on-label = { $section }: the label does not name such a site.
reason-site-not-checked = { $section }: nobody has looked whether the label names such a site.
reason-already-not-known = { $section }: what was put on there already is not known.
reason-no-room-under-most = { $section } has the label's most already.
reason-no-dial-step = The dial has no step that low: walk faster, as far as the label's least water allows, or use another sprayer.
reason-swath-as-calibrated = The lines lie so that the setting gives the planned rate.
reason-swath-not-known = On which swath the setting was calibrated is not known: at another distance between lines the dose changes.
reason-swath-closer = The lines lie closer than the setting was calibrated for: more goes on than planned.
reason-swath-wider = The lines lie farther apart than the setting was calibrated for: less goes on than planned.
reason-swath-above-most = With this setting, these lines and so many times over, more goes on than the label's most.
# Watering in.
reason-water-in-asked = The label asks for watering in.
reason-water-in-no-depth = The label asks for watering in, and no depth is on the label sheet: read the label again.
reason-water-kept-off = The label asks to keep water off.
reason-watering-empty = Whether to water in is not filled in on the label sheet.
reason-label-sets-no-watering = A person read the label, and it says nothing of watering in.
# A season's sums.
reason-season-above-most = { $ingredient }: above the label's most for a season.
reason-season-within-most = { $ingredient }: within the label's most for a season.
reason-season-most-not-known = { $ingredient }: the label's most for a season is not on the label sheet.
reason-season-part-not-known = { $ingredient }: { $count ->
    [one] how much of it one treatment put on is not known.
   *[other] how much of it { $count } treatments put on is not known.
}
reason-others-not-known = What others put on is not known: ask.
reason-others-said-none = Others put on nothing, as told.
reason-last-treatment-not-known = When this was last put on is not known.
reason-label-sets-no-limit = A person read the label, and it sets no limit here.
reason-season-count-reached = The label's most treatments of a season are reached.
reason-season-count-within = Within the label's most treatments of a season.
reason-season-count-empty = The label's most treatments of a season are not filled in on the label sheet.
# Stock.
reason-stock-enough = There is enough on hand.
reason-stock-short = { $amount } are missing.
reason-stock-not-known = Lot { $lot }: how much is left is not known. Measure it.
reason-lot-expired = Lot { $lot } is past the day printed on it: leave it out.
reason-lot-expiry-not-known = Lot { $lot }: nobody has looked for a day printed on it.
# Bait and spots.
reason-bait-fresh = The bait is fresh.
reason-bait-not-fresh = The bait is stale, damp or rancid: ants leave it lying.
reason-bait-wet = Bait that gets wet is spoilt: wait for dry ground and no rain or watering ahead.
reason-bait-dry = The ground is dry, with no rain or watering ahead.
reason-ants-forage = Ants are out for food.
reason-ants-do-not-forage = Few ants are out for food, and bait would lie: come at a better hour.
reason-spots-above-most = The spots together are above the label's most over this area.
reason-spots-within-most = The spots together are within the label's most over this area.
