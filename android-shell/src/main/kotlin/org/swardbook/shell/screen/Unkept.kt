package org.swardbook.shell.screen

import java.io.IOException
import java.net.HttpURLConnection
import java.net.URL
import org.json.JSONArray
import org.json.JSONException

/**
 * What was typed and could not be kept because the core was started anew under the page: handed to
 * the screens of the new start, where the same form shows it again. Not for the main thread.
 */
internal object Unkept {
    /** Asks a page of ours for it. */
    const val ASK = "Sward.unkept()"

    private const val FORMS_MOST = 50
    private const val WAIT_MS = 10_000

    /** The forms, each as its page would send it. */
    fun read(answer: String?): List<String> = try {
        val forms = JSONArray(answer ?: "[]")
        List(minOf(forms.length(), FORMS_MOST)) { forms.getString(it) }
    } catch (_: JSONException) {
        // A page without the script has kept nothing back.
        emptyList()
    }

    /** Keeps them as drafts. */
    @Throws(IOException::class)
    fun keep(forms: List<String>, address: Address, pass: String) {
        for (form in forms) {
            val sent = URL(address.origin + "/draft").openConnection() as HttpURLConnection
            try {
                sent.connectTimeout = WAIT_MS
                sent.readTimeout = WAIT_MS
                sent.instanceFollowRedirects = false
                sent.requestMethod = "POST"
                sent.doOutput = true
                sent.setRequestProperty("Cookie", pass.substringBefore(';'))
                sent.setRequestProperty("Origin", address.origin)
                sent.setRequestProperty("Content-Type", "application/x-www-form-urlencoded")
                sent.outputStream.use { it.write(form.toByteArray()) }
                if (sent.responseCode != HttpURLConnection.HTTP_NO_CONTENT) {
                    throw IOException("the draft was answered with ${sent.responseCode}")
                }
            } finally {
                sent.disconnect()
            }
        }
    }
}
