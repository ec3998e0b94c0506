# Treat: am I on rate?
treat-title = Am I on rate?
treat-not-started = Treating has not started. Sky and yard are checked first.
treat-to-ready = Get ready
treat-ended = This visit ended without treating.
treat-to-visit = To the visit
treat-no-taps = With treated gloves nothing has to be tapped here until you finish.
treat-on-rate = On rate
treat-half-none = No half-way check was made.
treat-product = Product
treat-rate = Rate
treat-since = Started
treat-planned = Planned to put on
treat-put-on = Put on so far
treat-equipment = Put on with
treat-lot = Lot
treat-gear = Protective gear worn
treat-sections = Sections
treat-area = Area
treat-state = State
treat-keep-off = Keep off
treat-section-open = started; no load recorded
treat-section-loaded = { $n ->
    [one] one load, last applied { $at }
   *[other] { $n } loads, last applied { $at }
}
treat-section-done = done, last applied { $at }
treat-spill = Spill or surprise: help now
# The check half-way.
treat-half-title = Half-way check
treat-half-how = Stop on a part you can name, read what is left, and tell how much of the area is done.
treat-half-mix = In a mix give the product in it, not the mix: half a tank holds half of its product.
treat-half-planned = Product planned for the whole area
treat-half-filled = Filled in so far
treat-half-left = Left in it now
treat-half-done = Area done
treat-half-check = Check the rate
treat-half-at = Half-way check { $ago }
treat-half-rate-done = Rate on the part that is done
treat-half-used = Used so far
treat-half-due = Should have been used
treat-half-rest = For the rest, at the planned rate
treat-half-missing = Missing for it
treat-half-pace = Pace for the rest, at the same setting
# A load.
treat-load-title = Record a load
treat-load-product = Product put on, as measured
treat-load-water = Water put on
treat-load-on = It went on
treat-load-when = The last of it went on
treat-load-keep = Keep the load
treat-just-now = Just now
treat-at-time = At the time below
treat-time = Time
treat-time-help = Only where you chose a time. Time of the yard, today or last night.
# The finish.
treat-finish-title = Finish
treat-finish-when = Last applied
treat-times = Times
treat-all-just-now = All of it just now
treat-each-at-time = Each at its time below
treat-at-last-load = Each with its last load
treat-started-ago = Started { $ago }
treat-amount-not-known = How much went on is not known
treat-note = Note
treat-note-help = What was different from the plan.
treat-finish = Finish the treatment
treat-finished = Finished
treat-to-keep-off = Keep off: who may be where
treat-to-record = The record
# What is done afterwards.
treat-care = Done afterwards
treat-care-swept = Hard surfaces swept or blown off, back onto the lawn
treat-care-rinsed = Tank, hopper and tools rinsed
treat-care-emptied = Rinse water or rest put out on turf that may take it
treat-care-gloves = Gloves washed before they came off
treat-care-leftover = Left-over product kept
treat-care-sign = Sign put up
treat-care-done = Done
treat-care-not-needed = Nothing to do
treat-care-not-done = Not done
treat-care-answer = Answer what is open
treat-care-note = What was left over, and where it went
treat-care-note-help = May stay empty.
treat-care-keep = Keep the answers
treat-by-outsiders = A device that is not of the crew wrote of this treatment. Its loads and checks are not counted here.
treat-to-settle = To settle
