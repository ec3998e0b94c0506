package org.swardbook.shell.allowed

import android.Manifest
import android.app.NotificationManager
import android.content.Context
import android.content.Intent
import android.content.pm.PackageManager
import android.net.Uri
import android.os.Build
import android.provider.Settings
import org.swardbook.shell.R
import org.swardbook.shell.keepoff.Alarms
import org.swardbook.shell.keepoff.Notices

/**
 * What the phone has to allow, and what each is for. What is missing is told with what still works;
 * nothing here stops a person from working on.
 */
enum class Allowed(val title: Int, val granted: Int, val missing: Int) {
    /** Without it no keep-off is seen or heard outside the app. */
    NOTICES(R.string.allow_notices, R.string.allow_notices_yes, R.string.allow_notices_no),

    /** Without it a call may come late. */
    EXACT_ALARMS(R.string.allow_exact, R.string.allow_exact_yes, R.string.allow_exact_no),

    /** Without it a call is a notice, not a whole screen. */
    FULL_SCREEN(R.string.allow_full, R.string.allow_full_yes, R.string.allow_full_no),

    /** Without it no walk is recorded. */
    LOCATION(R.string.allow_location, R.string.allow_location_yes, R.string.allow_location_no);

    /** Whether the phone allows it now. */
    fun isGranted(context: Context): Boolean = when (this) {
        NOTICES -> Notices.mayCall(context)
        EXACT_ALARMS -> Alarms.areExact(context)
        FULL_SCREEN -> Build.VERSION.SDK_INT < Build.VERSION_CODES.UPSIDE_DOWN_CAKE ||
            context.getSystemService(NotificationManager::class.java).canUseFullScreenIntent()
        LOCATION -> context.checkSelfPermission(Manifest.permission.ACCESS_FINE_LOCATION) ==
            PackageManager.PERMISSION_GRANTED
    }

    /** The permissions that a dialog of the system asks for; none where only its settings can. */
    fun permissions(): Array<String> = when (this) {
        NOTICES ->
            if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.TIRAMISU) arrayOf(Manifest.permission.POST_NOTIFICATIONS)
            else emptyArray()
        // Newer systems answer a request for the fine one alone with nothing.
        LOCATION -> arrayOf(
            Manifest.permission.ACCESS_FINE_LOCATION, Manifest.permission.ACCESS_COARSE_LOCATION,
        )
        EXACT_ALARMS, FULL_SCREEN -> emptyArray()
    }

    /** Where a person changes it. */
    fun settings(context: Context): Intent {
        val app = Uri.fromParts("package", context.packageName, null)
        return when {
            this == NOTICES -> Intent(Settings.ACTION_APP_NOTIFICATION_SETTINGS)
                .putExtra(Settings.EXTRA_APP_PACKAGE, context.packageName)
            this == EXACT_ALARMS && Build.VERSION.SDK_INT >= Build.VERSION_CODES.S ->
                Intent(Settings.ACTION_REQUEST_SCHEDULE_EXACT_ALARM, app)
            this == FULL_SCREEN && Build.VERSION.SDK_INT >= Build.VERSION_CODES.UPSIDE_DOWN_CAKE ->
                Intent(Settings.ACTION_MANAGE_APP_USE_FULL_SCREEN_INTENT, app)
            else -> Intent(Settings.ACTION_APPLICATION_DETAILS_SETTINGS, app)
        }
    }

    companion object {
        /** What a keep-off's calls need and the phone does not allow. */
        fun missingForCalls(context: Context): List<Allowed> =
            listOf(NOTICES, EXACT_ALARMS, FULL_SCREEN).filterNot { it.isGranted(context) }
    }
}
