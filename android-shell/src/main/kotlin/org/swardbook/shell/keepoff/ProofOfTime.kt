package org.swardbook.shell.keepoff

import android.content.Context
import android.location.Location
import android.os.Build
import android.os.SystemClock
import java.time.DateTimeException
import org.swardbook.shell.core.Core
import uniffi.sward.TimeAnswer
import uniffi.sward.TimeSource

/** Hands the core what proves the phone's time. What it makes of it is the core's business. */
object ProofOfTime {
    /** The time of the phone's network, where the phone has it; what came of it, else null. */
    fun byNetwork(context: Context): TimeAnswer? {
        val sinceBootMs = SystemClock.elapsedRealtime()
        val told = networkUtcMs() ?: return null
        return Core.of(context).call { it.timeTold(TimeSource.NETWORK, told, sinceBootMs.toULong()) }
    }

    /**
     * Asks the network's time in the background, and arms anew when that proved the phone's. Not where
     * alarms ring: to write it down may have to wait until a swap is through.
     */
    fun askThenArm(context: Context) {
        val core = Core.of(context)
        core.work {
            val came = try {
                byNetwork(context)
            } catch (_: Throwable) {
                // Arming tells what is wrong with the book. Whatever it is, alarms must not end with this process.
                null
            }
            if (came == TimeAnswer.CONFIRMED) core.ring { Alarms.arm(context) }
        }
    }

    /** The time of a fix by satellites. Other fixes bear the phone's own clock, which proves nothing. */
    fun byFix(context: Context, fix: Location): TimeAnswer? {
        if (fix.provider != "gps") return null
        val sinceBootMs = fix.elapsedRealtimeNanos / 1_000_000
        if (sinceBootMs <= 0) return null
        return Core.of(context).call { it.timeTold(TimeSource.SATELLITES, fix.time, sinceBootMs.toULong()) }
    }

    private fun networkUtcMs(): Long? {
        if (Build.VERSION.SDK_INT < Build.VERSION_CODES.TIRAMISU) return null
        return try {
            SystemClock.currentNetworkTimeClock().millis()
        } catch (_: DateTimeException) {
            // The phone had no network since it was started.
            null
        }
    }
}
