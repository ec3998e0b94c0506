//! Every sentence and word of the core is there in both languages, says no more than the core
//! gives, and reads as one sentence.
//!
//! That both languages put the same into it, and that nothing is there unused, `tests` sees to.

use std::collections::BTreeSet;

use serde::Serialize;
use sward_book::refusal::{
    CrewRefusal, FieldRefusal, LabelRefusal, LoadPart, Named, ReadBackFault, Refusal, Series,
    TreatRefusal, Typed, VisitRefusal,
};
use sward_book::sheet::{SheetKind, schema};
use sward_book::{BookError, Malformed, Thing, Written};
use sward_crew::recovery::CodeFault;
use sward_crew::{CrewError, FileKind, PeerFault};
use sward_rules::calibrate::{DropletClass, DropletUse};
use sward_rules::finding::{
    CalibrationPart, Check, Finding, LabelField, RainLayer, Reason, Shown, Source, Tenths,
};
use sward_rules::look::{Because, thresholds};
use sward_rules::measure::WhyDropped;
use sward_rules::quantity::Dimension;
use sward_rules::sky::{Around, Bloom, Soil};
use sward_rules::walk_round::Question;
use sward_rules::{
    Allowed, Axis, ControlCount, Entered, Field, MetarGroup, Most, Note, Rounding, RuleError,
    Walked,
};

use super::tests::{messages, words};
use super::*;

/// A family of sentences: its name, theirs, and what is put into each where the core lists it.
type Family = (
    &'static str,
    Vec<&'static str>,
    Option<Vec<&'static [&'static str]>>,
);

fn sentences() -> Vec<Family> {
    vec![
        (
            "reason",
            Reason::NAMES.to_vec(),
            Some(Reason::ARGS.to_vec()),
        ),
        ("shown", Shown::NAMES.to_vec(), Some(Shown::ARGS.to_vec())),
        ("note", Note::NAMES.to_vec(), Some(Note::ARGS.to_vec())),
        (
            "rounding",
            Rounding::NAMES.to_vec(),
            Some(Rounding::ARGS.to_vec()),
        ),
        ("because", Because::NAMES.to_vec(), None),
        ("dropped", WhyDropped::NAMES.to_vec(), None),
        ("error", [RuleError::NAMES, BookError::NAMES].concat(), None),
        ("refusal", Refusal::names().collect(), None),
        ("malformed", Malformed::NAMES.to_vec(), None),
        ("fault", ReadBackFault::NAMES.to_vec(), None),
        ("crew-error", CrewError::NAMES.to_vec(), None),
        ("slip", CodeFault::NAMES.to_vec(), None),
        ("sent", PeerFault::NAMES.to_vec(), None),
    ]
}

/// Names whose sentence is the one within: serialised, they carry no name of their own.
const SAID_BY_WHAT_IS_WITHIN: [(&str, &str); 2] = [("error", "rule"), ("crew-error", "book")];

#[test]
fn every_sentence_of_the_core_is_said_in_both_languages_and_no_other() {
    for language in Language::ALL {
        let there = messages(language);
        for (family, names, args) in sentences() {
            let wanted: BTreeSet<String> = names
                .iter()
                .filter(|name| !SAID_BY_WHAT_IS_WITHIN.contains(&(family, **name)))
                .map(|name| format!("{family}-{name}"))
                .collect();
            let said: BTreeSet<String> = there
                .iter()
                .filter(|(_, (file, _))| file == family)
                .map(|(key, _)| key.clone())
                .collect();
            assert_eq!(said, wanted, "{language:?}");
            for (name, args) in names.iter().zip(args.unwrap_or_default()) {
                let given: BTreeSet<String> = args.iter().map(|a| a.replace('_', "-")).collect();
                assert_eq!(
                    there[&format!("{family}-{name}")].1,
                    given,
                    "{family}-{name}"
                );
            }
        }
    }
}

fn name(word: impl Serialize) -> String {
    let value = serde_json::to_value(word).expect("words are plain names");
    value.as_str().expect("words are plain names").to_owned()
}

fn plain(names: &[&str]) -> Vec<String> {
    names.iter().map(|name| format!("word-{name}")).collect()
}

fn prefixed(prefix: &str, names: &[&str]) -> Vec<String> {
    let key = |name| format!("word-{prefix}-{name}");
    names.iter().map(key).collect()
}

