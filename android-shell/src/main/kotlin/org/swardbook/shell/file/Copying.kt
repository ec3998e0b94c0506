package org.swardbook.shell.file

import android.content.ContentResolver
import android.content.res.AssetFileDescriptor
import android.net.Uri
import android.os.CancellationSignal
import android.provider.OpenableColumns
import java.io.Closeable
import java.io.File
import java.io.FileOutputStream
import java.io.IOException
import java.io.InputStream

/** How copying a file in ended. */
internal sealed class Copied {
    /** It is here, whole. */
    class Whole(val kind: FileKind?, val bytes: Long, val name: String?) : Copied()

    /** It holds nothing. */
    object Empty : Copied()

    /** It is longer than a season's records, or has no end. */
    object TooLong : Copied()

    /** Who holds it does not let it be read. */
    object NotReadable : Copied()

    /** There is no room here. */
    object NoRoom : Copied()

    /** The person, or the time, stopped it. */
    object Stopped : Copied()
}

/**
 * Copies what another app hands over into a file of ours, bounded, and leaves no part of it where
 * that fails. Not for the main thread: the other app may keep us waiting as long as it likes.
 */
internal class Copying(
    private val resolver: ContentResolver,
    private val uri: Uri,
    private val into: File,
    private val bytesMost: Long = BYTES_MOST,
    private val roomLeastBytes: Long = ROOM_LEAST_BYTES,
) {
    private val signal = CancellationSignal()

    @Volatile private var open: Closeable? = null

    @Volatile private var stopped = false

    /** How much is here so far. */
    @Volatile
    var bytesSoFar = 0L
        private set

    /** Copies. */
    fun run(): Copied {
        val copied = copied()
        if (copied !is Copied.Whole) into.delete()
        return copied
    }

    /** Ends it; whoever waits for the other app is let go as far as the system can. */
    fun stop() {
        stopped = true
        signal.cancel()
        try {
            open?.close()
        } catch (_: IOException) {
            // It is not needed any more either way.
        }
    }

    private fun copied(): Copied {
        val name = theirs { nameTold() }.getOrNull()
        val source = theirs { resolver.openAssetFileDescriptor(uri, "r", signal) }.getOrNull()
            ?: return if (stopped) Copied.Stopped else Copied.NotReadable
        open = source
        val outcome = source.use { poured(it) }
        open = null
        if (stopped) return Copied.Stopped
        return outcome ?: try {
            if (bytesSoFar == 0L) Copied.Empty else Copied.Whole(FileKind.of(into), bytesSoFar, name)
        } catch (_: IOException) {
            Copied.NoRoom
        }
    }

    /** What went wrong; none when all of it is here. */
    private fun poured(source: AssetFileDescriptor): Copied? {
        val stream = theirs { source.createInputStream() }.getOrNull() ?: return Copied.NotReadable
        val out = try {
            FileOutputStream(into)
        } catch (_: IOException) {
            return Copied.NoRoom
        }
        return out.use {
            val wrong = poured(stream, out)
            if (wrong == null) synced(out) else wrong
        }
    }

    private fun poured(stream: InputStream, out: FileOutputStream): Copied? {
        val buffer = ByteArray(BUFFER_BYTES)
        while (!stopped) {
            val read = theirs { stream.read(buffer) }.getOrElse { return Copied.NotReadable }
            if (read < 0) return null
            if (bytesSoFar + read > bytesMost) return Copied.TooLong
            // The book needs room to go on; a file from outside never takes the last of it.
            if (into.usableSpace < roomLeastBytes) return Copied.NoRoom
            try {
                out.write(buffer, 0, read)
            } catch (_: IOException) {
                return Copied.NoRoom
            }
            bytesSoFar += read
        }
        return Copied.Stopped
    }

    private fun synced(out: FileOutputStream): Copied? = try {
        out.fd.sync()
        null
    } catch (_: IOException) {
        Copied.NoRoom
    }

    private fun nameTold(): String? {
        val columns = arrayOf(OpenableColumns.DISPLAY_NAME)
        return resolver.query(uri, columns, null, null, null, signal)?.use { row ->
            if (row.moveToFirst() && row.columnCount > 0) Waiting.plainName(row.getString(0)) else null
        }
    }

    /** Another app's code answers here, and may answer with any exception. */
    private fun <T> theirs(work: () -> T): Result<T> = runCatching(work).onFailure { if (it is Error) throw it }

    companion object {
        /** As the core's own screens take it: a locked file of a whole season fits. */
        const val BYTES_MOST = 64L * 1024 * 1024

        /** Room that stays free for the book. */
        const val ROOM_LEAST_BYTES = 32L * 1024 * 1024

        private const val BUFFER_BYTES = 64 * 1024
    }
}
