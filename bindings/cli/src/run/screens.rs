//! The field screens: serves them to this machine, says where, and opens the browser.

use std::sync::Arc;

use serde_json::json;
use sward_book::Env;
use sward_screens::{Served, Setting, Trouble, serve};

use crate::app::App;
use crate::args::ScreensArgs;
use crate::error::{CliError, Exit, Result};
use crate::print::{Answer, Page, say};

/// Serves the field screens until the program is stopped.
pub(crate) fn run(app: &App, args: &ScreensArgs, as_json: bool) -> Result<Exit> {
    let env: Arc<dyn Env> = app.env();
    let served = serve(Setting {
        folder: app.folder().to_owned(),
        env,
        zone: app.device_zone(),
        port: args.port.unwrap_or(0),
    })?;
    told(&served).show(as_json)?;
    if !args.no_open && webbrowser::open(served.entrance_once()).is_err() {
        say("No browser could be opened here: open the address above in one.");
    }
    served.wait()?;
    Ok(Exit::Done)
}

fn told(served: &Served) -> Answer {
    let mut page = Page::of("The field screens are at");
    page.blank().line(served.entrance()).blank();
    page.line("Only this machine can reach them. Stop with Ctrl+C: nothing is lost.");
    Answer::new(page, json!({ "address": served.entrance() }))
}

impl From<Trouble> for CliError {
    fn from(trouble: Trouble) -> Self {
        match trouble {
            Trouble::Book(error) => Self::Book(error),
            Trouble::Crew(error) => Self::from(error),
            Trouble::Rule(error) => Self::Rule(error),
            other => Self::Refused(other.to_string()),
        }
    }
}
