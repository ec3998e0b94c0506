//! Label sheets: typed from the label in hand, and read back before first use.

use serde_json::{Value, json};
use sward_book::Book;
use sward_book::fact::ReadBackHow;
use sward_book::ids::SheetId;
use sward_book::sheet::{SheetKind, check_text, must_be_settled, schema, spoken};

use crate::app::{App, own_person};
use crate::args::{LabelArgs, LabelCommand, ReadBackArgs};
use crate::error::{CliError, Result};
use crate::names;
use crate::print::{Answer, Page, say};
use crate::prompt;
use crate::words::{field_hint, key_of};

use super::yard::counted;

const LABEL: SheetKind = SheetKind::Label;

type Typed = Vec<(String, String)>;

/// Runs `sward label`.
pub(super) fn run(app: &App, args: &LabelArgs) -> Result<Answer> {
    match &args.command {
        LabelCommand::New {
            fields,
            ingredients,
        } => new(app, fields, ingredients),
        LabelCommand::Set { label, fields } => set(app, label, fields),
        LabelCommand::Ingredient {
            label,
            name,
            content,
        } => {
            let mut book = app.writing()?;
            let label = names::label(&book, label)?;
            let item = book.add_ingredient(label, name, content)?;
            let page = Page::of(format!(
                "{name}: {content}. Read the numbers back before use."
            ));
            Ok(Answer::new(
                page,
                json!({ "label": label, "ingredient": item }),
            ))
        }
        LabelCommand::List => list(app),
        LabelCommand::Show { label } => show(app, label),
        LabelCommand::ReadBack(args) => read_back(app, args),
    }
}

fn borrowed(typed: &Typed) -> Vec<(&str, &str)> {
    typed
        .iter()
        .map(|(key, value)| (key.as_str(), value.as_str()))
        .collect()
}

fn new(app: &App, fields: &Typed, ingredients: &Typed) -> Result<Answer> {
    let mut book = app.writing()?;
    let (fields, ingredients) = if fields.is_empty() {
        (ask_fields()?, ask_ingredients()?)
    } else {
        (fields.clone(), ingredients.clone())
    };
    let label = book.add_label(&borrowed(&fields))?;
    for (name, content) in &ingredients {
        if let Err(error) = book.add_ingredient(label, &name.replace('_', " "), content) {
            say(&format!(
                "The label sheet {} is written, but not the ingredient {name}: add it with sward label ingredient.",
                names::short(label.0)
            ));
            return Err(error.into());
        }
    }
    let product = book.label(label)?.product;
    let mut page = Page::of(format!(
        "Label sheet added: {product} ({}).",
        names::short(label.0)
    ));
    let empty = empty_fields(&book, label)?;
    if !empty.is_empty() {
        page.line(format!(
            "Left empty, which counts as not known: {}. Where the label is silent, write nothing.",
            empty.join(", ")
        ));
    }
    page.line("Next: sward label read-back, before it is used.");
    Ok(Answer::new(
        page,
        json!({ "label": label, "product": product, "empty": empty }),
    ))
}

fn empty_fields(book: &Book, label: SheetId) -> Result<Vec<String>> {
    let doc = book.sheet(label, LABEL)?;
    let fields = schema::fields(LABEL).iter();
    Ok(fields
        .filter(|f| doc.text(f.key).is_empty())
        .map(|f| spoken(f.key))
        .collect())
}

fn ask_fields() -> Result<Typed> {
    let mut typed = Typed::new();
    for field in schema::fields(LABEL) {
        let question = format!("{} ({}):", spoken(field.key), field_hint(field.key));
        loop {
            let text = prompt::ask(&question, "--field KEY=VALUE for each field")?;
            match check_text(field, &text) {
                Ok(_) => {
                    typed.push((field.key.to_owned(), text));
                    break;
                }
                Err(error) => say(&error.to_string()),
            }
        }
    }
    Ok(typed)
}

fn ask_ingredients() -> Result<Typed> {
    let mut typed = Typed::new();
    loop {
        let name = prompt::ask(
            "active ingredient (empty when there is no more):",
            "--ingredient",
        )?;
        if name.is_empty() {
            return Ok(typed);
        }
        let content = prompt::ask("its content, like 0.2 % or 2 lb/gal:", "--ingredient")?;
        match sward_rules::Entered::parse(&content) {
            Ok(_) => typed.push((name, content)),
            Err(error) => say(&error.to_string()),
        }
    }
}

fn set(app: &App, asked: &str, fields: &Typed) -> Result<Answer> {
    let mut book = app.writing()?;
    let label = names::label(&book, asked)?;
    for (key, value) in fields {
        book.set_label(label, key, value)?;
    }
    let view = book.label(label)?;
    let mut page = Page::of(format!(
        "{}: {} changed.",
        view.product,
        counted(fields.len(), "field")
    ));
    if view.read_back.is_none() {
        page.line("Its numbers have to be read back before use: sward label read-back.");
    }
    let json =
        json!({ "label": label, "changed": fields.len(), "read_back": view.read_back.is_some() });
    Ok(Answer::new(page, json))
}

