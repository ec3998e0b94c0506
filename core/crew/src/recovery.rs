//! The recovery code: printed when a crew is founded, it makes a device a crew lead when every
//! crew lead's device is lost.
//!
//! 13 groups of five characters in Crockford's base32, each group ending in a check character, so
//! that a slip is told by the group it is in.

use std::fmt;

use ed25519_dalek::{Signer as _, SigningKey};
use sward_book::Env;
use sward_book::fact::{DeviceKeys, Founded, Person, Recovered, recovery_message};
use sward_book::ids::{Hash, StreamId};
use zeroize::Zeroizing;

use crate::{CrewError, Result};

/// The alphabet of Douglas Crockford's base32: no I, L, O, U.
const SYMBOLS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const GROUPS: usize = 13;
/// Characters of a group that carry the key: 13 × 4 × 5 = 260 bits hold 256.
const CARRYING: usize = 4;

/// What is wrong with a typed recovery code.
///
/// In JSON the name stands under `slip`, and beside it what is put in.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, thiserror::Error, strum::VariantNames,
)]
#[serde(tag = "slip", rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum CodeFault {
    /// Too few or too many characters.
    #[error(
        "it has {characters} characters instead of 65, compare it with the print group by group"
    )]
    Length {
        /// How many it has.
        characters: usize,
    },
    /// A character that no code has.
    #[error("{character:?} does not occur in a code, compare it with the print")]
    Character {
        /// The character.
        character: char,
    },
    /// A group whose check character does not fit. Counted from 1.
    #[error("compare group {group} with the print")]
    Group {
        /// Which group.
        group: usize,
    },
}

impl CodeFault {
    /// Every name, as JSON has it, in the order of this enum.
    pub const NAMES: &'static [&'static str] = <Self as strum::VariantNames>::VARIANTS;
}

/// The secret half of a crew's recovery key. Shown once, never stored.
pub struct RecoveryCode {
    key: SigningKey,
}

impl RecoveryCode {
    /// A new code.
    pub fn new(env: &dyn Env) -> Self {
        let mut seed = Zeroizing::new([0; 32]);
        env.random(seed.as_mut());
        Self {
            key: SigningKey::from_bytes(&seed),
        }
    }

    /// The public half, which stands in the founding of the crew.
    pub fn public(&self) -> StreamId {
        StreamId(self.key.verifying_key().to_bytes())
    }

    /// The code as it is printed: 13 groups of five.
    pub fn printed(&self) -> Zeroizing<String> {
        let mut text = Zeroizing::new(String::with_capacity(GROUPS * 6));
        let fives = Zeroizing::new(to_fives(self.key.as_bytes()));
        for (number, group) in fives.chunks(CARRYING).enumerate() {
            if number > 0 {
                text.push('-');
            }
            for five in group.iter().copied().chain([check_of(number, group)]) {
                text.push(char::from(SYMBOLS[usize::from(five)]));
            }
        }
        text
    }

    /// Reads a typed code. Small letters, spaces and dashes do not matter; O counts as 0, I and
    /// L as 1.
    ///
    /// # Errors
    /// [`CrewError::RecoveryCode`], saying where the slip is.
    ///
    /// ```
    /// use sward_crew::recovery::RecoveryCode;
    ///
    /// let typed = "000gd 40r4x om300 e209k 185g3 r38ed 1w811 24gkz 2gah1 c5rr2 34d1b p70xx 3rfgz";
    /// assert!(RecoveryCode::read(typed).is_ok());
    ///
    /// let slip = RecoveryCode::read(&typed.replace("e209k", "e290k")).unwrap_err();
    /// assert_eq!(
    ///     slip.to_string(),
    ///     "the recovery code has a slip: compare group 4 with the print"
    /// );
    /// ```
    pub fn read(typed: &str) -> Result<Self> {
        let mut fives = Zeroizing::new(Vec::with_capacity(GROUPS * 5));
        for c in typed
            .chars()
            .filter(|c| !c.is_whitespace() && !matches!(c, '-' | '–' | '—'))
        {
            fives.push(five_of(c).ok_or(CodeFault::Character { character: c })?);
        }
        if fives.len() != GROUPS * (CARRYING + 1) {
            return Err(CodeFault::Length {
                characters: fives.len(),
            }
            .into());
        }
        let mut carried = Zeroizing::new([0; GROUPS * CARRYING]);
        for (number, group) in fives.chunks(CARRYING + 1).enumerate() {
            let (carrying, check) = group.split_at(CARRYING);
            if check != [check_of(number, carrying)] {
                return Err(CodeFault::Group { group: number + 1 }.into());
            }
            carried[number * CARRYING..][..CARRYING].copy_from_slice(carrying);
        }
        let seed = from_fives(&carried).ok_or(CodeFault::Group { group: GROUPS })?;
        Ok(Self {
            key: SigningKey::from_bytes(&seed),
        })
    }

