package org.swardbook.shell.file

import android.app.Activity
import android.text.format.Formatter
import android.view.View
import android.widget.Button
import android.widget.CheckBox
import android.widget.ProgressBar
import android.widget.RadioGroup
import android.widget.TextView
import org.swardbook.shell.R
import uniffi.sward.JoinRequest
import uniffi.sward.Role
import uniffi.sward.SwapProgress

/** What a person sees of a file that came in. */
internal class OpenFileViews(private val activity: Activity) {
    init {
        activity.setContentView(R.layout.open_file)
    }

    private val title: TextView = activity.findViewById(R.id.file_title)
    private val text: TextView = activity.findViewById(R.id.file_text)
    private val progress: ProgressBar = activity.findViewById(R.id.file_progress)
    private val digits: TextView = activity.findViewById(R.id.file_digits)
    private val admit: View = activity.findViewById(R.id.file_admit)
    private val role: RadioGroup = activity.findViewById(R.id.file_role)
    private val same: CheckBox = activity.findViewById(R.id.file_same)
    private val wrong: TextView = activity.findViewById(R.id.file_wrong)
    private val next: Button = activity.findViewById(R.id.file_next)
    private val leave: Button = activity.findViewById(R.id.file_leave)

    /** The file is on its way here. */
    fun showCopying(bytes: Long, stop: () -> Unit) {
        only(progress, leave)
        title.setText(R.string.file_copying)
        say(if (bytes > 0) activity.getString(R.string.file_copying_so_far, size(bytes)) else "")
        progress.isIndeterminate = true
        button(leave, R.string.file_stop, stop)
    }

    /** Something short is done. */
    fun showWaiting() {
        only(progress)
        title.setText(R.string.file_waiting)
        say("")
        progress.isIndeterminate = true
    }

    /** A locked file waits for the person's word. */
    fun askToTake(name: String?, bytes: Long, isAgain: Boolean, take: () -> Unit, leave: () -> Unit) {
        only(next, this.leave)
        title.setText(R.string.file_take_title)
        val what = activity.getString(R.string.file_take_text, name ?: activity.getString(R.string.file_unnamed), size(bytes))
        say(if (isAgain) activity.getString(R.string.file_take_broken_off) + "\n\n" + what else what)
        button(next, R.string.file_take, take)
        button(this.leave, R.string.file_not_now, leave)
    }

    /** It is taken in. */
    fun showTaking(how: SwapProgress?, leave: () -> Unit) {
        only(progress, this.leave)
        title.setText(R.string.file_taking)
        progress.isIndeterminate = how !is SwapProgress.Taking
        say(
            when (how) {
                null -> activity.getString(R.string.file_waiting)
                is SwapProgress.Checking -> activity.getString(R.string.file_checking, how.entries.toLong())
                is SwapProgress.Taking -> {
                    progress.max = PARTS
                    progress.progress = (how.entries.toDouble() / how.of.toDouble().coerceAtLeast(1.0) * PARTS).toInt()
                    activity.getString(R.string.file_storing, how.entries.toLong(), how.of.toLong())
                }
            },
        )
        button(this.leave, R.string.file_leave, leave)
    }

    /** A request to join waits for the person's word: only with a role, and digits that are the same. */
    fun askToAdmit(request: JoinRequest, admit: (Role) -> Unit, leave: () -> Unit) {
        only(digits, this.admit, next, this.leave)
        val person = request.person
        title.text = activity.getString(R.string.file_request_title, person.name)
        say(
            if (person.licence.isBlank()) activity.getString(R.string.file_request_text_no_licence)
            else activity.getString(R.string.file_request_text, person.licence),
        )
        digits.text = request.checkDigits
        role.setOnCheckedChangeListener { _, _ -> wrong.visibility = View.GONE }
        same.setOnCheckedChangeListener { _, _ -> wrong.visibility = View.GONE }
        button(next, R.string.file_admit) {
            val chosen = chosenRole()
            when {
                chosen == null -> missing(R.string.file_choose_role)
                !same.isChecked -> missing(R.string.file_compare_first)
                else -> admit(chosen)
            }
        }
        button(this.leave, R.string.file_not_now, leave)
    }

    /** It is over. */
    fun show(told: Told, then: () -> Unit) {
        only(next)
        title.text = told.title
        say(told.text)
        digits.text = told.digits
        if (told.digits != null) digits.visibility = View.VISIBLE
        button(
            next,
            when (told.then) {
                Told.Then.CLOSE -> R.string.file_close
                Told.Then.SCREENS -> R.string.file_to_records
                Told.Then.HAND_OVER -> R.string.file_make_locked
            },
            then,
        )
    }

    private fun chosenRole(): Role? = when (role.checkedRadioButtonId) {
        R.id.file_role_applicator -> Role.APPLICATOR
        R.id.file_role_lead -> Role.CREW_LEAD
        R.id.file_role_office -> Role.OFFICE
        else -> null
    }

    private fun only(vararg shown: View) {
        for (view in listOf(progress, digits, admit, wrong, next, leave)) {
            view.visibility = if (view in shown) View.VISIBLE else View.GONE
        }
    }

    private fun missing(what: Int) {
        wrong.setText(what)
        wrong.visibility = View.VISIBLE
        wrong.requestFocus()
    }

    private fun say(what: String) {
        // The same once more would be read out once more.
        if (text.text.toString() != what) text.text = what
        text.visibility = if (what.isEmpty()) View.GONE else View.VISIBLE
    }

    private fun button(button: Button, words: Int, does: () -> Unit) {
        button.setText(words)
        button.setOnClickListener { does() }
    }

    private fun size(bytes: Long): String = Formatter.formatShortFileSize(activity, bytes)

    private companion object {
        const val PARTS = 1000
    }
}
