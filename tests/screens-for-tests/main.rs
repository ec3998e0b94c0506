//! The screens for the browser's tests: served on a folder, with a clock that moves when told to.
//!
//! Prints one JSON line with its address, then answers each JSON line on its input with one. The
//! clock is kept in the folder, so that a program that was killed goes on where it was. What the
//! tests do with it lies in `tests/browser`.

mod clock;

use std::io::{BufRead as _, Write as _};
use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::Arc;

use clock::MovableClock;
use serde_json::{Value, json};
use sward_book::Env as _;
use sward_screens::Setting;

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            say(&json!({ "failed": error.to_string() }));
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<(), Box<dyn std::error::Error>> {
    let mut folder = None;
    let mut port = 0;
    let mut args = std::env::args().skip(1);
    while let Some(arg) = args.next() {
        match (arg.as_str(), args.next()) {
            ("--data", Some(path)) => folder = Some(PathBuf::from(path)),
            ("--port", Some(given)) => port = given.parse()?,
            _ => return Err("usage: screens-for-tests --data FOLDER [--port PORT]".into()),
        }
    }
    let folder = folder.ok_or("--data FOLDER is missing")?;
    std::fs::create_dir_all(&folder)?;
    let clock = Arc::new(MovableClock::in_folder(&folder)?);
    let served = sward_screens::serve(Setting {
        folder,
        env: Arc::clone(&clock) as Arc<dyn sward_book::Env>,
        zone: chrono_tz::America::New_York,
        port,
    })?;
    say(&json!({
        "entrance": served.entrance(),
        "entrance_once": served.entrance_once(),
        "address": served.address().to_string(),
    }));
    for line in std::io::stdin().lock().lines() {
        let command: Value = serde_json::from_str(&line?)?;
        let ms = command["ms"].as_i64().unwrap_or(0);
        match command["do"].as_str() {
            Some("advance") => clock.advance(u64::try_from(ms)?)?,
            Some("jump") => clock.jump(ms)?,
            Some("reboot") => clock.reboot()?,
            Some("vouch") => clock.vouch(command["by"] == "network")?,
            Some("clock") => {}
            Some("quit") => break,
            _ => return Err(format!("no such command: {command}").into()),
        }
        say(&json!({ "utc_ms": clock.clock().utc_ms }));
    }
    // Also when the tests ended without a word: nothing is left running.
    Ok(served.stop()?)
}

fn say(line: &Value) {
    let mut out = std::io::stdout().lock();
    // Nobody listens any more when this fails; then there is nothing to tell.
    let _ = writeln!(out, "{line}").and_then(|()| out.flush());
}
