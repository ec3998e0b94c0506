package org.swardbook.shell.file

import android.app.Activity
import android.content.ActivityNotFoundException
import android.content.ClipData
import android.content.ContentResolver
import android.content.Context
import android.content.Intent
import android.net.Uri
import android.os.Bundle
import android.provider.DocumentsContract
import android.text.format.Formatter
import android.view.View
import android.widget.TextView
import android.widget.Toast
import java.io.File
import java.io.IOException
import org.swardbook.shell.R
import org.swardbook.shell.core.Core
import org.swardbook.shell.screen.Address
import org.swardbook.shell.screen.Entrance
import org.swardbook.shell.screen.Fetching
import uniffi.sward.SwardException

/**
 * A file that leaves this phone: made first, then handed to another app or saved where the person
 * says. Not for other apps to start.
 */
class HandOverActivity : Activity() {
    /** What there is to hand over, once it is made; all that has to outlive this screen. */
    private class Made(val title: Int, val text: String, val digits: String?)

    private lateinit var id: String
    private lateinit var name: String
    private lateinit var waiting: Waiting
    private var made: Made? = null

    override fun onCreate(state: Bundle?) {
        super.onCreate(state)
        setContentView(R.layout.hand_over)
        waiting = Waiting(this)
        id = state?.getString(ID) ?: Waiting.newId()
        name = Waiting.plainName(intent.getStringExtra(NAME)) ?: DEFAULT_NAME
        on(R.id.hand_share) { share() }
        on(R.id.hand_save) { choosePlace() }
        on(R.id.hand_again) { make() }
        on(R.id.hand_leave) { finish() }
        val before = state?.getString(TEXT)?.let { Made(state.getInt(TITLE), it, state.getString(DIGITS)) }
        if (before != null && file().isFile) show(before) else make()
    }

    override fun onSaveInstanceState(state: Bundle) {
        super.onSaveInstanceState(state)
        state.putString(ID, id)
        made?.let {
            state.putInt(TITLE, it.title)
            state.putString(TEXT, it.text)
            state.putString(DIGITS, it.digits)
        }
    }

    @Deprecated("There is no other on the framework's own classes")
    override fun onActivityResult(requestCode: Int, resultCode: Int, data: Intent?) {
        val place = data?.data
        if (requestCode != PLACE || resultCode != RESULT_OK || place == null) return
        save(place)
    }

    private fun file(): File = waiting.placeForHandedOut(id, name)

    private fun make() {
        made = null
        say(getString(R.string.hand_making), "", null)
        shown(R.id.hand_text, false)
        shown(R.id.hand_share, false)
        shown(R.id.hand_save, false)
        shown(R.id.hand_again, false)
        val core = Core.of(this)
        // On a thread of its own: the core's one worker may wait for a long file.
        Thread({
            val outcome = runCatching {
                waiting.sweep()
                file().delete()
                make(core)
            }
            core.onMain { if (!isDestroyed) outcome.fold(::show, ::showTrouble) }
        }, "making").start()
    }

    private fun make(core: Core): Made {
        val file = file()
        return when (FileKind.ofName(name)) {
            FileKind.LOCKED -> {
                val locked = core.call { it.makeLockedFile(file.path) }
                val count = locked.entries.toLong().coerceAtMost(Int.MAX_VALUE.toLong()).toInt()
                val lines = mutableListOf(resources.getQuantityString(R.plurals.hand_locked_text, count, count, name))
                if (locked.leftOut.isNotEmpty()) {
                    lines += getString(R.string.hand_left_out, locked.leftOut.joinToString())
                }
                Made(R.string.hand_locked, lines.joinToString("\n\n"), null)
            }
            FileKind.REQUEST -> {
                val digits = core.call { it.writeJoinRequest(file.path) }
                Made(R.string.hand_request, getString(R.string.hand_request_text, name), digits)
            }
            null -> {
                val url = intent.getStringExtra(URL) ?: throw IOException("no page's file")
                val address = Address(Uri.parse(url).port)
                Fetching(address, Entrance.carried(address)).fetch(url, file)
                val size = Formatter.formatShortFileSize(this, file.length())
                Made(R.string.hand_file, getString(R.string.hand_file_text, name, size), null)
            }
        }
    }

