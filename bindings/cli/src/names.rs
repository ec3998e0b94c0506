//! Finding yards, sections, label sheets, visits, devices and facts by what a person types: a
//! name, its unmistakable beginning, or an id or a piece of it.

use sward_book::ids::{FactId, ItemId, KeepOffId, SheetId, StreamId, VisitId};
use sward_book::sheet::{Section, YardSheet};
use sward_book::view::keep_off::KeepOffView;
use sward_book::view::visit::VisitView;
use sward_book::{Book, BookError, Thing};
use uuid::Uuid;

use crate::error::Result;

/// The fewest characters of an id that are taken for one.
const ID_LEAST: usize = 4;

/// The last eight digits of a UUID. The first ones are its time, which things made together share.
pub(crate) fn short(id: Uuid) -> String {
    let text = id.simple().to_string();
    text[text.len() - 8..].to_owned()
}

/// A fact as it is shown and typed: eight digits of its entry, and its place there.
pub(crate) fn short_fact(fact: FactId) -> String {
    format!("{}.{}", fact.entry.short(), fact.index)
}

struct Candidate<T> {
    value: T,
    name: String,
    /// As hexadecimal digits without dashes.
    id: String,
}

/// How a candidate is recognised, the surest way first.
#[derive(Clone, Copy, PartialEq, Eq)]
enum By {
    WholeId,
    WholeName,
    NameBegins,
    PartOfId,
}

fn pick<T: Copy>(what: Thing, asked: &str, all: &[Candidate<T>]) -> Result<T> {
    let wanted = asked.trim().to_lowercase();
    let digits = wanted.replace('-', "");
    let is_id = digits.len() >= ID_LEAST && digits.chars().all(|c| c.is_ascii_hexdigit());
    let tries = [By::WholeId, By::WholeName, By::NameBegins, By::PartOfId];
    for by in tries.into_iter().filter(|by| *by != By::PartOfId || is_id) {
        let fits = |c: &&Candidate<T>| match by {
            By::WholeId => c.id == digits,
            By::WholeName => !wanted.is_empty() && c.name.to_lowercase() == wanted,
            By::NameBegins => !wanted.is_empty() && c.name.to_lowercase().starts_with(&wanted),
            By::PartOfId => c.id.starts_with(&digits) || c.id.ends_with(&digits),
        };
        let mut fitting = all.iter().filter(fits);
        match (fitting.next(), fitting.next()) {
            (Some(only), None) => return Ok(only.value),
            (Some(_), Some(_)) => {
                return Err(BookError::Ambiguous {
                    what,
                    name: asked.to_owned(),
                }
                .into());
            }
            _ => {}
        }
    }
    Err(BookError::NotFound {
        what,
        name: asked.to_owned(),
    }
    .into())
}

fn candidate<T>(value: T, name: impl Into<String>, id: Uuid) -> Candidate<T> {
    Candidate {
        value,
        name: name.into(),
        id: id.simple().to_string(),
    }
}

/// A yard.
pub(crate) fn yard(book: &Book, asked: &str) -> Result<SheetId> {
    let all: Vec<_> = book
        .yards()?
        .into_iter()
        .map(|y| candidate(y.yard, y.name, y.yard.0))
        .collect();
    pick(Thing::Yard, asked, &all)
}

/// A label sheet, by its product.
pub(crate) fn label(book: &Book, asked: &str) -> Result<SheetId> {
    let all: Vec<_> = book
        .labels()?
        .into_iter()
        .map(|l| candidate(l.sheet, l.product, l.sheet.0))
        .collect();
    pick(Thing::LabelSheet, asked, &all)
}

/// A section of a yard.
pub(crate) fn section<'a>(sheet: &'a YardSheet, asked: &str) -> Result<&'a Section> {
    let all: Vec<_> = sheet
        .sections
        .iter()
        .enumerate()
        .map(|(at, s)| candidate(at, s.name.clone(), s.id.0))
        .collect();
    Ok(&sheet.sections[pick(Thing::Section, asked, &all)?])
}

/// Several sections of a yard, by id.
pub(crate) fn sections(sheet: &YardSheet, asked: &[String]) -> Result<Vec<ItemId>> {
    asked
        .iter()
        .map(|name| Ok(section(sheet, name)?.id))
        .collect()
}

