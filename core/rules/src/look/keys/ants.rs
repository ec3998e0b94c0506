//! Ants: fire ants, and those that only look like them.

use super::{Key, Kind, Role, drawing, question};
use crate::look::Pest;

pub(super) static KEY: Key = Key {
    name: "ant",
    english: "Ants in the lawn",
    how_to_look: "Fire ants sting, and a few people need emergency help after stings. Touch the nest with a long stick only, step back at once, and keep children and pets away. Look at one dead ant with a hand lens.",
    questions: QUESTIONS,
    kinds: KINDS,
};

static QUESTIONS: &[super::Question] = &[
    question!("waist", "How many bumps are on the waist between the middle and the hind body?";
        "two" => "two", "waist-two";
        "one" => "one", "waist-one";
    ),
    question!("sizes", "What sizes have the ants of one nest?";
        "many" => "small to large, with all sizes between";
        "two" => "two sizes, the larger with a huge head";
        "one" => "all nearly the same";
    ),
    question!("length", "How long are most of them?";
        "short" => "up to about 3/16 in (5 mm)";
        "long" => "longer than that";
    ),
    question!("nest", "What does the nest look like?";
        "dome" => "a loose dome of soil without a hole on top", "nest-dome";
        "crater" => "a small hill or crater with a hole in the middle", "nest-crater";
        "none" => "no hill: under a stone, an edge or thatch";
    ),
    question!("stirred", "What happens when the nest is stirred with a long stick?";
        "swarm" => "very many rush out at once and run up the stick";
        "few" => "some come out and run about or away";
    ),
];

static KINDS: &[Kind] = &[
    Kind {
        name: "fire-ant",
        english: "Imported fire ant",
        pest: Some(Pest::FireAnt),
        role: Role::Pest,
        hurts_people: true,
        life_stage: "workers",
        length_mm: [2.0, 6.0],
        shows: &[
            ("waist", &["two"]),
            ("sizes", &["many"]),
            ("length", &["short", "long"]),
            ("nest", &["dome", "none"]),
            ("stirred", &["swarm"]),
        ],
        tells: "Two bumps on the waist, workers of all sizes in one nest, and a dome without a hole on top. They rush out and sting.",
        look_alikes: &["big-headed-ant", "pavement-ant"],
        drawing: drawing!("ant-two-bumps"),
        sources: &["from memory"],
    },
    Kind {
        name: "big-headed-ant",
        english: "Big-headed ant",
        pest: None,
        role: Role::Harmless,
        hurts_people: false,
        life_stage: "workers",
        length_mm: [2.0, 4.0],
        shows: &[
            ("waist", &["two"]),
            ("sizes", &["two"]),
            ("length", &["short"]),
            ("nest", &["crater", "none"]),
            ("stirred", &["few"]),
        ],
        tells: "Two sizes only, the larger with a head far too big for its body; loose soil along edges.",
        look_alikes: &["fire-ant"],
        drawing: drawing!("ant-big-head"),
        sources: &["from memory"],
    },
    Kind {
        name: "pavement-ant",
        english: "Pavement ant",
        pest: None,
        role: Role::Harmless,
        hurts_people: false,
        life_stage: "workers",
        length_mm: [2.0, 4.0],
        shows: &[
            ("waist", &["two"]),
            ("sizes", &["one"]),
            ("length", &["short"]),
            ("nest", &["crater", "none"]),
            ("stirred", &["few"]),
        ],
        tells: "Two bumps on the waist, but all of one size, dark brown, with a small crater along paving.",
        look_alikes: &["fire-ant"],
        drawing: drawing!("ant-two-bumps-small"),
        sources: &["from memory"],
    },
    Kind {
        name: "field-ant",
        english: "Field ant",
        pest: None,
        role: Role::Harmless,
        hurts_people: false,
        life_stage: "workers",
        length_mm: [4.0, 9.0],
        shows: &[
            ("waist", &["one"]),
            ("sizes", &["many", "one"]),
            ("length", &["long"]),
            ("nest", &["dome", "crater", "none"]),
        ],
        tells: "One bump on the waist. Larger than fire ants; it may bite, but has no sting.",
        look_alikes: &["fire-ant", "cornfield-ant"],
        drawing: drawing!("ant-one-bump"),
        sources: &["from memory"],
    },
    Kind {
        name: "cornfield-ant",
        english: "Cornfield ant",
        pest: None,
        role: Role::Harmless,
        hurts_people: false,
        life_stage: "workers",
        length_mm: [2.0, 4.0],
        shows: &[
            ("waist", &["one"]),
            ("sizes", &["one"]),
            ("length", &["short"]),
            ("nest", &["crater", "none"]),
            ("stirred", &["few"]),
        ],
        tells: "One bump on the waist, small and brown, with little craters in thin grass.",
        look_alikes: &["field-ant", "pavement-ant"],
        drawing: drawing!("ant-one-bump-small"),
        sources: &["from memory"],
    },
];
