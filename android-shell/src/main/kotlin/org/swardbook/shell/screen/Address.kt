package org.swardbook.shell.screen

/**
 * Where the core serves its screens: on this device alone, at the port of this start. The port is
 * another after every start, so only paths are worth remembering.
 */
internal class Address(val port: Int) {
    /** What every address of the screens begins with; no user, no other host can stand in it. */
    val origin: String = "http://127.0.0.1:$port"

    /** Whether an address, as the WebView writes it, is one of the screens'. */
    fun isOurs(url: String?): Boolean =
        url != null && (url == origin || url.startsWith("$origin/"))

    /** The path and query of an address of ours. */
    fun pathOf(url: String): String = pathOrHome(url.removePrefix(origin).substringBefore('#'))

    /** The whole address of a path. */
    fun urlOf(path: String): String = origin + pathOrHome(path)

    companion object {
        /** The first screen. */
        const val HOME = "/"

        private const val PATH_CHARS_MOST = 2000
        private val PATH = Regex("/(?:[A-Za-z0-9._~!$&'()*+,;=:@%?-][A-Za-z0-9._~!$&'()*+,;=:@%/?-]*)?")

        /** What is shown once, or is no screen. */
        private val NO_SCREENS = Regex("/(?:enter|file|live|walk|draft|language)(?:[/?].*)?")

        /** A remembered or handed over path, where it can be one of a screen; else the first screen. */
        fun pathOrHome(path: String?): String = when {
            path == null || path.length > PATH_CHARS_MOST -> HOME
            !PATH.matches(path) || NO_SCREENS.matches(path) -> HOME
            else -> path
        }
    }
}
