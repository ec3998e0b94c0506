package org.swardbook.shell.keepoff

import android.app.Notification
import android.app.NotificationChannel
import android.app.NotificationManager
import android.content.Intent
import java.util.concurrent.CountDownLatch
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNotNull
import org.junit.Assert.assertNull
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.robolectric.shadows.ShadowAlarmManager
import org.swardbook.practice.HOUR_MS
import org.swardbook.practice.NOON_UTC_MS
import org.swardbook.practice.Treated
import org.swardbook.shell.R
import org.swardbook.shell.allowed.Allowed
import org.swardbook.shell.core.Core
import org.swardbook.shell.support.RingingPhone
import org.swardbook.shell.support.await
import org.swardbook.shell.support.settle
import org.swardbook.shell.support.tap
import org.swardbook.shell.support.text
import uniffi.sward.RingFor

/** Alarms from a real book to a real notification, through the receivers of the manifest. */
@RunWith(RobolectricTestRunner::class)
class AlarmsTest : RingingPhone() {
    private fun arm() = Alarms.arm(app)

    private fun standing(treated: Treated): Notification? = notice("standing", treated)

    private fun call(treated: Treated): Notification? = notice("call", treated)

    private fun notice(channel: String, treated: Treated): Notification? =
        notices.activeNotifications
            .find { it.notification.channelId == channel && it.tag == "${treated.visit}/${treated.keepOff}" }
            ?.notification

    @Test
    fun `a finished treatment is armed to the millisecond and stands among the notices`() {
        val treated = phone.treated()
        arm()
        val alarm = armed().single()
        assertEquals(NOON_UTC_MS + 4 * HOUR_MS, alarm.triggerAtMs)
        assertNotNull("a clock that the phone must ring", alarm.alarmClockInfo)
        val standing = standing(treated)!!
        assertTrue(standing.title().contains("front") && standing.title().contains("Corner lot"))
        assertTrue("it counts down", standing.extras.getBoolean(Notification.EXTRA_CHRONOMETER_COUNT_DOWN))
        assertEquals(NOON_UTC_MS + 4 * HOUR_MS, standing.`when`)
        assertTrue("not to be wiped away", standing.flags and Notification.FLAG_ONGOING_EVENT != 0)
        assertNull("nobody is called yet", call(treated))
    }

    @Test
    fun `a wait that is over calls for a look, and dry is asked once more before it is written down`() {
        val treated = phone.treated()
        arm()
        pass(4 * HOUR_MS)
        ring()
        val call = call(treated)!!
        assertEquals(app.getString(R.string.look_title, "front, Corner lot"), call.title())
        assertTrue(call.words().contains(string(R.string.look_spray)))
        assertNotNull("over the lock screen", call.fullScreenIntent)
        assertTrue("until it is seen", call.flags and Notification.FLAG_INSISTENT != 0)
        assertEquals(listOf(string(R.string.still_wet), string(R.string.looked_dry)), call.actions.map { it.title.toString() })
        assertTrue(phone.book.keepOff(treated.visit, treated.keepOff).keepsOff)

        call.actions[1].actionIntent.send()
        val asked = shadowOf(app).nextStartedActivity
        assertEquals(DryActivity::class.java.name, asked.component!!.className)
        val dry = Robolectric.buildActivity(DryActivity::class.java, asked).setup().get()
        core.settle()
        assertTrue("asking ends nothing", phone.book.keepOff(treated.visit, treated.keepOff).keepsOff)
        dry.tap(string(R.string.dry_yes))
        core.settle()
        assertFalse(phone.book.keepOff(treated.visit, treated.keepOff).keepsOff)
        assertTrue(dry.text().contains(string(R.string.dry_done)))
        assertNull(standing(treated))
        assertNull(call(treated))
    }

    @Test
    fun `still wet keeps it off and asks again`() {
        val treated = phone.treated()
        arm()
        pass(4 * HOUR_MS)
        ring()
        val before = System.currentTimeMillis()
        call(treated)!!.actions[0].actionIntent.send()
        idle()
        assertNull("the call is answered", call(treated))
        assertTrue(phone.book.keepOff(treated.visit, treated.keepOff).keepsOff)
        val again = armed().single()
        assertTrue(again.triggerAtMs >= before + Alarms.ASK_AGAIN_MS)
        arm()
        assertEquals("arming leaves it", again.triggerAtMs, armed().single().triggerAtMs)
        ring()
        assertNotNull(call(treated))
    }

