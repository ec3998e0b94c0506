package org.swardbook.shell.support

import android.os.Looper
import java.time.Duration
import org.junit.Assert.fail
import org.robolectric.Shadows.shadowOf

private const val WAIT_MS = 20_000L
private val STEP = Duration.ofMillis(20)

/** Runs what the main thread has to do until `isSo`: threads of the shell's own are at work meanwhile. */
fun await(what: String, isSo: () -> Boolean) {
    val until = System.nanoTime() + WAIT_MS * 1_000_000
    while (true) {
        // The phone's own clock stands still unless it is moved.
        shadowOf(Looper.getMainLooper()).idleFor(STEP)
        if (isSo()) return
        if (System.nanoTime() > until) fail("waited in vain: $what")
        Thread.sleep(5)
    }
}
