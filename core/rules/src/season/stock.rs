//! Product on hand, by lot: enough for a plan, which lot first, what is missing.

use chrono::NaiveDate;
use rust_decimal::Decimal;
use serde::Serialize;

use super::day_text;
use crate::error::{Allowed, Field, Result, RuleError};
use crate::finding::{Check, Finding, Reason, Shown, Verdict, Whose, sum};
use crate::label::LabelSays;
use crate::mix::SPARE_DIGITS;
use crate::note::Note;
use crate::quantity::{Dimension, Entered, out_of_range, positive, shown_down, shown_up};
use crate::working::{Answer, Working};

/// Most lots of one product.
pub const LOTS_MOST: usize = 200;

/// One lot on the shelf.
#[derive(Debug, Clone)]
pub struct Lot {
    /// Its number as printed, or what the crew calls it.
    pub name: String,
    /// How much is left; none where nobody has measured.
    pub on_hand: Option<Entered>,
    /// When it was bought.
    pub bought: Option<NaiveDate>,
    /// When it was opened; none where it is closed, or nobody noted it.
    pub opened: Option<NaiveDate>,
    /// The last day printed on it.
    pub expires: LabelSays<NaiveDate>,
}

/// What is asked of the stock.
#[derive(Debug, Clone)]
pub struct StockAsked<'a> {
    /// The lots of one product.
    pub lots: &'a [Lot],
    /// What a plan needs.
    pub needed: Entered,
    /// The day of the treatment.
    pub day: NaiveDate,
}

/// What to take of a lot.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LotUse {
    /// Its name.
    pub name: String,
    /// How much to take.
    pub take: Entered,
    /// How much stays, rounded down.
    pub left_after: Entered,
}

/// What the stock gives.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StockPlan {
    /// Lots to use, the first first.
    pub lots: Vec<LotUse>,
    /// What is known to be there and not past its day, rounded down.
    pub on_hand: Entered,
    /// What is missing, rounded up.
    pub short: Option<Entered>,
    /// Enough or not, and what is not known of which lot.
    pub findings: Vec<Finding>,
}

impl StockPlan {
    /// The findings in one word.
    pub fn verdict(&self) -> Verdict {
        sum(&self.findings)
    }
}

