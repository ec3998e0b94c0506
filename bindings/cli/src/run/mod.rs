//! What each command does: one file a domain. Here a command line finds its way to one of them,
//! and what all of them share when they speak of visits and facts.

mod calc;
mod control;
mod correct;
mod count;
mod crew;
mod keep_off;
mod label;
mod plan;
mod reading;
mod ready;
mod records;
mod screens;
mod section;
mod settle;
mod shapes;
mod store;
mod swap;
mod treat;
mod visit;
mod walk_round;
mod yard;

use std::fs::OpenOptions;
use std::io::{Read as _, Write as _};
use std::path::Path;

use sward_book::Book;
use sward_book::ids::{FactId, SheetId, StreamId, VisitId};

use crate::app::App;
use crate::args::{Cli, Command, Global};
use crate::error::{CliError, Exit, Result};
use crate::print::Answer;

/// Does what the command line asks for, and answers. Without a command that is the field screens,
/// which answer at once and then go on until they are stopped.
pub(crate) fn run(cli: &Cli) -> Result<Exit> {
    let app = &App::new(&cli.global)?;
    let Some(command) = &cli.command else {
        return screens::run(app, &cli.screens, cli.global.json);
    };
    if cli.screens.port.is_some() || cli.screens.no_open {
        return Err(CliError::Usage(
            "--port and --no-open are for the field screens, which open without a command".into(),
        ));
    }
    let answer = answer(app, command, &cli.global)?;
    answer.show(cli.global.json)?;
    match answer.but {
        Some(but) => Err(but),
        None => Ok(answer.exit),
    }
}

fn answer(app: &App, command: &Command, global: &Global) -> Result<Answer> {
    match command {
        Command::Yard(args) => yard::run(app, args),
        Command::Label(args) => label::run(app, args),
        Command::Visit(args) => visit::run(app, args),
        Command::Count(args) => count::run(app, args),
        Command::NotTreated(args) => count::not_treated(app, args),
        Command::Section(args) => section::run(app, args),
        Command::Plan(args) => plan::run(app, args),
        Command::Reading(args) => reading::run(app, args),
        Command::WalkRound(args) => walk_round::run(app, args),
        Command::Ready(args) => ready::run(app, args),
        Command::Start(args) => treat::start(app, args),
        Command::HalfWay(args) => plan::half_way(app, args),
        Command::Load(args) => treat::load(app, args),
        Command::Finish(args) => treat::finish(app, args),
        Command::KeepOffs(args) => keep_off::list(app, args),
        Command::Dry(args) => keep_off::dry(app, args),
        Command::KeepOff(args) => keep_off::run(app, args),
        Command::Control(args) => control::run(args),
        Command::Calc(args) => calc::run(args),
        Command::Found(args) => crew::found(app, args),
        Command::Ask(args) => crew::ask(app, args),
        Command::Request(args) => crew::request(app, args),
        Command::Admit(args) => crew::admit(app, args),
        Command::Retire(args) => crew::retire(app, args),
        Command::Promote(args) => crew::promote(app, args),
        Command::Recover(args) => crew::recover(app, args),
        Command::Crew => crew::show(app),
        Command::Swap(args) => swap::run(app, args),
        Command::Records(args) => records::run(app, args),
        Command::Correct(args) => correct::run(app, args),
        Command::Settle(args) => settle::run(app, args),
        Command::ConfirmTime => store::confirm_time(app),
        Command::Verify => store::verify(app),
        Command::Rebuild => store::rebuild(app),
        Command::Backup(args) => store::backup(app, args),
        Command::Restore(args) => store::restore(app, args),
        Command::Completions(args) => store::completions(args),
        Command::Demo(args) => crate::demo::run(args, global),
    }
}

/// The fact that this device wrote last on a visit.
fn last_own_fact(book: &Book, visit: VisitId) -> Result<Option<FactId>> {
    let own = book.secret()?.stream();
    let history = book.visit(visit)?.history;
    Ok(history
        .iter()
        .rev()
        .find(|line| line.by == own)
        .map(|line| line.fact))
}

/// Who carries a device, or its first digits.
fn who(book: &Book, stream: StreamId) -> String {
    book.roster()
        .member(stream)
        .and_then(|m| m.person.as_ref())
        .map_or_else(|| format!("device {}", stream.short()), |p| p.name.clone())
}

/// What people call a yard.
fn yard_name(book: &Book, yard: Option<SheetId>) -> String {
    yard.and_then(|yard| book.yard_sheet(yard).ok())
        .map_or_else(
            || "a yard that has not arrived yet".to_owned(),
            |sheet| sheet.name,
        )
}

/// Reads a file that a person named, if it is no longer than `bytes_most`.
fn read_file(path: &Path, bytes_most: u64) -> Result<Vec<u8>> {
    let not_readable = |source| CliError::NotReadable {
        path: path.to_owned(),
        source,
    };
    let file = std::fs::File::open(path).map_err(not_readable)?;
    let mut bytes = Vec::new();
    // One byte more, so that the reader sees that it is too long.
    file.take(bytes_most.saturating_add(1))
        .read_to_end(&mut bytes)
        .map_err(not_readable)?;
    Ok(bytes)
}

/// Writes a new file, whole or not at all; what is there already is never overwritten.
fn write_new_file(path: &Path, bytes: &[u8]) -> Result<()> {
    new_file(path, |file| Ok(file.write_all(bytes)?))
}

/// Makes a new file by `fill`; when that fails, no file is left behind.
fn new_file<T>(
    path: &Path,
    fill: impl FnOnce(&mut std::fs::File) -> std::result::Result<T, Filling>,
) -> Result<T> {
    let not_writable = |source| CliError::NotWritable {
        path: path.to_owned(),
        source,
    };
    let taken = || {
        CliError::Refused(format!(
            "{} is there already: give a new name, nothing is overwritten",
            path.display()
        ))
    };
    let mut file = match OpenOptions::new().write(true).create_new(true).open(path) {
        Ok(file) => file,
        Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => return Err(taken()),
        Err(error) => return Err(not_writable(error)),
    };
    let filled = fill(&mut file).map_err(|filling| match filling {
        Filling::Io(source) => not_writable(source),
        Filling::Other(error) => error,
    });
    let filled = filled.and_then(|value| {
        file.sync_all().map_err(not_writable)?;
        Ok(value)
    });
    if filled.is_err() {
        drop(file);
        let _ = std::fs::remove_file(path);
    }
    filled
}

/// Why a new file was not filled.
enum Filling {
    Io(std::io::Error),
    Other(CliError),
}

impl From<std::io::Error> for Filling {
    fn from(error: std::io::Error) -> Self {
        Self::Io(error)
    }
}

impl From<sward_crew::CrewError> for Filling {
    fn from(error: sward_crew::CrewError) -> Self {
        Self::Other(error.into())
    }
}
