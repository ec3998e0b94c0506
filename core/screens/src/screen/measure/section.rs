//! One section: its area and how it came about, what is left out, and correcting it.

use data_encoding::HEXLOWER;
use maud::{Markup, html};
use sha2::{Digest as _, Sha256};
use sward_book::ids::{ItemId, SheetId};
use sward_book::sheet::{Section, SheetKind, YardSheet};
use sward_book::{Book, BookError, Thing};
use sward_rules::measure::Outline;

use super::choose::Entering;
use super::kind::Kind;
use super::new::with_walk;
use super::{choose, read, rest};
use crate::ask::{Ask, Doing, Next, Page, Place};
use crate::part::amounts;
use crate::part::how::how;
use crate::sketch::Sketch;
use crate::{Result, Trouble, part};

/// What a section is asked for: what is in it is left out one shape at a time.
const LEFT_OUT_KINDS: [Kind; 10] = [
    Kind::Rectangle,
    Kind::Circle,
    Kind::Oval,
    Kind::Triangle,
    Kind::TriangleHeight,
    Kind::Trapezoid,
    Kind::Radii,
    Kind::Offsets,
    Kind::Taped,
    Kind::Drawn,
];

pub(super) fn show(ask: &Ask<'_>) -> Result<Page> {
    let (yard, sheet, section) = asked(ask)?;
    let (main, inner) = if let Some(kind) = choose::chosen(ask, "correct", "shape") {
        (correcting(ask, &section, kind), true)
    } else if let Some(kind) = choose::chosen(ask, "leave-out", "leave-out") {
        (leaving_out(ask, &section, kind), true)
    } else if ask.query("change").is_some() {
        (
            html! { h2 { (ask.t("measure-choose")) } (choose::ways(ask, "shape", &Kind::ALL)) },
            true,
        )
    } else if ask.query("leave").is_some() {
        (
            html! { h2 { (ask.t("measure-choose-left-out")) } (choose::ways(ask, "leave-out", &LEFT_OUT_KINDS)) },
            true,
        )
    } else {
        (whole(ask, yard, &sheet, &section)?, false)
    };
    Ok(Page {
        title: ask.words.t_with(
            "measure-section-title",
            &[
                ("section", section.name.clone().into()),
                ("yard", sheet.name.clone().into()),
            ],
        ),
        main,
        place: Place::Yards,
        back: Some(if inner {
            ask.path.to_owned()
        } else {
            format!("/yards/{yard}")
        }),
    })
}

fn asked(ask: &Ask<'_>) -> Result<(SheetId, YardSheet, Section)> {
    let yard: SheetId = ask.param("yard")?;
    let id: ItemId = ask.param("section")?;
    let sheet = ask.book()?.yard_sheet(yard)?;
    let section = sheet
        .sections
        .iter()
        .find(|s| s.id == id)
        .cloned()
        .ok_or(Trouble::NotFound)?;
    Ok((yard, sheet, section))
}

fn whole(ask: &Ask<'_>, yard: SheetId, sheet: &YardSheet, section: &Section) -> Result<Markup> {
    let mut shown = sheet.clone();
    // A hidden section is drawn on its own screen all the same.
    for s in &mut shown.sections {
        s.hidden = s.hidden && s.id != section.id;
    }
    let sketch = Sketch::for_yard(ask, yard, &shown)?.only(&[section.id]);
    Ok(html! {
        (walk_told(ask))
        (area(ask, section))
        (sketch.markup(ask.words))
        (other_outlines(ask, section))
        (rest::shown(ask, section))
        (part::next_step(&format!("/yards/{yard}"), &ask.t("measure-to-yard")))
        @if section.outline.is_some() {
            h2 { (ask.t("measure-left-out")) }
            (left_out(ask, section))
            (part::way(&format!("{}?leave", ask.path), &ask.t("measure-leave-out")))
        }
        h2 { (ask.t("measure-change")) }
        (part::way(&format!("{}?{}", ask.path, section.outline.as_ref().map_or_else(
            || "change".to_owned(),
            |o| format!("shape={}", Kind::of_shape(&o.shape).code()),
        )), &ask.t("measure-correct")))
        (part::way(&format!("{}?change", ask.path), &ask.t("measure-otherwise")))
        (part::way(&format!("/yards/{yard}/marks"), &ask.t("measure-to-place")))
        (naming(ask, section))
        (hiding(ask, section))
    })
}

/// How many fixes of a walk that was just taken were used.
fn walk_told(ask: &Ask<'_>) -> Markup {
    let number = |name| ask.query(name).and_then(|n| n.parse::<u32>().ok());
    let (Some(read), Some(used)) = (number("read"), number("used")) else {
        return html! {};
    };
    let told = [("used", used.into()), ("read", read.into())];
    html! { p.note role="status" { (ask.words.t_with("measure-fixes-used", &told)) } }
}

