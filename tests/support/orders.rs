//! Every order of arrival is one of these: entries shuffled, cut into batches, some given twice.
//!
//! The seed is printed when a check fails; set `SWARD_TEST_SEED` to run the same orders again,
//! and `PROPTEST_CASES` for more of them.

use std::sync::Arc;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use sward_book::env::Env;
use sward_book::{Book, Result};

use crate::crew::{Crew, Phone};

/// One order: positions in the list of entries, and where batches end.
#[derive(Debug, Clone)]
struct Order {
    positions: Vec<usize>,
    batch_sizes: Vec<usize>,
}

fn orders(len: usize) -> impl Strategy<Value = Order> {
    let again = proptest::collection::vec(0..len, 0..4);
    let all = again
        .prop_flat_map(move |again| Just((0..len).chain(again).collect::<Vec<_>>()).prop_shuffle());
    (all, proptest::collection::vec(1..9_usize, 1..12)).prop_map(|(positions, batch_sizes)| Order {
        positions,
        batch_sizes,
    })
}

fn seed() -> u64 {
    if let Ok(text) = std::env::var("SWARD_TEST_SEED") {
        return text.parse().expect("SWARD_TEST_SEED is a whole number");
    }
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    u64::try_from(now.expect("the clock is after 1970").as_nanos() % u128::from(u64::MAX))
        .expect("just reduced")
}

/// Gives everything that the crew has written to a phone that saw none of it, in random orders,
/// and checks each time that it ends where the crew's own phones are, that a rebuild from the log
/// agrees, and what `check` says.
///
/// The crew's last phone must be the `observer` that [`with_observer`] added.
///
/// # Panics
/// When a check fails, with the seed.
pub fn for_every_order(crew: &mut Crew, observer: &Observer, check: impl Fn(&Book)) {
    let wires = crew.all_wires().expect("the crew can swap");
    let expected = crew.phones[0]
        .book
        .compared()
        .expect("the lead's book can be read");
    for phone in &crew.phones {
        let own = phone.book.compared().expect("a book can be read");
        assert!(own == expected, "two phones with the same entries differ");
        check(&phone.book);
    }
    let seed = seed();
    let mut bytes = [0; 32];
    bytes[..8].copy_from_slice(&seed.to_le_bytes());
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &bytes);
    let cases = std::env::var("PROPTEST_CASES")
        .ok()
        .and_then(|c| c.parse().ok())
        .unwrap_or(24);
    let config = Config {
        cases,
        failure_persistence: None,
        ..Config::default()
    };
    let outcome = TestRunner::new_with_rng(config, rng).run(&orders(wires.len()), |order| {
        let book = observer
            .deliver(&wires, &order)
            .expect("a good entry is taken in");
        let arrived = book.compared().expect("the observer's book can be read");
        prop_assert!(arrived == expected, "this order ends elsewhere");
        let verified = book.verify(&mut |_, _| {}).expect("a book can be verified");
        prop_assert_eq!(verified.faults, Vec::<String>::new());
        check(&book);
        Ok(())
    });
    if let Err(failure) = outcome {
        panic!("{failure}\nto run the same orders again: SWARD_TEST_SEED={seed}");
    }
}

/// A phone that joined before anything happened, kept as it was then.
pub struct Observer {
    start: Phone,
    crew: sward_book::ids::Hash,
    founding: Vec<Vec<u8>>,
}

/// Adds an observer to a crew, before the scenario begins.
///
/// # Errors
/// As the book's own calls.
pub fn with_observer(crew: &mut Crew) -> Result<Observer> {
    let start = Crew::asking("observer", 77)?;
    crew.phones[0]
        .book
        .admit(&start.book.own_request()?, sward_book::fact::Role::Office)?;
    let own = start.book.own_request_entry()?.wire().to_vec();
    let source = start.book.secret()?.stream();
    crew.phones[0].book.take_in(&[own], Some(source))?;
    let crew_hash = crew.phones[0].book.crew().expect("it founded the crew");
    let lead = crew.phones[0].book.secret()?.stream();
    let mut founding = Vec::new();
    for head in crew.phones[0]
        .book
        .heads()?
        .iter()
        .filter(|h| h.stream == lead)
    {
        founding.extend(
            crew.phones[0]
                .book
                .wires_up_to(head.hash, None, usize::MAX)?,
        );
    }
    crew.swap_all()?;
    Ok(Observer {
        start,
        crew: crew_hash,
        founding,
    })
}

impl Observer {
    fn deliver(&self, wires: &[Vec<u8>], order: &Order) -> Result<Book> {
        let folder = tempfile::tempdir()
            .expect("room for temporary files")
            .keep();
        let backup = folder.join("start");
        self.start.book.back_up(&backup)?;
        let book_folder = folder.join("book");
        std::fs::create_dir(&book_folder).expect("the folder is ours");
        std::fs::rename(&backup, book_folder.join("book.sqlite")).expect("the folder is ours");
        std::fs::copy(
            self.start.folder().join("device.key"),
            book_folder.join("device.key"),
        )
        .expect("the folder is ours");
        let env = Arc::clone(&self.start.env) as Arc<dyn Env>;
        let mut book = Book::open(&book_folder, env)?;
        book.join_crew(self.crew, &self.founding, None)?;
        let mut rest = order.positions.as_slice();
        let mut sizes = order.batch_sizes.iter().cycle();
        while !rest.is_empty() {
            let size = sizes.next().map_or(1, |s| (*s).min(rest.len()));
            let (batch, later) = rest.split_at(size);
            let batch: Vec<Vec<u8>> = batch.iter().map(|i| wires[*i].clone()).collect();
            let taken = book.take_in(&batch, None)?;
            assert!(taken.refused.is_empty(), "{:?}", taken.refused);
            rest = later;
        }
        // The files stay open; the folder goes with the last handle.
        let _ = std::fs::remove_dir_all(&folder);
        Ok(book)
    }
}
