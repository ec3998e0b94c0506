//! The command line: which commands there are, in the order of a visit, and what each takes.
//!
//! Only form stands here; what a command does is in [`crate::run`].

mod book;
mod calc;
mod crew;
mod keep_off;
mod label;
mod look;
mod plan;
mod settle;
mod treat;
mod values;
mod yard;

use std::path::PathBuf;

use chrono::{DateTime, FixedOffset};
use clap::{Args, CommandFactory as _, Parser, Subcommand};

pub(crate) use book::{
    BackupArgs, CompletionsArgs, ExportForm, RecordsArgs, RecordsCommand, RecordsExportArgs,
    RecordsFilterArgs, RestoreArgs,
};
pub(crate) use calc::{
    AbbottCalc, AgainstArgs, AirCalc, AreaCalc, Calc, CalcArgs, CalibrationCalc, CatchBoxesCalc,
    ConvertCalc, DayArgs, DegreeDaysCalc, DownWindCalc, HoseEndCalc, InversionCalc, KeepOffCalc,
    KeyCalc, LabelRates, MixCalc, NoticeCalc, NozzlesCalc, PaceCalc, PassesCalc, PlaceArgs,
    RateCalc, RecordFieldsCalc, RepeatCalc, SamplesCalc, SchneiderOrelliCalc, SeasonCalc, SignCalc,
    SpotsCalc, SprayerCalc, SpreaderCalc, StockCalc, SunCalc, TankCalc, WateringInCalc, WindCalc,
    typed,
};
pub(crate) use crew::{
    AdmitArgs, AskArgs, FoundArgs, PromoteArgs, RecoverArgs, RequestArgs, RetireArgs, SwapArgs,
    SwapCommand,
};
pub(crate) use keep_off::{DryArgs, KeepOffArgs, KeepOffCommand, KeepOffsArgs};
pub(crate) use label::{LabelArgs, LabelCommand, ReadBackArgs};
pub(crate) use look::{
    ControlArgs, CountArgs, CountedArgs, MethodArgs, NotTreatedArgs, VisitArgs, VisitCommand,
    WhyNot,
};
pub(crate) use plan::{
    AnswersArgs, PlanArgs, ReadingArgs, ReadyArgs, SkyArgs, WalkRoundArgs, WindArgs,
};
pub(crate) use settle::{CorrectArgs, CorrectCommand, SettleArgs, SettleCommand, WrongArgs};
pub(crate) use treat::{FinishArgs, HalfWayArgs, LoadArgs, LoadedArgs, SectionDoneArgs, StartArgs};
pub(crate) use yard::{SectionArgs, SectionCommand, ShapeArgs, YardArgs, YardCommand};

use crate::demo::DemoArgs;
use crate::error::EXIT_CODES;

const FIRST_STEPS: &str = "\
First steps: found (or ask), yard add, section add, label new, label read-back. For each job:
visit open, count, plan, reading, walk-round, ready, start, load, finish, dry.
A visit is named by its id, or by its yard for the newest one. `sward COMMAND --help` tells more.";

/// The lawn treater's field companion: look, measure, plan, get ready, treat, keep off, re-check,
/// and swap the records with the crew without a network. Without a command it opens the field
/// screens in the browser.
#[derive(Debug, Parser)]
#[command(name = "sward", version, after_help = format!("{FIRST_STEPS}\n\n{EXIT_CODES}"), disable_help_subcommand = true)]
pub(crate) struct Cli {
    /// What every command takes.
    #[command(flatten)]
    pub(crate) global: Global,
    /// Where the field screens are opened.
    #[command(flatten)]
    pub(crate) screens: ScreensArgs,
    /// The command; none opens the field screens.
    #[command(subcommand)]
    pub(crate) command: Option<Command>,
}

/// How the field screens are opened, where no command is given.
#[derive(Debug, Args)]
pub(crate) struct ScreensArgs {
    /// The port on this machine to serve the field screens on, instead of a free one
    #[arg(long, value_name = "PORT", help_heading = FIELD_SCREENS)]
    pub(crate) port: Option<u16>,
    /// Only print the address of the field screens; open no browser
    #[arg(long, help_heading = FIELD_SCREENS)]
    pub(crate) no_open: bool,
}

const FIELD_SCREENS: &str = "Without a command";
const EVERYWHERE: &str = "For every command";

/// What every command takes.
#[derive(Debug, Args)]
pub(crate) struct Global {
    /// The folder the book lies in, instead of the platform's data folder
    #[arg(long, global = true, value_name = "DIR", help_heading = EVERYWHERE)]
    pub(crate) data: Option<PathBuf>,
    /// Answer with one JSON object, for other programs
    #[arg(long, global = true, help_heading = EVERYWHERE)]
    pub(crate) json: bool,
    /// Answer yes to every "are you sure", for scripts
    #[arg(long, global = true, help_heading = EVERYWHERE)]
    pub(crate) yes: bool,
    /// The time to pretend, in a practice book
    #[arg(long, global = true, hide = true, value_name = "RFC3339",
        value_parser = DateTime::parse_from_rfc3339)]
    pub(crate) practice_clock: Option<DateTime<FixedOffset>>,
}