    /// States, under the code, that a device is a crew lead of the crew.
    ///
    /// # Errors
    /// [`CrewError::RecoveryOfAnotherCrew`] when the code was not printed by this crew.
    pub fn sign(
        &self,
        crew: Hash,
        founded: &Founded,
        device: DeviceKeys,
        person: Person,
    ) -> Result<Recovered> {
        if founded.recovery_key != self.public() {
            return Err(CrewError::RecoveryOfAnotherCrew);
        }
        let signature = self
            .key
            .sign(&recovery_message(crew, &device))
            .to_bytes()
            .to_vec();
        Ok(Recovered {
            device,
            person,
            signature,
        })
    }
}

impl fmt::Debug for RecoveryCode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "RecoveryCode(for {})", self.public().short())
    }
}

fn five_of(c: char) -> Option<u8> {
    let upper = match c.to_ascii_uppercase() {
        'O' => '0',
        'I' | 'L' => '1',
        other => other,
    };
    let place = SYMBOLS.iter().position(|s| char::from(*s) == upper)?;
    u8::try_from(place).ok()
}

/// 32 bytes as 52 numbers of five bits, the last four bits zero.
fn to_fives(seed: &[u8; 32]) -> [u8; GROUPS * CARRYING] {
    let bit = |n: usize| seed.get(n / 8).map_or(0, |byte| byte >> (7 - n % 8) & 1);
    std::array::from_fn(|five| (0..5).fold(0, |value, n| value << 1 | bit(five * 5 + n)))
}

/// None when the four bits left over are not zero: no print has them.
fn from_fives(fives: &[u8; GROUPS * CARRYING]) -> Option<Zeroizing<[u8; 32]>> {
    let bit = |n: usize| fives[n / 5] >> (4 - n % 5) & 1;
    if (256..260).any(|n| bit(n) == 1) {
        return None;
    }
    Some(Zeroizing::new(std::array::from_fn(|byte| {
        (0..8).fold(0, |value, n| value << 1 | bit(byte * 8 + n))
    })))
}

/// Check character of a group: a weighted sum in the field of 32 elements, which catches every
/// single wrong character and every two exchanged within a group. The group's number is added, so
/// that exchanged groups are caught too.
fn check_of(number: usize, group: &[u8]) -> u8 {
    let number = u8::try_from(number).expect("13 groups");
    group
        .iter()
        .rev()
        .fold(0, |sum, five| times_two(sum ^ five))
        ^ number
}

/// Times x modulo x^5 + x^2 + 1.
fn times_two(five: u8) -> u8 {
    let doubled = five << 1;
    if doubled & 32 == 0 {
        doubled
    } else {
        doubled ^ 0b10_0101
    }
}

#[cfg(test)]
mod tests {
    use ed25519_dalek::{Signature, VerifyingKey};
    use proptest::prelude::*;

    use super::*;

    fn code(seed: [u8; 32]) -> RecoveryCode {
        RecoveryCode {
            key: SigningKey::from_bytes(&seed),
        }
    }

    fn founded(recovery_key: StreamId) -> Founded {
        Founded {
            crew: "Practice".into(),
            practice: true,
            recovery_key,
            device: device(),
            person: person(),
        }
    }

    fn device() -> DeviceKeys {
        DeviceKeys {
            stream: StreamId([3; 32]),
            recipient: "age1test".into(),
        }
    }

    fn person() -> Person {
        Person {
            name: "A. Tester".into(),
            licence: String::new(),
        }
    }

