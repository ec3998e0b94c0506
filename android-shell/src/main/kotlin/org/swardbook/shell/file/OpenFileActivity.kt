package org.swardbook.shell.file

import android.app.Activity
import android.content.Context
import android.os.Bundle
import android.os.Handler
import android.os.Looper
import android.os.SystemClock
import android.widget.Toast
import java.io.File
import org.swardbook.shell.R
import org.swardbook.shell.core.Core
import org.swardbook.shell.part.speaking
import org.swardbook.shell.screen.Address
import org.swardbook.shell.screen.ScreensActivity
import uniffi.sward.JoinRequest
import uniffi.sward.Role
import uniffi.sward.SwardException
import uniffi.sward.Swardbook

/**
 * A file that another app opened with us or shared to us. It is copied here first, bounded; nothing
 * of it is taken in before a person says so.
 */
class OpenFileActivity : Activity() {
    private enum class Stage { COPYING, ASKING, ASKING_AGAIN, READING, ASKING_TO_ADMIT, TAKING, TOLD }

    /** None before it is known which language the person reads. */
    private var views: OpenFileViews? = null
    private lateinit var waiting: Waiting
    private val ticks = Handler(Looper.getMainLooper())
    private var stage = Stage.COPYING
    private var id = Waiting.newId()
    private var name: String? = null
    private var bytes = 0L
    private var outcome: Outcome? = null
    private var copying: Copying? = null
    private var isInFront = false
    private var movedAtMs = 0L
    private var movedBytes = 0L

    override fun onCreate(state: Bundle?) {
        super.onCreate(state)
        waiting = Waiting(this)
        restore(state)
        speaking {
            views = OpenFileViews(this, it)
            begin()
            tick()
        }
    }

    private fun begin() {
        when (stage) {
            Stage.COPYING -> copy()
            Stage.READING, Stage.ASKING_TO_ADMIT -> read()
            // Killed in the middle: what came is on disk, and the file is still here.
            Stage.TAKING -> if (Taking.of(id) == null) askToTake(Stage.ASKING_AGAIN) else follow()
            Stage.ASKING, Stage.ASKING_AGAIN -> askToTake(stage)
            Stage.TOLD -> outcome?.let(::show) ?: finish()
        }
    }

    override fun onSaveInstanceState(state: Bundle) {
        super.onSaveInstanceState(state)
        state.putString(ID, id)
        state.putString(STAGE, stage.name)
        state.putString(NAME, name)
        state.putLong(BYTES, bytes)
        outcome?.save(state)
    }

    override fun onResume() {
        super.onResume()
        isInFront = true
        tick()
    }

    override fun onPause() {
        isInFront = false
        ticks.removeCallbacksAndMessages(null)
        super.onPause()
    }

    override fun onDestroy() {
        copying?.stop()
        if (isFinishing && Taking.of(id) !is Took.Going) {
            file().delete()
            Taking.forget(id)
        }
        super.onDestroy()
    }

    private fun restore(state: Bundle?) {
        val saved = state?.getString(ID) ?: return
        id = Waiting.checked(saved)
        name = state.getString(NAME)
        bytes = state.getLong(BYTES)
        outcome = Outcome.saved(state)
        stage = Stage.valueOf(state.getString(STAGE) ?: Stage.COPYING.name)
        // The system takes files of the cache when it needs their room.
        val needsFile = stage != Stage.COPYING && stage != Stage.TOLD && Taking.of(id) == null
        if (needsFile && !file().isFile) stage = Stage.COPYING
    }

    private fun file(): File = waiting.placeForIncoming(id)

    // ---- Copying.

    private fun copy() {
        stage = Stage.COPYING
        val uri = when (val incoming = Incoming.of(intent, this)) {
            is Incoming.File -> incoming.uri
            is Incoming.Refused -> return tell(R.string.file_not_taken, incoming.why)
        }
        val copy = Copying(contentResolver, uri, file())
        copying = copy
        movedAtMs = SystemClock.uptimeMillis()
        views?.showCopying(0) { finish() }
        Thread({
            waiting.sweep()
            val copied = copy.run()
            Core.of(this).onMain { if (!isDestroyed && copying === copy) copied(copied) }
        }, "copying").start()
    }

