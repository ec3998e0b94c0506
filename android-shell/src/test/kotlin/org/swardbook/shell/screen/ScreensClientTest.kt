package org.swardbook.shell.screen

import android.content.Intent
import android.net.Uri
import android.webkit.ClientCertRequest
import android.webkit.GeolocationPermissions
import android.webkit.HttpAuthHandler
import android.webkit.JsResult
import android.webkit.PermissionRequest
import android.webkit.SslErrorHandler
import java.security.Principal
import java.security.PrivateKey
import java.security.cert.X509Certificate
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNull
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.shadows.ShadowToast
import org.swardbook.practice.Phone
import org.swardbook.shell.core.Core
import org.swardbook.shell.support.Asked
import org.swardbook.shell.support.Http
import org.swardbook.shell.support.Opened
import org.swardbook.shell.support.answered
import org.swardbook.shell.support.await
import org.swardbook.shell.support.started

/** What the WebView may do, asked of its own callbacks: nothing but show the core's screens. */
@RunWith(RobolectricTestRunner::class)
class ScreensClientTest {
    private val app = RuntimeEnvironment.getApplication()
    private val phone = Phone().found()
    private val opened by lazy {
        Core.instead(app) { phone.book }
        Opened().shown()
    }

    @After
    fun end() {
        phone.close()
    }

    @Test
    fun `a page leads to the core's screens and nowhere else`() {
        val ours = opened.origin + "/yards"
        assertFalse(opened.client.shouldOverrideUrlLoading(opened.web, Asked(ours)))
        assertNull(opened.client.shouldInterceptRequest(opened.web, Asked(ours)))
        assertNull(opened.client.shouldInterceptRequest(opened.web, Asked("${opened.origin}/app.css", isPage = false)))
        assertNull(opened.client.shouldInterceptRequest(opened.web, Asked("data:image/png;base64,AA", isPage = false)))
        val others = AddressTest.NOT_OURS.map { it.replace("4321", "${opened.port + 1}") }
        for (other in others) {
            assertTrue(other, opened.client.shouldOverrideUrlLoading(opened.web, Asked(other)))
            assertNull(other, opened.activity.started())
            for (isPage in listOf(true, false)) {
                val answer = opened.client.shouldInterceptRequest(opened.web, Asked(other, isPage))
                assertEquals(other, 403, answer!!.statusCode)
                assertEquals(other, -1, answer.data.read())
            }
        }
        assertEquals(app.getString(org.swardbook.shell.R.string.screen_refused), ShadowToast.getTextOfLatestToast())
    }

    @Test
    fun `another app that took the port of a core that stopped is not asked`() {
        val ours = opened.origin + "/yards"
        val web = opened.web
        val client = opened.client
        phone.book.stopScreens()
        val answer = client.shouldInterceptRequest(web, Asked(ours))
        assertEquals(403, answer!!.statusCode)
        // And the screens are entered where they are now.
        await("the new port") { opened.hasPages() && opened.origin + "/yards" != ours }
        assertEquals(200, opened.page("/").status)
        assertEquals(403, client.shouldInterceptRequest(web, Asked(ours))!!.statusCode)
    }

    @Test
    fun `a page that came from elsewhere all the same is stopped`() {
        val before = opened.web
        opened.client.onPageStarted(opened.web, "http://example.org/", null)
        await("the first screen") { opened.hasPages() && opened.web !== before }
        assertEquals("${opened.origin}/", opened.shadow.lastLoadedUrl)
    }

    @Test
    fun `a number under a finger is dialled, not called`() {
        assertTrue(opened.client.shouldOverrideUrlLoading(opened.web, Asked("tel:+18002221222")))
        val dial = opened.activity.started()!!
        assertEquals(Intent.ACTION_DIAL, dial.action)
        assertEquals(Uri.parse("tel:+18002221222"), dial.data)
        assertTrue(opened.client.shouldOverrideUrlLoading(opened.web, Asked("tel:911", isByHand = false)))
        assertNull(opened.activity.started())
        assertTrue(opened.client.shouldOverrideUrlLoading(opened.web, Asked("tel:*%2306%23")))
        assertNull(opened.activity.started())
    }