    @Test
    fun `a wait without a look is over by time, and says to look all the same`() {
        val treated = phone.treated(phone.label("keep_off_until_dry" to "no", "method" to "granule"))
        arm()
        pass(4 * HOUR_MS)
        ring()
        val call = call(treated)!!
        assertEquals(app.getString(R.string.over_title, "front, Corner lot"), call.title())
        assertTrue(call.words().contains(string(R.string.look_granule)))
        assertTrue(call.words().contains(string(R.string.label_is_law)))
        assertNull(standing(treated))
        arm()
        assertNotNull("it stays until it was seen", call(treated))
    }

    @Test
    fun `what was treated again meanwhile does not ring`() {
        val treated = phone.treated()
        arm()
        pass(3 * HOUR_MS)
        phone.book.recordLoad(treated.visit, listOf(treated.keepOff), "1 lb", null, phone.clock.utcMs())
        pass(HOUR_MS)
        ring()
        assertNull(call(treated))
        assertTrue(phone.book.keepOff(treated.visit, treated.keepOff).keepsOff)
        assertNotNull(standing(treated))
    }

    @Test
    fun `after a new start everything is armed anew, and the time is uncertain, never over`() {
        val treated = phone.treated(phone.label("keep_off_until_dry" to "no"))
        arm()
        forget()
        phone.clock.vouch(false)
        phone.clock.reboot()
        pass(6 * HOUR_MS)
        wake(Intent.ACTION_BOOT_COMPLETED)
        assertEquals(NOON_UTC_MS + 4 * HOUR_MS, armed().single().triggerAtMs)
        ring()
        val call = call(treated)!!
        assertEquals(app.getString(R.string.uncertain_title, "front, Corner lot"), call.title())
        assertFalse(call.words().contains(string(R.string.over_line)))
        assertTrue("called once for it", armed().isEmpty())
        arm()
        assertTrue(armed().isEmpty())

        phone.book.personConfirmsTime()
        arm()
        assertEquals(app.getString(R.string.over_title, "front, Corner lot"), call(treated)?.title())
    }

    @Test
    fun `what ended while the phone was off is told late`() {
        val treated = phone.treated(phone.label("keep_off_until_dry" to "no"))
        arm()
        forget()
        pass(9 * HOUR_MS)
        wake(Intent.ACTION_BOOT_COMPLETED)
        assertEquals(app.getString(R.string.over_title, "front, Corner lot"), call(treated)?.title())
    }

    @Test
    fun `each event that takes alarms away arms them anew, and no other does`() {
        phone.treated()
        for (action in WakeReceiver.AWAITED) {
            forget()
            wake(action)
            assertEquals(action, 1, armed().size)
        }
        forget()
        wake("org.swardbook.shell.SOMETHING_ELSE")
        WakeReceiver().onReceive(app, Intent("android.intent.action.AIRPLANE_MODE"))
        core.settle()
        assertTrue(armed().isEmpty())
    }

    @Test
    fun `records that came by a swap are armed`() {
        phone.joined().use { other ->
            other.treated(other.label())
            arm()
            assertTrue(armed().isEmpty())
            other.giveTo(phone)
            arm()
            assertEquals(1, armed().size)
        }
    }

    @Test
    fun `a change that anybody makes is armed without being told`() {
        core.watchChanges()
        val treated = phone.treated()
        await("the alarm, and the notice that is shown after it") { armed().size == 1 && standing(treated) != null }
    }

    @Test
    fun `where exact alarms are not allowed they still ring, and that is told`() {
        ShadowAlarmManager.setCanScheduleExactAlarms(false)
        phone.treated()
        arm()
        val alarm = armed().single()
        assertNull(alarm.alarmClockInfo)
        assertTrue("while the phone dozes too", alarm.isAllowWhileIdle)
        assertFalse(Alarms.areExact(app))
    }

    @Test
    fun `a book that cannot be read leaves every alarm as it was, and rings all the same`() {
        val treated = phone.treated()
        arm()
        phone.book.shut()
        val broken = Core.instead(app) { throw uniffi.sward.SwardException.Newer("update this program") }
        arm()
        assertEquals("nothing is taken back", 1, armed().size)
        val told = notices.activeNotifications.find { it.notification.channelId == "book" }
        assertTrue(told!!.notification.words().contains("update this program"))
        val alarm = armed().first()
        alarm.operation!!.send()
        idle(broken)
        assertEquals(string(R.string.unreadable_title), call(treated)?.title())
        phone.book = phone.open()
    }

