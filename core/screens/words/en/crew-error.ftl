# What can go wrong between phones. Names after `crew-error-` are those of the core's `CrewError`.
crew-error-other-file = This is not a { $file }: choose the file that the other phone shared.
crew-error-damaged = The { $file } was cut short or altered on the way. Nothing was taken from it: ask for it once more.
crew-error-another-crew = This locked file belongs to another crew. Nothing was taken from it: open it where that crew's records are.
crew-error-not-for-this-phone = This locked file is not locked for this phone: ask a crew lead to admit this phone, then ask for a file made after that.
crew-error-does-not-admit = This locked file does not admit this phone to a crew: hand your request to a crew lead, then take the file they make after admitting it.
crew-error-no-crew = This phone belongs to no crew yet: begin one, or ask to join one, first.
crew-error-nobody-to-lock-for = There is no other phone to lock a file for: admit one first.
crew-error-too-many-members = A locked file reaches at most { $phones } phones: retire those no longer used.
crew-error-not-written = The locked file could not be written ({ $detail }): make room or choose another place, and do not share the unfinished file.
crew-error-not-read = The file could not be read ({ $detail }): copy it to this device once more.
crew-error-bad-recipient = What the other phone gave is not a key that files can be locked to: let that phone ask to join once more.
crew-error-bad-identity = This phone's key for locked files is damaged: move the key file away, and this phone will ask to join anew.
crew-error-recovery-code = The recovery code has a slip: compare it with the print group by group.
crew-error-recovery-of-another-crew = This is the recovery code of another crew: look for the one printed by this crew.
crew-error-peer-of-another-crew = The other phone belongs to another crew. Nothing was exchanged: swap records with a phone of this crew.
crew-error-peer = The other phone broke the rules of the swap. { -sent-ended }
crew-error-ended = This swap has ended: start a new one.
