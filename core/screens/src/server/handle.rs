//! One request: the screen shown, or its action done once, and what comes after.
//!
//! Screens are plain functions; they run on threads where they may wait for the disk.

use std::collections::HashMap;
use std::sync::{Arc, PoisonError};
use std::time::Duration;

use axum::RequestExt as _;
use axum::body::to_bytes;
use axum::extract::{FromRequest as _, Multipart, Path, RawQuery, Request, State};
use axum::http::header::{self, HeaderMap};
use axum::http::{StatusCode, Uri};
use axum::response::{Html, IntoResponse as _, Redirect, Response};
use sward_rules::keep_off::Now;

use super::door::words_for;
use super::given::File;
use super::{App, Form};
use crate::ask::{Again, Ask, Doing, Next, Page, Place, Screen, draft_name};
use crate::part::frame;
use crate::words::{Language, Words};
use crate::{Result, Trouble};

/// The most bytes of a form without files.
const FORM_BYTES_MOST: usize = 2 * 1024 * 1024;

/// How long sending a form may take: a locked file of a season, from the same machine.
const SENDING_MOST: Duration = Duration::from_mins(1);

/// Where a request goes and what it brought along.
struct Asked {
    words: Words,
    path: String,
    params: Vec<(String, String)>,
    query: Vec<(String, String)>,
}

/// Shows a screen.
pub(crate) async fn show(
    State(app): State<Arc<App>>,
    screen: &'static Screen,
    mut request: Request,
) -> Response {
    let asked = asked(&app, &mut request).await;
    in_thread(move || shown(&app, screen, &asked, None)).await
}

/// Does one of a screen's actions.
pub(crate) async fn act(
    State(app): State<Arc<App>>,
    screen: &'static Screen,
    mut request: Request,
) -> Response {
    let asked = asked(&app, &mut request).await;
    match read_form(request).await {
        Ok(form) => in_thread(move || done(&app, screen, &asked, form)).await,
        Err(trouble) => in_thread(move || failed(&app, &asked, &trouble)).await,
    }
}

async fn asked(app: &App, request: &mut Request) -> Asked {
    let params: HashMap<String, String> = request
        .extract_parts::<Path<HashMap<String, String>>>()
        .await
        .map(|Path(params)| params)
        .unwrap_or_default();
    Asked {
        words: words_for(app, request.headers()),
        path: request.uri().path().to_owned(),
        params: params.into_iter().collect(),
        query: form_urlencoded::parse(request.uri().query().unwrap_or_default().as_bytes())
            .take(20)
            .map(|(n, v)| (n.into_owned(), v.into_owned()))
            .collect(),
    }
}

async fn in_thread(work: impl FnOnce() -> Response + Send + 'static) -> Response {
    match tokio::task::spawn_blocking(work).await {
        Ok(response) => response,
        // A panic is a fault of ours. The book is as it was: an action is one transaction.
        Err(_) => (StatusCode::INTERNAL_SERVER_ERROR, "This went wrong inside Swardbook. Nothing was stored. / Esto falló dentro de Swardbook. No se guardó nada.").into_response(),
    }
}

fn shown(app: &App, screen: &Screen, asked: &Asked, again: Option<&Again>) -> Response {
    let version = *app.shared.follow().borrow();
    let page = app.shared.reading(|book| {
        let ask = ask(app, book, asked, again)?;
        let page = (screen.show)(&ask)?;
        Ok::<_, Trouble>(frame::whole(&ask, &page, version).into_string())
    });
    match page.and_then(|page| page) {
        Ok(page) if again.is_some() => {
            (StatusCode::UNPROCESSABLE_ENTITY, Html(page)).into_response()
        }
        Ok(page) => Html(page).into_response(),
        Err(trouble) => failed(app, asked, &trouble),
    }
}

fn ask<'a>(
    app: &'a App,
    book: Option<&'a sward_book::Book>,
    asked: &'a Asked,
    again: Option<&'a Again>,
) -> Result<Ask<'a>> {
    let now = match book {
        Some(book) => book.now()?,
        None => Now {
            utc_ms: app.shared.setting.env.clock().utc_ms,
            proven: false,
        },
    };
    Ok(Ask::new(
        book,
        &app.shared,
        asked.words,
        now,
        &asked.path,
        &asked.params,
        &asked.query,
        again,
    ))
}

