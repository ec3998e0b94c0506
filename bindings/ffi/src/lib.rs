//! Swardbook's core for phones: the person's book, keep-offs and when to ring for them, swapping
//! records by locked files, and the field screens.
//!
//! Everything begins with [`Swardbook`]. Its calls return when they are done, may be made from any
//! thread, and never call back: what changes is asked for ([`Swardbook::version`]). Amounts are
//! text as a person types them ("6 mph", "0.5 lb/1000 ft2"), so that a number never loses its
//! unit; times are milliseconds since 1970 in UTC. No rule is decided here: a file a domain turns
//! what phones can say into what the core says, and back.

#![allow(
    clippy::needless_pass_by_value,
    reason = "what comes over the boundary is owned"
)]
#![allow(
    clippy::missing_errors_doc,
    reason = "each call may fail with every SwardError; a heading with the same list on each would hide \
              what is particular, which stands in the text"
)]

mod change;
mod crew;
mod device;
mod error;
mod handle;
mod keep_off;
mod label;
mod names;
mod ready;
mod screens;
mod swap;
mod time;
mod treat;
mod walk;
mod yard;

pub use crew::{Crew, FoundedCrew, JoinRequest, Member, PersonTold, Role};
pub use device::{DeviceTold, PracticeClock, core_version};
pub use error::{Result, SwardError};
pub use handle::Swardbook;
pub use keep_off::{KeepOff, KeepOffState, Method, Ring, RingFor, Watch};
pub use label::{Label, Typed};
pub use ready::{Finding, Ready, Verdict, WindReading};
pub use screens::Screens;
pub use swap::{LockedFile, SwapProgress, TakenFile};
pub use time::{TimeAnswer, TimeNow, TimeProof, TimeSource};
pub use treat::Start;
pub use walk::{Fix, Walk};
pub use yard::{Section, Yard};

uniffi::setup_scaffolding!("sward");
