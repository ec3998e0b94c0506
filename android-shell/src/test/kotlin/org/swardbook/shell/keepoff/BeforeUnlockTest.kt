package org.swardbook.shell.keepoff

import android.app.Notification
import android.content.ComponentName
import android.content.Intent
import android.os.UserManager
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.Shadows.shadowOf
import org.swardbook.practice.HOUR_MS
import org.swardbook.practice.Phone
import org.swardbook.shell.R
import org.swardbook.shell.core.Device
import org.swardbook.shell.support.RingingPhone
import org.swardbook.shell.support.text
import uniffi.sward.PracticeClock

/** 2100-06-15 12:00 UTC: ahead of the machine's own clock, by which a locked phone knows what is due. */
private const val NOON_UTC_MS_2100 = 4_116_744_000_000L

/** A phone that was restarted and lies there locked: it rings, and says what for once it is unlocked. */
@RunWith(RobolectricTestRunner::class)
class BeforeUnlockTest : RingingPhone(Phone(PracticeClock(NOON_UTC_MS_2100, -240))) {
    /** The phone is restarted, and its book is locked away. */
    private fun restart() {
        switchOff()
        setUnlocked(false)
        wake(Intent.ACTION_LOCKED_BOOT_COMPLETED)
    }

    private fun unlock() {
        setUnlocked(true)
        wake(Intent.ACTION_BOOT_COMPLETED)
        phone.book = core.book()
    }

    private fun setUnlocked(isUnlocked: Boolean) =
        shadowOf(app.getSystemService(UserManager::class.java)).setUserUnlocked(isUnlocked)

    private fun calls(): List<Notification> =
        notices.activeNotifications.map { it.notification }.filter { it.channelId == Notices.CALL }

    private fun Notification.says() = title() + words()

    @Test
    fun `a locked phone rings at the same time, says nothing of whom, and never that it is over`() {
        val treated = phone.treated(phone.label("keep_off_until_dry" to "no", "method" to "granule"))
        Alarms.arm(app)
        val at = armed().single().triggerAtMs
        val yard = phone.book.yards().single().name
        restart()
        assertEquals(at, armed().single().triggerAtMs)
        pass(4 * HOUR_MS)
        ring()
        val words = calls().single().says()
        assertTrue(words, words.contains(string(R.string.unreadable_title)))
        assertTrue(words, words.contains(string(R.string.unlock_first)))
        assertFalse(words, words.contains(yard))
        assertEquals("no book is begun beside the one that is locked away", 0, opened)

        unlock()
        val said = calls().single().says()
        assertFalse("the book is read again: $said", said.contains(string(R.string.unreadable_title)))
        assertTrue(said, said.contains(yard))
        assertTrue(notices.activeNotifications.none { it.notification.channelId == Notices.BOOK })
        assertEquals(treated.keepOff, Which.read(notices.activeNotifications.first { it.tag != null }.tag)?.keepOff)
    }

    @Test
    fun `what turns out to run still is armed once it is unlocked, and no call says any more that nothing can be read`() {
        phone.treated()
        Alarms.arm(app)
        val at = armed().single().triggerAtMs
        restart()
        ring()
        assertEquals(1, calls().size)
        unlock()
        assertEquals(emptyList<String>(), calls().map { it.says() })
        assertEquals(at, armed().single().triggerAtMs)
    }

    @Test
    fun `over the lock screen it says to unlock and leads nowhere that is locked, until it is unlocked`() {
        val treated = phone.treated()
        Alarms.arm(app)
        restart()
        val which = Which(treated.visit, treated.keepOff)
        val shown = Robolectric.buildActivity(AlertActivity::class.java, Alarms.about(app, which, AlertActivity::class.java))
        shown.setup()
        idle()
        val text = shown.get().text()
        assertTrue(text, text.contains(string(R.string.unlock_first)))
        assertTrue(text, text.contains(string(R.string.seen)))
        assertFalse(text, text.contains(string(R.string.to_screens)))
        unlock()
        wake(Intent.ACTION_USER_UNLOCKED)
        val after = shown.get().text()
        assertFalse(after, after.contains(string(R.string.unlock_first)))
        assertTrue(after, after.contains(phone.book.yards().single().name))
        assertTrue(after, after.contains(string(R.string.to_screens)))
        shown.pause().stop().destroy()
    }

    @Test
    fun `a locked phone on which nothing was to ring tells nothing`() {
        restart()
        assertEquals(emptyList<String>(), notices.activeNotifications.map { it.notification.says() })
        assertEquals(0, armed().size)
        unlock()
    }

    @Test
    fun `a clock or zone changed while it is locked arms again and breaks nothing`() {
        phone.treated()
        Alarms.arm(app)
        restart()
        for (action in listOf(Intent.ACTION_TIME_CHANGED, Intent.ACTION_TIMEZONE_CHANGED)) {
            forget()
            wake(action)
            assertEquals(action, 1, armed().size)
        }
        assertEquals(0, opened)
        unlock()
    }

    @Test
    fun `the system starts what rings before the phone is unlocked, and nothing else`() {
        val early = listOf(AlarmReceiver::class.java, WakeReceiver::class.java)
        val late = listOf(StillWetReceiver::class.java, WipedReceiver::class.java)
        for (kind in early + late) {
            assertEquals(kind.name, kind in early, app.packageManager.getReceiverInfo(ComponentName(app, kind), 0).directBootAware)
        }
        val call = app.packageManager.getActivityInfo(ComponentName(app, AlertActivity::class.java), 0)
        assertTrue(call.directBootAware)
        val dry = app.packageManager.getActivityInfo(ComponentName(app, DryActivity::class.java), 0)
        assertFalse(dry.directBootAware)
        assertTrue(Device.wasUnlocked(app))
    }
}
