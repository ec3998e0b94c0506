package org.swardbook.shell.core

import android.content.Context
import android.content.res.Configuration
import android.os.Handler
import android.os.Looper
import java.util.Locale
import java.util.concurrent.ExecutorService
import java.util.concurrent.Executors
import org.swardbook.shell.R
import org.swardbook.shell.keepoff.Alarms
import uniffi.sward.SwardException
import uniffi.sward.Swardbook

/**
 * The one open book of this process. Everything of the shell goes through it, off the main thread.
 *
 * It is opened when first asked for and stays open; a book that was shut, or whose core broke, is
 * opened again.
 */
class Core private constructor(private val context: Context) {
    private val worker = inBackground("core")

    /** Of their own, so that no alarm waits until a swap is through. */
    private val alarms = inBackground("alarms")
    private val main = Handler(Looper.getMainLooper())
    private var opener: () -> Swardbook = { Swardbook.open(Device.told(context)) }
    private var open: Swardbook? = null
    private var watching: Thread? = null

    /** The book, opened where it is not. Throws what opening says; for a background thread. */
    @Synchronized
    fun book(): Swardbook {
        open?.takeIf { it.isOpen() }?.let { return it }
        // No book may be begun beside the one that cannot be seen yet.
        if (!Device.wasUnlocked(context)) throw SwardException.Disk(context.getString(R.string.unlock_first))
        return opener().also { open = it }
    }

    /**
     * Calls the core. A book that another thread shut is opened again, and asked once more; one
     * whose core broke is shut, so that the next call opens it.
     */
    fun <T> call(what: (Swardbook) -> T): T = try {
        what(book())
    } catch (_: SwardException.Closed) {
        what(book())
    } catch (broken: SwardException.Broken) {
        shut()
        throw broken
    }

    /** Shuts the book after the calls that are being answered; who asks meanwhile waits, and opens it. */
    @Synchronized
    fun shut() {
        // Freed when nobody holds it any more: another thread may be about to ask it.
        open?.shut()
        open = null
    }

    /** Does something in the background, one thing after another. */
    fun work(what: () -> Unit) = worker.execute(what)

    /** Does something about alarms in the background: reading only, which waits for nobody. */
    fun ring(what: () -> Unit) = alarms.execute(what)

    /** Does something on the main thread. */
    fun onMain(what: () -> Unit) {
        main.post(what)
    }

    /** A context that speaks the language of the core's screens, else the phone's. */
    fun speaking(of: Context): Context {
        val language = try {
            call { it.language() }
        } catch (_: Throwable) {
            // Words in the phone's language are better than none.
            return of
        }
        val speaks = Configuration(of.resources.configuration)
        speaks.setLocale(Locale.forLanguageTag(language))
        return of.createConfigurationContext(speaks)
    }

    /** Arms the alarms anew after every change to the book, as long as this process lives. */
    @Synchronized
    fun watchChanges() {
        if (watching?.isAlive == true) return
        watching = Thread(::armAfterChanges, "changes").apply {
            isDaemon = true
            start()
        }
    }

    private fun armAfterChanges() {
        var seen: ULong? = null
        while (true) {
            try {
                val version = call { it.waitForChange(seen ?: it.version(), WAIT_MS) }
                if (version != seen) Alarms.arm(context)
                seen = version
            } catch (_: Throwable) {
                // Told where somebody waits for an answer; the alarms that are armed stay.
                Thread.sleep(WAIT_MS.toLong())
            }
        }
    }

    companion object {
        /** Short, because a book that is shut waits for it. */
        private const val WAIT_MS: UInt = 2_000u

        private fun inBackground(name: String): ExecutorService =
            Executors.newSingleThreadExecutor { task -> Thread(task, name).apply { isDaemon = true } }

        @Volatile
        private var instance: Core? = null

        fun of(context: Context): Core = instance ?: synchronized(this) {
            instance ?: Core(context.applicationContext).also { instance = it }
        }

        /** For tests: a book that `opener` opens takes the place of the device's own. */
        fun instead(context: Context, opener: () -> Swardbook): Core = synchronized(this) {
            Core(context.applicationContext).also {
                it.opener = opener
                instance = it
            }
        }
    }
}
