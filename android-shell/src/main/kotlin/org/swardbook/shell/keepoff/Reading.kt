package org.swardbook.shell.keepoff

import android.app.Activity
import org.swardbook.shell.core.Core
import org.swardbook.shell.part.Told
import uniffi.sward.KeepOff

/** Reads a keep-off and goes on with an empty surface in the person's language, and what was read or went wrong. */
internal fun Activity.readThen(which: Which, then: (Told, Result<KeepOff>) -> Unit) {
    val core = Core.of(this)
    // As alarms: a call that waits for a swap is none.
    core.ring {
        val speaking = core.speaking(this)
        val read = runCatching { core.call { it.keepOff(which.visit, which.keepOff) } }
        core.onMain { if (!isDestroyed) then(Told.show(this, speaking), read) }
    }
}
