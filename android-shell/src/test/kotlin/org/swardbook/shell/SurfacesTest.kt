package org.swardbook.shell

import android.app.Activity
import android.app.Application
import android.content.Intent
import android.os.UserManager
import org.junit.After
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.shadows.ShadowAlarmManager
import org.swardbook.practice.HOUR_MS
import org.swardbook.practice.Phone
import org.swardbook.practice.Treated
import org.swardbook.shell.allowed.AllowedActivity
import org.swardbook.shell.core.Core
import org.swardbook.shell.keepoff.AlertActivity
import org.swardbook.shell.keepoff.Alarms
import org.swardbook.shell.keepoff.DryActivity
import org.swardbook.shell.keepoff.Which
import org.swardbook.shell.support.Drawn
import org.swardbook.shell.support.Look
import org.swardbook.shell.support.assertUsable
import org.swardbook.shell.support.settle
import uniffi.sward.SwardException

/** Every native surface as a person sees it: at two sizes, with large letters, by night, in both languages. */
@RunWith(RobolectricTestRunner::class)
class SurfacesTest {
    private val app: Application = RuntimeEnvironment.getApplication()
    private val phones = mutableListOf<Phone>()

    @Before
    fun allow() {
        ShadowAlarmManager.setCanScheduleExactAlarms(true)
    }

    @After
    fun end() = phones.forEach(Phone::close)

    private fun about(treated: Treated, kind: Class<*>): Intent =
        Alarms.about(app, Which(treated.visit, treated.keepOff), kind)

    /** Shows a surface in each look, on a phone of its own that speaks the look's language. */
    private fun <A : Activity> drawn(name: String, kind: Class<A>, prepare: (Phone) -> Intent) {
        for (look in Look.ALL) {
            look.set()
            val phone = Phone(languages = look.language).also(phones::add)
            phone.found()
            val intent = prepare(phone)
            val core = Core.instead(app) { phone.book }
            draw(name, look, kind, intent, core)
        }
    }

    private fun <A : Activity> draw(name: String, look: Look, kind: Class<A>, intent: Intent, core: Core) {
        val controller = Robolectric.buildActivity(kind, intent).setup()
        core.settle()
        val activity = controller.get()
        val picture = Drawn.of(activity)
        activity.assertUsable()
        Drawn.compare(name, look, picture)
        controller.pause().stop().destroy()
    }

    @Test
    fun `the call to look whether it is dry`() = drawn("call-look", AlertActivity::class.java) { phone ->
        val treated = phone.treated()
        phone.clock.letPass((4 * HOUR_MS).toULong())
        about(treated, AlertActivity::class.java)
    }

    @Test
    fun `the call that a wait is over`() = drawn("call-over", AlertActivity::class.java) { phone ->
        val treated = phone.treated(phone.label("keep_off_until_dry" to "no", "method" to "granule"))
        phone.clock.letPass((4 * HOUR_MS).toULong())
        about(treated, AlertActivity::class.java)
    }

    @Test
    fun `the call with an uncertain time`() = drawn("call-uncertain", AlertActivity::class.java) { phone ->
        val treated = phone.treated()
        phone.clock.vouch(false)
        phone.clock.letPass((4 * HOUR_MS).toULong())
        about(treated, AlertActivity::class.java)
    }

    @Test
    fun `the call while the book cannot be read`() {
        for (look in Look.ALL) {
            look.set()
            val core = Core.instead(app) { throw SwardException.Newer("…") }
            val intent = about(Treated("0", "0"), AlertActivity::class.java)
            draw("call-unreadable", look, AlertActivity::class.java, intent, core)
        }
    }

    @Test
    fun `the call before the phone was unlocked`() {
        shadowOf(app.getSystemService(UserManager::class.java)).setUserUnlocked(false)
        for (look in Look.ALL) {
            look.set()
            val core = Core.instead(app) { error("not to be opened") }
            val intent = about(Treated("0", "0"), AlertActivity::class.java)
            draw("call-locked", look, AlertActivity::class.java, intent, core)
        }
    }

    @Test
    fun `asking once more whether it is dry`() = drawn("dry", DryActivity::class.java) { phone ->
        val treated = phone.treated()
        phone.clock.letPass((4 * HOUR_MS).toULong())
        about(treated, DryActivity::class.java)
    }

    @Test
    fun `what the phone allows, with all of it missing`() {
        ShadowAlarmManager.setCanScheduleExactAlarms(false)
        shadowOf(app.getSystemService(android.app.NotificationManager::class.java)).setNotificationsEnabled(false)
        drawn("allowed", AllowedActivity::class.java) { Intent(app, AllowedActivity::class.java) }
    }
}
