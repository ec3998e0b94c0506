import java.io.File
import java.net.HttpURLConnection
import java.net.URI
import java.util.concurrent.Callable
import java.util.concurrent.CyclicBarrier
import java.util.concurrent.Executors
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertNull
import org.junit.Assert.assertThrows
import org.junit.Assert.assertTrue
import org.junit.Test
import org.swardbook.practice.HOUR_MS
import org.swardbook.practice.MINUTE_MS
import org.swardbook.practice.NOON_UTC_MS
import org.swardbook.practice.Phone
import uniffi.sward.KeepOffState
import uniffi.sward.Method
import uniffi.sward.RingFor
import uniffi.sward.SwardException
import uniffi.sward.TimeAnswer
import uniffi.sward.TimeSource
import uniffi.sward.Verdict
import uniffi.sward.WindReading

/** The three uses from Kotlin, each for real, and what a handle promises. */
class UsesTest {
    private val phones = mutableListOf<Phone>()

    private fun phone() = Phone().also(phones::add)

    private fun founded() = phone().found()

    private fun Phone.joinedToo() = joined().also(phones::add)

    @After
    fun end() = phones.forEach(Phone::close)

    // ---- Check the wind before spraying.

    private fun wind(vararg speeds: String, gust: String?): Verdict {
        val phone = founded()
        val visit = phone.book.openVisit(phone.yard(), "chinch bug")
        if (speeds.isNotEmpty()) {
            val readings = speeds.mapIndexed { n, speed ->
                WindReading(NOON_UTC_MS - (speeds.size - n) * 30_000L, speed, gust, 270u, "5 ft")
            }
            phone.book.measureWind(visit, readings)
        }
        val ready = phone.book.checkReady(visit, phone.label(), Phone.RATE)
        val wind = ready.findings.single { it.check == "wind" }
        assertTrue("a sum is its worst part", ready.verdict >= wind.verdict)
        assertTrue(wind.reasons.isNotEmpty() && wind.name.isNotEmpty())
        return wind.verdict
    }

    @Test
    fun `wind above the label's limit is don't treat, below it no limit is hit, unmeasured not known`() {
        assertEquals(Verdict.DONT_TREAT, wind("9 mph", "11 mph", "12 mph", gust = "14 mph"))
        assertEquals(Verdict.CLEAR, wind("4 mph", "4 mph", "5 mph", "4 mph", "5 mph", gust = "6 mph"))
        assertEquals(Verdict.UNKNOWN, wind(gust = null))
    }

    // ---- Start and watch a keep-off.

    @Test
    fun `a keep-off runs from its start until somebody saw it dry`() {
        val phone = founded()
        val (visit, keepOff) = phone.treated()
        val running = phone.book.keepOffsToWatch().keepOffs.single()
        assertEquals(listOf("Corner lot", "front", keepOff), listOf(running.yard, running.section, running.keepOff))
        assertEquals(Method.FOLIAR_SPRAY, running.method)
        assertEquals(NOON_UTC_MS + 4 * HOUR_MS, running.ring?.atDeviceUtcMs)
        assertEquals(RingFor.LOOK, running.ring?.what)
        phone.clock.letPass((4 * HOUR_MS).toULong())
        val waits = phone.book.keepOff(visit, keepOff)
        assertEquals(KeepOffState.WaitsForDry, waits.state)
        assertTrue(waits.keepsOff)
        assertThrows(SwardException.Refused::class.java) {
            phone.book.lookedDry(visit, listOf(keepOff), NOON_UTC_MS - MINUTE_MS)
        }
        phone.book.lookedDry(visit, listOf(keepOff), phone.clock.utcMs())
        assertFalse(phone.book.keepOff(visit, keepOff).keepsOff)
        assertTrue(phone.book.keepOffsToWatch().keepOffs.isEmpty())
    }

    @Test
    fun `a started treatment has no end, and an uncertain time never lets it be over`() {
        val phone = founded()
        val open = phone.started(phone.label())
        assertEquals(KeepOffState.RunsUntilFinish, phone.book.keepOff(open.visit, open.keepOff).state)
        phone.book.finishTreating(open.visit, "")
        phone.clock.vouch(false)
        phone.clock.reboot()
        phone.clock.letPass((90 * HOUR_MS).toULong())
        val uncertain = phone.book.keepOff(open.visit, open.keepOff)
        assertTrue(uncertain.state is KeepOffState.TimeUncertain && uncertain.keepsOff)
        val told = phone.book.timeTold(TimeSource.NETWORK, phone.clock.utcMs() + HOUR_MS, phone.clock.sinceBootMs())
        assertEquals(TimeAnswer.CLOCK_DIFFERS, told)
        assertTrue(phone.book.keepOff(open.visit, open.keepOff).keepsOff)
    }

