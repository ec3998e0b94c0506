//! What a finish freezes: one treatment, whole, in canonical bytes with their hash.
//!
//! Everything a record needs is copied in, so that no later edit of a yard, a label sheet or a
//! member changes what was written down. Amendments are facts beside it.

use minicbor::{Decode, Encode};
use serde::Serialize;
use sha2::{Digest, Sha256};
use sward_rules::Entered;
use sward_rules::finding::{Check, Finding};
use sward_rules::label::Label;
use sward_rules::measure::Outline;

use crate::fact::{Aftercare, Counted, HalfWayChecked, Loaded, Person, SkySeen, WindMeasured};
use crate::ids::{Hash, ItemId, KeepOffId, SheetId, VisitId};
use crate::log::Stamp;
use crate::{BookError, Malformed, Result, Written};

/// Format of [`Treatment`]; stands first in its bytes. Unstable until a first release.
pub const TREATMENT_FORMAT: u64 = 3;

/// A section as it was treated.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct TreatedSection {
    /// The section.
    #[n(0)]
    pub section: ItemId,
    /// Its name.
    #[n(1)]
    pub name: String,
    /// Its outline.
    #[n(2)]
    pub outline: Outline,
    /// Its area with its uncertainty, in words; empty where the outline gives none.
    #[n(3)]
    pub area: String,
    /// Its keep-off.
    #[n(4)]
    pub keep_off: KeepOffId,
    /// Its last application; milliseconds since 1970 in UTC.
    #[n(5)]
    pub last_applied_utc_ms: i64,
}

/// One treatment as it was finished.
#[derive(Debug, Clone, PartialEq, Eq, Encode, Decode, Serialize)]
pub struct Treatment {
    /// [`TREATMENT_FORMAT`], or an earlier one where it was frozen by an earlier program.
    #[n(0)]
    pub format: u64,
    /// The visit.
    #[n(1)]
    pub visit: VisitId,
    /// The crew's name.
    #[n(2)]
    pub crew: String,
    /// Whether this is practice, not a record.
    #[n(3)]
    pub practice: bool,
    /// The yard.
    #[n(4)]
    pub yard: SheetId,
    /// The yard's name.
    #[n(5)]
    pub yard_name: String,
    /// Its address.
    #[n(6)]
    pub address: String,
    /// Its IANA time zone; empty where it was not set.
    #[n(7)]
    pub zone: String,
    /// The pest.
    #[n(8)]
    pub target: String,
    /// The label sheet.
    #[n(9)]
    pub label_sheet: SheetId,
    /// Its content.
    #[n(10)]
    pub label: Label,
    /// The rate chosen.
    #[n(11)]
    pub rate: Entered,
    /// The sections.
    #[n(12)]
    pub sections: Vec<TreatedSection>,
    /// Every load.
    #[n(13)]
    pub loads: Vec<Loaded>,
    /// Undiluted product in all; none when it cannot be added up.
    #[n(14)]
    pub product_total: Option<Entered>,
    /// Carrier water in all.
    #[n(15)]
    pub water_total: Option<Entered>,
    /// When it was started.
    #[n(16)]
    pub started: Stamp,
    /// When it was finished.
    #[n(17)]
    pub finished: Stamp,
    /// Who treated.
    #[n(18)]
    pub applicator: Person,
    /// Counts before treating.
    #[n(19)]
    pub counts: Vec<Counted>,
    /// Wind at the yard.
    #[n(20)]
    pub wind: Vec<WindMeasured>,
    /// What else was read or seen of the sky.
    #[n(21)]
    pub sky: Vec<SkySeen>,
    /// The findings it was started on.
    #[n(22)]
    pub findings: Vec<Finding>,
    /// What was not known and acknowledged by name.
    #[n(23)]
    pub acknowledged: Vec<Check>,
    /// Why it was started against a "don't treat".
    #[n(24)]
    pub against: Option<String>,
    /// Anything unusual: spill, surprise, what was left over.
    #[n(25)]
    pub note: String,
    /// What it was put on with, as the start told it.
    #[n(26)]
    pub equipment: Option<String>,
    /// The product's lot.
    #[n(27)]
    pub lot: Option<String>,
    /// Protective gear worn.
    #[n(28)]
    pub gear: Option<String>,
    /// Checks half-way that were known at the finish.
    #[n(29)]
    pub half_way: Option<Vec<HalfWayChecked>>,
    /// What was done after treating, as far as it was known at the finish.
    #[n(30)]
    pub aftercare: Option<Vec<Aftercare>>,
}

impl Treatment {
    /// The canonical bytes, and their hash.
    pub fn freeze(&self) -> (Vec<u8>, Hash) {
        let bytes = minicbor::to_vec(self).expect("a vector takes every write");
        let hash = hash_of(&bytes);
        (bytes, hash)
    }

    /// Reads frozen bytes back, if they are those that `hash` was made of.
    ///
    /// # Errors
    /// [`BookError::Format`] when they are not, [`BookError::Newer`] for a newer format.
    pub fn thaw(bytes: &[u8], hash: Hash) -> Result<Self> {
        if hash_of(bytes) != hash {
            return Err(BookError::format(Malformed::FinishNotAsFrozen));
        }
        let mut d = minicbor::Decoder::new(bytes);
        d.array()?;
        let found = d.u64()?;
        if found > TREATMENT_FORMAT {
            return Err(BookError::Newer {
                what: Written::Treatment,
                found,
                known: TREATMENT_FORMAT,
            });
        }
        Ok(minicbor::decode(bytes)?)
    }
}

fn hash_of(bytes: &[u8]) -> Hash {
    let mut sha = Sha256::new();
    sha.update(b"swardbook treatment 1\0");
    sha.update(bytes);
    Hash(sha.finalize().into())
}

/// Adds amounts up, in the unit of the first; none when there are none, or they are of different
/// kinds (a weight and a volume).
pub fn add_up<'a>(amounts: impl Iterator<Item = &'a Entered>) -> Option<Entered> {
    let mut total: Option<Entered> = None;
    for amount in amounts {
        total = Some(match total {
            None => *amount,
            Some(sum) => {
                let amount = amount.convert(sum.unit()).ok()?;
                Entered::new(sum.amount().checked_add(amount.amount())?, sum.unit()).ok()?
            }
        });
    }
    total
}