#[test]
fn every_word_of_the_core_is_there_in_both_languages() {
    let mut keys = [
        plain(LabelField::NAMES),
        plain(RainLayer::NAMES),
        plain(Source::NAMES),
        plain(CalibrationPart::NAMES),
        plain(DropletClass::NAMES),
        plain(DropletUse::NAMES),
        plain(Walked::NAMES),
        plain(MetarGroup::NAMES),
        plain(ControlCount::NAMES),
        plain(FileKind::NAMES),
        prefixed("allowed", Allowed::NAMES),
        prefixed("limit", Most::NAMES),
        prefixed("dimension", Dimension::NAMES),
        prefixed("field", Field::NAMES),
        prefixed("what", Axis::NAMES),
        prefixed("what", Thing::NAMES),
        prefixed("what", Written::NAMES),
        prefixed("what", Named::NAMES),
        prefixed("what", Typed::NAMES),
        prefixed("what", Series::NAMES),
        prefixed("what", LoadPart::NAMES),
    ]
    .concat();
    let seen = [
        names_of::<Soil>(),
        names_of::<Bloom>(),
        names_of::<Question>(),
    ]
    .concat()
    .into_iter()
    .chain(thresholds().iter().map(|t| t.life_stage.replace(' ', "-")));
    keys.extend(seen.map(|word| format!("word-{word}")));
    let around = names_of::<Around>();
    keys.extend(around.iter().map(|word| format!("word-around-{word}")));
    for language in Language::ALL {
        let missing: Vec<_> = keys
            .iter()
            .filter(|key| !words(language).has(key))
            .collect();
        assert!(missing.is_empty(), "{language:?}: {missing:?}");
    }
}

/// Every name that a word of its kind may have, as the reader lists them.
fn names_of<T: serde::de::DeserializeOwned>() -> Vec<String> {
    let unknown = serde_json::from_value::<T>("no such".into())
        .err()
        .expect("no word is so named")
        .to_string();
    let names = unknown.split('`').skip(3).step_by(2);
    names.map(str::to_owned).collect()
}

#[test]
fn every_check_has_a_name_in_both_languages() {
    let checks = names_of::<Check>();
    assert!(checks.contains(&name(Check::Wind)) && checks.contains(&name(Check::LabelReadBack)));
    for language in Language::ALL {
        for check in &checks {
            let said = words(language).said("finding-check", check);
            assert!(!said.contains('\u{27e6}'), "{said}");
        }
    }
}

#[test]
fn an_error_names_every_field_of_a_sheet_in_both_languages() {
    let kinds = [
        SheetKind::Yard,
        SheetKind::Label,
        SheetKind::Plan,
        SheetKind::Equipment,
        SheetKind::Stock,
        SheetKind::Person,
        SheetKind::HelpLines,
    ];
    let fields = kinds
        .into_iter()
        .flat_map(|kind| {
            let lists = schema::lists(kind).iter().flat_map(|list| list.fields);
            schema::fields(kind).iter().chain(lists)
        })
        .filter(|field| field.key != schema::HIDDEN);
    for field in fields {
        let refused = BookError::refused(FieldRefusal::FieldMissing { field: field.key });
        for language in Language::ALL {
            let keys = [
                format!("word-field-{}", field.key),
                format!("field-{}", field.key.replace('_', "-")),
            ];
            let words = words(language);
            assert!(keys.iter().any(|key| words.has(key)), "{keys:?}");
            let said = words.said("error", &refused);
            assert!(
                keys.iter()
                    .any(|key| words.has(key) && said.starts_with(&words.t(key))),
                "{said}"
            );
        }
    }
}

/// What both languages make of a sentence.
fn said(family: &str, sentence: &impl Serialize) -> [String; 2] {
    Language::ALL.map(|language| words(language).said(family, sentence))
}

fn entered(text: &str) -> Entered {
    Entered::parse(text).expect("an amount")
}

#[test]
fn findings_read_as_sentences_with_amounts_in_the_units_of_the_language() {
    let meter = Reason::ByMeter {
        count: 5,
        mean: entered("6 mph"),
        gust: None,
    };
    assert_eq!(
        said("reason", &meter),
        [
            "5 meter readings, mean 6 mph.",
            "5 lecturas del medidor, media 6 mi/h."
        ]
    );
    let change = Shown::Changed {
        amount: entered("2.5 lb/1000 ft2"),
        change: Tenths(43),
    };
    assert_eq!(
        said("shown", &change),
        [
            "2.5 lb/1000 ft² (+4.3 % from the plan)",
            "2.5 lb/1000 pie² (+4.3 % respecto al plan)"
        ]
    );
}

