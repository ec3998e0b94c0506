package org.swardbook.shell.part

import android.app.Activity
import android.content.Context
import android.view.ViewGroup
import android.widget.LinearLayout
import android.widget.TextView
import org.swardbook.shell.R
import org.swardbook.shell.core.Core

/** Goes on, on the main thread, with a context in the person's language: the core knows which. */
internal fun Activity.speaking(then: (Context) -> Unit) {
    val core = Core.of(this)
    core.work {
        val speaking = core.speaking(this)
        core.onMain { if (!isDestroyed) then(speaking) }
    }
}

/** Adds digits or a count, large enough to be read aloud from. */
internal fun Told.code(digits: String): Told {
    val code = TextView(view.context, null, 0, R.style.Code)
    code.text = digits
    val place = LinearLayout.LayoutParams(ViewGroup.LayoutParams.MATCH_PARENT, ViewGroup.LayoutParams.WRAP_CONTENT)
    place.bottomMargin = (GAP_DP * view.resources.displayMetrics.density).toInt()
    code.layoutParams = place
    return add(code)
}

private const val GAP_DP = 16
