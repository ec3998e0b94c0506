package org.swardbook.shell.screen

import android.app.Activity
import android.content.ActivityNotFoundException
import android.content.Context
import android.content.Intent
import android.content.res.Configuration
import android.os.Bundle
import android.os.SystemClock
import android.widget.Toast
import java.io.IOException
import org.swardbook.shell.R
import org.swardbook.shell.allowed.Allowed
import org.swardbook.shell.allowed.AllowedActivity
import org.swardbook.shell.core.Core
import org.swardbook.shell.file.HandOverActivity
import org.swardbook.shell.walk.WalkActivity
import uniffi.sward.SwardException

/**
 * The core's screens. Only the path of the screen that is shown is remembered: the core serves at
 * another port, with another pass, after every start, and what is typed is kept there.
 */
internal class ScreensActivity : Activity(), ScreensHost {
    private lateinit var views: ScreensViews
    private val files = FileChoice(this)
    private val places = PlaceAsked(this)
    private val tries = Tries()
    private var pages: Pages? = null

    /** The screen that is shown, or is to be. */
    private var path = Address.HOME

    /** Entering goes on off the main thread; only the last counts. */
    private var turn = 0
    private var isEntering = false
    private var isInFront = false

    override fun onCreate(state: Bundle?) {
        super.onCreate(state)
        views = ScreensViews(
            this,
            onWalk = { startActivity(Intent(this, WalkActivity::class.java)) },
            onAllowed = { startActivity(Intent(this, AllowedActivity::class.java)) },
        )
        Core.of(this).watchChanges()
        enterAnew(Address.pathOrHome(state?.getString(PATH) ?: pathIn(intent)))
    }

    override fun onNewIntent(intent: Intent?) {
        super.onNewIntent(intent)
        val asked = Address.pathOrHome(pathIn(intent) ?: return)
        pages?.show(asked) ?: enterAnew(asked)
    }

    override fun onSaveInstanceState(state: Bundle) {
        super.onSaveInstanceState(state)
        state.putString(PATH, path)
    }

    override fun onResume() {
        super.onResume()
        isInFront = true
        pages?.resume()
        tellMissing()
        if (pages == null && !isEntering && !views.showsTrouble) enterAnew(path)
    }

    override fun onPause() {
        isInFront = false
        pages?.pause()
        super.onPause()
    }

    override fun onDestroy() {
        turn++
        files.drop()
        places.drop()
        letPagesGo()
        super.onDestroy()
    }

    override fun onConfigurationChanged(now: Configuration) {
        super.onConfigurationChanged(now)
        views.fit()
        pages?.fit(now)
    }

    /** Back through the screens first; a form that was typed into is kept as it is left. */
    @Deprecated("The way of API 26 to 34 without opting in to the newer one")
    override fun onBackPressed() {
        when {
            pages?.back() == true -> return
            pages != null && path != Address.HOME -> pages?.show(Address.HOME)
            // Not ended: what is shown is there at once when the person comes back.
            !moveTaskToBack(true) -> finish()
        }
    }

    @Deprecated("There is no other on the framework's own classes")
    override fun onActivityResult(requestCode: Int, resultCode: Int, data: Intent?) {
        if (requestCode == FileChoice.REQUEST) files.chosen(resultCode, data)
    }

    override fun onRequestPermissionsResult(requestCode: Int, permissions: Array<out String>, results: IntArray) {
        if (requestCode == PlaceAsked.REQUEST) places.answered()
    }

    override fun runsStill(address: Address): Boolean {
        val runs = try {
            Core.of(this).call { it.startScreens() }.port.toInt() == address.port
        } catch (_: SwardException) {
            false
        }
        if (!runs) runOnUiThread { takeAlong(address) }
        return runs
    }

    override fun shown(path: String) {
        this.path = path
        views.offerWalk(false)
        tellMissing()
    }

    /** On the first screen alone: there a person looks at what runs, and elsewhere it would be in the way. */
    private fun tellMissing() =
        views.tellMissing(path == Address.HOME && pages != null && Allowed.missingForCalls(this).isNotEmpty())