/// Which lots a plan takes, the oldest first. A lot past its printed day is left out; a lot of which
/// nobody knows how much is left counts for nothing.
///
/// ```
/// # use chrono::NaiveDate;
/// # use sward_rules::{Entered, Verdict, label::LabelSays, season::*};
/// # let e = |t: &str| Entered::parse(t).unwrap();
/// # let day = |y, m, d| NaiveDate::from_ymd_opt(y, m, d).unwrap();
/// let lot = |name: &str, on_hand, opened| Lot {
///     name: name.into(), on_hand: Some(e(on_hand)), bought: Some(day(2026, 3, 1)), opened,
///     expires: LabelSays::Nothing,
/// };
/// let lots = [lot("B", "40 lb", None), lot("A", "6 lb", Some(day(2026, 5, 1)))];
/// let plan = stock(&StockAsked { lots: &lots, needed: e("30.8 lb"), day: day(2026, 6, 1) })?.value;
/// assert_eq!((&*plan.lots[0].name, plan.lots[0].take), ("A", e("6 lb")));
/// assert_eq!((plan.lots[1].take, plan.lots[1].left_after), (e("24.8 lb"), e("15.2 lb")));
/// assert_eq!(plan.verdict(), Verdict::Clear);
/// # Ok::<(), sward_rules::RuleError>(())
/// ```
///
/// # Errors
/// When an amount is of another kind than what is needed, nothing is needed, two lots have one name,
/// or there are too many.
pub fn stock(asked: &StockAsked<'_>) -> Result<Answer<StockPlan>> {
    let kind = asked.needed.dimension();
    if !matches!(kind, Dimension::Mass | Dimension::Volume) {
        return Err(RuleError::NotAllowed {
            field: Field::NeededProduct,
            given: asked.needed.for_person(),
            allowed: Allowed::ProductKind,
        });
    }
    positive(&asked.needed, kind, &Field::NeededProduct)?;
    check_lots(asked.lots)?;
    let mut lots: Vec<&Lot> = asked.lots.iter().collect();
    lots.sort_by(|a, b| order(a).cmp(&order(b)));
    let unit = asked.needed.unit();
    let range = || out_of_range(&asked.needed);
    let down = |amount| shown_down(amount, unit, SPARE_DIGITS).ok_or_else(range);
    let mut missing = asked.needed.amount();
    let (mut on_hand, mut uses, mut not_known) = (Decimal::ZERO, Vec::new(), Vec::new());
    for lot in lots {
        let there = match &lot.on_hand {
            None => None,
            Some(there) => {
                let field = Field::OnHand {
                    name: lot.name.clone(),
                };
                there.must_be(kind).map_err(|e| e.of(field.clone()))?;
                Some(
                    there
                        .in_unit(unit)
                        .ok_or_else(|| out_of_range(there).of(field))?,
                )
            }
        };
        let name = || lot.name.clone();
        if let LabelSays::Value(last) = &lot.expires
            && *last < asked.day
        {
            not_known.push(expired(lot, *last, asked.day));
            continue;
        }
        let Some(there) = there else {
            let reason = Reason::StockNotKnown { lot: name() };
            not_known.push(Finding::unknown(Check::Stock, reason));
            continue;
        };
        on_hand = on_hand.checked_add(there).ok_or_else(range)?;
        let take = there.min(missing);
        if take.is_zero() {
            continue;
        }
        if lot.expires == LabelSays::Unfilled {
            let reason = Reason::LotExpiryNotKnown { lot: name() };
            not_known.push(Finding::unknown(Check::Stock, reason));
        }
        missing -= take;
        uses.push(LotUse {
            name: name(),
            take: shown_up(take, unit, 9).ok_or_else(range)?,
            left_after: down(there - take)?,
        });
    }
    let short = if missing.is_zero() {
        None
    } else {
        Some(shown_up(missing, unit, SPARE_DIGITS).ok_or_else(range)?)
    };
    let on_hand = down(on_hand)?;
    let mut findings = vec![enough(asked, on_hand, short)];
    // With enough in known lots, one that nobody measured decides nothing.
    let needed = |f: &Finding| short.is_some() || !matches!(f.reason, Reason::StockNotKnown { .. });
    findings.extend(not_known.into_iter().filter(needed));
    let working = Working::new("lots in order until there is enough", "arithmetic")
        .input("needed", asked.needed.for_person())
        .input("day", day_text(asked.day))
        .note(Note::OldestFirst);
    Ok(working.gives(StockPlan {
        lots: uses,
        on_hand,
        short,
        findings,
    }))
}

fn check_lots(lots: &[Lot]) -> Result<()> {
    if lots.len() > LOTS_MOST {
        return Err(RuleError::TooMany {
            field: Field::Lots,
            count: lots.len(),
            limit: LOTS_MOST,
        });
    }
    for (index, lot) in lots.iter().enumerate() {
        if lots[..index].iter().any(|other| other.name == lot.name) {
            return Err(RuleError::SameLot {
                name: lot.name.clone(),
            });
        }
    }
    Ok(())
}

/// Opened lots first, by the day; then by the day printed, by the day bought; what has no day last.
fn order(lot: &Lot) -> impl Ord + '_ {
    let dated = |day: Option<NaiveDate>| (day.is_none(), day);
    (
        dated(lot.opened),
        dated(lot.expires.value().copied()),
        dated(lot.bought),
        &lot.name,
    )
}

fn expired(lot: &Lot, last: NaiveDate, day: NaiveDate) -> Finding {
    let reason = Reason::LotExpired {
        lot: lot.name.clone(),
    };
    Finding::new(Check::Stock, Verdict::Caution, reason)
        .with_value(Shown::Day { day: day_text(day) })
        .with_limit(
            Shown::Day {
                day: day_text(last),
            },
            Whose::Label,
        )
}

fn enough(asked: &StockAsked<'_>, on_hand: Entered, short: Option<Entered>) -> Finding {
    let finding = match short {
        None => Finding::new(Check::Stock, Verdict::Clear, Reason::StockEnough),
        Some(amount) => Finding::new(
            Check::Stock,
            Verdict::Caution,
            Reason::StockShort { amount },
        ),
    };
    finding
        .with_value(Shown::Amount { amount: on_hand })
        .with_limit(
            Shown::AtLeast {
                least: asked.needed,
            },
            Whose::Nobody,
        )
}
