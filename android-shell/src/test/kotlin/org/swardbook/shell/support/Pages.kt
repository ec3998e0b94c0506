package org.swardbook.shell.support

import android.app.Activity
import android.content.Intent
import android.content.pm.PackageManager
import android.net.Uri
import android.os.Bundle
import android.webkit.CookieManager
import android.webkit.WebResourceRequest
import android.webkit.WebView
import org.robolectric.Robolectric
import org.robolectric.Shadows.shadowOf
import org.robolectric.android.controller.ActivityController
import org.robolectric.shadows.ShadowWebView
import org.swardbook.shell.screen.ScreensActivity

/** A request as the WebView tells of it. */
class Asked(
    private val address: String,
    private val isPage: Boolean = true,
    private val isByHand: Boolean = true,
) : WebResourceRequest {
    override fun getUrl(): Uri = Uri.parse(address)
    override fun isForMainFrame() = isPage
    override fun isRedirect() = false
    override fun hasGesture() = isByHand
    override fun getMethod() = "GET"
    override fun getRequestHeaders() = emptyMap<String, String>()
}

/** The screens as a person opens them. A WebView is not drawn here; what it is told and asked is. */
internal class Opened(intent: Intent? = null, state: Bundle? = null) {
    private val controller: ActivityController<ScreensActivity> =
        Robolectric.buildActivity(ScreensActivity::class.java, intent).create(state).start().resume().visible()
    val activity: ScreensActivity = controller.get()

    val web: WebView get() = activity.views().filterIsInstance<WebView>().single()
    val shadow: ShadowWebView get() = shadowOf(web)
    val client get() = shadow.webViewClient!!
    val chrome get() = shadow.webChromeClient!!

    /** Where the screens are served now. */
    val origin: String get() = Uri.parse(shadow.lastLoadedUrl).let { "http://${it.authority}" }
    val port: Int get() = Uri.parse(shadow.lastLoadedUrl).port

    /** Waits for pages. */
    fun shown(): Opened = apply { await("pages") { hasPages() } }

    fun hasPages() = activity.views().any { it is WebView && shadowOf(it as WebView).lastLoadedUrl != null }

    /** The WebView went to a screen, as it tells when it has. */
    fun went(path: String): Opened = apply {
        client.doUpdateVisitedHistory(web, origin + path, false)
        client.onPageFinished(web, origin + path)
    }

    /** A screen as the core gives it to this WebView. */
    fun page(path: String): Answered =
        Http.get(port, path, "Cookie: ${CookieManager.getInstance().getCookie(origin)}")

    /** What is remembered when the system ends the program, and the end of it. */
    fun killed(): Bundle {
        val state = Bundle()
        controller.pause().saveInstanceState(state).stop().destroy()
        return state
    }

    fun away() = controller.pause()

    fun back() = controller.resume()

    fun asked(intent: Intent?) = controller.newIntent(intent)

    fun result(request: Int, code: Int, data: Intent?) = activity.result(request, code, data)

    fun turned(change: (android.content.res.Configuration) -> Unit) {
        val now = android.content.res.Configuration(activity.resources.configuration).also(change)
        controller.configurationChange(now)
    }
}

/** What was started since the last look. */
fun Activity.started(): Intent? = shadowOf(this).nextStartedActivity

/** The answer of another app's screen, whether or not it was asked. */
fun Activity.result(request: Int, code: Int, data: Intent?) =
    shadowOf(this).internalCallDispatchActivityResult(null, request, code, data)

/** The person's answer to the question for permissions. */
fun Activity.answered(request: Int, permissions: Array<String>, isAllowed: Boolean) {
    val (result, manager) = (if (isAllowed) PackageManager.PERMISSION_GRANTED else PackageManager.PERMISSION_DENIED) to shadowOf(application)
    if (isAllowed) manager.grantPermissions(*permissions) else manager.denyPermissions(*permissions)
    val told = Intent()
        .putExtra(PackageManager.EXTRA_REQUEST_PERMISSIONS_NAMES, permissions)
        .putExtra(PackageManager.EXTRA_REQUEST_PERMISSIONS_RESULTS, IntArray(permissions.size) { result })
    shadowOf(this).internalCallDispatchActivityResult("@android:requestPermissions:", request, Activity.RESULT_OK, told)
}