fn area(ask: &Ask<'_>, section: &Section) -> Markup {
    match section.outline.as_ref().map(Outline::area) {
        None => html! { p.unknown { (ask.t("measure-not-measured")) } },
        Some(Err(error)) => html! { p.wrong { (ask.words.trouble(&error.into())) } },
        Some(Ok(answer)) => html! {
            p.big { (amounts::area(ask.words, &answer.value)) }
            p.note { (ask.t("measure-plus-minus")) }
            (how(ask, &answer.working))
            @if let Some(outline) = &section.outline { (rest::edge(ask, outline)) }
        },
    }
}

fn correcting(ask: &Ask<'_>, section: &Section, kind: Kind) -> Markup {
    let form = ask.form_keyed("correct", kind.code());
    let form = if kind == Kind::Walk {
        form.with_files()
    } else {
        form
    };
    let filled = section.outline.as_ref().map(|o| &o.shape);
    html! {
        h2 { (kind.name(ask.words)) }
        (form.wrap(html! {
            (choose::form_of(ask, &form, &Entering { name: "shape", kind, filled, around: None }))
            (form.hidden("was", &section.outline.as_ref().map(|o| mark_of(&o.shape)).unwrap_or_default()))
            (form.submit("measure-save"))
        }))
        p { a href=(format!("{}?change", ask.path)) { (ask.t("measure-otherwise")) } }
    }
}

fn leaving_out(ask: &Ask<'_>, section: &Section, kind: Kind) -> Markup {
    let around = section.outline.as_ref().map(|o| &o.shape);
    let form = ask.form_keyed("leave-out", kind.code());
    html! {
        h2 { (ask.t("measure-leave-out")) }
        (form.wrap(html! {
            (choose::form_of(ask, &form, &Entering { name: "leave-out", kind, filled: None, around }))
            (form.submit("measure-leave-out-save"))
        }))
    }
}

fn left_out(ask: &Ask<'_>, section: &Section) -> Markup {
    let shapes = section.outline.as_ref().map_or(&[][..], |o| &o.left_out);
    html! {
        @if shapes.is_empty() { p.note { (ask.t("measure-nothing-left-out")) } }
        ul.list {
            @for (n, shape) in shapes.iter().enumerate() {
                @let form = ask.form_keyed("take-back", &n.to_string());
                li {
                    (Kind::of_shape(shape).name(ask.words)) ": "
                    @match shape.area() {
                        Ok(answer) => { (amounts::area(ask.words, &answer.value)) }
                        Err(error) => { span.wrong { (ask.words.trouble(&error.into())) } }
                    }
                    (form.wrap(html! {
                        (form.hidden("was", &mark_of(shape)))
                        (form.quiet_submit("measure-take-back"))
                    }))
                }
            }
        }
    }
}

/// Outlines that were drawn at the same time on other phones, the choice one tap away.
fn other_outlines(ask: &Ask<'_>, section: &Section) -> Markup {
    html! {
        @if !section.other_outlines.is_empty() {
            div.card {
                p { (ask.t("measure-other-outlines")) }
                @for (n, outline) in section.outline.iter().chain(&section.other_outlines).enumerate() {
                    @let form = ask.form_keyed("choose-outline", &n.to_string());
                    (form.wrap(html! {
                        p {
                            (Kind::of_shape(&outline.shape).name(ask.words)) ": "
                            @match outline.area() {
                                Ok(answer) => { (amounts::area(ask.words, &answer.value)) }
                                Err(error) => { span.wrong { (ask.words.trouble(&error.into())) } }
                            }
                        }
                        (form.hidden("was", &mark_of(outline)))
                        (form.quiet_submit("measure-this-holds"))
                    }))
                }
            }
        }
    }
}

fn naming(ask: &Ask<'_>, section: &Section) -> Markup {
    let form = ask.form("rename");
    form.wrap(html! {
        (form.text("name", "measure-name", "", Some(&section.name)))
        (form.quiet_submit("measure-rename"))
    })
}

fn hiding(ask: &Ask<'_>, section: &Section) -> Markup {
    let form = ask.form("hide");
    let (value, label) = if section.hidden {
        ("no", "measure-show-again")
    } else {
        ("yes", "measure-hide")
    };
    html! {
        (form.wrap(html! {
            @if section.hidden { p.note { (ask.t("measure-is-hidden")) } }
            @else { p.note { (ask.t("measure-hide-note")) } }
            (form.hidden("hidden", value))
            (form.quiet_submit(label))
        }))
    }
}

