//! Counting: one number a sample, all samples taken in one way.

use maud::{Markup, html};
use sward_book::ids::VisitId;
use sward_rules::Entered;
use sward_rules::look::{Pest, Sample, SampleMethod};

use super::pest;
use super::result::Look;
use crate::ask::{Ask, Doing, Next, draft_name};
use crate::part::form::{FormPart, NumberField};
use crate::screen::visit::Here;
use crate::trouble::Wrong;
use crate::words::{Units, Words};
use crate::{Result, Trouble};

/// Fields for counts at first.
const FIELDS_LEAST: usize = 4;
/// Most fields for counts.
const FIELDS_MOST: usize = 24;
/// What a person can count in one sample.
const COUNT_MOST: i64 = 100_000;
/// The pest that is named in the text field.
const ANOTHER: &str = "another";

/// The ways to take a sample whose size is an area; of the others it is a width.
const BY_AREA: [&str; 2] = ["drench", "area"];

/// The form for a new count.
pub(super) fn form(ask: &Ask<'_>, here: &Here, looks: &[Look]) -> Markup {
    let fields = fields(ask);
    let key = fields.to_string();
    // What a key found comes first, before a draft too.
    let found = ask
        .query("pest")
        .and_then(pest::of_code)
        .map(pest::recorded);
    let form = ask.form_keyed("count", &key);
    let form = match &found {
        Some(found) => form.over_draft("pest", found),
        None => form,
    };
    let last = looks.last();
    let pest = last.map_or(here.visit.target.as_str(), |l| l.count.pest.as_str());
    let pest = found.as_deref().unwrap_or(pest);
    let (chosen, another) = match pest::of_text(pest) {
        Some(known) => (Some(pest::recorded(known)), String::new()),
        None if pest.is_empty() => (None, String::new()),
        None => (Some(ANOTHER.to_owned()), pest.to_owned()),
    };
    let method = last
        .and_then(|l| l.count.samples.first())
        .map(|s| &s.method);
    let (way, size) = method.map_or((None, None), |m| {
        let (way, size) = way_of(m);
        (Some(way), Some(size))
    });
    let by_area = way.is_some_and(|w| BY_AREA.contains(&w));
    html! {
        h2 { (ask.t("look-count")) }
        (form.wrap(html! {
            (form.select("pest", "look-pest", &pests(ask.words), chosen.as_deref()))
            (form.text("other", "look-pest-other", "", Some(&another)))
            (form.choice("method", "look-method", &methods(ask), way))
            (size_field(ask, &form, ("across", "look-across"), size.filter(|_| !by_area)))
            (size_field(ask, &form, ("searched", "look-searched"), size.filter(|_| by_area)))
            h2 { (ask.t("look-samples")) }
            @for number in 1..=fields {
                (sample_field(ask, &form, number))
            }
            @if fields < FIELDS_MOST {
                button.way type="submit" name="more" value="yes" { (ask.t("look-more")) }
            }
            (form.lines("note", "look-note", "look-note-help", None))
            @if looks.is_empty() { (form.submit("look-save")) } @else { (form.quiet_submit("look-save-another")) }
        }))
    }
}

fn sample_field(ask: &Ask<'_>, form: &FormPart<'_>, number: usize) -> Markup {
    html! {
        div.sample {
            p { (ask.words.t_with("look-sample", &[("n", number.into())])) }
            (form.count(&field_of(number), "look-found", "", None))
        }
    }
}

fn field_of(number: usize) -> String {
    format!("count{number}")
}

/// How many fields for counts: as many as are sent, asked for, or lie in a draft.
fn fields(ask: &Ask<'_>) -> usize {
    let sent = ask.again.map(|a| a.form.text("key").to_owned());
    let asked = sent.or_else(|| ask.query("n").map(str::to_owned));
    let asked = asked.and_then(|n| n.parse().ok());
    let drafted = || {
        (FIELDS_LEAST + 1..=FIELDS_MOST)
            .rev()
            .find(|n| ask.draft("count", &n.to_string()).is_some())
    };
    asked
        .or_else(drafted)
        .unwrap_or(FIELDS_LEAST)
        .clamp(FIELDS_LEAST, FIELDS_MOST)
}

fn pests(words: Words) -> Vec<(String, String)> {
    let none = (String::new(), words.t("look-pest-choose"));
    let known = Pest::ALL
        .into_iter()
        .map(|p| (pest::recorded(p), pest::name(words, p)));
    let another = (ANOTHER.to_owned(), words.t("look-pest-another"));
    std::iter::once(none)
        .chain(known)
        .chain(std::iter::once(another))
        .collect()
}

fn methods(ask: &Ask<'_>) -> Vec<(&'static str, String)> {
    vec![
        ("sod", ask.t("look-method-sod")),
        ("can", ask.t("look-method-can")),
        ("cup", ask.t("look-method-cup")),
        ("drench", ask.t("look-method-drench")),
        ("area", ask.t("look-method-area")),
    ]
}

