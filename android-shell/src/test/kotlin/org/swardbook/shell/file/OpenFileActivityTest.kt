package org.swardbook.shell.file

import android.content.Intent
import android.net.Uri
import android.os.Bundle
import android.widget.Button
import android.widget.CheckBox
import android.widget.RadioButton
import java.io.File
import java.util.concurrent.CountDownLatch
import java.util.concurrent.TimeUnit
import kotlin.concurrent.thread
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNull
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.android.controller.ActivityController
import org.swardbook.practice.Phone
import org.swardbook.shell.R
import org.swardbook.shell.core.Core
import org.swardbook.shell.support.OtherApp
import org.swardbook.shell.support.await
import org.swardbook.shell.support.started
import org.swardbook.shell.support.tap
import org.swardbook.shell.support.text
import org.swardbook.shell.support.views
import uniffi.sward.PersonTold
import uniffi.sward.Role

/** Locked files and requests from other apps, taken in by the real core: what is asked, what is told, what is there after. */
@RunWith(RobolectricTestRunner::class)
class OpenFileActivityTest {
    private val app = RuntimeEnvironment.getApplication()
    private val lead = Phone().found()
    private val others = mutableListOf<Phone>()
    private val incoming = File(app.cacheDir, "incoming")

    @Before
    fun install() = OtherApp.install()

    @After
    fun end() = (others + lead).forEach(Phone::close)

    /** Makes a phone the one that the shell runs on. */
    private fun on(phone: Phone): Core = Core.instead(app) { phone.book }

    private fun other(phone: Phone) = phone.also(others::add)

    private fun opened(uri: Uri?, state: Bundle? = null): ActivityController<OpenFileActivity> =
        Robolectric.buildActivity(OpenFileActivity::class.java, Intent(Intent.ACTION_VIEW).setData(uri)).create(state).start().resume().visible()

    private fun ActivityController<OpenFileActivity>.says(what: Int) = says(app.getString(what))

    private fun ActivityController<OpenFileActivity>.says(what: String) = await("\"$what\"") { get().text().contains(what) }

    private fun ActivityController<OpenFileActivity>.buttons() =
        get().views().filterIsInstance<Button>().filter { it !is RadioButton && it !is CheckBox }.map { "${it.text}" }

    private fun ActivityController<OpenFileActivity>.killed(): Bundle =
        Bundle().also { pause().saveInstanceState(it).stop().destroy() }

    private fun lockedBy(phone: Phone, name: String = "records.swlock"): Uri {
        val file = phone.file(name)
        phone.book.makeLockedFile(file)
        return OtherApp.gives(name, File(file))
    }

    @Test
    fun `a locked file is taken in when the person says so, and only then`() {
        val mate = other(lead.joined())
        repeat(5) { lead.book.addYard("Yard $it", "", "America/New_York") }
        on(mate)
        val screen = opened(lockedBy(lead))
        screen.says(R.string.file_take_title)
        assertTrue(screen.get().text().contains("records.swlock"))
        assertTrue("another app's window could lead a finger", screen.get().views().any { it.filterTouchesWhenObscured })
        assertEquals(0, mate.book.yards().size)
        screen.get().tap(app.getString(R.string.file_take))
        screen.says(R.string.file_taken)
        assertEquals(5, mate.book.yards().size)
        assertEquals(lead.book.crew().digest, mate.book.crew().digest)
        assertTrue(screen.get().text(), screen.get().text().contains("From Núria Sample: 5 new entries."))
        screen.get().tap(app.getString(R.string.file_to_records))
        assertEquals("org.swardbook.shell.screen.ScreensActivity", screen.get().started()!!.component!!.className)
        assertTrue(screen.get().isFinishing)
        screen.pause().stop().destroy()
        assertEquals(emptyList<String>(), incoming.list()!!.toList())
    }

