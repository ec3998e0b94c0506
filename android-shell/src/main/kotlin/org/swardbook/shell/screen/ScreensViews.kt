package org.swardbook.shell.screen

import android.app.Activity
import android.content.pm.PackageManager
import android.view.View
import android.view.ViewGroup
import android.widget.Button
import android.widget.TextView
import org.swardbook.shell.R

/** What stands round the pages: the way to record a walk, and what is said where no page can be. */
internal class ScreensViews(private val activity: Activity) {
    init {
        activity.setContentView(R.layout.screens)
    }

    /** "Try again". */
    val again: Button = activity.findViewById(R.id.screens_again)

    /** "Record a walk with the screen dark". */
    val walk: Button = activity.findViewById(R.id.screens_walk)

    private val web: ViewGroup = activity.findViewById(R.id.screens_web)
    private val instead: View = activity.findViewById(R.id.screens_instead)
    private val title: TextView = activity.findViewById(R.id.screens_title)
    private val text: TextView = activity.findViewById(R.id.screens_text)
    private val still: TextView = activity.findViewById(R.id.screens_still)

    init {
        offerWalk(false)
    }

    /** The pages are on their way. */
    fun showOpening() {
        title.setText(R.string.app_name)
        text.setText(R.string.screen_opening)
        showInstead(isTrouble = false)
    }

    /** There are no pages, and why. */
    fun showTrouble(why: String) {
        title.setText(R.string.screen_not_started)
        text.text = why
        showInstead(isTrouble = true)
    }

    /** Whether "try again" stands there. */
    fun showsTrouble(): Boolean = instead.visibility == View.VISIBLE && again.visibility == View.VISIBLE

    /** The pages. */
    fun showPages(view: View) {
        web.removeAllViews()
        web.addView(view, ViewGroup.LayoutParams.MATCH_PARENT, ViewGroup.LayoutParams.MATCH_PARENT)
        instead.visibility = View.GONE
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

    /** Light or dark and the language, as the phone is set now: this screen is not made anew for them. */
    fun fit() {
        val paper = activity.getColor(R.color.paper)
        val ink = activity.getColor(R.color.ink)
        activity.window.decorView.setBackgroundColor(paper)
        listOf(activity.findViewById<View>(R.id.screens), instead).forEach { it.setBackgroundColor(paper) }
        listOf(title, text, still, walk).forEach { it.setTextColor(ink) }
        again.setTextColor(activity.getColor(R.color.on_turf))
        again.setBackgroundResource(R.drawable.next)
        walk.setBackgroundResource(R.drawable.quiet)
        again.setText(R.string.screen_again)
        walk.setText(R.string.screen_walk)
        still.setText(R.string.screen_still)
        if (showsTrouble()) title.setText(R.string.screen_not_started)
    }

    private fun showInstead(isTrouble: Boolean) {
        instead.visibility = View.VISIBLE
        val shown = if (isTrouble) View.VISIBLE else View.GONE
        still.visibility = shown
        again.visibility = shown
    }
}
