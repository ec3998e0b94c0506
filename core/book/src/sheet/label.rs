//! A label sheet: what a person copied from the label in hand, merged to the safe side.

use serde::Serialize;
use sha2::{Digest, Sha256};
use sward_rules::Entered;
use sward_rules::label::{Ingredient, KeepOffTerms, Label, LabelSays, Method, WateringIn};

use super::doc::{FieldValue, SheetDoc};
use super::reading::Reading;
use super::schema::{self, NO, SAYS_NOTHING, Safer, YES};
use super::{Conflict, SheetKind, value};
use crate::ids::Hash;
use crate::refusal::LabelRefusal;
use crate::{BookError, Result};

/// What a label sheet says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LabelSheet {
    /// Its content, as the rules need it. What is in doubt is unfilled.
    pub label: Label,
    /// The most product by area in one season. Not among what the rules judge by yet, but read
    /// back like every number.
    pub season_most: LabelSays<Entered>,
    /// What is copied word by word.
    pub words: LabelWords,
    /// Fields with more than one value.
    pub conflicts: Vec<Conflict>,
    /// Hash over the numbers that have to be read back.
    pub numbers: Hash,
}

/// What a label sheet holds as text copied from the label; empty where nothing was copied, which
/// is not the same as a label that is silent.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct LabelWords {
    /// First aid.
    pub first_aid: String,
    /// The number to call in an emergency.
    pub emergency_phone: String,
    /// What to do about a spill.
    pub spill: String,
    /// In which order it is mixed.
    pub mixing_order: String,
    /// What to wear.
    pub protective_gear: String,
    /// What to do with what is left over, and with the container.
    pub leftovers: String,
    /// What it forbids.
    pub forbids: String,
    /// Where it may be used.
    pub sites: String,
    /// Which pests it names.
    pub pests: String,
}

impl LabelWords {
    const KEYS: [&'static str; 9] = [
        "first_aid",
        "emergency_phone",
        "spill",
        "mixing_order",
        "protective_gear",
        "leftovers",
        "forbids",
        "sites",
        "pests",
    ];

    /// Reads them, from a sheet without its method too: first aid cannot wait for it.
    pub fn read(sheet: &SheetDoc) -> Self {
        let r = Reading::of(SheetKind::Label, sheet);
        Self {
            first_aid: r.text("first_aid"),
            emergency_phone: r.text("emergency_phone"),
            spill: r.text("spill"),
            mixing_order: r.text("mixing_order"),
            protective_gear: r.text("protective_gear"),
            leftovers: r.text("leftovers"),
            forbids: r.text("forbids"),
            sites: r.text("sites"),
            pests: r.text("pests"),
        }
    }
}

struct Reader<'a> {
    sheet: &'a SheetDoc,
    conflicts: Vec<Conflict>,
    numbers: Sha256,
}

impl LabelSheet {
    /// Reads the sheet.
    ///
    /// # Errors
    /// [`BookError::Refused`] while the method is not filled in: without it no rule can tell
    /// which checks apply.
    pub fn read(sheet: &SheetDoc) -> Result<Self> {
        let mut numbers = Sha256::new();
        numbers.update(b"swardbook label numbers 1\0");
        let mut r = Reader {
            sheet,
            conflicts: Vec::new(),
            numbers,
        };
        let method = method_of(r.text("method").as_deref().unwrap_or(""))?;
        let mut label = Label {
            product: r.text("product").unwrap_or_default(),
            registration: r.text("registration").unwrap_or_default(),
            method,
            rate_least: r.number("rate_least"),
            rate_most: r.number("rate_most"),
            carrier_least: r.number("carrier_least"),
            wind_most: r.number("wind_most"),
            rain_free: r.number("rain_free"),
            temperature_least: r.number("temperature_least"),
            temperature_most: r.number("temperature_most"),
            keep_off: KeepOffTerms {
                until_dry: r.yes_no("keep_off_until_dry"),
                wait: r.number("keep_off_wait"),
            },
            watering_in: r.watering_in(),
            repeat_after: r.number("repeat_after"),
            ingredients: r.ingredients(),
        };
        let season_most = r.number("season_most");
        let words = LabelWords::read(sheet);
        for key in LabelWords::KEYS {
            r.text(key);
        }
        let rates_in_conflict = r.conflicts.iter().any(|c| c.field.starts_with("rate_"));
        if rates_in_conflict && least_above_most(&label) {
            // The safer most would fall below the least: no rate at all until a person settles it.
            label.rate_most = LabelSays::Unfilled;
            for conflict in r.conflicts.iter_mut().filter(|c| c.field == "rate_most") {
                conflict.acted_on = None;
            }
        }
        let numbers = Hash(r.numbers.finalize().into());
        Ok(Self {
            label,
            season_most,
            words,
            conflicts: r.conflicts,
            numbers,
        })
    }
}

