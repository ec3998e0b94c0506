//! What axum and tokio add to a library, used as the screens use them.

use axum::Router;
use axum::extract::Multipart;
use axum::routing::{get, post};

uniffi::setup_scaffolding!();

/// Serves a page and takes a form at an address.
#[uniffi::export]
#[must_use]
pub fn used(text: &str) -> String {
    served(text).map_or_else(|error| error.to_string(), |()| text.to_owned())
}

fn served(address: &str) -> std::io::Result<()> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()?;
    let routes = Router::new()
        .route("/", get(|| async { "page" }))
        .route("/taken", post(taken));
    runtime.block_on(async {
        let listener = tokio::net::TcpListener::bind(address).await?;
        axum::serve(listener, routes).await
    })
}

async fn taken(mut form: Multipart) -> String {
    let mut names = String::new();
    while let Ok(Some(field)) = form.next_field().await {
        names.extend(field.name());
    }
    names
}
