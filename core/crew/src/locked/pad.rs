//! Padding: how long a locked file is tells little about what is in it.
//!
//! Padmé, from K. Nikitin and others, "Reducing Metadata Leakage from Encrypted Files and
//! Communication with PURBs", PoPETs 2019(4), section 4.3: a length keeps only its leading bits,
//! so that it grows by at most 12 %, and ever less for longer files.

/// The length that `bytes` is padded to.
pub(crate) fn padded_length(bytes: u64) -> u64 {
    if bytes < 2 {
        return bytes;
    }
    let exponent = bytes.ilog2();
    let kept_bits = exponent.ilog2() + 1;
    let mask = (1_u64 << exponent.saturating_sub(kept_bits)) - 1;
    bytes.saturating_add(mask) & !mask
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::padded_length;

    #[test]
    fn lengths_as_by_hand() {
        // By hand from the paper's formula: 9 = 0b1001 keeps 3 bits after the first; 1000 keeps 4 of 9.
        for (bytes, padded) in [(0, 0), (1, 1), (2, 2), (9, 10), (1000, 1024), (1025, 1088)] {
            assert_eq!(padded_length(bytes), padded, "{bytes}");
        }
    }

    proptest! {
        #[test]
        fn grows_by_at_most_12_percent(bytes in 0_u64..1 << 40) {
            let padded = padded_length(bytes);
            prop_assert!(padded >= bytes);
            prop_assert!((padded - bytes) * 100 <= bytes * 12);
            prop_assert_eq!(padded_length(padded), padded);
        }

        #[test]
        fn does_not_shrink_with_more(bytes in 0_u64..1 << 40, more in 0_u64..1 << 20) {
            prop_assert!(padded_length(bytes) <= padded_length(bytes + more));
        }
    }
}
