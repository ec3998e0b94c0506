//! What must be the same on all three phones after the swap, and the comparison that says so.
//! Each phone is asked by steps of its own; nothing is read past the program.

use serde::Serialize;
use serde_json::Value;

use super::answer::{list, number, part, text};
use super::phone::Phone;
use crate::error::Result;

/// One comparison, as it is told.
#[derive(Debug, PartialEq, Eq, Serialize)]
pub(super) struct Check {
    /// What was compared.
    pub(super) what: &'static str,
    /// Whether it is as it must be.
    pub(super) passed: bool,
    /// How much was compared, or who differs.
    pub(super) detail: String,
}

/// What one phone holds, as far as it is compared.
#[derive(Clone)]
struct Held {
    whole: bool,
    counted: String,
    entries: String,
    views: String,
    sheets: String,
    keep_offs: Vec<Value>,
    csv: Vec<u8>,
    json: Vec<u8>,
}

/// Asks every phone what it holds and compares.
///
/// # Errors
/// When a phone gives no answer.
pub(super) fn compare(phones: &[&Phone]) -> Result<Vec<Check>> {
    let held: Vec<Held> = phones
        .iter()
        .map(|phone| Held::by(phone))
        .collect::<Result<_>>()?;
    Ok(compared(&held))
}

impl Held {
    fn by(phone: &Phone) -> Result<Self> {
        let proven = phone.asks("verify")?;
        let count = |what: &str| number(&proven, &format!("/verified/{what}"));
        let hash = |what: &str| -> Result<String> {
            Ok(text(&proven, &format!("/equal_elsewhere/{what}"))?.to_owned())
        };
        let running = phone.does("keep-offs")?;
        Ok(Self {
            whole: part(&proven, "/whole")?.as_bool() == Some(true)
                && list(&proven, "/verified/waiting")?.is_empty(),
            counted: format!(
                "{} entries, {} sheets, {} views",
                count("entries")?,
                count("sheets")?,
                count("views")?
            ),
            entries: hash("entries")?,
            views: hash("views")?,
            sheets: hash("sheets")?,
            keep_offs: list(&running, "/keep_offs")?.to_vec(),
            csv: phone.writes("records export - --as csv")?,
            json: phone.writes("records export - --as json")?,
        })
    }
}

fn compared(held: &[Held]) -> Vec<Check> {
    let Some(first) = held.first() else {
        return Vec::new();
    };
    vec![
        check(
            "every book proves whole, made anew from its log",
            held,
            |h| h.whole,
            &first.counted,
        ),
        check(
            "the same entries",
            held,
            |h| h.entries == first.entries,
            "one hash over all heads",
        ),
        check(
            "all views equal",
            held,
            |h| h.views == first.views,
            "byte for byte",
        ),
        check(
            "all document heads equal",
            held,
            |h| h.sheets == first.sheets,
            "every sheet",
        ),
        check(
            "the same keep-offs still running",
            held,
            |h| h.keep_offs == first.keep_offs,
            &format!("{} running", first.keep_offs.len()),
        ),
        check(
            "the exported CSV equal",
            held,
            |h| h.csv == first.csv,
            "byte for byte",
        ),
        check(
            "the exported JSON equal",
            held,
            |h| h.json == first.json,
            "byte for byte",
        ),
    ]
}

fn check(what: &'static str, held: &[Held], fits: impl Fn(&Held) -> bool, detail: &str) -> Check {
    let not: Vec<String> = (1..)
        .zip(held)
        .filter(|(_, held)| !fits(held))
        .map(|(number, _)| format!("phone {number}"))
        .collect();
    if not.is_empty() {
        Check {
            what,
            passed: true,
            detail: detail.to_owned(),
        }
    } else {
        Check {
            what,
            passed: false,
            detail: format!("not so on {}", not.join(" and ")),
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    fn held() -> Held {
        Held {
            whole: true,
            counted: "3 entries, 1 sheets, 2 views".into(),
            entries: "e".into(),
            views: "v".into(),
            sheets: "s".into(),
            keep_offs: vec![json!({ "name": "front lawn" })],
            csv: b"a,b\r\n".to_vec(),
            json: b"[]".to_vec(),
        }
    }

    #[test]
    fn equal_phones_pass() {
        assert!(
            compared(&[held(), held(), held()])
                .iter()
                .all(|check| check.passed)
        );
    }

    #[test]
    fn each_difference_fails_its_own_comparison_and_names_the_phone() {
        let spoil: [fn(&mut Held); 7] = [
            |h| h.whole = false,
            |h| h.entries.push('x'),
            |h| h.views.push('x'),
            |h| h.sheets.push('x'),
            |h| h.keep_offs.clear(),
            |h| h.csv.push(b' '),
            |h| h.json.push(b' '),
        ];
        for (number, spoil) in spoil.iter().enumerate() {
            let mut three = [held(), held(), held()];
            spoil(&mut three[2]);
            let checks = compared(&three);
            for (at, check) in checks.iter().enumerate() {
                assert_eq!(check.passed, at != number, "{check:?}");
            }
            assert_eq!(checks[number].detail, "not so on phone 3");
        }
    }
}
