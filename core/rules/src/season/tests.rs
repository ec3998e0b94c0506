//! Corner cases of a season: what is not known never clears.

use super::*;
use crate::error::RuleError;
use crate::finding::{Reason, Shown, Verdict};
use crate::label::{Ingredient, LabelSays};
use crate::measure::AreaEstimate;
use crate::quantity::Entered;

fn e(text: &str) -> Entered {
    Entered::parse(text).unwrap()
}

fn put_on(name: &str, product: &str, area: (&str, &str)) -> PutOn {
    PutOn {
        ingredients: vec![Ingredient {
            name: name.into(),
            content: e("0.2 %"),
        }],
        product: Some(e(product)),
        area: AreaEstimate::stated(&e(area.0), &e(area.1)).unwrap(),
    }
}

fn most(name: &str, most: LabelSays<Entered>) -> SeasonMost {
    SeasonMost {
        name: name.into(),
        most,
    }
}

fn sums(before: &[PutOn], most: &[SeasonMost]) -> Vec<IngredientSum> {
    let input = SeasonInput {
        before,
        planned: None,
        most,
        others: Others::SaidNone,
    };
    season_ingredients(&input).unwrap().value
}

const ACRE: (&str, &str) = ("1 acre", "0 ft2");

#[test]
fn a_second_label_that_nobody_read_may_have_the_lower_most() {
    let before = [put_on("bifenthrin", "100 lb", ACRE)];
    let read = most("bifenthrin", LabelSays::Value(e("0.4 lb/acre")));
    let unread = most("bifenthrin", LabelSays::Unfilled);
    let silent = most("bifenthrin", LabelSays::Nothing);
    let of = |most: &[SeasonMost]| sums(&before, most).remove(0);
    let both = of(&[read.clone(), unread.clone()]);
    assert_eq!(both.finding.verdict, Verdict::Unknown);
    assert!(matches!(
        both.finding.reason,
        Reason::SeasonMostNotKnown { .. }
    ));
    assert_eq!(both.room, None);
    // The one that was read is named all the same.
    let amount = e("0.4 lb/acre");
    assert_eq!(both.finding.limit, Some(Shown::Amount { amount }));
    let of_two = of(&[read, silent]);
    assert_eq!(of_two.finding.verdict, Verdict::Clear);
    assert_eq!(of_two.room, Some(e("0.2 lb/acre")));
    // Above the one that was read is above.
    let low = most("bifenthrin", LabelSays::Value(e("0.1 lb/acre")));
    assert_eq!(of(&[low, unread]).finding.verdict, Verdict::DontTreat);
}

#[test]
fn an_area_that_may_be_nothing_may_have_had_any_dose() {
    let most = [most("bifenthrin", LabelSays::Value(e("0.4 lb/acre")))];
    let unsure = [put_on("bifenthrin", "100 lb", ("1 acre", "1 acre"))];
    let sum = sums(&unsure, &most).remove(0);
    assert_eq!((sum.so_far, sum.not_known), (e("0.2 lb/acre"), 1));
    assert_eq!(sum.finding.verdict, Verdict::Unknown);
    // Of what the product does not hold, none went on wherever it went.
    let other = [put_on("imidacloprid", "100 lb", ("1 acre", "1 acre"))];
    let bifenthrin = sums(&other, &most).remove(1);
    assert_eq!(
        (bifenthrin.name.as_str(), bifenthrin.not_known),
        ("bifenthrin", 0)
    );
    assert_eq!(bifenthrin.finding.verdict, Verdict::Clear);
}

#[test]
fn one_ingredient_is_one_however_it_is_written() {
    let before = [
        put_on("Ácido bórico ", "100 lb", ACRE),
        put_on("ÁCIDO BÓRICO", "100 lb", ACRE),
    ];
    let most = [most("ácido bórico", LabelSays::Value(e("0.3 lb/acre")))];
    let all = sums(&before, &most);
    assert_eq!(all.len(), 1);
    assert_eq!(all[0].so_far, e("0.4 lb/acre"));
    assert_eq!(all[0].finding.verdict, Verdict::DontTreat);
}

#[test]
fn a_season_does_not_begin_after_the_day_in_question() {
    let day = |month| NaiveDate::from_ymd_opt(2026, month, 1).unwrap();
    let mut asked = RepeatAsked {
        shortest: LabelSays::Nothing,
        season_most: LabelSays::Value(1),
        season_from: day(7),
        before: LastPutOn::Days(vec![day(5)]),
        others: Others::SaidNone,
        planned: day(6),
    };
    // Counted from July on, the treatment of May would be none of this season.
    assert!(matches!(repeat(&asked), Err(RuleError::DayAfter { .. })));
    asked.season_from = day(1);
    assert_eq!(repeat(&asked).unwrap().value.verdict(), Verdict::DontTreat);
}
