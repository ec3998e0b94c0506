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
