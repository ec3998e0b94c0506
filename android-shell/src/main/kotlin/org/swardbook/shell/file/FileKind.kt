package org.swardbook.shell.file

import java.io.File
import java.io.IOException

/** What a file is, by how it begins: names and media types are whatever their sender likes. */
internal enum class FileKind(val ending: String, val mediaType: String, private val beginning: String) {
    /** Records for the crew's phones. */
    LOCKED("swlock", "application/vnd.swardbook.locked", "swardbook locked file "),

    /** A phone asks to join. */
    REQUEST("swreq", "application/vnd.swardbook.request", "swardbook join request ");

    companion object {
        private const val BEGINNING_BYTES = 48

        /** The kind of a file; none for something else. */
        @Throws(IOException::class)
        fun of(file: File): FileKind? {
            val bytes = ByteArray(BEGINNING_BYTES)
            var read = 0
            file.inputStream().use { stream ->
                while (read < bytes.size) {
                    val more = stream.read(bytes, read, bytes.size - read)
                    if (more < 0) break
                    read += more
                }
            }
            val begins = String(bytes, 0, read, Charsets.ISO_8859_1)
            return values().firstOrNull { begins.startsWith(it.beginning) }
        }

        /** The kind that a name of ours has. */
        fun ofName(name: String): FileKind? = values().firstOrNull { name.endsWith(".${it.ending}") }
    }
}
