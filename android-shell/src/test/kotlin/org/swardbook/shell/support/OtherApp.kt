package org.swardbook.shell.support

import android.content.ContentProvider
import android.content.ContentValues
import android.database.Cursor
import android.database.MatrixCursor
import android.net.Uri
import android.os.ParcelFileDescriptor
import android.provider.OpenableColumns
import java.io.File
import java.io.FileNotFoundException
import java.io.FileOutputStream
import java.io.IOException
import java.io.OutputStream
import java.nio.file.Files
import kotlin.concurrent.thread
import org.robolectric.Robolectric

/** Another app that hands files over, well or badly; its files are told apart by the last part of the address. */
class OtherApp : ContentProvider() {
    override fun onCreate() = true

    override fun openFile(uri: Uri, mode: String): ParcelFileDescriptor {
        val what = files[uri.lastPathSegment] ?: throw FileNotFoundException("none")
        return what()
    }

    override fun query(uri: Uri, columns: Array<out String>?, where: String?, args: Array<out String>?, order: String?): Cursor? {
        val name = names[uri.lastPathSegment] ?: return null
        return MatrixCursor(arrayOf(OpenableColumns.DISPLAY_NAME)).apply { addRow(arrayOf<Any?>(name())) }
    }

    override fun getType(uri: Uri) = "image/png"
    override fun insert(uri: Uri, values: ContentValues?): Uri? = null
    override fun delete(uri: Uri, where: String?, args: Array<out String>?) = 0
    override fun update(uri: Uri, values: ContentValues?, where: String?, args: Array<out String>?) = 0

    companion object {
        const val AUTHORITY = "org.example.other.files"

        private val files = mutableMapOf<String, () -> ParcelFileDescriptor>()
        private val names = mutableMapOf<String, () -> String?>()

        fun install() {
            files.clear()
            names.clear()
            Robolectric.buildContentProvider(OtherApp::class.java).create(AUTHORITY)
        }

        /** Hands over whatever `opened` gives, under a name. */
        fun gives(id: String, name: () -> String? = { "$id.swlock" }, opened: () -> ParcelFileDescriptor): Uri {
            files[id] = opened
            names[id] = name
            return Uri.parse("content://$AUTHORITY/all/$id")
        }

        /** A file of its own. */
        fun gives(id: String, file: File, name: String? = file.name): Uri = gives(id, { name }) {
            ParcelFileDescriptor.open(file, ParcelFileDescriptor.MODE_READ_ONLY)
        }

        /**
         * A stream that `written` writes, on a thread of the other app. A pipe with a name: Robolectric's
         * own pipes are files that end where the writer has not gone on yet.
         */
        fun streams(id: String, written: (OutputStream) -> Unit): Uri = gives(id) {
            val pipe = File(Files.createTempDirectory("other-app").toFile(), "pipe")
            check(ProcessBuilder("mkfifo", pipe.path).start().waitFor() == 0)
            thread(isDaemon = true) {
                try {
                    FileOutputStream(pipe).use(written)
                } catch (_: IOException) {
                    // Nobody reads any more.
                } finally {
                    pipe.delete()
                }
            }
            ParcelFileDescriptor.open(pipe, ParcelFileDescriptor.MODE_READ_ONLY)
        }
    }
}
