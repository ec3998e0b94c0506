import uniffi.sward.DeviceTold
import uniffi.sward.PracticeClock
import uniffi.sward.Swardbook

/** Middle times of calls on the book in a folder, in microseconds, a line each. Run by the bench of the facade. */
object BenchCalls {
    @JvmStatic
    fun main(args: Array<String>) {
        val (folder, times) = args[0] to args[1].toInt()
        val told = DeviceTold(folder, "America/New_York", 1uL, "en")
        val clock = PracticeClock(1_781_524_800_000 + 800L * 3 * 3_600_000, -240)
        // The first calls pay for loading and compiling, as the first on a phone do; the middle does not show them.
        val opening = List(11) {
            val began = System.nanoTime()
            val book = Swardbook.practise(told, clock)
            ((System.nanoTime() - began) / 1e3).also { book.shut() }
        }
        println("open ${middle(opening)}")
        val book = Swardbook.practise(told, clock)
        println("version ${middle(times) { book.version() }}")
        println("keep_offs_to_watch ${middle(times) { book.keepOffsToWatch() }}")
        println("yards ${middle(times) { book.yards() }}")
        book.shut()
    }

    private fun middle(times: Int, call: () -> Any?): Double = middle(
        List(times) {
            val began = System.nanoTime()
            call()
            (System.nanoTime() - began) / 1e3
        },
    )

    private fun middle(took: List<Double>) = took.sorted()[took.size / 2]
}
