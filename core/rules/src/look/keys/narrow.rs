//! Answers narrow a key: what is left, what is excluded and why, and what to look at next.

use serde::Serialize;

use super::{Key, Kind, Question, TYPED_MOST, joined};
use crate::error::{Field, Result, RuleError, shortened};

/// From how many features seen on it a kind that alone is left "fits"; one alone is easily misseen.
const FITS_FROM: usize = 2;
/// From how many features on a kind that hurts people is excluded; of others one is enough.
const EXCLUDES_WHAT_HURTS: usize = 2;

/// One answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Answered<'a> {
    /// Which question.
    pub question: &'a str,
    /// What was seen; none when not sure, which excludes nothing.
    pub choice: Option<&'a str>,
}

/// How well a kind goes with what was seen. There is no "certain".
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// It alone is left, at least two features were seen on it, and nothing speaks against it.
    Fits,
    /// It is not excluded.
    MayBe,
}

/// A kind that is left.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Which.
    pub kind: &'static Kind,
    /// How well it goes with what was seen.
    pub standing: Standing,
    /// The questions whose answers it goes with.
    pub seen: Vec<&'static str>,
    /// What speaks against it and does not exclude it, because it hurts people: each question with
    /// what was seen.
    pub against: Vec<(&'static str, &'static str)>,
}

/// A kind that is excluded, with what excluded it.
#[derive(Debug, Clone, PartialEq)]
pub struct Excluded {
    /// Which.
    pub kind: &'static Kind,
    /// Each question whose answer speaks against it, with what was seen.
    pub by: Vec<(&'static str, &'static str)>,
}

/// What answers leave of a key. Whoever shows it also says "not sure: ask your extension office".
#[derive(Debug, Clone, PartialEq)]
pub struct Narrowed {
    /// The kinds left, in the key's order; empty when what was seen fits none.
    pub candidates: Vec<Candidate>,
    /// The kinds excluded, in the key's order.
    pub excluded: Vec<Excluded>,
    /// What to look at next: what splits best, or what would confirm the one that is left. None
    /// when no question says more.
    pub next: Option<&'static Question>,
}

/// Narrows a key by the answers given so far, in any order.
///
/// ```
/// use sward_rules::look::keys::{Answered, Standing, key, narrow};
/// let grubs = key("white-grub")?;
/// let seen = |question, choice| Answered { question, choice: Some(choice) };
/// let one = narrow(grubs, &[seen("raster", "v")])?;
/// assert_eq!(one.candidates[0].kind.name, "japanese-beetle");
/// assert_eq!(one.candidates[0].standing, Standing::MayBe);
/// let two = narrow(grubs, &[seen("raster", "v"), seen("slit", "across")])?;
/// assert_eq!(two.candidates[0].standing, Standing::Fits);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When a question or an answer is none of this key's, or a question is answered twice.
pub fn narrow(key: &'static Key, answers: &[Answered<'_>]) -> Result<Narrowed> {
    let answers = checked(key, answers)?;
    let mut candidates = Vec::new();
    let mut excluded = Vec::new();
    for kind in key.kinds {
        let mut seen = Vec::new();
        let mut by = Vec::new();
        for (question, choice) in &answers {
            let (Some(choice), Some(shown)) = (choice, kind.shows_on(question.name)) else {
                continue;
            };
            if shown.contains(choice) {
                seen.push(question.name);
            } else {
                by.push((question.name, *choice));
            }
        }
        let excludes = if kind.hurts_people {
            EXCLUDES_WHAT_HURTS
        } else {
            1
        };
        if by.len() < excludes {
            candidates.push(Candidate {
                kind,
                standing: Standing::MayBe,
                seen,
                against: by,
            });
        } else {
            excluded.push(Excluded { kind, by });
        }
    }
    if let [only] = candidates.as_mut_slice()
        && only.seen.len() >= FITS_FROM
        && only.against.is_empty()
    {
        only.standing = Standing::Fits;
    }
    let next = next(key, &candidates, &answers);
    Ok(Narrowed {
        candidates,
        excluded,
        next,
    })
}

type Known = (&'static Question, Option<&'static str>);

fn checked(key: &'static Key, answers: &[Answered<'_>]) -> Result<Vec<Known>> {
    if answers.len() > 4 * key.questions.len() {
        return Err(RuleError::TooMany {
            field: Field::Answers,
            count: answers.len(),
            limit: key.questions.len(),
        });
    }
    let mut known: Vec<Known> = Vec::new();
    for answer in answers {
        let question = key
            .question(answer.question)
            .ok_or_else(|| RuleError::NoSuchQuestion {
                text: shortened(answer.question, TYPED_MOST),
                offered: joined(key.questions.iter().map(|q| q.name)),
            })?;
        if known.iter().any(|(q, _)| q.name == question.name) {
            return Err(RuleError::AnsweredTwice {
                question: question.name.to_owned(),
            });
        }
        let choice = answer.choice.map(|typed| choice(question, typed));
        known.push((question, choice.transpose()?));
    }
    Ok(known)
}

fn choice(question: &'static Question, typed: &str) -> Result<&'static str> {
    let found = question.choices.iter().find(|c| c.name == typed);
    found
        .map(|c| c.name)
        .ok_or_else(|| RuleError::NoSuchChoice {
            text: shortened(typed, TYPED_MOST),
            question: question.name.to_owned(),
            offered: joined(question.choices.iter().map(|c| c.name)),
        })
}

/// The unanswered question after which the fewest kinds are to be expected; with one kind left, the
/// first that would still confirm it. Of equals the key's first.
fn next(key: &'static Key, left: &[Candidate], answers: &[Known]) -> Option<&'static Question> {
    let is_open = |q: &&Question| !answers.iter().any(|(a, _)| a.name == q.name);
    let mut open = key.questions.iter().filter(is_open);
    if let [only] = left {
        return open.find(|q| only.kind.shows_on(q.name).is_some());
    }
    let all = number(left.len());
    let mut best: Option<(f64, &'static Question)> = None;
    for question in open {
        let expected = expected_left(question, left);
        // A question that splits nothing is not worth a look; rounding must not make it one.
        let is_better = best.is_none_or(|(least, _)| expected < least - 1e-9);
        if expected < all - 1e-9 && is_better {
            best = Some((expected, question));
        }
    }
    best.map(|(_, question)| question)
}

/// How many kinds are to be expected after a question, were all that are left equally likely, and
/// each as likely to show any of its choices.
fn expected_left(question: &Question, left: &[Candidate]) -> f64 {
    let all = number(left.len());
    let of_choice = |name: &'static str| {
        let mut likely = 0.0;
        let mut remain = 0.0;
        for candidate in left {
            match candidate.kind.shows_on(question.name) {
                Some(shown) if shown.contains(&name) => {
                    likely += 1.0 / number(shown.len());
                    remain += 1.0;
                }
                Some(_) => {}
                None => {
                    likely += 1.0 / number(question.choices.len());
                    remain += 1.0;
                }
            }
        }
        likely / all * remain
    };
    question.choices.iter().map(|c| of_choice(c.name)).sum()
}

/// A number of kinds or choices, of which a key has few.
fn number(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}
