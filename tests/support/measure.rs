//! Measuring for benches: processor time of this thread, medians, and a day's work to measure.
//!
//! Figures are ratios to a peer measured in the same run; nothing here passes or fails a test.

use std::time::Instant;

use sward_book::Result;
use sward_book::ids::{SheetId, VisitId};
use sward_rules::sky::MeterReading;
use sward_rules::walk_round::{Answered, Question, WalkAnswer};

use crate::crew::{Crew, amount, label, load, sample, yard};

/// Nanoseconds of processor time that this thread has used. Where the system does not tell,
/// nanoseconds since `since`.
pub fn cpu_ns(since: Instant) -> u64 {
    std::fs::read_to_string("/proc/thread-self/schedstat")
        .ok()
        .and_then(|text| text.split(' ').next()?.parse().ok())
        .unwrap_or_else(|| u64::try_from(since.elapsed().as_nanos()).unwrap_or(u64::MAX))
}

/// The middle of several measurements.
///
/// # Panics
/// Without a measurement.
pub fn median(mut values: Vec<u64>) -> u64 {
    values.sort_unstable();
    values[values.len() / 2]
}

/// A ratio with two decimals.
pub fn ratio(value: u64, peer: u64) -> String {
    format!("{:.2}", value as f64 / peer.max(1) as f64)
}

/// One visit of ten actions: look, plan, ready, treat, keep off.
///
/// # Errors
/// As the book's own calls.
pub fn visit_of_ten_actions(
    crew: &mut Crew,
    phone: usize,
    yard: SheetId,
    label_sheet: SheetId,
) -> Result<VisitId> {
    crew.pass_ms(1_000);
    let now_ms = crew.phones[phone].now_ms();
    let book = crew.book(phone);
    let visit = book.open_visit(yard, "chinch bug")?;
    let samples = (0..6).map(|n| sample(20 + n)).collect();
    book.count(visit, "chinch bug", samples, "south edge, along the drive")?;
    book.set_plan(
        visit,
        &[
            ("label", &label_sheet.to_string()),
            ("rate", "2.5 lb/1000 ft2"),
            ("passes", "2"),
        ],
    )?;
    let readings = (0..4)
        .map(|n| MeterReading {
            at_utc_ms: now_ms - n * 15_000,
            wind: amount("5.5 mph"),
            gust: Some(amount("7.5 mph")),
            from_degrees: Some(225),
            height: None,
        })
        .collect();
    book.measure_wind(visit, readings)?;
    let answers = [
        Question::PeopleAndPets,
        Question::Toys,
        Question::Gates,
        Question::Drains,
    ]
    .map(|question| Answered {
        question,
        answer: WalkAnswer::Moved,
        at_utc_ms: now_ms,
    });
    book.walk_round(visit, answers.to_vec())?;
    let inputs = sward_book::action::ReadyInputs::default();
    let (findings, _) = sward_book::action::judge(book, visit, label_sheet, inputs)?;
    let acknowledged = findings.iter().map(|f| f.check).collect();
    book.record_findings(visit, label_sheet, findings, None)?;
    let keep_offs = book.start(
        visit,
        sward_book::action::Start {
            label_sheet,
            rate: amount("2.5 lb/1000 ft2"),
            sections: Vec::new(),
            acknowledged,
            against: Some("measured by the bench".to_owned()),
            equipment: None,
            lot: None,
            gear: None,
        },
    )?;
    load(book, visit, "3.75 lb")?;
    book.finish(visit, &[], "")?;
    book.looked_dry(visit, &keep_offs, now_ms)?;
    Ok(visit)
}

/// A season of `phones` phones with `visits` visits each: eight a day, an hour apart, four to each
/// yard; nobody has swapped yet. The last day's keep-offs still run.
///
/// # Errors
/// As the book's own calls.
pub fn season(phones: usize, visits: usize) -> Result<Crew> {
    const A_DAY: usize = 8;
    const TO_A_YARD: usize = 4;
    const HOUR_MS: u64 = 3_600_000;
    let mut crew = Crew::of(phones)?;
    let label_sheet = label(crew.book(0), "24 h")?;
    crew.swap_all()?;
    let mut yards: Vec<Vec<SheetId>> = vec![Vec::new(); phones];
    for number in 0..visits {
        for (phone, yards) in yards.iter_mut().enumerate() {
            let of = number % visits.div_ceil(TO_A_YARD);
            if of == yards.len() {
                yards.push(yard(crew.book(phone))?);
            }
            visit_of_ten_actions(&mut crew, phone, yards[of], label_sheet)?;
        }
        let hours = if (number + 1) % A_DAY == 0 { 17 } else { 1 };
        crew.pass_ms(hours * HOUR_MS);
    }
    Ok(crew)
}

/// A day of `phones` phones with `visits` visits each, every phone with its own yards; nobody
/// has swapped yet.
///
/// # Errors
/// As the book's own calls.
pub fn day(phones: usize, visits: usize) -> Result<Crew> {
    let mut crew = Crew::of(phones)?;
    let label_sheet = label(crew.book(0), "4 h")?;
    crew.swap_all()?;
    for phone in 0..phones {
        let yards = (0..4)
            .map(|_| yard(crew.book(phone)))
            .collect::<Result<Vec<_>>>()?;
        for visit in 0..visits {
            visit_of_ten_actions(&mut crew, phone, yards[visit % yards.len()], label_sheet)?;
        }
    }
    Ok(crew)
}
