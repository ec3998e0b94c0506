package org.swardbook.shell.screen

import android.net.Uri
import android.os.Message
import android.webkit.GeolocationPermissions
import android.webkit.JsPromptResult
import android.webkit.JsResult
import android.webkit.PermissionRequest
import android.webkit.ValueCallback
import android.webkit.WebChromeClient
import android.webkit.WebView

/** What a page may ask of the phone: a file that the person chooses, and where they stand. */
internal class ScreensChrome(
    address: Address,
    private val files: FileChoice,
    private val places: PlaceAsked,
) : WebChromeClient() {
    private val guard = Guard(address)

    override fun onShowFileChooser(
        view: WebView?,
        chosen: ValueCallback<Array<Uri>>,
        asked: FileChooserParams?,
    ): Boolean {
        files.ask(chosen)
        return true
    }

    override fun onGeolocationPermissionsShowPrompt(origin: String?, answer: GeolocationPermissions.Callback) {
        if (guard.isOurOrigin(origin)) {
            places.ask(origin, answer)
        } else {
            answer.invoke(origin, false, false)
        }
    }

    override fun onGeolocationPermissionsHidePrompt() = places.drop()

    override fun onPermissionRequest(request: PermissionRequest) = request.deny()

    override fun onCreateWindow(view: WebView?, isDialog: Boolean, isUserGesture: Boolean, result: Message?) = false

    // The screens have no such boxes: a page that shows one is none of theirs.

    override fun onJsAlert(view: WebView?, url: String?, message: String?, result: JsResult): Boolean {
        result.cancel()
        return true
    }

    override fun onJsConfirm(view: WebView?, url: String?, message: String?, result: JsResult): Boolean {
        result.cancel()
        return true
    }

    override fun onJsPrompt(
        view: WebView?,
        url: String?,
        message: String?,
        default: String?,
        result: JsPromptResult,
    ): Boolean {
        result.cancel()
        return true
    }

    /** What is typed is kept as a draft: nothing holds a person on a page. */
    override fun onJsBeforeUnload(view: WebView?, url: String?, message: String?, result: JsResult): Boolean {
        result.confirm()
        return true
    }
}
