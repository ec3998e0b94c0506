//! What an error names: things that can be looked for, and what a program writes. Their words in
//! English are the `Display`, their tags for a shell the serialised form.

use std::fmt;

use serde::Serialize;

use crate::error::names;

/// Something that can be looked for by its name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, strum::VariantNames)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum Thing {
    /// A yard.
    Yard,
    /// A section of a yard.
    Section,
    /// A section that was treated on a visit, and so has a keep-off.
    SectionTreated,
    /// A label sheet.
    LabelSheet,
    /// A visit.
    Visit,
    /// A keep-off.
    KeepOff,
    /// A finish.
    Finish,
    /// An application that came after a finish.
    LateAddition,
    /// A fact.
    Fact,
    /// A fact of the visit in question.
    FactInVisit,
    /// A device.
    Device,
    /// A sheet of any kind.
    Sheet,
    /// A list of a sheet.
    ListInSheet,
    /// An item of a list of a sheet.
    ItemInSheet,
    /// A field of a sheet.
    Field,
    /// An entry.
    Entry,
    /// An incident.
    Incident,
}

names!(Thing);

impl fmt::Display for Thing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Yard => "yard",
            Self::Section => "section",
            Self::SectionTreated => "section treated on this visit",
            Self::LabelSheet => "label sheet",
            Self::Visit => "visit",
            Self::KeepOff => "keep-off",
            Self::Finish => "finish",
            Self::LateAddition => "late addition",
            Self::Fact => "fact",
            Self::FactInVisit => "fact in this visit",
            Self::Device => "device",
            Self::Sheet => "sheet",
            Self::ListInSheet => "list in this sheet",
            Self::ItemInSheet => "item in this list",
            Self::Field => "field",
            Self::Entry => "entry",
            Self::Incident => "incident",
        })
    }
}

/// Something that carries the number of the format it was written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, strum::VariantNames)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
#[non_exhaustive]
pub enum Written {
    /// The store.
    Book,
    /// An entry.
    Entry,
    /// What a finish froze.
    Treatment,
    /// A locked file.
    LockedFile,
    /// A request to join.
    JoinRequest,
    /// A message of an exchange, from the other phone.
    Message,
}

names!(Written);

impl fmt::Display for Written {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Book => "this book",
            Self::Entry => "an entry",
            Self::Treatment => "a treatment",
            Self::LockedFile => "locked file",
            Self::JoinRequest => "request to join",
            Self::Message => "the other phone's message",
        })
    }
}
