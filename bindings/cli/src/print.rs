//! What a command answers: text for a person, wrapped to the terminal, and one JSON object for
//! machines. Which words stand in it is the commands' business.

use std::io::{self, IsTerminal as _, Write as _};

use serde_json::Value;

use crate::error::{CliError, Exit, Result};

/// Where the output is no terminal, lines are wrapped here.
const WIDTH_ELSEWHERE: usize = 100;
const WIDTH_LEAST: usize = 40;

/// What a command answers.
pub(crate) struct Answer {
    /// For a person.
    pub(crate) page: Page,
    /// For a machine.
    pub(crate) json: Value,
    /// How the program ends.
    pub(crate) exit: Exit,
    /// Said on standard error after the answer, when not all went well.
    pub(crate) but: Option<CliError>,
}

impl Answer {
    /// An answer after which the program ends well.
    pub(crate) fn new(page: Page, json: Value) -> Self {
        Self {
            page,
            json,
            exit: Exit::Done,
            but: None,
        }
    }

    /// Nothing more is to be said: the command wrote its own output.
    pub(crate) fn silent() -> Self {
        Self::new(Page::default(), Value::Null)
    }

    /// Writes it to standard output.
    pub(crate) fn show(&self, as_json: bool) -> Result<()> {
        if self.json.is_null() {
            return Ok(());
        }
        let text = if as_json {
            format!("{:#}\n", self.json)
        } else {
            self.page.render(width())
        };
        write_out(text.as_bytes())
    }
}

/// Writes to standard output. A reader that closed it early is no failure of ours.
pub(crate) fn write_out(bytes: &[u8]) -> Result<()> {
    let mut out = io::stdout().lock();
    out.write_all(bytes)
        .and_then(|()| out.flush())
        .map_err(|error| match error.kind() {
            io::ErrorKind::BrokenPipe => CliError::OutputClosed,
            _ => CliError::Output(error),
        })
}

/// Says a sentence on standard error.
pub(crate) fn say(text: &str) {
    // Nothing can be done where not even standard error can be written.
    let _ = writeln!(io::stderr().lock(), "{}", clean(text));
}

fn width() -> usize {
    if !io::stdout().is_terminal() {
        return WIDTH_ELSEWHERE;
    }
    let columns = terminal_size::terminal_size().map(|(width, _)| usize::from(width.0));
    columns.unwrap_or(WIDTH_ELSEWHERE).max(WIDTH_LEAST)
}

enum Block {
    Line {
        indent: usize,
        text: String,
    },
    Table {
        head: Vec<&'static str>,
        rows: Vec<Vec<String>>,
    },
}

/// Text for a person, before it is wrapped.
#[derive(Default)]
pub(crate) struct Page {
    blocks: Vec<Block>,
}

impl Page {
    /// A page that says one thing.
    pub(crate) fn of(text: impl Into<String>) -> Self {
        let mut page = Self::default();
        page.line(text);
        page
    }

    /// Adds a line, wrapped where it is too long.
    pub(crate) fn line(&mut self, text: impl Into<String>) -> &mut Self {
        self.blocks.push(Block::Line {
            indent: 0,
            text: text.into(),
        });
        self
    }

    /// Adds an indented line.
    pub(crate) fn item(&mut self, text: impl Into<String>) -> &mut Self {
        self.blocks.push(Block::Line {
            indent: 2,
            text: text.into(),
        });
        self
    }

    /// Adds an empty line.
    pub(crate) fn blank(&mut self) -> &mut Self {
        self.line("")
    }