fn list(app: &App) -> Result<Answer> {
    let book = app.reading()?;
    let labels = book.labels()?;
    let mut page = Page::default();
    if labels.is_empty() {
        page.line("No label sheet yet: sward label new, with the label in hand.");
    }
    let rows = labels
        .iter()
        .map(|l| {
            let read = match &l.read_back {
                Some(done) => format!("read back by {}", done.person),
                None => "not read back: not to be used yet".to_owned(),
            };
            vec![
                l.product.clone(),
                names::short(l.sheet.0),
                l.registration.clone(),
                read,
            ]
        })
        .collect();
    page.table(&["product", "id", "registration", "numbers"], rows);
    Ok(Answer::new(page, json!({ "labels": labels })))
}

fn show(app: &App, asked: &str) -> Result<Answer> {
    let book = app.reading()?;
    let label = names::label(&book, asked)?;
    let view = book.label(label)?;
    let doc = book.sheet(label, LABEL)?;
    let mut page = Page::of(format!("{} ({})", view.product, names::short(label.0)));
    let mut fields = serde_json::Map::new();
    let mut rows = Vec::new();
    for field in schema::fields(LABEL) {
        let stored = doc.text(field.key);
        rows.push(vec![spoken(field.key), as_read(&stored)]);
        fields.insert(field.key.to_owned(), Value::String(stored));
    }
    let items = doc.items("ingredients");
    let shown: Vec<_> = items.iter().filter(|item| !item.is_hidden()).collect();
    for item in &shown {
        rows.push(vec![
            "ingredient".into(),
            format!("{}, {}", item.text("name"), as_read(&item.text("content"))),
        ]);
    }
    page.table(&["field", "the label says"], rows);
    for conflict in &view.conflicts {
        page.line(conflict_line(conflict));
    }
    page.line(match &view.read_back {
        Some(done) => format!(
            "Read back by {} ({}).",
            done.person,
            key_of(&done.how).replace('_', " ")
        ),
        None => "Not read back since its numbers were last changed: not to be used yet.".to_owned(),
    });
    let ingredients: Vec<Value> = shown
        .iter()
        .map(
            |i| json!({ "ingredient": i.id, "name": i.text("name"), "content": i.text("content") }),
        )
        .collect();
    let json = json!({
        "label": label,
        "fields": fields,
        "ingredients": ingredients,
        "conflicts": view.conflicts,
        "read_back": view.read_back,
    });
    Ok(Answer::new(page, json))
}

/// What stands in a field, as a person writes it; what is empty is named.
fn as_read(stored: &str) -> String {
    match stored {
        "" => "(empty: not known)".to_owned(),
        "nothing" => "nothing".to_owned(),
        text => {
            // Watering in has a word before its amount.
            let (word, amount) = match text.split_once(' ') {
                Some((word @ ("required" | "withheld"), rest)) => (format!("{word} "), rest),
                _ => (String::new(), text),
            };
            match sward_rules::Entered::from_canonical(amount) {
                Ok(entered) => format!("{word}{}", entered.for_person()),
                Err(_) => text.to_owned(),
            }
        }
    }
}

/// A conflict of a label sheet as a sentence.
pub(super) fn conflict_line(conflict: &sward_book::sheet::Conflict) -> String {
    let values: Vec<String> = conflict.values.iter().map(|v| as_read(v)).collect();
    let acted_on = match &conflict.acted_on {
        Some(value) => format!("the safer one is used, {}", as_read(value)),
        None if must_be_settled(conflict) => "not known until it is settled".to_owned(),
        None => "one is shown".to_owned(),
    };
    format!(
        "{}: two phones say {}; {acted_on}.",
        spoken(&conflict.field),
        values.join(" and ")
    )
}

fn read_back(app: &App, args: &ReadBackArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let label = names::label(&book, &args.label)?;
    let how = match args.second_person {
        Some(_) => ReadBackHow::SecondPerson,
        None => ReadBackHow::TypedTwice,
    };
    let person = match &args.second_person {
        Some(name) => name.clone(),
        None => own_person(&book).map(|p| p.name).ok_or_else(|| {
            CliError::Usage("give who reads the label: --second-person NAME".to_owned())
        })?,
    };
    let typed = if args.fields.is_empty() {
        ask_again(&book, label)?
    } else {
        args.fields.clone()
    };
    book.read_back(label, &borrowed(&typed), how, &person)?;
    let product = book.label(label)?.product;
    let page = Page::of(format!(
        "{product}: the numbers agree, read back by {person}."
    ));
    Ok(Answer::new(
        page,
        json!({ "label": label, "read_back": { "how": how, "person": person } }),
    ))
}

/// Asks for every number without showing what the sheet says.
fn ask_again(book: &Book, label: SheetId) -> Result<Typed> {
    book.to_read_back(label)?
        .into_iter()
        .map(|(key, _)| {
            let question = format!("{} ({}):", spoken(key), field_hint(key));
            Ok((
                key.to_owned(),
                prompt::ask(&question, "--field KEY=VALUE for each number")?,
            ))
        })
        .collect()
}
