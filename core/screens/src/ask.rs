//! What a screen is given to show itself, what an action is given to do its work, and what they
//! give back.
//!
//! How requests arrive is [`crate::server`]'s business.

use std::str::FromStr;
use std::sync::Arc;

use maud::Markup;
use sward_book::Book;
use sward_rules::keep_off::Now;

use crate::desk::{Desk, Draft};
use crate::server::Form;
use crate::state::{Shared, Which};
use crate::trouble::Wrong;
use crate::words::Words;
use crate::{Result, Trouble};

/// One screen: its address, how it shows itself, and what can be done on it.
///
/// In the address `{name}` stands for one part. What is done is sent to the same address with the
/// action's name in the field `do`; an action that fails shows the same screen again, with
/// everything typed and what is wrong beside its field.
pub(crate) struct Screen {
    /// Its address.
    pub(crate) path: &'static str,
    /// How it shows itself.
    pub(crate) show: fn(&Ask<'_>) -> Result<Page>,
    /// What can be done on it.
    pub(crate) acts: &'static [(&'static str, Act)],
}

/// Something that can be done on a screen.
pub(crate) type Act = fn(&mut Doing<'_>) -> Result<Next>;

/// What a screen shows, inside the frame that all have.
pub(crate) struct Page {
    /// Its title.
    pub(crate) title: String,
    /// Its content.
    pub(crate) main: Markup,
    /// Which of the places at the foot it belongs to.
    pub(crate) place: Place,
    /// Where "back" leads; none where there is nothing before it.
    pub(crate) back: Option<String>,
}

/// The places at the foot of every screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Place {
    /// What must I watch, where do I go?
    Today,
    /// The yards.
    Yards,
    /// What was done.
    Records,
    /// Who is with us.
    Crew,
    /// What we work with.
    Things,
    /// None: before a book is open.
    Front,
}

/// What comes after an action.
pub(crate) enum Next {
    /// Another screen.
    Go(String),
    /// A file to keep.
    File {
        /// Its name.
        name: String,
        /// Its media type.
        kind: &'static str,
        /// Its content.
        bytes: Vec<u8>,
    },
    /// A page that is shown this once, because what stands on it is kept nowhere.
    Once(Page),
}

/// What a screen is given.
pub(crate) struct Ask<'a> {
    book: Option<&'a Book>,
    pub(crate) shared: &'a Shared,
    pub(crate) words: Words,
    /// The time to reckon with.
    pub(crate) now: Now,
    /// The address, without what stands behind a question mark.
    pub(crate) path: &'a str,
    pub(crate) params: &'a [(String, String)],
    /// What stands behind the question mark; never anything of a customer's.
    pub(crate) query: &'a [(String, String)],
    /// What was just sent and did not fit.
    pub(crate) again: Option<&'a Again>,
}

/// A form that was sent and did not fit.
pub(crate) struct Again {
    /// What was typed.
    pub(crate) form: Form,
    /// What is wrong.
    pub(crate) trouble: Trouble,
}

