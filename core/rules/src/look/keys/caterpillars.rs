//! Caterpillars in the grass: sod webworm, cutworm, armyworms.

use super::{Key, Kind, Role, drawing, question};
use crate::look::Pest;

pub(super) static KEY: Key = Key {
    name: "caterpillar",
    english: "Caterpillars in the grass",
    how_to_look: "Pour one to two fluid ounces of dish soap in a gallon of water on a square yard and wait ten minutes: caterpillars come up. Try a small patch first and rinse.",
    questions: QUESTIONS,
    kinds: KINDS,
};

static QUESTIONS: &[super::Question] = &[
    question!("head", "Is there a pale Y upside down on the front of the head?";
        "y" => "yes, a pale Y upside down", "head-y";
        "plain" => "no Y";
    ),
    question!("skin", "What is on its back and sides?";
        "spots" => "rows of dark spots, each with a bristle";
        "stripes" => "long stripes from head to tail";
        "plain" => "plain gray, brown or black, greasy to look at";
    ),
    question!("touched", "What does it do when touched?";
        "curls" => "it curls up like a C and lies still";
        "wriggles" => "it wriggles away";
    ),
    question!("shelter", "Where does it hide?";
        "silk" => "in a tunnel of silk and bits of grass in the thatch";
        "burrow" => "in a hole or under clods, without silk";
        "open" => "it stays in the open grass, many together";
    ),
];

static KINDS: &[Kind] = &[
    Kind {
        name: "sod-webworm",
        english: "Sod webworm",
        pest: Some(Pest::SodWebworm),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "larvae",
        length_mm: [3.0, 25.0],
        shows: &[
            ("head", &["plain"]),
            ("skin", &["spots"]),
            ("touched", &["wriggles", "curls"]),
            ("shelter", &["silk"]),
        ],
        tells: "Rows of dark spots with a bristle each, and a tunnel of silk in the thatch.",
        look_alikes: &["cutworm", "fall-armyworm"],
        drawing: drawing!("sod-webworm"),
        sources: &["University of California, IPM", "from memory"],
    },
    Kind {
        name: "cutworm",
        english: "Cutworm",
        pest: Some(Pest::Cutworm),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "larvae",
        length_mm: [5.0, 45.0],
        shows: &[
            ("head", &["plain"]),
            ("skin", &["plain", "stripes"]),
            ("touched", &["curls"]),
            ("shelter", &["burrow"]),
        ],
        tells: "Stout and smooth, gray to black; curls up like a C; hides by day in a hole, without silk.",
        look_alikes: &["armyworm", "sod-webworm"],
        drawing: drawing!("cutworm"),
        sources: &[
            "University of Nebraska, Turfgrass Entomology",
            "from memory",
        ],
    },
    Kind {
        name: "fall-armyworm",
        english: "Fall armyworm",
        pest: Some(Pest::Armyworm),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "larvae",
        length_mm: [3.0, 40.0],
        shows: &[
            ("head", &["y"]),
            ("skin", &["stripes"]),
            ("shelter", &["open"]),
        ],
        tells: "A pale Y upside down on the head, and long stripes; many eat together, by day too.",
        look_alikes: &["armyworm", "cutworm"],
        drawing: drawing!("fall-armyworm"),
        sources: &[
            "University of Georgia Extension",
            "University of Florida, IFAS",
        ],
    },
    Kind {
        name: "armyworm",
        english: "Armyworm",
        pest: Some(Pest::Armyworm),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "larvae",
        length_mm: [3.0, 40.0],
        shows: &[
            ("head", &["plain"]),
            ("skin", &["stripes"]),
            ("shelter", &["open"]),
        ],
        tells: "Long stripes like the fall armyworm, but a head with a net of dark lines and no Y.",
        look_alikes: &["fall-armyworm", "cutworm"],
        drawing: drawing!("armyworm"),
        sources: &["from memory"],
    },
];
