//! Writes the Kotlin and Python sources that belong to the built library.

fn main() {
    uniffi::uniffi_bindgen_main();
}
