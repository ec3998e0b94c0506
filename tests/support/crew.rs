//! A crew of phones in one process: real books on disk, seeded clocks, swaps without a network.
//!
//! What a scenario needs again and again: a yard, a label sheet, a started treatment.

use std::path::Path;
use std::sync::Arc;

use sward_book::action::Start;
use sward_book::env::Env;
use sward_book::fact::{ReadBackHow, Role};
use sward_book::ids::{KeepOffId, SheetId, VisitId};
use sward_book::testing::{self, TestEnv};
use sward_book::{Book, Result};
use sward_rules::Entered;
use sward_rules::finding::{Check, Finding, Reason, Verdict};
use sward_rules::look::{Sample, SampleMethod};
use sward_rules::measure::{Outline, Shape};
use tempfile::TempDir;

/// One phone: its book, its clock, its folder.
pub struct Phone {
    /// The book.
    pub book: Book,
    /// Clock and randomness.
    pub env: Arc<TestEnv>,
    folder: TempDir,
}

impl Phone {
    /// The folder of its book.
    pub fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// Now by its clock.
    pub fn now_ms(&self) -> i64 {
        self.env.clock().utc_ms
    }

    /// Closes the book and opens it again, as a restart of the program does.
    ///
    /// # Errors
    /// As [`Book::open`].
    pub fn restart(self) -> Result<Self> {
        let Self { book, env, folder } = self;
        drop(book);
        let book = Book::open(folder.path(), Arc::clone(&env) as Arc<dyn Env>)?;
        Ok(Self { book, env, folder })
    }
}

/// A crew whose first phone is the crew lead's.
pub struct Crew {
    /// The phones.
    pub phones: Vec<Phone>,
}

impl Crew {
    /// Founds a crew of `size` phones, all admitted and in step.
    ///
    /// # Errors
    /// As the book's own calls.
    pub fn of(size: usize) -> Result<Self> {
        let folder = temporary_folder();
        let env = TestEnv::new(1);
        let book = testing::found(folder.path(), &env, "lead")?;
        let mut crew = Self {
            phones: vec![Phone { book, env, folder }],
        };
        for number in 1..size {
            crew.join(&format!("phone{number}"), Role::Applicator)?;
        }
        crew.swap_all()?;
        Ok(crew)
    }

    /// Another phone joins; the crew lead admits it and both swap.
    ///
    /// # Errors
    /// As the book's own calls.
    pub fn join(&mut self, name: &str, role: Role) -> Result<()> {
        let mut phone = Self::asking(name, 1 + self.phones.len() as u64)?;
        let asked = phone.book.own_request()?;
        self.phones[0].book.admit(&asked, role)?;
        testing::give(&self.phones[0].book, &mut phone.book)?;
        testing::give(&phone.book, &mut self.phones[0].book)?;
        self.phones.push(phone);
        Ok(())
    }

    /// A phone that has asked to join and nothing more.
    ///
    /// # Errors
    /// As the book's own calls.
    pub fn asking(name: &str, seed: u64) -> Result<Phone> {
        let folder = temporary_folder();
        let env = TestEnv::new(seed);
        let (book, _) = testing::ask(folder.path(), &env, name)?;
        Ok(Phone { book, env, folder })
    }

    /// One phone's book.
    pub fn book(&mut self, phone: usize) -> &mut Book {
        &mut self.phones[phone].book
    }

    /// Everybody's clock goes on.
    pub fn pass_ms(&self, ms: u64) {
        for phone in &self.phones {
            phone.env.pass_ms(ms);
        }
    }

    /// One phone gives another all it has.
    ///
    /// # Errors
    /// As [`Book::take_in`].
    pub fn give(&mut self, from: usize, to: usize) -> Result<()> {
        let mut wires = Vec::new();
        for head in self.phones[from].book.heads()? {
            wires.extend(
                self.phones[from]
                    .book
                    .wires_up_to(head.hash, None, usize::MAX)?,
            );
        }
        let source = self.phones[from].book.secret()?.stream();
        let taken = self.phones[to].book.take_in(&wires, Some(source))?;
        assert!(taken.refused.is_empty(), "{:?}", taken.refused);
        Ok(())
    }

