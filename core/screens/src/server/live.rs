//! Telling open screens that something changed, so that two of them never differ for long.
//!
//! Only a number goes out; what changed, the screen asks for itself.

use std::convert::Infallible;
use std::sync::Arc;

use axum::extract::State;
use axum::response::Sse;
use axum::response::sse::{Event, KeepAlive};
use tokio_stream::wrappers::WatchStream;
use tokio_stream::{Stream, StreamExt as _};

use super::App;

/// A stream of the book's versions.
pub(crate) async fn follow(
    State(app): State<Arc<App>>,
) -> Sse<impl Stream<Item = Result<Event, Infallible>>> {
    let versions = WatchStream::new(app.shared.follow());
    Sse::new(versions.map(|version| Ok(Event::default().data(version.to_string()))))
        .keep_alive(KeepAlive::default())
}
