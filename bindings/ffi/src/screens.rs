//! Starting and stopping the field screens.

use std::sync::PoisonError;

use crate::{Result, Swardbook};

/// Where the screens are served, on this device alone.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Screens {
    /// The port on 127.0.0.1.
    pub port: u16,
    /// The address that lets a browser in: a secret of this program.
    pub entrance: String,
}

#[uniffi::export]
impl Swardbook {
    /// Starts the screens, or tells where they run already.
    pub fn start_screens(&self) -> Result<Screens> {
        self.with(|open| {
            let mut served = open.served.lock().unwrap_or_else(PoisonError::into_inner);
            if served.is_none() {
                *served = Some(open.books.serve()?);
            }
            let served = served.as_ref().ok_or(sward_screens::Trouble::NotFound)?;
            Ok(Screens {
                port: served.address().port(),
                entrance: served.entrance().to_owned(),
            })
        })
    }

    /// Stops the screens, after what is being answered. The book stays open.
    pub fn stop_screens(&self) -> Result<()> {
        self.with(|open| {
            let served = open
                .served
                .lock()
                .unwrap_or_else(PoisonError::into_inner)
                .take();
            served.map_or(Ok(()), sward_screens::Served::stop)
        })
    }
}
