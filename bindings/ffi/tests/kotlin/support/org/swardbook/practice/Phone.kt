package org.swardbook.practice

import java.io.File
import java.nio.file.Files
import uniffi.sward.DeviceTold
import uniffi.sward.PersonTold
import uniffi.sward.PracticeClock
import uniffi.sward.Role
import uniffi.sward.Start
import uniffi.sward.Swardbook
import uniffi.sward.TakenFile
import uniffi.sward.Typed
import uniffi.sward.Verdict

const val HOUR_MS = 3_600_000L
const val MINUTE_MS = 60_000L

/** 2026-06-15 12:00 UTC, a Monday in the season. */
const val NOON_UTC_MS = 1_781_524_800_000L

/** A section that was treated: its visit and its keep-off. */
data class Treated(val visit: String, val keepOff: String)

/**
 * A phone with a practice book in a folder that goes with it, on a clock that stands still. Names
 * and products are invented.
 */
class Phone(
    val clock: PracticeClock = PracticeClock(NOON_UTC_MS, -240),
    private val languages: String = "en",
) : AutoCloseable {
    val folder: File = Files.createTempDirectory("sward").toFile()
    var book: Swardbook = open()

    fun told() = DeviceTold(File(folder, "book").path, "America/New_York", 1uL, languages)

    fun open(): Swardbook = Swardbook.practise(told(), clock)

    fun file(name: String): String = File(folder, name).path

    override fun close() {
        book.shut()
        folder.deleteRecursively()
    }

    fun found(): Phone {
        book.foundCrew("Practice crew", PersonTold("Núria Sample", ""), true)
        return this
    }

    /** A label sheet whose numbers were typed twice; `other` fields replace the usual ones. */
    fun label(vararg other: Pair<String, String>): String {
        val fields = LABEL + other
        val label = book.addLabel(typed(fields))
        book.readBack(label, typed(fields.filterKeys { it in READ_BACK }), null)
        return label
    }

    fun yard(name: String = "Corner lot"): String {
        val yard = book.addYard(name, "1 Test Lane", "America/New_York")
        book.addRectangle(yard, "front", "60 ft", "25 ft")
        return yard
    }

    /** A start that acknowledges whatever is not known. */
    fun started(label: String, yard: String = yard()): Treated {
        val visit = book.openVisit(yard, "chinch bug")
        val unknown = book.checkReady(visit, label, RATE).findings.filter { it.verdict == Verdict.UNKNOWN }
        val start = Start(label, RATE, emptyList(), unknown.map { it.check }, null, null, null, null)
        return Treated(visit, book.startTreating(visit, start).single())
    }

    /** Started, loaded and finished now. */
    fun treated(label: String = label(), yard: String = yard()): Treated {
        val treated = started(label, yard)
        book.recordLoad(treated.visit, emptyList(), "3 lb", null, clock.utcMs())
        book.finishTreating(treated.visit, "")
        return treated
    }

    /** Another phone that this one's crew lead admitted, and that holds what this one held. */
    fun joined(): Phone {
        val other = Phone(clock)
        other.book.askToJoin(PersonTold("Tomás Sample", ""), true)
        val request = other.file("ask.swreq")
        check(other.book.writeJoinRequest(request) == book.readJoinRequest(request).checkDigits)
        book.admit(request, Role.APPLICATOR)
        giveTo(other)
        return other
    }

    /** Hands everything to another phone by a locked file. */
    fun giveTo(other: Phone): TakenFile {
        val file = Files.createTempFile(folder.toPath(), "swap", ".swlock").toFile()
        check(file.delete())
        book.makeLockedFile(file.path)
        return other.book.takeLockedFile(file.path)
    }

    companion object {
        /** The label's most. */
        const val RATE = "2.5 lb/1000 ft2"

        val LABEL = mapOf(
            "product" to "Granule Nought",
            "registration" to "00000-0",
            "method" to "foliar_spray",
            "rate_most" to "2.5 lb/1000 ft2",
            "wind_most" to "10 mph",
            "keep_off_until_dry" to "yes",
            "keep_off_wait" to "4 h",
        )
        private val READ_BACK = setOf("rate_most", "wind_most", "keep_off_until_dry", "keep_off_wait")

        fun typed(fields: Map<String, String>) = fields.map { (field, text) -> Typed(field, text) }
    }
}
