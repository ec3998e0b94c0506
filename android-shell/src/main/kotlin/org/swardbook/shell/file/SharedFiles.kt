package org.swardbook.shell.file

import android.content.ContentProvider
import android.content.ContentValues
import android.content.Context
import android.database.Cursor
import android.database.MatrixCursor
import android.net.Uri
import android.os.CancellationSignal
import android.os.ParcelFileDescriptor
import android.provider.OpenableColumns
import java.io.File
import java.io.FileNotFoundException
import java.io.IOException

/**
 * Lets another app read a file that a person handed over to it: one folder of the cache, by names
 * that cannot be guessed, with a grant for each, and never for writing.
 */
internal class SharedFiles : ContentProvider() {
    override fun onCreate() = true

    override fun openFile(uri: Uri, mode: String): ParcelFileDescriptor {
        if (mode != "r") throw SecurityException("only for reading")
        return ParcelFileDescriptor.open(fileAt(uri), ParcelFileDescriptor.MODE_READ_ONLY)
    }

    override fun openFile(uri: Uri, mode: String, signal: CancellationSignal?) = openFile(uri, mode)

    override fun getType(uri: Uri): String? = try {
        typeOf(fileAt(uri).name)
    } catch (_: FileNotFoundException) {
        null
    }

    override fun query(
        uri: Uri,
        projection: Array<out String>?,
        selection: String?,
        selectionArgs: Array<out String>?,
        sortOrder: String?,
    ): Cursor? {
        val file = try {
            fileAt(uri)
        } catch (_: FileNotFoundException) {
            return null
        }
        val known = listOf(OpenableColumns.DISPLAY_NAME, OpenableColumns.SIZE)
        val columns = projection?.filter { it in known } ?: known
        val row = columns.map { if (it == OpenableColumns.SIZE) file.length() else file.name }
        return MatrixCursor(columns.toTypedArray(), 1).apply { addRow(row) }
    }

    override fun insert(uri: Uri, values: ContentValues?): Uri? = throw SecurityException("only for reading")

    override fun delete(uri: Uri, selection: String?, selectionArgs: Array<out String>?): Int =
        throw SecurityException("only for reading")

    override fun update(uri: Uri, values: ContentValues?, selection: String?, args: Array<out String>?): Int =
        throw SecurityException("only for reading")

    /** The file of an address, which is a folder's unguessable name and a file's in it. */
    private fun fileAt(uri: Uri): File {
        val nothing = { FileNotFoundException("nothing is handed over there") }
        val context = context ?: throw nothing()
        val (id, name) = uri.pathSegments.takeIf { it.size == 2 } ?: throw nothing()
        val isThere: Boolean
        val file: File
        try {
            val folder = Waiting(context).handedOut.canonicalFile
            file = File(File(folder, id), name)
            // Whatever the parts hold: no way up, none by a link.
            isThere = file.canonicalFile == file && file.parentFile?.parentFile == folder && file.isFile
        } catch (_: IOException) {
            throw nothing()
        }
        return if (isThere) file else throw nothing()
    }

    companion object {
        /** As the manifest names it. */
        fun authority(context: Context): String = "${context.packageName}.files"

        /** The address of a file that waits to be handed over. */
        fun addressOf(context: Context, id: String, name: String): Uri = Uri.Builder()
            .scheme("content")
            .authority(authority(context))
            .appendPath(id)
            .appendPath(name)
            .build()

        /** The media type of a file that leaves. */
        fun typeOf(name: String): String = FileKind.ofName(name)?.mediaType ?: when (name.substringAfterLast('.')) {
            "csv" -> "text/csv"
            "json" -> "application/json"
            else -> "application/octet-stream"
        }
    }
}
