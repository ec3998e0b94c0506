//! The door: who may ask at all. This machine, this browser, and only from our own pages.
//!
//! Any page of the web can make a browser send requests to loopback, and any program of this
//! machine can connect: so a token of this start, the host, and the origin are checked before
//! anything else, and answers forbid everything that is not ours.

use std::net::SocketAddr;
use std::sync::{Arc, Mutex, PoisonError};

use axum::extract::{RawQuery, Request, State};
use axum::http::header::{self, HeaderMap, HeaderName, HeaderValue};
use axum::http::{Method, StatusCode};
use axum::middleware::Next;
use axum::response::{Html, IntoResponse as _, Response};
use data_encoding::HEXLOWER;
use maud::{DOCTYPE, html};
use sha2::{Digest as _, Sha256};
use sward_book::Env;

use super::App;
use crate::words::Words;

/// What needs no token: files that hold nothing of anyone.
const FOR_ANYONE: [&str; 3] = ["/app.css", "/app.js", "/icon.svg"];

const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; \
connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// The tokens of this start and the addresses that are ours.
pub(crate) struct Door {
    /// Stands in the address that is printed, and lets in whoever has it.
    token: String,
    /// Stands in the address that a browser is started with, where other users of this machine
    /// could read it: lets in once.
    token_once: Mutex<Option<String>>,
    /// What a browser that was let in carries.
    pass: String,
    port: u16,
}

impl Door {
    /// A door with new tokens.
    pub(crate) fn new(address: SocketAddr, env: &dyn Env) -> Self {
        let token = || {
            let mut token = [0; 32];
            env.random(&mut token);
            HEXLOWER.encode(&token)
        };
        Self {
            token: token(),
            token_once: Mutex::new(Some(token())),
            pass: token(),
            port: address.port(),
        }
    }

    /// The address that lets a browser in.
    pub(crate) fn entrance(&self) -> String {
        self.entrance_with(&self.token)
    }

    /// The address that lets one browser in, once.
    pub(crate) fn entrance_once(&self) -> String {
        let once = self
            .token_once
            .lock()
            .unwrap_or_else(PoisonError::into_inner);
        self.entrance_with(once.as_deref().unwrap_or_default())
    }

    fn entrance_with(&self, token: &str) -> String {
        format!("http://127.0.0.1:{}/enter?token={token}", self.port)
    }

    /// Whether a token lets in; the one for once does so this time and never again.
    pub(super) fn lets_in(&self, given: &str) -> bool {
        if same(given, &self.token) {
            return true;
        }
        let mut once = self
            .token_once
            .lock()
            .unwrap_or_else(PoisonError::into_inner);
        once.take_if(|token| same(given, token)).is_some()
    }

    /// Cookies do not tell ports apart, so the name does.
    fn cookie_name(&self) -> String {
        format!("swardbook-{}", self.port)
    }

    pub(super) fn is_ours(&self, host: &str) -> bool {
        ["127.0.0.1", "localhost"]
            .iter()
            .any(|name| host == format!("{name}:{}", self.port))
    }

    fn knows(&self, headers: &HeaderMap) -> bool {
        let name = self.cookie_name();
        headers
            .get_all(header::COOKIE)
            .iter()
            .filter_map(|v| v.to_str().ok())
            .flat_map(|v| v.split(';'))
            .filter_map(|pair| pair.trim().split_once('='))
            .any(|(n, value)| n == name && same(value, &self.pass))
    }

    fn why_not(&self, request: &Request) -> Option<&'static str> {
        let headers = request.headers();
        let text = |name: HeaderName| headers.get(name).and_then(|v| v.to_str().ok());
        if !text(header::HOST).is_some_and(|host| self.is_ours(host)) {
            return Some("door-host");
        }
        let origin = text(header::ORIGIN);
        let changes = request.method() != Method::GET && request.method() != Method::HEAD;
        let from_us = origin.is_some_and(|o| {
            o.strip_prefix("http://")
                .is_some_and(|host| self.is_ours(host))
        });
        if !from_us && (changes || origin.is_some()) {
            return Some("door-origin");
        }
        let path = request.uri().path();
        if path != "/enter" && !FOR_ANYONE.contains(&path) && !self.knows(headers) {
            return Some("door-token");
        }
        None
    }
}

/// Compared by their hashes, so that the time it takes tells nothing.
fn same(given: &str, token: &str) -> bool {
    Sha256::digest(given.as_bytes()) == Sha256::digest(token.as_bytes())
}

/// Lets a request through, or says what to do. Adds what every answer carries.
pub(crate) async fn guard(State(app): State<Arc<App>>, request: Request, next: Next) -> Response {
    let mut response = match app.door.why_not(&request) {
        Some(why) => refusal(&app, request.headers(), why),
        None => next.run(request).await,
    };
    let headers = response.headers_mut();
    let fixed = [
        (header::CONTENT_SECURITY_POLICY, POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::REFERRER_POLICY, "same-origin"),
        (header::X_FRAME_OPTIONS, "DENY"),
        (
            HeaderName::from_static("cross-origin-opener-policy"),
            "same-origin",
        ),
        (
            HeaderName::from_static("cross-origin-resource-policy"),
            "same-origin",
        ),
        (
            HeaderName::from_static("permissions-policy"),
            "geolocation=(self), camera=(), microphone=()",
        ),
    ];
    for (name, value) in fixed {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers
        .entry(header::CACHE_CONTROL)
        .or_insert(HeaderValue::from_static("no-store"));
    response
}

/// Gives the browser its cookie, then leads on. By a page, not a redirect: a browser that came
/// from elsewhere would not send the cookie along with one.
pub(crate) async fn enter(
    State(app): State<Arc<App>>,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
) -> Response {
    let query = query.unwrap_or_default();
    let given = form_urlencoded::parse(query.as_bytes()).find(|(name, _)| name == "token");
    if !given.is_some_and(|(_, token)| app.door.lets_in(&token)) {
        return refusal(&app, &headers, "door-token");
    }
    let cookie = format!(
        "{}={}; HttpOnly; SameSite=Strict; Path=/",
        app.door.cookie_name(),
        app.door.pass
    );
    let words = words_for(&app, &headers);
    let page = html! {
        (DOCTYPE)
        html lang=(words.language.code()) {
            head {
                meta charset="utf-8";
                meta http-equiv="refresh" content="0;url=/";
                title { "Swardbook" }
                link rel="stylesheet" href="/app.css";
            }
            body { main { a.way.next href="/" { (words.t("door-go-in")) } } }
        }
    };
    let mut response = Html(page.into_string()).into_response();
    if let Ok(cookie) = HeaderValue::from_str(&cookie) {
        response.headers_mut().insert(header::SET_COOKIE, cookie);
    }
    response
}

fn refusal(app: &App, headers: &HeaderMap, why: &str) -> Response {
    let words = words_for(app, headers);
    let page = html! {
        (DOCTYPE)
        html lang=(words.language.code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { "Swardbook" }
                link rel="stylesheet" href="/app.css";
            }
            body { main { h1 { (words.t("door-shut")) } p { (words.t(why)) } } }
        }
    };
    (StatusCode::FORBIDDEN, Html(page.into_string())).into_response()
}

/// The words for whoever asks: as set, else as the browser asks for.
pub(crate) fn words_for(app: &App, headers: &HeaderMap) -> Words {
    let wanted = headers
        .get(header::ACCEPT_LANGUAGE)
        .and_then(|v| v.to_str().ok())
        .unwrap_or_default();
    Words::of(&app.shared, wanted)
}
