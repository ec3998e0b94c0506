package org.swardbook.shell.keepoff

import android.app.AlarmManager
import android.app.PendingIntent
import android.content.Context
import android.content.Intent
import android.net.Uri
import android.os.Build
import org.swardbook.shell.core.Core
import org.swardbook.shell.core.Device
import org.swardbook.shell.screen.ScreensActivity
import uniffi.sward.KeepOff
import uniffi.sward.KeepOffState
import uniffi.sward.RingFor
import uniffi.sward.SwardException
import uniffi.sward.Watch

/**
 * Arming the alarms: one for each keep-off that a time ends, at the time the core gives for this
 * phone's own clock. Never sooner, and never taken back while the book cannot be read.
 */
object Alarms {
    /** After "still wet" it is asked again so much later. Common practice, no source. */
    const val ASK_AGAIN_MS = 30 * 60_000L

    /** The system takes 500 alarms of an app; those that come first count, the next follow when they rang. */
    private const val SET_MOST = 400

    /**
     * Brings the alarms and the standing notices in line with the book, and tells late what ended
     * while nothing could ring. For a background thread.
     */
    @Synchronized
    fun arm(context: Context) {
        val watch = try {
            Core.of(context).call { it.keepOffsToWatch() }
        } catch (_: SwardException.NoBook) {
            return
        } catch (trouble: Throwable) {
            // Whatever it is, what was armed must go on ringing.
            armBlindly(context, trouble)
            return
        }
        Notices.readable(context)
        val armed = Armed(context)
        // What they said is not so any more; what still calls for a person is told below, or rings.
        armed.calledBlindly().forEach { Notices.forget(context, it) }
        val before = armed.all()
        armed.forgetCalls(watch.keepOffs.map(Which::of).toSet())
        val wanted = ringingOf(watch).filterNot(armed::wasCalled)
        for (ringing in before.filter { old -> wanted.none { it.which == old.which } }) {
            settle(context, armed, ringing, watch)
        }
        for (ringing in wanted.sortedBy { it.atDeviceUtcMs }.take(SET_MOST)) {
            armed.add(ringing)
            set(context, ringing)
        }
        Notices.standing(context, watch)
    }

    /** The book cannot be read: what was armed is armed again, and what should have rung rings. */
    private fun armBlindly(context: Context, trouble: Throwable) {
        val armed = Armed(context)
        val (later, due) = armed.all().partition { it.atDeviceUtcMs > System.currentTimeMillis() }
        later.forEach { set(context, it) }
        due.filter(armed::noteCalledBlindly).forEach { Notices.alertUnreadable(context, it.which, trouble) }
        // A phone that is only not unlocked yet is no trouble where nothing was to ring.
        if (Device.wasUnlocked(context) || later.isNotEmpty() || due.isNotEmpty()) Notices.unreadable(context, trouble)
    }

    /** An armed keep-off that no time ends any more: it is over, or a person has to act. */
    private fun settle(context: Context, armed: Armed, ringing: Ringing, watch: Watch) {
        val which = ringing.which
        val now = watch.keepOffs.find { Which.of(it) == which } ?: try {
            Core.of(context).call { it.keepOff(which.visit, which.keepOff) }
        } catch (_: SwardException.BadInput) {
            // Of another book, which is not there any more.
            null
        } catch (_: SwardException) {
            // It stays armed, and is settled with the next arming.
            return
        }
        val alert = now?.let { alertFor(ringing.what, it.state) }
        val isAskedAgainLater = alert == Alert.LOOK && ringing.atDeviceUtcMs > System.currentTimeMillis()
        val staysUncertain = alert == Alert.UNCERTAIN && armed.wasCalled(ringing)
        if (isAskedAgainLater) set(context, ringing)
        if (isAskedAgainLater || staysUncertain) return
        cancel(context, which)
        tell(context, armed, now, ringing)
    }

    /** Calls a person where there is something to call for. What stays uncertain is remembered. */
    private fun tell(context: Context, armed: Armed, keepOff: KeepOff?, ringing: Ringing) {
        val alert = keepOff?.let { alertFor(ringing.what, it.state) }
        if (alert != Alert.UNCERTAIN) armed.remove(ringing.which)
        if (keepOff == null || alert == null) return
        armed.noteCalled(ringing)
        Notices.alert(context, keepOff, alert)
    }

    /** An alarm rang: what it has to say now, by the core. For a background thread. */
    fun rang(context: Context, which: Which) {
        val armed = Armed(context)
        val ringing = armed.all().find { it.which == which } ?: Ringing(which, 0, RingFor.WAIT_OVER)
        try {
            val keepOff = Core.of(context).call { it.keepOff(which.visit, which.keepOff) }
            tell(context, armed, keepOff, ringing)
            if (keepOff.state is KeepOffState.TimeUncertain) ProofOfTime.askThenArm(context)
        } catch (trouble: Throwable) {
            // Whatever it is, it rings all the same: nobody may take silence for "over".
            armed.noteCalledBlindly(ringing)
            Notices.alertUnreadable(context, which, trouble)
        }
        arm(context)
    }

    /** "Still wet": the keep-off stays as it is, and is asked for again later. */
    fun askAgain(context: Context, which: Which) {
        val again = Ringing(which, System.currentTimeMillis() + ASK_AGAIN_MS, RingFor.LOOK)
        Armed(context).add(again)
        set(context, again)
    }

    /** Whether this phone lets alarms ring to the minute. */
    fun areExact(context: Context): Boolean =
        Build.VERSION.SDK_INT < Build.VERSION_CODES.S || manager(context).canScheduleExactAlarms()

    private fun set(context: Context, ringing: Ringing) {
        val rings = rings(context, ringing.which)
        if (areExact(context)) {
            val shows = Intent(context, ScreensActivity::class.java)
            val screens = PendingIntent.getActivity(context, 0, shows, PendingIntent.FLAG_IMMUTABLE)
            try {
                manager(context).setAlarmClock(AlarmManager.AlarmClockInfo(ringing.atDeviceUtcMs, screens), rings)
                return
            } catch (_: SecurityException) {
                // Forbidden a moment ago.
            }
        }
        // Late by minutes, but not lost: the person is told where it is allowed.
        manager(context).setAndAllowWhileIdle(AlarmManager.RTC_WAKEUP, ringing.atDeviceUtcMs, rings)
    }

    private fun cancel(context: Context, which: Which) = manager(context).cancel(rings(context, which))

    private fun rings(context: Context, which: Which): PendingIntent {
        val intent = Intent(context, AlarmReceiver::class.java).setData(Uri.parse("$ADDRESS$which"))
        return PendingIntent.getBroadcast(
            context, 0, intent, PendingIntent.FLAG_IMMUTABLE or PendingIntent.FLAG_UPDATE_CURRENT,
        )
    }

    /** Which keep-off an intent of this app is about; null where that cannot be read. */
    fun whichOf(intent: Intent?): Which? =
        intent?.dataString?.takeIf { it.startsWith(ADDRESS) }?.let { Which.read(it.removePrefix(ADDRESS)) }

    /** An intent of this app about a keep-off. */
    fun about(context: Context, which: Which, kind: Class<*>): Intent =
        Intent(context, kind).setData(Uri.parse("$ADDRESS$which"))

    private fun manager(context: Context) =
        context.applicationContext.getSystemService(AlarmManager::class.java)

    private const val ADDRESS = "swardbook:keep-off/"
}
