//! The X25519 keys that locked files are wrapped to, as age identities and recipients.
//!
//! Making them takes the system's randomness. Where a device keeps them is the book's business.

use std::sync::LazyLock;

use age::secrecy::ExposeSecret as _;
use data_encoding::{Encoding, Specification};
use sward_book::Env;
use sward_book::fact::DeviceKeys;
use sward_book::keys::DeviceSecret;
use zeroize::Zeroizing;

use crate::{CrewError, Result};

/// New keys for a device: a signing key from `env`, and an age identity from the system.
pub fn new_device_secret(env: &dyn Env) -> DeviceSecret {
    let identity = age::x25519::Identity::generate().to_string();
    DeviceSecret::new(env, Zeroizing::new(identity.expose_secret().to_owned()))
}

/// The public halves of a device's keys.
///
/// # Errors
/// [`CrewError::BadIdentity`] when the device's key file is damaged.
pub fn device_keys(secret: &DeviceSecret) -> Result<DeviceKeys> {
    let recipient = identity(secret)?.to_public().to_string();
    Ok(DeviceKeys {
        stream: secret.stream(),
        recipient,
    })
}

/// The age identity of a device.
pub(crate) fn identity(secret: &DeviceSecret) -> Result<age::x25519::Identity> {
    secret
        .wrapping()
        .parse()
        .map_err(|_| CrewError::BadIdentity)
}

/// Reads a recipient that came from another device.
pub(crate) fn recipient(text: &str) -> Result<age::x25519::Recipient> {
    let bad = || CrewError::BadRecipient;
    let recipient = text.parse::<age::x25519::Recipient>().map_err(|_| bad())?;
    // One key, one spelling: the text is compared and hashed elsewhere.
    if recipient.to_string() != text || is_of_low_order(text).unwrap_or(true) {
        return Err(bad());
    }
    Ok(recipient)
}

/// Points whose multiples by any secret are all zero: age panics on them, so one such key in the
/// roster would keep everyone from making locked files. The points of order 1, 2, 4 and 8 on
/// Curve25519 and its twist with their second spellings, from D. J. Bernstein, "A state-of-the-art
/// Diffie-Hellman function", section "How do I validate Curve25519 public keys?".
const LOW_ORDER: [[u8; 32]; 7] = [
    small(0),
    small(1),
    *b"\xe0\xeb\x7a\x7c\x3b\x41\xb8\xae\x16\x56\xe3\xfa\xf1\x9f\xc4\x6a\
       \xda\x09\x8d\xeb\x9c\x32\xb1\xfd\x86\x62\x05\x16\x5f\x49\xb8\x00",
    *b"\x5f\x9c\x95\xbc\xa3\x50\x8c\x24\xb1\xd0\xb1\x55\x9c\x83\xef\x5b\
       \x04\x44\x5c\xc4\x58\x1c\x8e\x86\xd8\x22\x4e\xdd\xd0\x9f\x11\x57",
    near_prime(0xec),
    near_prime(0xed),
    near_prime(0xee),
];

const fn small(first: u8) -> [u8; 32] {
    let mut bytes = [0; 32];
    bytes[0] = first;
    bytes
}

/// Little-endian numbers beside the field's prime 2^255 - 19, which begins with 0xed.
const fn near_prime(first: u8) -> [u8; 32] {
    let mut bytes = [0xff; 32];
    bytes[0] = first;
    bytes[31] = 0x7f;
    bytes
}

/// The alphabet of Bech32 (BIP 173), which age writes its keys in.
static BECH32: LazyLock<Encoding> = LazyLock::new(|| {
    let mut alphabet = Specification::new();
    alphabet
        .symbols
        .push_str("qpzry9x8gf2tvdw0s3jn54khce6mua7l");
    alphabet.check_trailing_bits = false;
    alphabet.encoding().expect("32 different symbols")
});

/// None when the text has not the length of a recipient.
fn is_of_low_order(recipient: &str) -> Option<bool> {
    let data = recipient.strip_prefix("age1")?;
    let (key, _checksum) = data.split_at_checked(data.len().checked_sub(6)?)?;
    let mut key = <[u8; 32]>::try_from(BECH32.decode(key.as_bytes()).ok()?).ok()?;
    // X25519 ignores the top bit (RFC 7748, section 5).
    key[31] &= 0x7f;
    Some(LOW_ORDER.contains(&key))
}

#[cfg(test)]
mod tests {
    use std::panic::catch_unwind;

    use super::*;

    /// Bech32 of `key` under "age", its checksum found by trying: 2^30 is too many, so the
    /// checksum is computed as in BIP 173.
    fn spelled(key: [u8; 32]) -> String {
        const GENERATOR: [u32; 5] = [
            0x3b6a_57b2,
            0x2650_8e6d,
            0x1ea1_19fa,
            0x3d42_33dd,
            0x2a14_62b3,
        ];
        let symbols = "qpzry9x8gf2tvdw0s3jn54khce6mua7l";
        let data = BECH32.encode(&key);
        let value = |c: char| u32::try_from(symbols.find(c).expect("in the alphabet")).unwrap();
        let human = "age".bytes().map(|b| u32::from(b >> 5)).chain([0]);
        let human = human.chain("age".bytes().map(|b| u32::from(b & 31)));
        let sum = human
            .chain(data.chars().map(value))
            .chain([0; 6])
            .fold(1_u32, |sum, v| {
                let top = sum >> 25;
                let next = (sum & 0x01ff_ffff) << 5 ^ v;
                (0..5)
                    .filter(|i| top >> i & 1 == 1)
                    .fold(next, |n, i| n ^ GENERATOR[i])
            })
            ^ 1;
        let check: String = (0..6)
            .map(|i| symbols.as_bytes()[(sum >> (5 * (5 - i)) & 31) as usize] as char)
            .collect();
        format!("age1{data}{check}")
    }

    #[test]
    fn made_keys_are_read_back() {
        let identity = age::x25519::Identity::generate();
        let text = identity.to_public().to_string();
        assert_eq!(recipient(&text).unwrap().to_string(), text);
    }

    #[test]
    fn keys_that_age_panics_on_are_refused() {
        for low in LOW_ORDER {
            for top_bit in [0, 0x80] {
                let mut key = low;
                key[31] |= top_bit;
                let text = spelled(key);
                let parsed: age::x25519::Recipient = text.parse().expect("well spelled");
                let wrapping = catch_unwind(|| {
                    age::Encryptor::with_recipients([&parsed as &dyn age::Recipient].into_iter())
                        .is_ok()
                });
                assert!(wrapping.is_err(), "{text} is not of low order");
                assert!(
                    matches!(recipient(&text), Err(CrewError::BadRecipient)),
                    "{text}"
                );
            }
        }
        // The base point itself is a key like any other.
        assert!(recipient(&spelled(small(9))).is_ok());
    }

    #[test]
    fn other_text_is_refused() {
        let upper = age::x25519::Identity::generate()
            .to_public()
            .to_string()
            .to_uppercase();
        for text in ["", "age1", "age1qqqq", "ssh-ed25519 AAAA", "ä", &upper] {
            assert!(recipient(text).is_err(), "{text}");
        }
    }
}