/// The commands, in the order of a visit.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Add a yard, change or show it
    Yard(YardArgs),
    /// Copy a label in hand on to a label sheet, and read it back
    Label(LabelArgs),
    /// Open a visit to a yard, list visits, show one with its history
    Visit(VisitArgs),
    /// Record a count, and hold it against the thresholds
    #[command(
        override_usage = "sward count <VISIT> --pest <PEST> <--sod|--can|--cup|--drench|--area> <SIZE> --counts <N,N,...>"
    )]
    Count(CountArgs),
    /// End a visit without a treatment: a full result
    NotTreated(NotTreatedArgs),
    /// Measure the sections of a yard's lawn
    Section(SectionArgs),
    /// Work out product, water, passes and loads
    Plan(PlanArgs),
    /// Record wind, air, soil, blooms and signs of an inversion at the yard
    Reading(ReadingArgs),
    /// Walk round the yard: toys, bowls, windows, drains, people
    WalkRound(WalkRoundArgs),
    /// May I treat, here and now? If not, why, and when it may open next
    Ready(ReadyArgs),
    /// Start treating; from here on the lawn is kept off
    Start(StartArgs),
    /// Check half-way whether the product goes on at the planned rate
    HalfWay(HalfWayArgs),
    /// Record a load that was put on
    Load(LoadArgs),
    /// Finish treating; the record is frozen
    Finish(FinishArgs),
    /// Who or what stays off, where, until when
    KeepOffs(KeepOffsArgs),
    /// "I looked: it is dry", for the sections named
    Dry(DryArgs),
    /// State, confirm or lift the end of one keep-off
    KeepOff(KeepOffArgs),
    /// Percent control: did it work, beside a part left untreated?
    Control(ControlArgs),
    /// Work something out without a book: areas, doses, settings, weather, counts
    Calc(CalcArgs),
    /// Found a crew; prints its recovery code once
    Found(FoundArgs),
    /// Ask to join a crew; writes the request to hand to a crew lead
    Ask(AskArgs),
    /// Write this device's request to join once more
    Request(RequestArgs),
    /// Admit a device that asks to join
    Admit(AdmitArgs),
    /// Retire a device that is lost, sold or no longer used
    Retire(RetireArgs),
    /// Give a device another role
    Promote(PromoteArgs),
    /// Make this device a crew lead by the recovery code
    Recover(RecoverArgs),
    /// Who is in the crew, who waits to be admitted, what is missing
    Crew,
    /// Make or take a locked file with the crew's records
    Swap(SwapArgs),
    /// List, show and export records
    Records(RecordsArgs),
    /// Correct what was recorded; the old stays in the history
    Correct(CorrectArgs),
    /// Settle what two phones recorded differently
    Settle(SettleArgs),
    /// Confirm this device's clock against another one
    ConfirmTime,
    /// Prove the book whole
    Verify,
    /// Make all sheets and views anew from the log
    Rebuild,
    /// Write a backup into a new file
    Backup(BackupArgs),
    /// Put a backup into an empty folder, as a new device
    Restore(RestoreArgs),
    /// Print the shell's completion script
    Completions(CompletionsArgs),
    /// A practice day of a crew with three phones, told while it happens
    Demo(DemoArgs),
}

/// The commands under the headings that the help text shows.
const GROUPS: &[(&str, &[&str])] = &[
    ("Try it", &["demo"]),
    ("Look", &["yard", "label", "visit", "count", "not-treated"]),
    ("Measure", &["section"]),
    ("Plan", &["plan"]),
    ("Ready", &["reading", "walk-round", "ready"]),
    ("Treat", &["start", "half-way", "load", "finish"]),
    ("Keep off", &["keep-offs", "dry", "keep-off"]),
    ("Re-check", &["control"]),
    ("On its own", &["calc"]),
    (
        "Crew",
        &[
            "found", "ask", "request", "admit", "retire", "promote", "recover", "crew", "swap",
        ],
    ),
    ("Records", &["records", "correct", "settle"]),
    (
        "This device",
        &[
            "confirm-time",
            "verify",
            "rebuild",
            "backup",
            "restore",
            "completions",
        ],
    ),
];

/// The command line with its help text: commands under the headings of a visit.
pub(crate) fn command() -> clap::Command {
    let command = Cli::command();
    let about = |name: &str| {
        let command = command.find_subcommand(name);
        command
            .and_then(clap::Command::get_about)
            .map(ToString::to_string)
            .unwrap_or_default()
    };
    let group = |(heading, names): &(&str, &[&str])| {
        let lines = names
            .iter()
            .map(|name| format!("  {name:<13} {}\n", about(name)));
        format!("\n{heading}:\n{}", lines.collect::<String>())
    };
    let grouped: String = GROUPS.iter().map(group).collect();
    let template = format!(
        "{{about}}\n\n{{usage-heading}} {{usage}}\n{grouped}\nOptions:\n{{options}}{{after-help}}"
    );
    command.help_template(template)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn the_command_line_is_well_formed() {
        command().debug_assert();
    }

    #[test]
    fn every_command_stands_under_exactly_one_heading() {
        let shown: Vec<&str> = GROUPS
            .iter()
            .flat_map(|(_, names)| *names)
            .copied()
            .collect();
        let once: BTreeSet<&str> = shown.iter().copied().collect();
        assert_eq!(once.len(), shown.len(), "a command stands twice");
        let command = command();
        let all: BTreeSet<&str> = command
            .get_subcommands()
            .map(clap::Command::get_name)
            .collect();
        assert_eq!(once, all);
    }
}
