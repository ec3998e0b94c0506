# Why the book refuses an action. Names after `refusal-` are those of the core's refusals.
# Around a treatment.
refusal-return-before-visit = { $day } lies before the visit: give the day to come back.
refusal-return-too-far = { $day } is more than { $years-most } years after the visit: look at the year again.
refusal-return-note-missing = Say in the note what the return is for.
refusal-who-missing = Say who was told.
refusal-no-keep-off-told = Choose the sections that they were told of.
refusal-nothing-answered = Answer at least one task, or write a note.
refusal-answered-twice = One task has two answers: give one.
refusal-incident-not-told = Say what happened.
refusal-incident-yard-differs = This visit is to another yard: choose one of the two.
# Who belongs to the crew.
refusal-name-missing = A name is missing ({ $what }): fill it in.
refusal-name-unfit = A name is too long or holds a character that cannot be seen ({ $what }): give one line of at most { $bytes-most } bytes.
refusal-founded-its-crew = This device began its crew: it need not ask to join.
refusal-not-of-a-crew-yet = This phone is not of a crew yet: take the first file that the crew lead made after admitting it.
refusal-file-of-another-crew = This file is from another crew, and this book stays with its own: choose a file of this crew.
refusal-file-does-not-admit = This file does not admit this phone to its crew: ask the crew lead to take this phone's request, then to make a new file.
refusal-practice-does-not-mix = A practice crew and a real one do not mix: ask to join again in another folder, with or without practice.
refusal-keys-in-use-elsewhere = This phone's keys are in use on another phone too: swap records once, which gives it new ones, then go on.
refusal-no-keys = This book has no keys of its own: restore its backup into a new folder, which makes new keys.
refusal-may-only-read = This device may only read (role office): ask a crew lead for another role.
refusal-only-crew-lead = Only a crew lead's device can do this: ask a crew lead.
refusal-belongs-already = This device belongs to the crew already: nothing more is needed.
refusal-was-retired = This device was retired: let it ask to join anew, from an empty folder.
refusal-recovery-not-of-this-crew = The recovery code is not this crew's: check the crew's name on the printed sheet.
# What is typed into a field.
refusal-field-too-long = { $field }: too long, at most { $bytes-most } bytes. Write it shorter.
refusal-field-control-character = { $field }: holds a character that cannot be seen. Type it again.
refusal-field-yes-no = { $field }: choose yes, no, or that the label says nothing.
refusal-field-yes-or-no = { $field }: choose yes or no.
refusal-field-day = { $field }: this is no day. Write year-month-day, like 2026-06-30.
refusal-field-bearing = { $field }: write degrees clockwise from north, from 0 to 360.
refusal-field-position = { $field }: write latitude, then longitude in degrees, like 42.443961, -76.501881. South and west are below zero.
refusal-field-names-nothing = { $field }: this names nothing. Choose it from the list.
refusal-offset-too-far = { $field }: { $offset } is too far. Give at most { $metres-most } m to either side of where the sketch begins.
refusal-field-choice = { $field }: choose one of these: { $words }.
refusal-zone-unknown = This is not a known time zone: write one like America/New_York or Europe/Madrid.
refusal-field-drawn = { $field }: this is measured or drawn, not typed.
refusal-field-amount = { $field }: { $rule }
refusal-field-dimension = { $field }: { $typed } is { $dimension }, where { $wanted } is needed. Check the number and its unit.
refusal-field-negative = { $field }: this cannot be negative. Check the sign.
refusal-field-zero-rate = { $field }: zero is no rate. Leave the field empty if the label gives none.
refusal-watering-in = Watering in: choose required with its depth, or withheld with its time, or that the label says nothing.
refusal-field-missing = { $field }: fill it in, it cannot stay empty.
refusal-yard-name-missing = A yard needs a name: fill it in.
refusal-section-name-missing = A section needs a name: fill it in.
# Keep-offs.
refusal-no-section-looked-at = Choose the section that you looked at.
refusal-treating-not-finished = { $section }: treating is not finished. Finish it first.
refusal-looked-too-early = { $section }: you looked before the last application. Look again.
refusal-only-crew-lead-lifts = Only a crew lead's device can lift a keep-off: ask a crew lead.
# Label sheets.
refusal-method-missing = How the product is put on is not filled in on this label sheet, or not agreed: set it to granules, spray on the leaves, drench or bait.
refusal-product-missing = A label sheet needs the product's name as printed: fill it in.
refusal-ingredient-name-missing = An ingredient needs its generic name: fill it in.
refusal-second-person-missing = Name the second person who read the label. Alone, type the numbers a second time instead.
refusal-field-in-doubt = { $field }: two phones say different things: { $values }. Settle it with the label in hand first.
refusal-read-back-differs = The two readings do not agree: read the label again. { $faults }
refusal-rates-of-two-kinds = Least rate and most rate: one is by weight, the other by volume. Look at the label again.
refusal-rates-upside-down = The least rate ({ $least }) is above the most rate ({ $most }): look at the label again.
refusal-season-of-another-kind = Most rate and most in one season: one is by weight, the other by volume. Give both of the product, and look at the label again.
refusal-season-below-rate = The most in one season ({ $season }) is below the most rate ({ $most }): give both of the product, and look at the label again.
# Corrections, and what several phones said differently.
refusal-nothing-to-correct = Choose the fact that is wrong.
refusal-not-like-by-like = A correction replaces like by like, a count by a count, a load by a load: correct it with one of the same kind.
refusal-of-another-visit = What holds instead is of another visit: choose one of its own.
refusal-no-finish-to-correct = There is no finish to correct: finish first.
refusal-not-one-yard = Only two visits to the same yard can be one job: choose two of one yard.
# Files, disks and clocks.
refusal-backup-is-there = { $file } is there already, and a backup never overwrites: give a new file name.
refusal-too-much-at-once = Too much in one step: do it in several.
refusal-disk-unsuited = This disk does not support the book's write-ahead log: choose a folder on an ordinary local disk.
refusal-path-not-text = The path is not valid text: choose a folder with a plain name.
refusal-write-once-first = This book is of format { $found }, which has to be brought up to date: open it once on its own device to write.
refusal-no-longer-read = This book is of format { $found } and holds entries that this program no longer reads. Nothing was changed: go on with the program that wrote it.
refusal-time-confirmed-by-nobody = Say who or what confirms the time.
refusal-time-told-to-come = That time lies after the one this device's own clock counts to: tell it once more.
refusal-pretended-clock = A pretended clock is for practice books only, and this is a real one.
# Starting, loading and finishing.
refusal-visit-not-open = This visit was started or ended already: open another visit to treat again.
refusal-checked-too-long-ago = Sky and yard were checked { $age-min } min ago, at most { $min-most } are accepted: check again, then start.
refusal-not-checked = Sky and yard were not checked for this label sheet yet: check them first, then start.
refusal-not-acknowledged = Not known: { $findings } Check it, or acknowledge each by name.
refusal-dont-treat = Don't treat: { $findings } To record a start all the same, give the reason.
refusal-yard-not-arrived = The yard of this visit has not arrived yet: swap records first.
refusal-section-not-measured = { $section } is not measured. Without its outline nobody can be kept off it: measure it first.
refusal-section-of-another-yard = A section to treat is not of this yard: choose sections of this yard.
refusal-nothing-measured = There is no measured section to treat: measure one first.
refusal-not-started = Treating has not started on this visit: start first.
refusal-load-cannot-be = { $amount } cannot be ({ $what }): give { $wanted } above zero.
refusal-still-to-come = This time is still to come: give when it was done.
refusal-finished-already = This visit is finished already: correct the finish, with a reason, instead.
# What is counted, read and said on a visit.
refusal-text-unfit = Too long, or with a character that cannot be seen ({ $what }): give at most { $bytes-most } bytes of plain text.
refusal-reason-missing = Give a reason: it stands in the record.
refusal-series-empty = Give at least one { $what }.
refusal-series-too-long = At most { $most } { $what }s at once: leave some for another.
refusal-wind-cannot-be = Wind of { $reading } cannot be: give what the meter showed, from calm up to { $metres-per-second-most } m/s.
refusal-wind-direction = Wind direction: give 0 to 360 degrees from north.
refusal-treating-has-started = Treating has started on this visit: finish it, and correct what was wrong.
refusal-not-treated-note-missing = Say in the note why nothing was treated.
refusal-not-a-day = “{ $typed }” is no day: write it like 2026-06-30.
