//! The season's clock: it starts weeks ago and is moved on to today.

use std::sync::{Arc, Mutex, PoisonError};

use sward_book::Env;
use sward_book::env::{Clock, TimeProof};

/// A clock that stands where it was put, with the device's own randomness.
pub(super) struct SeasonEnv {
    real: Arc<dyn Env>,
    at_utc_ms: Mutex<i64>,
}

impl SeasonEnv {
    pub(super) fn new(real: Arc<dyn Env>, at_utc_ms: i64) -> Arc<Self> {
        Arc::new(Self {
            real,
            at_utc_ms: Mutex::new(at_utc_ms),
        })
    }

    /// Moves the clock.
    pub(super) fn set(&self, at_utc_ms: i64) {
        *self
            .at_utc_ms
            .lock()
            .unwrap_or_else(PoisonError::into_inner) = at_utc_ms;
    }

    /// Lets minutes pass.
    pub(super) fn pass_min(&self, minutes: i64) {
        *self
            .at_utc_ms
            .lock()
            .unwrap_or_else(PoisonError::into_inner) += minutes * 60_000;
    }
}

impl Env for SeasonEnv {
    fn clock(&self) -> Clock {
        let real = self.real.clock();
        Clock {
            utc_ms: *self
                .at_utc_ms
                .lock()
                .unwrap_or_else(PoisonError::into_inner),
            vouched: Some(TimeProof::Person),
            ..real
        }
    }

    fn random(&self, bytes: &mut [u8]) {
        self.real.random(bytes);
    }
}
