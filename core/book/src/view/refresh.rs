//! Making rows anew: from what an entry touches to the rows in the store.

use std::cell::{OnceCell, RefCell};
use std::collections::{BTreeSet, HashMap};
use std::rc::Rc;

use chrono::{Datelike as _, NaiveDate};

use super::device::{DeviceView, Look};
use super::incident::{IncidentView, incident_of};
use super::keep_off::{KeepOffView, keep_offs_of};
use super::roster::{Chains, MembershipFact, Roster, Standing};
use super::sheets::{LabelView, ReadBack, ReadBackTold, YardView, label_of, yard_of};
use super::twice::{ONE_JOB_WITHIN_MS, TwiceView, pair_key, twice_of};
use super::visit::{Told, VisitFacts, VisitView, visit_of};
use super::words;
use crate::fact::{Fact, Role, Subject};
use crate::ids::{FactId, Hash, IncidentId, SheetId, StreamId, VisitId};
use crate::log::Entry;
use crate::sheet::{SheetDoc, SheetKind};
use crate::store::{Store, ViewKind, ViewRow};
use crate::{BookError, Result};

/// A row's type, and which view it belongs to.
pub(crate) trait View: minicbor::Encode<()> + for<'b> minicbor::Decode<'b, ()> {
    /// The view.
    const KIND: ViewKind;
    /// What the row is found by; its content is not in it.
    fn found_by(&self) -> ViewRow {
        ViewRow::default()
    }
}

impl View for Roster {
    const KIND: ViewKind = ViewKind::Roster;
}
impl View for DeviceView {
    const KIND: ViewKind = ViewKind::Device;
}
impl View for YardView {
    const KIND: ViewKind = ViewKind::Yard;
    fn found_by(&self) -> ViewRow {
        ViewRow {
            words: Some(words::lines([self.name.as_str(), &self.address])),
            ..ViewRow::default()
        }
    }
}
impl View for LabelView {
    const KIND: ViewKind = ViewKind::Label;
}
impl View for TwiceView {
    const KIND: ViewKind = ViewKind::Twice;
    fn found_by(&self) -> ViewRow {
        ViewRow {
            yard: Some(self.yard),
            ..ViewRow::default()
        }
    }
}
impl View for VisitView {
    const KIND: ViewKind = ViewKind::Visit;
    fn found_by(&self) -> ViewRow {
        let products = self.products.iter();
        let products = products.flat_map(|p| [p.product.as_str(), &p.registration]);
        let texts = std::iter::once(self.target.as_str())
            .chain(self.pests.iter().map(String::as_str))
            .chain(products)
            .chain(self.people.iter().map(String::as_str));
        // A day that is none, from a hostile entry, is shown but never due.
        let returns = self.return_day.as_ref();
        let returns = returns.and_then(|r| r.day.parse::<NaiveDate>().ok());
        ViewRow {
            yard: self.yard,
            at_ms: Some(self.at_utc_ms()),
            state: Some(self.state.number()),
            returns: returns.map(day_number),
            asks: !self.questions.is_empty(),
            words: Some(words::lines(texts)),
            ..ViewRow::default()
        }
    }
}
impl View for KeepOffView {
    const KIND: ViewKind = ViewKind::KeepOff;
    fn found_by(&self) -> ViewRow {
        let until_ms = self.over_from_utc_ms().unwrap_or(i64::MAX);
        ViewRow {
            yard: self.yard,
            at_ms: Some(self.started_utc_ms),
            until_ms: self.released_by.is_none().then_some(until_ms),
            ..ViewRow::default()
        }
    }
}
impl View for IncidentView {
    const KIND: ViewKind = ViewKind::Incident;
    fn found_by(&self) -> ViewRow {
        ViewRow {
            yard: self.yard,
            at_ms: Some(self.happened_utc_ms),
            ..ViewRow::default()
        }
    }
}

/// A day's number, counted from 0001-01-01 as 1, as rows are found by it.
pub(crate) fn day_number(day: NaiveDate) -> i64 {
    i64::from(day.num_days_from_ce())
}

/// Reads one row's content.
pub(crate) fn read_row<V: View>(body: &[u8]) -> Result<V> {
    minicbor::decode(body).map_err(|e| BookError::Damaged(format!("a view: {e}")))
}

/// What new entries touch.
#[derive(Default)]
pub(crate) struct Touched {
    subjects: BTreeSet<Subject>,
    streams: BTreeSet<StreamId>,
}

