//! Reading the numbers of a label sheet back: typed again without seeing what the sheet says.
//!
//! Whether two readings are the same, the book decides.

use maud::{Markup, html};
use sward_book::BookError;
use sward_book::fact::ReadBackHow;
use sward_book::ids::SheetId;
use sward_book::refusal::{LabelRefusal, ReadBackFault, Refusal};
use sward_book::sheet::schema::{self, Field};
use sward_book::sheet::{SheetDoc, check_text};

use super::one::{Waits, waits};
use super::{KIND, ingredients};
use crate::ask::{Ask, Doing, Next, Page, Place, Screen};
use crate::screen::things::fields::{self, Purpose};
use crate::screen::things::typed;
use crate::trouble::Wrong;
use crate::{Result, Trouble, part};

pub(super) const SCREEN: Screen = Screen {
    path: "/things/labels/{label}/read-back",
    show,
    acts: &[("agree", agree)],
};

const SECOND: &str = "second";
const ALONE: &str = "alone";

fn show(ask: &Ask<'_>) -> Result<Page> {
    let label: SheetId = ask.param("label")?;
    let book = ask.book()?;
    let view = book.label(label)?;
    let doc = book.sheet(label, KIND)?;
    let sheet = format!("/things/labels/{label}");
    let main = match waits(ask, &view)? {
        Waits::Method => html! {
            p { (ask.t("label-waits-method")) }
            (part::next_step(&format!("{sheet}/edit"), &ask.t("label-edit")))
        },
        Waits::Settling => html! {
            p { (ask.t("label-waits-settling")) }
            (part::next_step(&sheet, &ask.t("label-to-sheet")))
        },
        Waits::ReadingBack | Waits::Nothing => html! {
            (form(ask, label, &doc)?)
            (part::way(&format!("{sheet}/edit"), &ask.t("label-edit")))
        },
    };
    Ok(Page {
        title: ask
            .words
            .t_with("label-read-back-title", &[("product", view.product.into())]),
        main,
        place: Place::Things,
        back: Some(sheet),
    })
}

fn field_of(key: &str) -> &'static Field {
    schema::field(KIND, key).expect("what is read back stands in the table")
}

fn form(ask: &Ask<'_>, label: SheetId, doc: &SheetDoc) -> Result<Markup> {
    let form = ask.form("agree");
    let numbers = ask.book()?.to_read_back(label)?;
    let how = [
        (SECOND, ask.t("label-by-second")),
        (ALONE, ask.t("label-by-alone")),
    ];
    let mut inputs = Vec::new();
    for (key, _) in &numbers {
        inputs.push(fields::input(
            ask,
            &form,
            field_of(key),
            "",
            Purpose::Blind,
        )?);
    }
    Ok(html! {
        p { (ask.t("label-read-back-how")) }
        @if numbers.is_empty() { p { (ask.t("label-no-numbers")) } }
        (form.wrap(html! {
            (form.choice("how", "label-who-reads", &how, None))
            (form.text("person", "label-second-person", "label-second-person-help", None))
            @for input in &inputs { (input) }
            (compare(ask, doc)?)
            (form.submit("label-agree"))
        }))
    })
}

/// Ingredients are not typed again: they are compared by eye.
fn compare(ask: &Ask<'_>, doc: &SheetDoc) -> Result<Markup> {
    let items = doc.items(ingredients::LIST);
    Ok(html! {
        @if items.iter().any(|item| !item.is_hidden()) {
            h2 { (ask.t("label-ingredients")) }
            p { (ask.t("label-compare-ingredients")) }
            ul.list {
                @for item in items.iter().filter(|item| !item.is_hidden()) {
                    li { (item.text("name")) ", " (ingredients::content(ask, item)?) }
                }
            }
        }
    })
}

