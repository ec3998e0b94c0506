package org.swardbook.shell.keepoff

import android.content.BroadcastReceiver
import android.content.Context
import android.content.Intent
import java.util.TimeZone
import org.swardbook.shell.core.Core
import uniffi.sward.SwardException

/** Receives what this app sends to itself, and works in the background until it is done. */
abstract class InBackground : BroadcastReceiver() {
    final override fun onReceive(context: Context, intent: Intent) {
        // Null where a test calls this without the system.
        val pending: PendingResult? = goAsync()
        Core.of(context).ring {
            try {
                received(context, intent)
            } catch (trouble: Throwable) {
                // An alarm must not end with its process.
                Notices.unreadable(context, trouble)
            } finally {
                pending?.finish()
            }
        }
    }

    protected abstract fun received(context: Context, intent: Intent)
}

/** An alarm rang. */
class AlarmReceiver : InBackground() {
    override fun received(context: Context, intent: Intent) {
        val which = Alarms.whichOf(intent)
        if (which == null) Alarms.arm(context) else Alarms.rang(context, which)
    }
}

/** "Still wet" on a notice. */
class StillWetReceiver : InBackground() {
    override fun received(context: Context, intent: Intent) {
        val which = Alarms.whichOf(intent) ?: return
        Notices.forget(context, which)
        Alarms.askAgain(context, which)
    }
}

/** A standing notice was wiped away: what it stands for still runs. */
class WipedReceiver : InBackground() {
    override fun received(context: Context, intent: Intent) = Alarms.arm(context)
}

/**
 * The phone was started, whether it is unlocked or not yet, this app was updated, its clock or zone
 * changed, or alarms were allowed or forbidden: what was armed is armed anew.
 */
class WakeReceiver : InBackground() {
    override fun received(context: Context, intent: Intent) {
        if (intent.action !in AWAITED) return
        if (intent.action == Intent.ACTION_TIMEZONE_CHANGED) {
            try {
                Core.of(context).call { it.zoneChanged(TimeZone.getDefault().id) }
            } catch (_: SwardException) {
                // Arming tells what is wrong with the book.
            }
        }
        Alarms.arm(context)
        ProofOfTime.askThenArm(context)
    }

    companion object {
        val AWAITED = setOf(
            Intent.ACTION_LOCKED_BOOT_COMPLETED,
            Intent.ACTION_BOOT_COMPLETED,
            Intent.ACTION_MY_PACKAGE_REPLACED,
            Intent.ACTION_TIME_CHANGED,
            Intent.ACTION_TIMEZONE_CHANGED,
            "android.app.action.SCHEDULE_EXACT_ALARM_PERMISSION_STATE_CHANGED",
        )
    }
}