impl<'a> Ask<'a> {
    #[expect(
        clippy::too_many_arguments,
        reason = "one caller, which has them all apart"
    )]
    pub(crate) fn new(
        book: Option<&'a Book>,
        shared: &'a Shared,
        words: Words,
        now: Now,
        path: &'a str,
        params: &'a [(String, String)],
        query: &'a [(String, String)],
        again: Option<&'a Again>,
    ) -> Self {
        Self {
            book,
            shared,
            words,
            now,
            path,
            params,
            query,
            again,
        }
    }

    /// The book.
    ///
    /// # Errors
    /// [`Trouble::NoBook`] before one is open.
    pub(crate) fn book(&self) -> Result<&'a Book> {
        self.book.ok_or(Trouble::NoBook)
    }

    /// A part of the address.
    ///
    /// # Errors
    /// [`Trouble::NotFound`] when it is no such name.
    pub(crate) fn param<T: FromStr>(&self, name: &str) -> Result<T> {
        param(self.params, name)
    }

    /// Something behind the question mark.
    pub(crate) fn query(&self, name: &str) -> Option<&'a str> {
        self.query
            .iter()
            .find(|(n, _)| n == name)
            .map(|(_, v)| v.as_str())
    }

    /// The desk.
    pub(crate) fn desk(&self) -> std::sync::MutexGuard<'a, Desk> {
        self.shared.desk()
    }

    /// A message.
    pub(crate) fn t(&self, key: &str) -> String {
        self.words.t(key)
    }

    /// The name under which a form's draft is kept: drafts of the season are not the book's.
    pub(crate) fn draft_name(&self, act: &str, key: &str) -> String {
        draft_name(self.shared.which(), self.path, act, key)
    }

    /// The draft of a form.
    pub(crate) fn draft(&self, act: &str, key: &str) -> Option<Draft> {
        // A draft that cannot be read is no reason not to show the screen.
        self.desk().draft(&self.draft_name(act, key)).ok().flatten()
    }
}

/// The name under which a form's draft is kept.
pub(crate) fn draft_name(which: Option<Which>, path: &str, act: &str, key: &str) -> String {
    let book = match which {
        Some(Which::Season) => "season",
        Some(Which::Own) => "own",
        None => "none",
    };
    format!("{book} {path}#{act}#{key}")
}

fn param<T: FromStr>(params: &[(String, String)], name: &str) -> Result<T> {
    params
        .iter()
        .find(|(n, _)| n == name)
        .and_then(|(_, value)| value.parse().ok())
        .ok_or(Trouble::NotFound)
}

/// What an action is given.
pub(crate) struct Doing<'a> {
    pub(crate) slot: &'a mut Option<Book>,
    pub(crate) shared: &'a Arc<Shared>,
    pub(crate) words: Words,
    pub(crate) path: &'a str,
    pub(crate) params: &'a [(String, String)],
    /// What was sent.
    pub(crate) form: &'a Form,
}

impl Doing<'_> {
    /// The book, for writing.
    ///
    /// # Errors
    /// [`Trouble::NoBook`] before one is open.
    pub(crate) fn book(&mut self) -> Result<&mut Book> {
        self.slot.as_mut().ok_or(Trouble::NoBook)
    }

    /// A part of the address.
    ///
    /// # Errors
    /// [`Trouble::NotFound`] when it is no such name.
    pub(crate) fn param<T: FromStr>(&self, name: &str) -> Result<T> {
        param(self.params, name)
    }

    /// Milliseconds since 1970 in UTC by the device's clock.
    pub(crate) fn now_ms(&self) -> i64 {
        self.shared.setting.env.clock().utc_ms
    }

    /// What is typed in a field, trimmed; empty where nothing is.
    pub(crate) fn text(&self, field: &str) -> &str {
        self.form.text(field)
    }

    /// What is typed in a field that must not be empty.
    ///
    /// # Errors
    /// [`Trouble::Field`].
    pub(crate) fn needed(&self, field: &str) -> Result<&str> {
        match self.text(field) {
            "" => Err(Trouble::field(field, Wrong::Missing)),
            text => Ok(text),
        }
    }
}

impl Doing<'_> {
    /// Puts a book that was just begun in the place of whatever was open.
    pub(crate) fn opened(&mut self, which: Which, book: Book) {
        *self.slot = Some(book);
        self.shared.set_which(Some(which));
    }
}

impl Doing<'_> {
    /// Closes what is open and opens the person's own book again, if there is one.
    pub(crate) fn leave(&mut self) {
        *self.slot = None;
        self.shared.set_which(None);
        // A book that cannot be opened is told by the first screen's own attempt.
        if let Ok(book) = self.shared.open_book(Which::Own) {
            self.opened(Which::Own, book);
        }
    }
}
