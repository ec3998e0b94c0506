package org.swardbook.shell.support

import android.app.AlarmManager
import android.app.Application
import android.app.Notification
import android.app.NotificationManager
import android.app.PendingIntent
import android.content.Intent
import org.junit.After
import org.junit.Before
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.shadows.ShadowAlarmManager
import org.robolectric.shadows.ShadowLooper
import org.swardbook.practice.Phone
import org.swardbook.shell.core.Core

/** What tests of alarms share: a real book, the receivers of the manifest, the system's alarms and notices. */
abstract class RingingPhone(protected val phone: Phone = Phone()) {
    protected val app: Application = RuntimeEnvironment.getApplication()
    protected val notices: NotificationManager = app.getSystemService(NotificationManager::class.java)
    private val alarms = shadowOf(app.getSystemService(AlarmManager::class.java))

    /** How often the shell opened the book in this process. */
    protected var opened = 0
        private set
    protected var core = aProcess()
        private set

    @Before
    fun found() {
        ShadowAlarmManager.setCanScheduleExactAlarms(true)
        // The shell opens the book; the test goes on by what it opened.
        phone.book.shut()
        phone.book = core.book()
        phone.found()
    }

    @After
    fun end() {
        core.settle()
        phone.close()
    }

    private fun aProcess() = Core.instead(app) {
        opened += 1
        phone.open()
    }

    /** A phone that is switched off ends its processes and forgets its alarms and notices. */
    protected fun switchOff() {
        core.settle()
        core.shut()
        forget()
        notices.cancelAll()
        opened = 0
        core = aProcess()
    }

    /** The alarms that are set, the first to ring first. */
    protected fun armed() = alarms.scheduledAlarms.sortedBy { it.triggerAtMs }

    /** Takes the first alarm from the system: by what it rings. */
    protected fun nextAlarm(): PendingIntent = alarms.nextScheduledAlarm!!.operation!!

    /** Lets the first alarm ring, as the system does. */
    protected fun ring() {
        nextAlarm().send()
        idle()
    }

    /** No alarm is set any more. */
    protected fun forget() {
        while (alarms.nextScheduledAlarm != null) Unit
    }

    protected fun idle(core: Core = this.core) {
        ShadowLooper.idleMainLooper()
        core.settle()
    }

    /** The system tells this app of something. */
    protected fun wake(action: String) {
        app.sendBroadcast(Intent(action).setPackage(app.packageName))
        idle()
    }

    protected fun Notification.title() = extras.getString(Notification.EXTRA_TITLE).orEmpty()

    protected fun Notification.words() = extras.getCharSequence(Notification.EXTRA_BIG_TEXT).toString()

    protected fun pass(ms: Long) = phone.clock.letPass(ms.toULong())

    protected fun string(id: Int) = app.getString(id)
}
