//! The device's own keys: they lie beside the store, for the user alone, outside every backup.
//!
//! Losing them loses no record: the device begins a new stream and asks to be admitted again.

use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};

use data_encoding::HEXLOWER;
use ed25519_dalek::SigningKey;
use zeroize::Zeroizing;

use crate::env::Env;
use crate::ids::StreamId;
use crate::{BookError, Malformed, Result};

const FILE_NAME: &str = "device.key";
const FIRST_LINE: &str = "swardbook device key 1";

/// The signing key, and the secret that locked files for this device are opened with.
pub struct DeviceSecret {
    signing: SigningKey,
    wrapping: Zeroizing<String>,
}

impl DeviceSecret {
    /// New keys. `wrapping` is the age identity of the device; the book only keeps it.
    pub fn new(env: &dyn Env, wrapping: Zeroizing<String>) -> Self {
        let mut seed = Zeroizing::new([0; 32]);
        env.random(seed.as_mut());
        Self {
            signing: SigningKey::from_bytes(&seed),
            wrapping,
        }
    }

    /// The stream these keys write.
    pub fn stream(&self) -> StreamId {
        StreamId(self.signing.verifying_key().to_bytes())
    }

    /// The key that signs entries and locked files.
    pub fn signing(&self) -> &SigningKey {
        &self.signing
    }

    /// The age identity that opens locked files for this device.
    pub fn wrapping(&self) -> &str {
        &self.wrapping
    }

    /// Where the keys of a book in `folder` lie.
    pub fn path(folder: &Path) -> PathBuf {
        folder.join(FILE_NAME)
    }

    /// Reads the keys of the book in `folder`; none when there are none, as in a restored book.
    ///
    /// # Errors
    /// [`BookError::NotReadable`], or [`BookError::Format`] for a damaged file.
    pub fn load(folder: &Path) -> Result<Option<Self>> {
        let path = Self::path(folder);
        let text = match fs::read_to_string(&path) {
            Ok(text) => Zeroizing::new(text),
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => return Ok(None),
            Err(source) => return Err(BookError::NotReadable { path, source }),
        };
        let damaged = || BookError::format(Malformed::DeviceKey);
        let mut lines = text.lines();
        if lines.next() != Some(FIRST_LINE) {
            return Err(damaged());
        }
        let seed = lines
            .next()
            .and_then(|l| HEXLOWER.decode(l.as_bytes()).ok())
            .and_then(|b| <[u8; 32]>::try_from(b).ok())
            .map(Zeroizing::new)
            .ok_or_else(damaged)?;
        let wrapping = lines.next().filter(|l| !l.is_empty()).ok_or_else(damaged)?;
        Ok(Some(Self {
            signing: SigningKey::from_bytes(&seed),
            wrapping: Zeroizing::new(wrapping.to_owned()),
        }))
    }

    /// Writes the keys beside the book, readable by the user only, whole or not at all.
    ///
    /// # Errors
    /// [`BookError::NotWritable`].
    pub fn save(&self, folder: &Path) -> Result<()> {
        let path = Self::path(folder);
        let fresh = folder.join("device.key.new");
        let text = Zeroizing::new(format!(
            "{FIRST_LINE}\n{}\n{}\n",
            *Zeroizing::new(HEXLOWER.encode(self.signing.as_bytes())),
            *self.wrapping
        ));
        let write = || -> std::io::Result<()> {
            let mut options = fs::OpenOptions::new();
            options.write(true).create(true).truncate(true);
            #[cfg(unix)]
            std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
            let mut file = options.open(&fresh)?;
            file.write_all(text.as_bytes())?;
            file.sync_all()?;
            fs::rename(&fresh, &path)?;
            fs::File::open(folder)?.sync_all()
        };
        write().map_err(|source| BookError::NotWritable {
            path: path.clone(),
            source,
        })
    }
}
