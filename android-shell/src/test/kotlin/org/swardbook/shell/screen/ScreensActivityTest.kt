package org.swardbook.shell.screen

import android.app.Activity
import android.content.Intent
import android.content.res.Configuration
import android.net.Uri
import android.webkit.CookieManager
import android.webkit.ValueCallback
import android.webkit.WebResourceError
import android.webkit.WebResourceResponse
import java.io.ByteArrayInputStream
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotEquals
import org.junit.Assert.assertNotNull
import org.junit.Assert.assertNull
import org.junit.Assert.assertSame
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.shadows.ShadowToast
import org.swardbook.practice.Phone
import org.swardbook.shell.R
import org.swardbook.shell.core.Core
import org.swardbook.shell.support.Asked
import org.swardbook.shell.support.Http
import org.swardbook.shell.support.Opened
import org.swardbook.shell.support.await
import org.swardbook.shell.support.started
import org.swardbook.shell.support.tap
import org.swardbook.shell.support.text
import uniffi.sward.SwardException

/** The screens through a phone's life: opened, turned, left, killed, broken off. */
@RunWith(RobolectricTestRunner::class)
class ScreensActivityTest {
    private val app = RuntimeEnvironment.getApplication()
    private val phone = Phone().found()
    private val core = Core.instead(app) { phone.book }

    @After
    fun end() {
        phone.close()
    }

    @Test
    fun `the first screen opens with a pass, and the token is nowhere`() {
        val opened = Opened().shown()
        assertEquals("${opened.origin}/", opened.shadow.lastLoadedUrl)
        assertEquals(200, opened.page("/").status)
        assertTrue(opened.page("/crew").body.contains("Practice crew"))
        val token = phone.book.startScreens().entrance.substringAfter('=')
        assertFalse(CookieManager.getInstance().getCookie(opened.origin).contains(token))
    }

    @Test
    fun `a killed program shows the same screen at the new port, and what was typed`() {
        val first = Opened().shown().went("/yards/new")
        val draft = Regex("data-draft=\"([^\"]*)\"").find(first.page("/yards/new").body)!!.groupValues[1]
        val kept = Http.post(
            first.port, "/draft", "draft=${Uri.encode(draft)}&name=Corner+of+Meadow",
            "Cookie: ${CookieManager.getInstance().getCookie(first.origin)}", "Origin: ${first.origin}",
        )
        assertEquals(204, kept.status)
        val before = first.origin
        val state = first.killed()
        phone.book.shut()
        phone.book = phone.open()

        val again = Opened(state = state).shown()
        assertNotEquals(before, again.origin)
        assertEquals("${again.origin}/yards/new", again.shadow.lastLoadedUrl)
        assertTrue(again.page("/yards/new").body.contains("Corner of Meadow"))
    }

    @Test
    fun `what was typed and not kept goes along to a core that was started anew`() {
        val opened = Opened().shown().went("/yards/new")
        val draft = Regex("data-draft=\"([^\"]*)\"").find(opened.page("/yards/new").body)!!.groupValues[1]
        val (web, client, shadow) = Triple(opened.web, opened.client, opened.shadow)
        val before = opened.origin
        phone.book.stopScreens()
        assertEquals(403, client.shouldInterceptRequest(web, Asked("$before/draft", isPage = false))!!.statusCode)
        await("the question for it") { shadow.lastEvaluatedJavascript == Unkept.ASK }
        // Nothing was let go before the page has told.
        assertSame(web, opened.web)
        val typed = "name=South%20side%20%26%20more&do=add&draft=${Uri.encode(draft)}"
        shadow.lastEvaluatedJavascriptCallback.onReceiveValue("[\"$typed\"]")
        await("the new port") { opened.hasPages() && opened.origin != before }
        assertEquals("${opened.origin}/yards/new", opened.shadow.lastLoadedUrl)
        assertTrue(opened.page("/yards/new").body.contains("South side &amp; more"))
    }

