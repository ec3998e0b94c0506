package org.swardbook.shell.file

import android.content.ClipData
import android.content.Intent
import android.content.pm.PackageManager
import android.net.Uri
import android.os.Parcel
import android.os.ParcelFileDescriptor
import android.os.Parcelable
import java.io.File
import java.io.FileNotFoundException
import java.nio.file.Files
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertNull
import org.junit.Assert.assertTrue
import org.junit.Before
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.swardbook.shell.R
import org.swardbook.shell.support.OtherApp

/** Files from apps that are not to be trusted: which are asked for at all, and how much of them is taken. */
@RunWith(RobolectricTestRunner::class)
class IncomingTest {
    private val app = RuntimeEnvironment.getApplication()
    private val into = File(app.cacheDir, "incoming-test")

    @Before
    fun install() = OtherApp.install()

    // ---- Which files are asked for.

    private fun refused(intent: Intent?): Int? = (Incoming.of(intent, app) as? Incoming.Refused)?.why

    private fun view(uri: String) = Intent(Intent.ACTION_VIEW).setDataAndType(Uri.parse(uri), "application/vnd.swardbook.locked")

    private fun send(extra: Parcelable?) = Intent(Intent.ACTION_SEND).putExtra(Intent.EXTRA_STREAM, extra)

    @Test
    fun `a content address of another app is asked for`() {
        val uri = Uri.parse("content://${OtherApp.AUTHORITY}/all/a")
        for (intent in listOf(view("$uri"), send(uri), Intent(Intent.ACTION_SEND).apply { clipData = ClipData.newRawUri("", uri) })) {
            assertEquals(uri, (Incoming.of(intent, app) as Incoming.File).uri)
        }
    }

    @Test
    fun `a place on this phone is not`() {
        val own = File(app.noBackupFilesDir, "book/keys").path
        val places = listOf(
            "file://$own", "file:///sdcard/../..$own", own, "http://example.org/a.swlock", "https://example.org/a", "data:,a",
            "android.resource://org.swardbook.shell/1", "CONTENT://org.example/a", "javascript:a", "content+file://org.example/a", "",
        )
        for (place in places) {
            assertEquals(place, R.string.file_not_by_address, refused(view(place)))
            assertEquals(place, R.string.file_not_by_address, refused(send(Uri.parse(place))))
        }
    }

    @Test
    fun `our own provider is not asked for another app`() {
        for (own in listOf(
            "content://org.swardbook.shell.files/a/b", "content://0@org.swardbook.shell.files/a/b",
            "content://10@org.swardbook.shell.files/a/b", "content://a@b@org.swardbook.shell.files/a", "content:a", "content:///a",
        )) {
            assertEquals(own, R.string.file_our_own, refused(view(own)))
        }
    }

    @Test
    fun `an intent without a file, or with what cannot be read, is told`() {
        for (empty in listOf(
            null, Intent(), Intent(Intent.ACTION_VIEW), Intent(Intent.ACTION_SEND), Intent(Intent.ACTION_SEND_MULTIPLE), Intent("org.example.ODD"),
            Intent(Intent.ACTION_SEND).putExtra(Intent.EXTRA_TEXT, "content://org.example/a"),
            Intent(Intent.ACTION_SEND).putExtra(Intent.EXTRA_STREAM, "content://org.example/a"),
            send(Intent("org.example.NO_URI")), send(null),
            Intent(Intent.ACTION_SEND).apply {
                clipData = ClipData.newRawUri("", Uri.parse("content://a/1")).apply { addItem(ClipData.Item(Uri.parse("content://a/2"))) }
            },
        )) {
            assertTrue("$empty", refused(empty) == R.string.file_none || refused(empty) == R.string.file_unreadable_intent)
        }
        // Extras of a class that only the sender has.
        val parcel = Parcel.obtain()
        Intent(Intent.ACTION_SEND).putExtra(Intent.EXTRA_STREAM, Bomb()).writeToParcel(parcel, 0)
        parcel.setDataPosition(0)
        val bomb = refused(Intent.CREATOR.createFromParcel(parcel))
        assertTrue(bomb == R.string.file_none || bomb == R.string.file_unreadable_intent)
    }