    @Test
    fun `after a new start with a book that cannot be read, what was armed rings`() {
        val later = Which("0190-aa", "0190-bb")
        val soon = Ringing(later, System.currentTimeMillis() + HOUR_MS, RingFor.LOOK)
        val past = Ringing(Which("0190-aa", "0190-cc"), System.currentTimeMillis() - HOUR_MS, RingFor.LOOK)
        listOf(soon, past).forEach(Armed(app)::add)
        val broken = Core.instead(app) { throw IllegalStateException("whatever else") }
        repeat(2) {
            forget()
            app.sendBroadcast(Intent(Intent.ACTION_BOOT_COMPLETED).setPackage(app.packageName))
            idle(broken)
            assertEquals(soon.atDeviceUtcMs, armed().single().triggerAtMs)
            val calls = notices.activeNotifications.filter { it.notification.channelId == "call" }
            assertEquals(if (it == 0) listOf("${past.which}") else emptyList(), calls.map { call -> call.tag })
            notices.cancelAll()
        }
        forget()
        AlarmReceiver().onReceive(app, Alarms.about(app, later, AlarmReceiver::class.java))
        idle(broken)
        val call = notices.activeNotifications.single { it.notification.channelId == "call" }
        assertEquals(string(R.string.unreadable_title), call.notification.title())
    }

    @Test
    fun `still wet is asked again after a new start too`() {
        val treated = phone.treated()
        arm()
        pass(4 * HOUR_MS)
        ring()
        call(treated)!!.actions[0].actionIntent.send()
        idle()
        val again = armed().single().triggerAtMs
        forget()
        wake(Intent.ACTION_BOOT_COMPLETED)
        assertEquals(again, armed().single().triggerAtMs)
    }

    @Test
    fun `no alarm waits for long work`() {
        val treated = phone.treated()
        arm()
        pass(4 * HOUR_MS)
        val working = CountDownLatch(1)
        core.work { working.await() }
        try {
            nextAlarm().send()
            await("the call") { call(treated) != null }
        } finally {
            working.countDown()
        }
    }

    @Test
    fun `calls that are muted count as not allowed`() {
        phone.treated()
        arm()
        assertTrue(Allowed.NOTICES.isGranted(app))
        val muted = NotificationChannel("call", "…", NotificationManager.IMPORTANCE_NONE)
        notices.deleteNotificationChannel("call")
        notices.createNotificationChannel(muted)
        assertFalse(Allowed.NOTICES.isGranted(app))
    }

    @Test
    fun `shutting while others ask is told to nobody as a fault`() {
        phone.yard()
        val shutting = Thread { repeat(100) { core.shut() } }
        shutting.start()
        while (shutting.isAlive) {
            try {
                core.call { it.yards() }
            } catch (_: uniffi.sward.SwardException.Closed) {
                // Shut a second time meanwhile.
            }
        }
        phone.book = core.book()
    }

    @Test
    fun `a notice that was wiped away comes back`() {
        val treated = phone.treated()
        arm()
        val wiped = standing(treated)!!.deleteIntent
        notices.cancelAll()
        wiped.send()
        idle()
        assertNotNull(standing(treated))
    }

    @Test
    fun `more keep-offs than notices are told by their number`() {
        val label = phone.label()
        repeat(Notices.STANDING_MOST + 3) { phone.treated(label, phone.yard("Lot $it")) }
        arm()
        val standing = notices.activeNotifications.filter { it.notification.channelId == "standing" }
        assertEquals(Notices.STANDING_MOST + 1, standing.size)
        assertTrue(standing.any { it.notification.title() == app.resources.getQuantityString(R.plurals.more_keep_offs, 3, 3) })
        assertEquals("and every one of them rings", Notices.STANDING_MOST + 3, armed().size)
    }

    @Test
    fun `what another app could send is not read as a keep-off`() {
        for (data in listOf(null, "swardbook:keep-off/../../x", "swardbook:keep-off/", "content://evil/1")) {
            val intent = Intent(app, AlertActivity::class.java).setData(data?.let(android.net.Uri::parse))
            assertNull(Alarms.whichOf(intent))
            val activity = Robolectric.buildActivity(AlertActivity::class.java, intent).setup().get()
            assertTrue(activity.isFinishing)
            AlarmReceiver().onReceive(app, intent)
            StillWetReceiver().onReceive(app, intent)
            core.settle()
        }
        assertTrue(armed().isEmpty())
    }
}