    @Test
    fun `no window, no box and no device is had`() {
        val settings = opened.web.settings
        assertTrue(settings.javaScriptEnabled)
        assertFalse(settings.allowFileAccess)
        assertFalse(settings.allowContentAccess)
        assertFalse(settings.domStorageEnabled)
        assertFalse(settings.javaScriptCanOpenWindowsAutomatically)
        assertFalse(settings.supportMultipleWindows())
        assertFalse(opened.chrome.onCreateWindow(opened.web, false, true, null))
        val camera = Question()
        opened.chrome.onPermissionRequest(camera)
        assertEquals("denied", camera.answer)
        for (box in listOf(opened.chrome::onJsAlert, opened.chrome::onJsConfirm)) {
            val told = JsResult(null)
            assertTrue(box(opened.web, opened.origin, "", told))
            assertTrue(shadowOf(told).wasCancelled())
        }
    }

    @Test
    fun `whoever shows a certificate or asks for one is not the core`() {
        val ssl = Ssl()
        opened.client.onReceivedSslError(opened.web, ssl, null)
        assertEquals("cancelled", ssl.answer)
        val auth = Auth()
        opened.client.onReceivedHttpAuthRequest(opened.web, auth, "127.0.0.1", "realm")
        assertEquals("cancelled", auth.answer)
        val certificate = Certificate()
        opened.client.onReceivedClientCertRequest(opened.web, certificate)
        assertEquals("cancelled", certificate.answer)
    }

    @Test
    fun `the location is told to our pages, when the person allows it`() {
        val answers = mutableListOf<Pair<Boolean, Boolean>>()
        val answer = GeolocationPermissions.Callback { _, may, kept -> answers += may to kept }
        opened.chrome.onGeolocationPermissionsShowPrompt("http://example.org", answer)
        assertEquals(listOf(false to false), answers)
        assertNull(shadowOf(opened.activity).lastRequestedPermission)

        // Not allowed yet: the person is asked, says no, and later yes.
        opened.chrome.onGeolocationPermissionsShowPrompt(opened.origin, answer)
        assertEquals(1, answers.size)
        val asked = shadowOf(opened.activity).lastRequestedPermission
        assertEquals(PlaceAsked.REQUEST, asked.requestCode)
        opened.activity.answered(PlaceAsked.REQUEST, asked.requestedPermissions, isAllowed = false)
        assertEquals(listOf(false to false, false to false), answers)
        opened.chrome.onGeolocationPermissionsShowPrompt(opened.origin, answer)
        opened.activity.answered(PlaceAsked.REQUEST, asked.requestedPermissions, isAllowed = true)
        assertEquals(true to false, answers.last())
        opened.chrome.onGeolocationPermissionsShowPrompt("${opened.origin}/", answer)
        assertEquals(4, answers.size)
        assertEquals(true to false, answers.last())
        // An answer without a question changes nothing.
        opened.activity.answered(PlaceAsked.REQUEST, arrayOf(), isAllowed = true)
        assertEquals(4, answers.size)
    }

    @Test
    fun `the pass is no other port's`() {
        // Cookies do not tell ports apart: what another port is sent opens nothing of ours.
        val other = android.webkit.CookieManager.getInstance().getCookie("http://127.0.0.1:1/")
        assertEquals(403, Http.get(opened.port, "/", "Cookie: swardbook-1=${other?.substringAfter('=')}").status)
    }

    private class Question : PermissionRequest() {
        var answer = ""
        override fun getOrigin(): Uri = Uri.parse("http://127.0.0.1")
        override fun getResources() = arrayOf(RESOURCE_VIDEO_CAPTURE, RESOURCE_AUDIO_CAPTURE)
        override fun grant(resources: Array<out String>?) { answer = "granted" }
        override fun deny() { answer = "denied" }
    }

    private class Ssl : SslErrorHandler() {
        var answer = ""
        override fun cancel() { answer = "cancelled" }
        override fun proceed() { answer = "gone on" }
    }

    private class Auth : HttpAuthHandler() {
        var answer = ""
        override fun cancel() { answer = "cancelled" }
        override fun proceed(username: String?, password: String?) { answer = "gone on" }
    }

    private class Certificate : ClientCertRequest() {
        var answer = ""
        override fun getKeyTypes() = arrayOf<String>()
        override fun getPrincipals() = arrayOf<Principal>()
        override fun getHost() = "127.0.0.1"
        override fun getPort() = 1
        override fun proceed(privateKey: PrivateKey?, chain: Array<out X509Certificate>?) { answer = "gone on" }
        override fun ignore() { answer = "ignored" }
        override fun cancel() { answer = "cancelled" }
    }
}