    /// Adds a table; nothing where it has no rows. Where it is too wide, its widest columns are wrapped.
    pub(crate) fn table(&mut self, head: &[&'static str], rows: Vec<Vec<String>>) -> &mut Self {
        if !rows.is_empty() {
            self.blocks.push(Block::Table {
                head: head.to_vec(),
                rows,
            });
        }
        self
    }

    /// The text on lines of at most `width` characters, where words allow it.
    pub(crate) fn render(&self, width: usize) -> String {
        let mut out = String::new();
        for block in &self.blocks {
            match block {
                Block::Line { indent, text } => {
                    for line in text.split('\n') {
                        wrap_into(&mut out, &clean(line), *indent, *indent + 2, width);
                    }
                }
                Block::Table { head, rows } => table_into(&mut out, head, rows, width),
            }
        }
        out
    }
}

/// Words from other phones are shown, never obeyed: control characters steer terminals.
fn clean(text: &str) -> String {
    text.chars()
        .map(|c| {
            if c.is_control() && c != '\n' {
                char::REPLACEMENT_CHARACTER
            } else {
                c
            }
        })
        .collect()
}

fn wrap_into(out: &mut String, text: &str, first: usize, next: usize, width: usize) {
    for (number, line) in wrapped(text, width.saturating_sub(next).max(20))
        .iter()
        .enumerate()
    {
        let indent = if number == 0 { first } else { next };
        out.push_str(format!("{:indent$}{line}", "").trim_end());
        out.push('\n');
    }
}

/// Lines of at most `width` characters; a longer word stands alone.
fn wrapped(text: &str, width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split(' ') {
        let line = lines.last_mut().expect("there is always a line");
        if line.is_empty() {
            line.push_str(word);
        } else if line.chars().count() + 1 + word.chars().count() <= width {
            line.push(' ');
            line.push_str(word);
        } else {
            lines.push(word.to_owned());
        }
    }
    lines
}

fn table_into(out: &mut String, head: &[&'static str], rows: &[Vec<String>], width: usize) {
    const GAP: usize = 2;
    let rows: Vec<Vec<String>> = std::iter::once(head.iter().map(|h| (*h).to_owned()).collect())
        .chain(
            rows.iter()
                .map(|row| row.iter().map(|c| clean(&c.replace('\n', " "))).collect()),
        )
        .collect();
    let last = head.len().saturating_sub(1);
    let mut widths: Vec<usize> = (0..head.len())
        .map(|column| {
            rows.iter()
                .filter_map(|r| r.get(column))
                .map(|c| c.chars().count())
                .max()
                .unwrap_or(0)
        })
        .collect();
    fit(&mut widths, width.saturating_sub(GAP * last));
    for row in &rows {
        let cells: Vec<Vec<String>> = row
            .iter()
            .zip(&widths)
            .map(|(cell, width)| wrapped(cell, *width))
            .collect();
        let height = cells.iter().map(Vec::len).max().unwrap_or(0);
        for number in 0..height {
            let mut line = String::new();
            for (cell, width) in cells.iter().zip(&widths) {
                let part = cell.get(number).map_or("", String::as_str);
                let fill = (width + GAP).saturating_sub(part.chars().count());
                line.push_str(part);
                line.extend(std::iter::repeat_n(' ', fill));
            }
            out.push_str(line.trim_end());
            out.push('\n');
        }
    }
}

/// Narrows the widest columns until all fit, as far as they can be read then.
fn fit(widths: &mut [usize], room: usize) {
    const LEAST: usize = 12;
    while widths.iter().sum::<usize>() > room {
        let Some(widest) = widths
            .iter_mut()
            .max_by_key(|w| **w)
            .filter(|w| **w > LEAST)
        else {
            return;
        };
        *widest -= 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_lines_are_wrapped_and_control_characters_shown() {
        let mut page = Page::default();
        page.line("one two three four five six seven eight\u{1b}[31m nine ten");
        let text = page.render(24);
        assert!(text.lines().all(|l| l.chars().count() <= 24), "{text}");
        assert!(!text.contains('\u{1b}'), "{text:?}");
    }

    #[test]
    fn the_widest_column_is_wrapped() {
        let mut page = Page::default();
        let long = "a reason that does not fit beside the other columns of this table".to_owned();
        page.table(&["check", "why"], vec![vec!["wind".into(), long]]);
        let text = page.render(40);
        assert!(text.lines().all(|l| l.chars().count() <= 40), "{text}");
        assert_eq!(text.lines().count(), 3, "{text}");
        assert!(
            text.lines().skip(2).all(|l| l.starts_with("      ")),
            "{text}"
        );
    }
}
