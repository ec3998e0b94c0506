# What stands on every screen.
frame-skip = To the content
frame-back = Back
frame-help = Help now
frame-places = Places
frame-today = Today
frame-yards = Yards
frame-records = Records
frame-crew = Crew
frame-things = Tools
frame-season = This is an invented season: people, places and products are made up.
frame-changed-elsewhere = Something changed on another screen: show it
frame-fields-wrong = Something does not fit yet. It is said beside each field.
frame-nothing-lost = Nothing was stored. Everything you typed is still here.
frame-draft = Not sent yet, from { $ago }.
frame-draft-drop = Throw away
frame-draft-kept = Kept
frame-draft-failed = Not kept: the program does not answer
frame-how = How?
frame-formula = Formula
frame-source = Source
frame-not-known = not known
frame-pad-done = Done
frame-pad-delete = Delete
frame-pad-earlier = Earlier
frame-location-refused = No location: allow it in the browser, or measure by tape.
frame-location-waiting = Waiting for a fix …
frame-label-is-the-law = Read and follow the label; your state and town may ask for more.
frame-no-date = no date can be given
frame-ago = { $span } ago
frame-ahead = in { $span }
frame-minutes = { $n ->
    [one] { $n } minute
   *[other] { $n } minutes
}
frame-hours = { $n ->
    [one] { $n } hour
   *[other] { $n } hours
}
frame-days = { $n ->
    [one] { $n } day
   *[other] { $n } days
}
frame-no-book = No book is open.
frame-nothing-here = There is nothing at this address (any more).
frame-too-large = That is more than can be taken in: send less at once.
frame-no-form = That could not be read as a form: go back and send it once more.
frame-system = Swardbook could not do this: { $said }
frame-cannot-be-said = this cannot be said in words
frame-not-shown = This cannot be shown
frame-to-today = To today
frame-nearest-first = Nearest first
