//! What age adds to a library, used as the locked files use it.

use std::io::{Read as _, Write as _};

use age::x25519::Identity;

uniffi::setup_scaffolding!();

/// Locks a text and opens it again.
#[uniffi::export]
#[must_use]
pub fn used(text: &str) -> String {
    locked_and_opened(text).unwrap_or_else(|error| error.to_string())
}

fn locked_and_opened(text: &str) -> std::io::Result<String> {
    let identity = Identity::generate();
    let recipient = identity.to_public();
    let recipients = std::iter::once(&recipient as &dyn age::Recipient);
    let encryptor = age::Encryptor::with_recipients(recipients).map_err(std::io::Error::other)?;
    let mut locked = Vec::new();
    let mut inside = encryptor.wrap_output(&mut locked)?;
    inside.write_all(text.as_bytes())?;
    inside.finish()?;
    let decryptor = age::Decryptor::new_buffered(&locked[..]).map_err(std::io::Error::other)?;
    let mut opened = decryptor
        .decrypt(std::iter::once(&identity as &dyn age::Identity))
        .map_err(std::io::Error::other)?;
    let mut text = String::new();
    opened.read_to_string(&mut text)?;
    Ok(text)
}
