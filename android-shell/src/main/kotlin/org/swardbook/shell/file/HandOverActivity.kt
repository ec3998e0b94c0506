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
import java.io.File
import java.io.IOException
import java.time.LocalDate
import org.swardbook.shell.R
import org.swardbook.shell.core.Core
import org.swardbook.shell.part.Told
import org.swardbook.shell.part.code
import org.swardbook.shell.part.speaking
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
    private var words: Context = this
    private var made: Made? = null
    private var shown: Told? = null
    private var answer: String? = null

    override fun onCreate(state: Bundle?) {
        super.onCreate(state)
        waiting = Waiting(this)
        id = state?.getString(ID)?.let(Waiting::checked) ?: Waiting.newId()
        name = state?.getString(NAME) ?: Waiting.plainName(intent.getStringExtra(NAME)) ?: defaultName()
        val before = state?.getString(TEXT)?.let { Made(state.getInt(TITLE), it, state.getString(DIGITS)) }
        made = before?.takeIf { file().isFile }
        speaking {
            words = it
            made?.let(::show) ?: make()
        }
    }

    override fun onSaveInstanceState(state: Bundle) {
        super.onSaveInstanceState(state)
        state.putString(ID, id)
        state.putString(NAME, name)
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
        Told.show(this, words).say(words.getString(R.string.hand_making), "").other(back()) { finish() }
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
                val lines = mutableListOf(words.resources.getQuantityString(R.plurals.hand_locked_text, count, count, name))
                if (locked.leftOut.isNotEmpty()) {
                    lines += words.getString(R.string.hand_left_out, locked.leftOut.joinToString())
                }
                Made(R.string.hand_locked, lines.joinToString("\n\n"), null)
            }
            FileKind.REQUEST -> {
                val digits = core.call { it.writeJoinRequest(file.path) }
                Made(R.string.hand_request, words.getString(R.string.hand_request_text, name), digits)
            }
            null -> {
                val url = intent.getStringExtra(URL) ?: throw IOException("no page's file")
                val address = Address(Uri.parse(url).port)
                Fetching(address, Entrance.carried(address)).fetch(url, file)
                val size = Formatter.formatShortFileSize(this, file.length())
                Made(R.string.hand_file, words.getString(R.string.hand_file_text, name, size), null)
            }
        }
    }

    private fun show(ready: Made) {
        made = ready
        val told = Told.show(this, words).say(words.getString(ready.title), ready.text)
        ready.digits?.let { told.code(it) }
        told.next(words.getString(R.string.hand_share)) { share() }
        told.other(words.getString(R.string.hand_save)) { choosePlace() }
        told.other(back()) { finish() }
        answer?.let(told::answer)
        shown = told
    }

    private fun answer(what: Int) {
        val text = words.getString(what)
        answer = text
        shown?.answer(text)
    }

    private fun showTrouble(error: Throwable) {
        val said = (error as? SwardException)?.message?.takeIf { it.isNotBlank() }
        Told.show(this, words)
            .say(words.getString(R.string.hand_not_made), said ?: words.getString(R.string.hand_unsaid))
            .next(words.getString(R.string.screen_again)) { make() }
            .other(back()) { finish() }
    }

    private fun back() = words.getString(R.string.screen_back)

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
            answer(R.string.hand_nobody)
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
            answer(R.string.screen_no_file_chooser)
        }
    }

    private fun save(place: Uri) {
        val core = Core.of(this)
        val file = file()
        Thread({
            val isSaved = place.scheme == ContentResolver.SCHEME_CONTENT && runCatching { copy(file, place) }.isSuccess
            // Half a file looks like a whole one in a list.
            if (!isSaved) runCatching { DocumentsContract.deleteDocument(contentResolver, place) }
            core.onMain { if (!isDestroyed) answer(if (isSaved) R.string.hand_saved else R.string.hand_not_saved) }
        }, "saving").start()
    }

    @Throws(IOException::class)
    private fun copy(file: File, place: Uri) {
        val out = contentResolver.openOutputStream(place, "wt") ?: throw IOException("the place opens for nobody")
        out.use { file.inputStream().use { stream -> stream.copyTo(it) } }
    }

    private fun defaultName() = "swardbook-${LocalDate.now()}.${FileKind.LOCKED.ending}"

    companion object {
        private const val PLACE = 43
        private const val ID = "id"
        private const val NAME = "name"
        private const val URL = "url"
        private const val TITLE = "title"
        private const val TEXT = "text"
        private const val DIGITS = "digits"

        /** What a page of the screens gave at an address of theirs, under a name. */
        fun ofPage(context: Context, url: String, name: String): Intent =
            Intent(context, HandOverActivity::class.java).putExtra(URL, url).putExtra(NAME, name)

        /** Every record, locked for the crew. */
        fun ofRecords(context: Context): Intent = Intent(context, HandOverActivity::class.java)
    }
}
