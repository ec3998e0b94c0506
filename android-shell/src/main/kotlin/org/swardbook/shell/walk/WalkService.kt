package org.swardbook.shell.walk

import android.app.Notification
import android.app.NotificationChannel
import android.app.NotificationManager
import android.app.PendingIntent
import android.app.Service
import android.content.Context
import android.content.Intent
import android.content.pm.ServiceInfo
import android.location.Location
import android.os.Build
import android.os.IBinder
import android.os.SystemClock
import org.swardbook.shell.R
import org.swardbook.shell.core.Core
import org.swardbook.shell.keepoff.ProofOfTime
import uniffi.sward.SwardException
import uniffi.sward.Swardbook
import uniffi.sward.Walk

/**
 * Records a walk round a lawn while the screen is dark. The core holds the fixes; this only feeds
 * them to it, and ends with them.
 */
class WalkService : Service() {
    private var fixes: Fixes? = null
    private var isTimeTold = false
    private var words: Context = this

    override fun onBind(intent: Intent?): IBinder? = null

    override fun onStartCommand(intent: Intent?, flags: Int, startId: Int): Int {
        when {
            intent?.action == STOP -> end(if (state is WalkState.Going) WalkState.Ended else state)
            intent?.action == START -> if (fixes == null) begin()
            // The system ended the program in the middle and starts this again: half a walk is no outline.
            else -> end(WalkState.BrokenOff)
        }
        return if (fixes == null) START_NOT_STICKY else START_STICKY
    }

    override fun onDestroy() {
        if (fixes != null) end(WalkState.BrokenOff)
        super.onDestroy()
    }

    private fun begin() {
        val listener = Fixes(this, ::taken) { isOff -> changed { it.copy(isOff = isOff) } }
        try {
            inFront()
            listener.start(SystemClock.elapsedRealtimeNanos())
        } catch (_: SecurityException) {
            // The permission was taken back between the tap and now.
            end(WalkState.NotAllowed)
            return
        } catch (_: IllegalStateException) {
            // Not started by a tap: the system lets nobody record from the background.
            end(WalkState.BrokenOff)
            return
        }
        fixes = listener
        state = WalkState.Going(isOff = Receiver.of(this) == Receiver.OFF)
        onCore {
            it.beginWalk()
            val core = Core.of(this)
            val speaking = core.speaking(this)
            core.onMain { words = speaking }
        }
    }

    private fun taken(location: Location) {
        val isSimulated = Fixes.isSimulated(location)
        onCore {
            val before = it.walk()
            val walk = try {
                it.addFix(Fixes.fixOf(location))
            } catch (_: SwardException.BadInput) {
                // A place that is not on earth is none; the next one may be.
                before
            }
            if (!isSimulated) proveTime(location)
            Core.of(this).onMain { took(before, walk, isSimulated) }
        }
    }

    /** What satellites tell of the time is worth telling too; a walk does not depend on it. */
    private fun proveTime(location: Location) {
        if (isTimeTold || location.time <= 0) return
        isTimeTold = true
        try {
            ProofOfTime.byFix(this, location)
        } catch (_: SwardException) {
            // There may be no book yet to prove anything for.
        }
    }

    private fun took(before: Walk, walk: Walk, isSimulated: Boolean) {
        if (fixes == null) return
        if (!walk.recording) {
            // The book was opened anew meanwhile, and the walk went with it.
            end(WalkState.BrokenOff)
            return
        }
        changed { it.copy(fixes = walk.fixes.toInt(), accuracyM = walk.lastAccuracyM, isSimulated = isSimulated) }
        if (walk.fixes == before.fixes && walk.fixes >= FIXES_MOST) end(WalkState.Full)
    }

    private fun changed(change: (WalkState.Going) -> WalkState.Going) {
        val going = state as? WalkState.Going ?: return
        state = change(going)
        manager().notify(NOTICE, notice())
    }

    private fun end(how: WalkState) {
        fixes?.stop()
        val wasGoing = fixes != null
        fixes = null
        state = how
        if (wasGoing) onCore { it.endWalk() }
        stopForeground(STOP_FOREGROUND_REMOVE)
        stopSelf()
        if (how is WalkState.BrokenOff || how is WalkState.Full) tellAfterwards(how)
    }

    private fun onCore(work: (Swardbook) -> Unit) {
        val core = Core.of(this)
        core.work {
            try {
                core.call(work)
            } catch (_: SwardException) {
                core.onMain { if (fixes != null) end(WalkState.BrokenOff) }
            }
        }
    }

    // ---- The notification.

    private fun inFront() {
        val channel = NotificationChannel(CHANNEL, getString(R.string.walk_channel), NotificationManager.IMPORTANCE_LOW)
        manager().createNotificationChannel(channel)
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.Q) {
            startForeground(NOTICE, notice(), ServiceInfo.FOREGROUND_SERVICE_TYPE_LOCATION)
        } else {
            startForeground(NOTICE, notice())
        }
    }

    private fun notice(): Notification {
        val stop = PendingIntent.getService(
            this, 0, Intent(this, WalkService::class.java).setAction(STOP), PendingIntent.FLAG_IMMUTABLE,
        )
        val stopWords = words.getString(R.string.walk_notice_stop)
        return base(words.getString(R.string.walk_notice), WalkWords.of(words, state))
            .setOngoing(true)
            .setOnlyAlertOnce(true)
            .addAction(Notification.Action.Builder(null, stopWords, stop).build())
            .build()
    }

    private fun tellAfterwards(how: WalkState) {
        val text = WalkWords.of(words, how)
        manager().notify(
            NOTICE_AFTER,
            base(words.getString(R.string.walk_title), text).setStyle(Notification.BigTextStyle().bigText(text)).setAutoCancel(true).build(),
        )
    }

    private fun base(title: String, text: String): Notification.Builder {
        val open = PendingIntent.getActivity(
            this, 0, Intent(this, WalkActivity::class.java), PendingIntent.FLAG_IMMUTABLE,
        )
        return Notification.Builder(this, CHANNEL)
            .setSmallIcon(R.drawable.notice)
            .setContentTitle(title)
            .setContentText(text)
            .setContentIntent(open)
            .setCategory(Notification.CATEGORY_SERVICE)
            .setVisibility(Notification.VISIBILITY_PUBLIC)
    }

    private fun manager() = getSystemService(NotificationManager::class.java)

    companion object {
        private const val START = "org.swardbook.shell.walk.START"
        private const val STOP = "org.swardbook.shell.walk.STOP"
        private const val CHANNEL = "walk"
        private const val NOTICE = 61
        private const val NOTICE_AFTER = 62

        /** As many as the core keeps of one walk. */
        private val FIXES_MOST = 5000u

        /** How the walk stands, for whoever shows it. Written on the main thread alone. */
        @Volatile
        internal var state: WalkState = WalkState.None
            private set

        /** Begins, from a screen that the person sees. */
        internal fun start(context: Context) {
            context.startService(Intent(context, WalkService::class.java).setAction(START))
        }

        /** Ends it; the fixes stay with the core. */
        internal fun stop(context: Context) {
            context.startService(Intent(context, WalkService::class.java).setAction(STOP))
        }
    }
}