    // ---- Merge the day's records.

    @Test
    fun `two books that swapped locked files are equal`() {
        val lead = founded()
        val other = lead.joinedToo()
        lead.treated()
        other.treated(other.label("product" to "Granule Two"))
        assertNotEquals(lead.book.crew().digest, other.book.crew().digest)
        assertTrue(lead.giveTo(other).makerIsOfTheCrew)
        other.giveTo(lead)
        assertEquals(lead.book.crew().digest, other.book.crew().digest)
        assertEquals(lead.book.keepOffsToWatch(), other.book.keepOffsToWatch())
        assertEquals(2, lead.book.keepOffsToWatch().keepOffs.size)
        assertEquals(0uL, lead.giveTo(other).newEntries)
    }

    @Test
    fun `a file cut short changes nothing`() {
        val lead = founded()
        val other = lead.joinedToo()
        lead.treated()
        lead.book.makeLockedFile(lead.file("day.swlock"))
        val cut = File(lead.file("cut.swlock"))
        cut.writeBytes(File(lead.file("day.swlock")).readBytes().let { it.copyOf(it.size / 2) })
        val before = other.book.crew()
        assertThrows(SwardException.Damaged::class.java) { other.book.takeLockedFile(cut.path) }
        assertEquals(before, other.book.crew())
        assertNull(other.book.swapProgress())
    }

    // ---- The screens.

    private fun status(address: String, cookie: String? = null): Int {
        val asked = URI(address).toURL().openConnection() as HttpURLConnection
        cookie?.let { asked.setRequestProperty("Cookie", it) }
        return asked.responseCode
    }

    @Test
    fun `the screens answer whoever comes by the entrance and nobody else`() {
        val phone = founded()
        val screens = phone.book.startScreens()
        val front = "http://127.0.0.1:${screens.port}/"
        assertEquals(403, status(front))
        val entered = URI(screens.entrance).toURL().openConnection() as HttpURLConnection
        assertEquals(200, entered.responseCode)
        val cookie = entered.getHeaderField("Set-Cookie").substringBefore(';')
        assertEquals(200, status(front, cookie))
        phone.book.stopScreens()
        assertThrows(java.io.IOException::class.java) { status(front, cookie) }
    }

    // ---- Handles.

    @Test
    fun `a shut book says so to every call, from every thread`() {
        val phone = founded()
        val begin = CyclicBarrier(THREADS)
        val pool = Executors.newFixedThreadPool(THREADS)
        val calls = (0 until THREADS).map { n ->
            Callable {
                begin.await()
                runCatching {
                    if (n == THREADS / 2) {
                        phone.book.shut()
                        null
                    } else {
                        phone.book.addYard("Lot $n", "", "UTC")
                    }
                }
            }
        }
        val came = pool.invokeAll(calls).map { it.get() }
        pool.shutdown()
        val failed = came.mapNotNull { it.exceptionOrNull() }
        assertTrue(failed.toString(), failed.all { it is SwardException.Closed })
        assertThrows(SwardException.Closed::class.java) { phone.book.yards() }
        assertFalse(phone.book.isOpen())
        phone.book = phone.open()
        assertEquals(came.mapNotNull { it.getOrNull() }.toSet(), phone.book.yards().map { it.id }.toSet())
    }

    @Test
    fun `a freed handle refuses calls and gives the book back`() {
        val phone = founded()
        phone.book.shut()
        phone.book.close()
        assertThrows(IllegalStateException::class.java) { phone.book.yards() }
        phone.book = phone.open()
        assertTrue(phone.book.hasBook())
    }

    @Test
    fun `a change wakes the thread that waits for one`() {
        val phone = founded()
        val seen = phone.book.version()
        assertEquals(seen, phone.book.waitForChange(seen, 20u))
        val waits = Executors.newSingleThreadExecutor()
        val woken = waits.submit(Callable { phone.book.waitForChange(seen, 60_000u) })
        phone.yard()
        assertTrue(woken.get() > seen)
        waits.shutdown()
    }

    private companion object {
        const val THREADS = 64
    }
}
