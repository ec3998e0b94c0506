//! Who stays off a piece of ground that treatments reached, why, and when to look next.

use std::collections::BTreeMap;

use chrono_tz::Tz;
use serde_json::json;
use sward_book::view::keep_off::Standing as Shown;
use sward_rules::Entered;
use sward_rules::finding::Reason;
use sward_rules::keep_off::{
    KeepOff, Next, NextStep, Now, PlaceAsks, SiteKind, Terms, Treatment, WaterIn, asks_longer,
    ground, place_claim, worker_claim,
};
use sward_rules::label::{KeepOffTerms, LabelSays};

use super::Worked;
use super::place::{amount, moment_json, time, zone};
use crate::args::KeepOffCalc;
use crate::error::{CliError, Result};
use crate::times::moment;
use crate::words::{keep_off_state, key_of};

const TREATMENTS_MOST: usize = 100;

const KEYS: [&str; 13] = [
    "name",
    "started",
    "finished",
    "wait",
    "until-dry",
    "water-in",
    "watered",
    "dry",
    "place-wait",
    "place-dry",
    "site",
    "worker-interval",
    "clock-off",
];

/// Where one piece of ground stands.
pub(super) fn keep_off(args: &KeepOffCalc) -> Result<Worked> {
    let zone = zone(&args.zone)?;
    let now = Now {
        utc_ms: time("now", &args.now, zone)?,
        proven: !args.unproven,
    };
    if args.treatments.len() > TREATMENTS_MOST {
        return Err(CliError::Refused(format!(
            "treatment: more than {TREATMENTS_MOST}; give those of one piece of ground"
        )));
    }
    let given = args
        .treatments
        .iter()
        .enumerate()
        .map(|(number, text)| Given::read(text, number + 1, zone))
        .collect::<Result<Vec<_>>>()?;
    let mut worked = Worked::default();
    let ground = ground(given.iter().map(|g| &g.treatment), now);
    let mut each = Vec::new();
    for one in &given {
        let standing = one.treatment.standing(now);
        let told = keep_off_state(Shown::ByClaims(standing.state), zone);
        worked.line(format!("{}: {}, {}", one.name, told.state, told.until));
        if let Some(why) = &standing.why {
            worked.line(format!("- why: {why}"));
        }
        for note in &one.notes {
            worked.line(format!("- note: {note}"));
        }
        each.push(json!({
            "name": one.name,
            "standing": standing,
            "why_in_english": standing.why.as_ref().map(ToString::to_string),
            "notes": one.notes,
        }));
    }
    worked.line(if ground.is_free() {
        "Nobody is kept off by what is given here."
    } else {
        "Keep off, people and pets."
    });
    if let Some(next) = ground.next {
        worked.line(format!("Next: {}", next_line(next, now, zone)));
    }
    worked
        .value("free", ground.is_free())
        .value("over_since", moment_json(ground.over_since_utc_ms, zone))
        .value("next", moment_json(ground.next.map(|n| n.at_utc_ms), zone))
        .value("next_step", ground.next.map(|n| key_of(&n.step)))
        .value("treatments", each);
    worked.line("The label is the law: read what it says of people and pets.");
    Ok(worked)
}

fn next_line(next: Next, now: Now, zone: Tz) -> String {
    let what = match next.step {
        NextStep::ConfirmTime => "confirm the time, or compare the clocks",
        NextStep::RecordFinish => "record the finish",
        NextStep::ReadLabel => "read the label, and fill in what it says",
        NextStep::WaterIn => "water it in",
        NextStep::Look => "look whether it is dry",
        NextStep::WaitOver => "a wait is over; look at it anew",
    };
    if next.at_utc_ms <= now.utc_ms {
        format!("now, {what}")
    } else {
        format!("{}, {what}", moment(next.at_utc_ms, zone))
    }
}

/// One treatment as typed.
struct Given {
    name: String,
    treatment: Treatment,
    notes: Vec<Reason>,
}

/// What was typed of one treatment, by key.
struct Typed<'a> {
    number: usize,
    values: BTreeMap<&'a str, &'a str>,
}

