//! Percent control, a calculator: did it work, beside a part left untreated?

use serde_json::json;
use sward_rules::look::{BeforeAfter, henderson_tilton_percent};

use crate::args::ControlArgs;
use crate::error::{CliError, Result};
use crate::print::{Answer, Page};
use crate::words::how;

/// Runs `sward control`.
pub(super) fn run(args: &ControlArgs) -> Result<Answer> {
    let ([treated_before, treated_after], [check_before, check_after]) =
        (pair(&args.treated)?, pair(&args.check)?);
    let counts = BeforeAfter {
        treated_before,
        treated_after,
        check_before,
        check_after,
    };
    let answer = henderson_tilton_percent(counts)?;
    let mut page = Page::of(format!("Control: {:.1} %", answer.value));
    how(&mut page, "percent control", &answer.working);
    Ok(Answer::new(
        page,
        json!({ "percent": answer.value, "working": answer.working }),
    ))
}

fn pair(values: &[u32]) -> Result<[u32; 2]> {
    values
        .try_into()
        .map_err(|_| CliError::Usage("give two counts: before and after".into()))
}
