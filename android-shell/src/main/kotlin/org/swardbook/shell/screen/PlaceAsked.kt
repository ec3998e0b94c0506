package org.swardbook.shell.screen

import android.Manifest.permission.ACCESS_COARSE_LOCATION
import android.Manifest.permission.ACCESS_FINE_LOCATION
import android.app.Activity
import android.content.Context
import android.content.pm.PackageManager.PERMISSION_GRANTED
import android.webkit.GeolocationPermissions

/** A page's question where the person stands: answered by what the person allows the program. */
internal class PlaceAsked(private val activity: Activity) {
    private class Question(val origin: String?, val answer: GeolocationPermissions.Callback)

    private var waiting: Question? = null

    /** Answers at once where it is allowed, else after the person has. */
    fun ask(origin: String?, answer: GeolocationPermissions.Callback) {
        drop()
        if (isAllowed(activity)) {
            answer.invoke(origin, true, false)
            return
        }
        waiting = Question(origin, answer)
        activity.requestPermissions(arrayOf(ACCESS_FINE_LOCATION, ACCESS_COARSE_LOCATION), REQUEST)
    }

    /** Takes the person's answer. Never remembered for the page: the next start has another origin. */
    fun answered() {
        val asked = waiting ?: return
        waiting = null
        asked.answer.invoke(asked.origin, isAllowed(activity), false)
    }

    /** The page does not ask any more. */
    fun drop() {
        val asked = waiting ?: return
        waiting = null
        asked.answer.invoke(asked.origin, false, false)
    }

    companion object {
        /** The request code of the question. */
        const val REQUEST = 42

        /** Whether a page may know the place, if only roughly: each fix tells how surely. */
        fun isAllowed(context: Context): Boolean =
            isGranted(context, ACCESS_FINE_LOCATION) || isGranted(context, ACCESS_COARSE_LOCATION)

        /** Whether a permission is given now. */
        fun isGranted(context: Context, permission: String): Boolean =
            context.checkSelfPermission(permission) == PERMISSION_GRANTED
    }
}
