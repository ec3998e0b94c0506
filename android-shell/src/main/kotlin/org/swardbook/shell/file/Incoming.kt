package org.swardbook.shell.file

import android.content.ContentResolver
import android.content.Context
import android.content.Intent
import android.net.Uri
import android.os.Build
import org.swardbook.shell.R

/**
 * A file that another app hands over, as far as the intent tells. Whoever sent it is not known and
 * not trusted: only a content address of another app is followed.
 */
internal sealed class Incoming {
    /** It can be asked for there. */
    class File(val uri: Uri) : Incoming()

    /** It is not touched; `why` is a string for the person. */
    class Refused(val why: Int) : Incoming()

    companion object {
        /** The file of "open with" or "share". */
        fun of(intent: Intent?, context: Context): Incoming = reading {
            when (intent?.action) {
                Intent.ACTION_VIEW -> intent.data
                Intent.ACTION_SEND -> sent(intent)
                else -> null
            }
        }.let { judged(it, context) }

        /** The file that the person chose in the system's own chooser. */
        fun chosen(intent: Intent?, context: Context): Incoming =
            judged(reading { intent?.data }, context)

        /** Extras hold what their sender likes, also what cannot be made again here. */
        private fun reading(uri: () -> Uri?): Result<Uri?> = runCatching(uri)

        private fun judged(read: Result<Uri?>, context: Context): Incoming {
            val uri = read.getOrElse { return Refused(R.string.file_unreadable_intent) }
            return when {
                uri == null -> Refused(R.string.file_none)
                uri.scheme != ContentResolver.SCHEME_CONTENT -> Refused(R.string.file_not_by_address)
                isOurOwn(uri, context) -> Refused(R.string.file_our_own)
                else -> File(uri)
            }
        }

        private fun sent(intent: Intent): Uri? {
            val extra = if (Build.VERSION.SDK_INT >= Build.VERSION_CODES.TIRAMISU) {
                intent.getParcelableExtra(Intent.EXTRA_STREAM, Uri::class.java)
            } else {
                @Suppress("DEPRECATION")
                intent.getParcelableExtra<android.os.Parcelable>(Intent.EXTRA_STREAM) as? Uri
            }
            return extra ?: intent.clipData?.takeIf { it.itemCount == 1 }?.getItemAt(0)?.uri
        }

        /** Asked by us, our own provider would open what it opens for no one else. */
        private fun isOurOwn(uri: Uri, context: Context): Boolean {
            // "0@authority" names the same provider of a user of this phone.
            val authority = uri.authority?.substringAfterLast('@')
            if (authority.isNullOrEmpty()) return true
            val provider = context.packageManager.resolveContentProvider(authority, 0)
            return provider?.packageName == context.packageName
        }
    }
}