impl Given {
    fn read(text: &str, number: usize, zone: Tz) -> Result<Self> {
        let typed = Typed::read(text, number)?;
        let started = typed.time("started", zone)?;
        let finished = typed.time("finished", zone)?;
        let Some(started_utc_ms) = started.or(finished) else {
            return Err(typed.refuse(
                "started",
                "is missing: write it like started=2026-06-15 08:30",
            ));
        };
        let label = KeepOffTerms {
            until_dry: typed.says("until-dry", yes)?,
            wait: typed.says("wait", |text| {
                Entered::parse(text).map_err(|e| e.to_string())
            })?,
        };
        let mut claims = vec![Terms::from_label(&label)];
        let mut notes = Vec::new();
        let asks = PlaceAsks {
            wait: typed.amount("place-wait")?,
            until_dry: typed.yes("place-dry")? == Some(true),
        };
        if let Some(claim) = place_claim(&asks) {
            if asks_longer(&claims, claim) {
                notes.push(Reason::PlaceAsksLonger);
            }
            claims.push(claim);
        }
        let site = typed.site()?;
        let interval = typed.amount("worker-interval")?;
        if interval.is_some() || site == SiteKind::SodFarm {
            let says = interval.map_or(LabelSays::Unfilled, LabelSays::Value);
            let worker = worker_claim(site, &says);
            claims.extend(worker.claim);
            notes.push(worker.reason);
        }
        let treatment = Treatment {
            keep_off: KeepOff {
                claims,
                started_utc_ms,
                last_application_utc_ms: finished,
                dry_utc_ms: typed.time("dry", zone)?,
                lengthen_ms: typed.lengthen_ms()?,
            },
            water_in: match typed.yes("water-in")? {
                None => WaterIn::Open,
                Some(true) => WaterIn::Asked,
                Some(false) => WaterIn::NotAsked,
            },
            watered_utc_ms: typed.time("watered", zone)?,
        };
        let name = typed
            .get("name")
            .map_or_else(|| format!("Treatment {number}"), str::to_owned);
        Ok(Self {
            name,
            treatment,
            notes,
        })
    }
}

impl<'a> Typed<'a> {
    fn read(text: &'a str, number: usize) -> Result<Self> {
        let mut values = BTreeMap::new();
        let empty = Self {
            number,
            values: BTreeMap::new(),
        };
        for part in text.split(';').map(str::trim).filter(|p| !p.is_empty()) {
            let Some((key, value)) = part.split_once('=') else {
                return Err(empty.refuse(part, "has no value: write it like wait=24 h"));
            };
            let (key, value) = (key.trim(), value.trim().trim_matches('"'));
            if !KEYS.contains(&key) {
                let known = format!("is none of {}", KEYS.join(", "));
                return Err(empty.refuse(key, &known));
            }
            if values.insert(key, value).is_some() {
                return Err(empty.refuse(key, "stands there twice; give it once"));
            }
        }
        Ok(Self { number, values })
    }

    fn refuse(&self, key: &str, why: &str) -> CliError {
        CliError::Refused(format!("treatment {}, {key}: {why}", self.number))
    }

    fn get(&self, key: &str) -> Option<&'a str> {
        self.values.get(key).copied()
    }

    fn field(&self, key: &str) -> String {
        format!("treatment {}, {key}", self.number)
    }

    fn time(&self, key: &str, zone: Tz) -> Result<Option<i64>> {
        let of = |text| time(&self.field(key), text, zone);
        self.get(key).map(of).transpose()
    }

    fn amount(&self, key: &str) -> Result<Option<Entered>> {
        let of = |text| amount(&self.field(key), text);
        self.get(key).map(of).transpose()
    }

    fn yes(&self, key: &str) -> Result<Option<bool>> {
        let of = |text| yes(text).map_err(|why| self.refuse(key, &why));
        self.get(key).map(of).transpose()
    }

    /// What the label says: left out, "nothing", or a value.
    fn says<T>(
        &self,
        key: &str,
        read: impl Fn(&str) -> std::result::Result<T, String>,
    ) -> Result<LabelSays<T>> {
        match self.get(key) {
            None => Ok(LabelSays::Unfilled),
            Some("nothing") => Ok(LabelSays::Nothing),
            Some(text) => read(text)
                .map(LabelSays::Value)
                .map_err(|why| self.refuse(key, &why)),
        }
    }

    fn site(&self) -> Result<SiteKind> {
        match self.get("site") {
            None => Ok(SiteKind::NotSaid),
            Some("lawn") => Ok(SiteKind::Lawn),
            Some("sod-farm") => Ok(SiteKind::SodFarm),
            Some(_) => Err(self.refuse("site", "is lawn or sod-farm")),
        }
    }

    fn lengthen_ms(&self) -> Result<u64> {
        let Some(off) = self.amount("clock-off")? else {
            return Ok(0);
        };
        let seconds = off
            .to_seconds_up()
            .map_err(|error| self.refuse("clock-off", &error.to_string()))?;
        Ok(u64::try_from(seconds)
            .unwrap_or(u64::MAX)
            .saturating_mul(1000))
    }
}

fn yes(text: &str) -> std::result::Result<bool, String> {
    match text {
        "yes" => Ok(true),
        "no" => Ok(false),
        _ => Err(format!("{text} is neither yes nor no")),
    }
}
