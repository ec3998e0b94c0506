//! What a calculation comes to, and how it is shown.

use maud::{Markup, html};
use sward_rules::finding::Finding;
use sward_rules::{Answer, Entered, Working};

use crate::ask::Ask;
use crate::part;
use crate::part::finding::findings;
use crate::part::how::how;
use crate::words::Words;

/// A part of a result, under a heading where there are several.
#[derive(Default)]
pub(super) struct Block {
    heading: String,
    lines: Vec<String>,
    rows: Vec<(&'static str, String)>,
    findings: Vec<Finding>,
    workings: Vec<Working>,
}

impl Block {
    pub(super) fn headed(heading: String) -> Self {
        Self {
            heading,
            ..Self::default()
        }
    }

    /// Adds a sentence, or an amount that needs no name.
    pub(super) fn line(&mut self, line: String) {
        self.lines.push(line);
    }

    /// Adds a value under its name's message; an empty one is shown as not known.
    pub(super) fn row(&mut self, key: &'static str, value: String) {
        self.rows.push((key, value));
    }

    /// Adds an amount that was worked out.
    pub(super) fn amount(&mut self, words: Words, key: &'static str, amount: &Entered) {
        self.row(key, words.worked_out(amount));
    }

    /// Adds an amount rounded to the safe side, with all its digits.
    pub(super) fn exact(&mut self, words: Words, key: &'static str, amount: &Entered) {
        self.row(key, words.amount(amount));
    }

    /// Adds what the label and others say to it.
    pub(super) fn found(&mut self, found: impl IntoIterator<Item = Finding>) {
        self.findings.extend(found);
    }

    /// Adds the working behind an answer, and hands on its value.
    pub(super) fn take<T>(&mut self, answer: Answer<T>) -> T {
        self.workings.push(answer.working);
        answer.value
    }
}

/// A result as a person sees it.
pub(super) fn blocks(ask: &Ask<'_>, all: &[Block]) -> Markup {
    let not_known = ask.t("frame-not-known");
    html! {
        @for block in all {
            @if !block.heading.is_empty() { h3 { (block.heading) } }
            @for line in &block.lines { p.big { (line) } }
            @if !block.rows.is_empty() {
                dl { @for (key, value) in &block.rows { (part::row(&ask.t(key), value, &not_known)) } }
            }
            @if !block.findings.is_empty() { (findings(ask, &block.findings)) }
            @for working in &block.workings { (how(ask, working)) }
        }
    }
}
