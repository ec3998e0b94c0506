package org.swardbook.shell.keepoff

import android.app.Activity
import android.os.Bundle
import org.swardbook.shell.R
import org.swardbook.shell.core.Core
import org.swardbook.shell.part.Told
import uniffi.sward.KeepOff
import uniffi.sward.SwardException

/** "I looked: it is dry", asked once more: a tap in a pocket must not end a keep-off. */
class DryActivity : Activity() {
    private lateinit var told: Told

    override fun onCreate(saved: Bundle?) {
        super.onCreate(saved)
        val which = Alarms.whichOf(intent)
        if (which == null) {
            finish()
            return
        }
        readThen(which) { told, asked ->
            asked.fold({ ask(told, which, it) }, { refuse(told, it) })
        }
    }

    private fun ask(shown: Told, which: Which, keepOff: KeepOff) {
        told = shown
        val context = told.view.context
        val asks = context.getString(R.string.dry_asks, Said.place(context, keepOff))
        told.say(context.getString(R.string.dry_title), asks, Said.lookAt(context, keepOff.method))
        // The safe answer stands first.
        told.next(context.getString(R.string.dry_no)) { stillWet(which) }
        told.other(context.getString(R.string.dry_yes)) { dry(which) }
    }

    private fun stillWet(which: Which) {
        sendBroadcast(Alarms.about(this, which, StillWetReceiver::class.java))
        finish()
    }

    private fun dry(which: Which) {
        told.noButtons()
        val core = Core.of(this)
        core.work {
            try {
                core.call { it.lookedDry(which.visit, listOf(which.keepOff), null) }
            } catch (trouble: SwardException) {
                core.onMain { refuse(told, trouble) }
                return@work
            }
            val now = try {
                core.call { it.keepOff(which.visit, which.keepOff) }
            } catch (_: SwardException) {
                null
            }
            core.onMain { done(which, now) }
            core.ring { Alarms.arm(this) }
        }
    }

    /** It is written down; where it stands now, if that can be told. */
    private fun done(which: Which, now: KeepOff?) {
        Notices.forget(this, which)
        val context = told.view.context
        told.answer(
            if (now == null || !now.keepsOff) context.getString(R.string.dry_done)
            else context.getString(R.string.dry_still_until, Said.of(context, now).line),
        )
        told.next(context.getString(R.string.seen)) { finish() }
    }

    private fun refuse(shown: Told, trouble: Throwable) {
        val context = shown.view.context
        shown.noButtons().answer(context.getString(R.string.not_written, (trouble as? SwardException)?.message.orEmpty()))
        shown.next(context.getString(R.string.seen)) { finish() }
    }
}
