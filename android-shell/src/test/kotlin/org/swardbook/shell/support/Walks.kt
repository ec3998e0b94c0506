package org.swardbook.shell.support

import org.robolectric.util.ReflectionHelpers
import org.swardbook.shell.walk.WalkService
import org.swardbook.shell.walk.WalkState

/** As after a start of the program: what a test before left behind is not told in this one. */
fun forgetWalk() = ReflectionHelpers.setStaticField(WalkService::class.java, "state", WalkState.None)
