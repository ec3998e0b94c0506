package org.swardbook.shell.file

import android.content.ContentValues
import android.net.Uri
import android.provider.OpenableColumns
import java.io.File
import java.io.FileNotFoundException
import java.nio.file.Files
import org.junit.Assert.assertEquals
import org.junit.Assert.assertNull
import org.junit.Assert.assertThrows
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.Robolectric
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment

/** Another app asks our provider: for what it was handed it gets that file, and nothing for the rest. */
@RunWith(RobolectricTestRunner::class)
class SharedFilesTest {
    private val app = RuntimeEnvironment.getApplication()
    private val provider = Robolectric.buildContentProvider(SharedFiles::class.java).create("org.swardbook.shell.files").get()
    private val id = Waiting.newId()
    private val file = Waiting(app).placeForHandedOut(id, "día 1.swlock").apply { writeText("locked") }
    private val address = SharedFiles.addressOf(app, id, file.name)

    @Test
    fun `what was handed over can be read`() {
        val read = provider.openFile(address, "r").use { java.io.FileInputStream(it.fileDescriptor).readBytes() }
        assertEquals("locked", String(read))
        assertEquals("application/vnd.swardbook.locked", provider.getType(address))
        provider.query(address, null, null, null, null)!!.use {
            assertTrue(it.moveToFirst())
            assertEquals("día 1.swlock", it.getString(it.getColumnIndexOrThrow(OpenableColumns.DISPLAY_NAME)))
            assertEquals(6, it.getLong(it.getColumnIndexOrThrow(OpenableColumns.SIZE)))
        }
        provider.query(address, arrayOf("_data", OpenableColumns.SIZE), null, null, null)!!.use {
            assertEquals(listOf(OpenableColumns.SIZE), it.columnNames.toList())
        }
    }

    @Test
    fun `nothing else can be`() {
        File(app.cacheDir, "secret").writeText("s")
        File(app.noBackupFilesDir, "book").mkdirs()
        File(app.noBackupFilesDir, "book/keys").writeText("k")
        val folder = file.parentFile!!
        Files.createSymbolicLink(File(folder, "link.swlock").toPath(), File(app.noBackupFilesDir, "book/keys").toPath())
        Files.createSymbolicLink(File(folder.parentFile, "linked").toPath(), app.noBackupFilesDir.toPath())
        val base = "content://org.swardbook.shell.files"
        val others = listOf(
            base, "$base/", "$base/$id", "$base/$id/", "$base/$id/other", "$base//${file.name}", "$base/$id/${Uri.encode(file.name)}/a",
            "$base/$id/..", "$base/../secret", "$base/%2E%2E/secret", "$base/..%2F..%2Fno_backup%2Fbook/keys",
            "$base/$id/..%2F..%2F..%2Fno_backup%2Fbook%2Fkeys", "$base/$id%2F..%2F$id/${Uri.encode(file.name)}",
            "$base/./$id/a", "$base/%00/a", "$base/$id/a%00b", "$base/$id/link.swlock", "$base/linked/book", "$base/${Waiting.newId()}/a",
            "$base/${app.cacheDir}/secret", "$base/.%2F$id/${Uri.encode(file.name)}",
        )
        for (other in others) {
            val uri = Uri.parse(other)
            assertThrows(other, FileNotFoundException::class.java) { provider.openFile(uri, "r") }
            assertNull(other, provider.getType(uri))
            assertNull(other, provider.query(uri, null, null, null, null))
        }
    }

    @Test
    fun `nothing can be written`() {
        for (mode in listOf("w", "wt", "wa", "rw", "rwt", "", "R", "r ")) {
            assertThrows(mode, SecurityException::class.java) { provider.openFile(address, mode) }
        }
        assertThrows(SecurityException::class.java) { provider.insert(address, ContentValues()) }
        assertThrows(SecurityException::class.java) { provider.update(address, ContentValues(), null, null) }
        assertThrows(SecurityException::class.java) { provider.delete(address, null, null) }
        assertEquals("locked", file.readText())
    }

    @Test
    fun `no other app reaches it without a grant`() {
        val info = app.packageManager.resolveContentProvider("org.swardbook.shell.files", 0)!!
        assertEquals(false, info.exported)
        assertEquals(true, info.grantUriPermissions)
        assertNull(info.uriPermissionPatterns)
    }
}