    @Test
    fun `not now takes nothing in and keeps no copy`() {
        val mate = other(lead.joined())
        lead.book.addYard("Yard", "", "America/New_York")
        on(mate)
        val screen = opened(lockedBy(lead))
        screen.says(R.string.file_take_title)
        screen.get().tap(app.getString(R.string.file_not_now))
        screen.pause().stop().destroy()
        assertEquals(0, mate.book.yards().size)
        assertEquals(emptyList<String>(), incoming.list()!!.toList())
    }

    @Test
    fun `the file that makes this phone one of the crew shows the crew's digits`() {
        val mate = other(Phone(lead.clock))
        mate.book.askToJoin(PersonTold("Tomás Sample", ""), true)
        mate.book.writeJoinRequest(mate.file("ask"))
        lead.book.admit(mate.file("ask"), Role.APPLICATOR)
        on(mate)
        val screen = opened(lockedBy(lead))
        screen.says(R.string.file_take_title)
        screen.get().tap(app.getString(R.string.file_take))
        screen.says(R.string.file_joined)
        assertTrue(screen.get().text().contains(lead.book.crew().checkDigits!!))
    }

    @Test
    fun `a file of another crew, an altered and a cut one are refused, and nothing is lost`() {
        val mate = other(lead.joined())
        val stranger = other(Phone(lead.clock).found()).also { other(it.joined()) }
        on(mate)
        val before = mate.book.crew().digest
        val whole = File(lead.file("whole")).also { lead.book.makeLockedFile(it.path) }.readBytes()
        val altered = whole.copyOf().also { it[it.size / 2] = (it[it.size / 2] + 1).toByte() }
        val hostile = mapOf(
            "stranger" to File(stranger.file("s")).also { stranger.book.makeLockedFile(it.path) }.readBytes(),
            "altered" to altered, "cut" to whole.copyOf(whole.size - 20), "head" to whole.copyOf(30),
            "newer" to "swardbook locked file 9\n".toByteArray() + ByteArray(500),
        )
        for ((name, bytes) in hostile) {
            val screen = opened(OtherApp.streams(name) { it.write(bytes) })
            screen.says(R.string.file_take_title)
            screen.get().tap(app.getString(R.string.file_take))
            screen.says(R.string.file_not_taken)
            assertFalse("$name says nothing", screen.get().text().contains(app.getString(R.string.file_unsaid)))
            assertEquals(listOf(app.getString(R.string.file_close)), screen.buttons())
            assertEquals(name, before, mate.book.crew().digest)
            screen.get().tap(app.getString(R.string.file_close))
            screen.pause().stop().destroy()
        }
        assertEquals(emptyList<String>(), incoming.list()!!.toList())
    }

    @Test
    fun `what is no file of ours is told and never handed to the core`() {
        on(lead)
        val cases = mapOf(
            OtherApp.streams("picture") { it.write("PNG".toByteArray()) } to R.string.file_other,
            OtherApp.streams("empty") { } to R.string.file_empty,
            OtherApp.gives("throws") { throw SecurityException("no") } to R.string.file_not_readable,
            Uri.fromFile(File(lead.folder, "book")) to R.string.file_not_by_address,
            Uri.parse("content://org.swardbook.shell.files/a/b") to R.string.file_our_own,
            null to R.string.file_none,
        )
        for ((uri, what) in cases) {
            val screen = opened(uri)
            screen.says(what)
            screen.says(R.string.file_not_taken)
            screen.pause().stop().destroy()
        }
    }

    @Test
    fun `an app that goes silent is given up, and a person can stop it before`() {
        on(lead)
        val silent = opened(OtherApp.streams("silent") { Thread.sleep(600_000) })
        silent.says(R.string.file_copying)
        assertEquals(listOf(app.getString(R.string.file_stop)), silent.buttons())
        // A minute of the phone's clock.
        await("giving up", stepMs = 500) { silent.get().text().contains(app.getString(R.string.file_stopped)) }
        val stopped = opened(OtherApp.streams("slow") { Thread.sleep(600_000) })
        stopped.says(R.string.file_copying)
        stopped.get().tap(app.getString(R.string.file_stop))
        assertTrue(stopped.get().isFinishing)
        stopped.pause().stop().destroy()
    }

