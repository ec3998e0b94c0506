package org.swardbook.shell.screen

import java.io.File
import java.io.IOException
import java.io.InputStream
import java.net.HttpURLConnection
import java.net.URL

/**
 * Fetches a file that a screen made, from the core itself. Not for the main thread.
 *
 * Only an address of ours is asked, with the pass that the WebView carries, and only what the core
 * calls a file is kept: a page is none.
 */
internal class Fetching(
    private val address: Address,
    private val pass: String?,
    private val bytesMost: Long = BYTES_MOST,
) {
    /** Writes what is served at `url` to `into`; nothing is left there where it fails. */
    @Throws(IOException::class)
    fun fetch(url: String, into: File) {
        if (!address.isOurs(url)) throw IOException("not an address of the screens")
        val asked = URL(url).openConnection() as HttpURLConnection
        try {
            asked.connectTimeout = WAIT_MS
            asked.readTimeout = WAIT_MS
            asked.instanceFollowRedirects = false
            if (pass != null) asked.setRequestProperty("Cookie", pass)
            val isFile = asked.responseCode == HttpURLConnection.HTTP_OK &&
                asked.getHeaderField("Content-Disposition")?.startsWith("attachment") == true
            if (!isFile) throw IOException("the screens serve no file there")
            val bytes = asked.inputStream.use { pour(it, into) }
            val told = asked.contentLengthLong
            if (told >= 0 && told != bytes) throw IOException("the file was cut off")
        } catch (error: IOException) {
            into.delete()
            throw error
        } finally {
            asked.disconnect()
        }
    }

    private fun pour(stream: InputStream, into: File): Long {
        var bytes = 0L
        into.outputStream().use { out ->
            val buffer = ByteArray(BUFFER_BYTES)
            while (true) {
                val read = stream.read(buffer)
                if (read < 0) return bytes
                bytes += read
                if (bytes > bytesMost) throw IOException("longer than any file of the screens")
                out.write(buffer, 0, read)
            }
        }
    }

    private companion object {
        const val WAIT_MS = 60_000
        const val BUFFER_BYTES = 64 * 1024

        /** A backup of many seasons fits. */
        const val BYTES_MOST = 1024L * 1024 * 1024
    }
}
