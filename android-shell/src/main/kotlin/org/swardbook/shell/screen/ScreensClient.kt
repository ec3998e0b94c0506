package org.swardbook.shell.screen

import android.graphics.Bitmap
import android.net.http.SslError
import android.os.Message
import android.webkit.ClientCertRequest
import android.webkit.HttpAuthHandler
import android.webkit.RenderProcessGoneDetail
import android.webkit.SslErrorHandler
import android.webkit.WebResourceError
import android.webkit.WebResourceRequest
import android.webkit.WebResourceResponse
import android.webkit.WebView
import android.webkit.WebViewClient
import java.io.ByteArrayInputStream
import java.net.HttpURLConnection

/** What the WebView's callbacks ask of the screen around it. All but [runsStill] on the main thread. */
internal interface ScreensHost {
    /** Whether the core still serves at this address. From the WebView's own threads too. */
    fun runsStill(address: Address): Boolean

    /** A screen is shown. */
    fun shown(path: String)

    /** A page was loaded whole. */
    fun loaded()

    /** The way into the screens has to be gone anew, and this path shown. */
    fun enterAnew(path: String)

    /** A page that came of sending a form is not there any more; the form before it is. */
    fun sentPageGone(path: String)

    /** A number is to be dialled. */
    fun dial(way: Way.Dial)

    /** A page wanted to lead somewhere else. */
    fun refused()

    /** The process that draws the pages ended. */
    fun drawingEnded()
}

/** Decides for every address and answer; [Guard] holds the rules. */
internal class ScreensClient(
    private val address: Address,
    private val host: ScreensHost,
) : WebViewClient() {
    private val guard = Guard(address)

    override fun shouldOverrideUrlLoading(view: WebView?, request: WebResourceRequest): Boolean {
        when (val way = guard.wayOf(request.url)) {
            Way.Ours -> return !request.isForMainFrame
            is Way.Dial -> if (request.hasGesture()) host.dial(way) else host.refused()
            Way.Nowhere -> host.refused()
        }
        return true
    }

    override fun shouldInterceptRequest(view: WebView?, request: WebResourceRequest): WebResourceResponse? {
        val may = guard.mayAsk(request.url, request.isForMainFrame) && host.runsStill(address)
        return if (may) null else refusal()
    }

    override fun onPageStarted(view: WebView, url: String?, favicon: Bitmap?) {
        if (address.isOurs(url) || url == BLANK) return
        view.stopLoading()
        host.refused()
        host.enterAnew(Address.HOME)
    }

    override fun doUpdateVisitedHistory(view: WebView?, url: String?, isReload: Boolean) {
        if (url != null && address.isOurs(url)) host.shown(address.pathOf(url))
    }

    override fun onPageFinished(view: WebView?, url: String?) {
        if (address.isOurs(url)) host.loaded()
    }

    override fun onReceivedHttpError(view: WebView?, request: WebResourceRequest, answer: WebResourceResponse) {
        val isShutOut = answer.statusCode == HttpURLConnection.HTTP_FORBIDDEN
        if (isShutOut && request.isForMainFrame) host.enterAnew(pathOf(request))
    }

    override fun onReceivedError(view: WebView?, request: WebResourceRequest, error: WebResourceError?) {
        if (!request.isForMainFrame) return
        if (error?.description?.contains(NO_SENT_PAGE) == true) {
            host.sentPageGone(pathOf(request))
        } else {
            host.enterAnew(pathOf(request))
        }
    }

    /** What was sent once is not sent again by going back. */
    override fun onFormResubmission(view: WebView?, dontResend: Message?, resend: Message?) {
        dontResend?.sendToTarget()
    }

    /** The screens have no certificate: whoever shows one is not the core. */
    override fun onReceivedSslError(view: WebView?, handler: SslErrorHandler, error: SslError?) = handler.cancel()

    override fun onReceivedHttpAuthRequest(view: WebView?, handler: HttpAuthHandler, host: String?, realm: String?) =
        handler.cancel()

    override fun onReceivedClientCertRequest(view: WebView?, request: ClientCertRequest) = request.cancel()

    override fun onRenderProcessGone(view: WebView?, detail: RenderProcessGoneDetail?): Boolean {
        host.drawingEnded()
        return true
    }

    private fun pathOf(request: WebResourceRequest): String {
        val url = request.url?.toString()
        return if (url != null && address.isOurs(url)) address.pathOf(url) else Address.HOME
    }

    private fun refusal() = WebResourceResponse(
        "text/plain", "utf-8", HttpURLConnection.HTTP_FORBIDDEN, "Refused",
        mapOf("Cache-Control" to "no-store"), ByteArrayInputStream(ByteArray(0)),
    )

    private companion object {
        const val BLANK = "about:blank"

        /** How Chromium names going back to the answer to a form. */
        const val NO_SENT_PAGE = "ERR_CACHE_MISS"
    }
}
