//! Digits that two people read to each other, to know that both phones mean the same key.
//!
//! Twenty digits, 66 bits: making another key with the same digits is out of reach, and digits
//! sound the same in any language.

use sha2::{Digest, Sha256};
use sward_book::fact::DeviceKeys;
use sward_book::ids::Hash;

const GROUPS: usize = 5;

/// Check digits of a device: over both its keys.
pub fn device_check_digits(device: &DeviceKeys) -> String {
    digits(
        b"swardbook device digits 1\0",
        &[&device.stream.0, device.recipient.as_bytes()],
    )
}

/// Check digits of a crew: a phone that has just joined and the crew lead's phone show the same.
pub fn crew_check_digits(crew: Hash) -> String {
    digits(b"swardbook crew digits 1\0", &[&crew.0])
}

fn digits(prefix: &[u8], parts: &[&[u8]]) -> String {
    let mut sha = Sha256::new();
    sha.update(prefix);
    for part in parts {
        sha.update(part);
    }
    let hash = sha.finalize();
    let groups: Vec<String> = hash
        .chunks(4)
        .take(GROUPS)
        .map(|four| {
            let number = four.iter().fold(0_u32, |n, byte| n << 8 | u32::from(*byte));
            format!("{:04}", number % 10_000)
        })
        .collect();
    groups.join(" ")
}

#[cfg(test)]
mod tests {
    use sward_book::ids::StreamId;

    use super::*;

    #[test]
    fn every_part_of_the_keys_counts() {
        let keys = DeviceKeys {
            stream: StreamId([7; 32]),
            recipient: "age1a".into(),
        };
        let other_stream = DeviceKeys {
            stream: StreamId([8; 32]),
            ..keys.clone()
        };
        let other_recipient = DeviceKeys {
            recipient: "age1b".into(),
            ..keys.clone()
        };
        let digits = device_check_digits(&keys);
        insta::assert_snapshot!(digits, @"9797 9626 5303 5822 8272");
        assert_ne!(digits, device_check_digits(&other_stream));
        assert_ne!(digits, device_check_digits(&other_recipient));
    }

    #[test]
    fn a_crew_has_its_own_digits() {
        insta::assert_snapshot!(crew_check_digits(Hash([7; 32])), @"4567 5548 4006 5043 0641");
        assert_ne!(
            crew_check_digits(Hash([7; 32])),
            crew_check_digits(Hash([8; 32]))
        );
    }
}
