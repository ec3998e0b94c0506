package org.swardbook.shell.support

import android.app.Activity
import android.graphics.Bitmap
import android.graphics.Canvas
import android.view.View
import java.awt.image.BufferedImage
import java.io.File
import javax.imageio.ImageIO
import kotlin.math.abs
import org.junit.Assert.fail
import org.robolectric.RuntimeEnvironment

/** One way in which a person may see a surface. */
data class Look(val size: String, val fontScale: Int, val dark: Boolean, val language: String) {
    /** Sets the phone to it, before an activity is made. */
    fun set() {
        val night = if (dark) "night" else "notnight"
        val region = if (language == "es") "es-rUS" else "en-rUS"
        RuntimeEnvironment.setQualifiers("$region-$size-$night-mdpi")
        RuntimeEnvironment.setFontScale(fontScale.toFloat())
    }

    override fun toString() = "$language-${if (dark) "dark" else "light"}-$fontScale-${size.substringBefore('-')}"

    companion object {
        /** A small phone and a tablet held upright. */
        private val SIZES = listOf("w320dp-h568dp", "w600dp-h960dp")

        /** Two sizes, font scales 1 and 2, light and dark, both languages. */
        val ALL = SIZES.flatMap { size ->
            listOf(1, 2).flatMap { scale ->
                listOf(false, true).flatMap { dark -> listOf("en", "es").map { Look(size, scale, dark, it) } }
            }
        }
    }
}

/**
 * Draws surfaces and holds them against committed pictures. A pixel differs when one of its channels
 * differs by more than [CHANNEL_MOST] of 255; a picture, when more than [SHARE_MOST] of its pixels do:
 * letters may be smoothed a little differently, nothing may move, vanish or change its colour.
 */
object Drawn {
    private const val CHANNEL_MOST = 32
    private const val SHARE_MOST = 0.005

    private val committed = File(System.getProperty("pictures.committed")!!)
    private val drawn = File(System.getProperty("pictures.drawn")!!)
    private val renew = System.getProperty("pictures.renew") == "yes"

    /** Everything of an activity, what has to be scrolled too. */
    fun of(activity: Activity): Bitmap {
        val metrics = activity.resources.displayMetrics
        val content = activity.findViewById<View>(android.R.id.content)
        val width = View.MeasureSpec.makeMeasureSpec(metrics.widthPixels, View.MeasureSpec.EXACTLY)
        content.measure(width, View.MeasureSpec.makeMeasureSpec(metrics.heightPixels, View.MeasureSpec.EXACTLY))
        val needed = tallest(content, width)
        content.measure(width, View.MeasureSpec.makeMeasureSpec(needed, View.MeasureSpec.EXACTLY))
        content.layout(0, 0, content.measuredWidth, content.measuredHeight)
        val bitmap = Bitmap.createBitmap(content.width, content.height, Bitmap.Config.ARGB_8888)
        content.draw(Canvas(bitmap))
        return bitmap
    }

    private fun tallest(content: View, width: Int): Int {
        val least = content.resources.displayMetrics.heightPixels
        val scrolled = (content as? android.view.ViewGroup)?.getChildAt(0) as? android.widget.ScrollView
        val inside = scrolled?.getChildAt(0) ?: return least
        inside.measure(width, View.MeasureSpec.makeMeasureSpec(0, View.MeasureSpec.UNSPECIFIED))
        return maxOf(least, inside.measuredHeight)
    }

    /** Fails unless the surface looks as it was committed. */
    fun compare(name: String, look: Look, bitmap: Bitmap) {
        val picture = pictureOf(bitmap)
        val file = File(drawn, "$name-$look.png")
        write(picture, file)
        val known = File(committed, file.name)
        if (renew) {
            write(picture, known)
            return
        }
        if (!known.isFile) fail("${known.name} is not committed: run `build pictures` and look at it")
        val other = ImageIO.read(known)
        if (other.width != picture.width || other.height != picture.height) {
            fail("${known.name} has ${other.width} × ${other.height}, drawn are ${picture.width} × ${picture.height}")
        }
        val share = differing(picture, other).toDouble() / (picture.width * picture.height)
        if (share > SHARE_MOST) fail("${known.name}: $share of the pixels differ; look at ${file.path}")
    }

    private fun differing(a: BufferedImage, b: BufferedImage): Int {
        val (these, those) = listOf(a, b).map { it.getRGB(0, 0, it.width, it.height, null, 0, it.width) }
        return these.indices.count { n ->
            (0..16 step 8).any { shift ->
                abs((these[n] ushr shift and 0xff) - (those[n] ushr shift and 0xff)) > CHANNEL_MOST
            }
        }
    }

    /** Without the alpha that nothing here has. */
    private fun pictureOf(bitmap: Bitmap): BufferedImage {
        val picture = BufferedImage(bitmap.width, bitmap.height, BufferedImage.TYPE_INT_RGB)
        val pixels = IntArray(bitmap.width * bitmap.height)
        bitmap.getPixels(pixels, 0, bitmap.width, 0, 0, bitmap.width, bitmap.height)
        picture.setRGB(0, 0, bitmap.width, bitmap.height, pixels, 0, bitmap.width)
        return picture
    }

    private fun write(picture: BufferedImage, file: File) {
        file.parentFile!!.mkdirs()
        check(ImageIO.write(picture, "png", file))
    }
}
