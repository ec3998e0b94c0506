package org.swardbook.shell.walk

import android.content.Context
import kotlin.math.ceil
import org.swardbook.shell.R

/** How the recording of a walk stands. */
internal sealed class WalkState {
    /** None was begun since the program's start. */
    object None : WalkState()

    /** It goes on. */
    data class Going(
        val fixes: Int = 0,
        val accuracyM: Double? = null,
        val isOff: Boolean = false,
        val isSimulated: Boolean = false,
    ) : WalkState()

    /** The person ended it. */
    object Ended : WalkState()

    /** It holds no more. */
    object Full : WalkState()

    /** The system or the core ended it. */
    object BrokenOff : WalkState()

    /** The location is not allowed. */
    object NotAllowed : WalkState()
}

/** A walk in words. */
internal object WalkWords {
    /** How it stands, in one or two sentences. */
    fun of(context: Context, state: WalkState): String = when (state) {
        WalkState.None -> ""
        is WalkState.Going -> going(context, state)
        WalkState.Ended -> context.getString(R.string.walk_ended)
        WalkState.Full -> context.getString(R.string.walk_full)
        WalkState.BrokenOff -> context.getString(R.string.walk_broken_off)
        WalkState.NotAllowed -> context.getString(R.string.walk_not_allowed)
    }

    private fun going(context: Context, state: WalkState.Going): String = when {
        state.isOff -> context.getString(R.string.walk_off)
        state.fixes == 0 -> context.getString(R.string.walk_waiting)
        else -> count(context, state)
    }

    /** "12 fixes · ± 4 m": the accuracy is rounded up, never to look better. */
    fun count(context: Context, state: WalkState.Going): String {
        val fixes = context.resources.getQuantityString(R.plurals.walk_fixes, state.fixes, state.fixes)
        val accuracy = state.accuracyM
            ?.let { context.getString(R.string.walk_accuracy, ceil(it).toInt()) }
            ?: context.getString(R.string.walk_accuracy_none)
        return "$fixes · $accuracy"
    }
}
