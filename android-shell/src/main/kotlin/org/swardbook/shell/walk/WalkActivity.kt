package org.swardbook.shell.walk

import android.Manifest.permission.ACCESS_COARSE_LOCATION
import android.Manifest.permission.ACCESS_FINE_LOCATION
import android.app.Activity
import android.app.NotificationManager
import android.content.ActivityNotFoundException
import android.content.Context
import android.content.Intent
import android.net.Uri
import android.os.Bundle
import android.os.Handler
import android.os.Looper
import android.provider.Settings
import org.swardbook.shell.R
import org.swardbook.shell.part.Told
import org.swardbook.shell.part.speaking

/** Starts and stops the recording of a walk, and tells how it stands and what is missing. */
class WalkActivity : Activity() {
    private enum class Step { START, STOP, ALLOW, NONE }

    private val ticks = Handler(Looper.getMainLooper())
    private var words: Context? = null
    private var shown: Pair<Step, Told>? = null

    /** Asked in vain: from then on only the phone's settings can allow it. */
    private var isRefused = false

    override fun onCreate(state: Bundle?) {
        super.onCreate(state)
        isRefused = state?.getBoolean(REFUSED) ?: false
        speaking {
            words = it
            show()
        }
    }

    override fun onSaveInstanceState(state: Bundle) {
        super.onSaveInstanceState(state)
        state.putBoolean(REFUSED, isRefused)
    }

    override fun onResume() {
        super.onResume()
        tick()
    }

    override fun onPause() {
        ticks.removeCallbacksAndMessages(null)
        super.onPause()
    }

    override fun onRequestPermissionsResult(requestCode: Int, permissions: Array<out String>, results: IntArray) {
        // An empty answer is a question that was cut off, not a refusal.
        if (permissions.isNotEmpty()) {
            isRefused = Receiver.of(this).needsPermission && !shouldShowRequestPermissionRationale(ACCESS_FINE_LOCATION)
        }
        show()
    }

    private fun allow() {
        if (!isRefused) {
            requestPermissions(arrayOf(ACCESS_FINE_LOCATION, ACCESS_COARSE_LOCATION), REQUEST)
            return
        }
        val settings = Intent(Settings.ACTION_APPLICATION_DETAILS_SETTINGS, Uri.fromParts("package", packageName, null))
        try {
            startActivity(settings)
        } catch (_: ActivityNotFoundException) {
            // Then what stands above the button is all that can be said.
        }
    }

    private fun tick() {
        show()
        ticks.postDelayed(::tick, TICK_MS)
    }

    private fun show() {
        val words = words ?: return
        val state = WalkService.state
        val receiver = Receiver.of(this)
        val step = when {
            state is WalkState.Going -> Step.STOP
            receiver.needsPermission -> Step.ALLOW
            receiver == Receiver.NONE -> Step.NONE
            else -> Step.START
        }
        // Made anew only with another button: one that is being touched stays.
        val told = shown?.takeIf { it.first == step }?.second ?: made(words, step).also { shown = step to it }
        told.say(
            words.getString(R.string.walk_title),
            words.getString(R.string.walk_how),
            told(words, state, receiver).joinToString("\n\n"),
        )
    }

    private fun made(words: Context, step: Step): Told {
        val told = Told.show(this, words)
        when (step) {
            Step.START -> told.next(words.getString(R.string.walk_start)) { does { WalkService.start(this) } }
            Step.STOP -> told.next(words.getString(R.string.walk_stop)) { does { WalkService.stop(this) } }
            Step.ALLOW -> told.next(words.getString(R.string.walk_allow)) { allow() }
            Step.NONE -> Unit
        }
        return told.other(words.getString(R.string.screen_back)) { finish() }
    }

    private fun does(act: () -> Unit) {
        act()
        show()
    }

    private fun told(words: Context, state: WalkState, receiver: Receiver): List<String> {
        val missing = when (receiver) {
            Receiver.READY -> null
            Receiver.NOT_ALLOWED -> R.string.walk_not_allowed
            Receiver.ROUGH -> R.string.walk_rough
            Receiver.NONE -> R.string.walk_no_receiver
            Receiver.OFF -> R.string.walk_off
        }
        val isSimulated = state is WalkState.Going && state.isSimulated
        val areNotices = getSystemService(NotificationManager::class.java).areNotificationsEnabled()
        return listOfNotNull(
            WalkWords.of(words, state),
            missing?.let(words::getString),
            if (isSimulated) words.getString(R.string.walk_simulated) else null,
            if (areNotices) null else words.getString(R.string.walk_silent),
        ).filter { it.isNotEmpty() }.distinct()
    }

    private companion object {
        const val TICK_MS = 500L
        const val REQUEST = 44
        const val REFUSED = "refused"
    }
}