/// Something that cannot be shown: said, with a way on.
fn failed(app: &App, asked: &Asked, trouble: &Trouble) -> Response {
    if matches!(trouble, Trouble::NoBook) {
        return Redirect::to("/").into_response();
    }
    let status = match trouble {
        Trouble::NotFound | Trouble::Book(sward_book::BookError::NotFound { .. }) => {
            StatusCode::NOT_FOUND
        }
        Trouble::TooLarge => StatusCode::PAYLOAD_TOO_LARGE,
        Trouble::NoForm => StatusCode::BAD_REQUEST,
        _ => StatusCode::INTERNAL_SERVER_ERROR,
    };
    let version = *app.shared.follow().borrow();
    let Ok(ask) = ask(app, None, asked, None) else {
        return status.into_response();
    };
    let page = Page {
        title: ask.t("frame-not-shown"),
        main: maud::html! {
            p { (asked.words.trouble(trouble)) }
            (crate::part::next_step("/", &ask.t("frame-to-today")))
        },
        place: if app.shared.which().is_some() {
            Place::Today
        } else {
            Place::Front
        },
        back: None,
    };
    (
        status,
        Html(frame::whole(&ask, &page, version).into_string()),
    )
        .into_response()
}

fn done(app: &App, screen: &'static Screen, asked: &Asked, form: Form) -> Response {
    let draft = draft_name(
        app.shared.which(),
        &asked.path,
        form.text("do"),
        form.text("key"),
    );
    // The button that throws a draft away has the form's own action beside it, so the last counts.
    if form.all("do").last() == Some("drop-draft") {
        let dropped = app.shared.desk().drop_draft(&draft);
        return match dropped {
            Ok(()) => Redirect::to(&asked.path).into_response(),
            Err(trouble) => failed(app, asked, &trouble),
        };
    }
    let Some((_, act)) = screen
        .acts
        .iter()
        .find(|(name, _)| *name == form.text("do"))
    else {
        return failed(app, asked, &Trouble::NoForm);
    };
    let once = form.text("once").to_owned();
    let mut slot = app.shared.writer();
    // Looked up with the book held: of two taps the second waits here for the first.
    if let Some(response) = answered_before(app, &once) {
        return response;
    }
    let next = act(&mut Doing {
        slot: &mut slot,
        shared: &app.shared,
        words: asked.words,
        path: &asked.path,
        params: &asked.params,
        form: &form,
    });
    match next {
        Ok(next) => {
            // Also a page that is shown once is kept before the second tap gets the book.
            let response = match note_done(app, &draft, &form, &once, &next) {
                Ok(()) => went(app, asked, &once, next),
                Err(trouble) => failed(app, asked, &trouble),
            };
            drop(slot);
            app.shared.changed();
            response
        }
        Err(trouble) => {
            drop(slot);
            if matches!(trouble, Trouble::NotFound | Trouble::NoBook) {
                return failed(app, asked, &trouble);
            }
            shown(app, screen, asked, Some(&Again { form, trouble }))
        }
    }
}

fn answered_before(app: &App, once: &str) -> Option<Response> {
    if once.is_empty() {
        return None;
    }
    let shown = app
        .shown_once
        .lock()
        .unwrap_or_else(PoisonError::into_inner);
    if let Some((of, page)) = shown.as_ref()
        && of == once
    {
        return Some(Html(page.clone()).into_response());
    }
    let then_go = app.shared.desk().was_sent(once).ok().flatten()?;
    Some(Redirect::to(&then_go).into_response())
}

fn note_done(app: &App, draft: &str, form: &Form, once: &str, next: &Next) -> Result<()> {
    let now_ms = app.shared.setting.env.clock().utc_ms;
    let desk = app.shared.desk();
    desk.drop_draft(draft)?;
    if let Next::Go(then_go) = next
        && !once.is_empty()
    {
        desk.note_sent(once, then_go, now_ms)?;
    }
    for (name, unit) in form
        .fields
        .iter()
        .filter_map(|(n, v)| Some((n.strip_suffix(".unit")?, v)))
    {
        let value = form.text(name);
        if !value.is_empty() && value.len() <= 20 {
            desk.note_recent(&format!("{name} {unit}"), value, now_ms)?;
        }
    }
    Ok(())
}

fn went(app: &App, asked: &Asked, once: &str, next: Next) -> Response {
    match next {
        Next::Go(path) => Redirect::to(&path).into_response(),
        Next::File { name, kind, bytes } => {
            let bytes = bytes.into();
            let id = app.shared.setting.env.new_uuid();
            Redirect::to(&app.given.keep(id, File { name, kind, bytes })).into_response()
        }
        Next::Once(page) => {
            let whole = match ask(app, None, asked, None) {
                Ok(ask) => frame::whole(&ask, &page, frame::SHOWN_ONCE).into_string(),
                Err(trouble) => return failed(app, asked, &trouble),
            };
            *app.shown_once
                .lock()
                .unwrap_or_else(PoisonError::into_inner) = Some((once.to_owned(), whole.clone()));
            Html(whole).into_response()
        }
    }
}

