package org.swardbook.shell.file

import android.app.Activity
import android.content.Context
import android.text.format.Formatter
import android.view.ViewGroup
import android.widget.CheckBox
import android.widget.ProgressBar
import android.widget.RadioGroup
import org.swardbook.shell.R
import org.swardbook.shell.part.Told
import org.swardbook.shell.part.code
import uniffi.sward.JoinRequest
import uniffi.sward.Role
import uniffi.sward.SwapProgress

/** What a person sees of a file that came in, in their language. */
internal class OpenFileViews(private val activity: Activity, val words: Context) {
    /** The surface with a bar, while it is shown. */
    private var going: Pair<Told, ProgressBar>? = null

    /** The file is on its way here. */
    fun showCopying(bytes: Long, stop: () -> Unit) {
        val so = if (bytes > 0) words.getString(R.string.file_copying_so_far, size(bytes)) else ""
        withBar(R.string.file_stop, stop).say(words.getString(R.string.file_copying), so)
    }

    /** Something short is done. */
    fun showWaiting() {
        going = null
        Told.show(activity, words).say(words.getString(R.string.file_waiting), "")
    }

    /** A locked file waits for the person's word. */
    fun askToTake(name: String?, bytes: Long, isAgain: Boolean, take: () -> Unit, leave: () -> Unit) {
        going = null
        val what = name ?: words.getString(R.string.file_unnamed)
        Told.show(activity, words)
            .say(
                words.getString(R.string.file_take_title),
                words.getString(R.string.file_take_text, what, size(bytes)),
                if (isAgain) words.getString(R.string.file_take_broken_off) else "",
            )
            .next(words.getString(R.string.file_take), take)
            .other(words.getString(R.string.file_not_now), leave)
            .heedsOnlyPlainTouches()
    }

    /** It is taken in. */
    fun showTaking(how: SwapProgress?, leave: () -> Unit) {
        val told = withBar(R.string.file_leave, leave)
        val line = when (how) {
            null -> words.getString(R.string.file_waiting)
            is SwapProgress.Checking -> words.getString(R.string.file_checking, how.entries.toLong())
            is SwapProgress.Taking -> words.getString(R.string.file_storing, how.entries.toLong(), how.of.toLong())
        }
        told.say(words.getString(R.string.file_taking), line)
        val bar = going?.second ?: return
        bar.isIndeterminate = how !is SwapProgress.Taking
        if (how is SwapProgress.Taking) {
            bar.progress = (how.entries.toDouble() / how.of.toDouble().coerceAtLeast(1.0) * PARTS).toInt()
        }
    }

    /** A request to join waits for the person's word: only with a role, and digits that are the same. */
    fun askToAdmit(request: JoinRequest, admit: (Role) -> Unit, leave: () -> Unit) {
        going = null
        val told = Told.show(activity, words)
        val (name, licence) = request.person
        told.say(
            words.getString(R.string.file_request_title, name),
            if (licence.isBlank()) words.getString(R.string.file_request_text_no_licence)
            else words.getString(R.string.file_request_text, licence),
        )
        told.code(request.checkDigits)
        val asks = activity.layoutInflater.cloneInContext(told.view.context).inflate(R.layout.admit, null)
        told.add(asks)
        val role: RadioGroup = asks.findViewById(R.id.file_role)
        val same: CheckBox = asks.findViewById(R.id.file_same)
        told.next(words.getString(R.string.file_admit)) {
            val chosen = roleOf(role.checkedRadioButtonId)
            when {
                chosen == null -> told.answer(words.getString(R.string.file_choose_role))
                !same.isChecked -> told.answer(words.getString(R.string.file_compare_first))
                else -> admit(chosen)
            }
        }
        told.other(words.getString(R.string.file_not_now), leave).heedsOnlyPlainTouches()
    }

    /** It is over. */
    fun show(outcome: Outcome, then: () -> Unit) {
        going = null
        val told = Told.show(activity, words).say(outcome.title, outcome.text)
        outcome.digits?.let { told.code(it) }
        val next = when (outcome.then) {
            Outcome.Then.CLOSE -> R.string.file_close
            Outcome.Then.SCREENS -> R.string.file_to_records
            Outcome.Then.HAND_OVER -> R.string.file_make_locked
        }
        told.next(words.getString(next), then)
    }

    private fun withBar(button: Int, does: () -> Unit): Told {
        val shown = going ?: made(button, does).also { going = it }
        return shown.first
    }

    private fun made(button: Int, does: () -> Unit): Pair<Told, ProgressBar> {
        val told = Told.show(activity, words)
        val bar = ProgressBar(told.view.context, null, android.R.attr.progressBarStyleHorizontal)
        bar.max = PARTS
        bar.isIndeterminate = true
        bar.contentDescription = words.getString(R.string.file_progress)
        bar.layoutParams = ViewGroup.LayoutParams(
            ViewGroup.LayoutParams.MATCH_PARENT,
            (BAR_DP * activity.resources.displayMetrics.density).toInt(),
        )
        told.add(bar).other(words.getString(button), does)
        return told to bar
    }

    private fun roleOf(button: Int): Role? = when (button) {
        R.id.file_role_applicator -> Role.APPLICATOR
        R.id.file_role_lead -> Role.CREW_LEAD
        R.id.file_role_office -> Role.OFFICE
        else -> null
    }

    private fun size(bytes: Long): String = Formatter.formatShortFileSize(words, bytes)

    /** Another app's window above this one must not lead a finger to a yes. */
    private fun Told.heedsOnlyPlainTouches() {
        view.filterTouchesWhenObscured = true
    }

    private companion object {
        const val PARTS = 1000
        const val BAR_DP = 24
    }
}
