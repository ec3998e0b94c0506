# What to keep in mind beside a number. Names after `note-` are those of the core's `Note`.
note-tape-errors = Uncertainty from a reading error of 1 % of each tape, at least 0.1 ft (common practice, no source).
note-between-offsets = How the edge runs between two widths is not measured: more widths make it surer.
note-less-round = The less round the shape, the more this falls short of its area.
note-left-out-inside = What is left out is taken to lie inside the lawn and not to overlap.
note-fix-errors = Uncertainty from the fixes' accuracies, each fix on its own, to first order. A shift common to all of them changes no area, and errors that neighbors share are not counted.
note-accuracy-assumed = { $fixes ->
    [one] { $fixes } fix has no accuracy; { $metres } m is assumed (common practice, no source).
   *[other] { $fixes } fixes have no accuracy; { $metres } m is assumed (common practice, no source).
}
note-drawn-by-hand = Drawn by hand on the sketch: measure by tape or walk before treating.
note-drawn-errors = Uncertainty from each corner being off by { $metres } m (root mean square) on its own (common practice, no source).
note-routes-not-used = The file also holds routes; only its track is used.
note-waypoints-not-used = { $count ->
    [one] { $count } single waypoint in the file is not used.
   *[other] { $count } single waypoints in the file are not used.
}
note-accuracy-by-hdop = Accuracy is taken as HDOP times { $metres } m, an assumption: GPX gives no meters.
note-no-hdop = { $fixes ->
    [one] { $fixes } fix gives no HDOP; { $metres } m is assumed for it.
   *[other] { $fixes } fixes give no HDOP; { $metres } m is assumed for them.
}
note-no-times = { $fixes ->
    [one] { $fixes } fix has no time; jumps beside it cannot be seen.
   *[other] { $fixes } fixes have no time; jumps beside them cannot be seen.
}
note-finished-mix = The finished mix: fill with water up to this, product included.
note-area-less-uncertainty = Planned for the area less one standard deviation.
note-each-load-rounded = Each load's product is rounded by itself: it goes on its own part of the lawn.
note-swath-of-calibration = A spreader setting holds for the swath on which it was calibrated: at another distance between lines the dose changes.
note-no-density = Weight and volume do not go together without the product's density.
note-rest-at-planned-rate = The part that is left gets the planned rate; it never makes up for the part done.
note-wet-bulb-accuracy = Beside ASHRAE's wet bulb at sea level 0.34 °C off on average from 1 to 50 °C: up to 0.6 °C up to 35 °C and from 15 % humidity, up to 1.2 °C in hotter or drier air.
note-pests-in-patches = Pests sit in patches, so the true uncertainty is larger than the interval.
note-one-sample = One sample only: take more, spread over the lawn.
note-same-before = Takes both parts to have held the same before. If they may not have, count before treating too and use the other formula.
note-check-held-none = The untreated part held none before, so the formula gives 100 % whatever was left: choose another untreated part.
note-ask-extension = Not sure about the count? Ask your extension office.
note-threshold-of = Threshold for { $life-stage } in { $region }: { $publisher }.
note-counted-together = The threshold counts armyworms and cutworms together: few of one do not say that there are few of both.
note-sources-differ = Sources differ for this pest: choose the one for your region.
note-coordinates-rounded = The coordinates are rounded to { $decimals } decimals of a degree; that counts as uncertainty too.
note-outer-edge-only = The outer edge only: what is left out inside has edges of its own.
note-between-radii = How the edge runs between two radii is not measured: more radii make it surer.
note-base-line-is-edge = The base line is taken for one straight edge of the lawn.
note-walk-smoothed = Wobbles of less than { $metres } m are smoothed away for the edge's length (common practice, no source); what they add to the walk counts as uncertainty.
note-edge-errors = Uncertainty from the fixes' accuracies, each fix on its own. Such errors make an edge longer, never shorter on the whole; about how much counts as uncertainty.
note-left-out-beyond-strip = What is left out is taken to lie beyond the strip, so that no more than what remains is planned for.
note-strip-cut-square = The strip is taken as straight, cut off square at its ends and inside the lawn.
note-slope-even = The whole lawn is taken to slope evenly.
note-slope-errors = Uncertainty from the slope being off by { $degrees } degrees (common practice, no source).
note-label-silent-on-slope = A label that does not say which area it means is taken to mean the level one, as on a map: it gives the smaller dose (common practice, no source).
note-slope-run-off = Spray and water run off a slope sooner: stop before they do. The label, and the law near water, decide (common practice, no source).
note-try-setting-again = An estimate from two settings that were tried, not a setting: set it and try it again.
note-beyond-settings-tried = The rate wanted lies outside those tried, so the estimate is the less sure.
note-each-pass-by-itself = Where it goes on in two passes, the two together must give the rate.
note-sample-deviation = Standard deviation with n − 1, over the boxes between two lines.
note-farm-evenness = 15 % is a figure for farm fertilizer (EN 13739, as a good practice note sums it up); there is none for lawns.
note-worse-overlap = Back and forth, right meets right and left meets left: the worse of the two counts.
note-boxes-end-too-soon = The outermost boxes still caught a good part, so the pattern reaches beyond them: lay more boxes and throw again.
note-same-pressure-each = Catch each nozzle for the same time, at the pressure used for spraying.
note-steady-flow = Where the flow is steady, half as fast is twice the rate (common practice, no source).
note-setting-or-pace = Change the setting or the pace, not both; then check again.
note-drops-change-too = Holds for one nozzle; with the pressure the size of its drops changes too.
note-tried-with-water = Tried with water: a mix that is denser or thicker flows otherwise.
note-check-current-rule = Laws were read in stored copies: check your state's current rule.
note-sign-as-long-as-keep-off = Whatever a rule says, leave the sign up as long as anybody has to keep off.
note-some-products-exempt = Some products are exempt. Which, only the rule itself says.
note-kept-from-memory = How long to keep it is from memory, not read: confirm it.
note-flat-horizon = For a flat horizon at sea level: behind hills, trees and houses the sun is gone sooner.
note-inversion-any-hour = Air may fail to mix at other hours too: watch smoke, dust, dew and fog.
note-profile-raises-only = An estimate, and among houses and trees a rough one: it may raise a wind, and never lowers one.
note-spare-rounded-down = What is left and what it covers are rounded down.
note-repeat-holds-there-too = The label's shortest time between two treatments holds for a leftover too.
note-leftover-else = Else by the label and the local code: never into a drain, on the street or on bare ground.
note-dial-in-finished-mix = The dial's ratio is taken as product in a gallon of what comes out, water and product together.
note-label-order-of-mixing = The label says in which order to fill and mix.
note-half-swath-is-more-even = Lines half a swath apart come out more even than two passes at right angles (Ohio State University, Bulletin 817).
note-driest-quarter = By the mean, about half of the lawn gets less than the depth; by the driest quarter little of it does.
note-soak-until-gone = Between two runs wait until no water stands or runs (common practice, no source).
note-run-off-cut = The run-off time is cut to whole minutes, so that no run reaches it.
note-same-ground = Every treatment is taken to lie on the same ground.
note-day-carried-over = In a month without that day it counts to the first day of the next.
note-whole-days = Parts of a day count as a whole day.
note-oldest-first = Opened lots first, then the day printed, then the day bought; undated lots last.
note-most-holds-for-spots = A dose for each spot is for spots only: the label's most over the area still holds.
note-more-than-chance = The samples differ more than chance would have them: the interval is widened by that, and how much rests on { $samples } samples.
note-if-they-hold-as-many = A forecast: it holds if further samples, taken the same way all over the lawn, hold as many on average and differ as much.
note-interval-by-log-ratio = Interval at 95 % by the delta method on the logarithm of the ratio; counts are taken to fall at random.
note-interval-by-log-shares = Interval at 95 % by the delta method on the logarithm of the ratio of the two shares alive (Katz and others 1978, Biometrics 34, 469).
note-half-added = A count is 0, so one half is added to each count for the interval (Haldane and Anscombe).
note-shares-have-no-interval = Shares do not tell how many were counted, so there is no interval: give counts.
note-days-missing = { $count ->
    [one] { $count } day is missing, so the sum is what it is at least.
   *[other] { $count } days are missing, so the sum is what it is at least.
}
note-same-base-and-start = Compare it only with a sum of the same base, start and method.