/// Reads a form; whoever stops sending in the middle is not waited for.
async fn read_form(request: Request) -> Result<Form> {
    tokio::time::timeout(SENDING_MOST, read_whole_form(request))
        .await
        .unwrap_or(Err(Trouble::NoForm))
}

async fn read_whole_form(request: Request) -> Result<Form> {
    let kind = request
        .headers()
        .get(header::CONTENT_TYPE)
        .and_then(|v| v.to_str().ok())
        .unwrap_or_default();
    if kind.starts_with("multipart/form-data") {
        let parts = Multipart::from_request(request, &())
            .await
            .map_err(|_| Trouble::NoForm)?;
        return read_multipart(parts).await;
    }
    if !kind.starts_with("application/x-www-form-urlencoded") {
        return Err(Trouble::NoForm);
    }
    let body = to_bytes(request.into_body(), FORM_BYTES_MOST)
        .await
        .map_err(|_| Trouble::TooLarge)?;
    Form::from_urlencoded(&body)
}

async fn read_multipart(mut parts: Multipart) -> Result<Form> {
    let mut form = Form::default();
    let too_large_or_broken = |error: &axum::extract::multipart::MultipartError| {
        if error.status() == StatusCode::PAYLOAD_TOO_LARGE {
            Trouble::TooLarge
        } else {
            Trouble::NoForm
        }
    };
    while let Some(part) = parts
        .next_field()
        .await
        .map_err(|e| too_large_or_broken(&e))?
    {
        if form.fields.len() + form.files.len() >= super::form::FIELDS_MOST {
            return Err(Trouble::TooLarge);
        }
        let name = part.name().unwrap_or_default().to_owned();
        let is_file = part.file_name().is_some();
        let bytes = part.bytes().await.map_err(|e| too_large_or_broken(&e))?;
        if is_file {
            if !bytes.is_empty() {
                form.files.push((name, bytes.to_vec()));
            }
        } else {
            let text = String::from_utf8(bytes.to_vec()).map_err(|_| Trouble::NoForm)?;
            form.fields
                .push((name, super::form::with_plain_line_ends(&text)));
        }
    }
    Ok(form)
}

/// Keeps what is typed so far in a form.
pub(crate) async fn keep_draft(State(app): State<Arc<App>>, request: Request) -> Response {
    let Ok(form) = read_form(request).await else {
        return StatusCode::BAD_REQUEST.into_response();
    };
    in_thread(move || {
        let now_ms = app.shared.setting.env.clock().utc_ms;
        let name = form.text("draft").to_owned();
        if name.is_empty() || name.len() > 300 {
            return StatusCode::BAD_REQUEST.into_response();
        }
        let fields: Vec<_> = form
            .fields
            .into_iter()
            .filter(|(n, _)| !["draft", "once", "do", "key"].contains(&n.as_str()))
            .collect();
        let kept = app.shared.desk().keep_draft(&name, &fields, now_ms);
        match kept {
            Ok(()) => StatusCode::NO_CONTENT.into_response(),
            Err(_) => StatusCode::INTERNAL_SERVER_ERROR.into_response(),
        }
    })
    .await
}

/// Sets the language, before there are settings and from them.
pub(crate) async fn choose_language(State(app): State<Arc<App>>, request: Request) -> Response {
    let Ok(form) = read_form(request).await else {
        return StatusCode::BAD_REQUEST.into_response();
    };
    in_thread(move || {
        let then = match form.text("then") {
            // Only a path of ours: `//host` would lead elsewhere.
            path if path.starts_with('/') && !path.starts_with("//") && !path.contains('\\') => {
                path
            }
            _ => "/",
        };
        if let Some(language) = Language::of(form.text("language"))
            && app.shared.desk().set("language", language.code()).is_err()
        {
            return StatusCode::INTERNAL_SERVER_ERROR.into_response();
        }
        app.shared.changed();
        Redirect::to(then).into_response()
    })
    .await
}

/// The walk that the device recorded by itself.
pub(crate) async fn recorded_walk(State(app): State<Arc<App>>) -> Response {
    let json = serde_json::to_string(&app.shared.walk().recorded());
    let kind = [(header::CONTENT_TYPE, "application/json")];
    json.map_or_else(
        |_| StatusCode::INTERNAL_SERVER_ERROR.into_response(),
        |json| (kind, json).into_response(),
    )
}

/// An address that names nothing.
pub(crate) async fn nothing_here(
    State(app): State<Arc<App>>,
    headers: HeaderMap,
    uri: Uri,
    RawQuery(_): RawQuery,
) -> Response {
    let asked = Asked {
        words: words_for(&app, &headers),
        path: uri.path().to_owned(),
        params: Vec::new(),
        query: Vec::new(),
    };
    in_thread(move || failed(&app, &asked, &Trouble::NotFound)).await
}
