# Today.
today-title = Today
today-no-yard = There is no yard yet. Add the first one: its name is enough to begin.
today-first-yard = Add a yard
today-start = Start a visit
today-time-uncertain = Time uncertain: nothing vouches for this device's clock, so no keep-off can be called over.
today-confirm-time = Confirm the time
today-keep-offs = Running keep-offs
today-no-keep-offs = None is running, as far as this book knows.
today-keep-off-open = Look, tell, or change
today-stops = Open visits
today-no-stops = No visit is open.
today-open = open
today-treating = treating, not finished
today-more = and { $n } more
today-returns = Re-checks due
today-no-returns = None is due by tomorrow.
today-settle = { $n ->
    [one] { $n } question to settle
   *[other] { $n } questions to settle
}
today-yard-missing = a yard that has not arrived yet
today-things = To see to
today-short = { $product }, lot { $lot }: short, { $left } left when last counted
today-licence = { $name }: licence runs out { $day }
today-licence-over = { $name }: licence ran out { $day }
today-to-things = Tools and stock
today-alone = Only on this device
today-alone-entries = { $n ->
    [0] Everything is on another phone too.
    [one] { $n } entry is known to be on no other phone.
   *[other] { $n } entries are known to be on no other phone.
}
today-swapped = swapped with { $who } { $ago }
today-swap = Swap records
today-backup = Make a backup
today-leave-season = Leave the invented season
