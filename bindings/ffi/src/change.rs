//! Learning that something changed, without being called back.

use std::time::Duration;

use crate::{Result, Swardbook};

#[uniffi::export]
impl Swardbook {
    /// A number that grows with every change to the book, made here, on a screen or by a swap.
    pub fn version(&self) -> Result<u64> {
        self.with(|open| Ok(open.books.version()))
    }

    /// Waits until the number is another than `seen`, or `timeout_ms` are up; the number then. For
    /// a thread that has nothing else to do; a book that is shut meanwhile waits for it, so keep
    /// the timeout short.
    pub fn wait_for_change(&self, seen: u64, timeout_ms: u32) -> Result<u64> {
        let longest = Duration::from_millis(timeout_ms.into());
        self.with(|open| open.books.wait_for_change(seen, longest))
    }

    /// The language to speak in, "en" or "es": as set on the screens, else the first that the
    /// device told and the core knows.
    pub fn language(&self) -> Result<String> {
        self.with(|open| Ok(open.books.language(&open.languages).to_owned()))
    }
}
