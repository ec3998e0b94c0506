package org.swardbook.shell.screen

import android.annotation.SuppressLint
import android.content.Context
import android.content.res.Configuration
import android.view.View
import android.view.ViewGroup
import android.webkit.CookieManager
import android.webkit.URLUtil
import android.webkit.WebSettings
import android.webkit.WebView
import org.swardbook.shell.R
import org.swardbook.shell.file.Waiting

/** The WebView with the core's pages, shut to everything else. */
internal class Pages(
    context: Context,
    val address: Address,
    client: ScreensClient,
    chrome: ScreensChrome,
) {
    private val web = WebView(context)

    /** To be shown. */
    val view: View get() = web

    init {
        shut(web.settings)
        CookieManager.getInstance().setAcceptThirdPartyCookies(web, false)
        web.webViewClient = client
        web.webChromeClient = chrome
        web.importantForAutofill = View.IMPORTANT_FOR_AUTOFILL_NO_EXCLUDE_DESCENDANTS
        fit(context.resources.configuration)
    }

    @SuppressLint("SetJavaScriptEnabled")
    private fun shut(settings: WebSettings) = with(settings) {
        // The core's one script; its policy lets no other run.
        javaScriptEnabled = true
        javaScriptCanOpenWindowsAutomatically = false
        setSupportMultipleWindows(false)
        allowFileAccess = false
        allowContentAccess = false
        @Suppress("DEPRECATION")
        allowFileAccessFromFileURLs = false
        @Suppress("DEPRECATION")
        allowUniversalAccessFromFileURLs = false
        domStorageEnabled = false
        mixedContentMode = WebSettings.MIXED_CONTENT_NEVER_ALLOW
        cacheMode = WebSettings.LOAD_DEFAULT
        setGeolocationEnabled(true)
        // Nothing is asked of any host but this phone.
        safeBrowsingEnabled = false
        mediaPlaybackRequiresUserGesture = true
    }

    /** As large as the person reads, as light as the phone is set. */
    fun fit(now: Configuration) {
        web.settings.textZoom = Math.round(now.fontScale * 100)
        web.setBackgroundColor(web.context.getColor(R.color.paper))
    }

    /** Shows a screen. */
    fun show(path: String) = web.loadUrl(address.urlOf(path))

    /** One screen back; whether there was one. */
    fun back(): Boolean {
        if (!web.canGoBack()) return false
        web.goBack()
        return true
    }

    /** Calls when a page gives a file: its address, and its name as far as it is told. */
    fun onFile(given: (url: String, name: String) -> Unit) = web.setDownloadListener { url, _, told, type, _ ->
        val name = Waiting.plainName(URLUtil.guessFileName(url, told, type))
        if (address.isOurs(url) && name != null) given(url, name)
    }

    /** Tells whether the page measures by a walk. */
    fun asksForWalk(told: (Boolean) -> Unit) =
        web.evaluateJavascript("!!document.querySelector('[data-walk]')") { told(it == "true") }

    /**
     * What was typed and is not kept yet, as the page would send it; nothing where the page does not
     * answer in a moment.
     */
    fun unkept(told: (List<String>) -> Unit) {
        var isTold = false
        val once = { answer: String? ->
            if (!isTold) {
                isTold = true
                told(Unkept.read(answer))
            }
        }
        web.evaluateJavascript(Unkept.ASK) { once(it) }
        web.postDelayed({ once(null) }, ANSWER_MS)
    }

    /** The person is back: a walk may have been recorded, a file taken. */
    fun resume() {
        web.onResume()
        run("Sward.again()")
    }

    /** The person is away: what was typed last is kept now, not in a moment. */
    fun pause() {
        run("Sward.keepAll()")
        web.onPause()
    }

    /** Ends it. */
    fun end() {
        (web.parent as? ViewGroup)?.removeView(web)
        web.stopLoading()
        web.setDownloadListener(null)
        web.destroy()
    }

    /** A page without the script is as good without this. */
    private fun run(call: String) = web.evaluateJavascript("try { $call } catch { }", null)

    private companion object {
        const val ANSWER_MS = 1000L
    }
}
