# Values and limits of findings. Names after `shown-` are those of the core's `Shown`.
shown-amount = { $amount }
shown-at-least = at least { $least }
shown-at-most = at most { $most }
shown-between = { $least } to { $most }
shown-or-more = { $least } or more
shown-both-scales = { $fahrenheit } ({ $celsius })
shown-change = changed by { $change } %
shown-changed = { $amount } ({ $change } % from the plan)
shown-within = ± { $percent }
shown-area-within = area ± { $percent }
shown-days-ago = { $days ->
    [one] one day ago
   *[other] { $days } days ago
}
shown-rain = { $chance-percent } %, { $amount }
shown-dry-for = dry for { $time } after treating
shown-not-during-rain = not during rain: dry for { $minutes } min (the label sets no time; US EPA outdoor pyrethroid label wording)
shown-delta-t = Delta T { $celsius }
shown-delta-t-band = { $least } to { $care }, not from { $stop }
shown-inversion-signs = { $count ->
    [one] one sign
   *[other] { $count } signs
}
shown-no-inversion-sign = no sign of an inversion
shown-soil-seen = { $soil }
shown-soil-that-takes-water = soil that takes water
shown-blooms-seen = { $bloom }
shown-no-blooms-in-reach = no blooms in reach
shown-must-be-seen-to = must be seen to
shown-off-wanted = { $amount } ({ $change } % from what is wanted)
shown-drops = { $drops } drops
shown-drops-between = { $finest } to { $coarsest } drops
shown-percent-above = + { $percent } at most
shown-sides = { $least } by { $most }
shown-sides-or-more = { $least } by { $most } or more
shown-hours-before = { $hours } h before the start
shown-sign-size = the sign's size
shown-sign-letters = how tall its letters are
shown-sign-bottom = how high its bottom edge is
shown-sign-colour = its colour
shown-sign-languages = the languages of its words
shown-sign-white = white
shown-sign-both-languages = English and Spanish
shown-sign-english = English
shown-lies-down-wind = { $count ->
    [one] one that may be reached
   *[other] { $count } that may be reached
}
shown-nothing-down-wind = nothing down wind that drift may reach
shown-day = { $day }
shown-not-before = not before { $day }
shown-treatments = { $count ->
    [one] one treatment
   *[other] { $count } treatments
}
shown-ants-after = ants on the chip after { $minutes } min
shown-no-ants-after = no ants on the chip after { $minutes } min
shown-ants-within = ants on the chip within { $minutes } min