    @Test
    fun `a page that does not tell what was typed is not waited for`() {
        val opened = Opened().shown()
        val before = opened.origin
        val (web, client) = opened.web to opened.client
        phone.book.stopScreens()
        client.shouldInterceptRequest(web, Asked("$before/live", isPage = false))
        await("the new port") { opened.hasPages() && opened.origin != before }
    }

    @Test
    fun `turning, light and letters' size load nothing anew`() {
        val opened = Opened().shown()
        val web = opened.web
        assertEquals(100, web.settings.textZoom)
        val loaded = opened.shadow.lastLoadedUrl
        opened.turned { it.orientation = Configuration.ORIENTATION_LANDSCAPE }
        opened.turned { it.fontScale = 2f }
        assertEquals(200, opened.web.settings.textZoom)
        opened.turned { it.uiMode = Configuration.UI_MODE_NIGHT_YES or Configuration.UI_MODE_TYPE_NORMAL }
        opened.turned { it.setLocale(java.util.Locale.forLanguageTag("es-US")) }
        assertSame(web, opened.web)
        assertEquals(loaded, opened.shadow.lastLoadedUrl)
        assertTrue(web.parent != null && !opened.activity.isFinishing)
    }

    @Test
    fun `back goes through the screens, then to the first, then leaves without ending`() {
        val opened = Opened().shown()
        opened.shadow.pushEntryToHistory("${opened.origin}/")
        opened.shadow.pushEntryToHistory("${opened.origin}/yards")
        opened.went("/yards")
        opened.activity.onBackPressed()
        assertEquals(1, opened.shadow.goBackInvocations)
        // After a restart there is no way back, but a first screen.
        val state = Opened().shown().went("/yards").killed()
        val again = Opened(state = state).shown().went("/yards")
        again.activity.onBackPressed()
        assertEquals("${again.origin}/", again.shadow.lastLoadedUrl)
        again.went("/")
        val web = again.web
        again.web.clearHistory()
        again.activity.onBackPressed()
        assertSame(web, again.web)
    }

    @Test
    fun `what is typed last is kept when the person leaves`() {
        val opened = Opened().shown()
        opened.away()
        assertTrue(opened.shadow.lastEvaluatedJavascript.contains("Sward.keepAll()"))
        opened.back()
        assertTrue(opened.shadow.lastEvaluatedJavascript.contains("Sward.again()"))
    }

    @Test
    fun `a pass that opens nothing any more is fetched anew, and the screen is shown`() {
        val opened = Opened().shown().went("/yards")
        val before = opened.web
        opened.client.onReceivedHttpError(before, Asked("${opened.origin}/yards"), answer(403))
        await("a new way in") { opened.hasPages() && opened.web !== before }
        assertEquals("${opened.origin}/yards", opened.shadow.lastLoadedUrl)
        // A part of a page, and a page that the core itself refuses, are no reason.
        val now = opened.web
        opened.client.onReceivedHttpError(now, Asked("${opened.origin}/live", isPage = false), answer(403))
        opened.client.onReceivedHttpError(now, Asked("${opened.origin}/nothing"), answer(404))
        assertSame(now, opened.web)
    }

    @Test
    fun `screens that break off again and again are told, and tried again by hand`() {
        val opened = Opened().shown().went("/yards")
        repeat(4) {
            if (opened.hasPages()) {
                val before = opened.web
                opened.client.onReceivedError(before, Asked("${opened.origin}/yards"), wrong("net::ERR_CONNECTION_REFUSED"))
                await("another try") { !opened.hasPages() || opened.web !== before }
            }
            await("its end") { opened.hasPages() || opened.activity.text().contains(app.getString(R.string.screen_breaks_off)) }
        }
        assertFalse(opened.hasPages())
        assertTrue(opened.activity.text().contains(app.getString(R.string.screen_still)))
        opened.activity.tap(app.getString(R.string.screen_again))
        opened.shown()
        assertEquals("${opened.origin}/yards", opened.shadow.lastLoadedUrl)
    }