    #[test]
    fn printed_form() {
        let counted = code(std::array::from_fn(|n| u8::try_from(n).unwrap()));
        insta::assert_snapshot!(
            *counted.printed(),
            @"000GD-40R4X-0M300-E209K-185G3-R38ED-1W811-24GKZ-2GAH1-C5RR2-34D1B-P70XX-3RFGZ"
        );
    }

    proptest! {
        #[test]
        fn what_is_printed_is_read(seed: [u8; 32]) {
            let printed = code(seed).printed();
            prop_assert_eq!(printed.len(), 13 * 6 - 1);
            let typed = printed.to_lowercase().replace('-', " ").replace('0', "o").replace('1', "l");
            prop_assert_eq!(RecoveryCode::read(&typed).unwrap().key.to_bytes(), seed);
        }

        #[test]
        fn one_wrong_character_is_told_by_its_group(seed: [u8; 32], place in 0_usize..65, to in 0_usize..32) {
            let printed = code(seed).printed();
            let mut plain: Vec<char> = printed.chars().filter(|c| *c != '-').collect();
            let wrong = char::from(SYMBOLS[to]);
            prop_assume!(plain[place] != wrong);
            plain[place] = wrong;
            let typed: String = plain.into_iter().collect();
            let told = RecoveryCode::read(&typed).unwrap_err();
            let expected = CodeFault::Group {
                group: place / 5 + 1,
            };
            prop_assert!(matches!(told, CrewError::RecoveryCode(fault) if fault == expected));
        }

        #[test]
        fn exchanged_neighbours_are_told(seed: [u8; 32], place in 0_usize..64) {
            let printed = code(seed).printed();
            let mut plain: Vec<char> = printed.chars().filter(|c| *c != '-').collect();
            prop_assume!(plain[place] != plain[place + 1]);
            plain.swap(place, place + 1);
            prop_assert!(RecoveryCode::read(&plain.into_iter().collect::<String>()).is_err());
        }

        #[test]
        fn exchanged_groups_are_told(seed: [u8; 32], a in 0_usize..13, b in 0_usize..13) {
            let printed = code(seed).printed();
            let mut groups: Vec<&str> = printed.split('-').collect();
            prop_assume!(a != b);
            groups.swap(a, b);
            prop_assert!(RecoveryCode::read(&groups.join("-")).is_err());
        }

        #[test]
        fn any_text_is_read_or_refused(text in ".{0,100}") {
            let _ = RecoveryCode::read(&text);
        }
    }

    #[test]
    fn slips_are_told_apart() {
        let printed = code([1; 32]).printed();
        let short = RecoveryCode::read(&printed[..20]).unwrap_err();
        assert!(
            matches!(
                short,
                CrewError::RecoveryCode(CodeFault::Length { characters: 17 })
            ),
            "{short}"
        );
        let odd = RecoveryCode::read(&printed.replacen('0', "u", 1)).unwrap_err();
        assert!(
            matches!(
                odd,
                CrewError::RecoveryCode(CodeFault::Character { character: 'u' })
            ),
            "{odd}"
        );
    }

    #[test]
    fn the_signature_binds_crew_and_device() {
        let code = code([5; 32]);
        let crew = Hash([9; 32]);
        let recovered = code
            .sign(crew, &founded(code.public()), device(), person())
            .unwrap();
        let key = VerifyingKey::from_bytes(&code.public().0).unwrap();
        let signature = Signature::from_slice(&recovered.signature).unwrap();
        assert!(
            key.verify_strict(&recovery_message(crew, &device()), &signature)
                .is_ok()
        );
        let other_crew = recovery_message(Hash([8; 32]), &device());
        assert!(key.verify_strict(&other_crew, &signature).is_err());
        let mut other = device();
        other.recipient.push('x');
        assert!(
            key.verify_strict(&recovery_message(crew, &other), &signature)
                .is_err()
        );
    }

    #[test]
    fn a_code_of_another_crew_is_told() {
        let refused = code([5; 32]).sign(
            Hash([9; 32]),
            &founded(StreamId([1; 32])),
            device(),
            person(),
        );
        assert!(matches!(refused, Err(CrewError::RecoveryOfAnotherCrew)));
    }
}
