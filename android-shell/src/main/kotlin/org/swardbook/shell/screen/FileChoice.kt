package org.swardbook.shell.screen

import android.app.Activity
import android.content.ActivityNotFoundException
import android.content.Intent
import android.net.Uri
import android.webkit.ValueCallback
import android.widget.Toast
import org.swardbook.shell.R
import org.swardbook.shell.file.Incoming

/** A page's "choose a file": the system's own chooser, and only what it may hand to a page. */
internal class FileChoice(private val activity: Activity) {
    private var waiting: ValueCallback<Array<Uri>>? = null

    /** Lets the person choose; whoever waited before gets nothing. */
    fun ask(chosen: ValueCallback<Array<Uri>>) {
        answer(null)
        waiting = chosen
        // What endings a page accepts is no media type, and who hands a file over may know none.
        val choose = Intent(Intent.ACTION_OPEN_DOCUMENT)
            .addCategory(Intent.CATEGORY_OPENABLE)
            .setType("*/*")
        try {
            activity.startActivityForResult(choose, REQUEST)
        } catch (_: ActivityNotFoundException) {
            answer(null)
            Toast.makeText(activity, R.string.screen_no_file_chooser, Toast.LENGTH_LONG).show()
        }
    }

    /** Takes the system's answer. */
    fun chosen(resultCode: Int, data: Intent?) {
        if (resultCode != Activity.RESULT_OK) {
            answer(null)
            return
        }
        when (val file = Incoming.chosen(data, activity)) {
            is Incoming.File -> {
                // The page that asked ended with the program; what was typed there is still there.
                if (waiting == null) tell(R.string.screen_choose_again)
                answer(arrayOf(file.uri))
            }
            is Incoming.Refused -> {
                answer(null)
                tell(file.why)
            }
        }
    }

    /** Nobody waits any more. */
    fun drop() = answer(null)

    private fun answer(files: Array<Uri>?) {
        val asked = waiting
        waiting = null
        asked?.onReceiveValue(files)
    }

    private fun tell(what: Int) = Toast.makeText(activity, what, Toast.LENGTH_LONG).show()

    companion object {
        /** The request code of the chooser. */
        const val REQUEST = 41
    }
}
