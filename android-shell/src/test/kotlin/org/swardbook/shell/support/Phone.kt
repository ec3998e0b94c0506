package org.swardbook.shell.support

import android.content.Context
import android.os.Looper
import java.io.Closeable
import java.io.File
import java.nio.file.Files
import org.junit.Assert.fail
import org.robolectric.Shadows.shadowOf
import org.swardbook.shell.core.Core
import uniffi.sward.DeviceTold
import uniffi.sward.PersonTold
import uniffi.sward.PracticeClock
import uniffi.sward.Role
import uniffi.sward.Swardbook

/** A phone with the real core in it: its book in a folder of its own, on a clock that stands still. */
class Phone(private val name: String) : Closeable {
    val folder: File = Files.createTempDirectory("phone-$name-").toFile()
    private val clock = PracticeClock(NOON_UTC_MS, 0)

    /** Its book, as the program opens it at a start. */
    fun open(): Swardbook = Swardbook.practise(DeviceTold(folder.path, "America/New_York", 1u, "en"), clock)

    /** The book of this phone, for a phone that no shell runs on. */
    val book: Swardbook by lazy { open() }

    /** Makes this the phone that the shell runs on. */
    fun carry(context: Context): Core = Core.instead(context) { open() }

    fun person() = PersonTold(name, "")

    fun file(name: String): String = File(folder, name).path

    override fun close() {
        folder.deleteRecursively()
    }

    companion object {
        const val NOON_UTC_MS = 1_781_524_800_000L
        private const val WAIT_MS = 20_000L

        /** Runs what the main thread has to do until `isSo`. */
        fun await(what: String, isSo: () -> Boolean) {
            val until = System.nanoTime() + WAIT_MS * 1_000_000
            while (true) {
                shadowOf(Looper.getMainLooper()).idle()
                if (isSo()) return
                if (System.nanoTime() > until) fail("waited in vain: $what")
                Thread.sleep(5)
            }
        }

        /** A crew lead's phone and one that was admitted, with as many yards as asked for on the lead's. */
        fun crewOfTwo(lead: Swardbook, mate: Phone, yards: Int = 0) {
            mate.book.askToJoin(mate.person(), true)
            val request = mate.file("request")
            mate.book.writeJoinRequest(request)
            lead.admit(request, Role.APPLICATOR)
            repeat(yards) { lead.addYard("Yard $it", "$it Meadow Lane", "America/New_York") }
        }
    }
}
