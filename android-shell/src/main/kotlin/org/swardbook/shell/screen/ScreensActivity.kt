package org.swardbook.shell.screen

import android.app.Activity

/** The core's screens. */
class ScreensActivity : Activity()
