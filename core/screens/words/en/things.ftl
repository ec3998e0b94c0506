# Tools: what do I work with?
things-title = What do I work with?
things-count-labels = { $n ->
    [0] none yet
    [one] { $n } label sheet
   *[other] { $n } label sheets
}
things-count-unread = { $n ->
    [one] { $n } of them is not read back: not to be used yet
   *[other] { $n } of them are not read back: not to be used yet
}
things-count-equipment = { $n ->
    [0] none yet
    [one] { $n } spreader or sprayer
   *[other] { $n } spreaders and sprayers
}
things-count-lots = { $n ->
    [0] none yet
    [one] { $n } lot
   *[other] { $n } lots
}
things-count-short = { $n ->
    [one] { $n } lot was short at its last count
   *[other] { $n } lots were short at their last count
}
things-count-people = { $n ->
    [0] nobody yet
    [one] { $n } person
   *[other] { $n } people
}
things-help-lines = Whom to call
things-tank-fills = Tank fills that serve several yards
things-not-kept = not known: this version does not keep them yet
things-in-doubt = two phones disagree, see above
things-two-values = Two phones disagree: { $field }
things-none-used = Neither is used until a person says which holds.
things-used-now = used now, the safer or the one shown
things-this-holds = This holds
things-save = Save
things-put-away = Put away: it is no longer offered.
things-away = Put away
things-to-crew = To the crew
things-equipment = Equipment
things-equipment-none = There is no equipment yet: add the spreader or sprayer you use most.
things-equipment-add = Add equipment
things-equipment-new = New equipment
things-equipment-retire = Take out of use
things-equipment-back = Take into use again
things-calibration = Calibration
things-more = More
things-calibrated = Calibrated
things-calibrated-with = with
things-calibration-void = Another wheel, nozzle, operator or product, another pace or setting: calibrate again. Common practice, no source.
things-stock = Stock
things-stock-none = No lot is on hand that this book knows of.
things-stock-no-label = A lot belongs to a product: copy its label first.
things-stock-add = Add a lot
things-stock-new = New lot
things-stock-as-counted = As last counted: what visits took since then is not subtracted.
things-stock-short = Short at the last count
things-stock-used-up = Used up or given away
things-stock-back = It is on hand again
things-people = People and licenses
things-people-none = There is nobody yet: add yourself with your license.
things-people-add = Add a person
things-people-new = New person
things-people-left = No longer with us
things-people-back = With us again
things-people-devices = Who carries which device, and what it may do, stands under crew.
things-licence-over = expired
things-settings = Settings
things-language = Language
things-language-own = English
things-units = Units
things-units-us = US: feet, pounds, gallons, mph
things-units-metric = metric: meters, kilograms, liters, km/h
things-units-note = For empty fields and for what is worked out. What was typed keeps its own unit.
things-light = Light
things-light-day = day: black on white, for the sun
things-light-night = night: white on black
things-light-device = as this device is set
things-device = This device
things-device-crew = Crew
things-device-person = Carried by
things-device-role = Role
things-role-office = office
things-role-applicator = applicator
things-role-lead = crew lead
things-role-none = not a member now
things-device-kind = Kind of book
things-device-practice = practice: every record is marked so
things-device-real = records of real treatments
things-device-zone = Time zone of this device
things-device-entries = Entries in the book
things-device-name = Name in records
things-device-folder = Folder of the book
things-backup = Backup and proof
things-backup-file = A backup file
things-backup-holds = The whole book: yards, visits, label sheets, records, history.
things-backup-no-keys = The keys of this device are not in it: whoever restores it gets new keys and asks the crew to be admitted again.
things-backup-readable = It is not locked: whoever has the file can read every address in it. Keep it where you would keep the records on paper, and not only on this device.
things-backup-make = Make a backup and keep it
things-backup-restore = It is restored in the terminal, into an empty folder, with: sward restore
things-proof = Prove the book whole
things-proof-what = Every entry, signature and chain is checked anew, and all that is shown is made anew beside it and compared. It can take minutes; you can go on working.
things-proof-begin = Prove it now
things-proof-running = Proving the book whole
things-proof-failed = The proof could not be finished.
things-proof-whole = The book is whole: nothing in it is other than it must be.
things-proof-faults = { $n ->
    [one] The book is not whole: { $n } thing is not as it must be.
   *[other] The book is not whole: { $n } things are not as they must be.
}
things-proof-what-now = Do not delete it. Keep a copy of its folder, then restore a backup into a new folder and swap records with the crew. What was found, in English:
things-proof-entries = Entries checked: { $n }
things-proof-sheets = Sheets as they must be: { $n }
things-proof-views = Rows shown as they must be: { $n }
things-proof-waiting = { $n ->
    [one] { $n } entry waits for an earlier one that is not here: swap records with the crew.
   *[other] { $n } entries wait for earlier ones that are not here: swap records with the crew.
}
things-proof-forked = { $n ->
    [one] { $n } device wrote in two branches: it was copied or restored with its keys. Tell the crew lead.
   *[other] { $n } devices wrote in two branches: they were copied or restored with their keys. Tell the crew lead.
}
