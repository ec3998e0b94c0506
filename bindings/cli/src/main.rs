//! `sward`: the lawn treater's field companion, in a terminal and as field screens in a browser.
//!
//! Here is only how the program begins and ends. The command line is in [`args`], what commands
//! do in [`run`], the words in [`words`], the demo in [`demo`]; rules and records belong to the core.

mod app;
mod args;
mod demo;
mod error;
mod names;
mod print;
mod prompt;
mod run;
mod times;
mod words;

use std::process::ExitCode;

use clap::FromArgMatches as _;

use crate::args::Cli;

fn main() -> ExitCode {
    let matches = args::command().get_matches();
    let cli = Cli::from_arg_matches(&matches).unwrap_or_else(|error| error.exit());
    match run::run(&cli) {
        Ok(exit) => exit.into(),
        Err(error) => {
            if !matches!(error, error::CliError::OutputClosed) {
                print::say(&format!("sward: {error}"));
            }
            error.exit().into()
        }
    }
}
