//! The screens of one book, shown and acted on as the server does it, by their addresses. For tests
//! only.

use std::sync::Arc;

use sward_book::action::{ReadyInputs, Start, judge};
use sward_book::fact::ReadBackHow;
use sward_book::ids::{SheetId, VisitId};
use sward_book::testing::{TestEnv, found};
use sward_book::{Book, Env};
use sward_rules::Entered;
use sward_rules::finding::Verdict;
use sward_rules::measure::{Outline, Shape};

use crate::ask::{Again, Ask, Doing, Next, Screen};
use crate::server::Form;
use crate::state::{Setting, Shared};
use crate::words::{Language, Units, Words};
use crate::{Result, Trouble};

/// English, US units, UTC.
pub(crate) const WORDS: Words = words(Language::English);

/// A language with US units, in UTC.
pub(crate) const fn words(language: Language) -> Words {
    Words {
        language,
        units: Units::Us,
        zone: chrono_tz::UTC,
    }
}

/// A form with these fields.
pub(crate) fn sent(fields: &[(&str, &str)]) -> Form {
    let owned = |(name, value): &(&str, &str)| ((*name).to_owned(), (*value).to_owned());
    Form {
        fields: fields.iter().map(owned).collect(),
        files: Vec::new(),
    }
}

/// An amount.
pub(crate) fn given(text: &str) -> Entered {
    Entered::parse(text).unwrap()
}

/// A yard with one section of 100 by 50 feet, called "front".
pub(crate) fn lawn(book: &mut Book, name: &str) -> sward_book::Result<SheetId> {
    let yard = book.add_yard(name, "1 Example Way", "America/New_York")?;
    let outline = Outline {
        shape: Shape::Rectangle {
            length: given("100 ft"),
            width: given("50 ft"),
        },
        left_out: Vec::new(),
    };
    book.add_section(yard, "front", &outline)?;
    Ok(yard)
}

/// Reads a label sheet's numbers back as they stand there.
pub(crate) fn read_back(book: &mut Book, label: SheetId) -> sward_book::Result<()> {
    let numbers = book.to_read_back(label)?;
    let again: Vec<(&str, &str)> = numbers.iter().map(|(k, v)| (*k, v.as_str())).collect();
    book.read_back(label, &again, ReadBackHow::TypedTwice, "")?;
    Ok(())
}

/// Treats all of a visit's yard, each thing not known acknowledged, and finishes.
pub(crate) fn treat(book: &mut Book, visit: VisitId, label: SheetId) -> sward_book::Result<()> {
    let (found, _) = judge(book, visit, label, ReadyInputs::default())?;
    let unknown = found.iter().filter(|f| f.verdict == Verdict::Unknown);
    let acknowledged = unknown.map(|f| f.check).collect();
    book.record_findings(visit, label, found, None)?;
    let start = Start {
        label_sheet: label,
        rate: given("2.5 lb/1000 ft2"),
        sections: Vec::new(),
        acknowledged,
        against: Some("a test".into()),
        equipment: None,
        lot: Some("L-7".into()),
        gear: None,
    };
    let keep_offs = book.start(visit, start)?;
    let now_ms = book.now()?.utc_ms;
    book.load(visit, keep_offs, given("12.5 lb"), None, now_ms)?;
    book.finish(visit, &[], "")?;
    Ok(())
}

/// A book with its screens.
pub(crate) struct Scene {
    pub(crate) shared: Arc<Shared>,
    pub(crate) env: Arc<TestEnv>,
    _folder: tempfile::TempDir,
}

impl Scene {
    /// A book of one person in which `begin` wrote what the test is about; what that gave stands
    /// beside it.
    pub(crate) fn new<T>(begin: impl FnOnce(&mut Book) -> sward_book::Result<T>) -> (Self, T) {
        let folder = tempfile::tempdir().unwrap();
        let env = TestEnv::new(7);
        let mut book = found(folder.path(), &env, "Ana").unwrap();
        let begun = begin(&mut book).unwrap();
        drop(book);
        (Self::on(folder, env), begun)
    }