#[test]
fn an_error_within_a_field_within_a_section_is_said_whole() {
    let error = Entered::parse("12 parsecs")
        .expect_err("no unit of lawns")
        .of(Field::Offset { number: 2 })
        .of(Field::Section {
            name: "rain".into(),
        });
    assert_eq!(
        said("error", &error),
        [
            "rain: Width 2: “parsecs” is not a unit known here: use one such as ft, lb/1000 ft2, fl oz, gal, mph, h.",
            "rain: Ancho 2: «parsecs» no es una unidad que se conozca aquí: use una como ft, lb/1000 ft2, fl oz, gal, mph, h.",
        ]
    );
}

#[test]
fn what_a_person_wrote_is_never_taken_for_a_word_of_the_core() {
    let error = BookError::NotFound {
        what: Thing::LabelSheet,
        name: "frozen".into(),
    };
    assert_eq!(
        said("error", &error),
        [
            "Not found: label sheet “frozen”. Choose it from its list.",
            "No se encontró: hoja de etiqueta «frozen». Búsquelo en su lista."
        ]
    );
}

#[test]
fn a_refused_start_says_every_finding() {
    let refused = BookError::refused(TreatRefusal::NotAcknowledged {
        findings: vec![
            Finding::unknown(Check::Wind, Reason::WindNotMeasured),
            Finding::unknown(Check::ThingsOffLawn, Reason::NotChecked),
        ],
    });
    assert_eq!(
        said("error", &refused),
        [
            "Not known: Wind: No wind was measured at the yard. Things off the lawn: This was not checked. Check it, or acknowledge each by name.",
            "No se sabe: Viento: No se midió el viento en el patio. Objetos fuera del césped: Esto no se revisó. Revíselo, o reconozca cada cosa por su nombre.",
        ]
    );
}

#[test]
fn amounts_choices_and_kinds_inside_refusals_are_in_the_language_too() {
    let choice = BookError::refused(FieldRefusal::FieldChoice {
        field: "method",
        words: vec!["granule", "foliar_spray"],
    });
    let [_, spanish] = said("error", &choice);
    assert_eq!(
        spanish,
        "Cómo se aplica: elija una de estas: gránulos con esparcidor; rociado sobre las hojas."
    );
    let load = BookError::refused(TreatRefusal::LoadCannotBe {
        what: LoadPart::Water,
        amount: "0 gal".into(),
        wanted: vec![Dimension::Mass, Dimension::Volume],
    });
    assert_eq!(
        said("error", &load),
        [
            "0 gal cannot be (water): give a weight or a volume above zero.",
            "0 gal no puede ser (agua): ponga un peso o un volumen por encima de cero."
        ]
    );
    let differs = BookError::refused(LabelRefusal::ReadBackDiffers {
        faults: vec![
            ReadBackFault::LeftOut {
                field: "rate_most".into(),
            },
            ReadBackFault::EmptyOnSheet {
                field: "wind_most".into(),
            },
        ],
    });
    assert_eq!(
        said("error", &differs)[0],
        "The two readings do not agree: read the label again. Most rate: not read back. Most wind: the label sheet has it empty."
    );
    let unfit = BookError::refused(CrewRefusal::NameUnfit {
        what: Named::Person,
        bytes_most: 1024,
    });
    assert_eq!(
        said("error", &unfit)[1],
        "Un nombre es demasiado largo o tiene un carácter que no se ve (persona): dé una línea de 1,024 bytes como máximo."
    );
    let empty = BookError::refused(VisitRefusal::SeriesEmpty {
        what: Series::Reading,
    });
    assert_eq!(
        said("error", &empty),
        ["Give at least one reading.", "Dé al menos una lectura."]
    );
}

#[test]
fn errors_between_phones_say_the_innermost_and_what_to_do() {
    let peer = CrewError::Peer(PeerFault::NoGreeting);
    assert_eq!(
        said("error", &peer)[0],
        "The other phone sent no greeting first. The swap was ended; whole records that came before are kept. Start it again, and update both programs if it happens again."
    );
    let slip = CrewError::RecoveryCode(CodeFault::Group { group: 4 });
    assert_eq!(
        said("error", &slip)[1],
        "El código de recuperación tiene un error: compare el grupo 4 con lo impreso."
    );
    let newer = CrewError::Book(BookError::Newer {
        what: Written::LockedFile,
        found: 3,
        known: 2,
    });
    assert_eq!(
        said("error", &newer)[1],
        "Escrito por una versión más nueva: archivo cerrado (formato 3; este programa conoce 2). Actualice este programa; no se cambió nada."
    );
    let time = RuleError::MetarTime {
        day: 31,
        hour: 4,
        minute: 5,
    };
    assert!(said("error", &time)[0].contains("No day 31 with 04:05 UTC"));
}
