package org.swardbook.shell.keepoff

import org.junit.Assert.assertEquals
import org.junit.Assert.assertNull
import org.junit.Test
import uniffi.sward.KeepOffState
import uniffi.sward.RingFor

/** What is said when an alarm rings: never "over" unless the core says that it is. */
class RingingTest {
    private val states = listOf(
        KeepOffState.RunsUntilFinish,
        KeepOffState.RunsUntilLabelIsRead,
        KeepOffState.Runs(1, false),
        KeepOffState.Runs(1, true),
        KeepOffState.WaitsForDry,
        KeepOffState.TimeUncertain(null, false),
        KeepOffState.TimeUncertain(1, true),
        KeepOffState.Ended(1),
        KeepOffState.Lifted,
    )

    @Test
    fun `over is said of what has ended and of nothing else`() {
        for (armed in RingFor.values()) {
            for (state in states) {
                if (alertFor(armed, state) == Alert.OVER) assert(state is KeepOffState.Ended) { "$armed $state" }
            }
        }
        assertEquals(Alert.OVER, alertFor(RingFor.WAIT_OVER, KeepOffState.Ended(1)))
        assertEquals("the time was confirmed meanwhile", Alert.OVER, alertFor(RingFor.CONFIRM_TIME, KeepOffState.Ended(1)))
    }

    @Test
    fun `what was lengthened, lifted or seen dry rings for nothing`() {
        for (armed in RingFor.values()) {
            assertNull(alertFor(armed, KeepOffState.Runs(1, true)))
            assertNull(alertFor(armed, KeepOffState.Lifted))
        }
        assertNull(alertFor(RingFor.LOOK, KeepOffState.Ended(1)))
    }

    @Test
    fun `a wait that is over asks for a look, whatever it was armed for`() {
        for (armed in RingFor.values()) assertEquals(Alert.LOOK, alertFor(armed, KeepOffState.WaitsForDry))
    }

    @Test
    fun `only this app's own names are read`() {
        val which = Which("0190-aa", "0190-bb")
        assertEquals(which, Which.read(which.toString()))
        for (odd in listOf(null, "", "/", "a/b/c", "../x/y", "a b/c", "x'; DROP/1")) assertNull(odd, Which.read(odd))
    }
}