    /// The book that lies in a folder.
    pub(crate) fn on(folder: tempfile::TempDir, env: Arc<TestEnv>) -> Self {
        let setting = Setting {
            folder: folder.path().to_owned(),
            env: Arc::clone(&env) as Arc<dyn Env>,
            zone: chrono_tz::UTC,
            port: 0,
        };
        Self {
            shared: Arc::new(Shared::new(setting).unwrap()),
            env,
            _folder: folder,
        }
    }

    /// A screen in English, after it was seen to be whole in both languages.
    pub(crate) fn show(&self, address: &str) -> String {
        let [english, _] = Language::ALL.map(|l| self.shown(words(l), address, None).unwrap());
        english
    }

    /// A screen, also one with a form that was refused.
    pub(crate) fn shown(
        &self,
        words: Words,
        address: &str,
        again: Option<&Again>,
    ) -> Result<String> {
        let (path, query) = address.split_once('?').unwrap_or((address, ""));
        let query = Form::from_urlencoded(query.as_bytes())?.fields;
        let (screen, params) = screen(path);
        let page = self.shared.reading(|book| {
            let now = book.unwrap().now()?;
            let shared = &self.shared;
            let ask = Ask::new(book, shared, words, now, path, &params, &query, again);
            (screen.show)(&ask).map(|page| page.main.into_string())
        })??;
        assert!(!page.contains('\u{27e6}'), "a message is missing: {page}");
        Ok(page)
    }

    /// Sends a form to where its field `do` says.
    pub(crate) fn act(&self, address: &str, form: &Form) -> Result<Next> {
        let (screen, params) = screen(address);
        let mut acts = screen.acts.iter();
        let (_, act) = acts.find(|(name, _)| *name == form.text("do")).unwrap();
        let mut slot = self.shared.writer();
        let next = act(&mut Doing {
            slot: &mut slot,
            shared: &self.shared,
            words: WORDS,
            path: address,
            params: &params,
            form,
        });
        drop(slot);
        self.shared.changed();
        next
    }

    /// Sends a form that is taken; the address it leads to.
    pub(crate) fn send(&self, address: &str, fields: &[(&str, &str)]) -> String {
        match self.act(address, &sent(fields)) {
            Ok(Next::Go(to)) => to,
            Ok(_) => panic!("another screen is expected"),
            Err(trouble) => panic!("refused: {trouble:?}"),
        }
    }

    /// Sends a form that is not taken; why not, and the screen with what is wrong.
    pub(crate) fn refused(&self, address: &str, fields: &[(&str, &str)]) -> (Trouble, String) {
        let form = sent(fields);
        let Err(trouble) = self.act(address, &form) else {
            panic!("taken: {fields:?}");
        };
        let again = Again { form, trouble };
        let page = self.shown(WORDS, address, Some(&again)).unwrap();
        (again.trouble, page)
    }

    /// The book, to write in beside the screens.
    pub(crate) fn book<T>(&self, work: impl FnOnce(&mut Book) -> sward_book::Result<T>) -> T {
        let done = work(self.shared.writer().as_mut().unwrap());
        self.shared.changed();
        done.unwrap()
    }
}

/// The screen at an address, with the parts that its own address leaves open. Of two that fit, the
/// one that leaves less open.
fn screen(path: &str) -> (&'static Screen, Vec<(String, String)>) {
    let fits = crate::screen::all().filter_map(|s| Some((s, params(s.path, path)?)));
    let found = fits.min_by_key(|(_, params)| params.len());
    found.unwrap_or_else(|| panic!("no screen at {path}"))
}

fn params(pattern: &str, path: &str) -> Option<Vec<(String, String)>> {
    let (wanted, given) = (pattern.split('/'), path.split('/'));
    if wanted.clone().count() != given.clone().count() {
        return None;
    }
    let mut params = Vec::new();
    for (wanted, given) in wanted.zip(given) {
        match wanted
            .strip_prefix('{')
            .and_then(|name| name.strip_suffix('}'))
        {
            Some(name) => params.push((name.to_owned(), given.to_owned())),
            None if wanted == given => {}
            None => return None,
        }
    }
    Some(params)
}
