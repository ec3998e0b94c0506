//! The season's visits, told as data and made step by step as a crew would.

use sward_book::Book;
use sward_book::action::{ReadyInputs, Start, judge};
use sward_book::fact::{NotTreatedWhy, ReturnWhat, SkySeen, ToldHow};
use sward_book::ids::{KeepOffId, SheetId, VisitId};
use sward_rules::Entered;
use sward_rules::finding::{Verdict, sum};
use sward_rules::look::{BeforeAfter, Sample, SampleMethod};
use sward_rules::sky::{AirReading, Bloom, BloomLook, InversionLook, MeterReading, Soil, SoilLook};
use sward_rules::walk_round::{Answered, Question, WalkAnswer};

use super::phones::Phones;
use super::places::Places;
use crate::Result;

/// How a visit went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Went {
    /// Too few to treat; look again in so many days from now.
    TooFew(i64),
    /// Treated with the label sheet of this number, and seen dry.
    Treated(usize),
    /// Treated, and whoever looks has still to see it dry.
    NotYetDry(usize),
    /// Begun: counted and planned, not treated.
    Open(usize),
    /// Treated, re-checked later with these counts: treated before, after, untreated before, after.
    ReChecked(usize, [u32; 4]),
}

/// One visit of the story.
pub(super) struct Told {
    /// Which phone.
    who: usize,
    /// Which yard.
    yard: usize,
    /// How many minutes before now it began.
    minutes_ago: i64,
    /// The pest, by the trade's name.
    pest: &'static str,
    /// Counts of its samples.
    counts: &'static [u32],
    /// How it went.
    went: Went,
}

const DAY: i64 = 24 * 60;

/// Ten weeks, the oldest first.
pub(super) const STORY: &[Told] = &[
    told(0, 0, 70 * DAY, "chinch bug", &[4, 6, 3], Went::TooFew(-56)),
    told(
        1,
        1,
        66 * DAY,
        "white grub",
        &[7, 9, 8, 6],
        Went::ReChecked(0, [30, 4, 28, 26]),
    ),
    told(2, 3, 63 * DAY, "sod webworm", &[1, 0, 2], Went::TooFew(-40)),
    told(
        0,
        0,
        56 * DAY,
        "chinch bug",
        &[22, 31, 27],
        Went::ReChecked(1, [80, 9, 75, 71]),
    ),
    told(1, 2, 49 * DAY, "white grub", &[2, 3, 1], Went::TooFew(-21)),
    told(2, 4, 45 * DAY, "fire ant", &[3, 5], Went::Treated(2)),
    told(
        0,
        3,
        38 * DAY,
        "chinch bug",
        &[25, 30, 21],
        Went::Treated(1),
    ),
    told(1, 4, 30 * DAY, "white grub", &[10, 12, 9], Went::Treated(0)),
    told(2, 2, 21 * DAY, "white grub", &[9, 11, 8], Went::Treated(0)),
    told(0, 0, 14 * DAY, "chinch bug", &[5, 8, 6], Went::TooFew(0)),
    told(1, 1, 6 * DAY, "cutworm", &[2, 1, 1], Went::TooFew(1)),
    told(
        2,
        3,
        5 * 60,
        "chinch bug",
        &[28, 24, 33],
        Went::NotYetDry(1),
    ),
    told(
        0,
        1,
        3 * 60,
        "white grub",
        &[11, 8, 12, 9],
        Went::NotYetDry(0),
    ),
    told(0, 0, 35, "white grub", &[8, 10, 7], Went::Open(0)),
];

const fn told(
    who: usize,
    yard: usize,
    minutes_ago: i64,
    pest: &'static str,
    counts: &'static [u32],
    went: Went,
) -> Told {
    Told {
        who,
        yard,
        minutes_ago,
        pest,
        counts,
        went,
    }
}

