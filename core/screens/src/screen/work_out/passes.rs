//! Half-rate passes and swath: what a setting gives on another swath than it was calibrated on.

use maud::html;
use sward_rules::plan::{SettingUse, TimesOver, setting_used};
use sward_rules::{Field, RuleError};

use super::shown::Block;
use super::{Calc, Given, label_inputs, rate};
use crate::part::amounts::change;
use crate::part::inputs::{beside, needed};
use crate::{Result, Trouble};

pub(super) const PASSES: Calc = Calc {
    name: "passes",
    title: "work-out-passes",
    first: "work-out-passes-first",
    inputs: |inputs| {
        let times = [
            ("1", inputs.ask.t("work-out-once")),
            ("2", inputs.ask.t("work-out-twice")),
        ];
        let last = inputs.last("times");
        Ok(html! {
            (rate(inputs, "rate", "work-out-rate-in-all", ""))
            (rate(inputs, "gives", "work-out-setting-gives", ""))
            (inputs.number("swath", "work-out-calibrated-swath", ("ft", "m"), None))
            (inputs.number("spacing", "work-out-spacing", ("ft", "m"), None))
            (inputs.form.choice("times", "work-out-times", &times, last.as_deref().or(Some("1"))))
            (label_inputs(inputs)?)
        })
    },
    work,
};

fn work(given: &Given<'_>) -> Result<Vec<Block>> {
    let form = given.form;
    let [planned, gives, line_spacing] = needed(form, ["rate", "gives", "spacing"])?;
    let words = given.words;
    let mut block = Block::default();
    let used = setting_used(&SettingUse {
        label: &given.label()?,
        planned,
        gives,
        calibrated_swath: form.amount("swath")?,
        line_spacing,
        times: match form.text("times") {
            "2" => TimesOver::TwiceAtRightAngles,
            _ => TimesOver::Once,
        },
    })
    .map_err(told)?;
    let used = block.take(used);
    let off = used.off_percent;
    let rows = [
        ("work-out-each-time", used.rate_each),
        ("work-out-in-all", used.rate_in_all),
        ("work-out-should-give", used.should_give),
    ];
    for (key, amount) in rows {
        block.row(
            key,
            amount.map_or_else(String::new, |a| words.worked_out(&a)),
        );
    }
    if let Some(percent) = off {
        block.row("work-out-off-planned", change(words, percent));
    }
    let spacings = [
        ("work-out-spacing-once", used.spacing_once),
        ("work-out-spacing-twice", used.spacing_crosswise),
    ];
    for (key, spacing) in spacings {
        if let Some(spacing) = spacing {
            block.exact(words, key, &spacing);
        }
    }
    block.found([used.finding]);
    Ok(vec![block])
}

fn told(error: RuleError) -> Trouble {
    beside(
        error,
        &[
            (Field::Rate, "rate"),
            (Field::SettingGives, "gives"),
            (Field::CalibratedSwath, "swath"),
            (Field::LineSpacing, "spacing"),
        ],
    )
}
