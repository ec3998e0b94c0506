//! Percent control, a calculator: did it work, beside a part left untreated?

use serde_json::json;

use super::calc::{control_line, henderson_tilton};
use crate::args::ControlArgs;
use crate::error::Result;
use crate::print::{Answer, Page};
use crate::words::how;

/// Runs `sward control`.
pub(super) fn run(args: &ControlArgs) -> Result<Answer> {
    let answer = henderson_tilton(args)?;
    let mut page = Page::of(control_line("Control", answer.value));
    how(&mut page, "percent control", &answer.working);
    Ok(Answer::new(
        page,
        json!({
            "percent": answer.value.percent,
            "interval": answer.value.interval,
            "working": answer.working,
        }),
    ))
}
