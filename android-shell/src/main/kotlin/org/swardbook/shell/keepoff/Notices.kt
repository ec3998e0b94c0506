package org.swardbook.shell.keepoff

import android.app.Notification
import android.app.NotificationChannel
import android.app.NotificationManager
import android.app.PendingIntent
import android.content.Context
import android.content.Intent
import android.media.AudioAttributes
import android.media.RingtoneManager
import android.os.Build
import java.util.concurrent.ConcurrentHashMap
import org.swardbook.shell.R
import org.swardbook.shell.core.Core
import org.swardbook.shell.screen.ScreensActivity
import uniffi.sward.KeepOff
import uniffi.sward.KeepOffState
import uniffi.sward.Watch

/**
 * What stands among the phone's notifications: one for each keep-off that runs, a loud one when a
 * person is called, and one while the book cannot be read.
 */
object Notices {
    const val STANDING = "standing"
    const val CALL = "call"
    const val BOOK = "book"

    /** So many keep-offs get a notice of their own; a phone shows no more than 50 of an app. */
    const val STANDING_MOST = 20

    /** Calls that something is over, posted by this process: the system tells of them with a delay. */
    private val over: MutableSet<String> = ConcurrentHashMap.newKeySet()

    private const val ID_STANDING = 1
    private const val ID_CALL = 2
    private const val ID_MORE = 3
    private const val ID_BOOK = 4

    /** Shows exactly the keep-offs that run. */
    fun standing(context: Context, watch: Watch) {
        val speaking = prepared(context)
        val shown = watch.keepOffs.take(STANDING_MOST)
        for (keepOff in shown) {
            manager(context).notify(Which.of(keepOff).toString(), ID_STANDING, standing(speaking, keepOff))
        }
        val more = watch.keepOffs.size - shown.size
        if (more > 0) {
            manager(context).notify(ID_MORE, more(speaking, more))
        } else {
            manager(context).cancel(ID_MORE)
        }
        takeAwayAllBut(context, ID_STANDING, shown.map { Which.of(it).toString() }.toSet())
        // A call for what is over by a person's look is answered.
        val runs = watch.keepOffs.map { Which.of(it).toString() }.toSet()
        manager(context).activeNotifications
            .filter { it.id == ID_CALL && it.tag !in runs && it.tag !in over && !isOver(it.notification) }
            .forEach { manager(context).cancel(it.tag, it.id) }
    }

    private fun takeAwayAllBut(context: Context, id: Int, tags: Set<String>) {
        manager(context).activeNotifications
            .filter { it.id == id && it.tag !in tags }
            .forEach { manager(context).cancel(it.tag, it.id) }
    }

    private fun standing(context: Context, keepOff: KeepOff): Notification {
        val which = Which.of(keepOff)
        val said = Said.of(context, keepOff)
        val builder = begun(context, STANDING, said)
            .setColor(context.getColor(R.color.turf))
            .setOngoing(true)
            .setOnlyAlertOnce(true)
            .setVisibility(Notification.VISIBILITY_PUBLIC)
            .setCategory(Notification.CATEGORY_STATUS)
            .setContentIntent(screens(context))
            .setDeleteIntent(broadcast(context, which, WipedReceiver::class.java))
        val ring = keepOff.ring
        if (ring != null && keepOff.state is KeepOffState.Runs) {
            builder.setWhen(ring.atDeviceUtcMs).setShowWhen(true)
                .setUsesChronometer(true).setChronometerCountDown(true)
        }
        if (keepOff.state is KeepOffState.WaitsForDry) addActions(context, which, builder)
        return builder.build()
    }

    /** A person is called: over the lock screen where the phone allows it. */
    fun alert(context: Context, keepOff: KeepOff, alert: Alert) {
        val speaking = prepared(context)
        val which = Which.of(keepOff)
        val said = Said.alert(speaking, keepOff, alert)
        call(speaking, which, alert, said, alert == Alert.LOOK)
    }

    /** The same where the book could not be read. */
    fun alertUnreadable(context: Context, which: Which, trouble: Throwable) {
        val speaking = prepared(context)
        call(speaking, which, Alert.UNREADABLE, Said.unreadable(speaking, trouble), false)
    }

    private fun call(context: Context, which: Which, alert: Alert, said: Said, asks: Boolean) {
        val opens = Alarms.about(context, which, AlertActivity::class.java)
            .addFlags(Intent.FLAG_ACTIVITY_NEW_TASK or Intent.FLAG_ACTIVITY_NO_USER_ACTION)
        val full = PendingIntent.getActivity(
            context, 0, opens, PendingIntent.FLAG_IMMUTABLE or PendingIntent.FLAG_UPDATE_CURRENT,
        )
        val builder = begun(context, CALL, said)
            .setColor(context.getColor(R.color.bad))
            .setCategory(Notification.CATEGORY_ALARM)
            .setVisibility(Notification.VISIBILITY_PUBLIC)
            .setAutoCancel(false)
            .setContentIntent(full)
            .setFullScreenIntent(full, true)
        if (alert == Alert.OVER) {
            builder.extras.putBoolean(OVER, true)
            over.add(which.toString())
        }
        if (asks) addActions(context, which, builder)
        val notification = builder.build()
        // It sounds until somebody has seen it.
        notification.flags = notification.flags or Notification.FLAG_INSISTENT
        manager(context).notify(which.toString(), ID_CALL, notification)
    }