    override fun loaded() {
        pages?.asksForWalk { views.offerWalk(it) }
    }

    override fun enterAnew(path: String) = enter(path, emptyList())

    override fun sentPageGone(path: String) {
        if (pages?.back() != true) enterAnew(path)
    }

    override fun dial(way: Way.Dial) {
        try {
            startActivity(Intent(Intent.ACTION_DIAL, way.number))
        } catch (_: ActivityNotFoundException) {
            tell(getString(R.string.screen_no_dialler, way.number.schemeSpecificPart))
        }
    }

    override fun refused() = tell(getString(R.string.screen_refused))

    override fun drawingEnded() {
        letPagesGo()
        // In the background there is nobody to draw for: entered anew when the person comes back.
        if (isInFront) enterAnew(path)
    }

    /** The core was started anew under the page: entered there, with what was typed and not kept. */
    private fun takeAlong(address: Address) {
        val left = pages?.takeIf { it.address === address && !isEntering } ?: return
        isEntering = true
        left.unkept { forms -> if (pages === left) enter(path, forms) }
    }

    private fun enter(path: String, forms: List<String>) {
        this.path = path
        val turn = ++turn
        isEntering = true
        letPagesGo()
        if (!tries.mayTry(SystemClock.elapsedRealtime())) {
            isEntering = false
            showTrouble(getString(R.string.screen_breaks_off))
            return
        }
        views.showOpening()
        val core = Core.of(this)
        // Not the core's one worker: taking in a long file must not keep the screens shut.
        Thread({
            val entered = runCatching { entered(core, forms) }
            core.onMain { if (turn == this.turn && !isDestroyed) goIn(entered) }
        }, "entering").start()
    }

    private class Entered(val address: Address, val pass: String, val isAllKept: Boolean)

    private fun entered(core: Core, forms: List<String>): Entered {
        val screens = core.call { it.startScreens() }
        val address = Address(screens.port.toInt())
        val pass = Entrance.pass(screens)
        val isAllKept = try {
            Unkept.keep(forms, address, pass)
            true
        } catch (_: IOException) {
            false
        }
        return Entered(address, pass, isAllKept)
    }

    private fun goIn(entered: Result<Entered>) {
        isEntering = false
        val way = entered.getOrElse {
            showTrouble(said(it))
            return
        }
        val made = try {
            Pages(this, way.address, ScreensClient(way.address, this), ScreensChrome(way.address, files, places))
        } catch (_: RuntimeException) {
            // Thrown where the system's part that shows pages is missing or is being renewed.
            showTrouble(getString(R.string.screen_no_web))
            return
        }
        pages = made
        views.showPages(made.view)
        made.onFile { url, name -> startActivity(HandOverActivity.ofPage(this, url, name)) }
        Entrance.carry(way.address, way.pass)
        made.show(path)
        if (!way.isAllKept) tell(getString(R.string.screen_not_kept))
    }

    private fun showTrouble(why: String) = views.showTrouble(why) {
        tries.forget()
        enterAnew(path)
    }

    private fun letPagesGo() {
        val gone = pages ?: return
        pages = null
        views.letPagesGo()
        gone.end()
    }

    private fun tell(what: String) = Toast.makeText(this, what, Toast.LENGTH_LONG).show()

    private fun said(error: Throwable): String =
        (error as? SwardException)?.message?.takeIf { it.isNotBlank() } ?: getString(R.string.screen_unsaid)

    companion object {
        private const val PATH = "path"

        /** The screens at a path of theirs, like "/visits/…": where there is none, the first screen. */
        fun at(context: Context, path: String): Intent = Intent(context, ScreensActivity::class.java)
            .putExtra(PATH, path)
            .addFlags(Intent.FLAG_ACTIVITY_NEW_TASK or Intent.FLAG_ACTIVITY_CLEAR_TOP or Intent.FLAG_ACTIVITY_SINGLE_TOP)

        /** Other apps start this too, with extras that cannot be read. */
        private fun pathIn(intent: Intent?): String? = runCatching { intent?.getStringExtra(PATH) }.getOrNull()
    }
}
