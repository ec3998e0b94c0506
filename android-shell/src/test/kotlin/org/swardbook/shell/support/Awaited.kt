package org.swardbook.shell.support

import android.os.Looper
import java.time.Duration
import org.junit.Assert.fail
import org.robolectric.Shadows.shadowOf

private const val WAIT_MS = 60_000L

/**
 * Runs what the main thread has to do until `isSo`: threads of the shell's own are at work meanwhile. The
 * phone's clock goes on by `stepMs` each time.
 */
fun await(what: String, stepMs: Long = 20, isSo: () -> Boolean) {
    val until = System.nanoTime() + WAIT_MS * 1_000_000
    while (true) {
        // The phone's own clock stands still unless it is moved.
        shadowOf(Looper.getMainLooper()).idleFor(Duration.ofMillis(stepMs))
        if (isSo()) return
        if (System.nanoTime() > until) fail("waited in vain: $what")
        Thread.sleep(5)
    }
}
