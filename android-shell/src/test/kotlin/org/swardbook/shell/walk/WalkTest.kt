package org.swardbook.shell.walk

import android.Manifest.permission.ACCESS_COARSE_LOCATION
import android.Manifest.permission.ACCESS_FINE_LOCATION
import android.app.Notification
import android.app.NotificationManager
import android.content.Intent
import android.location.Location
import android.location.LocationManager
import android.os.SystemClock
import org.junit.After
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.android.controller.ActivityController
import org.robolectric.android.controller.ServiceController
import org.swardbook.practice.MINUTE_MS
import org.swardbook.practice.Phone
import org.swardbook.shell.R
import org.swardbook.shell.core.Core
import org.swardbook.shell.screen.Entrance
import org.swardbook.shell.support.Http
import org.swardbook.shell.support.answered
import org.swardbook.shell.support.await
import org.swardbook.shell.support.forgetWalk
import org.swardbook.shell.support.settle
import org.swardbook.shell.support.started
import org.swardbook.shell.support.tap
import org.swardbook.shell.support.text
import uniffi.sward.TimeProof

/** A walk with the screen dark: recorded by the service, held by the real core, offered to the page. */
@RunWith(RobolectricTestRunner::class)
class WalkTest {
    private val app = RuntimeEnvironment.getApplication()
    private val phone = Phone().found()
    private val core = Core.instead(app) { phone.book }
    private val manager = app.getSystemService(LocationManager::class.java)
    private val gps = shadowOf(manager)
    private val notices = shadowOf(app.getSystemService(NotificationManager::class.java))
    private var service: ServiceController<WalkService>? = null

    @Before
    fun allow() {
        shadowOf(app).grantPermissions(ACCESS_FINE_LOCATION, ACCESS_COARSE_LOCATION)
        gps.setProviderEnabled(LocationManager.GPS_PROVIDER, true)
        forgetWalk()
    }

    @After
    fun end() {
        service?.destroy()
        phone.close()
    }

    /** Carries out what a screen asks of the service, as the system does. */
    private fun service(intent: Intent?) {
        val running = service ?: Robolectric.buildService(WalkService::class.java).create().also { service = it }
        running.get().onStartCommand(intent, 0, 1)
        core.settle()
    }

    private fun asked(): Intent = shadowOf(app).nextStartedService

    private fun begin() {
        WalkService.start(app)
        service(asked())
    }

    private fun stop() {
        WalkService.stop(app)
        service(asked())
    }

    private fun fix(lat: Double, lon: Double = -84.0, change: (Location) -> Unit = {}) {
        val location = Location(LocationManager.GPS_PROVIDER)
        location.latitude = lat
        location.longitude = lon
        location.accuracy = 3.4f
        location.time = phone.clock.utcMs()
        SystemClock.sleep(1000)
        location.elapsedRealtimeNanos = SystemClock.elapsedRealtimeNanos()
        change(location)
        gps.simulateLocation(location)
        core.settle()
    }

    private fun pageHas(): Int {
        val screens = phone.book.startScreens()
        val pass = Entrance.pass(screens).substringBefore(';')
        return Regex("utc_ms").findAll(Http.get(screens.port.toInt(), "/walk", "Cookie: $pass").body).count()
    }

    @Test
    fun `fixes go to the core, and the page gets them`() {
        begin()
        assertTrue(phone.book.walk().recording)
        val notice = notices.getNotification(61) ?: shadowOf(service!!.get()).lastForegroundNotification
        assertEquals(app.getString(R.string.walk_notice), notice.extras.getString(Notification.EXTRA_TITLE))
        for (n in 0..4) fix(40.0 + n * 0.0001)
        assertEquals(5u, phone.book.walk().fixes)
        val going = WalkService.state as WalkState.Going
        assertEquals(5, going.fixes)
        // Rounded up: 3.4 m is never told as 3.
        assertEquals("5 fixes · ± 4 m", WalkWords.of(app, going).replace('\u00A0', ' '))
        stop()
        assertFalse(phone.book.walk().recording)
        assertEquals(WalkState.Ended, WalkService.state)
        assertTrue(gps.locationUpdateListeners.isEmpty())
        assertTrue(shadowOf(service!!.get()).isStoppedBySelf)
        fix(41.0)
        assertEquals(5, pageHas())
    }

    @Test
    fun `where the phone was before, and what is told twice, is no corner`() {
        begin()
        fix(40.0) { it.elapsedRealtimeNanos = 1 }
        assertEquals(0u, phone.book.walk().fixes)
        var told = 0L
        fix(40.0) { told = it.elapsedRealtimeNanos }
        fix(40.0) { it.elapsedRealtimeNanos = told }
        assertEquals(1u, phone.book.walk().fixes)
    }

    @Test
    fun `a place that is not on earth is left out`() {
        begin()
        fix(40.0)
        for (place in listOf(Double.NaN, Double.POSITIVE_INFINITY)) fix(place)
        fix(40.0001)
        assertEquals(2u, phone.book.walk().fixes)
        assertTrue(WalkService.state is WalkState.Going)
    }

    @Test
    fun `a second start begins nothing anew, and a new walk lets the old go`() {
        begin()
        fix(40.0)
        begin()
        assertEquals(1u, phone.book.walk().fixes)
        stop()
        service!!.destroy()
        service = null
        begin()
        assertEquals(0u, phone.book.walk().fixes)
    }