    private fun copied(copied: Copied) {
        copying = null
        when (copied) {
            is Copied.Whole -> {
                name = copied.name
                bytes = copied.bytes
                when (copied.kind) {
                    FileKind.LOCKED -> askToTake(Stage.ASKING)
                    FileKind.REQUEST -> read()
                    null -> tell(R.string.file_not_taken, R.string.file_other)
                }
            }
            Copied.Empty -> tell(R.string.file_not_taken, R.string.file_empty)
            Copied.TooLong -> tell(R.string.file_not_taken, R.string.file_too_long)
            Copied.NotReadable -> tell(R.string.file_not_taken, R.string.file_not_readable)
            Copied.NoRoom -> tell(R.string.file_not_taken, R.string.file_no_room)
            Copied.Stopped -> tell(R.string.file_not_taken, R.string.file_stopped)
        }
    }

    // ---- A locked file.

    private fun askToTake(asking: Stage) {
        stage = asking
        val isAgain = asking == Stage.ASKING_AGAIN
        views?.askToTake(name, bytes, isAgain, take = ::take, leave = ::finish)
    }

    private fun take() {
        // What the other phone started may have to ring here.
        Core.of(this).watchChanges()
        Taking.begin(Core.of(this), id, file())
        follow()
    }

    private fun follow() {
        stage = Stage.TAKING
        tick()
    }

    private fun tick() {
        if (views == null || !isInFront) return
        ticks.removeCallbacksAndMessages(null)
        when (stage) {
            Stage.COPYING -> copying?.let(::watch)
            Stage.TAKING -> when (val took = Taking.of(id)) {
                is Took.Going -> views?.showTaking(took.progress) {
                    Toast.makeText(this, words().getString(R.string.file_leave_going), Toast.LENGTH_LONG).show()
                    finish()
                }
                is Took.Done -> return show(Outcome.ofTaken(words(), took.taken))
                is Took.Failed -> return tell(R.string.file_not_taken, R.string.file_unsaid, took.said)
                null -> return
            }
            else -> return
        }
        ticks.postDelayed(::tick, TICK_MS)
    }

    /** An app that has handed over nothing for a while is not waited for any longer. */
    private fun watch(copy: Copying) {
        val now = SystemClock.uptimeMillis()
        if (copy.bytesSoFar != movedBytes) {
            movedBytes = copy.bytesSoFar
            movedAtMs = now
        }
        if (now - movedAtMs > QUIET_MOST_MS) {
            copy.stop()
            copying = null
            tell(R.string.file_not_taken, R.string.file_stopped)
        } else {
            views?.showCopying(copy.bytesSoFar) { finish() }
        }
    }

    // ---- A request to join.

    private fun read() {
        stage = Stage.READING
        views?.showCopying(bytes) { finish() }
        onCore(R.string.file_not_taken, { it.readJoinRequest(file().path) }, ::askToAdmit)
    }

    private fun askToAdmit(request: JoinRequest) {
        stage = Stage.ASKING_TO_ADMIT
        views?.askToAdmit(request, admit = ::admit, leave = ::finish)
    }

    private fun admit(role: Role) {
        views?.showWaiting()
        onCore(R.string.file_not_admitted, { it.admit(file().path, role) }) {
            val words = words()
            show(
                Outcome(
                    words.getString(R.string.file_admitted), words.getString(R.string.file_admitted_text),
                    null, Outcome.Then.HAND_OVER,
                ),
            )
        }
    }

    private fun <T> onCore(failed: Int, work: (Swardbook) -> T, done: (T) -> Unit) {
        val core = Core.of(this)
        core.work {
            val outcome = runCatching { core.call(work) }
            core.onMain {
                if (!isDestroyed) {
                    outcome.fold(done) { tell(failed, R.string.file_unsaid, (it as? SwardException)?.message) }
                }
            }
        }
    }

    // ---- How it ended.

    private fun tell(title: Int, what: Int, said: String? = null) {
        val text = said?.takeIf { it.isNotBlank() } ?: words().getString(what)
        show(Outcome(words().getString(title), text, null, Outcome.Then.CLOSE))
    }

    private fun words(): Context = views?.words ?: this

    private fun show(end: Outcome) {
        stage = Stage.TOLD
        outcome = end
        views?.show(end) {
            when (end.then) {
                Outcome.Then.CLOSE -> Unit
                Outcome.Then.SCREENS -> startActivity(ScreensActivity.at(this, Address.HOME))
                Outcome.Then.HAND_OVER -> startActivity(HandOverActivity.ofRecords(this))
            }
            finish()
        }
    }

    private companion object {
        const val TICK_MS = 250L
        const val QUIET_MOST_MS = 60_000L
        const val ID = "id"
        const val STAGE = "stage"
        const val NAME = "name"
        const val BYTES = "bytes"
    }
}