    @Test
    fun `going back to an answered form goes on to the form before it`() {
        val opened = Opened().shown()
        opened.shadow.pushEntryToHistory("${opened.origin}/yards/new")
        opened.shadow.pushEntryToHistory("${opened.origin}/yards/new")
        opened.went("/yards/new")
        val before = opened.web
        opened.client.onReceivedError(before, Asked("${opened.origin}/yards/new"), wrong("net::ERR_CACHE_MISS"))
        assertEquals(1, opened.shadow.goBackInvocations)
        assertSame(before, opened.web)
        val sent = android.os.Message.obtain()
        val handled = mutableListOf<Int>()
        sent.target = object : android.os.Handler(android.os.Looper.getMainLooper()) {
            override fun handleMessage(message: android.os.Message) { handled += message.what }
        }
        sent.what = 7
        opened.client.onFormResubmission(opened.web, sent, null)
        shadowOf(android.os.Looper.getMainLooper()).idle()
        assertEquals(listOf(7), handled)
    }

    @Test
    fun `pages whose drawing ended are drawn anew`() {
        val opened = Opened().shown().went("/yards")
        val before = opened.web
        assertTrue(opened.client.onRenderProcessGone(before, null))
        await("new pages") { opened.hasPages() && opened.web !== before }
        assertEquals("${opened.origin}/yards", opened.shadow.lastLoadedUrl)
        // While nobody looks, nothing is drawn; then it is.
        opened.went("/crew")
        opened.away()
        assertTrue(opened.client.onRenderProcessGone(opened.web, null))
        shadowOf(android.os.Looper.getMainLooper()).idle()
        assertFalse(opened.hasPages())
        opened.back()
        opened.shown()
        assertEquals("${opened.origin}/crew", opened.shadow.lastLoadedUrl)
    }

    @Test
    fun `a book that does not open is told with its reason, and opens later`() {
        var trouble: SwardException? = SwardException.Newer("A newer version wrote this book: update.")
        Core.instead(app) { trouble?.let { throw it } ?: phone.book }
        val opened = Opened()
        await("the reason") { opened.activity.text().contains("A newer version wrote this book: update.") }
        assertTrue(opened.activity.text().contains(app.getString(R.string.screen_not_started)))
        assertFalse(opened.hasPages())
        opened.activity.onBackPressed()
        trouble = null
        opened.activity.tap(app.getString(R.string.screen_again))
        opened.shown()
    }

    @Test
    fun `an intent of another app leads to no odd place`() {
        val odd = listOf("//example.org", "/enter?token=a", "http://example.org", "/../..", "\u0000", "/" + "a".repeat(100_000))
        for (path in odd) {
            val opened = Opened(Intent(app, ScreensActivity::class.java).putExtra("path", path)).shown()
            val loaded = opened.shadow.lastLoadedUrl!!
            assertTrue(loaded, loaded == "${opened.origin}/" || loaded == "${opened.origin}/../..")
            opened.killed()
        }
        val notText = Intent(app, ScreensActivity::class.java).putExtra("path", intArrayOf(1))
        assertEquals("/", Uri.parse(Opened(notText).shown().shadow.lastLoadedUrl).path)
        val ours = Opened(ScreensActivity.at(app, "/crew")).shown()
        assertEquals("${ours.origin}/crew", ours.shadow.lastLoadedUrl)
        val web = ours.web
        ours.asked(ScreensActivity.at(app, "/yards"))
        assertSame(web, ours.web)
        assertEquals("${ours.origin}/yards", ours.shadow.lastLoadedUrl)
        ours.asked(null)
        assertEquals("${ours.origin}/yards", ours.shadow.lastLoadedUrl)
    }

    // ---- Files.