/// Makes one visit.
pub(super) fn make(phones: &mut Phones, places: &Places, told: &Told) -> Result<()> {
    phones.at_minutes_ago(told.minutes_ago);
    let (yard, _) = places.yards[told.yard];
    let visit = phones.books[told.who].open_visit(yard, told.pest)?;
    phones.pass_min(6);
    count(&mut phones.books[told.who], visit, told)?;
    match told.went {
        Went::TooFew(days) => {
            let day = phones.day_from_now(days);
            let book = &mut phones.books[told.who];
            book.not_treated(
                visit,
                NotTreatedWhy::BelowThreshold,
                "Told the owner why",
                Some(&day),
            )?;
        }
        Went::Open(label) => plan(&mut phones.books[told.who], visit, places, label)?,
        Went::Treated(label) | Went::NotYetDry(label) | Went::ReChecked(label, _) => {
            let keep_offs = treat(phones, places, told, visit, label)?;
            after(phones, told, visit, &keep_offs)?;
        }
    }
    phones.swap()
}

fn count(book: &mut Book, visit: VisitId, told: &Told) -> Result<()> {
    let method = SampleMethod::Area(Entered::parse("1 ft2")?);
    let samples = told
        .counts
        .iter()
        .map(|count| Sample {
            method: method.clone(),
            count: *count,
        })
        .collect();
    Ok(book.count(visit, told.pest, samples, "")?)
}

fn plan(book: &mut Book, visit: VisitId, places: &Places, label: usize) -> Result<()> {
    let sheet = places.labels[label].to_string();
    let lot = places.lots[label].to_string();
    let equipment = places.equipment[usize::from(label == 1)].to_string();
    let mut typed: Vec<(&str, &str)> = vec![
        ("label", &sheet),
        ("stock", &lot),
        ("equipment", &equipment),
    ];
    typed.extend_from_slice(match label {
        0 => &[
            ("rate", "3 lb/1000 ft2"),
            ("holds", "40 lb"),
            ("vessel", "0.25 lb"),
            ("passes", "2"),
            ("swath", "8 ft"),
        ],
        1 => &[
            ("rate", "0.5 fl oz/1000 ft2"),
            ("carrier", "1 gal/1000 ft2"),
            ("holds", "4 gal"),
            ("vessel", "0.25 fl oz"),
            ("passes", "1"),
            ("swath", "4 ft"),
        ],
        _ => &[
            ("rate", "1.5 lb/ac"),
            ("holds", "5 lb"),
            ("vessel", "0.01 lb"),
            ("passes", "1"),
            ("swath", "10 ft"),
        ],
    });
    typed.push(("gear", "As the label says"));
    Ok(book.set_plan(visit, &typed)?)
}

fn treat(
    phones: &mut Phones,
    places: &Places,
    told: &Told,
    visit: VisitId,
    label: usize,
) -> Result<Vec<KeepOffId>> {
    plan(&mut phones.books[told.who], visit, places, label)?;
    phones.pass_min(9);
    look_round(phones, told.who, visit)?;
    let at_ms = phones.clock_ms();
    let book = &mut phones.books[told.who];
    let sheet = places.labels[label];
    let keep_offs = start(book, visit, sheet, label)?;
    let (product, water) = put_on(book, visit, label)?;
    phones.pass_min(25);
    let done_ms = at_ms + 25 * 60_000;
    let book = &mut phones.books[told.who];
    book.load(visit, keep_offs.clone(), product, water, done_ms)?;
    phones.pass_min(4);
    let done: Vec<(KeepOffId, i64)> = keep_offs.iter().map(|k| (*k, done_ms)).collect();
    phones.books[told.who].finish(visit, &done, "")?;
    Ok(keep_offs)
}

/// Product and water at the planned rate, as they were measured out: whole steps of the vessel.
fn put_on(book: &Book, visit: VisitId, label: usize) -> Result<(Entered, Option<Entered>)> {
    let mut area_ft2 = 0.0;
    for keep_off in book.keep_offs_of(visit)? {
        area_ft2 += keep_off.outline.area()?.value.square_feet();
    }
    // The rate on so many square feet, the step, and the unit.
    let (rate, on_ft2, step, unit) = match label {
        0 => (3.0, 1000.0, 0.25, "lb"),
        1 => (0.5, 1000.0, 0.25, "fl oz"),
        _ => (1.5, 43_560.0, 0.01, "lb"),
    };
    let product = (rate * area_ft2 / on_ft2 / step).floor() * step;
    let product = Entered::parse(&format!("{product:.2} {unit}"))?;
    let water = (label == 1)
        .then(|| Entered::parse(&format!("{:.1} gal", area_ft2 / 1000.0)))
        .transpose()?;
    Ok((product, water))
}

