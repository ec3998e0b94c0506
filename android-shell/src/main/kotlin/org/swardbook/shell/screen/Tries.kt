package org.swardbook.shell.screen

/** How often the screens were entered lately: again and again is no way on. */
internal class Tries {
    private val at = ArrayDeque<Long>()

    /** Whether there may be one more now. */
    fun mayTry(nowMs: Long): Boolean {
        at.addLast(nowMs)
        while (at.first() < nowMs - WITHIN_MS) at.removeFirst()
        return at.size <= MOST
    }

    /** The person asks for it. */
    fun forget() = at.clear()

    private companion object {
        const val WITHIN_MS = 20_000L
        const val MOST = 4
    }
}
