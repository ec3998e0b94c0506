# Crew: members, swapping, settling, time.
crew-title = Crew
crew-practice = A practice crew: every record is marked so.
crew-digits = The crew's digits: { $digits }
crew-none-yet = This device is of no crew yet. It records all the same.
crew-to-swap = Swap records
crew-to-settle = { $n ->
    [one] { $n } question to settle
   *[other] { $n } questions to settle
}
crew-members = Who is with us
crew-to-admit = Invite and admit
crew-to-recover = Use the recovery code
crew-to-time = This device's time
crew-pending-title = Waiting to be admitted
crew-pending-how = Hand this request to a crew lead. Until then your records count as pending; none is lost.
crew-pending-digits = When it is admitted, both of you read these digits aloud. They must be the same.
crew-pending-then = Then take the file that the crew lead made
crew-request-download = Get the request file
crew-waiting = Waiting for entries
crew-waiting-line = { $who }: { $n ->
    [one] { $n } entry hangs in the air
   *[other] { $n } entries hang in the air
}
crew-waiting-help = What comes before them has not arrived yet: swap records with that phone, or with one that has.
crew-not-told = not told who
crew-this-device = this device
crew-state-pending = waits to be admitted
crew-state-member = in the crew
crew-state-retired = retired
crew-role-applicator = applicator
crew-role-lead = crew lead
crew-role-office = office (reads only)
crew-licence = Licence
crew-device = Device
crew-was-another = It wrote under other keys before. Retire those if that device is gone.
crew-lead-only = Only a crew lead can change members.
crew-role-title = Another role
crew-role = Role
crew-role-give = Give this role
crew-retire-title = Retire this device
crew-retire-help = For a phone that is lost, sold or no longer used. What it wrote so far counts; what comes later is kept, marked, and a crew lead decides.
crew-retire-sure = Yes, for good
crew-retire = Retire it
crew-why = Reason
crew-why-help = It stands in the record.
crew-recover-title = Recovery code
crew-recover-how = For when every crew lead's phone is lost. It makes this device a crew lead.
crew-recover-code = The code from the paper
crew-recover-code-help = Upper or lower case, with or without dashes.
crew-recover = Make this device a crew lead
crew-admit-title = Invite and admit
crew-admit-how = The other phone makes a request ("Join a crew") and hands you the file by any way there is. It opens nothing by itself.
crew-admit-none = Nobody waits.
crew-admit-compare = Read these digits aloud. The other phone must show the same.
crew-admit-role = As what?
crew-admit-same = The digits are the same
crew-admit = Admit
crew-admit-file-title = A request came as a file
crew-admit-file = Request file
crew-admit-read = Read it
crew-admit-then = Make the file that lets them in
crew-swap-title = Swap records
crew-swap-how = One phone makes a locked file, the other takes it, and the other way round. Send it by cable, card or message: only the crew's phones can open it.
crew-swap-give = Give
crew-swap-alone = { $n ->
    [0] Everything here is on another phone too.
    [one] { $n } entry is known to be on no other phone.
   *[other] { $n } entries are known to be on no other phone.
}
crew-swap-nobody = Nobody else is in the crew yet: the file would open for no one.
crew-swap-make = Make a locked file
crew-swap-take-title = Take
crew-swap-file = Locked file
crew-swap-file-help = Taking the same file twice changes nothing.
crew-swap-take = Take it in
crew-swap-when = When last, with whom
crew-swap-never = Never, as far as this phone knows.
crew-swapped = { $who }, { $ago }
crew-swap-done = To the crew
crew-taking = Taking in a locked file
crew-took = From { $who }: { $new ->
    [one] { $new } new entry
   *[other] { $new } new entries
}, { $known } were here already.
crew-took-from-outsider = That phone is not, or no longer, of the crew: what it wrote is kept and marked.
crew-took-joined = This phone belongs to the crew now.
crew-took-clock = That phone's clock is ahead of this one: it was written down.
crew-took-unreadable = A part that cannot be read
crew-took-began-anew = This phone's keys were in use on another phone too, so it has new ones. Nothing is lost: ask to be admitted again.
crew-settle-title = To settle
crew-settle-how = Two phones recorded different things. Both stay in the record; say which holds.
crew-settle-nothing = Nothing is to be settled.
crew-settle-back = To the crew
crew-settle-to-visit = To the visit
crew-settle-it = This holds
crew-by-at = { $who }, { $at }
crew-question-finish = Two phones finished this treatment. Which one holds?
crew-question-finish-which = Which finish
crew-question-see = See both in the record
crew-question-late = A load was recorded without knowing of the finish. Was it put on?
crew-question-late-put-on = Put on?
crew-yes = Yes
crew-no = No
crew-question-outsider = { $who } wrote here and is not, or no longer, of the crew. Its keep-offs count until a crew lead decides.
crew-question-outsider-look = Look at the device
crew-question-outsider-lift = Look at the keep-offs
crew-question-treated = One phone treated, another recorded that nothing was treated. If it was treated, take the other back.
crew-question-withdraw = Take "not treated" back
crew-question-one-job = Two visits to this yard on one day. Is it one job, entered twice?
crew-question-one-job-same = One job?
crew-question-earlier = The earlier one
crew-question-later = The later one
crew-question-field = A field was filled differently on two phones.
crew-question-acted-on = Until then: { $value }
crew-question-field-which = Which is right?
crew-time-title = This device's time
crew-time-unproven = Nothing vouches for this clock since the device started or the clock jumped. No keep-off is called over until something does.
crew-time-person = A person confirmed this clock, and it has run on since.
crew-time-network = A network time or a satellite fix confirmed this clock, and it has run on since.
crew-time-peer = Another phone's proven clock confirmed this one.
crew-time-far-off = Another phone saw this clock far off, though. Set it right first.
crew-time-says = This device says:
crew-time-how = Compare it with another clock that you trust: another phone, a car radio, a watch.
crew-time-same = It is right to the minute
crew-time-confirm = Confirm
crew-time-wrong = Not right? Set the device's clock first, then come back.
