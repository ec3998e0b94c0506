package org.swardbook.shell.file

import android.content.Context
import java.io.File
import java.util.UUID

/**
 * The two folders of the cache in which files wait: what came from other apps until a person takes it
 * in, and what was made for other apps until they fetched it. Nothing here is a record.
 */
internal class Waiting(context: Context) {
    private val incoming = File(context.cacheDir, INCOMING)

    /** The one folder that other apps are let read from, file by file. */
    val handedOut = File(context.cacheDir, HANDED_OUT)

    /** A place for a file that comes in; the file is not there yet. */
    fun placeForIncoming(id: String): File = File(made(incoming), checked(id))

    /** A place for a file that goes out, under the name that others see. */
    fun placeForHandedOut(id: String, name: String): File = File(made(File(handedOut, checked(id))), name)

    /** Lets go of what is older than a day. */
    fun sweep(nowMs: Long = System.currentTimeMillis()) {
        for (folder in listOf(incoming, handedOut)) {
            folder.listFiles()?.filter { nowMs - it.lastModified() > KEPT_MS }?.forEach { it.deleteRecursively() }
        }
    }

    private fun made(folder: File): File = folder.apply { mkdirs() }

    companion object {
        private const val INCOMING = "incoming"
        private const val HANDED_OUT = "handed-out"
        private const val KEPT_MS = 24L * 60 * 60 * 1000
        private const val NAME_CHARS_MOST = 80

        /** A new name that nobody can guess. */
        fun newId(): String = UUID.randomUUID().toString()

        /** An id that went through a saved state or an intent. */
        fun checked(id: String): String = UUID.fromString(id).toString()

        /**
         * A name as others told it, fit to be shown and to be a file's: its last part, without what
         * cannot be seen or turns the text round.
         */
        fun plainName(told: String?): String? = told
            ?.take(NAME_CHARS_MOST * 20)
            ?.substringAfterLast('/')
            ?.substringAfterLast('\\')
            ?.filterNot { it.isISOControl() || it.category in UNSEEN || it in "\"<>|:*?" }
            ?.trim(' ', '.')
            ?.let { if (it.length > NAME_CHARS_MOST) it.takeLast(NAME_CHARS_MOST) else it }
            ?.ifEmpty { null }

        private val UNSEEN = setOf(
            CharCategory.FORMAT, CharCategory.CONTROL, CharCategory.SURROGATE, CharCategory.PRIVATE_USE,
            CharCategory.LINE_SEPARATOR, CharCategory.PARAGRAPH_SEPARATOR, CharCategory.UNASSIGNED,
        )
    }
}