    /** Cannot be made again. */
    private class Bomb : Parcelable {
        override fun describeContents() = 0
        override fun writeToParcel(parcel: Parcel, flags: Int) = parcel.writeInt(1)

        companion object {
            @JvmField
            val CREATOR = object : Parcelable.Creator<Bomb> {
                override fun createFromParcel(parcel: Parcel): Bomb = throw IllegalStateException("a bomb")
                override fun newArray(size: Int) = arrayOfNulls<Bomb>(size)
            }
        }
    }

    @Test
    fun `the phone offers us for files that can be ours, and for no place or page`() {
        val offered = { intent: Intent ->
            app.packageManager.queryIntentActivities(intent, PackageManager.ResolveInfoFlags.of(PackageManager.MATCH_DEFAULT_ONLY.toLong()))
                .map { it.activityInfo.name.substringAfterLast('.') }
        }
        val types = listOf("application/vnd.swardbook.locked", "application/vnd.swardbook.request", "application/octet-stream")
        for (type in types) {
            assertEquals(type, listOf("OpenFileActivity"), offered(Intent(Intent.ACTION_VIEW).setDataAndType(Uri.parse("content://a/1"), type)))
            assertEquals(type, listOf("OpenFileActivity"), offered(Intent(Intent.ACTION_SEND).setType(type)))
            for (place in listOf("file:///sdcard/a.swlock", "http://example.org/a.swlock")) {
                assertEquals(place, emptyList<String>(), offered(Intent(Intent.ACTION_VIEW).setDataAndType(Uri.parse(place), type)))
            }
        }
        assertEquals(emptyList<String>(), offered(Intent(Intent.ACTION_SEND).setType("image/png")))
        assertEquals(emptyList<String>(), offered(Intent(Intent.ACTION_VIEW, Uri.parse("http://127.0.0.1:4321/"))))
        val open = app.packageManager.getPackageInfo(app.packageName, PackageManager.PackageInfoFlags.of(PackageManager.GET_ACTIVITIES.toLong()))
            .activities!!.filter { it.exported }.map { it.name.substringAfterLast('.') }.toSet()
        assertEquals(setOf("ScreensActivity", "OpenFileActivity"), open)
    }

    // ---- How much is taken.

    private fun copied(uri: Uri, bytesMost: Long = 10_000, roomLeast: Long = 0, to: File = into) =
        Copying(app.contentResolver, uri, to, bytesMost, roomLeast).run()

    private fun gone(copied: Copied, expected: Copied) {
        assertEquals(expected.javaClass, copied.javaClass)
        assertFalse("something of it stayed", into.exists())
    }

    @Test
    fun `a whole file is here, known by how it begins and not by its name`() {
        val text = "swardbook locked file 1\nrest".toByteArray()
        val whole = copied(OtherApp.streams("picture.png") { it.write(text) }) as Copied.Whole
        assertEquals(FileKind.LOCKED, whole.kind)
        assertEquals(text.size.toLong(), whole.bytes)
        assertTrue(into.readBytes().contentEquals(text))
        val request = copied(OtherApp.streams("a") { it.write("swardbook join request 1\n".toByteArray()) }) as Copied.Whole
        assertEquals(FileKind.REQUEST, request.kind)
        for (other in listOf("x", "swardbook locked fil", "SWARDBOOK locked file 1", "\u0000\u0000", "PK\u0003\u0004")) {
            assertNull(other, (copied(OtherApp.streams("a.swlock") { it.write(other.toByteArray()) }) as Copied.Whole).kind)
        }
    }

    @Test
    fun `a file without an end is not taken`() {
        val block = ByteArray(4096) { 'a'.code.toByte() }
        gone(copied(OtherApp.streams("endless") { while (true) it.write(block) }), Copied.TooLong)
        gone(copied(OtherApp.gives("zero", File("/dev/zero"))), Copied.TooLong)
        // Just as long as may be.
        val most = copied(OtherApp.streams("most") { stream -> repeat(10_000) { stream.write(1) } })
        assertEquals(10_000, (most as Copied.Whole).bytes)
        into.delete()
        gone(copied(OtherApp.streams("more") { stream -> repeat(10_001) { stream.write(1) } }), Copied.TooLong)
    }

