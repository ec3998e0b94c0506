//! What the season's crew works with: invented label sheets, yards, equipment, stock and lines.

use sward_book::Book;
use sward_book::fact::ReadBackHow;
use sward_book::ids::{ItemId, SheetId};
use sward_book::sheet::SheetKind;
use sward_rules::Entered;
use sward_rules::measure::{Outline, Shape};

use super::phones::Phones;
use crate::Result;

/// What visits refer to.
pub(super) struct Places {
    /// The yards with their sections, in the order of [`YARDS`].
    pub(super) yards: Vec<(SheetId, Vec<ItemId>)>,
    /// Granule, foliar spray, bait.
    pub(super) labels: [SheetId; 3],
    /// Spreader and sprayer.
    pub(super) equipment: [SheetId; 2],
    /// One lot of each label sheet's product.
    pub(super) lots: [SheetId; 3],
}

/// Invented products; the registration numbers cannot exist.
const GRANULE: &[(&str, &str)] = &[
    ("product", "Lawnhold G (invented)"),
    ("registration", "00000-101"),
    ("method", "granule"),
    ("rate_least", "2 lb/1000 ft2"),
    ("rate_most", "3 lb/1000 ft2"),
    ("wind_most", "10 mph"),
    ("rain_free", "nothing"),
    ("temperature_least", "nothing"),
    ("temperature_most", "nothing"),
    ("keep_off_until_dry", "yes"),
    ("keep_off_wait", "nothing"),
    ("watering_in", "required 0.25 in"),
    ("repeat_after", "21 d"),
    ("season_most", "6 lb/1000 ft2"),
    (
        "first_aid",
        "Practice text: on skin, take off clothing and rinse with plenty of water for 15 minutes.",
    ),
    ("emergency_phone", "000-0100 (invented)"),
    (
        "spill",
        "Practice text: sweep up dry, back into the container or onto the lawn within the rate.",
    ),
    (
        "protective_gear",
        "Long sleeves, long trousers, shoes with socks, gloves",
    ),
    (
        "leftovers",
        "Keep in the closed bag, dry, out of reach of children",
    ),
    (
        "forbids",
        "Not on soaked or frozen ground. Not into drains or water.",
    ),
];

const SPRAY: &[(&str, &str)] = &[
    ("product", "Clearblade SC (invented)"),
    ("registration", "00000-202"),
    ("method", "foliar_spray"),
    ("rate_most", "0.5 fl oz/1000 ft2"),
    ("carrier_least", "1 gal/1000 ft2"),
    ("wind_most", "10 mph"),
    ("rain_free", "4 h"),
    ("temperature_least", "50 °F"),
    ("temperature_most", "90 °F"),
    ("keep_off_until_dry", "yes"),
    ("keep_off_wait", "4 h"),
    ("watering_in", "withheld 24 h"),
    ("repeat_after", "14 d"),
    (
        "first_aid",
        "Practice text: in eyes, rinse slowly with water for 15 to 20 minutes.",
    ),
    ("emergency_phone", "000-0200 (invented)"),
    (
        "spill",
        "Practice text: dam with absorbent, keep it out of drains, sweep up, rinse onto turf.",
    ),
    (
        "mixing_order",
        "Half the water, product, the rest of the water, keep it moving",
    ),
    (
        "protective_gear",
        "Long sleeves, long trousers, waterproof gloves, eye protection",
    ),
    (
        "leftovers",
        "Spray out on a section within the rate; rinse three times",
    ),
    (
        "forbids",
        "Not where bees visit blooms. Not within 25 ft of open water.",
    ),
];

const BAIT: &[(&str, &str)] = &[
    ("product", "Moundbait (invented)"),
    ("registration", "00000-303"),
    ("method", "bait"),
    ("rate_most", "1.5 lb/ac"),
    ("keep_off_until_dry", "no"),
    ("keep_off_wait", "1 h"),
    ("watering_in", "withheld"),
    ("repeat_after", "90 d"),
];

