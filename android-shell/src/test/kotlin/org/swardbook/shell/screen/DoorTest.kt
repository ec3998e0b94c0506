package org.swardbook.shell.screen

import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.swardbook.shell.support.Http
import org.swardbook.practice.Phone

/** The loopback port as another app of the same phone finds it: it can connect, and gets nothing. */
@RunWith(RobolectricTestRunner::class)
class DoorTest {
    private val phone = Phone().found()
    private val book = phone.book
    private val screens = book.startScreens()
    private val port = screens.port.toInt()
    private val pass by lazy { Entrance.pass(screens).substringBefore(';') }

    @After
    fun end() {
        book.shut()
        phone.close()
    }

    @Test
    fun `without the token nothing is told`() {
        for (path in listOf("/", "/yards", "/records", "/crew/swap", "/walk", "/live", "/file/a", "/no-such")) {
            val answer = Http.get(port, path)
            assertEquals(path, 403, answer.status)
            assertFalse(path, answer.body.contains("Practice crew"))
        }
        for (guess in listOf("", "?token=", "?token=00", "?token=${"0".repeat(64)}", "?tok=en", "?token=%00")) {
            val answer = Http.get(port, "/enter$guess")
            assertEquals(guess, 403, answer.status)
            assertEquals(null, answer.header("set-cookie"))
        }
        assertEquals(403, Http.get(port, "/", "Cookie: swardbook-$port=${"0".repeat(64)}").status)
        assertEquals(403, Http.post(port, "/crew/swap", "do=make", "Origin: http://127.0.0.1:$port").status)
    }

    @Test
    fun `the pass lets in, and only to this host and from its own pages`() {
        val carried = "Cookie: $pass"
        val page = Http.get(port, "/", carried)
        assertEquals(200, page.status)
        assertTrue(page.header("content-security-policy")!!.startsWith("default-src 'none'"))
        for (host in listOf("example.org", "127.0.0.1", "127.0.0.1:${port + 1}", "evil.localhost:$port", "")) {
            assertEquals(host, 403, Http.get(port, "/", carried, host = host).status)
        }
        assertEquals(403, Http.get(port, "/", carried, "Origin: http://example.org").status)
        for (origin in listOf("Origin: null", "Origin: http://127.0.0.1:${port + 1}", "Origin: http://example.org", "X: none")) {
            assertEquals(origin, 403, Http.post(port, "/draft", "draft=a", carried, origin).status)
        }
        assertEquals(204, Http.post(port, "/draft", "draft=a", carried, "Origin: http://127.0.0.1:$port").status)
    }

    @Test
    fun `what no browser sends stops no screen`() {
        for (odd in listOf("\r\n\r\n", "GET\r\n\r\n", "GET / HTTP/9.9\r\n\r\n", "\u0016\u0003\u0001", "x".repeat(100_000) + "\r\n\r\n")) {
            try {
                assertNotEquals(200, Http.send(port, odd).status)
            } catch (_: java.io.IOException) {
                // The line was cut: as good an answer.
            } catch (_: NumberFormatException) {
                // No answer at all.
            }
        }
        assertEquals(200, Http.get(port, "/", "Cookie: $pass").status)
    }

    @Test
    fun `a pass of an earlier start opens nothing`() {
        val old = pass.substringAfter('=')
        book.stopScreens()
        val again = book.startScreens()
        val now = again.port.toInt()
        assertNotEquals(screens.entrance, again.entrance)
        assertEquals(403, Http.get(now, "/", "Cookie: swardbook-$now=$old").status)
        assertEquals(200, Http.get(now, "/", "Cookie: ${Entrance.pass(again).substringBefore(';')}").status)
    }

    @Test
    fun `a shut book serves nothing`() {
        book.shut()
        try {
            Http.get(port, "/", "Cookie: x")
            throw AssertionError("somebody answers still")
        } catch (_: java.net.ConnectException) {
            // As it must be.
        }
    }
}
