package org.swardbook.shell

import android.Manifest.permission.ACCESS_COARSE_LOCATION
import android.Manifest.permission.ACCESS_FINE_LOCATION
import android.app.Activity
import android.app.NotificationManager
import android.content.Intent
import android.location.Location
import android.location.LocationManager
import android.os.SystemClock
import org.junit.After
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.android.controller.ActivityController
import org.swardbook.practice.Phone
import org.swardbook.shell.core.Core
import org.swardbook.shell.file.HandOverActivity
import org.swardbook.shell.file.OpenFileViews
import org.swardbook.shell.file.Outcome
import org.swardbook.shell.screen.ScreensActivity
import org.swardbook.shell.support.Drawn
import org.swardbook.shell.support.Look
import org.swardbook.shell.support.assertUsable
import org.swardbook.shell.support.await
import org.swardbook.shell.support.forgetWalk
import org.swardbook.shell.support.settle
import org.swardbook.shell.support.text
import org.swardbook.shell.walk.WalkActivity
import org.swardbook.shell.walk.WalkService
import uniffi.sward.JoinRequest
import uniffi.sward.PersonTold
import uniffi.sward.SwapProgress
import uniffi.sward.SwardException
import uniffi.sward.TakenFile

/** What a person sees of files, walks, and of screens that do not open: in each look. */
@RunWith(RobolectricTestRunner::class)
class FilesAndWalksDrawnTest {
    private val app = RuntimeEnvironment.getApplication()
    private val phones = mutableListOf<Phone>()

    @Before
    fun begin() = forgetWalk()

    @After
    fun end() = phones.forEach(Phone::close)

    private fun phone(look: Look) = Phone(languages = look.language).also(phones::add).found()

    private fun compare(name: String, look: Look, activity: Activity) {
        val picture = Drawn.of(activity)
        activity.assertUsable()
        Drawn.compare(name, look, picture)
    }

    /** A surface of files in each look, with what it is told: digits of a real crew are others each time. */
    private fun files(name: String, show: OpenFileViews.() -> Unit) {
        for (look in Look.ALL) {
            look.set()
            val controller = Robolectric.buildActivity(Activity::class.java).setup()
            OpenFileViews(controller.get(), controller.get()).show()
            compare(name, look, controller.get())
            controller.pause().stop().destroy()
        }
    }

    /** An activity in each look, once it shows what it has to. */
    private fun <A : Activity> activity(name: String, kind: Class<A>, intent: Intent, says: Int, prepare: (Look) -> Unit) {
        for (look in Look.ALL) {
            look.set()
            prepare(look)
            val controller: ActivityController<A> = Robolectric.buildActivity(kind, intent).setup()
            val words = app.createConfigurationContext(controller.get().resources.configuration).getString(says)
            await(words) { controller.get().text().contains(words) }
            compare(name, look, controller.get())
            controller.pause().stop().destroy()
        }
    }

    @Test
    fun `asking before a locked file is taken in`() = files("file-take") {
        askToTake("swardbook-2026-06-15-a1b2.swlock", 48_300, isAgain = true, take = {}, leave = {})
    }

    @Test
    fun `a file that is taken in`() = files("file-taking") {
        showTaking(SwapProgress.Taking(entries = 130uL, of = 200uL)) {}
    }

    @Test
    fun `a file that brought this phone into the crew`() = files("file-taken") {
        val taken = TakenFile(
            newEntries = 12uL, knownEntries = 3uL, madeBy = "Núria Sample", makerIsOfTheCrew = false,
            joined = "01234 56789 01234 56789", refused = listOf("Ona Sample: …"), clockNoted = true,
        )
        show(Outcome.ofTaken(words, taken)) {}
    }

    @Test
    fun `a request to join`() = files("file-admit") {
        askToAdmit(JoinRequest(PersonTold("Tomás Sample", "PR-7"), "01234 56789 01234 56789"), admit = {}, leave = {})
    }

    @Test
    fun `a locked file that is ready to be handed over`() = activity(
        "hand-over", HandOverActivity::class.java,
        HandOverActivity.ofPage(app, "http://127.0.0.1:1/crew/swap", "swardbook-2026-06-15-a1b2.swlock"), R.string.hand_locked,
    ) { look ->
        val phone = phone(look)
        phones += phone.joined()
        Core.instead(app) { phone.book }
    }

    @Test
    fun `a walk without the permission and without notices`() {
        shadowOf(app.getSystemService(NotificationManager::class.java)).setNotificationsEnabled(false)
        activity("walk-not-allowed", WalkActivity::class.java, Intent(), R.string.walk_not_allowed) { look ->
            val phone = phone(look)
            Core.instead(app) { phone.book }
        }
    }

    @Test
    fun `a walk that is recorded`() {
        shadowOf(app).grantPermissions(ACCESS_FINE_LOCATION, ACCESS_COARSE_LOCATION)
        val gps = shadowOf(app.getSystemService(LocationManager::class.java))
        gps.setProviderEnabled(LocationManager.GPS_PROVIDER, true)
        val service = Robolectric.buildService(WalkService::class.java).create()
        activity("walk-going", WalkActivity::class.java, Intent(), R.string.walk_stop) { look ->
            val phone = phone(look)
            val core = Core.instead(app) { phone.book }
            WalkService.stop(app)
            service.get().onStartCommand(shadowOf(app).nextStartedService, 0, 1)
            WalkService.start(app)
            service.get().onStartCommand(shadowOf(app).nextStartedService, 0, 1)
            core.settle()
            repeat(3) {
                SystemClock.sleep(1000)
                val fix = Location(LocationManager.GPS_PROVIDER).apply {
                    latitude = 40.0
                    longitude = -84.0
                    accuracy = 3.4f
                    elapsedRealtimeNanos = SystemClock.elapsedRealtimeNanos()
                }
                gps.simulateLocation(fix)
                core.settle()
            }
        }
        service.destroy()
    }

    @Test
    fun `screens that do not open`() = activity("screens-not-started", ScreensActivity::class.java, Intent(), R.string.screen_not_started) {
        Core.instead(app) { throw SwardException.Newer("…") }
    }
}
