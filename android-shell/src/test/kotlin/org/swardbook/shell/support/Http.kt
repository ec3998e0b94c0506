package org.swardbook.shell.support

import java.io.ByteArrayOutputStream
import java.net.InetAddress
import java.net.ServerSocket
import java.net.Socket
import kotlin.concurrent.thread

/** What a server answered, as it came over the line. */
class Answered(private val raw: String) {
    val status: Int get() = raw.substringAfter(' ').substringBefore(' ').toInt()
    val body: String get() = raw.substringAfter("\r\n\r\n", "")

    fun header(name: String): String? = raw.substringBefore("\r\n\r\n").lines()
        .firstOrNull { it.startsWith("$name:", ignoreCase = true) }?.substringAfter(':')?.trim()
}

/** Another app of this phone: it can connect to any port of loopback, and say what it likes. */
object Http {
    /** Sends a request as it stands. */
    fun send(port: Int, request: String): Answered =
        Socket(InetAddress.getByName("127.0.0.1"), port).use { socket ->
            socket.soTimeout = 10_000
            socket.getOutputStream().write(request.toByteArray())
            val answer = ByteArrayOutputStream()
            socket.getInputStream().copyTo(answer)
            Answered(answer.toString("UTF-8"))
        }

    fun get(port: Int, path: String, vararg headers: String, host: String = "127.0.0.1:$port"): Answered =
        send(port, lines("GET $path HTTP/1.1", "Host: $host", *headers, "Connection: close"))

    fun post(port: Int, path: String, body: String, vararg headers: String): Answered {
        val all = arrayOf(
            "POST $path HTTP/1.1", "Host: 127.0.0.1:$port", "Content-Type: application/x-www-form-urlencoded",
            "Content-Length: ${body.toByteArray().size}", *headers, "Connection: close",
        )
        return send(port, lines(*all) + body)
    }

    private fun lines(vararg lines: String) = lines.joinToString("\r\n", postfix = "\r\n\r\n")

    /** A server of another app, that answers everything with the same bytes, again and again where `times` says so. */
    fun <T> other(answer: ByteArray, times: Int = 1, use: (port: Int) -> T): T {
        ServerSocket(0, 50, InetAddress.getByName("127.0.0.1")).use { server ->
            thread(isDaemon = true) {
                while (!server.isClosed) {
                    try {
                        server.accept().use { socket ->
                            socket.getInputStream().read(ByteArray(4096))
                            repeat(times) { socket.getOutputStream().write(answer) }
                        }
                    } catch (_: java.io.IOException) {
                        // Whoever asked had enough, or the test is over.
                    }
                }
            }
            return use(server.localPort)
        }
    }
}
