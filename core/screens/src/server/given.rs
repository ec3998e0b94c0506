//! The files that forms answered with, each at an address of its own for whoever fetches it.
//!
//! A phone's shell and a browser's list of downloads ask for a file by GET, and more than once;
//! what a form sent they do not send again.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

use axum::body::Bytes;
use axum::extract::{Path, RawQuery, State};
use axum::http::Uri;
use axum::http::header::{self, HeaderMap, HeaderValue};
use axum::response::{IntoResponse as _, Response};
use uuid::Uuid;

use super::{App, handle};

/// How many are kept: of two that were asked for at once, neither is gone before it is fetched.
const KEPT_MOST: usize = 2;

/// A file as it is served.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct File {
    /// Its name.
    pub(super) name: String,
    /// Its media type.
    pub(super) kind: &'static str,
    /// Its content.
    pub(super) bytes: Bytes,
}

/// The last files. They end with the program: a copy of records lies nowhere but where a person
/// put it.
#[derive(Default)]
pub(super) struct Given {
    last: Mutex<VecDeque<(Uuid, File)>>,
}

impl Given {
    /// Keeps a file; its address.
    pub(super) fn keep(&self, id: Uuid, file: File) -> String {
        let mut last = self.last.lock().unwrap_or_else(PoisonError::into_inner);
        last.truncate(KEPT_MOST - 1);
        last.push_front((id, file));
        format!("/file/{id}")
    }

    fn find(&self, id: &str) -> Option<File> {
        let last = self.last.lock().unwrap_or_else(PoisonError::into_inner);
        last.iter()
            .find(|(kept, _)| kept.to_string() == id)
            .map(|(_, file)| file.clone())
    }
}

/// Serves one of them.
pub(super) async fn give(
    State(app): State<Arc<App>>,
    Path(id): Path<String>,
    headers: HeaderMap,
    uri: Uri,
) -> Response {
    let Some(File { name, kind, bytes }) = app.given.find(&id) else {
        return handle::nothing_here(State(app), headers, uri, RawQuery(None)).await;
    };
    let mut response = bytes.into_response();
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(kind));
    if let Ok(kept) = HeaderValue::from_str(&format!("attachment; filename=\"{name}\"")) {
        headers.insert(header::CONTENT_DISPOSITION, kept);
    }
    response
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_two_files_are_there_as_often_as_they_are_asked_for() {
        let given = Given::default();
        let keep = |n: u8| {
            let file = File {
                name: format!("{n}.csv"),
                kind: "text/csv",
                bytes: Bytes::from(vec![n]),
            };
            given.keep(Uuid::from_u128(n.into()), file)
        };
        let found = |path: &str| {
            let file = given.find(path.strip_prefix("/file/").unwrap());
            file.map(|file| file.name)
        };
        let (one, two) = (keep(1), keep(2));
        assert_eq!(found(&one).as_deref(), Some("1.csv"));
        assert_eq!(found(&one).as_deref(), Some("1.csv"));
        let three = keep(3);
        assert_eq!(found(&one), None);
        assert_eq!(found(&two).as_deref(), Some("2.csv"));
        assert_eq!(found(&three).as_deref(), Some("3.csv"));
        assert_eq!(given.find("../1"), None);
    }
}
