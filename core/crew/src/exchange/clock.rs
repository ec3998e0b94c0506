//! What the messages of an exchange show of the other phone's clock.
//!
//! A message was sent before it came, and, when it answers one, after that one was sent: so the
//! other clock is bracketed by two readings of the own one.

use sward_book::log::Stamp;

/// The other phone's clock beside the own one, as the messages bracket it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PeerClock {
    /// The other phone's last stamp.
    pub told: Stamp,
    /// The other clock is ahead of this one by at least this many milliseconds; negative where
    /// it may be behind.
    pub ahead_ms_least: i64,
    /// And by at most this many. None where there was no answer to an own message to tell.
    pub ahead_ms_most: Option<i64>,
}

/// Narrows what is known of the other clock, message by message.
#[derive(Default)]
pub(super) struct Bracket {
    greeted_utc_ms: Option<i64>,
    /// The bounds contradicted each other: a clock was set meanwhile, and nothing is known.
    is_void: bool,
    clock: Option<PeerClock>,
}

impl Bracket {
    /// The own greeting goes out.
    pub(super) fn greet(&mut self, now: Stamp) {
        self.greeted_utc_ms = Some(now.utc_ms);
    }

    /// A message came: an answer to the own greeting, if that had gone out.
    pub(super) fn observe(&mut self, told: Stamp, now: Stamp) -> Option<PeerClock> {
        let least = told.utc_ms.saturating_sub(now.utc_ms);
        let most = self
            .greeted_utc_ms
            .map(|sent| told.utc_ms.saturating_sub(sent));
        let ahead_ms_least = self
            .clock
            .map_or(least, |before| before.ahead_ms_least.max(least));
        let most_before = self.clock.and_then(|before| before.ahead_ms_most);
        let ahead_ms_most = most.into_iter().chain(most_before).min();
        self.is_void |= ahead_ms_most.is_some_and(|most| ahead_ms_least > most);
        self.clock = (!self.is_void).then_some(PeerClock {
            told,
            ahead_ms_least,
            ahead_ms_most,
        });
        self.clock
    }
}

#[cfg(test)]
mod tests {
    use sward_book::env::TimeProof;

    use super::*;

    fn at(utc_ms: i64) -> Stamp {
        Stamp {
            utc_ms,
            offset_min: 0,
            proof: TimeProof::Network,
        }
    }

    #[test]
    fn an_answer_brackets_the_other_clock() {
        let mut bracket = Bracket::default();
        bracket.greet(at(1_000));
        let clock = bracket.observe(at(5_050), at(1_100)).unwrap();
        assert_eq!(
            (clock.ahead_ms_least, clock.ahead_ms_most),
            (3_950, Some(4_050))
        );
        // A slower message later widens nothing.
        let clock = bracket.observe(at(5_300), at(2_000)).unwrap();
        assert_eq!(
            (clock.ahead_ms_least, clock.ahead_ms_most),
            (3_950, Some(4_050))
        );
        assert_eq!(clock.told, at(5_300));
    }

    #[test]
    fn what_comes_unasked_gives_one_bound() {
        let clock = Bracket::default().observe(at(500), at(900)).unwrap();
        assert_eq!((clock.ahead_ms_least, clock.ahead_ms_most), (-400, None));
    }

    #[test]
    fn a_clock_set_meanwhile_voids_it_for_good() {
        let mut bracket = Bracket::default();
        bracket.greet(at(1_000));
        assert!(bracket.observe(at(1_000), at(1_000)).is_some());
        assert_eq!(bracket.observe(at(900_000), at(1_010)), None);
        assert_eq!(bracket.observe(at(1_020), at(1_020)), None);
    }

    #[test]
    fn absurd_clocks_do_not_overflow() {
        let mut bracket = Bracket::default();
        bracket.greet(at(i64::MAX));
        let _ = bracket.observe(at(i64::MIN), at(i64::MAX));
        let _ = bracket.observe(at(i64::MAX), at(i64::MIN));
    }
}