impl Touched {
    /// Adds what an entry touches.
    pub(crate) fn add(&mut self, entry: &Entry) {
        let body = entry.body();
        for fact in &body.facts {
            self.subjects.extend(fact.subjects(body.stream));
        }
        self.subjects
            .extend(body.changes.iter().map(|c| Subject::Sheet(c.kind, c.sheet)));
        self.streams.insert(body.stream);
    }
}

/// Chains as they stand in the store.
pub(crate) struct StoreChains<'a> {
    store: &'a Store,
    /// Looked up when first asked for: only a stream that was cut needs it.
    forked: OnceCell<BTreeSet<StreamId>>,
}

impl<'a> StoreChains<'a> {
    pub(crate) fn new(store: &'a Store) -> Self {
        Self {
            store,
            forked: OnceCell::new(),
        }
    }

    fn is_forked(&self, stream: StreamId) -> Result<bool> {
        if let Some(forked) = self.forked.get() {
            return Ok(forked.contains(&stream));
        }
        let forked: BTreeSet<StreamId> = self.store.forked_streams()?.into_iter().collect();
        Ok(self.forked.get_or_init(|| forked).contains(&stream))
    }

    fn walk(&self, entry: Hash, last: Hash) -> Result<bool> {
        let Some((_, seq)) = self.store.link_of(entry)? else {
            return Ok(false);
        };
        let Some(stream) = self.store.stream_of(entry)? else {
            return Ok(false);
        };
        let Some((mut prev, mut at)) = self.store.link_of(last)? else {
            return Ok(false);
        };
        if self.store.stream_of(last)? != Some(stream) {
            return Ok(false);
        }
        if !self.is_forked(stream)? {
            return Ok(seq <= at);
        }
        let mut here = last;
        while at > seq {
            here = prev;
            match self.store.link_of(here)? {
                Some(link) => (prev, at) = link,
                None => return Ok(false),
            }
        }
        Ok(here == entry)
    }
}

impl Chains for StoreChains<'_> {
    fn is_at_or_before(&self, entry: Hash, last: Hash) -> bool {
        // A store that cannot be read answers "no": what cannot be checked does not count.
        entry == last || self.walk(entry, last).unwrap_or(false)
    }
}

/// Makes anew every row that `touched` bears on.
pub(crate) fn refresh(store: &Store, crew: Option<Hash>, touched: Touched) -> Result<()> {
    Refresh::new(store, crew)?.run(touched)
}

/// Makes every row anew.
pub(crate) fn refresh_all(store: &Store, crew: Option<Hash>) -> Result<()> {
    let mut subjects: BTreeSet<Subject> = store.subjects()?.into_iter().collect();
    subjects.insert(Subject::Crew);
    for (sheet, kind, _) in store.sheet_heads()? {
        subjects.insert(Subject::Sheet(kind, sheet));
    }
    Refresh::new(store, crew)?.run(Touched {
        subjects,
        streams: BTreeSet::new(),
    })
}

struct Refresh<'a> {
    store: &'a Store,
    crew: Option<Hash>,
    chains: StoreChains<'a>,
    roster: Roster,
    entries: RefCell<HashMap<i64, Rc<Entry>>>,
    devices: RefCell<HashMap<StreamId, Rc<DeviceView>>>,
}

impl<'a> Refresh<'a> {
    fn new(store: &'a Store, crew: Option<Hash>) -> Result<Self> {
        let roster = match store.view(ViewKind::Roster, &[])? {
            Some(body) => read_row(&body)?,
            None => Roster::default(),
        };
        Ok(Self {
            store,
            crew,
            chains: StoreChains::new(store),
            roster,
            entries: RefCell::default(),
            devices: RefCell::default(),
        })
    }

    /// Membership and clocks first, because they bear on what everyone wrote; then sheets and
    /// visits; then what is computed from visits.
    fn run(mut self, touched: Touched) -> Result<()> {
        let Touched {
            mut subjects,
            streams,
        } = touched;
        // Where a stream was cut, an entry that arrives now may be the one the cut names, or show
        // that the stream has two branches: what the others of that stream are worth can change.
        for stream in streams.into_iter().filter(|s| self.roster.is_cut(*s)) {
            subjects.insert(Subject::Crew);
            subjects.extend(self.store.subjects_by(stream)?);
        }
        if subjects.remove(&Subject::Crew) {
            subjects.extend(self.refresh_roster()?);
        }
        let devices: Vec<StreamId> = subjects
            .iter()
            .filter_map(|s| {
                if let Subject::Device(d) = s {
                    Some(*d)
                } else {
                    None
                }
            })
            .collect();
        for device in devices {
            subjects.extend(self.refresh_device(device)?);
        }
        let mut visits = Vec::new();
        for subject in &subjects {
            match subject {
                Subject::Crew | Subject::Device(_) => {}
                Subject::Sheet(kind, sheet) => self.refresh_sheet(*kind, *sheet)?,
                Subject::Visit(visit) => visits.push(self.refresh_visit(*visit)?),
                Subject::Incident(incident) => self.refresh_incident(*incident)?,
            }
        }
        for visit in &visits {
            self.refresh_twice(visit)?;
        }
        Ok(())
    }