/// A visit: by its id, or the newest one to a yard by the yard's name.
pub(crate) fn visit(book: &Book, asked: &str) -> Result<VisitId> {
    let views = book.visits()?;
    let ids: Vec<_> = views
        .iter()
        .map(|v| candidate(v.visit, "", v.visit.0))
        .collect();
    match pick(Thing::Visit, asked, &ids) {
        Err(crate::error::CliError::Book(BookError::NotFound { .. })) => {}
        other => return other,
    }
    let no_visit = || BookError::NotFound {
        what: Thing::Visit,
        name: asked.to_owned(),
    };
    let Ok(yard) = yard(book, asked) else {
        return Err(no_visit().into());
    };
    let opened = |v: &VisitView| v.opened.map(|at| at.utc_ms);
    let newest = views
        .iter()
        .filter(|v| v.yard == Some(yard))
        .max_by_key(|v| (opened(v), v.visit));
    Ok(newest.ok_or_else(no_visit)?.visit)
}

/// A keep-off of a visit, by its section.
pub(crate) fn keep_off(book: &Book, visit: VisitId, asked: &str) -> Result<KeepOffView> {
    let mut views = book.keep_offs_of(visit)?;
    let all: Vec<_> = views
        .iter()
        .enumerate()
        .map(|(at, k)| candidate(at, k.name.clone(), k.keep_off.0))
        .collect();
    let at = pick(Thing::SectionTreated, asked, &all)?;
    Ok(views.swap_remove(at))
}

/// Several keep-offs of a visit.
pub(crate) fn keep_offs(book: &Book, visit: VisitId, asked: &[String]) -> Result<Vec<KeepOffId>> {
    asked
        .iter()
        .map(|name| Ok(keep_off(book, visit, name)?.keep_off))
        .collect()
}

/// A device, by who carries it or its stream.
pub(crate) fn device(book: &Book, asked: &str) -> Result<StreamId> {
    let all: Vec<_> = book
        .roster()
        .members()
        .map(|m| Candidate {
            value: m.stream,
            name: m
                .person
                .as_ref()
                .map(|p| p.name.clone())
                .unwrap_or_default(),
            id: m.stream.to_string(),
        })
        .collect();
    pick(Thing::Device, asked, &all)
}

/// Facts of a visit, as its history names them.
pub(crate) fn facts(book: &Book, visit: VisitId, asked: &[String]) -> Result<Vec<FactId>> {
    let history = book.visit(visit)?.history;
    asked
        .iter()
        .map(|text| {
            let wanted = text.trim().to_lowercase();
            let (entry, index) = wanted.split_once('.').unwrap_or((&wanted, ""));
            let fits = |fact: &FactId| {
                entry.len() >= ID_LEAST
                    && fact.entry.to_string().starts_with(entry)
                    && (index.is_empty() || fact.index.to_string() == index)
            };
            let mut fits = history.iter().map(|line| line.fact).filter(fits);
            match (fits.next(), fits.next()) {
                (Some(only), None) => Ok(only),
                (None, _) => Err(BookError::NotFound {
                    what: Thing::FactInVisit,
                    name: text.clone(),
                }
                .into()),
                _ => Err(BookError::Ambiguous {
                    what: Thing::Fact,
                    name: text.clone(),
                }
                .into()),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::error::CliError;

    fn all() -> Vec<Candidate<u8>> {
        let id = |text: &str| Uuid::parse_str(text).unwrap();
        vec![
            candidate(1, "Front", id("0197a000-0000-7000-8000-00000000beef")),
            candidate(
                2,
                "Front, by the road",
                id("0197a000-0000-7000-8000-00000000cafe"),
            ),
            candidate(3, "Back", id("0197a000-0000-7000-8000-00000000f00d")),
        ]
    }

    #[test]
    fn a_whole_name_stands_above_its_being_the_beginning_of_another() {
        assert_eq!(pick(Thing::Section, "front", &all()).unwrap(), 1);
        assert_eq!(pick(Thing::Section, "front,", &all()).unwrap(), 2);
        assert_eq!(pick(Thing::Section, "B", &all()).unwrap(), 3);
    }

    #[test]
    fn ids_are_found_by_either_end() {
        assert_eq!(pick(Thing::Section, "cafe", &all()).unwrap(), 2);
        assert_eq!(
            pick(
                Thing::Section,
                "0197a000-0000-7000-8000-00000000f00d",
                &all()
            )
            .unwrap(),
            3
        );
    }

    #[test]
    fn what_fits_several_or_none_is_refused() {
        let several = pick(Thing::Section, "0197a000", &all()).unwrap_err();
        assert!(matches!(
            several,
            CliError::Book(BookError::Ambiguous { .. })
        ));
        for nothing in ["", "side", "abc"] {
            let none = pick(Thing::Section, nothing, &all()).unwrap_err();
            assert!(
                matches!(none, CliError::Book(BookError::NotFound { .. })),
                "{nothing}"
            );
        }
    }
}