    private fun begun(context: Context, channel: String, said: Said): Notification.Builder =
        Notification.Builder(context, channel)
            .setSmallIcon(R.drawable.notice)
            .setContentTitle(said.title)
            .setContentText(said.line)
            .setStyle(Notification.BigTextStyle().bigText(said.whole))

    private fun addActions(context: Context, which: Which, builder: Notification.Builder) {
        val asks = Alarms.about(context, which, DryActivity::class.java).addFlags(Intent.FLAG_ACTIVITY_NEW_TASK)
        val dry = PendingIntent.getActivity(
            context, 0, asks, PendingIntent.FLAG_IMMUTABLE or PendingIntent.FLAG_UPDATE_CURRENT,
        )
        val wet = broadcast(context, which, StillWetReceiver::class.java)
        builder.addAction(Notification.Action.Builder(null, context.getString(R.string.still_wet), wet).build())
        val looked = Notification.Action.Builder(null, context.getString(R.string.looked_dry), dry)
        if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.S) looked.setAuthenticationRequired(true)
        builder.addAction(looked.build())
    }

    /** The call was seen, or answered. */
    fun forget(context: Context, which: Which) {
        over.remove(which.toString())
        manager(context).cancel(which.toString(), ID_CALL)
    }

    /** Whether the phone's owner lets calls through: notifications may be allowed, and this kind not. */
    fun mayCall(context: Context): Boolean {
        val channel = manager(context).getNotificationChannel(CALL)
        val isMuted = channel != null && channel.importance < NotificationManager.IMPORTANCE_DEFAULT
        return manager(context).areNotificationsEnabled() && !isMuted
    }

    /** The book cannot be read: alarms that are armed stay armed, and a person is told. */
    fun unreadable(context: Context, trouble: Throwable) {
        val speaking = prepared(context)
        val said = Said.unreadable(speaking, trouble)
        val notification = begun(speaking, BOOK, said)
            .setContentIntent(screens(speaking))
            .setOnlyAlertOnce(true)
            .build()
        manager(context).notify(ID_BOOK, notification)
    }

    /** It can be read again. */
    fun readable(context: Context) = manager(context).cancel(ID_BOOK)

    private fun more(context: Context, count: Int): Notification =
        Notification.Builder(context, STANDING)
            .setSmallIcon(R.drawable.notice)
            .setContentTitle(context.resources.getQuantityString(R.plurals.more_keep_offs, count, count))
            .setContentText(context.getString(R.string.more_on_screens))
            .setOngoing(true)
            .setOnlyAlertOnce(true)
            .setContentIntent(screens(context))
            .build()

    private fun isOver(notification: Notification) = notification.extras.getBoolean(OVER)

    private fun screens(context: Context): PendingIntent {
        val intent = Intent(context, ScreensActivity::class.java)
        return PendingIntent.getActivity(context, 0, intent, PendingIntent.FLAG_IMMUTABLE)
    }

    private fun broadcast(context: Context, which: Which, to: Class<*>): PendingIntent = PendingIntent.getBroadcast(
        context, 0, Alarms.about(context, which, to),
        PendingIntent.FLAG_IMMUTABLE or PendingIntent.FLAG_UPDATE_CURRENT,
    )

    /** The channels, named in the person's language, and a context that speaks it. */
    private fun prepared(context: Context): Context {
        val speaking = Core.of(context).speaking(context)
        val standing = NotificationChannel(
            STANDING, speaking.getString(R.string.channel_standing), NotificationManager.IMPORTANCE_LOW,
        )
        val call = NotificationChannel(
            CALL, speaking.getString(R.string.channel_call), NotificationManager.IMPORTANCE_HIGH,
        ).apply {
            val alarm = AudioAttributes.Builder().setUsage(AudioAttributes.USAGE_ALARM).build()
            setSound(RingtoneManager.getDefaultUri(RingtoneManager.TYPE_ALARM), alarm)
            enableVibration(true)
            lockscreenVisibility = Notification.VISIBILITY_PUBLIC
        }
        val book = NotificationChannel(
            BOOK, speaking.getString(R.string.channel_book), NotificationManager.IMPORTANCE_HIGH,
        )
        manager(context).createNotificationChannels(listOf(standing, call, book))
        return speaking
    }

    private fun manager(context: Context) = context.getSystemService(NotificationManager::class.java)

    private const val OVER = "org.swardbook.shell.over"
}