    @Test
    fun `satellites prove the time, another app's fix does not`() {
        phone.clock.vouch(false)
        phone.clock.reboot()
        // The practice clock has run at least as long as the phone that Robolectric plays.
        phone.clock.letPass((SystemClock.elapsedRealtime() + MINUTE_MS).toULong())
        val atNow = { location: Location -> location.elapsedRealtimeNanos = phone.clock.sinceBootMs().toLong() * 1_000_000 }
        assertEquals(TimeProof.UNPROVEN, phone.book.time().proof)
        begin()
        fix(40.0) {
            atNow(it)
            it.isMock = true
        }
        assertEquals(TimeProof.UNPROVEN, phone.book.time().proof)
        assertTrue((WalkService.state as WalkState.Going).isSimulated)
        assertEquals(1u, phone.book.walk().fixes)
        phone.clock.letPass(1_000uL)
        fix(40.0001, change = atNow)
        assertEquals(TimeProof.NETWORK, phone.book.time().proof)
        assertEquals(2u, phone.book.walk().fixes)
    }

    @Test
    fun `without the permission nothing starts, and it is told`() {
        shadowOf(app).denyPermissions(ACCESS_FINE_LOCATION, ACCESS_COARSE_LOCATION)
        assertEquals(Receiver.NOT_ALLOWED, Receiver.of(app))
        val screen = screen()
        assertTrue(screen.get().text().contains(app.getString(R.string.walk_not_allowed)))
        screen.get().tap(app.getString(R.string.walk_allow))
        val asked = shadowOf(screen.get()).lastRequestedPermission
        screen.get().answered(asked.requestCode, asked.requestedPermissions, isAllowed = false)
        // Refused for good: only the settings help now.
        screen.get().tap(app.getString(R.string.walk_allow))
        assertEquals(android.provider.Settings.ACTION_APPLICATION_DETAILS_SETTINGS, screen.get().started()!!.action)
        shadowOf(app).grantPermissions(ACCESS_COARSE_LOCATION)
        await("the rough place") { screen.get().text().contains(app.getString(R.string.walk_rough)) }
        shadowOf(app).grantPermissions(ACCESS_FINE_LOCATION)
        await("the start") { screen.get().text().contains(app.getString(R.string.walk_start)) }
        screen.get().tap(app.getString(R.string.walk_start))
        service(asked())
        await("the stop") { screen.get().text().contains(app.getString(R.string.walk_stop)) }
        screen.get().tap(app.getString(R.string.walk_stop))
        service(asked())
        await("the end") { screen.get().text().contains(app.getString(R.string.walk_ended)) }
    }

    @Test
    fun `a location that is turned off is waited for`() {
        gps.setProviderEnabled(LocationManager.GPS_PROVIDER, false)
        begin()
        assertEquals(app.getString(R.string.walk_off), WalkWords.of(app, WalkService.state))
        gps.setProviderEnabled(LocationManager.GPS_PROVIDER, true)
        core.settle()
        assertEquals(app.getString(R.string.walk_waiting), WalkWords.of(app, WalkService.state))
        fix(40.0)
        assertEquals(1u, phone.book.walk().fixes)
        gps.setProviderEnabled(LocationManager.GPS_PROVIDER, false)
        core.settle()
        assertEquals(app.getString(R.string.walk_off), WalkWords.of(app, WalkService.state))
    }

    @Test
    fun `a book that was opened anew has lost the walk, and it is told`() {
        Core.instead(app) { if (phone.book.isOpen()) phone.book else phone.open().also { phone.book = it } }
        begin()
        fix(40.0)
        phone.book.shut()
        fix(40.0001)
        await("its end") { WalkService.state is WalkState.BrokenOff }
        assertTrue(gps.locationUpdateListeners.isEmpty())
        assertEquals(app.getString(R.string.walk_broken_off), notices.getNotification(62).extras.getString(Notification.EXTRA_TEXT))
    }

    @Test
    fun `a service that the system starts again without a tap records nothing`() {
        service(null)
        assertTrue(WalkService.state is WalkState.BrokenOff)
        assertTrue(gps.locationUpdateListeners.isEmpty())
        assertFalse(phone.book.walk().recording)
        service(Intent("org.example.ODD"))
        assertTrue(WalkService.state is WalkState.BrokenOff)
        assertFalse(phone.book.walk().recording)
    }

    @Test
    fun `a walk that holds no more stops and keeps what it has`() {
        begin()
        val full = Location(LocationManager.GPS_PROVIDER).apply {
            latitude = 40.0
            longitude = -84.0
        }
        repeat(4_999) { phone.book.addFix(Fixes.fixOf(full)) }
        fix(40.0)
        assertTrue(WalkService.state is WalkState.Going)
        fix(40.0001)
        assertEquals(WalkState.Full, WalkService.state)
        assertEquals(5_000u, phone.book.walk().fixes)
        assertFalse(phone.book.walk().recording)
    }

    @Test
    fun `no other app starts or stops a walk`() {
        val info = app.packageManager.getServiceInfo(
            android.content.ComponentName(app, WalkService::class.java), android.content.pm.PackageManager.ComponentInfoFlags.of(0),
        )
        assertFalse(info.exported)
        assertEquals(android.content.pm.ServiceInfo.FOREGROUND_SERVICE_TYPE_LOCATION, info.foregroundServiceType)
    }

    private fun screen(): ActivityController<WalkActivity> =
        Robolectric.buildActivity(WalkActivity::class.java).setup().also { core.settle() }
}
