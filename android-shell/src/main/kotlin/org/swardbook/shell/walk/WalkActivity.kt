package org.swardbook.shell.walk

import android.Manifest.permission.ACCESS_COARSE_LOCATION
import android.Manifest.permission.ACCESS_FINE_LOCATION
import android.app.Activity
import android.app.NotificationManager
import android.content.ActivityNotFoundException
import android.content.Intent
import android.net.Uri
import android.os.Bundle
import android.os.Handler
import android.os.Looper
import android.provider.Settings
import android.view.View
import android.widget.TextView
import org.swardbook.shell.R

/** Starts and stops the recording of a walk, and tells how it stands and what is missing. */
class WalkActivity : Activity() {
    private val ticks = Handler(Looper.getMainLooper())

    /** Asked in vain: from then on only the phone's settings can allow it. */
    private var isRefused = false

    override fun onCreate(state: Bundle?) {
        super.onCreate(state)
        setContentView(R.layout.walk)
        isRefused = state?.getBoolean(REFUSED) ?: false
        on(R.id.walk_start) {
            WalkService.start(this)
            show()
        }
        on(R.id.walk_stop) {
            WalkService.stop(this)
            show()
        }
        on(R.id.walk_allow) { allow() }
        on(R.id.walk_leave) { finish() }
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
            isRefused = Receiver.of(this).let { it == Receiver.NOT_ALLOWED || it == Receiver.ROUGH } &&
                !shouldShowRequestPermissionRationale(ACCESS_FINE_LOCATION)
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
        val state = WalkService.state
        val receiver = Receiver.of(this)
        val isGoing = state is WalkState.Going
        val needsPermission = receiver == Receiver.NOT_ALLOWED || receiver == Receiver.ROUGH
        say(R.id.walk_text, getString(R.string.walk_how))
        say(R.id.walk_count, if (state is WalkState.Going && state.fixes > 0) WalkWords.count(this, state) else "")
        say(R.id.walk_told, told(state, receiver).joinToString("\n\n"))
        shown(R.id.walk_start, !isGoing && (receiver == Receiver.READY || receiver == Receiver.OFF))
        shown(R.id.walk_stop, isGoing)
        shown(R.id.walk_allow, !isGoing && needsPermission)
    }

    private fun told(state: WalkState, receiver: Receiver): List<String> {
        val missing = when (receiver) {
            Receiver.READY -> null
            Receiver.NOT_ALLOWED -> R.string.walk_not_allowed
            Receiver.ROUGH -> R.string.walk_rough
            Receiver.NONE -> R.string.walk_no_receiver
            Receiver.OFF -> R.string.walk_off
        }
        val stands = if (state is WalkState.Going && state.fixes > 0) "" else WalkWords.of(this, state)
        val simulated = if (state is WalkState.Going && state.isSimulated) getString(R.string.walk_simulated) else ""
        val areNotices = getSystemService(NotificationManager::class.java).areNotificationsEnabled()
        val silent = if (areNotices) "" else getString(R.string.walk_silent)
        return listOf(missing?.let(::getString).orEmpty(), stands, simulated, silent).filter { it.isNotEmpty() }.distinct()
    }

    private fun say(view: Int, what: String) {
        val text = findViewById<TextView>(view)
        // The same once more would be read out once more.
        if (text.text.toString() != what) text.text = what
        text.visibility = if (what.isEmpty()) View.GONE else View.VISIBLE
    }

    private fun shown(view: Int, isShown: Boolean) {
        findViewById<View>(view).visibility = if (isShown) View.VISIBLE else View.GONE
    }

    private fun on(button: Int, does: () -> Unit) = findViewById<View>(button).setOnClickListener { does() }

    private companion object {
        const val TICK_MS = 500L
        const val REQUEST = 44
        const val REFUSED = "refused"
    }
}
