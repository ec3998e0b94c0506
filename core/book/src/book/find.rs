//! Finding: what is open, due, newest or wanted. Each costs what it answers, not what the book
//! holds.
//!
//! Reading single things and whole lists is [`super::read`].

use std::collections::BTreeMap;

use chrono::{DateTime, Days, NaiveDate};
use chrono_tz::Tz;
use serde::Serialize;
use sward_rules::keep_off::Now;

use super::Book;
use crate::env::TimeProof;
use crate::ids::{IncidentId, SheetId, StreamId, VisitId};
use crate::store::VisitsWanted;
use crate::view::device::DeviceView;
use crate::view::incident::IncidentView;
use crate::view::keep_off::KeepOffView;
use crate::view::sheets::YardView;
use crate::view::visit::{ProductUsed, VisitState, VisitView};
use crate::view::{View, day_number, read_row, words};
use crate::{BookError, Result, Thing};

/// How many of the own newest entries are read for the last proven time.
const PROVEN_WITHIN: u64 = 200;
/// Further words of a search narrow nothing.
const WORDS_MOST: usize = 8;
/// No place on earth is farther from UTC: UTC-12 to UTC+14.
const ZONE_MOST_MS: i64 = 14 * 60 * 60 * 1000;

/// Which visits are looked for; what is none or empty narrows nothing. Upper case, accents and
/// spaces make no difference.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct FindingWanted {
    /// Only to this yard.
    pub yard: Option<SheetId>,
    /// Each word is part of the yard's name or address, of a product, of a person's name or of a
    /// pest. Only the first eight words count.
    pub text: Option<String>,
    /// Only from this day on, by the yard's own calendar.
    pub from_day: Option<NaiveDate>,
    /// Only up to and with this day.
    pub to_day: Option<NaiveDate>,
    /// Part of a product's name or registration number.
    pub product: Option<String>,
    /// Part of the name of a person whose device wrote any of it.
    pub person: Option<String>,
    /// At most so many; zero: all.
    pub limit: usize,
}

/// When a peer last said what it holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Swapped {
    /// The peer.
    pub stream: StreamId,
    /// When, by the own clock; milliseconds since 1970 in UTC.
    pub told_utc_ms: i64,
}

/// What exists on this device alone, as far as it knows.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct AloneHere {
    /// Own entries that no peer is known to hold.
    pub entries: u64,
    /// When records were last swapped with whom, the latest first.
    pub swapped: Vec<Swapped>,
}

fn read_all<V: View>(bodies: &[Vec<u8>]) -> Result<Vec<V>> {
    bodies.iter().map(|body| read_row(body)).collect()
}

impl Book {
    /// Every keep-off that keeps off at `now`, as far as anyone can tell, by start. None for which
    /// [`KeepOffView::keeps_off`] holds is ever missing.
    ///
    /// For a time that is not proven that is every keep-off with a wait that was not lifted, back
    /// to the first: see [`Book::keep_offs_to_watch`].
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn keep_offs_running(&self, now: Now) -> Result<Vec<KeepOffView>> {
        let from_ms = if now.proven { now.utc_ms } else { i64::MIN };
        let mut running: Vec<KeepOffView> = read_all(&self.store.keep_offs_until(from_ms)?)?;
        running.retain(|view| view.keeps_off(now));
        Ok(running)
    }

