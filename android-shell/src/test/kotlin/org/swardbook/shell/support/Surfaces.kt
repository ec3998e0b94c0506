package org.swardbook.shell.support

import android.app.Activity
import android.os.Looper
import android.view.View
import android.view.ViewGroup
import android.widget.Button
import android.widget.TextView
import java.util.concurrent.CountDownLatch
import java.util.concurrent.TimeUnit
import org.junit.Assert.assertTrue
import org.robolectric.Shadows.shadowOf
import org.swardbook.shell.core.Core

/** Waits until what was begun in the background, and what came of it on the main thread, is done. */
fun Core.settle() {
    // What runs in the background may ask for more of both.
    repeat(3) {
        val done = CountDownLatch(2)
        ring { done.countDown() }
        work { done.countDown() }
        check(done.await(60, TimeUnit.SECONDS)) { "the core is still at work" }
        shadowOf(Looper.getMainLooper()).idle()
    }
}

/** Every view of an activity. */
fun Activity.views(): List<View> = below(findViewById(android.R.id.content))

private fun below(view: View): List<View> =
    listOf(view) + if (view is ViewGroup) (0 until view.childCount).flatMap { below(view.getChildAt(it)) } else emptyList()

/** Everything that stands there to be read. */
fun Activity.text(): String =
    views().filterIsInstance<TextView>().filter { it.visibility == View.VISIBLE }.joinToString("\n") { it.text }

/** Taps the button of that text. */
fun Activity.tap(text: String) {
    val buttons = views().filterIsInstance<Button>()
    val button = buttons.find { it.text.toString() == text }
    check(button != null) { "no button \"$text\" among ${buttons.map { it.text }}" }
    button.performClick()
}

/**
 * What every surface owes everyone: whatever can be tapped has a name and is at least 48 dp high and
 * wide (WCAG 2.2, 2.5.5 asks for 44; the platform's own guidance for 48), and no text is cut off.
 */
fun Activity.assertUsable() {
    val least = 48 * resources.displayMetrics.density
    for (view in views().filter { it.isClickable && it.visibility == View.VISIBLE }) {
        val name = (view as? TextView)?.text?.takeIf { it.isNotEmpty() } ?: view.contentDescription
        assertTrue("something to tap has no name: $view", !name.isNullOrEmpty())
        assertTrue("$name is ${view.height} high", view.height >= least)
        assertTrue("$name is ${view.width} wide", view.width >= least)
    }
    for (view in views().filterIsInstance<TextView>().filter { it.visibility == View.VISIBLE && it.text.isNotEmpty() }) {
        val needed = view.layout.height + view.compoundPaddingTop + view.compoundPaddingBottom
        assertTrue("\"${view.text}\" is cut off: ${view.height} of $needed", view.height >= needed)
        assertTrue("\"${view.text}\" ends in dots", (0 until view.lineCount).all { view.layout.getEllipsisCount(it) == 0 })
    }
}