    @Test
    fun `a request is admitted with a role and compared digits`() {
        val mate = other(Phone(lead.clock))
        mate.book.askToJoin(PersonTold("Tomás Sample", "PR-7"), true)
        val digits = mate.book.writeJoinRequest(mate.file("ask.swreq"))
        on(lead)
        val screen = opened(OtherApp.gives("ask", File(mate.file("ask.swreq"))))
        screen.says(app.getString(R.string.file_request_title, "Tomás Sample"))
        assertTrue(screen.get().text().contains(digits))
        assertTrue(screen.get().text().contains("PR-7"))
        screen.get().tap(app.getString(R.string.file_admit))
        screen.says(R.string.file_choose_role)
        screen.get().findViewById<RadioButton>(R.id.file_role_applicator).performClick()
        screen.get().tap(app.getString(R.string.file_admit))
        screen.says(R.string.file_compare_first)
        assertEquals(1, lead.book.crew().members.count { it.isMember })
        screen.get().findViewById<CheckBox>(R.id.file_same).performClick()
        screen.get().tap(app.getString(R.string.file_admit))
        screen.says(R.string.file_admitted)
        assertEquals(Role.APPLICATOR, lead.book.crew().members.single { it.person?.name == "Tomás Sample" }.role)
        screen.get().tap(app.getString(R.string.file_make_locked))
        assertEquals("org.swardbook.shell.file.HandOverActivity", screen.get().started()!!.component!!.className)
    }

    @Test
    fun `who may not admit is told so`() {
        val mate = other(lead.joined())
        val third = other(Phone(lead.clock))
        third.book.askToJoin(PersonTold("Ona Sample", ""), true)
        third.book.writeJoinRequest(third.file("ask"))
        on(mate)
        val screen = opened(OtherApp.gives("ask", File(third.file("ask"))))
        screen.says(app.getString(R.string.file_request_title, "Ona Sample"))
        screen.get().findViewById<RadioButton>(R.id.file_role_lead).performClick()
        screen.get().findViewById<CheckBox>(R.id.file_same).performClick()
        screen.get().tap(app.getString(R.string.file_admit))
        screen.says(R.string.file_not_admitted)
        assertFalse(screen.get().text().contains(app.getString(R.string.file_unsaid)))
        assertEquals(2, mate.book.crew().members.count { it.isMember })
    }

    @Test
    fun `a request that was altered, is too long, or is newer is told`() {
        val third = other(Phone(lead.clock))
        third.book.askToJoin(PersonTold("Ona Sample", ""), true)
        third.book.writeJoinRequest(third.file("ask"))
        val whole = File(third.file("ask")).readBytes()
        on(lead)
        val hostile = listOf(
            whole.copyOf().also { it[whole.size - 5] = (it[whole.size - 5] + 1).toByte() }, whole.copyOf(60),
            whole + ByteArray(100_000), "swardbook join request 9\n".toByteArray(),
        )
        for (bytes in hostile) {
            val screen = opened(OtherApp.streams("ask") { it.write(bytes) })
            screen.says(R.string.file_not_taken)
            assertFalse(screen.get().text().contains(app.getString(R.string.file_unsaid)))
            screen.pause().stop().destroy()
        }
    }

    @Test
    fun `turning the phone changes nothing, before, while and after taking in`() {
        val mate = other(lead.joined())
        repeat(30) { lead.book.addYard("Yard $it", "", "America/New_York") }
        on(mate)
        var screen = opened(lockedBy(lead))
        screen.says(R.string.file_take_title)
        screen = opened(null, screen.killed())
        screen.says(R.string.file_take_title)
        assertTrue(screen.get().text().contains("records.swlock"))
        screen.get().tap(app.getString(R.string.file_take))
        screen = opened(null, screen.killed())
        screen.says(R.string.file_taken)
        val said = screen.get().text()
        screen = opened(null, screen.killed())
        screen.says(R.string.file_taken)
        assertEquals(said, screen.get().text())
        assertEquals(30, mate.book.yards().size)
    }