    @Test
    fun `a page gets the file that the person chose, and no other`() {
        val opened = Opened().shown()
        val got = mutableListOf<List<Uri>?>()
        val ask = { assertTrue(opened.chrome.onShowFileChooser(opened.web, ValueCallback { got += it?.toList() }, null)) }
        ask()
        val choose = opened.activity.started()!!
        assertEquals(Intent.ACTION_OPEN_DOCUMENT, choose.action)
        assertTrue(choose.hasCategory(Intent.CATEGORY_OPENABLE))
        val file = Uri.parse("content://org.example.documents/document/1")
        val answer = { uri: Uri?, code: Int -> opened.result(FileChoice.REQUEST, code, uri?.let { Intent().setData(it) }) }
        answer(file, Activity.RESULT_OK)
        assertEquals(listOf(file), got.last())
        ask()
        answer(null, Activity.RESULT_CANCELED)
        assertNull(got.last())
        val refused = listOf(
            Uri.fromFile(java.io.File(app.noBackupFilesDir, "book/keys")), Uri.parse("http://example.org/"), null,
            Uri.parse("content://org.swardbook.shell.files/a/b"), Uri.parse("content://0@org.swardbook.shell.files/a/b"),
            Uri.parse("content:opaque"), Uri.parse("content:///a"),
        )
        for (uri in refused) {
            ask()
            val before = got.size
            answer(uri, Activity.RESULT_OK)
            assertEquals("$uri", before + 1, got.size)
            assertNull("$uri", got.last())
        }
        // Asked twice, the first gets nothing; a page that went gets nothing either.
        ask()
        val before = got.size
        ask()
        assertEquals(before + 1, got.size)
        assertNull(got.last())
        opened.killed()
        assertEquals(before + 2, got.size)
    }

    @Test
    fun `a file chosen for a program that was killed meanwhile is asked for again`() {
        val opened = Opened().shown()
        opened.result(FileChoice.REQUEST, Activity.RESULT_OK, Intent().setData(Uri.parse("content://org.example/1")))
        assertEquals(app.getString(R.string.screen_choose_again), ShadowToast.getTextOfLatestToast())
    }

    @Test
    fun `a file that a page gives is handed over, one of another place is not`() {
        val opened = Opened().shown()
        val given = { url: String, told: String -> opened.shadow.downloadListener.onDownloadStart(url, "", told, "text/csv", 9) }
        given("${opened.origin}/file/a", "attachment; filename=\"2026-06-15.csv\"")
        val hand = opened.activity.started()!!
        assertEquals("org.swardbook.shell.file.HandOverActivity", hand.component!!.className)
        assertEquals("2026-06-15.csv", hand.getStringExtra("name"))
        given("http://127.0.0.1:${opened.port + 1}/file/a", "attachment; filename=\"a.csv\"")
        given("http://example.org/a.apk", "attachment; filename=\"a.apk\"")
        given("data:text/csv,a", "")
        assertNull(opened.activity.started())
    }

    // ---- Walks.

    @Test
    fun `a page that measures by a walk can record it with the screen dark`() {
        shadowOf(app.packageManager).setSystemFeature(android.content.pm.PackageManager.FEATURE_LOCATION_GPS, true)
        val opened = Opened().shown().went("/visit/a/measure")
        val button = { opened.activity.findViewById<android.view.View>(R.id.screens_walk).visibility == android.view.View.VISIBLE }
        assertFalse(button())
        opened.shadow.lastEvaluatedJavascriptCallback.onReceiveValue("true")
        assertTrue(button())
        opened.activity.tap(app.getString(R.string.screen_walk))
        assertEquals("org.swardbook.shell.walk.WalkActivity", opened.activity.started()!!.component!!.className)
        opened.went("/yards")
        assertFalse(button())
        opened.shadow.lastEvaluatedJavascriptCallback.onReceiveValue("null")
        assertFalse(button())
    }

    @Test
    fun `the first screen says when the phone may not ring`() {
        org.robolectric.shadows.ShadowAlarmManager.setCanScheduleExactAlarms(false)
        val opened = Opened().shown().went("/")
        val button = { opened.activity.findViewById<android.view.View>(R.id.screens_allowed).visibility == android.view.View.VISIBLE }
        assertTrue(button())
        opened.went("/yards")
        assertFalse(button())
        opened.went("/")
        opened.activity.tap(app.getString(R.string.screen_allowed))
        assertNotNull(opened.activity.started())
    }

    private fun answer(status: Int) = WebResourceResponse("text/html", "utf-8", status, "Told", emptyMap(), ByteArrayInputStream(ByteArray(0)))

    private fun wrong(what: String) = object : WebResourceError() {
        override fun getErrorCode() = -1
        override fun getDescription(): CharSequence = what
    }
}