pub(super) fn correct(doing: &mut Doing<'_>) -> Result<Next> {
    let (yard, id) = (doing.param("yard")?, doing.param("section")?);
    let kind = choose::sent(doing)?;
    let sent = read::shape(doing.form, kind)?;
    let was = doing.text("was").to_owned();
    let book = doing.book()?;
    let old = outline_now(book, yard, id)?;
    // Somebody measured it anew while this form was open: what they entered is shown first.
    if old.as_ref().map(|o| mark_of(&o.shape)).unwrap_or_default() != was {
        return Err(changed());
    }
    let left_out = old.map(|o| o.left_out).unwrap_or_default();
    let outline = Outline {
        shape: sent.shape,
        left_out,
    };
    read::check(&outline, doing.form, kind)?;
    doing.book()?.set_outline(yard, id, &outline)?;
    Ok(Next::Go(with_walk(
        doing.path.to_owned(),
        sent.walk.as_ref(),
    )))
}

pub(super) fn leave_out(doing: &mut Doing<'_>) -> Result<Next> {
    let (yard, id) = (doing.param("yard")?, doing.param("section")?);
    let kind = choose::sent(doing)?;
    let sent = read::shape(doing.form, kind)?;
    let mut outline = outline_now(doing.book()?, yard, id)?.ok_or(Trouble::NotFound)?;
    outline.left_out.push(sent.shape);
    read::check(&outline, doing.form, kind)?;
    doing.book()?.set_outline(yard, id, &outline)?;
    Ok(Next::Go(doing.path.to_owned()))
}

pub(super) fn take_back(doing: &mut Doing<'_>) -> Result<Next> {
    let (yard, id) = (doing.param("yard")?, doing.param("section")?);
    let number: usize = doing.text("key").parse().map_err(|_| Trouble::NoForm)?;
    let was = doing.text("was").to_owned();
    let book = doing.book()?;
    let mut outline = outline_now(book, yard, id)?.ok_or(Trouble::NotFound)?;
    if outline.left_out.get(number).map(mark_of) != Some(was) {
        return Err(changed());
    }
    outline.left_out.remove(number);
    book.set_outline(yard, id, &outline)?;
    Ok(Next::Go(doing.path.to_owned()))
}

pub(super) fn choose_outline(doing: &mut Doing<'_>) -> Result<Next> {
    let (yard, id) = (doing.param("yard")?, doing.param("section")?);
    let was = doing.text("was").to_owned();
    let book = doing.book()?;
    let section = section_now(book, yard, id)?;
    let mut all = section.outline.into_iter().chain(section.other_outlines);
    let outline = all.find(|o| mark_of(o) == was).ok_or_else(changed)?;
    book.set_outline(yard, id, &outline)?;
    Ok(Next::Go(doing.path.to_owned()))
}

pub(super) fn hide(doing: &mut Doing<'_>) -> Result<Next> {
    let (yard, id) = (doing.param("yard")?, doing.param("section")?);
    let hidden = doing.text("hidden") == "yes";
    doing.book()?.hide_section(yard, id, hidden)?;
    Ok(Next::Go(doing.path.to_owned()))
}

pub(super) fn rename(doing: &mut Doing<'_>) -> Result<Next> {
    let (yard, id): (SheetId, ItemId) = (doing.param("yard")?, doing.param("section")?);
    let name = choose::name_sent(doing)?.to_owned();
    let typed = [("name", name.as_str())];
    let renamed = doing
        .book()?
        .set_item(yard, SheetKind::Yard, "sections", id, &typed);
    renamed.map_err(|error| Trouble::in_field("name", error))?;
    Ok(Next::Go(doing.path.to_owned()))
}

fn section_now(book: &Book, yard: SheetId, id: ItemId) -> Result<Section, BookError> {
    let sections = book.yard_sheet(yard)?.sections;
    sections
        .into_iter()
        .find(|s| s.id == id)
        .ok_or_else(|| BookError::NotFound {
            what: Thing::Section,
            name: id.to_string(),
        })
}

pub(super) fn outline_now(
    book: &Book,
    yard: SheetId,
    id: ItemId,
) -> Result<Option<Outline>, BookError> {
    Ok(section_now(book, yard, id)?.outline)
}

fn changed() -> Trouble {
    Trouble::Wrong(crate::trouble::Wrong::ChangedMeanwhile)
}

/// Tells one shape or outline from another in a form that was opened before.
fn mark_of<T: serde::Serialize>(what: &T) -> String {
    let bytes = serde_json::to_vec(what).unwrap_or_default();
    HEXLOWER.encode(&Sha256::digest(bytes)[..8])
}

#[cfg(test)]
mod tests {
    use super::*;
    use sward_rules::measure::Shape;

    #[test]
    fn a_mark_tells_shapes_apart() {
        let ft = |text: &str| sward_rules::Entered::parse(text).unwrap();
        let circle = |text: &str| Shape::Circle { diameter: ft(text) };
        assert_eq!(mark_of(&circle("6 ft")), mark_of(&circle("6 ft")));
        assert_ne!(mark_of(&circle("6 ft")), mark_of(&circle("7 ft")));
        assert_ne!(mark_of(&circle("6 ft")), mark_of(&circle("6 m")));
    }
}
