//! The book as a whole: prove it, rebuild it, back it up, restore it; the clock; completions.

use indicatif::{ProgressBar, ProgressStyle};
use serde::Serialize;
use serde_json::json;
use sha2::{Digest as _, Sha256};
use sward_book::Book;
use sward_book::book::Joining;
use sward_book::env::TimeProof;
use sward_book::fact::Person;
use sward_book::ids::Hash;
use sward_crew::join::make_request;
use sward_crew::keys::{device_keys, new_device_secret};

use crate::app::App;
use crate::args::{BackupArgs, CompletionsArgs, RestoreArgs};
use crate::error::{CliError, Result};
use crate::print::{Answer, Page, write_out};
use crate::prompt;
use crate::times::moment;
use crate::words::{key_of, proof};

use super::who;

/// A progress bar on standard error; indicatif shows it only on a terminal.
pub(super) fn bar(length: u64, what: &'static str) -> ProgressBar {
    let style = ProgressStyle::with_template("{msg} {wide_bar} {percent} %")
        .unwrap_or_else(|_| ProgressStyle::default_bar());
    ProgressBar::new(length)
        .with_style(style)
        .with_message(what)
}

/// Runs `sward verify`.
pub(super) fn verify(app: &App) -> Result<Answer> {
    let book = app.reading()?;
    let bar = bar(0, "checking");
    let found = book.verify(&mut |done, total| {
        bar.set_length(total);
        bar.set_position(done);
    })?;
    bar.finish_and_clear();
    let mut page = Page::of(format!(
        "{}, {}, {} checked.",
        counted_u64(found.entries, "entry", "entries"),
        counted_u64(found.sheets, "sheet", "sheets"),
        counted_u64(found.views, "view row", "view rows"),
    ));
    for fault in &found.faults {
        page.item(format!("fault: {fault}"));
    }
    for (stream, count) in &found.waiting {
        page.item(format!(
            "{count} entries of {} wait for earlier ones",
            who(&book, *stream)
        ));
    }
    for stream in &found.forked {
        page.item(format!(
            "{} has two branches: the device was copied or restored",
            who(&book, *stream)
        ));
    }
    let whole = found.faults.is_empty();
    page.line(if whole {
        "The book is whole."
    } else {
        "The book is not whole."
    });
    let equal = equal_elsewhere(&book)?;
    page.line(format!(
        "Equal on every phone with the same entries: entries {}, views {}, sheets {}.",
        equal.entries.short(),
        equal.views.short(),
        equal.sheets.short()
    ));
    let json = json!({ "whole": whole, "verified": found, "equal_elsewhere": equal });
    let mut answer = Answer::new(page, json);
    if !whole {
        answer.but = Some(CliError::NotWhole(
            "the book is not whole: do not delete it; try sward rebuild, else restore a backup into a new folder and swap records with the crew".into(),
        ));
    }
    Ok(answer)
}

/// One hash over each part of a book that two phones with the same entries must share.
#[derive(Serialize)]
struct EqualElsewhere {
    entries: Hash,
    views: Hash,
    sheets: Hash,
}

fn equal_elsewhere(book: &Book) -> Result<EqualElsewhere> {
    let compared = book.compared()?;
    let (mut views, mut sheets) = (Sha256::new(), Sha256::new());
    let part = |hash: &mut Sha256, bytes: &[u8]| {
        hash.update((bytes.len() as u64).to_be_bytes());
        hash.update(bytes);
    };
    for (kind, subject, body) in &compared.views {
        views.update(kind.to_be_bytes());
        part(&mut views, subject);
        part(&mut views, body);
    }
    for (sheet, kind, heads) in &compared.sheets {
        sheets.update(sheet.0.as_bytes());
        part(&mut sheets, key_of(kind).as_bytes());
        part(&mut sheets, heads);
    }
    Ok(EqualElsewhere {
        entries: compared.digest,
        views: Hash(views.finalize().into()),
        sheets: Hash(sheets.finalize().into()),
    })
}

fn counted_u64(count: u64, one: &str, many: &str) -> String {
    if count == 1 {
        format!("1 {one}")
    } else {
        format!("{count} {many}")
    }
}

/// Runs `sward rebuild`.
pub(super) fn rebuild(app: &App) -> Result<Answer> {
    let mut book = app.writing()?;
    book.rebuild()?;
    let entries = book.entry_count()?;
    let page = Page::of(format!(
        "All sheets and views are made anew from {entries} entries."
    ));
    Ok(Answer::new(page, json!({ "entries": entries })))
}

/// Runs `sward backup`.
pub(super) fn backup(app: &App, args: &BackupArgs) -> Result<Answer> {
    let book = app.reading()?;
    book.back_up(&args.file)?;
    let entries = book.entry_count()?;
    let mut page = Page::of(format!(
        "{} entries backed up in {}.",
        entries,
        args.file.display()
    ));
    page.line("This device's keys are not in it: whoever restores it is a new device and asks to be admitted.");
    Ok(Answer::new(
        page,
        json!({ "file": args.file, "entries": entries }),
    ))
}

/// Runs `sward restore`.
pub(super) fn restore(app: &App, args: &RestoreArgs) -> Result<Answer> {
    app.may_pretend(false)?;
    let secret = new_device_secret(&app.env());
    let recipient = device_keys(&secret)?.recipient;
    let joining = Joining {
        person: Person {
            name: args.name.clone(),
            licence: args.licence.clone(),
        },
        practice: false,
        secret,
        recipient,
    };
    let book = Book::restore(&args.file, app.folder(), app.env(), joining)?;
    let entries = book.entry_count()?;
    let stream = book.secret()?.stream();
    let mut page = Page::of(format!(
        "{entries} entries restored into {}, as a new device.",
        app.folder().display()
    ));
    if let Some(path) = &args.request {
        super::write_new_file(path, &make_request(&book.own_request_entry()?)?)?;
        page.line(format!("Hand {} to a crew lead.", path.display()));
    } else {
        page.line("Next: sward request FILE, and hand it to a crew lead; alone, sward recover.");
    }
    page.line("Until it is admitted, this device records as pending.");
    let json = json!({ "device": stream, "entries": entries, "request": args.request });
    Ok(Answer::new(page, json))
}

/// Runs `sward confirm-time`.
pub(super) fn confirm_time(app: &App) -> Result<Answer> {
    let mut book = app.writing()?;
    let before = book.time_proof()?;
    let now = moment(app.now_utc_ms(), app.device_zone());
    prompt::confirm(
        app,
        &format!("This device says {now}. Does another clock, not set from it, say the same?"),
    )?;
    book.confirm_time(TimeProof::Person)?;
    let own = book.secret()?.stream();
    let page = Page::of(format!(
        "Confirmed: {now} (it was {} before). It holds until the clock jumps or the device starts anew.",
        proof(before)
    ));
    Ok(Answer::new(
        page,
        json!({ "device": own, "now_utc_ms": app.now_utc_ms(), "before": before }),
    ))
}

/// Runs `sward completions`.
pub(super) fn completions(args: &CompletionsArgs) -> Result<Answer> {
    let mut script = Vec::new();
    clap_complete::generate(
        args.shell,
        &mut crate::args::command(),
        "sward",
        &mut script,
    );
    write_out(&script)?;
    Ok(Answer::silent())
}
