package org.swardbook.shell.screen

import android.webkit.CookieManager
import java.io.IOException
import java.net.HttpURLConnection
import java.net.URL
import uniffi.sward.Screens

/**
 * The way in: the entrance is asked by the shell itself, so that its token is never an address of the
 * WebView, where going back would lead to it.
 */
internal object Entrance {
    private const val WAIT_MS = 15_000

    /** The cookie that lets in, as the core sets it. Not for the main thread. */
    @Throws(IOException::class)
    fun pass(screens: Screens): String {
        val asked = URL(screens.entrance).openConnection() as HttpURLConnection
        try {
            asked.connectTimeout = WAIT_MS
            asked.readTimeout = WAIT_MS
            asked.instanceFollowRedirects = false
            if (asked.responseCode != HttpURLConnection.HTTP_OK) {
                throw IOException("the entrance answered ${asked.responseCode}")
            }
            return asked.getHeaderField("Set-Cookie") ?: throw IOException("the entrance gave no pass")
        } finally {
            asked.disconnect()
        }
    }

    /** Hands the pass to the WebView; those of earlier starts open nothing any more and go. */
    fun carry(address: Address, pass: String) {
        val cookies = CookieManager.getInstance()
        cookies.setAcceptCookie(true)
        cookies.removeAllCookies(null)
        cookies.setCookie(address.origin, pass)
    }

    /** The pass that the WebView carries; none before it was let in. */
    fun carried(address: Address): String? = CookieManager.getInstance().getCookie(address.origin)
}
