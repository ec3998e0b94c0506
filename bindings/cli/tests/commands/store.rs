//! The book on disk: locks, backups, damage, newer formats, disks that are full or read-only,
//! pretended clocks, and output that nobody reads.

use std::ffi::OsStr;
use std::io::Read as _;
use std::process::{Command, Stdio};
use std::sync::Arc;

use sward_book::env::{Clock, TimeProof};
use sward_book::{Book, Env};

use crate::support::{Phone, finished, yard_and_visit};

/// A clock for opening a book inside a test. It draws no randomness that any key is made from.
pub(crate) struct StillClock;

impl Env for StillClock {
    fn clock(&self) -> Clock {
        Clock {
            utc_ms: 1_781_611_200_000,
            offset_min: -240,
            boot: 1,
            since_boot_ms: 1,
            vouched: Some(TimeProof::Person),
        }
    }
    fn random(&self, bytes: &mut [u8]) {
        bytes.fill(7);
    }
}

#[test]
fn a_second_program_cannot_write_but_can_read() {
    let phone = Phone::founder("Ann");
    yard_and_visit(&phone);
    let held = Book::open(&phone.book(), Arc::new(StillClock) as Arc<dyn Env>).unwrap();
    let told = phone.is_refused(["yard", "add", "Oak"], 4);
    assert!(
        told.contains("another program has this book open"),
        "{told}"
    );
    assert_eq!(
        phone.does(["yard", "list"])["yards"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
    drop(held);
    phone.does(["yard", "add", "Oak"]);
}

#[test]
fn a_book_is_backed_up_restored_rebuilt_and_proven_whole() {
    let phone = Phone::founder("Ann");
    finished(&phone);
    let backup = phone.file("backup");
    phone.does([OsStr::new("backup"), backup.as_ref()]);
    let again = phone.is_refused([OsStr::new("backup"), backup.as_ref()], 1);
    assert!(again.contains("never overwrites"), "{again}");
    let anew = Phone::new();
    anew.by_the_real_clock();
    let request = anew.file("request");
    let step = [
        OsStr::new("restore"),
        backup.as_ref(),
        "--name".as_ref(),
        "Ann".as_ref(),
        "--request".as_ref(),
        request.as_ref(),
    ];
    let restored = anew.does(step);
    assert_eq!(
        restored["entries"].as_u64(),
        phone.state().map(|(entries, _)| entries + 1)
    );
    assert!(request.exists());
    let csv = |phone: &Phone| phone.tries(["records", "export", "-", "--as", "csv"]).out;
    assert_eq!(csv(&anew), csv(&phone));
    assert!(anew.is_refused(step, 1).contains("holds a book already"));
    let before = anew.state();
    anew.does(["rebuild"]);
    assert_eq!(anew.state(), before);
    anew.does(["confirm-time"]);
    assert_eq!(anew.does(["crew"])["time"], "person");
}

#[test]
fn a_cut_backup_is_not_restored() {
    let phone = Phone::founder("Ann");
    finished(&phone);
    let backup = phone.file("backup");
    phone.does([OsStr::new("backup"), backup.as_ref()]);
    let bytes = std::fs::read(&backup).unwrap();
    let anew = Phone::new();
    anew.by_the_real_clock();
    let cut = anew.write("cut", &bytes[..bytes.len() / 2]);
    let told = anew.is_refused(
        [
            OsStr::new("restore"),
            cut.as_ref(),
            "--name".as_ref(),
            "Ann".as_ref(),
        ],
        6,
    );
    assert!(told.contains("damaged"), "{told}");
    assert!(!anew.book().join("book.sqlite").exists());
}

#[test]
fn damage_on_disk_is_told_and_nothing_is_made_over_it() {
    let phone = Phone::founder("Ann");
    finished(&phone);
    let store = phone.book().join("book.sqlite");
    let whole = std::fs::read(&store).unwrap();
    let mut damaged = whole.clone();
    let half = damaged.len() / 2;
    damaged[half..half + 4096].fill(0xaa);
    std::fs::write(&store, &damaged).unwrap();
    let told = phone.tries(["verify"]);
    assert_eq!(told.code, Some(6), "{}{}", told.out, told.err);
    assert!(told.err.contains("do not delete it"), "{}", told.err);
    std::fs::write(
        &store,
        b"not a database at all, but long enough to be read as one",
    )
    .unwrap();
    let told = phone.tries(["yard", "add", "Oak"]);
    assert_eq!(told.code, Some(6), "{}{}", told.out, told.err);
    std::fs::write(&store, whole).unwrap();
    assert!(phone.state().is_some());
}

#[test]
fn a_newer_format_is_refused() {
    let phone = Phone::founder("Ann");
    let store = phone.book().join("book.sqlite");
    let mut bytes = std::fs::read(&store).unwrap();
    // The user version stands at byte 60 (SQLite's file format, section 1.3).
    bytes[60..64].copy_from_slice(&99_u32.to_be_bytes());
    std::fs::write(&store, &bytes).unwrap();
    let told = phone.tries(["yard", "add", "Oak"]);
    assert_eq!(told.code, Some(5), "{}", told.err);
    assert!(told.err.contains("update this program"), "{}", told.err);
    assert_eq!(std::fs::read(&store).unwrap(), bytes);
}

#[test]
fn a_full_disk_loses_nothing() {
    let phone = Phone::founder("Ann");
    yard_and_visit(&phone);
    let before = phone.state();
    // Files may not grow at all, which for a store is what a full disk is.
    let program = phone.command(["yard", "add", "Oak"]);
    let told = Command::new("sh")
        .args(["-c", "trap '' XFSZ; ulimit -f 1; exec \"$@\"", "sh"])
        .arg(program.get_program())
        .args(program.get_args())
        .stdin(Stdio::null())
        .output()
        .unwrap();
    let err = String::from_utf8(told.stderr).unwrap();
    assert_eq!(told.status.code(), Some(7), "{err}");
    assert!(
        err.contains("make room") && err.contains("was not stored"),
        "{err}"
    );
    assert_eq!(phone.state(), before);
    phone.does(["yard", "add", "Oak"]);
}

#[test]
fn a_folder_that_cannot_be_written_is_told() {
    let phone = Phone::founder("Ann");
    // A lock that is a folder and a folder below a file: refused for every user, root too.
    let lock = phone.book().join("writer.lock");
    std::fs::remove_file(&lock).unwrap();
    std::fs::create_dir(&lock).unwrap();
    let told = phone.is_refused(["yard", "add", "Oak"], 7);
    assert!(told.contains("writer.lock cannot be written"), "{told}");
    let file = phone.write("file", "");
    let nowhere = file.join("backup");
    let told = phone.is_refused([OsStr::new("backup"), nowhere.as_ref()], 7);
    assert!(told.contains("could not be written"), "{told}");
    let other = Phone::new();
    other.write("book", "");
    let found = ["found", "--crew", "C", "--name", "N", "--practice"];
    let told = other.is_refused(found, 7);
    assert!(told.contains("check its permissions"), "{told}");
}

#[test]
fn there_is_no_book_until_one_is_founded() {
    let phone = Phone::new();
    for step in [vec!["yard", "list"], vec!["yard", "add", "Oak"]] {
        let told = phone.tries(&step);
        assert_eq!(told.code, Some(1));
        assert!(
            told.err.contains("found one, or ask to join"),
            "{}",
            told.err
        );
    }
    assert!(!phone.book().exists(), "looking makes nothing");
}

#[test]
fn a_pretended_clock_is_for_practice_only() {
    let phone = Phone::new();
    let found = ["found", "--crew", "Real", "--name", "Ann"];
    assert!(phone.is_refused(found, 1).contains("practice books only"));
    phone.by_the_real_clock().does(found);
    phone.at("08:00");
    for step in [vec!["yard", "list"], vec!["yard", "add", "Oak"]] {
        let told = phone.tries(&step);
        assert_eq!(told.code, Some(1));
        assert!(told.err.contains("practice books only"), "{}", told.err);
    }
    phone.by_the_real_clock();
    assert_eq!(
        phone.does(["yard", "list"])["yards"]
            .as_array()
            .unwrap()
            .len(),
        0
    );
    let help = phone.tries(["--help"]);
    assert!(!help.out.contains("practice-clock"), "{}", help.out);
}

#[test]
fn output_that_nobody_reads_is_no_failure() {
    let phone = Phone::new();
    let mut started = phone
        .command(["completions", "zsh"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut first = [0; 8];
    // Longer than any pipe holds, so that the program is still writing when nobody reads.
    started
        .stdout
        .take()
        .unwrap()
        .read_exact(&mut first)
        .unwrap();
    let ended = started.wait_with_output().unwrap();
    assert_eq!(ended.status.code(), Some(0));
    assert_eq!(String::from_utf8_lossy(&ended.stderr), "");
}

#[test]
fn completions_know_every_shell() {
    let phone = Phone::new();
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let told = phone.tries(["completions", shell]);
        assert_eq!(told.code, Some(0));
        assert!(told.out.contains("keep-offs"), "{shell}");
    }
}
