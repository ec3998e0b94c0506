package org.swardbook.shell.screen

import android.app.Activity
import android.content.pm.PackageManager
import android.view.View
import android.view.ViewGroup
import android.widget.Button
import org.swardbook.shell.R
import org.swardbook.shell.part.Told

/** What stands round the pages: what no page can do or know, and what is told where no page can be. */
internal class ScreensViews(private val activity: Activity, onWalk: () -> Unit, onAllowed: () -> Unit) {
    private val root: View
    private val web: ViewGroup
    private val walk: Button
    private val allowed: Button

    /** What is told instead of pages, to be told anew when light or language change. */
    private var telling: ((Told) -> Unit)? = null

    /** Whether it is told that there are no pages. */
    var showsTrouble = false
        private set

    init {
        activity.setContentView(R.layout.screens)
        root = activity.findViewById(R.id.screens)
        web = activity.findViewById(R.id.screens_web)
        walk = activity.findViewById(R.id.screens_walk)
        walk.setOnClickListener { onWalk() }
        offerWalk(false)
        allowed = activity.findViewById(R.id.screens_allowed)
        allowed.setOnClickListener { onAllowed() }
        tellMissing(false)
    }

    /** The pages are on their way. */
    fun showOpening() = tell(isTrouble = false) {
        it.say(activity.getString(R.string.app_name), activity.getString(R.string.screen_opening))
    }

    /** There are no pages, and why. */
    fun showTrouble(why: String, again: () -> Unit) = tell(isTrouble = true) {
        it.say(activity.getString(R.string.screen_not_started), why, activity.getString(R.string.screen_still))
        it.next(activity.getString(R.string.screen_again), again)
    }

    /** The pages. */
    fun showPages(view: View) {
        telling = null
        showsTrouble = false
        fill(view)
    }

    /** No pages. */
    fun letPagesGo() {
        web.removeAllViews()
        offerWalk(false)
    }

    /** Whether the page that is shown measures by a walk. */
    fun offerWalk(does: Boolean) {
        val can = activity.packageManager.hasSystemFeature(PackageManager.FEATURE_LOCATION_GPS)
        walk.visibility = if (does && can) View.VISIBLE else View.GONE
    }

    /** Whether the phone may not ring for a keep-off. */
    fun tellMissing(isMissing: Boolean) {
        allowed.visibility = if (isMissing) View.VISIBLE else View.GONE
    }

    /** Light and language as the phone is set now: this screen is not made anew for them. */
    fun fit() {
        root.setBackgroundColor(activity.getColor(R.color.paper))
        activity.window.decorView.setBackgroundColor(activity.getColor(R.color.paper))
        activity.window.statusBarColor = activity.getColor(R.color.turf)
        for ((button, words) in listOf(walk to R.string.screen_walk, allowed to R.string.screen_allowed)) {
            button.setText(words)
            button.setTextColor(activity.getColor(R.color.ink))
            button.setBackgroundResource(R.drawable.quiet)
        }
        telling?.let { tell(showsTrouble, it) }
    }

    private fun tell(isTrouble: Boolean, say: (Told) -> Unit) {
        telling = say
        showsTrouble = isTrouble
        val view = activity.layoutInflater.inflate(R.layout.told, web, false)
        say(Told(activity, view))
        fill(view)
    }

    private fun fill(view: View) {
        web.removeAllViews()
        web.addView(view, ViewGroup.LayoutParams.MATCH_PARENT, ViewGroup.LayoutParams.MATCH_PARENT)
    }
}
