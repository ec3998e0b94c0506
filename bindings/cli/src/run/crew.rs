//! The crew: found, ask, admit, retire, give a role, recover, and who is in it.

use std::path::Path;

use serde_json::{Value, json};
use sward_book::Book;
use sward_book::book::{Founding, Joining};
use sward_book::fact::{DeviceKeys, Fact, Founded, JoinAsked, Person, Role};
use sward_book::ids::StreamId;
use sward_book::view::roster::{Member, MemberState};
use sward_crew::join::{REQUEST_BYTES_MAX, make_request, read_request};
use sward_crew::keys::{device_keys, new_device_secret};
use sward_crew::recovery::RecoveryCode;
use sward_crew::{crew_check_digits, device_check_digits};

use crate::app::{App, own_person};
use crate::args::{
    AdmitArgs, AskArgs, FoundArgs, PromoteArgs, RecoverArgs, RequestArgs, RetireArgs,
};
use crate::error::{CliError, Result};
use crate::names;
use crate::print::{Answer, Page};
use crate::prompt;
use crate::words::{proof, role};

use super::settle::everything_open;
use super::who;

/// Runs `sward found`.
pub(super) fn found(app: &App, args: &FoundArgs) -> Result<Answer> {
    app.may_pretend(args.practice)?;
    let env = app.env();
    let code = RecoveryCode::new(&env);
    let secret = new_device_secret(&env);
    let recipient = device_keys(&secret)?.recipient;
    let founding = Founding {
        crew: args.crew.clone(),
        practice: args.practice,
        recovery_key: code.public(),
        person: Person {
            name: args.name.clone(),
            licence: args.licence.clone(),
        },
        secret,
        recipient,
    };
    let book = Book::found(app.folder(), env, founding)?;
    let printed = code.printed();
    let mut page = Page::of(format!(
        "Crew founded: {}, in {}.",
        args.crew,
        app.folder().display()
    ));
    if args.practice {
        page.line("It is a practice crew: every record is marked so.");
    }
    page.blank()
        .line("Recovery code, shown this once: write it on paper and keep it where no phone is.");
    page.line("It makes a device a crew lead when every crew lead's device is lost.");
    page.blank();
    for half in halves(&printed) {
        page.item(half);
    }
    let json = json!({
        "crew": book.crew(),
        "device": book.secret()?.stream(),
        "recovery_code": *printed,
        "practice": args.practice,
    });
    Ok(Answer::new(page, json))
}

/// The printed code on two lines that no terminal wraps.
fn halves(printed: &str) -> [String; 2] {
    let groups: Vec<&str> = printed.split('-').collect();
    let (first, second) = groups.split_at(groups.len() / 2);
    [first.join("-"), second.join("-")]
}

/// Runs `sward ask`.
pub(super) fn ask(app: &App, args: &AskArgs) -> Result<Answer> {
    app.may_pretend(args.practice)?;
    let env = app.env();
    let secret = new_device_secret(&env);
    let recipient = device_keys(&secret)?.recipient;
    let joining = Joining {
        person: Person {
            name: args.name.clone(),
            licence: args.licence.clone(),
        },
        practice: args.practice,
        secret,
        recipient,
    };
    let book = Book::ask_to_join(app.folder(), env, joining)?;
    write_request(&book, &args.request)
}

/// Runs `sward request`.
pub(super) fn request(app: &App, args: &RequestArgs) -> Result<Answer> {
    write_request(&app.reading()?, &args.request)
}

fn write_request(book: &Book, path: &Path) -> Result<Answer> {
    super::write_new_file(path, &make_request(&book.own_request_entry()?)?)?;
    let digits = device_check_digits(&book.own_request()?.device);
    let mut page = Page::of(format!(
        "Request written to {}. Hand it to a crew lead.",
        path.display()
    ));
    page.line(format!(
        "Compare these digits when it is admitted: {digits}"
    ));
    page.line("This device can record at once; it counts as pending until it is admitted.");
    let device = book.secret()?.stream();
    Ok(Answer::new(
        page,
        json!({ "device": device, "check_digits": digits, "request": path }),
    ))
}

/// Runs `sward admit`.
pub(super) fn admit(app: &App, args: &AdmitArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let path = Path::new(&args.who);
    let (asked, wire) = if path.is_file() {
        let most = u64::try_from(REQUEST_BYTES_MAX).unwrap_or(u64::MAX);
        let request = read_request(&super::read_file(path, most)?)?;
        (request.asked, Some(request.entry.wire().to_vec()))
    } else {
        (asked_before(&book, names::device(&book, &args.who)?)?, None)
    };
    let digits = device_check_digits(&asked.device);
    prompt::confirm(
        app,
        &format!(
            "{} asks to join. Does their phone show {digits}?",
            asked.person.name
        ),
    )?;
    let lead = book.secret()?.stream();
    if !book.roster().is_lead(lead) {
        return Err(CliError::Refused(
            "only a crew lead's device can admit".into(),
        ));
    }
    let role: Role = args.role.into();
    if let Some(wire) = wire {
        book.take_in(&[wire], Some(asked.device.stream))?;
    }
    book.admit(&asked, role)?;
    let mut page = Page::of(format!(
        "Admitted: {}, as {}.",
        asked.person.name,
        self::role(role)
    ));
    if asked.was.is_some() {
        page.line("Its device wrote under other keys before; retire those if that device is gone.");
    }
    page.line("Next: sward swap make FILE; its phone joins by taking that file.");
    let json = json!({ "device": asked.device.stream, "role": role, "check_digits": digits });
    Ok(Answer::new(page, json))
}