/// An invented yard: name, address, what is known of it, and its sections in feet.
struct Yard {
    name: &'static str,
    address: &'static str,
    fields: &'static [(&'static str, &'static str)],
    /// Name, length, width, and where it lies: feet east and north of the street corner.
    sections: &'static [(
        &'static str,
        &'static str,
        &'static str,
        &'static str,
        &'static str,
    )],
    /// Kind, name, feet east and north.
    marks: &'static [(&'static str, &'static str, &'static str, &'static str)],
}

/// The invented town lies in a state of which a rule about signs and one about records were read.
const STATE: (&str, &str) = ("state", "NY");

const YARDS: &[Yard] = &[
    Yard {
        name: "Corner lot",
        address: "1 Heron Row, Alder Ferry",
        fields: &[
            ("people", "Family of four"),
            ("children", "Two, 3 and 6"),
            ("pets", "A small dog, in and out"),
            ("gate", "Side gate, latch inside; practice code 0000"),
            ("mowing", "Fridays"),
            ("irrigation", "Mon, Thu at 5 in the morning"),
            ("notice", "A message the evening before"),
            ("street_bearing", "180"),
        ],
        sections: &[
            ("Front", "60 ft", "25 ft", "0 ft", "0 ft"),
            ("Back", "45 ft", "40 ft", "5 ft", "60 ft"),
        ],
        marks: &[
            ("play_area", "Swings", "40 ft", "85 ft"),
            ("drain", "Street drain", "62 ft", "-4 ft"),
            ("neighbour", "Vegetable beds", "75 ft", "80 ft"),
        ],
    },
    Yard {
        name: "Mill House",
        address: "14 Mill Lane, Alder Ferry",
        fields: &[
            ("people", "Two, retired"),
            ("well", "Well beside the shed"),
            ("mowing", "Tuesdays"),
        ],
        sections: &[
            ("Lawn", "90 ft", "55 ft", "0 ft", "0 ft"),
            ("Bank", "50 ft", "12 ft", "0 ft", "60 ft"),
        ],
        marks: &[
            ("water", "Mill race", "20 ft", "85 ft"),
            ("well", "Well", "95 ft", "30 ft"),
        ],
    },
    Yard {
        name: "The Larches",
        address: "30 Quarry Road, Alder Ferry",
        fields: &[
            ("people", "Day nursery"),
            ("children", "Weekdays 8 to 5"),
            ("notice", "Two days before, in writing"),
        ],
        sections: &[("Play lawn", "70 ft", "50 ft", "0 ft", "0 ft")],
        marks: &[("play_area", "Sand pit", "35 ft", "25 ft")],
    },
    Yard {
        name: "Number 8",
        address: "8 Heron Row, Alder Ferry",
        fields: &[("pets", "Cats"), ("hives", "Three hives behind the hedge")],
        sections: &[("Front", "30 ft", "22 ft", "0 ft", "0 ft")],
        marks: &[
            ("hive", "Hives", "45 ft", "30 ft"),
            ("bloom", "Clover strip", "15 ft", "24 ft"),
        ],
    },
    Yard {
        name: "Chapel green",
        address: "Chapel Square, Alder Ferry",
        fields: &[],
        sections: &[("Green", "120 ft", "80 ft", "0 ft", "0 ft")],
        marks: &[],
    },
];

