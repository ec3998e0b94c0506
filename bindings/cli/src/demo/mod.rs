//! `sward demo`: a practice day of a crew with three phones, told while it happens.
//!
//! The three phones are three processes with three books on disk: every step is this program
//! started anew as a child, with the command a person would type. Here is only the beginning, the
//! comparison at the end, and how it is shown.

mod answer;
mod checks;
mod files;
mod phone;
mod story;
mod tell;

use std::ffi::OsStr;
use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use clap::Args;
use serde_json::json;

use self::checks::{Check, compare};
use self::files::{lay_out, not_writable};
use self::phone::Phone;
use self::story::Day;
use self::tell::Teller;
use crate::args::Global;
use crate::error::{CliError, Result};
use crate::print::{Answer, Page};

/// The demo.
#[derive(Debug, Args)]
pub(crate) struct DemoArgs {
    /// A new or empty folder for the three books; left out: a new one among temporary files
    #[arg(long, value_name = "DIR")]
    folder: Option<PathBuf>,
    /// Tell no story: only compare the three books that an earlier demo left in this folder
    #[arg(long, value_name = "DIR", conflicts_with = "folder")]
    compare: Option<PathBuf>,
}

/// Runs the demo.
///
/// # Errors
/// When a step ends otherwise than it should, or the folder cannot be used. That the phones
/// differ is no error of this kind: the answer tells which comparison failed, and fails.
pub(crate) fn run(args: &DemoArgs, global: &Global) -> Result<Answer> {
    if global.data.is_some() {
        return Err(CliError::Usage(
            "the demo makes three books of its own: say where with --folder, not --data".into(),
        ));
    }
    let teller = Teller::new(global.json);
    let folder = match &args.compare {
        Some(folder) => folder.clone(),
        None => empty_folder(args.folder.as_deref())?,
    };
    // The phones are started in the folder of the files, so a path from here would mislead them.
    let folder = std::path::absolute(&folder).map_err(|source| CliError::NotReadable {
        path: folder,
        source,
    })?;
    let files = folder.join("files");
    let phone = |name: &str| Phone::new(folder.join(name), files.clone());
    let (ivy, moss, fern) = (phone("phone-1")?, phone("phone-2")?, phone("phone-3")?);
    if args.compare.is_none() {
        lay_out(&files)?;
        opening(&teller)?;
        Day {
            ivy: &ivy,
            moss: &moss,
            fern: &fern,
            teller: &teller,
        }
        .tell()?;
    }
    let checks = compare(&[&ivy, &moss, &fern])?;
    Ok(closing(&folder, &checks, args.compare.is_some()))
}

fn opening(teller: &Teller) -> Result<()> {
    teller.say(
        "An invented practice day, 16 June 2026. Three phones are three programs with three \
         books on disk; a line begins with its phone's number. In the field, the label and your \
         local rules decide.",
    )
}

/// The folder asked for, or a new one among temporary files.
fn empty_folder(asked: Option<&Path>) -> Result<PathBuf> {
    let Some(folder) = asked else {
        return new_temporary_folder();
    };
    fs::create_dir_all(folder).map_err(|source| not_writable(folder, source))?;
    let mut found = fs::read_dir(folder).map_err(|source| CliError::NotReadable {
        path: folder.to_owned(),
        source,
    })?;
    if found.next().is_some() {
        return Err(CliError::Refused(format!(
            "{} is not empty: give a new folder, nothing is overwritten",
            folder.display()
        )));
    }
    Ok(folder.to_owned())
}

fn new_temporary_folder() -> Result<PathBuf> {
    let all = std::env::temp_dir();
    for number in 1_u32..=u32::MAX {
        let folder = all.join(format!("swardbook-demo-{number}"));
        match fs::create_dir(&folder) {
            Ok(()) => return Ok(folder),
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
            Err(error) => return Err(not_writable(&folder, error)),
        }
    }
    Err(CliError::Refused(
        "no name for a new folder is left: give one with --folder".into(),
    ))
}

fn closing(folder: &Path, checks: &[Check], only_compared: bool) -> Answer {
    let mut page = Page::default();
    if !only_compared {
        page.blank();
    }
    page.line("Compared on all three phones:");
    for check in checks {
        let word = if check.passed { "ok    " } else { "FAILED" };
        page.item(format!("{word}  {} ({})", check.what, check.detail));
    }
    page.blank()
        .line("The three books. Whatever you write in one of them alone, a new comparison finds.");
    for number in 1..=3 {
        page.item(format!(
            "phone {number}: {}",
            folder.join(format!("phone-{number}")).display()
        ));
    }
    let sward = program();
    page.line(format!(
        "Look: {sward} --data {} records show 12",
        quoted(folder.join("phone-3").as_os_str())
    ));
    page.line(format!(
        "Compare again: {sward} demo --compare {}",
        quoted(folder.as_os_str())
    ));
    let failed = checks.iter().filter(|check| !check.passed).count();
    let total = checks.len();
    let mut answer = Answer::new(page, json!({ "folder": folder, "checks": checks }));
    if failed > 0 {
        answer.but = Some(CliError::Refused(format!(
            "{failed} of {total} comparisons failed: the three phones do not hold the same"
        )));
    }
    answer
}

/// This program as it can be typed where the person stands.
fn program() -> String {
    let program = std::env::current_exe().unwrap_or_else(|_| PathBuf::from("sward"));
    let here = std::env::current_dir().unwrap_or_default();
    quoted(program.strip_prefix(&here).unwrap_or(&program).as_os_str())
}

fn quoted(path: &OsStr) -> String {
    let path = path.to_string_lossy();
    if path.contains(' ') {
        format!("\"{path}\"")
    } else {
        path.into_owned()
    }
}