    private fun show(ready: Made) {
        made = ready
        say(getString(ready.title), ready.text, ready.digits)
        shown(R.id.hand_text, true)
        shown(R.id.hand_share, true)
        shown(R.id.hand_save, true)
        shown(R.id.hand_again, false)
    }

    private fun showTrouble(error: Throwable) {
        val said = (error as? SwardException)?.message?.takeIf { it.isNotBlank() }
        say(getString(R.string.hand_not_made), said ?: getString(R.string.hand_unsaid), null)
        shown(R.id.hand_text, true)
        shown(R.id.hand_again, true)
    }

    private fun share() {
        val address = SharedFiles.addressOf(this, id, name)
        val send = Intent(Intent.ACTION_SEND)
            .setType(SharedFiles.typeOf(name))
            .putExtra(Intent.EXTRA_STREAM, address)
            .addFlags(Intent.FLAG_GRANT_READ_URI_PERMISSION)
        // The grant goes by this, also through the chooser.
        send.clipData = ClipData.newRawUri(name, address)
        try {
            startActivity(Intent.createChooser(send, null).addFlags(Intent.FLAG_GRANT_READ_URI_PERMISSION))
        } catch (_: ActivityNotFoundException) {
            tell(R.string.hand_nobody)
        }
    }

    private fun choosePlace() {
        val create = Intent(Intent.ACTION_CREATE_DOCUMENT)
            .addCategory(Intent.CATEGORY_OPENABLE)
            .setType(SharedFiles.typeOf(name))
            .putExtra(Intent.EXTRA_TITLE, name)
        try {
            startActivityForResult(create, PLACE)
        } catch (_: ActivityNotFoundException) {
            tell(R.string.screen_no_file_chooser)
        }
    }

    private fun save(place: Uri) {
        val core = Core.of(this)
        val file = file()
        Thread({
            val isSaved = place.scheme == ContentResolver.SCHEME_CONTENT && runCatching { copy(file, place) }.isSuccess
            // Half a file looks like a whole one in a list.
            if (!isSaved) runCatching { DocumentsContract.deleteDocument(contentResolver, place) }
            core.onMain { if (!isDestroyed) tell(if (isSaved) R.string.hand_saved else R.string.hand_not_saved) }
        }, "saving").start()
    }

    @Throws(IOException::class)
    private fun copy(file: File, place: Uri) {
        val out = contentResolver.openOutputStream(place, "wt") ?: throw IOException("the place opens for nobody")
        out.use { file.inputStream().use { stream -> stream.copyTo(it) } }
    }

    private fun say(title: String, text: String, digits: String?) {
        findViewById<TextView>(R.id.hand_title).text = title
        findViewById<TextView>(R.id.hand_text).text = text
        findViewById<TextView>(R.id.hand_digits).text = digits
        shown(R.id.hand_digits, digits != null)
    }

    private fun shown(view: Int, isShown: Boolean) {
        findViewById<View>(view).visibility = if (isShown) View.VISIBLE else View.GONE
    }

    private fun on(button: Int, does: () -> Unit) = findViewById<View>(button).setOnClickListener { does() }

    private fun tell(what: Int) = Toast.makeText(this, what, Toast.LENGTH_LONG).show()

    companion object {
        private const val PLACE = 43
        private const val ID = "id"
        private const val NAME = "name"
        private const val URL = "url"
        private const val TITLE = "title"
        private const val TEXT = "text"
        private const val DIGITS = "digits"
        private const val DEFAULT_NAME = "swardbook.swlock"

        /** What a page of the screens gave at an address of theirs, under a name. */
        fun ofPage(context: Context, url: String, name: String): Intent =
            Intent(context, HandOverActivity::class.java).putExtra(URL, url).putExtra(NAME, name)

        /** Every record, locked for the crew. */
        fun ofRecords(context: Context): Intent = Intent(context, HandOverActivity::class.java)
    }
}