    @Test
    fun `a program that was killed while taking asks to take the file once more`() {
        val mate = other(lead.joined())
        lead.book.addYard("Yard", "", "America/New_York")
        on(mate)
        val first = opened(lockedBy(lead))
        first.says(R.string.file_take_title)
        // As a killed program leaves it: it was at it, and nobody is any more.
        val state = first.killed().apply { putString("stage", "TAKING") }
        val again = opened(null, state)
        again.says(R.string.file_take_broken_off)
        again.get().tap(app.getString(R.string.file_take))
        again.says(R.string.file_taken)
        assertEquals(1, mate.book.yards().size)
    }

    @Test
    fun `a copy that the system took away is fetched again`() {
        val mate = other(lead.joined())
        on(mate)
        val uri = lockedBy(lead)
        val first = opened(uri)
        first.says(R.string.file_take_title)
        val state = first.killed()
        incoming.listFiles()!!.forEach { it.delete() }
        val again = opened(uri, state)
        again.says(R.string.file_take_title)
        // And one that goes between the question and the tap is told.
        incoming.listFiles()!!.forEach { it.delete() }
        again.get().tap(app.getString(R.string.file_take))
        again.says(R.string.file_not_taken)
    }

    @Test
    fun `a saved state that is not ours is refused, not followed`() {
        on(lead)
        val odd = Bundle().apply {
            putString("id", "../../no_backup/book/keys")
            putString("stage", "ASKING")
        }
        assertTrue(runCatching { opened(null, odd) }.isFailure)
    }

    @Test
    fun `a book that was shut while the person read is opened again`() {
        val mate = other(lead.joined())
        lead.book.addYard("Yard", "", "America/New_York")
        Core.instead(app) { if (mate.book.isOpen()) mate.book else mate.open().also { mate.book = it } }
        val screen = opened(lockedBy(lead))
        screen.says(R.string.file_take_title)
        mate.book.shut()
        screen.get().tap(app.getString(R.string.file_take))
        screen.says(R.string.file_taken)
        assertEquals(1, mate.book.yards().size)
    }

    @Test
    fun `a phone without a book says what to do first`() {
        other(lead.joined())
        val new = other(Phone(lead.clock))
        on(new)
        val screen = opened(lockedBy(lead))
        screen.says(R.string.file_take_title)
        screen.get().tap(app.getString(R.string.file_take))
        screen.says(R.string.file_not_taken)
        assertFalse(screen.get().text().contains(app.getString(R.string.file_unsaid)))
    }

    @Test
    fun `handing over while a file is taken in waits for nothing and gives a whole file`() {
        val mate = other(lead.joined())
        repeat(200) { lead.book.addYard("Yard $it", "", "America/New_York") }
        val core = on(mate)
        val screen = opened(lockedBy(lead))
        screen.says(R.string.file_take_title)
        screen.get().tap(app.getString(R.string.file_take))
        val made = CountDownLatch(1)
        var entries = 0uL
        thread {
            entries = core.call { it.makeLockedFile(mate.file("out.swlock")) }.entries
            made.countDown()
        }
        assertTrue(made.await(20, TimeUnit.SECONDS))
        screen.says(R.string.file_taken)
        assertTrue(entries > 0uL)
        assertEquals(entries, lead.book.takeLockedFile(mate.file("out.swlock")).let { it.newEntries + it.knownEntries })
        assertEquals(lead.book.crew().digest, mate.book.crew().digest)
    }

    @Test
    fun `a file that is left goes on, and its outcome is known`() {
        val mate = other(lead.joined())
        repeat(50) { lead.book.addYard("Yard $it", "", "America/New_York") }
        val core = on(mate)
        lead.book.makeLockedFile(lead.file("left"))
        val id = Waiting.newId()
        Taking.begin(core, id, File(lead.file("left")))
        // A second tap begins nothing.
        Taking.begin(core, id, File(lead.file("none")))
        await("its end") { Taking.of(id) is Took.Done }
        assertEquals(50uL, (Taking.of(id) as Took.Done).taken.newEntries)
        Taking.forget(id)
        assertNull(Taking.of(id))
    }
}
