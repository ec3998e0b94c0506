//! White grubs: C-shaped, in the soil under the sod, told apart by the underside of the tail.

use super::{Key, Kind, Role, drawing, question};
use crate::look::Pest;

pub(super) static KEY: Key = Key {
    name: "white-grub",
    english: "White grubs in the soil",
    how_to_look: "Cut and lift a square of sod. Hold a grub straight, its underside up, and look at the tip of its tail with a hand lens. The drawings have the tip at the top.",
    questions: QUESTIONS,
    kinds: KINDS,
};

static QUESTIONS: &[super::Question] = &[
    question!("legs", "Has it legs behind the head?";
        "six" => "six jointed legs";
        "none" => "no legs at all";
    ),
    question!("raster", "How do the short spines stand on the underside of the tail, before the slit?";
        "v" => "two short rows that form a V", "raster-v";
        "parallel" => "two straight rows side by side", "raster-parallel";
        "spread" => "two rows that spread apart at the slit, like a zipper begun to open", "raster-spread";
        "crescent" => "one row across, bent like a crescent", "raster-crescent";
        "none" => "scattered, in no rows", "raster-scattered";
    ),
    question!("slit", "What shape has the slit at the tip?";
        "across" => "one curve across, along the edge", "slit-across";
        "branched" => "branched like a Y or V", "slit-branched";
    ),
    question!("pads", "Are there two smooth pads side by side at the tip, before the slit?";
        "yes" => "yes, two pads", "raster-pads";
        "no" => "no pads";
    ),
    question!("jaw", "Is there a pale swollen lobe beside the jaws?";
        "yes" => "yes";
        "no" => "no";
    ),
];

static KINDS: &[Kind] = &[
    Kind {
        name: "japanese-beetle",
        english: "Japanese beetle",
        pest: Some(Pest::JapaneseBeetle),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "larvae",
        length_mm: [3.0, 32.0],
        shows: &[
            ("legs", &["six"]),
            ("raster", &["v"]),
            ("slit", &["across"]),
            ("pads", &["no"]),
            ("jaw", &["no"]),
        ],
        tells: "Two short rows of six or seven spines each that form a V; the slit is a curve across.",
        look_alikes: &["masked-chafer", "oriental-beetle"],
        drawing: drawing!("raster-v"),
        sources: &["University of Massachusetts Extension, White Grub Identification"],
    },
    Kind {
        name: "masked-chafer",
        english: "Masked chafer",
        pest: Some(Pest::MaskedChafer),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "larvae",
        length_mm: [3.0, 25.0],
        shows: &[
            ("legs", &["six"]),
            ("raster", &["none"]),
            ("slit", &["across"]),
            ("pads", &["no"]),
            ("jaw", &["no"]),
        ],
        tells: "Spines scattered in no rows; the slit is a curve across, and there are no pads.",
        look_alikes: &["japanese-beetle", "black-turfgrass-ataenius"],
        drawing: drawing!("raster-scattered"),
        sources: &["from memory"],
    },
    Kind {
        name: "european-chafer",
        english: "European chafer",
        pest: Some(Pest::EuropeanChafer),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "larvae",
        length_mm: [3.0, 25.0],
        shows: &[
            ("legs", &["six"]),
            ("raster", &["spread"]),
            ("slit", &["branched"]),
            ("pads", &["no"]),
            ("jaw", &["no"]),
        ],
        tells: "Two rows that run side by side and spread apart at a slit branched like a Y.",
        look_alikes: &["may-beetle", "oriental-beetle"],
        drawing: drawing!("raster-spread"),
        sources: &["University of Massachusetts Extension, White Grub Identification"],
    },
    Kind {
        name: "oriental-beetle",
        english: "Oriental beetle",
        pest: Some(Pest::OrientalBeetle),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "larvae",
        length_mm: [3.0, 25.0],
        shows: &[
            ("legs", &["six"]),
            ("raster", &["parallel"]),
            ("slit", &["across"]),
            ("pads", &["no"]),
            ("jaw", &["no"]),
        ],
        tells: "Two straight rows of ten to sixteen spines each; the slit is a curve across, not branched.",
        look_alikes: &["may-beetle", "japanese-beetle"],
        drawing: drawing!("raster-parallel"),
        sources: &["University of Massachusetts Extension, White Grub Identification"],
    },
    Kind {
        name: "may-beetle",
        english: "May or June beetle",
        pest: Some(Pest::MayBeetle),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "larvae",
        length_mm: [4.0, 40.0],
        shows: &[
            ("legs", &["six"]),
            ("raster", &["parallel"]),
            ("slit", &["branched"]),
            ("pads", &["no"]),
            ("jaw", &["no"]),
        ],
        tells: "Two long rows side by side like a closed zipper; the slit is branched like a Y or V. Full-grown ones are larger than the others.",
        look_alikes: &["oriental-beetle", "european-chafer"],
        drawing: drawing!("raster-zipper"),
        sources: &["University of Massachusetts Extension, White Grub Identification"],
    },
    Kind {
        name: "asiatic-garden-beetle",
        english: "Asiatic garden beetle",
        pest: Some(Pest::AsiaticGardenBeetle),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "larvae",
        length_mm: [3.0, 19.0],
        shows: &[
            ("legs", &["six"]),
            ("raster", &["crescent"]),
            ("slit", &["branched"]),
            ("pads", &["no"]),
            ("jaw", &["yes"]),
        ],
        tells: "One row of spines across, bent like a crescent, before a branched slit; a pale swollen lobe beside the jaws.",
        look_alikes: &["masked-chafer"],
        drawing: drawing!("raster-crescent"),
        sources: &["University of Massachusetts Extension, White Grub Identification"],
    },
    Kind {
        name: "black-turfgrass-ataenius",
        english: "Black turfgrass ataenius",
        pest: Some(Pest::BlackTurfgrassAtaenius),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "larvae",
        length_mm: [2.0, 8.0],
        shows: &[
            ("legs", &["six"]),
            ("raster", &["none"]),
            ("slit", &["across"]),
            ("pads", &["yes"]),
            ("jaw", &["no"]),
        ],
        tells: "Two smooth pads at the tip of the tail, before the slit; small even when full-grown. Young grubs of all kinds are small: look for the pads.",
        look_alikes: &["masked-chafer"],
        drawing: drawing!("raster-pads"),
        sources: &["from memory"],
    },
    Kind {
        name: "billbug",
        english: "Billbug",
        pest: Some(Pest::Billbug),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "larvae",
        length_mm: [3.0, 13.0],
        shows: &[("legs", &["none"]), ("raster", &["none"]), ("jaw", &["no"])],
        tells: "No legs; the body is like a puffed grain of rice with a brown head. All other grubs of this key have six legs.",
        look_alikes: &["masked-chafer", "black-turfgrass-ataenius"],
        drawing: drawing!("billbug-larva"),
        sources: &["University of California, IPM"],
    },
];
