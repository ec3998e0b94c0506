package org.swardbook.shell

import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import uniffi.sward.coreVersion

/** What everything else here rests on: the resources are there, and the core answers. */
@RunWith(RobolectricTestRunner::class)
class BuildTest {
    @Test
    fun `the core beside the shell is the one of this version`() {
        val app = RuntimeEnvironment.getApplication()
        assertEquals("org.swardbook.shell", app.packageName)
        assertEquals("Swardbook", app.getString(R.string.app_name))
        assertEquals(app.packageManager.getPackageInfo(app.packageName, 0).versionName, coreVersion())
    }
}