    /// Everybody swaps with everybody until all are in step.
    ///
    /// # Errors
    /// As [`Book::take_in`].
    pub fn swap_all(&mut self) -> Result<()> {
        for _ in 0..2 {
            for from in 0..self.phones.len() {
                for to in (0..self.phones.len()).filter(|to| *to != from) {
                    self.give(from, to)?;
                }
            }
        }
        Ok(())
    }

    /// Everybody's entries in their stored form.
    ///
    /// # Errors
    /// As the book's own calls.
    pub fn all_wires(&mut self) -> Result<Vec<Vec<u8>>> {
        self.swap_all()?;
        let mut wires = Vec::new();
        for head in self.phones[0].book.heads()? {
            wires.extend(
                self.phones[0]
                    .book
                    .wires_up_to(head.hash, None, usize::MAX)?,
            );
        }
        Ok(wires)
    }
}

fn temporary_folder() -> TempDir {
    tempfile::tempdir().expect("the system has room for temporary files")
}

/// A number with its unit, as a person types it.
///
/// # Panics
/// When it is none: a slip in the test.
pub fn amount(typed: &str) -> Entered {
    Entered::parse(typed).expect("a number with its unit")
}

/// A lawn of 60 by 25 ft.
pub fn lawn() -> Outline {
    let (length, width) = (amount("60 ft"), amount("25 ft"));
    Outline {
        shape: Shape::Rectangle { length, width },
        left_out: Vec::new(),
    }
}

/// A yard with one measured section.
///
/// # Errors
/// As the book's own calls.
pub fn yard(book: &mut Book) -> Result<SheetId> {
    let yard = book.add_yard("Corner lot", "1 Test Lane", "America/New_York")?;
    book.add_section(yard, "front", &lawn())?;
    Ok(yard)
}

/// A read-back label sheet of a granule: wait as given ("nothing" for none), then dry.
///
/// # Errors
/// As the book's own calls.
pub fn label(book: &mut Book, wait: &str) -> Result<SheetId> {
    let fields = [
        ("rate_most", "2.5 lb/1000 ft2"),
        ("wind_most", "10 mph"),
        ("keep_off_until_dry", "yes"),
        ("keep_off_wait", wait),
    ];
    let mut typed = vec![
        ("product", "Test granule"),
        ("registration", "00000-000-TEST"),
        ("method", "granule"),
    ];
    typed.extend(fields);
    let label = book.add_label(&typed)?;
    book.read_back(label, &fields, ReadBackHow::TypedTwice, "")?;
    Ok(label)
}

/// A visit to the yard, judged with one thing not known.
///
/// # Errors
/// As the book's own calls.
pub fn judged_visit(book: &mut Book, yard: SheetId, label_sheet: SheetId) -> Result<VisitId> {
    let visit = book.open_visit(yard, "chinch bug")?;
    let wind = Finding::new(Check::Wind, Verdict::Clear, Reason::WindUnderLabel);
    let rain = Finding::unknown(Check::Rain, Reason::NoForecast);
    book.record_findings(visit, label_sheet, vec![wind, rain], None)?;
    Ok(visit)
}

/// Starts treating the yard's section.
///
/// # Errors
/// As the book's own calls.
pub fn start(book: &mut Book, visit: VisitId, label_sheet: SheetId) -> Result<KeepOffId> {
    let keep_offs = book.start(
        visit,
        Start {
            label_sheet,
            rate: amount("2.5 lb/1000 ft2"),
            sections: Vec::new(),
            acknowledged: vec![Check::Rain],
            against: None,
            equipment: None,
            lot: None,
            gear: None,
        },
    )?;
    Ok(keep_offs[0])
}

/// Puts a load on now.
///
/// # Errors
/// As the book's own calls.
pub fn load(book: &mut Book, visit: VisitId, product: &str) -> Result<()> {
    let now_ms = book.env().clock().utc_ms;
    book.load(visit, Vec::new(), amount(product), None, now_ms)
}

/// One sample of a square foot.
pub fn sample(count: u32) -> Sample {
    Sample {
        method: SampleMethod::SodSquare(amount("1 ft")),
        count,
    }
}