/// The request of a device that came with a swap.
fn asked_before(book: &Book, stream: StreamId) -> Result<JoinAsked> {
    let member = book.roster().member(stream);
    let Some((member, person)) = member.and_then(|m| Some((m, m.person.clone()?))) else {
        return Err(CliError::Refused(
            "nobody told who carries this device: take its request".into(),
        ));
    };
    let Some(recipient) = member.recipient.clone() else {
        return Err(CliError::Refused(
            "this device told no key: take its request file".into(),
        ));
    };
    Ok(JoinAsked {
        device: DeviceKeys { stream, recipient },
        person,
        was: member.was,
    })
}

/// Runs `sward retire`.
pub(super) fn retire(app: &App, args: &RetireArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let stream = names::device(&book, &args.device)?;
    let name = who(&book, stream);
    prompt::confirm(
        app,
        &format!("Retire {name} (device {}) for good?", stream.short()),
    )?;
    book.retire(stream, &args.why)?;
    let mut page = Page::of(format!("Retired: {name} (device {}).", stream.short()));
    page.line("What it wrote so far counts; what comes later is marked, and a crew lead decides.");
    Ok(Answer::new(page, json!({ "device": stream })))
}

/// Runs `sward promote`.
pub(super) fn promote(app: &App, args: &PromoteArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let stream = names::device(&book, &args.device)?;
    let role: Role = args.role.into();
    book.give_role(stream, role)?;
    let page = Page::of(format!(
        "{}: {} from now on.",
        who(&book, stream),
        self::role(role)
    ));
    Ok(Answer::new(page, json!({ "device": stream, "role": role })))
}

/// Runs `sward recover`.
pub(super) fn recover(app: &App, args: &RecoverArgs) -> Result<Answer> {
    let mut book = app.writing()?;
    let typed = match &args.code {
        Some(code) => code.clone(),
        None => prompt::ask("Recovery code:", "--code CODE")?,
    };
    let code = RecoveryCode::read(&typed)?;
    let (crew, founded) = founding(&book)?;
    let device = device_keys(book.secret()?)?;
    let person = own_person(&book)
        .ok_or_else(|| CliError::Refused("this device never told who carries it".into()))?;
    let stream = device.stream;
    book.recover(code.sign(crew, &founded, device, person)?)?;
    let page = Page::of("This device is a crew lead now.");
    Ok(Answer::new(
        page,
        json!({ "device": stream, "role": Role::CrewLead }),
    ))
}

fn founding(book: &Book) -> Result<(sward_book::ids::Hash, Founded)> {
    let crew = book.crew().ok_or(sward_crew::CrewError::NoCrew)?;
    let entry = book.entry(crew)?;
    let founded = entry.body().facts.iter().find_map(|fact| match fact {
        Fact::Founded(founded) => Some(founded.clone()),
        _ => None,
    });
    let founded = founded.ok_or_else(|| {
        CliError::Refused("the crew's founding has not arrived: swap records first".into())
    })?;
    Ok((crew, founded))
}

/// Runs `sward crew`.
pub(super) fn show(app: &App) -> Result<Answer> {
    let book = app.reading()?;
    let own = book.secret()?.stream();
    let mut page = Page::default();
    let roster = book.roster();
    match (roster.crew_name(), book.crew()) {
        (Some(name), Some(crew)) => {
            let practice = if roster.practice() {
                " (practice: no record counts)"
            } else {
                ""
            };
            page.line(format!("{name}{practice}"));
            page.item(format!("the crew's digits: {}", crew_check_digits(crew)));
        }
        _ => {
            page.line("This device is of no crew yet: take the first file that a crew lead made after admitting it.");
        }
    }
    let rows = roster.members().map(|m| member_row(m, own)).collect();
    page.table(&["who", "device", "role", "state"], rows);
    let members: Vec<Value> = roster.members().map(member_json).collect();
    let waiting = book.waiting_for()?;
    for (stream, count) in &waiting {
        page.line(format!(
            "Waiting for entries from {} ({count}).",
            who(&book, *stream)
        ));
    }
    let open = everything_open(app, &book)?.len();
    if open > 0 {
        page.line(format!("{open} to settle: sward settle list."));
    }
    let time = book.time_proof()?;
    page.line(format!("This device's time: {}.", proof(time)));
    if book.must_begin_anew()? {
        page.line("This device's keys are in use elsewhere too: the next step gives it new ones.");
    }
    let json = json!({
        "crew": book.crew(),
        "name": roster.crew_name(),
        "practice": book.is_practice()?,
        "check_digits": book.crew().map(crew_check_digits),
        "device": own,
        "members": members,
        "waiting_for": waiting,
        "to_settle": open,
        "time": time,
        "entries": book.entry_count()?,
        "digest": book.digest()?,
    });
    Ok(Answer::new(page, json))
}

fn member_row(member: &Member, own: StreamId) -> Vec<String> {
    let name = member
        .person
        .as_ref()
        .map_or_else(|| "not told".into(), |p| p.name.clone());
    let this = if member.stream == own {
        " (this device)"
    } else {
        ""
    };
    let state = match &member.state {
        MemberState::Pending => "waits to be admitted (sward admit)",
        MemberState::Member => "in the crew",
        MemberState::Retired { .. } => "retired",
    };
    let role = member.role.map_or("-", role);
    vec![
        format!("{name}{this}"),
        member.stream.short(),
        role.to_owned(),
        state.to_owned(),
    ]
}

fn member_json(member: &Member) -> Value {
    json!({
        "device": member.stream,
        "person": member.person,
        "role": member.role,
        "state": member.state,
        "was": member.was,
    })
}