fn least_above_most(label: &Label) -> bool {
    match (label.rate_least.value(), label.rate_most.value()) {
        (Some(least), Some(most)) => least.compare(most).is_ok_and(std::cmp::Ordering::is_gt),
        _ => false,
    }
}

fn method_of(text: &str) -> Result<Method> {
    match text {
        "granule" => Ok(Method::Granule),
        "foliar_spray" => Ok(Method::FoliarSpray),
        "drench" => Ok(Method::Drench),
        "bait" => Ok(Method::Bait),
        _ => Err(BookError::refused(LabelRefusal::MethodMissing)),
    }
}

impl Reader<'_> {
    /// The text to act on; none when the field is empty or in doubt.
    fn text(&mut self, key: &'static str) -> Option<String> {
        let field = schema::field(SheetKind::Label, key).expect("every key read is in the table");
        let versions = self.sheet.get(key)?;
        let chosen = value::safer(field, &versions).map(str::to_owned);
        if field.read_back {
            let mut all: Vec<&str> = versions.all().filter_map(FieldValue::text).collect();
            all.sort_unstable();
            self.count(key, &all);
        }
        if !versions.others.is_empty() {
            self.conflicts.push(Conflict {
                field: key.to_owned(),
                values: versions
                    .all()
                    .filter_map(|v| v.text().map(str::to_owned))
                    .collect(),
                acted_on: chosen.clone(),
            });
        }
        chosen.filter(|text| !text.is_empty())
    }

    fn count(&mut self, key: &str, values: &[&str]) {
        for part in std::iter::once(&key).chain(values) {
            self.numbers.update((part.len() as u64).to_be_bytes());
            self.numbers.update(part.as_bytes());
        }
    }

    fn number(&mut self, key: &'static str) -> LabelSays<Entered> {
        match self.text(key).as_deref() {
            None => LabelSays::Unfilled,
            Some(SAYS_NOTHING) => LabelSays::Nothing,
            // What cannot be read is not known.
            Some(text) => Entered::parse(text).map_or(LabelSays::Unfilled, LabelSays::Value),
        }
    }

    fn yes_no(&mut self, key: &'static str) -> LabelSays<bool> {
        match self.text(key).as_deref() {
            Some(YES) => LabelSays::Value(true),
            Some(NO) => LabelSays::Value(false),
            Some(SAYS_NOTHING) => LabelSays::Nothing,
            _ => LabelSays::Unfilled,
        }
    }

    fn watering_in(&mut self) -> LabelSays<WateringIn> {
        let text = self.text("watering_in").unwrap_or_default();
        let (word, rest) = text.split_once(' ').unwrap_or((&text, ""));
        let amount = if rest.is_empty() {
            Some(None)
        } else {
            Entered::parse(rest).ok().map(Some)
        };
        match (word, amount) {
            (SAYS_NOTHING, _) => LabelSays::Nothing,
            ("required", Some(depth)) => LabelSays::Value(WateringIn::Required(depth)),
            ("withheld", Some(time)) => LabelSays::Value(WateringIn::Withheld(time)),
            _ => LabelSays::Unfilled,
        }
    }

    fn ingredients(&mut self) -> Vec<Ingredient> {
        let mut ingredients = Vec::new();
        for item in self.sheet.items("ingredients") {
            if item.is_hidden() {
                continue;
            }
            let content = item.text("content");
            let name = item.text("name");
            self.count("ingredient", &[name.as_str(), content.as_str()]);
            if let Ok(content) = Entered::parse(&content) {
                ingredients.push(Ingredient { name, content });
            }
        }
        ingredients
    }
}

/// Whether a field's conflict is one that a person has to settle before the sheet is used.
pub fn must_be_settled(conflict: &Conflict) -> bool {
    schema::field(SheetKind::Label, &conflict.field)
        .is_some_and(|f| f.safer != Safer::EitherWins && conflict.acted_on.is_none())
}
