# What is wrong with a field. Names after `wrong-` are those of the program's `Wrong`.
wrong-missing = Fill this in.
wrong-not-offered = Choose one of these.
wrong-not-a-number = Write a plain number, like 12 or 2.5.
wrong-not-a-day = Write a day like 2026-06-30.
wrong-not-a-time = Write a time like 14:30.
wrong-clock-change = The clocks change at this hour: write a time before or after it.
wrong-most = At most { $most }.
wrong-least = At least { $least }.
wrong-no-file = Choose a file.
wrong-not-a-fix = Line { $line } is no position: take the walk again, or choose a GPX file.
wrong-not-a-corner = Line { $line } is no corner: write centimeters east and north, like 250,-120, or draw it again.
wrong-changed-meanwhile = This was changed meanwhile: look at what stands there now, then do it again.
wrong-no-unit = Choose the unit that stands beside the number.
wrong-both-said = Two answers that do not go together: leave one of them empty.
