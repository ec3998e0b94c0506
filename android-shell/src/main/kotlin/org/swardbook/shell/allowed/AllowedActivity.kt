package org.swardbook.shell.allowed

import android.app.Activity
import android.content.ActivityNotFoundException
import android.content.Intent
import android.net.Uri
import android.os.Bundle
import android.provider.Settings
import android.widget.TextView
import org.swardbook.shell.R
import org.swardbook.shell.core.Core
import org.swardbook.shell.keepoff.Alarms
import org.swardbook.shell.part.Told

/** Tells plainly what the phone allows, what still works without, and where to change it. */
class AllowedActivity : Activity() {
    /** Asked once a start: a system that was told "never" answers at once, and would be asked for ever. */
    private val asked = mutableSetOf<Allowed>()

    override fun onResume() {
        super.onResume()
        show()
    }

    private fun show() {
        val core = Core.of(this)
        core.work {
            val speaking = core.speaking(this)
            // What was allowed meanwhile counts from now on.
            Alarms.arm(this)
            core.onMain { tell(Told.show(this, speaking)) }
        }
    }

    private fun tell(told: Told) {
        val context = told.view.context
        val missing = Allowed.values().filterNot { it.isGranted(this) }
        told.say(
            context.getString(R.string.allow_title),
            context.getString(if (missing.isEmpty()) R.string.allow_all else R.string.allow_some),
        )
        for (one in Allowed.values()) {
            val state = if (one in missing) one.missing else one.granted
            add(told, context.getString(R.string.allow_line, context.getString(one.title), context.getString(state)))
        }
        add(told, context.getString(R.string.allow_restart))
        for (one in missing) {
            told.other(context.getString(R.string.allow_change, context.getString(one.title))) { change(one) }
        }
        told.next(context.getString(R.string.allow_go_on)) { finish() }
    }

    private fun add(told: Told, text: String) {
        val line = TextView(told.view.context, null, 0, R.style.Text)
        line.setPadding(0, (GAP_DP * resources.displayMetrics.density).toInt(), 0, 0)
        line.text = text
        told.add(line)
    }

    private fun change(one: Allowed) {
        val permissions = one.permissions()
        if (permissions.isNotEmpty() && asked.add(one)) {
            requestPermissions(permissions, one.ordinal)
            return
        }
        try {
            startActivity(one.settings(this))
        } catch (_: ActivityNotFoundException) {
            // Phones differ in which of their settings can be opened; this one they all have.
            val app = Uri.fromParts("package", packageName, null)
            startActivity(Intent(Settings.ACTION_APPLICATION_DETAILS_SETTINGS, app))
        }
    }

    override fun onRequestPermissionsResult(request: Int, permissions: Array<String>, granted: IntArray) {
        super.onRequestPermissionsResult(request, permissions, granted)
        show()
    }

    private companion object {
        const val GAP_DP = 8
    }
}