/// The sky and the yard as they were found: calm, dry, everything seen to.
fn look_round(phones: &mut Phones, who: usize, visit: VisitId) -> Result<()> {
    let at_utc_ms = phones.clock_ms();
    let book = &mut phones.books[who];
    let mut readings = Vec::new();
    for (n, (wind, gust)) in [("4 mph", "6 mph"), ("5 mph", "7 mph"), ("4.5 mph", "6 mph")]
        .iter()
        .enumerate()
    {
        readings.push(MeterReading {
            at_utc_ms: at_utc_ms - 60_000 * (3 - i64::try_from(n).unwrap_or(0)),
            wind: Entered::parse(wind)?,
            gust: Some(Entered::parse(gust)?),
            from_degrees: Some(225),
            height: None,
        });
    }
    book.measure_wind(visit, readings)?;
    book.see_sky(SkySeen {
        visit,
        air: Some(AirReading {
            at_utc_ms,
            temperature: Entered::parse("68 °F")?,
            humidity_percent: Some(62),
        }),
        inversion: Some(InversionLook {
            at_utc_ms,
            signs: Vec::new(),
        }),
        soil: Some(SoilLook {
            at_utc_ms,
            soil: Soil::Fit,
            temperature: None,
        }),
        bloom: Some(BloomLook {
            at_utc_ms,
            bloom: Bloom::None,
        }),
        wind: None,
    })?;
    let questions = [
        Question::Toys,
        Question::Bowls,
        Question::Laundry,
        Question::Windows,
        Question::PondOrHive,
        Question::Irrigation,
        Question::Gates,
        Question::Puddles,
        Question::HardSurfaces,
        Question::Drains,
        Question::PeopleAndPets,
    ];
    let answers = questions
        .map(|question| Answered {
            question,
            answer: WalkAnswer::Moved,
            at_utc_ms,
        })
        .to_vec();
    Ok(book.walk_round(visit, answers)?)
}

fn start(
    book: &mut Book,
    visit: VisitId,
    label_sheet: SheetId,
    label: usize,
) -> Result<Vec<KeepOffId>> {
    let (findings, _) = judge(book, visit, label_sheet, ReadyInputs::default())?;
    let acknowledged = findings
        .iter()
        .filter(|f| f.verdict == Verdict::Unknown)
        .map(|f| f.check)
        .collect();
    let against = (sum(&findings) == Verdict::DontTreat).then(|| "Practice".to_owned());
    book.record_findings(visit, label_sheet, findings, None)?;
    let (equipment, lot) = match label {
        0 => ("Rotary spreader, red, setting 5.5", "G-0007"),
        1 => ("Backpack sprayer 1, fan nozzle, 30 psi", "SC-0012"),
        _ => ("Hand shaker", "MB-0003"),
    };
    let rate = book.plan(visit)?.and_then(|plan| plan.rate);
    let rate = rate.map_or_else(|| Entered::parse("3 lb/1000 ft2"), Ok)?;
    Ok(book.start(
        visit,
        Start {
            label_sheet,
            rate,
            sections: Vec::new(),
            acknowledged,
            against,
            equipment: Some(equipment.to_owned()),
            lot: Some(lot.to_owned()),
            gear: Some("As the label says".to_owned()),
        },
    )?)
}

/// Whoever looks, tells and comes back.
fn after(phones: &mut Phones, told: &Told, visit: VisitId, keep_offs: &[KeepOffId]) -> Result<()> {
    phones.books[told.who].tell_keep_off(visit, keep_offs, "The owner", ToldHow::InPerson, true)?;
    if matches!(told.went, Went::NotYetDry(_)) {
        let day = phones.day_from_now(21);
        phones.books[told.who].plan_return(visit, &day, ReturnWhat::ReCheck, "")?;
        return Ok(());
    }
    phones.pass_min(5 * 60);
    let looked_ms = phones.clock_ms();
    phones.books[told.who].looked_dry(visit, keep_offs, looked_ms)?;
    if let Went::ReChecked(_, [treated_before, treated_after, check_before, check_after]) =
        told.went
    {
        phones.pass_min(14 * DAY);
        let counts = BeforeAfter {
            treated_before,
            treated_after,
            check_before,
            check_after,
        };
        phones.books[told.who].record_control(visit, counts, "")?;
    }
    Ok(())
}