    @Test
    fun `an app that does not give what it promised is told`() {
        gone(copied(OtherApp.streams("empty") { }), Copied.Empty)
        gone(copied(Uri.parse("content://${OtherApp.AUTHORITY}/all/none")), Copied.NotReadable)
        gone(copied(Uri.parse("content://org.example.nobody/a")), Copied.NotReadable)
        val thrown = listOf(
            FileNotFoundException("a"), SecurityException("a"), IllegalStateException("a"), NullPointerException(), UnsupportedOperationException(),
        )
        for (what in thrown) gone(copied(OtherApp.gives("throws") { throw what }), Copied.NotReadable)
        gone(copied(OtherApp.gives("folder", app.cacheDir)), Copied.NotReadable)
        gone(
            copied(
                OtherApp.gives("closed") {
                    ParcelFileDescriptor.open(File("/dev/zero"), ParcelFileDescriptor.MODE_READ_ONLY).apply { close() }
                },
            ),
            Copied.NotReadable,
        )
    }

    @Test
    fun `a full disk is told, and nothing stays`() {
        val text = OtherApp.streams("text") { it.write("swardbook locked file 1\n".toByteArray()) }
        // Every write to it fails as a full disk does. By a link: what fails is removed.
        Files.createSymbolicLink(into.toPath(), File("/dev/full").toPath())
        gone(copied(text), Copied.NoRoom)
        gone(copied(OtherApp.streams("text") { it.write(ByteArray(9)) }, roomLeast = Long.MAX_VALUE), Copied.NoRoom)
        assertEquals(Copied.NoRoom, copied(OtherApp.streams("text") { it.write(ByteArray(9)) }, to = File(into, "in/no/folder")))
    }

    @Test
    fun `an app that keeps us waiting is let go`() {
        // Here a read that waits goes on waiting; on a phone closing ends it at once.
        val copying = Copying(app.contentResolver, OtherApp.streams("slow") { Thread.sleep(2_000) }, into)
        var outcome: Copied? = null
        val thread = Thread { outcome = copying.run() }.apply { start() }
        Thread.sleep(200)
        copying.stop()
        thread.join(10_000)
        gone(outcome!!, Copied.Stopped)
    }

    @Test
    fun `a name is shown without what could deceive`() {
        val names = mapOf(
            "../../no_backup/book/keys" to "keys", "a\\b\\c.swlock" to "c.swlock", "\u202Ekcolws.exe" to "kcolws.exe",
            "a\nb\u0000c" to "abc", " .. " to null, "" to null, "x".repeat(5000) to "x".repeat(80), "día 1.swlock" to "día 1.swlock",
            "<b>\"a\"</b>" to "b", "a\u200Bb\u2028c" to "abc", "\uD83D" to null,
        )
        for ((told, shown) in names) assertEquals(told, shown, Waiting.plainName(told))
        assertNull(Waiting.plainName(null))
        for (name in listOf<() -> String?>({ null }, { throw IllegalStateException("a") }, { "../keys" })) {
            val uri = OtherApp.gives("named", name) { ParcelFileDescriptor.open(File("/dev/null"), ParcelFileDescriptor.MODE_READ_ONLY) }
            gone(copied(uri), Copied.Empty)
        }
    }

    @Test
    fun `what waited for a day is swept, and nothing else`() {
        val waiting = Waiting(app)
        val (old, new) = listOf("1", "2").map { waiting.placeForIncoming("00000000-0000-0000-0000-00000000000$it") }
        val out = waiting.placeForHandedOut("00000000-0000-0000-0000-000000000003", "a.swlock")
        val other = File(app.cacheDir, "other")
        for (file in listOf(old, new, out, other)) file.writeText("a")
        val now = System.currentTimeMillis()
        for (file in listOf(old, out.parentFile!!, other)) file.setLastModified(now - 25L * 60 * 60 * 1000)
        waiting.sweep(now)
        assertEquals(listOf(false, true, false, true), listOf(old, new, out, other).map { it.exists() })
        for (id in listOf("../a", "", "a/b", "..")) {
            assertTrue(id, runCatching { waiting.placeForIncoming(id) }.isFailure)
        }
    }
}
