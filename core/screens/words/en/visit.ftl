# A visit: where am I?
visit-title = Where am I?
visit-yard = Yard
visit-address = Address
visit-pest = Pest
visit-state = State
visit-opened = Opened
visit-people = Who
visit-return = Return planned for
visit-state-looking = nothing put on yet
visit-state-treating = treating
visit-state-finished = treatment finished
visit-state-not-treated = ended without treating
visit-mind = Keep-offs run on this yard
visit-to-keep-offs = To the keep-offs
visit-steps = Steps
visit-step-look = Look
visit-step-measure = Measure
visit-step-plan = Plan
visit-step-ready = Get ready
visit-step-treat = Treat
visit-step-keep-off = Keep off
visit-step-recheck = Re-check
visit-step-done = done
visit-step-next = next
visit-step-open = open
visit-step-not-needed = not needed here
visit-step-blocked = not yet
visit-go-look = Look
visit-go-measure = Measure
visit-go-plan = Plan
visit-go-ready = Get ready
visit-go-treat = Treat
visit-go-keep-off = See the keep-offs
visit-go-recheck = Re-check
visit-blocked-yard = the yard has not arrived on this device: swap records first
visit-blocked-measure = measure a section first
visit-blocked-label = write a label sheet first
visit-blocked-read-back = have the label sheet's numbers read back first
visit-blocked-plan = make the plan whole first
visit-blocked-ready = get ready first: sky and yard must have been checked just before
visit-blocked-start = nothing was put on yet
visit-blocked-finish = no finish is recorded yet
visit-to-crew = Swap records
visit-to-labels = To the label sheets
visit-nothing-left = Nothing is left to do on this visit.
visit-questions = To settle
visit-to-settle = { $n ->
    [one] One question waits for a person.
   *[other] { $n } questions wait for a person.
}
visit-settle = Settle
visit-record = The record
visit-end-here = End here without treating
visit-history = { $n ->
    [one] History: one entry
   *[other] History: { $n } entries
}
visit-superseded = Corrected later: it no longer holds.
visit-not-of-the-crew = Written by a device that is not of the crew.
# What a fact is. Names after `visit-fact-` are those of the program's facts.
visit-fact-visit-opened = Visit opened
visit-fact-counted = Counted
visit-fact-wind-measured = Wind measured
visit-fact-sky-seen = Air, soil and blooms looked at
visit-fact-station-heard = Weather report taken in
visit-fact-walked-round = Yard walked round
visit-fact-judged = Sky and yard judged
visit-fact-not-treated = Ended without treating
visit-fact-started = Treating started
visit-fact-loaded = Load put on
visit-fact-finished = Finished
visit-fact-keep-off-claimed = Keep-off stated
visit-fact-looked-dry = Seen dry
visit-fact-keep-off-released = Keep-off lifted
visit-fact-corrected = Corrected
visit-fact-finish-chosen = One finish chosen
visit-fact-late-settled = Late load settled
visit-fact-one-job = Compared with another visit
visit-fact-return-planned = Return planned
visit-fact-keep-off-told = Someone told of the keep-offs
visit-fact-aftercare = Cleaned up
visit-fact-incident-filed = Incident filed
visit-fact-half-way-checked = Checked half-way
visit-fact-newer = Something that a newer program wrote
visit-fact-control-counted = Counted before and after, treated and not
