//! Swapping records between books: a locked file or an exchange, and what else a meeting of two
//! phones brings: what the other holds, and how its clock stands.
//!
//! Whether a book has to begin anew afterwards is [`Book::must_begin_anew`].

use std::io::{Read, Seek, Write};

use sward_book::book::ClockDifference;
use sward_book::fact::DeviceKeys;
use sward_book::ids::{Hash, StreamId};
use sward_book::log::{Head, Stamp};
use sward_book::{Book, BookError};

use crate::exchange::Exchange;
use crate::locked::{
    Locking, Made, Opener, Progress, Taken, make_locked_file, take_locked_file_telling,
};
use crate::{Log, Result, Standing};

/// What a locked file brought to a book.
#[derive(Debug)]
pub struct Swapped {
    /// What became of its entries.
    pub taken: Taken,
    /// It showed that the other phone's clock is ahead, which was written down as a fact.
    pub clock_noted: bool,
}

/// The time by a book's clock, as it stands in entries and messages.
///
/// # Errors
/// [`BookError::Damaged`].
pub fn stamp_of(book: &Book) -> Result<Stamp> {
    let clock = book.env().clock();
    Ok(Stamp {
        utc_ms: clock.utc_ms,
        offset_min: clock.offset_min,
        proof: book.time_proof()?,
    })
}

/// Writes a locked file for every other member of the crew to `out`: all entries but those that
/// come before `since`, which every member is known to hold; everything when that is empty. The
/// file is whole only when this has returned without an error.
///
/// # Errors
/// As [`make_locked_file`].
pub fn lock_for_crew<W: Write>(book: &Book, since: &[Hash], out: W) -> Result<Made> {
    let secret = book.secret()?;
    let members: Vec<DeviceKeys> = book
        .roster()
        .active_recipients()
        .into_iter()
        .filter(|(stream, _)| *stream != secret.stream())
        .map(|(stream, recipient)| DeviceKeys { stream, recipient })
        .collect();
    let locking = Locking {
        secret,
        members: &members,
        made: stamp_of(book)?,
        since,
    };
    make_locked_file(out, &locking, book, book.env())
}

/// Takes a locked file into a book, and what else can be learnt from it.
///
/// # Errors
/// As [`take_locked_file`](crate::locked::take_locked_file).
pub fn take_into_book<R: Read + Seek>(book: &mut Book, file: R) -> Result<Swapped> {
    take_into_book_telling(book, file, &mut |_| {})
}

/// As [`take_into_book`], and tells after every batch how far it has come. What was told as taken
/// is committed: who has the book open for reading sees it while the rest is still to come.
///
/// # Errors
/// As [`take_into_book`].
pub fn take_into_book_telling<R: Read + Seek>(
    book: &mut Book,
    file: R,
    tell: &mut dyn FnMut(Progress),
) -> Result<Swapped> {
    let opener = Opener::new(book.secret()?)?;
    let taken = take_locked_file_telling(file, &opener, book, tell)?;
    let heads = heads_called(book, &taken.heads)?;
    if !heads.is_empty() {
        book.note_peer(taken.from, &heads)?;
    }
    let ahead_ms_least = taken.ahead_ms_least(book.env().clock().utc_ms);
    let clock_noted = note_clock(book, taken.from, ahead_ms_least, None)?;
    Ok(Swapped { taken, clock_noted })
}

/// Notes what can be learnt from an exchange with `peer`, also after a break. Says whether it
/// showed the other clock to differ by more than was known, which is then written down as a fact.
///
/// # Errors
/// As [`Book::note_peer`] and [`Book::note_clock`].
pub fn learn_from_exchange(book: &mut Book, peer: StreamId, exchange: &Exchange) -> Result<bool> {
    let outcome = exchange.outcome();
    let gave_all = exchange.is_done() && outcome.peer_standing.is_some_and(Standing::is_member);
    if gave_all {
        let heads = book.heads()?;
        book.note_peer(peer, &heads)?;
    }
    match outcome.peer_clock {
        Some(clock) => note_clock(book, peer, clock.ahead_ms_least, clock.ahead_ms_most),
        None => Ok(false),
    }
}

fn heads_called(book: &Book, hashes: &[Hash]) -> Result<Vec<Head>> {
    let mut heads = Vec::new();
    for hash in hashes {
        if Log::holds(book, *hash)? {
            let entry = book.entry(*hash)?;
            heads.push(Head {
                stream: entry.body().stream,
                seq: entry.body().seq,
                hash: *hash,
            });
        }
    }
    Ok(heads)
}

fn note_clock(
    book: &mut Book,
    stream: StreamId,
    ahead_ms_least: i64,
    ahead_ms_most: Option<i64>,
) -> Result<bool> {
    let heads = book.heads()?;
    let own = heads.iter().filter(|head| head.stream == stream);
    let Some(seq) = own.map(|head| head.seq).max() else {
        return Ok(false);
    };
    if !shows_a_difference(ahead_ms_least, ahead_ms_most) {
        return Ok(false);
    }
    let difference = ClockDifference {
        stream,
        seq,
        ahead_ms_least: Some(ahead_ms_least),
        ahead_ms_most,
    };
    match book.note_clock(difference) {
        // Who may only read, or has to begin anew, writes nothing down.
        Err(BookError::Refused(_)) => Ok(false),
        noted => Ok(noted?),
    }
}

/// Whether the bounds leave no room for equal clocks. A message may have been long on its way, so
/// that "at least so much behind" alone says nothing.
fn shows_a_difference(ahead_ms_least: i64, ahead_ms_most: Option<i64>) -> bool {
    ahead_ms_least > 0 || ahead_ms_most.is_some_and(|most| most < 0)
}

#[cfg(test)]
mod tests {
    use super::shows_a_difference;

    #[test]
    fn only_bounds_that_exclude_equal_clocks_count() {
        assert!(shows_a_difference(1, None));
        assert!(shows_a_difference(90_000, Some(90_010)));
        assert!(shows_a_difference(-90_010, Some(-90_000)));
        assert!(!shows_a_difference(-300_000, None));
        assert!(!shows_a_difference(-300_000, Some(10)));
        assert!(!shows_a_difference(0, Some(0)));
    }
}
