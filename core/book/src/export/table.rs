//! Records as CSV (RFC 4180): one row a record, for spreadsheets and offices.

use super::record::{Amount, LateLoad, Look, Record, TreatmentNote, When};
use super::words::{verdict, word};
use super::{
    AftercareNote, EXPORT_FORMAT, HalfWayNote, IncidentNote, IncidentRecord, KeepOffNote, ToldNote,
};

/// The records as CSV by RFC 4180, in UTF-8: lines end in CR LF, cells with a comma, a quote, a CR
/// or an LF are quoted, the first line names the columns. Several values of one cell are joined by
/// "; ".
///
/// A cell that begins with `=`, `+`, `-`, `@` (also in full width), a tab, a CR or an LF gets an
/// apostrophe before it, so that no spreadsheet takes what a person typed for a formula; other
/// control characters than tab, CR and LF become U+FFFD. [`super::to_json`] holds every text as
/// it was entered.
pub fn to_csv(records: &[Record]) -> String {
    let row = |record| COLUMNS.iter().map(move |(_, cell)| cell(record));
    written(
        COLUMNS.iter().map(|(name, _)| *name),
        records.iter().map(row),
    )
}

/// Incidents as CSV, one row a filing, in the form of [`to_csv`].
pub fn incidents_to_csv(incidents: &[IncidentRecord]) -> String {
    const HEAD: [&str; 18] = [
        "format",
        "incident",
        "what",
        "happened_local",
        "happened_utc",
        "yard",
        "address",
        "zone",
        "visit",
        "written_local",
        "written_utc",
        "written_by",
        "licence",
        "of_the_crew",
        "told",
        "done",
        "who_called",
        "yard_sheet",
    ];
    let rows = incidents.iter().flat_map(|record| {
        record.incident.said.iter().map(move |said| {
            [
                EXPORT_FORMAT.to_string(),
                record.incident.incident.to_string(),
                word(&record.incident.what),
                record.incident.happened.local.clone(),
                record.incident.happened.utc.clone(),
                record.yard_name.clone(),
                record.address.clone(),
                record.zone.clone(),
                record.visit.map(|v| v.to_string()).unwrap_or_default(),
                said.at.local.clone(),
                said.at.utc.clone(),
                said.by.name.clone(),
                said.by.licence.clone(),
                if said.by.of_the_crew { "yes" } else { "no" }.to_owned(),
                said.told.clone(),
                said.done.clone(),
                said.who_called.clone(),
                record.yard.map(|y| y.to_string()).unwrap_or_default(),
            ]
        })
    });
    written(HEAD, rows)
}

fn written<'a, R: IntoIterator<Item = String>>(
    head: impl IntoIterator<Item = &'a str>,
    rows: impl Iterator<Item = R>,
) -> String {
    const WRITES: &str = "a vector takes every write";
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    writer.write_record(head).expect(WRITES);
    for row in rows {
        let row = row.into_iter().map(|cell| guarded(&cell));
        writer.write_record(row).expect(WRITES);
    }
    let bytes = writer.into_inner().expect(WRITES);
    String::from_utf8(bytes).expect("only text was written")
}

fn guarded(cell: &str) -> String {
    let is_trap = |c: char| {
        matches!(
            c,
            '=' | '+' | '-' | '@' | '＝' | '＋' | '－' | '＠' | '\t' | '\r' | '\n'
        )
    };
    let mut text = String::with_capacity(cell.len() + 1);
    if cell.starts_with(is_trap) {
        text.push('\'');
    }
    text.extend(cell.chars().map(|c| {
        if c.is_control() && !matches!(c, '\t' | '\r' | '\n') {
            char::REPLACEMENT_CHARACTER
        } else {
            c
        }
    }));
    text
}