/// Fills the crew lead's book and hands it to the others.
pub(super) fn fill(phones: &mut Phones) -> Result<Places> {
    let zone = phones.zone().name().to_owned();
    let calibrated = phones.day_from_now(-70);
    let again = phones.day_from_now(-12);
    let counted = phones.day_from_now(-20);
    let licence = phones.day_from_now(40);
    let book = &mut phones.books[0];
    let labels = [
        label(book, GRANULE, "imidacloprid", "0.5 %")?,
        label(book, SPRAY, "bifenthrin", "7.9 %")?,
        label(book, BAIT, "hydramethylnon", "0.73 %")?,
    ];
    let yards = YARDS
        .iter()
        .map(|y| yard(book, y, &zone))
        .collect::<Result<_>>()?;
    let equipment = [
        book.add_sheet(
            SheetKind::Equipment,
            &[
                ("name", "Rotary spreader, red"),
                ("kind", "rotary_spreader"),
                ("holds", "40 lb"),
                ("vessel", "0.25 lb"),
                ("swath", "8 ft"),
                ("setting", "5.5"),
                ("pace", "3 mph"),
                ("calibrated_on", &again),
                ("calibrated_for", "Lawnhold G (invented)"),
                ("calibrated_rate", "1.5 lb/1000 ft2"),
                ("calibrated_by", "Ines Tarrow"),
                ("parts", "air tires"),
            ],
        )?,
        book.add_sheet(
            SheetKind::Equipment,
            &[
                ("name", "Backpack sprayer 1"),
                ("kind", "backpack_sprayer"),
                ("holds", "4 gal"),
                ("vessel", "0.25 fl oz"),
                ("swath", "4 ft"),
                ("setting", "Fan nozzle, 30 psi"),
                ("pace", "2.5 mph"),
                ("calibrated_on", &calibrated),
                ("calibrated_for", "Water"),
                ("calibrated_rate", "1 gal/1000 ft2"),
                ("calibrated_by", "Bo Halter"),
                ("parts", "fan nozzle"),
            ],
        )?,
    ];
    let lots = [
        stock(book, labels[0], "G-0007", "62 lb", "25 lb", &counted)?,
        stock(book, labels[1], "SC-0012", "20 fl oz", "24 fl oz", &counted)?,
        stock(book, labels[2], "MB-0003", "9 lb", "2 lb", &counted)?,
    ];
    for (name, licence_until) in [
        ("Ines Tarrow", ""),
        ("Bo Halter", licence.as_str()),
        ("Odile Marsh", ""),
    ] {
        book.add_sheet(
            SheetKind::Person,
            &[("name", name), ("licence_until", licence_until)],
        )?;
    }
    book.add_help_line(&[
        ("kind", "vet"),
        ("name", "Alder Ferry vet (invented)"),
        ("phone", "000-0300"),
        ("read_on", &calibrated),
    ])?;
    phones.swap()?;
    Ok(Places {
        yards,
        labels,
        equipment,
        lots,
    })
}

fn label(
    book: &mut Book,
    typed: &[(&str, &str)],
    ingredient: &str,
    content: &str,
) -> Result<SheetId> {
    let label = book.add_label(typed)?;
    book.add_ingredient(label, ingredient, content)?;
    let again: Vec<(&str, String)> = book.to_read_back(label)?;
    let again: Vec<(&str, &str)> = again.iter().map(|(k, v)| (*k, v.as_str())).collect();
    book.read_back(label, &again, ReadBackHow::SecondPerson, "Bo Halter")?;
    Ok(label)
}

fn stock(
    book: &mut Book,
    label: SheetId,
    lot: &str,
    on_hand: &str,
    least: &str,
    counted: &str,
) -> Result<SheetId> {
    let label = label.to_string();
    Ok(book.add_sheet(
        SheetKind::Stock,
        &[
            ("label", &label),
            ("lot", lot),
            ("on_hand", on_hand),
            ("least", least),
            ("counted_on", counted),
            ("where", "Shed, top shelf"),
        ],
    )?)
}

fn yard(book: &mut Book, told: &Yard, zone: &str) -> Result<(SheetId, Vec<ItemId>)> {
    let yard = book.add_yard(told.name, told.address, zone)?;
    let fields = [told.fields, &[STATE]].concat();
    book.set_yard_fields(yard, &fields)?;
    let mut sections = Vec::new();
    for (name, length, width, east, north) in told.sections {
        let outline = Outline {
            shape: Shape::Rectangle {
                length: Entered::parse(length)?,
                width: Entered::parse(width)?,
            },
            left_out: Vec::new(),
        };
        let section = book.add_section(yard, name, &outline)?;
        book.set_item(
            yard,
            SheetKind::Yard,
            "sections",
            section,
            &[("east", *east), ("north", *north)],
        )?;
        sections.push(section);
    }
    for (kind, name, east, north) in told.marks {
        let mark = [
            ("kind", *kind),
            ("name", *name),
            ("east", *east),
            ("north", *north),
        ];
        book.add_item(yard, SheetKind::Yard, "marks", &mark)?;
    }
    book.add_item(
        yard,
        SheetKind::Yard,
        "contacts",
        &[
            ("name", "Whoever opens the door (invented)"),
            ("phone", "000-0400"),
            ("wants_notice", "yes"),
        ],
    )?;
    Ok((yard, sections))
}
