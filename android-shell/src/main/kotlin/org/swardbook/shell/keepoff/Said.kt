package org.swardbook.shell.keepoff

import android.content.Context
import android.text.format.DateUtils
import java.util.Formatter
import org.swardbook.shell.R
import uniffi.sward.KeepOff
import uniffi.sward.KeepOffState
import uniffi.sward.Method
import uniffi.sward.SwardException

/** What is said of a keep-off: a title, one line, and the whole. Words only; what is so, the core says. */
data class Said(val title: String, val line: String, val more: String) {
    /** The line and what follows it. */
    val whole: String get() = if (more.isEmpty()) line else "$line\n$more"

    companion object {
        /** Of one that runs, or did. */
        fun of(context: Context, keepOff: KeepOff): Said {
            val named = if (keepOff.keepsOff) R.string.keep_off else R.string.over_title
            val title = context.getString(named, place(context, keepOff))
            val line = when (val state = keepOff.state) {
                is KeepOffState.Runs -> {
                    val until = moment(context, state.untilUtcMs, keepOff.zone)
                    val how = if (state.thenDry) R.string.until_then_look else R.string.until
                    context.getString(how, until)
                }
                is KeepOffState.WaitsForDry -> context.getString(R.string.waits_for_dry)
                is KeepOffState.RunsUntilFinish -> context.getString(R.string.until_finish)
                is KeepOffState.RunsUntilLabelIsRead -> context.getString(R.string.until_label)
                is KeepOffState.TimeUncertain -> context.getString(R.string.time_uncertain)
                is KeepOffState.Ended, is KeepOffState.Lifted -> context.getString(R.string.over)
            }
            val more = if (keepOff.state is KeepOffState.WaitsForDry) lookAt(context, keepOff.method) else ""
            return Said(title, line, more)
        }

        /** Of one that a person is called for. */
        fun alert(context: Context, keepOff: KeepOff, alert: Alert): Said {
            val place = place(context, keepOff)
            return when (alert) {
                Alert.OVER -> Said(
                    context.getString(R.string.over_title, place),
                    context.getString(R.string.over_line),
                    lookBeforeBack(context, keepOff.method),
                )
                Alert.LOOK -> Said(
                    context.getString(R.string.look_title, place),
                    context.getString(R.string.waits_for_dry),
                    lookBeforeBack(context, keepOff.method),
                )
                Alert.UNCERTAIN -> Said(
                    context.getString(R.string.uncertain_title, place),
                    context.getString(R.string.time_uncertain),
                    context.getString(R.string.uncertain_more),
                )
                Alert.UNREADABLE -> error("said by `unreadable`")
            }
        }

        /** Where the book could not be read. */
        fun unreadable(context: Context, trouble: Throwable) = Said(
            context.getString(R.string.unreadable_title),
            context.getString(R.string.unreadable_line),
            // What else can go wrong has no words for a person.
            (trouble as? SwardException)?.message.orEmpty(),
        )

        /** What to look at before a keep-off may end by "it is dry". */
        fun lookAt(context: Context, method: Method?): String = context.getString(
            when (method) {
                Method.GRANULE -> R.string.look_granule
                Method.FOLIAR_SPRAY -> R.string.look_spray
                Method.DRENCH -> R.string.look_drench
                Method.BAIT -> R.string.look_bait
                null -> R.string.look_unknown
            },
        )

        /** What to look at before anyone comes back, and who has the last word. */
        private fun lookBeforeBack(context: Context, method: Method?) =
            "${lookAt(context, method)} ${context.getString(R.string.label_is_law)}"

        /** The section and its yard. */
        fun place(context: Context, keepOff: KeepOff): String =
            if (keepOff.yard.isEmpty()) keepOff.section
            else context.getString(R.string.section_of_yard, keepOff.section, keepOff.yard)

        /** A moment as read at the yard: with its day, in its zone. */
        private fun moment(context: Context, utcMs: Long, zone: String): String {
            val show = DateUtils.FORMAT_SHOW_TIME or DateUtils.FORMAT_SHOW_DATE or
                DateUtils.FORMAT_SHOW_WEEKDAY or DateUtils.FORMAT_ABBREV_ALL
            val formatter = Formatter(context.resources.configuration.locales[0])
            // Up to the next minute: what is shown by the minute must never be too early.
            val up = (utcMs + MINUTE_MS - 1) / MINUTE_MS * MINUTE_MS
            return DateUtils.formatDateRange(context, formatter, up, up, show, zone.ifEmpty { null }).toString()
        }

        private const val MINUTE_MS = 60_000L
    }
}