fn agree(doing: &mut Doing<'_>) -> Result<Next> {
    let label: SheetId = doing.param("label")?;
    let how = how(doing);
    let numbers = doing.book()?.to_read_back(label)?;
    let mut again = Vec::new();
    let mut troubles = Vec::new();
    let how = how.map_err(|trouble| troubles.push(trouble)).ok();
    for (key, _) in &numbers {
        match typed_again(doing, field_of(key)) {
            Ok(text) => again.push((*key, text)),
            Err(trouble) => troubles.push(trouble),
        }
    }
    let person = match how {
        Some(ReadBackHow::TypedTwice) => own_name(doing)?,
        _ => None,
    };
    let person = person.unwrap_or_else(|| doing.text("person").to_owned());
    if person.is_empty() {
        troubles.push(Trouble::field("person", Wrong::Missing));
    }
    let (Some(how), true) = (how, troubles.is_empty()) else {
        return Err(Trouble::Fields(troubles));
    };
    doing
        .book()?
        .read_back(label, &typed::borrowed(&again), how, &person)
        .map_err(beside)?;
    Ok(Next::Go(format!("/things/labels/{label}")))
}

fn how(doing: &Doing<'_>) -> Result<ReadBackHow> {
    match doing.text("how") {
        SECOND => Ok(ReadBackHow::SecondPerson),
        ALONE => Ok(ReadBackHow::TypedTwice),
        _ => Err(Trouble::field("how", Wrong::Missing)),
    }
}

fn typed_again(doing: &Doing<'_>, field: &Field) -> Result<String> {
    let text = typed::composed(doing.form, field)?;
    if text.is_empty() {
        return Err(Trouble::field(field.key, Wrong::Missing));
    }
    check_text(field, &text).map_err(|error| Trouble::in_field(field.key, error))?;
    Ok(text)
}

/// Who carries this device; none where nobody has stated it.
fn own_name(doing: &mut Doing<'_>) -> Result<Option<String>> {
    let book = doing.book()?;
    let own = book.secret()?.stream();
    Ok(book
        .roster()
        .member(own)
        .and_then(|member| member.person.as_ref())
        .map(|person| person.name.clone()))
}

/// Each difference beside its own field.
fn beside(error: BookError) -> Trouble {
    match error {
        BookError::Refused(Refusal::Label(LabelRefusal::ReadBackDiffers { faults })) => {
            Trouble::Fields(
                faults
                    .into_iter()
                    .map(|fault| {
                        let field = fault_field(&fault).to_owned();
                        let one = LabelRefusal::ReadBackDiffers {
                            faults: vec![fault],
                        };
                        Trouble::in_field(field, BookError::refused(one))
                    })
                    .collect(),
            )
        }
        BookError::Refused(Refusal::Label(LabelRefusal::SecondPersonMissing)) => {
            Trouble::in_field("person", error)
        }
        error => error.into(),
    }
}

fn fault_field(fault: &ReadBackFault) -> &str {
    match fault {
        ReadBackFault::LeftOut { field }
        | ReadBackFault::Differs { field, .. }
        | ReadBackFault::EmptyOnSheet { field } => field,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_differs_is_said_beside_its_own_field() {
        let trouble = beside(BookError::refused(LabelRefusal::ReadBackDiffers {
            faults: vec![
                ReadBackFault::LeftOut {
                    field: "wind_most".to_owned(),
                },
                ReadBackFault::Differs {
                    field: "rate_most".to_owned(),
                    sheet: "2.5 lb/1000 ft²".to_owned(),
                    second: "3.5 lb/1000 ft²".to_owned(),
                },
            ],
        }));
        let said = |field: &str| trouble.of_field(field).map(ToString::to_string);
        assert!(said("rate_most").is_some_and(|s| s.contains("3.5") && !s.contains("wind")));
        assert!(said("wind_most").is_some_and(|s| s.contains("wind") && !s.contains("3.5")));
        assert_eq!(said("rate_least"), None);
    }

    #[test]
    fn a_missing_second_person_is_said_beside_the_name() {
        let trouble = beside(BookError::refused(LabelRefusal::SecondPersonMissing));
        assert!(trouble.of_field("person").is_some());
    }
}
