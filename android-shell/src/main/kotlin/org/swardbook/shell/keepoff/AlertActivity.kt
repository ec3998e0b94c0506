package org.swardbook.shell.keepoff

import android.app.Activity
import android.app.KeyguardManager
import android.content.BroadcastReceiver
import android.content.Context
import android.content.Intent
import android.content.IntentFilter
import android.os.Build
import android.os.Bundle
import android.view.WindowManager
import org.swardbook.shell.R
import org.swardbook.shell.core.Device
import org.swardbook.shell.part.Told
import org.swardbook.shell.screen.ScreensActivity
import uniffi.sward.KeepOff
import uniffi.sward.RingFor

/**
 * A person is called, over the lock screen: what is over or in doubt, and what to look at. To have
 * seen it is not to have looked: nothing here ends a keep-off.
 */
class AlertActivity : Activity() {
    /** Waits for the phone to be unlocked: from then on it can be said what for. */
    private var waiting: BroadcastReceiver? = null

    override fun onCreate(saved: Bundle?) {
        super.onCreate(saved)
        overTheLockScreen()
        if (!Device.wasUnlocked(this)) showAgainWhenUnlocked()
        show(intent)
    }

    override fun onDestroy() {
        waiting?.let(::unregisterReceiver)
        super.onDestroy()
    }

    private fun showAgainWhenUnlocked() {
        val receiver = object : BroadcastReceiver() {
            override fun onReceive(context: Context, broadcast: Intent) = show(intent)
        }
        registerReceiver(receiver, IntentFilter(Intent.ACTION_USER_UNLOCKED))
        waiting = receiver
    }

    override fun onNewIntent(intent: Intent) {
        super.onNewIntent(intent)
        setIntent(intent)
        show(intent)
    }

    private fun show(intent: Intent) {
        val which = Alarms.whichOf(intent)
        if (which == null) {
            finish()
            return
        }
        readThen(which) { told, asked ->
            asked.fold({ tell(told, which, it) }, { tell(told, which, it) })
        }
    }

    /** What is so now, which may be another thing than when it rang. */
    private fun tell(told: Told, which: Which, keepOff: KeepOff) {
        val context = told.view.context
        val alert = alertFor(RingFor.CONFIRM_TIME, keepOff.state)
        val said = if (alert == null) Said.of(context, keepOff) else Said.alert(context, keepOff, alert)
        told.say(said.title, said.line, said.more)
        if (alert == Alert.LOOK) {
            told.next(context.getString(R.string.still_wet)) { stillWet(told, which) }
            told.other(context.getString(R.string.looked_dry)) { askOnceMore(which) }
        } else {
            told.next(context.getString(R.string.seen)) { seen(which) }
        }
        told.other(context.getString(R.string.to_screens)) { toScreens(which) }
    }

    private fun tell(told: Told, which: Which, trouble: Throwable) {
        val context = told.view.context
        val said = Said.unreadable(context, trouble)
        told.say(said.title, said.line, said.more)
        told.next(context.getString(R.string.seen)) { seen(which) }
        if (Device.wasUnlocked(this)) told.other(context.getString(R.string.to_screens)) { toScreens(which) }
    }

    private fun stillWet(told: Told, which: Which) {
        sendBroadcast(Alarms.about(this, which, StillWetReceiver::class.java))
        val context = told.view.context
        told.noButtons().answer(context.getString(R.string.ask_again))
        told.next(context.getString(R.string.seen)) { finish() }
    }

    private fun askOnceMore(which: Which) {
        // Asked behind the lock: a pocket or a child may tap here.
        getSystemService(KeyguardManager::class.java).requestDismissKeyguard(this, null)
        startActivity(Alarms.about(this, which, DryActivity::class.java))
        finish()
    }

    private fun seen(which: Which) {
        Notices.forget(this, which)
        finish()
    }

    private fun toScreens(which: Which) {
        Notices.forget(this, which)
        startActivity(Intent(this, ScreensActivity::class.java))
        finish()
    }

    private fun overTheLockScreen() {
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.O_MR1) {
            setShowWhenLocked(true)
            setTurnScreenOn(true)
        } else {
            @Suppress("DEPRECATION")
            window.addFlags(
                WindowManager.LayoutParams.FLAG_SHOW_WHEN_LOCKED or WindowManager.LayoutParams.FLAG_TURN_SCREEN_ON,
            )
        }
        window.addFlags(WindowManager.LayoutParams.FLAG_KEEP_SCREEN_ON)
    }
}