    /// The keep-offs to watch now, with the time to judge each by. While the time is not proven,
    /// those are left out that had ended by the last time that was: what had ended then has ended.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn keep_offs_to_watch(&self) -> Result<(Now, Vec<KeepOffView>)> {
        let now = self.now()?;
        let earlier = if now.proven {
            None
        } else {
            self.last_proven_utc_ms()?
        };
        let asked = earlier.map_or(now, |utc_ms| Now {
            utc_ms,
            proven: true,
        });
        let mut running = self.keep_offs_running(asked)?;
        running.retain(|view| view.keeps_off(now));
        Ok((now, running))
    }

    /// The latest time that this device wrote something down while its time was proven, set back
    /// by what others saw its clock differ; none where its newest entries tell none.
    fn last_proven_utc_ms(&self) -> Result<Option<i64>> {
        let Ok(secret) = self.secret() else {
            return Ok(None);
        };
        let own = secret.stream();
        let last_seq = self.own_last_seq(own)?;
        for seq in (1..=last_seq)
            .rev()
            .take_while(|s| s + PROVEN_WITHIN > last_seq)
        {
            for hash in self.store.hashes_at(own, seq)? {
                let written = self.entry(hash)?.body().written;
                if written.proof != TimeProof::Unproven {
                    let device = self.row::<DeviceView>(&own.0)?;
                    let doubt_ms = device.map_or(0, |d| d.doubt_ms(seq, written));
                    return Ok(Some(written.utc_ms.saturating_sub_unsigned(doubt_ms)));
                }
            }
        }
        Ok(None)
    }

    fn own_last_seq(&self, own: StreamId) -> Result<u64> {
        let tips = self.store.tips()?.into_iter();
        Ok(tips
            .filter(|tip| tip.stream == own)
            .map(|tip| tip.seq)
            .max()
            .unwrap_or(0))
    }

    /// Visits on which something is still to be done: looking or treating. The newest first.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn visits_open(&self) -> Result<Vec<VisitView>> {
        read_all(&self.store.visits_open()?)
    }

    /// The newest visits, at most `limit`. To go on, give [`VisitView::at_utc_ms`] and the name of
    /// the last one.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn visits_newest(
        &self,
        limit: usize,
        before: Option<(i64, VisitId)>,
    ) -> Result<Vec<VisitView>> {
        read_all(&self.store.visits_newest(limit, before)?)
    }

    /// Visits of a span of time, both ends included, the oldest first; milliseconds since 1970 in
    /// UTC.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn visits_between(&self, from_ms: i64, to_ms: i64) -> Result<Vec<VisitView>> {
        read_all(&self.store.visits_between(from_ms, to_ms)?)
    }

    /// The newest visits to a yard, at most `limit`.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn visits_to_newest(&self, yard: SheetId, limit: usize) -> Result<Vec<VisitView>> {
        read_all(&self.store.visits_to_newest(yard, None, limit)?)
    }

    /// The newest finished visit to a yard.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn last_treatment_of(&self, yard: SheetId) -> Result<Option<VisitView>> {
        let finished = Some(VisitState::Finished.number());
        let found = self.store.visits_to_newest(yard, finished, 1)?;
        found.first().map(|body| read_row(body)).transpose()
    }

    /// Visits whose planned return is due by a day, the longest due first. A yard that was visited
    /// since is left out.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn returns_due(&self, up_to_day: NaiveDate) -> Result<Vec<VisitView>> {
        read_all(&self.store.returns_due(day_number(up_to_day))?)
    }

    /// Visits with something to settle, the oldest first.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn visits_with_questions(&self) -> Result<Vec<VisitView>> {
        read_all(&self.store.visits_asking()?)
    }

    /// How many visits there are.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn visit_count(&self) -> Result<u64> {
        self.store.visit_count()
    }

    /// The visits that are looked for, the newest first.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn find_visits(&self, wanted: &FindingWanted) -> Result<Vec<VisitView>> {
        let part = |text: &Option<String>| text.as_deref().map(words::fold).unwrap_or_default();
        let (text, product, person) = (
            part(&wanted.text),
            part(&wanted.product),
            part(&wanted.person),
        );
        let in_visit = [&product, &person].into_iter().filter(|p| !p.is_empty());
        let rows = VisitsWanted {
            yard: wanted.yard,
            between_ms: Some(span_ms(wanted.from_day, wanted.to_day)),
            anywhere: text
                .split(' ')
                .filter(|w| !w.is_empty())
                .take(WORDS_MOST)
                .map(str::to_owned)
                .collect(),
            in_visit: in_visit.cloned().collect(),
        };
        let mut zones: BTreeMap<SheetId, Option<Tz>> = BTreeMap::new();
        let mut found = Vec::new();
        self.store.find_visits(&rows, |body| {
            let view: VisitView = read_row(&body)?;
            let names = |p: &ProductUsed| {
                words::holds(&p.product, &product) || words::holds(&p.registration, &product)
            };
            // The columns are found by any of a visit's words; here it must be the right one.
            let fits = (product.is_empty() || view.products.iter().any(names))
                && (person.is_empty() || view.people.iter().any(|p| words::holds(p, &person)))
                && self.is_of_days(&view, wanted, &mut zones)?;
            if fits {
                found.push(view);
            }
            Ok(wanted.limit == 0 || found.len() < wanted.limit)
        })?;
        Ok(found)
    }

    /// A visit whose day cannot be read is shown rather than lost.
    fn is_of_days(
        &self,
        view: &VisitView,
        wanted: &FindingWanted,
        zones: &mut BTreeMap<SheetId, Option<Tz>>,
    ) -> Result<bool> {
        if wanted.from_day.is_none() && wanted.to_day.is_none() {
            return Ok(true);
        }
        let zone = match view.yard {
            Some(yard) => self.zone_of(yard, zones)?,
            None => None,
        };
        let Some(at) = DateTime::from_timestamp_millis(view.at_utc_ms()) else {
            return Ok(true);
        };
        let day = zone.map_or_else(|| at.date_naive(), |z| at.with_timezone(&z).date_naive());
        Ok(wanted.from_day.is_none_or(|from| from <= day)
            && wanted.to_day.is_none_or(|to| day <= to))
    }

    fn zone_of(
        &self,
        yard: SheetId,
        zones: &mut BTreeMap<SheetId, Option<Tz>>,
    ) -> Result<Option<Tz>> {
        if let Some(zone) = zones.get(&yard) {
            return Ok(*zone);
        }
        let row: Option<YardView> = self.row(yard.0.as_bytes())?;
        let zone = row.and_then(|y| y.zone.parse().ok());
        zones.insert(yard, zone);
        Ok(zone)
    }

    /// All incidents, by when they happened.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn incidents(&self) -> Result<Vec<IncidentView>> {
        self.rows()
    }

    /// One incident.
    ///
    /// # Errors
    /// [`BookError::NotFound`], [`BookError::Damaged`].
    pub fn incident(&self, incident: IncidentId) -> Result<IncidentView> {
        self.row(incident.0.as_bytes())?
            .ok_or_else(|| BookError::NotFound {
                what: Thing::Incident,
                name: incident.to_string(),
            })
    }

    /// What exists on this device alone: own entries that no peer is known to hold, and when
    /// records were last swapped with whom.
    ///
    /// # Errors
    /// [`BookError::Damaged`].
    pub fn alone_here(&self) -> Result<AloneHere> {
        let peers = self.store.peers()?;
        let own = self.secret()?.stream();
        let mut held = 0;
        for head in peers.iter().flat_map(|p| &p.heads) {
            // A head that is not here is of a copy of this device: it vouches for nothing.
            if head.stream == own && head.seq > held && self.store.holds_whole(head.hash)? {
                held = head.seq;
            }
        }
        let entries = self.own_last_seq(own)?.saturating_sub(held);
        let mut swapped: Vec<Swapped> = peers
            .iter()
            .filter(|p| p.stream != own)
            .map(|p| Swapped {
                stream: p.stream,
                told_utc_ms: p.told_ms,
            })
            .collect();
        swapped.sort_by_key(|s| std::cmp::Reverse((s.told_utc_ms, s.stream)));
        Ok(AloneHere { entries, swapped })
    }
}

/// The longest span of time that days can be, whatever the zone.
fn span_ms(from: Option<NaiveDate>, to: Option<NaiveDate>) -> (i64, i64) {
    let start_ms = |day: NaiveDate| {
        day.and_time(chrono::NaiveTime::MIN)
            .and_utc()
            .timestamp_millis()
    };
    let from_ms = from.map_or(i64::MIN, |day| start_ms(day).saturating_sub(ZONE_MOST_MS));
    let to_ms = to
        .and_then(|day| day.checked_add_days(Days::new(1)))
        .map_or(i64::MAX, |day| start_ms(day).saturating_add(ZONE_MOST_MS));
    (from_ms, to_ms)
}
