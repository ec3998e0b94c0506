package org.swardbook.shell.part

import android.app.Activity
import android.content.Context
import android.view.View
import android.view.ViewGroup
import android.widget.Button
import android.widget.LinearLayout
import android.widget.TextView
import org.swardbook.shell.R

/** The one form that all native surfaces have: a title, what there is to say, and a few large buttons. */
class Told(private val context: Context, val view: View) {
    private val buttons: LinearLayout = view.findViewById(R.id.buttons)

    /** Says something; an empty text takes no room. */
    fun say(title: String, line: String, more: String = ""): Told {
        set(R.id.title, title)
        set(R.id.line, line)
        set(R.id.more, more)
        return this
    }

    /** What came of an answer; read out at once. */
    fun answer(text: String): Told {
        set(R.id.answer, text)
        return this
    }

    /** Takes every button away. */
    fun noButtons(): Told {
        buttons.removeAllViews()
        return this
    }

    /** The step that is expected next. */
    fun next(text: String, act: () -> Unit): Told = button(text, R.style.Next, act)

    /** Another way on. */
    fun other(text: String, act: () -> Unit): Told = button(text, R.style.Quiet, act)

    /** Puts a view of its own among the texts. */
    fun add(added: View): Told {
        val told = view.findViewById<LinearLayout>(R.id.told)
        told.addView(added, told.indexOfChild(buttons))
        return this
    }

    private fun set(id: Int, text: String) {
        val into = view.findViewById<TextView>(id)
        into.text = text
        into.visibility = if (text.isEmpty()) View.GONE else View.VISIBLE
    }

    private fun button(text: String, style: Int, act: () -> Unit): Told {
        val button = Button(context, null, 0, style)
        button.text = text
        button.setOnClickListener { act() }
        val place = LinearLayout.LayoutParams(
            ViewGroup.LayoutParams.MATCH_PARENT, ViewGroup.LayoutParams.WRAP_CONTENT,
        )
        place.bottomMargin = (GAP_DP * context.resources.displayMetrics.density).toInt()
        buttons.addView(button, place)
        return this
    }

    companion object {
        private const val GAP_DP = 12

        /** Shows an empty one, in the language of `speaking`. */
        fun show(activity: Activity, speaking: Context): Told {
            val view = activity.layoutInflater.cloneInContext(themed(activity, speaking)).inflate(R.layout.told, null)
            activity.setContentView(view)
            return Told(view.context, view)
        }

        private fun themed(activity: Activity, speaking: Context): Context =
            android.view.ContextThemeWrapper(speaking, R.style.Shell).also {
                it.theme.setTo(activity.theme)
            }
    }
}
