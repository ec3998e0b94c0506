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
note-wet-bulb-accuracy = Good to about 0.3 °C beside a psychrometer, at sea level.
note-pests-in-patches = Pests sit in patches, so the true uncertainty is larger than the interval.
note-one-sample = One sample only: take more, spread over the lawn.
note-same-before = Takes both parts to have held the same before. If they may not have, count before treating too and use the other formula.
note-check-held-none = The untreated part held none before, so the formula gives 100 % whatever was left: choose another untreated part.
note-ask-extension = Not sure about the count? Ask your extension office.
note-threshold-of = Threshold for { $life-stage } in { $region }: { $publisher }.
note-sources-differ = Sources differ for this pest: choose the one for your region.
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
