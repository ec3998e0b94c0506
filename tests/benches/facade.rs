//! What crossing the facade costs: the same calls in Rust, from Python and from Kotlin, on the same
//! library and the same book, and opening a season's book from each.
//!
//! Run by `bindings/ffi/bench`, which builds the library and the Kotlin; alone it measures Rust.
//! Prints a line for each call, with ratios to Rust in the same run.

#![allow(clippy::print_stdout, reason = "a bench prints its figures")]

use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;
use std::sync::Arc;
use std::time::Instant;

use sward_ffi::{DeviceTold, PersonTold, PracticeClock, Start, Swardbook, Typed, Verdict};

/// As many visits as a crew makes in a season: 100 days of eight stops.
const VISITS: usize = 800;
/// Each call is made so often, and the middle time counts.
const TIMES: usize = 301;
/// The label's most.
const RATE: &str = "2.5 lb/1000 ft2";
const NOON_UTC_MS: i64 = 1_781_524_800_000;

fn main() {
    let folder = tempfile::tempdir().expect("a folder for the book");
    let told = DeviceTold {
        folder: folder.path().join("book").display().to_string(),
        zone: "America/New_York".to_owned(),
        boot_count: Some(1),
        languages: "en".to_owned(),
    };
    let clock = PracticeClock::new(NOON_UTC_MS, -240);
    season(&told, &clock);
    let mut rows = vec![("Rust", measured(&told, &clock))];
    for (language, program) in [
        ("Python", "SWARD_BENCH_PYTHON"),
        ("Kotlin", "SWARD_BENCH_KOTLIN"),
    ] {
        match std::env::var(program) {
            Ok(command) => rows.push((language, elsewhere(&command, &told.folder))),
            Err(_) => println!("{language}: not measured, {program} names no program"),
        }
    }
    print_all(&rows);
}

/// A season on one phone; the last day's keep-offs run.
fn season(told: &DeviceTold, clock: &Arc<PracticeClock>) {
    let book = Swardbook::practise(told.clone(), Arc::clone(clock)).expect("a book opens");
    let person = PersonTold {
        name: "Núria Sample".to_owned(),
        licence: String::new(),
    };
    book.found_crew("Bench crew".to_owned(), person, true)
        .expect("a crew is founded");
    let typed = |pairs: &[(&str, &str)]| -> Vec<Typed> {
        let typed = pairs.iter().map(|(field, text)| Typed {
            field: (*field).to_owned(),
            text: (*text).to_owned(),
        });
        typed.collect()
    };
    let numbers = [
        ("rate_most", RATE),
        ("keep_off_until_dry", "no"),
        ("keep_off_wait", "4 h"),
    ];
    let mut fields = vec![("product", "Granule Nought"), ("method", "granule")];
    fields.extend(numbers);
    let label = book.add_label(typed(&fields)).expect("a label sheet");
    book.read_back(label.clone(), typed(&numbers), None)
        .expect("it is read back");
    let yards: Vec<String> = (0..VISITS / 4)
        .map(|n| {
            let yard = book
                .add_yard(format!("Lot {n}"), String::new(), "UTC".to_owned())
                .expect("a yard");
            let (length, width) = ("60 ft".to_owned(), "25 ft".to_owned());
            book.add_rectangle(yard.clone(), "front".to_owned(), length, width)
                .expect("a section");
            yard
        })
        .collect();
    for n in 0..VISITS {
        treat(&book, clock, &yards[n % yards.len()], &label);
        clock.let_pass(3 * 3_600_000);
    }
    book.shut();
}

fn treat(book: &Swardbook, clock: &PracticeClock, yard: &str, label: &str) {
    let visit = book
        .open_visit(yard.to_owned(), "chinch bug".to_owned())
        .expect("a visit");
    let ready = book
        .check_ready(visit.clone(), label.to_owned(), RATE.to_owned())
        .expect("findings");
    let unknown = ready
        .findings
        .iter()
        .filter(|f| f.verdict == Verdict::Unknown);
    let start = Start {
        label: label.to_owned(),
        rate: RATE.to_owned(),
        sections: Vec::new(),
        acknowledged: unknown.map(|f| f.check.clone()).collect(),
        against: Some("for the bench".to_owned()),
        equipment: None,
        lot: None,
        gear: None,
    };
    book.start_treating(visit.clone(), start).expect("a start");
    book.record_load(
        visit.clone(),
        Vec::new(),
        "3 lb".to_owned(),
        None,
        clock.utc_ms(),
    )
    .expect("a load");
    book.finish_treating(visit, String::new())
        .expect("a finish");
}

/// The middle time of each call, in microseconds.
fn measured(told: &DeviceTold, clock: &Arc<PracticeClock>) -> BTreeMap<String, f64> {
    let mut times = BTreeMap::new();
    let mut opening = Vec::new();
    for _ in 0..11 {
        let began = Instant::now();
        let book = Swardbook::practise(told.clone(), Arc::clone(clock)).expect("it opens");
        opening.push(began.elapsed().as_secs_f64() * 1e6);
        book.shut();
    }
    times.insert("open".to_owned(), middle(opening));
    let book = Swardbook::practise(told.clone(), Arc::clone(clock)).expect("it opens");
    let mut time = |name: &str, call: &dyn Fn() -> usize| {
        let took = (0..TIMES).map(|_| {
            let began = Instant::now();
            std::hint::black_box(call());
            began.elapsed().as_secs_f64() * 1e6
        });
        times.insert(name.to_owned(), middle(took.collect()));
    };
    time("version", &|| {
        usize::from(book.version().expect("a number") > 0)
    });
    time("keep_offs_to_watch", &|| {
        let watch = book.keep_offs_to_watch();
        watch.expect("keep-offs").keep_offs.len()
    });
    time("yards", &|| book.yards().expect("yards").len());
    book.shut();
    times
}

fn middle(mut times: Vec<f64>) -> f64 {
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

/// Runs the program of another language on the book; it prints "name microseconds" a line.
fn elsewhere(command: &str, folder: &str) -> BTreeMap<String, f64> {
    let mut words = command.split_whitespace();
    let program = words.next().expect("a program is named");
    let run = Command::new(Path::new(program))
        .args(words)
        .arg(folder)
        .arg(TIMES.to_string())
        .output()
        .expect("it can be run");
    assert!(
        run.status.success(),
        "{}",
        String::from_utf8_lossy(&run.stderr)
    );
    let printed = String::from_utf8_lossy(&run.stdout);
    let line = |line: &str| {
        let (name, time) = line.split_once(' ')?;
        Some((name.to_owned(), time.parse().ok()?))
    };
    printed.lines().filter_map(line).collect()
}

fn print_all(rows: &[(&str, BTreeMap<String, f64>)]) {
    let (_, rust) = &rows[0];
    println!("{VISITS} visits; middle times in microseconds, and how often Rust's");
    for (name, base) in rust {
        print!("{name:20} Rust {base:10.1}");
        for (language, times) in &rows[1..] {
            match times.get(name) {
                Some(time) => print!("   {language} {time:10.1} = {:6.2} x", time / base),
                None => print!("   {language} not measured"),
            }
        }
        println!();
    }
}
