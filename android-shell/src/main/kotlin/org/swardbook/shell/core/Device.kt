package org.swardbook.shell.core

import android.content.Context
import android.os.LocaleList
import android.os.UserManager
import android.provider.Settings
import java.io.File
import java.util.TimeZone
import uniffi.sward.DeviceTold

/** What only the phone knows of itself, as the core asks for it. */
object Device {
    /** The folder of the person's book: this app's alone, and in no backup. */
    fun folder(context: Context): File = File(context.noBackupFilesDir, "book")

    /** Whether the phone was unlocked since it was started: before that nobody reads the person's book. */
    fun wasUnlocked(context: Context): Boolean = context.getSystemService(UserManager::class.java).isUserUnlocked

    fun told(context: Context) = DeviceTold(
        folder(context).path,
        TimeZone.getDefault().id,
        bootCount(context),
        LocaleList.getDefault().toLanguageTags(),
    )

    /** How often the phone was started; null where it does not count, and time is to be proven anew. */
    private fun bootCount(context: Context): ULong? {
        val count = Settings.Global.getInt(context.contentResolver, Settings.Global.BOOT_COUNT, -1)
        return if (count < 0) null else count.toULong()
    }
}
