package org.swardbook.shell.walk

import android.Manifest.permission.ACCESS_COARSE_LOCATION
import android.Manifest.permission.ACCESS_FINE_LOCATION
import android.content.Context
import android.location.Location
import android.location.LocationListener
import android.location.LocationManager
import android.os.Build
import android.os.Bundle
import android.os.Looper
import org.swardbook.shell.screen.PlaceAsked.Companion.isGranted
import uniffi.sward.Fix

/** Whether this phone can record a walk, and what is missing. */
internal enum class Receiver {
    /** It can. */
    READY,

    /** The location is not allowed. */
    NOT_ALLOWED,

    /** Only the rough location is allowed. */
    ROUGH,

    /** There is no receiver for satellites. */
    NONE,

    /** It is turned off for the whole phone. A walk can wait for it. */
    OFF;

    /** Whether the person can help by allowing it. */
    val needsPermission: Boolean get() = this == NOT_ALLOWED || this == ROUGH

    companion object {
        /** How it stands now. */
        fun of(context: Context): Receiver {
            val manager = context.getSystemService(LocationManager::class.java)
            return when {
                manager == null || LocationManager.GPS_PROVIDER !in manager.allProviders -> NONE
                !isGranted(context, ACCESS_FINE_LOCATION) ->
                    if (isGranted(context, ACCESS_COARSE_LOCATION)) ROUGH else NOT_ALLOWED
                !manager.isProviderEnabled(LocationManager.GPS_PROVIDER) -> OFF
                else -> READY
            }
        }
    }
}

/** Fixes by satellites as they come, each with its accuracy; old and repeated ones are left out. */
internal class Fixes(context: Context, private val taken: (Location) -> Unit, private val off: (Boolean) -> Unit) :
    LocationListener {
    private val manager = context.getSystemService(LocationManager::class.java)
    private var startedNanos = 0L
    private var lastNanos = 0L

    /** Begins to listen; `SecurityException` where it is not allowed. */
    @Throws(SecurityException::class)
    fun start(nowNanos: Long) {
        startedNanos = nowNanos
        lastNanos = nowNanos - 1
        manager.requestLocationUpdates(LocationManager.GPS_PROVIDER, EVERY_MS, 0f, this, Looper.getMainLooper())
    }

    /** Listens no more. */
    fun stop() = manager.removeUpdates(this)

    override fun onLocationChanged(location: Location) {
        // Where the phone was before the walk is no corner of the lawn.
        if (location.elapsedRealtimeNanos <= lastNanos) return
        lastNanos = location.elapsedRealtimeNanos
        taken(location)
    }

    override fun onProviderDisabled(provider: String) = off(true)

    override fun onProviderEnabled(provider: String) = off(false)

    /** Before API 29 the system calls this one too, and it has no default there. */
    @Deprecated("Not called any more from API 29 on")
    override fun onStatusChanged(provider: String?, status: Int, extras: Bundle?) = Unit

    companion object {
        private const val EVERY_MS = 1000L

        /** A fix as the core takes it. */
        fun fixOf(location: Location): Fix = Fix(
            lat = location.latitude,
            lon = location.longitude,
            accuracyM = if (location.hasAccuracy()) location.accuracy.toDouble() else null,
            utcMs = location.time,
        )

        /** Whether another app told it. A receiver outside the phone does that too: good for a walk, but no proof. */
        fun isSimulated(location: Location): Boolean =
            if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.S) {
                location.isMock
            } else {
                @Suppress("DEPRECATION")
                location.isFromMockProvider
            }
    }
}
