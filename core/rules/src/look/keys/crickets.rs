//! Crickets: those that dig and those that do not.

use super::{Key, Kind, Role, drawing, question};
use crate::look::Pest;

pub(super) static KEY: Key = Key {
    name: "cricket",
    english: "Crickets that dig, and others",
    how_to_look: "Pour soapy water on fresh tunnels in the soil and wait a few minutes: mole crickets come up. Look at the front legs with a hand lens.",
    questions: QUESTIONS,
    kinds: KINDS,
};

static QUESTIONS: &[super::Question] = &[
    question!("front", "What are the front legs like?";
        "shovel" => "broad shovels with claws", "leg-shovel";
        "slim" => "slim, like the middle legs", "leg-slim";
    ),
    question!("hind", "What are the hind legs like?";
        "jumping" => "long and thick, made to jump";
        "short" => "hardly longer or thicker than the others";
    ),
    question!("feelers", "How long are the feelers?";
        "long" => "longer than the body, thin as a thread";
        "short" => "much shorter than the body";
    ),
    question!("claws", "How do the front legs end?";
        "v" => "in a shovel with two claws and a gap like a V", "claws-v";
        "u" => "in a shovel with two claws and a gap like a U", "claws-u";
        "four" => "in a shovel with four claws", "claws-four";
        "none" => "in no shovel", "leg-slim";
    ),
];

static KINDS: &[Kind] = &[
    Kind {
        name: "tawny-mole-cricket",
        english: "Tawny mole cricket",
        pest: Some(Pest::MoleCricket),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "crickets of any stage",
        length_mm: [5.0, 35.0],
        shows: &[
            ("front", &["shovel"]),
            ("hind", &["short"]),
            ("feelers", &["short"]),
            ("claws", &["v"]),
        ],
        tells: "Two claws on the shovel with a gap like a V. It eats grass and roots.",
        look_alikes: &["southern-mole-cricket", "northern-mole-cricket"],
        drawing: drawing!("mole-cricket"),
        sources: &["from memory"],
    },
    Kind {
        name: "southern-mole-cricket",
        english: "Southern mole cricket",
        pest: Some(Pest::MoleCricket),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "crickets of any stage",
        length_mm: [5.0, 35.0],
        shows: &[
            ("front", &["shovel"]),
            ("hind", &["short"]),
            ("feelers", &["short"]),
            ("claws", &["u"]),
        ],
        tells: "Two claws on the shovel with a gap like a U. It eats mostly other insects; its tunnels do the harm.",
        look_alikes: &["tawny-mole-cricket", "northern-mole-cricket"],
        drawing: drawing!("mole-cricket"),
        sources: &["Texas A&M AgriLife Extension", "from memory"],
    },
    Kind {
        name: "northern-mole-cricket",
        english: "Northern mole cricket",
        pest: None,
        role: Role::Harmless,
        hurts_people: false,
        life_stage: "crickets of any stage",
        length_mm: [5.0, 35.0],
        shows: &[
            ("front", &["shovel"]),
            ("hind", &["short"]),
            ("feelers", &["short"]),
            ("claws", &["four"]),
        ],
        tells: "Four claws on the shovel. Native, and seldom enough of them to harm a lawn.",
        look_alikes: &["tawny-mole-cricket", "southern-mole-cricket"],
        drawing: drawing!("mole-cricket"),
        sources: &["from memory"],
    },
    Kind {
        name: "field-cricket",
        english: "Field cricket",
        pest: None,
        role: Role::Harmless,
        hurts_people: false,
        life_stage: "crickets of any stage",
        length_mm: [5.0, 28.0],
        shows: &[
            ("front", &["slim"]),
            ("hind", &["jumping"]),
            ("claws", &["none"]),
            ("feelers", &["long"]),
        ],
        tells: "Slim front legs, long jumping hind legs, and feelers longer than the body. It does not dig up lawns.",
        look_alikes: &["tawny-mole-cricket"],
        drawing: drawing!("field-cricket"),
        sources: &["from memory"],
    },
];
