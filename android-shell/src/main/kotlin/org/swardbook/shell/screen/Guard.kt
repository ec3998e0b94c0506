package org.swardbook.shell.screen

import android.net.Uri

/** Where a page's link may lead. */
internal sealed class Way {
    /** To a screen of ours. */
    object Ours : Way()

    /** To the phone's dialler, which asks before it calls: the numbers under "Help now". */
    data class Dial(val number: Uri) : Way()

    /** Nowhere. */
    object Nowhere : Way()
}

/**
 * What the WebView may ask for: the core's own screens at the port of this start, and nothing else
 * of this device or the web. Another port may be another app's, and cookies do not tell ports apart.
 */
internal class Guard(private val address: Address) {
    /** Where a link leads. */
    fun wayOf(url: Uri?): Way = when {
        address.isOurs(url?.toString()) -> Way.Ours
        url != null && url.toString().matches(NUMBER) -> Way.Dial(url)
        else -> Way.Nowhere
    }

    /** Whether a request may go out at all: a page, or what a page asks for. */
    fun mayAsk(url: Uri?, isPage: Boolean): Boolean {
        val text = url?.toString() ?: return false
        return address.isOurs(text) || (!isPage && text.startsWith(PICTURE_IN_PAGE))
    }

    /** Whether who asks for the location is one of our pages; the WebView tells an origin here. */
    fun isOurOrigin(origin: String?): Boolean =
        origin != null && origin.removeSuffix("/") == address.origin

    private companion object {
        /** Digits alone: no codes that a phone carries out. */
        val NUMBER = Regex("tel:\\+?[0-9]{2,20}")
        const val PICTURE_IN_PAGE = "data:image/"
    }
}
