package org.swardbook.shell.file

import android.content.Context
import android.os.Bundle
import org.swardbook.shell.R
import uniffi.sward.TakenFile

/** How a file that came in ended, in words, and what the person may do next. */
internal class Outcome(val title: String, val text: String, val digits: String?, val then: Then) {
    /** The one next step. */
    enum class Then { CLOSE, SCREENS, HAND_OVER }

    /** Keeps it for a screen that is made anew. */
    fun save(state: Bundle) {
        state.putStringArray(OUTCOME, arrayOf(title, text, digits, then.name))
    }

    companion object {
        private const val OUTCOME = "outcome"

        /** What was kept. */
        fun saved(state: Bundle): Outcome? {
            val (title, text, digits, then) = state.getStringArray(OUTCOME)?.takeIf { it.size == 4 } ?: return null
            return Outcome(title ?: return null, text ?: return null, digits, Then.valueOf(then ?: return null))
        }

        /** What a locked file brought. */
        fun ofTaken(context: Context, taken: TakenFile): Outcome {
            val new = taken.newEntries.toLong().coerceAtMost(Int.MAX_VALUE.toLong()).toInt()
            val from = context.resources.getQuantityString(
                R.plurals.file_taken_from, new, new, taken.madeBy, taken.knownEntries.toLong(),
            )
            val lines = mutableListOf(from)
            if (!taken.makerIsOfTheCrew) lines += context.getString(R.string.file_from_outsider)
            if (taken.clockNoted) lines += context.getString(R.string.file_clock)
            if (taken.refused.isNotEmpty()) {
                lines += context.getString(R.string.file_refused, taken.refused.joinToString("\n"))
            }
            // Last: the digits stand right below.
            if (taken.joined != null) lines += context.getString(R.string.file_joined)
            return Outcome(context.getString(R.string.file_taken), lines.joinToString("\n\n"), taken.joined, Then.SCREENS)
        }
    }
}