fn way_of(method: &SampleMethod) -> (&'static str, &Entered) {
    match method {
        SampleMethod::SodSquare(size) => ("sod", size),
        SampleMethod::FloatingCan(size) => ("can", size),
        SampleMethod::CupCutter(size) => ("cup", size),
        SampleMethod::SoapDrench(size) => ("drench", size),
        SampleMethod::Area(size) => ("area", size),
    }
}

/// A size field; a size that is there already keeps its own unit.
fn size_field(
    ask: &Ask<'_>,
    form: &FormPart<'_>,
    (name, label): (&str, &str),
    size: Option<&Entered>,
) -> Markup {
    let offered = match (name, ask.words.units) {
        ("across", Units::Us) => "in",
        ("across", Units::Metric) => "cm",
        (_, Units::Us) => "ft2",
        (_, Units::Metric) => "m2",
    };
    let unit = size.map_or_else(|| offered.to_owned(), |s| s.unit().for_person());
    form.number(&NumberField {
        name,
        label,
        unit: &unit,
        filled: size.map(|s| s.amount().to_string()),
        from: size.map_or_else(String::new, |_| ask.t("look-from-last")),
    })
}

/// Records a count, or adds one more field for it.
pub(super) fn count(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    if doing.form.is_ticked("more") {
        return one_more(doing, visit);
    }
    let pest = pest_typed(doing);
    let method = method_typed(doing);
    let counts = counts_typed(doing);
    let (pest, method, counts) = match (pest, method, counts) {
        (Ok(pest), Ok(method), Ok(counts)) => (pest, method, counts),
        (pest, method, counts) => {
            let wrong = [pest.err(), method.err(), counts.err()];
            return Err(Trouble::Fields(wrong.into_iter().flatten().collect()));
        }
    };
    let samples = counts
        .into_iter()
        .map(|count| Sample {
            method: method.clone(),
            count,
        })
        .collect();
    let note = doing.text("note").to_owned();
    let size_field = size_field_of(doing.text("method"));
    doing
        .book()?
        .count(visit, &pest, samples, &note)
        .map_err(|error| match error {
            // With counts and kinds checked, only the size is left to be wrong.
            sward_book::BookError::Rule(_) => Trouble::in_field(size_field, error),
            error => Trouble::from(error),
        })?;
    Ok(Next::Go(format!("/visit/{visit}/look")))
}

/// Keeps what is typed as the draft of the longer form, and shows that.
fn one_more(doing: &Doing<'_>, visit: VisitId) -> Result<Next> {
    let now: usize = doing.text("key").parse().unwrap_or(FIELDS_LEAST);
    let more = (now + 1).clamp(FIELDS_LEAST, FIELDS_MOST);
    let typed: Vec<_> = doing
        .form
        .fields
        .iter()
        .filter(|(name, _)| !["do", "key", "once", "more"].contains(&name.as_str()))
        .cloned()
        .collect();
    let name = draft_name(doing.shared.which(), doing.path, "count", &more.to_string());
    let now_ms = doing.now_ms();
    doing.shared.desk().keep_draft(&name, &typed, now_ms)?;
    Ok(Next::Go(format!("/visit/{visit}/look?n={more}")))
}

fn pest_typed(doing: &Doing<'_>) -> Result<String> {
    let chosen = doing.text("pest");
    let typed = match chosen {
        "" | ANOTHER => doing.text("other"),
        known => known,
    };
    match (typed, chosen) {
        ("", ANOTHER) => Err(Trouble::field("other", Wrong::Missing)),
        ("", _) => Err(Trouble::field("pest", Wrong::Missing)),
        // A known pest is recorded by one name, in whichever language it was typed.
        (typed, _) => Ok(pest::of_text(typed).map_or_else(|| typed.to_owned(), pest::recorded)),
    }
}

fn size_field_of(method: &str) -> &'static str {
    if BY_AREA.contains(&method) {
        "searched"
    } else {
        "across"
    }
}

fn method_typed(doing: &Doing<'_>) -> Result<SampleMethod> {
    let way = doing.text("method");
    let make: fn(Entered) -> SampleMethod = match way {
        "sod" => SampleMethod::SodSquare,
        "can" => SampleMethod::FloatingCan,
        "cup" => SampleMethod::CupCutter,
        "drench" => SampleMethod::SoapDrench,
        "area" => SampleMethod::Area,
        "" => return Err(Trouble::field("method", Wrong::Missing)),
        _ => return Err(Trouble::field("method", Wrong::NotOffered)),
    };
    let field = size_field_of(way);
    let method = make(doing.form.amount_needed(field)?);
    sward_rules::look::per_ft2(&method).map_err(|error| Trouble::in_field(field, error))?;
    Ok(method)
}

/// The counts; a field left empty is a sample not taken, which is not one that held none.
fn counts_typed(doing: &Doing<'_>) -> Result<Vec<u32>> {
    let mut counts = Vec::new();
    for number in 1..=FIELDS_MOST {
        let counted = doing.form.whole(&field_of(number), 0, COUNT_MOST)?;
        counts.extend(counted.and_then(|n| u32::try_from(n).ok()));
    }
    if counts.is_empty() {
        return Err(Trouble::field(field_of(1), Wrong::Missing));
    }
    Ok(counts)
}