    fn set<V: View>(&self, subject: &[u8], view: &V) -> Result<()> {
        let body = minicbor::to_vec(view).expect("a vector takes every write");
        let row = ViewRow {
            body,
            ..view.found_by()
        };
        let moved = self.store.set_view(V::KIND, subject, &row)?;
        if V::KIND != ViewKind::Visit {
            return Ok(());
        }
        // Which return of a yard is due changes with its visits' order and with the return itself.
        let left = moved
            .as_ref()
            .and_then(|m| m.was_in)
            .filter(|y| Some(*y) != row.yard);
        let here = row
            .yard
            .filter(|_| moved.is_some() || row.returns.is_some());
        for yard in left.into_iter().chain(here) {
            self.store.mark_due(yard)?;
        }
        Ok(())
    }

    fn entry(&self, id: i64) -> Result<Rc<Entry>> {
        if let Some(entry) = self.entries.borrow().get(&id) {
            return Ok(Rc::clone(entry));
        }
        let entry = Rc::new(self.store.entry_in(id)?);
        self.entries.borrow_mut().insert(id, Rc::clone(&entry));
        Ok(entry)
    }

    /// All facts about a subject: entry and place, in the order of the views.
    fn facts(&self, subject: &Subject) -> Result<Vec<(Rc<Entry>, u8)>> {
        let rows = self.store.facts_about(subject)?;
        rows.into_iter()
            .map(|row| Ok((self.entry(row.entry)?, row.place)))
            .collect()
    }

    /// The roster, and every subject that a device whose standing changed has written about.
    fn refresh_roster(&mut self) -> Result<Vec<Subject>> {
        let Some(crew) = self.crew else {
            return Ok(Vec::new());
        };
        let facts = self.facts(&Subject::Crew)?;
        let membership: Vec<MembershipFact> = facts
            .iter()
            .map(|(entry, place)| MembershipFact {
                id: entry.fact_id(usize::from(*place)),
                stream: entry.body().stream,
                seq: entry.body().seq,
                lamport: entry.body().lamport,
                fact: entry.body().facts[usize::from(*place)].clone(),
            })
            .collect();
        let new = Roster::compute(crew, &membership, &self.chains);
        let old = std::mem::replace(&mut self.roster, new);
        self.set(&[], &self.roster)?;
        let mut touched = Vec::new();
        for member in self.roster.members() {
            let stream = member.stream;
            if old.member(stream) != Some(member) {
                touched.extend(self.store.subjects_by(stream)?);
            }
        }
        touched.retain(|s| *s != Subject::Crew);
        Ok(touched)
    }

    /// A device's clock, and every subject it has written about when that changed.
    fn refresh_device(&self, device: StreamId) -> Result<Vec<Subject>> {
        let facts = self.facts(&Subject::Device(device))?;
        let mut looks = Vec::new();
        let mut confirmed_seq = 0;
        for (entry, place) in &facts {
            let body = entry.body();
            match &body.facts[usize::from(*place)] {
                Fact::ClockSeen(seen) => looks.push(Look {
                    by: body.stream,
                    seq: body.seq,
                    at: body.written,
                    seen,
                }),
                Fact::TimeConfirmed(_) => confirmed_seq = confirmed_seq.max(body.seq),
                _ => {}
            }
        }
        let view = DeviceView::compute(device, &looks, confirmed_seq);
        let old = self.device(device)?;
        self.set(&device.0, &view)?;
        let changed = old.looks != view.looks;
        self.devices.borrow_mut().insert(device, Rc::new(view));
        let mut touched = if changed {
            self.store.subjects_by(device)?
        } else {
            Vec::new()
        };
        touched.retain(|s| matches!(s, Subject::Visit(_)));
        Ok(touched)
    }

    fn device(&self, device: StreamId) -> Result<Rc<DeviceView>> {
        if let Some(view) = self.devices.borrow().get(&device) {
            return Ok(Rc::clone(view));
        }
        let view = match self.store.view(ViewKind::Device, &device.0)? {
            Some(body) => read_row(&body)?,
            None => DeviceView::default(),
        };
        let view = Rc::new(view);
        self.devices.borrow_mut().insert(device, Rc::clone(&view));
        Ok(view)
    }

