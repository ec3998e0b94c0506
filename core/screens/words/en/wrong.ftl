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