type Column = (&'static str, fn(&Record) -> String);

static COLUMNS: [Column; 58] = [
    ("format", |_| EXPORT_FORMAT.to_string()),
    ("outcome", |r| word(&r.outcome)),
    ("marks", |r| joined(&r.marks, ToString::to_string)),
    ("record_id", |r| r.visit.to_string()),
    ("crew", |r| r.crew.clone()),
    ("yard", |r| r.yard_name.clone()),
    ("address", |r| r.address.clone()),
    ("time_zone", |r| r.zone.clone()),
    ("date", |r| {
        r.date.map(|d| d.to_string()).unwrap_or_default()
    }),
    ("started_local", |r| started(r, |w| &w.local)),
    ("finished_local", |r| r.finished.local.clone()),
    ("started_utc", |r| started(r, |w| &w.utc)),
    ("finished_utc", |r| r.finished.utc.clone()),
    ("applicator", |r| {
        r.applicator
            .as_ref()
            .map(|p| p.name.clone())
            .unwrap_or_default()
    }),
    ("licence", |r| {
        r.applicator
            .as_ref()
            .map(|p| p.licence.clone())
            .unwrap_or_default()
    }),
    ("recorded_by", |r| r.recorded_by.name.clone()),
    ("target", |r| r.target.clone()),
    ("product", |r| of(r, |t| t.product.clone())),
    ("registration", |r| of(r, |t| t.registration.clone())),
    ("active_ingredients", |r| {
        of(r, |t| {
            joined(&t.ingredients, |i| {
                format!("{} {}", i.name, i.content.for_person())
            })
        })
    }),
    ("method", |r| of(r, |t| word(&t.method))),
    ("rate", |r| of(r, |t| t.rate.entered.clone())),
    ("rate_metric", |r| {
        of(r, |t| t.rate.metric.clone().unwrap_or_default())
    }),
    ("product_total", product_total),
    ("product_total_metric", |r| {
        total_metric(r, |t| t.product_total.as_ref())
    }),
    ("water_total", |r| total(r, |t| t.water_total.as_ref())),
    ("water_total_metric", |r| {
        total_metric(r, |t| t.water_total.as_ref())
    }),
    ("lot", |r| of(r, |t| t.lot.clone().unwrap_or_default())),
    ("equipment", |r| {
        of(r, |t| t.equipment.clone().unwrap_or_default())
    }),
    ("gear", |r| of(r, |t| t.gear.clone().unwrap_or_default())),
    ("loads", |r| of(r, |t| t.loads.len().to_string())),
    ("sections", |r| {
        of(r, |t| joined(&t.sections, |s| s.name.clone()))
    }),
    ("areas", |r| {
        of(r, |t| {
            joined(&t.sections, |s| format!("{}: {}", s.name, s.area))
        })
    }),
    ("last_applied_local", |r| {
        of(r, |t| {
            joined(&t.sections, |s| {
                format!("{}: {}", s.name, s.last_applied.local)
            })
        })
    }),
    ("keep_off_terms", |r| {
        keep_offs(r, |k| k.terms.join(" and "))
    }),
    ("seen_dry", |r| {
        keep_offs(r, |k| {
            k.dry.as_ref().map_or_else(|| "not yet".to_owned(), look)
        })
    }),
    ("keep_off_lifted", |r| {
        keep_offs(r, |k| {
            k.released.as_ref().map_or_else(|| "no".to_owned(), look)
        })
    }),
    ("counts", |r| {
        joined(&r.counts, |c| {
            let density = c
                .density
                .as_ref()
                .map(|d| format!(", {d}"))
                .unwrap_or_default();
            format!("{}: {} in {} samples{density}", c.pest, c.found, c.samples)
        })
    }),
    ("wind_mean", |r| r.wind.mean.clone().unwrap_or_default()),
    ("wind_gust", |r| r.wind.gust.clone().unwrap_or_default()),
    ("wind_from_degrees", |r| {
        let known: Vec<u16> = r
            .wind
            .readings
            .iter()
            .filter_map(|w| w.from_degrees)
            .collect();
        joined(&known, ToString::to_string)
    }),
    ("wind_readings", |r| {
        let mut all: Vec<String> = r
            .wind
            .readings
            .iter()
            .map(|w| format!("{} at {}", w.speed.entered, w.at.local))
            .collect();
        let seen = r.wind.estimates.iter();
        all.extend(seen.map(|b| format!("seen Beaufort {} at {}", b.force, b.at.local)));
        all.join("; ")
    }),
    ("temperatures", |r| {
        joined(&r.temperatures, |t| t.entered.clone())
    }),
    ("findings", |r| verdict(r.verdict).to_owned()),
    ("acknowledged_unknown", |r| {
        of(r, |t| joined(&t.acknowledged, word))
    }),
    ("started_against", |r| {
        of(r, |t| t.against.clone().unwrap_or_default())
    }),
    ("not_treated_why", |r| {
        r.not_treated
            .as_ref()
            .map(|n| word(&n.why))
            .unwrap_or_default()
    }),
    ("look_again", |r| {
        r.not_treated
            .as_ref()
            .and_then(|n| n.look_again.clone())
            .unwrap_or_default()
    }),
    ("note", |r| r.note.clone()),
    ("half_way", |r| joined(&r.after.half_way, half_way)),
    ("aftercare", |r| joined(&r.after.aftercare, aftercare)),
    ("told", |r| joined(&r.after.told, told)),
    ("incidents", |r| joined(&r.after.incidents, incident)),
    ("return_planned", |r| {
        let planned = r.after.return_planned.as_ref();
        planned
            .map(|p| {
                format!("{}: {} {}", p.day, word(&p.what), p.note)
                    .trim_end()
                    .to_owned()
            })
            .unwrap_or_default()
    }),
    ("late_additions", |r| joined(&r.late, late)),
    ("amendments", |r| {
        joined(&r.amendments, |a| {
            let crew = if a.by.of_the_crew {
                ""
            } else {
                " (device not of the crew)"
            };
            let figures = if a.in_figures {
                ", in these figures"
            } else {
                ""
            };
            format!(
                "{} by {}{crew}, why: {}, old: {}, new: {}{figures}",
                a.at.local,
                a.by.name,
                a.why,
                a.old.join(" and "),
                a.new
            )
        })
    }),
    ("frozen_hash", |r| {
        r.frozen.map(|h| h.to_string()).unwrap_or_default()
    }),
    ("entry_hash", |r| r.entry.to_string()),
];

fn half_way(note: &HalfWayNote) -> String {
    format!(
        "{}: {} filled in, {} left, {} done: {} on the part done, {}",
        note.at.local,
        note.filled.entered,
        note.left.entered,
        note.done.entered,
        note.rate_done.entered,
        verdict(note.verdict)
    )
}

fn aftercare(note: &AftercareNote) -> String {
    let mut parts: Vec<String> = note
        .done
        .iter()
        .map(|d| format!("{}: {}", word(&d.task), word(&d.state)))
        .collect();
    parts.extend((!note.note.is_empty()).then(|| note.note.clone()));
    parts.join(", ")
}

fn told(note: &ToldNote) -> String {
    let dry = if note.told_dry_check {
        ", how to check that it is dry too"
    } else {
        ""
    };
    format!(
        "{} ({}) of {}{dry}, at {} by {}",
        note.who,
        word(&note.how),
        note.sections.join(" and "),
        note.at.local,
        note.by.name
    )
}

fn incident(note: &IncidentNote) -> String {
    let said: Vec<String> = note
        .said
        .iter()
        .map(|s| {
            let mut parts = vec![s.told.clone()];
            parts.extend((!s.done.is_empty()).then(|| format!("done: {}", s.done)));
            parts.extend((!s.who_called.is_empty()).then(|| format!("called: {}", s.who_called)));
            parts.retain(|p| !p.is_empty());
            format!("{} ({})", parts.join(", "), s.by.name)
        })
        .collect();
    format!(
        "{} at {}: {}",
        word(&note.what),
        note.happened.local,
        said.join(" and ")
    )
}

fn joined<T>(all: &[T], text: impl Fn(&T) -> String) -> String {
    all.iter().map(text).collect::<Vec<_>>().join("; ")
}

fn started(record: &Record, part: impl Fn(&When) -> &String) -> String {
    record
        .started
        .as_ref()
        .map(|at| part(at).clone())
        .unwrap_or_default()
}

fn of(record: &Record, text: impl Fn(&TreatmentNote) -> String) -> String {
    record.treatment.as_ref().map(text).unwrap_or_default()
}

fn total(record: &Record, which: impl Fn(&TreatmentNote) -> Option<&Amount>) -> String {
    of(record, |t| {
        which(t).map(|a| a.entered.clone()).unwrap_or_default()
    })
}

/// A total that is not known says so: an empty cell would read as "none".
fn product_total(record: &Record) -> String {
    let loads = record
        .treatment
        .as_ref()
        .is_some_and(|t| !t.loads.is_empty());
    match total(record, |t| t.product_total.as_ref()) {
        none if none.is_empty() && loads => "cannot be added up".to_owned(),
        total => total,
    }
}

fn total_metric(record: &Record, which: impl Fn(&TreatmentNote) -> Option<&Amount>) -> String {
    of(record, |t| {
        which(t).and_then(|a| a.metric.clone()).unwrap_or_default()
    })
}

fn keep_offs(record: &Record, text: impl Fn(&KeepOffNote) -> String) -> String {
    of(record, |t| {
        joined(&t.sections, |s| match &s.keep_off {
            Some(keep_off) => format!("{}: {}", s.name, text(keep_off)),
            None => format!("{}: not known", s.name),
        })
    })
}

fn look(look: &Look) -> String {
    let why = if look.why.is_empty() {
        String::new()
    } else {
        format!(", why: {}", look.why)
    };
    format!("{} by {}{why}", look.at.local, look.by.name)
}

fn late(late: &LateLoad) -> String {
    let counts = match (late.in_other_version, late.counts) {
        (true, _) => "in another version",
        (false, None) => "to settle",
        (false, Some(true)) => "put on beside these figures",
        (false, Some(false)) => "not put on",
    };
    let water = late
        .load
        .water
        .as_ref()
        .map(|w| format!(" in {} of water", w.entered))
        .unwrap_or_default();
    format!(
        "{}{water}, applied {}, by {}: {counts}",
        late.load.product.entered, late.load.applied.local, late.by.name
    )
}
