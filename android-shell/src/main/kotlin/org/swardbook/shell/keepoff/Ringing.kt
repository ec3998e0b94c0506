package org.swardbook.shell.keepoff

import android.content.Context
import android.content.SharedPreferences
import uniffi.sward.KeepOff
import uniffi.sward.KeepOffState
import uniffi.sward.RingFor
import uniffi.sward.Watch

/** Which keep-off, of which visit. */
data class Which(val visit: String, val keepOff: String) {
    override fun toString() = "$visit/$keepOff"

    companion object {
        fun of(keepOff: KeepOff) = Which(keepOff.visit, keepOff.keepOff)

        /** Reads it back; null for text that is none. */
        fun read(text: String?): Which? {
            val parts = text?.split('/') ?: return null
            return if (parts.size == 2 && parts.all { ID.matches(it) }) Which(parts[0], parts[1]) else null
        }

        private val ID = Regex("[0-9a-fA-F-]{1,64}")
    }
}

/** An alarm that is armed: when by the device's clock, and what for. */
data class Ringing(val which: Which, val atDeviceUtcMs: Long, val what: RingFor)

/** What has to be rung for, from what the core says. */
fun ringingOf(watch: Watch): List<Ringing> = watch.keepOffs.mapNotNull { keepOff ->
    keepOff.ring?.let { Ringing(Which.of(keepOff), it.atDeviceUtcMs, it.what) }
}

/**
 * What a person is told loudly of a keep-off that was armed, now that the core says where it stands.
 * Null: nothing, because it still runs, or because a person ended it and so knows.
 */
fun alertFor(armed: RingFor, now: KeepOffState): Alert? = when (now) {
    is KeepOffState.Ended -> if (armed == RingFor.LOOK) null else Alert.OVER
    is KeepOffState.WaitsForDry -> Alert.LOOK
    is KeepOffState.TimeUncertain -> if (armed == RingFor.CONFIRM_TIME) Alert.UNCERTAIN else null
    is KeepOffState.Runs, is KeepOffState.RunsUntilFinish, is KeepOffState.RunsUntilLabelIsRead -> null
    is KeepOffState.Lifted -> null
}

/** What an alert says. */
enum class Alert {
    /** The wait is over, and nothing more was asked. */
    OVER,

    /** The wait is over: somebody has to look whether it is dry. */
    LOOK,

    /** The wait may be over, but nothing proves the phone's time. */
    UNCERTAIN,

    /** The book could not be read: everybody stays off. */
    UNREADABLE,
}

/**
 * Which alarms are armed, and for which of them a person was called: so that what ended while the
 * phone was off is told late, what is not needed any more is taken back, and nobody is called twice
 * for the same. No record.
 *
 * It lies where a phone reads that was restarted and not unlocked yet, so that it rings then too; that
 * is why it holds times and identifiers, and no name.
 */
class Armed(context: Context) {
    private val early = context.createDeviceProtectedStorageContext()
    private val armed = early.getSharedPreferences("armed", Context.MODE_PRIVATE)
    private val called = early.getSharedPreferences("called", Context.MODE_PRIVATE)
    private val blindly = early.getSharedPreferences("called blindly", Context.MODE_PRIVATE)

    /** Every alarm that is armed. */
    fun all(): List<Ringing> = armed.all.mapNotNull { (key, value) -> read(key, value) }

    /** Notes an alarm as armed. Written before the alarm is set: forgotten is worse than twice. */
    fun add(ringing: Ringing) = put(armed, ringing)

    /** Nothing is armed for it any more. */
    fun remove(which: Which) {
        armed.edit().remove(which.toString()).commit()
    }

    /** A person was called for it. */
    fun noteCalled(ringing: Ringing) = put(called, ringing)

    /** Whether a person was called for just this already. */
    fun wasCalled(ringing: Ringing): Boolean = holds(called, ringing)

    /** Notes that a person was called for it while the book could not be read; whether that is new. */
    fun noteCalledBlindly(ringing: Ringing): Boolean {
        if (holds(blindly, ringing)) return false
        put(blindly, ringing)
        return true
    }

    /** For which a person was called while the book could not be read. */
    fun calledBlindly(): List<Which> = blindly.all.keys.mapNotNull(Which::read)

    /** Forgets the calls for keep-offs that do not run any more; the book can be read. */
    fun forgetCalls(running: Set<Which>) {
        val gone = called.all.keys.filter { Which.read(it) !in running }
        called.edit().apply { gone.forEach(::remove) }.commit()
        blindly.edit().clear().commit()
    }

    private fun holds(among: SharedPreferences, ringing: Ringing): Boolean {
        val key = ringing.which.toString()
        return read(key, among.all[key]) == ringing
    }

    private fun put(into: SharedPreferences, ringing: Ringing) {
        into.edit().putString(ringing.which.toString(), "${ringing.atDeviceUtcMs} ${ringing.what.name}").commit()
    }

    private fun read(key: String, value: Any?): Ringing? {
        val which = Which.read(key) ?: return null
        val parts = (value as? String)?.split(' ') ?: return null
        val at = parts[0].toLongOrNull() ?: return null
        val what = RingFor.values().find { it.name == parts.getOrNull(1) } ?: return null
        return Ringing(which, at, what)
    }
}
