//! Serving the screens to this machine alone: the address, the requests, what every answer carries.
//!
//! Who may ask is [`door`]'s business; what is answered, the screens'.

mod assets;
mod door;
mod form;
mod given;
mod handle;
mod live;

use std::net::{Ipv4Addr, SocketAddr, TcpListener};
use std::sync::Arc;
use std::thread::JoinHandle;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware;
use axum::routing::{get, post};
use tokio::sync::oneshot;

pub(crate) use form::Form;

use crate::screen;
use crate::state::{Setting, Shared};
use crate::{Result, Trouble};
use door::Door;

/// The most bytes of one request: a locked file of a whole season fits.
const REQUEST_BYTES_MOST: usize = 64 * 1024 * 1024;

/// The running screens. They stop when this is dropped.
pub struct Served {
    address: SocketAddr,
    entrance: String,
    entrance_once: String,
    stop: Option<oneshot::Sender<()>>,
    thread: Option<JoinHandle<std::io::Result<()>>>,
}

impl Served {
    /// Where the screens are served.
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// The address to open, which lets a browser in. For the person at this machine alone.
    pub fn entrance(&self) -> &str {
        &self.entrance
    }

    /// The same for starting a browser with: it lets in once, because other users of this machine
    /// may read what programs are started with.
    pub fn entrance_once(&self) -> &str {
        &self.entrance_once
    }

    /// Serves until the program is stopped from outside.
    ///
    /// # Errors
    /// [`Trouble::System`] when serving ended by itself.
    pub fn wait(mut self) -> Result<()> {
        self.join()
    }

    /// Stops serving, after what is being answered.
    ///
    /// # Errors
    /// [`Trouble::System`].
    pub fn stop(mut self) -> Result<()> {
        self.tell_to_stop();
        self.join()
    }

    fn tell_to_stop(&mut self) {
        if let Some(stop) = self.stop.take() {
            // It has ended already when nobody listens.
            let _ = stop.send(());
        }
    }

    fn join(&mut self) -> Result<()> {
        match self.thread.take().map(JoinHandle::join) {
            None | Some(Ok(Ok(()))) => Ok(()),
            Some(Ok(Err(error))) => Err(Trouble::System(error)),
            Some(Err(_)) => Err(Trouble::System(std::io::Error::other("serving broke off"))),
        }
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        self.tell_to_stop();
        let _ = self.join();
    }
}

/// What every request is answered with.
pub(crate) struct App {
    pub(crate) shared: Arc<Shared>,
    pub(crate) door: Door,
    /// The last page that is shown once, for a second tap on the button that led to it.
    pub(crate) shown_once: std::sync::Mutex<Option<(String, String)>>,
    given: given::Given,
}

/// Opens the person's book, if there is one, and serves the screens on loopback in threads of its
/// own.
///
/// # Errors
/// [`Trouble::Port`] when the port is taken, [`Trouble::Book`] when the book cannot be opened,
/// [`Trouble::System`].
pub fn serve(setting: Setting) -> Result<Served> {
    let listener = listen(&setting)?;
    serve_at(listener, Arc::new(Shared::new(setting)?))
}

/// The same for a book that is open already.
pub(crate) fn serve_shared(shared: Arc<Shared>) -> Result<Served> {
    serve_at(listen(&shared.setting)?, shared)
}

fn listen(setting: &Setting) -> Result<TcpListener> {
    TcpListener::bind((Ipv4Addr::LOCALHOST, setting.port)).map_err(Trouble::Port)
}

fn serve_at(listener: TcpListener, shared: Arc<Shared>) -> Result<Served> {
    listener.set_nonblocking(true).map_err(Trouble::System)?;
    let address = listener.local_addr().map_err(Trouble::System)?;
    let door = Door::new(address, shared.setting.env.as_ref());
    let (entrance, entrance_once) = (door.entrance(), door.entrance_once());
    let app = Arc::new(App {
        shared,
        door,
        shown_once: std::sync::Mutex::default(),
        given: given::Given::default(),
    });
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_io()
        .enable_time()
        .build()
        .map_err(Trouble::System)?;
    let (stop, stopped) = oneshot::channel::<()>();
    let thread = std::thread::Builder::new()
        .name("screens".to_owned())
        .spawn(move || {
            let served = runtime.block_on(async move {
                let listener = tokio::net::TcpListener::from_std(listener)?;
                tokio::select! {
                    served = async { axum::serve(listener, router(app)).await } => served,
                    _ = stopped => Ok(()),
                }
            });
            runtime.shutdown_timeout(std::time::Duration::from_secs(5));
            served
        })
        .map_err(Trouble::System)?;
    Ok(Served {
        address,
        entrance,
        entrance_once,
        stop: Some(stop),
        thread: Some(thread),
    })
}

fn router(app: Arc<App>) -> Router {
    let mut router = Router::new()
        .route("/enter", get(door::enter))
        .route("/app.css", get(assets::style))
        .route("/app.js", get(assets::script))
        .route("/icon.svg", get(assets::icon))
        .route("/live", get(live::follow))
        .route("/walk", get(handle::recorded_walk))
        .route("/file/{id}", get(given::give))
        .route("/draft", post(handle::keep_draft))
        .route("/language", post(handle::choose_language));
    for screen in screen::all() {
        router = router.route(
            screen.path,
            get(move |app, request| handle::show(app, screen, request))
                .post(move |app, request| handle::act(app, screen, request)),
        );
    }
    router
        .fallback(handle::nothing_here)
        .layer(middleware::from_fn_with_state(
            Arc::clone(&app),
            door::guard,
        ))
        .layer(DefaultBodyLimit::max(REQUEST_BYTES_MOST))
        .with_state(app)
}

#[cfg(test)]
mod tests;