    fn standing(&self, entry: &Entry) -> Standing {
        self.roster
            .standing(entry.body().stream, entry.hash(), &self.chains)
    }

    fn refresh_sheet(&self, kind: SheetKind, sheet: SheetId) -> Result<()> {
        let Some(doc) = self.store.sheet(sheet, kind)? else {
            return Ok(());
        };
        let doc = SheetDoc::load(&doc)?;
        match kind {
            SheetKind::Yard => self.set(sheet.0.as_bytes(), &yard_of(sheet, &doc)),
            SheetKind::Label => {
                let told = self.read_backs(sheet)?;
                self.set(sheet.0.as_bytes(), &label_of(sheet, &doc, told))
            }
            // Few of each, so that they are read as they stand.
            SheetKind::Plan
            | SheetKind::Equipment
            | SheetKind::Stock
            | SheetKind::Person
            | SheetKind::HelpLines => Ok(()),
        }
    }

    /// Readings back by people of the crew: nobody else's lets a label sheet be used.
    fn read_backs(&self, sheet: SheetId) -> Result<Vec<ReadBackTold>> {
        let mut told = Vec::new();
        for (entry, place) in self.facts(&Subject::Sheet(SheetKind::Label, sheet))? {
            if let Fact::LabelReadBack(f) = &entry.body().facts[usize::from(place)]
                && matches!(self.standing(&entry), Standing::Counts(role) if role >= Role::Applicator)
            {
                let fact: FactId = entry.fact_id(usize::from(place));
                let read_back = ReadBack {
                    fact,
                    how: f.how,
                    person: f.person.clone(),
                };
                told.push(ReadBackTold {
                    numbers: f.numbers,
                    read_back,
                });
            }
        }
        Ok(told)
    }

    fn refresh_incident(&self, incident: IncidentId) -> Result<()> {
        let entries = self.facts(&Subject::Incident(incident))?;
        match incident_of(incident, &self.told(&entries)?) {
            Some(view) => self.set(incident.0.as_bytes(), &view),
            None => Ok(()),
        }
    }

    /// Facts with who told them, and what that is worth.
    fn told<'e>(&self, entries: &'e [(Rc<Entry>, u8)]) -> Result<Vec<Told<'e>>> {
        let mut told = Vec::with_capacity(entries.len());
        for (entry, place) in entries {
            let body = entry.body();
            let device = self.device(body.stream)?;
            told.push(Told {
                id: entry.fact_id(usize::from(*place)),
                by: body.stream,
                at: body.written,
                fact: &body.facts[usize::from(*place)],
                standing: self.standing(entry),
                clock_doubt_ms: device.doubt_ms(body.seq, body.written),
            });
        }
        Ok(told)
    }

    fn refresh_visit(&self, visit: VisitId) -> Result<VisitView> {
        let entries = self.facts(&Subject::Visit(visit))?;
        let facts = VisitFacts::new(self.told(&entries)?);
        let names = |stream: StreamId| {
            let person = self.roster.member(stream)?.person.as_ref()?;
            Some(person.name.clone())
        };
        let view = visit_of(visit, &facts, &names);
        self.set(visit.0.as_bytes(), &view)?;
        for keep_off in keep_offs_of(visit, &facts) {
            // Two visits that name one keep-off are two keep-offs: neither can hide the other.
            let subject = [*visit.0.as_bytes(), *keep_off.keep_off.0.as_bytes()].concat();
            self.set(&subject, &keep_off)?;
        }
        Ok(view)
    }

    /// The pairs that a visit makes with the visits to its yard on the same day.
    fn refresh_twice(&self, visit: &VisitView) -> Result<()> {
        let (Some(yard), Some(opened)) = (visit.yard, visit.opened) else {
            return Ok(());
        };
        let from_ms = opened.utc_ms.saturating_sub(ONE_JOB_WITHIN_MS);
        let to_ms = opened.utc_ms.saturating_add(ONE_JOB_WITHIN_MS);
        for body in self
            .store
            .views_between(ViewKind::Visit, yard, from_ms, to_ms)?
        {
            let other: VisitView = read_row(&body)?;
            if other.visit == visit.visit {
                continue;
            }
            let key = pair_key(visit, &other);
            match twice_of(yard, visit, &other) {
                Some(view) => self.set(&key, &view)?,
                None => self.store.drop_view(ViewKind::Twice, &key)?,
            }
        }
        Ok(())
    }
}
