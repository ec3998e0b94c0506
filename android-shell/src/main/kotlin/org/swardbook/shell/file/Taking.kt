package org.swardbook.shell.file

import java.io.File
import java.util.concurrent.ConcurrentHashMap
import org.swardbook.shell.core.Core
import uniffi.sward.SwapProgress
import uniffi.sward.SwardException
import uniffi.sward.Swardbook
import uniffi.sward.TakenFile

/** How far a file is taken in, and how it ended. */
internal sealed class Took {
    /** It goes on; `progress` is none before the core has begun. */
    class Going(val progress: SwapProgress?) : Took()

    /** It is all here. */
    class Done(val taken: TakenFile) : Took()

    /** The sentence says what to do; none where the core could not say one. */
    class Failed(val said: String?) : Took()
}

/**
 * Takes locked files in, each on a thread of its own: turning the phone or leaving the screen stops
 * none. The program may be killed in the middle all the same: what came by then is on disk, and
 * taking the file once more brings the rest.
 */
internal object Taking {
    private const val TELL_MS = 200L

    private val all = ConcurrentHashMap<String, Took>()

    /** How a file stands; none where this start of the program has not begun it. */
    fun of(id: String): Took? = all[id]

    /** Begins, unless it is begun already. */
    fun begin(core: Core, id: String, file: File) {
        val before = all.putIfAbsent(id, Took.Going(null))
        if (before is Took.Failed) all[id] = Took.Going(null) else if (before != null) return
        Thread({ all[id] = ended(core, file, id) }, "taking").start()
    }

    /** Forgets a file that is done with. */
    fun forget(id: String) {
        if (all[id] !is Took.Going) all.remove(id)
    }

    private fun ended(core: Core, file: File, id: String): Took = try {
        core.call { taken(it, file, id) }
    } catch (error: SwardException) {
        Took.Failed(error.message)
    } catch (_: Exception) {
        Took.Failed(null)
    }

    private fun taken(book: Swardbook, file: File, id: String): Took {
        val teller = Thread({ tell(book, id) }, "taking-teller").apply {
            isDaemon = true
            start()
        }
        try {
            return Took.Done(book.takeLockedFile(file.path))
        } finally {
            teller.interrupt()
            teller.join()
        }
    }

    private fun tell(book: Swardbook, id: String) {
        try {
            while (true) {
                all[id] = Took.Going(book.swapProgress())
                Thread.sleep(TELL_MS)
            }
        } catch (_: InterruptedException) {
            // It ended; the other thread says how.
        } catch (_: SwardException) {
            // The other thread meets the same and says it.
        }
    }
}
