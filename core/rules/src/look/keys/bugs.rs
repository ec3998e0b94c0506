//! Small bugs in the thatch: chinch bugs and the big-eyed bug that eats them.

use super::{Key, Kind, Role, drawing, question};
use crate::look::Pest;

pub(super) static KEY: Key = Key {
    name: "chinch-bug",
    english: "Small bugs in the thatch",
    how_to_look: "Part the grass at the edge of a yellow patch in the sun, or push in a can without bottom, fill it with water, and wait ten minutes.",
    questions: QUESTIONS,
    kinds: KINDS,
};

static QUESTIONS: &[super::Question] = &[
    question!("head", "How broad is the head?";
        "narrow" => "narrower than the shoulders, with small eyes", "head-narrow";
        "broad" => "as broad as the shoulders or broader, with eyes that bulge at its corners", "head-broad";
    ),
    question!("body", "What shape has the body?";
        "slender" => "long and narrow";
        "oval" => "short and broad, oval";
    ),
    question!("back", "What is on its back?";
        "triangles" => "white wings with a dark triangle at each edge";
        "band" => "no wings, red to black with a pale band across";
        "plain" => "gray to tan or clear wings, or none, without triangles or band";
    ),
    question!("pace", "How does it run when the grass is parted?";
        "slow" => "it walks and hides in the thatch";
        "fast" => "it runs fast in the open";
    ),
];

static KINDS: &[Kind] = &[
    Kind {
        name: "chinch-bug",
        english: "Chinch bug, grown",
        pest: Some(Pest::ChinchBug),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "bugs of any stage",
        length_mm: [3.0, 5.0],
        shows: &[
            ("head", &["narrow"]),
            ("body", &["slender"]),
            ("back", &["triangles"]),
            ("pace", &["slow"]),
        ],
        tells: "A narrow head with small eyes, and white wings with a dark triangle at each edge.",
        look_alikes: &["big-eyed-bug", "false-chinch-bug"],
        drawing: drawing!("chinch-bug"),
        sources: &["University of California, IPM", "from memory"],
    },
    Kind {
        name: "chinch-bug-nymph",
        english: "Chinch bug, young",
        pest: Some(Pest::ChinchBug),
        role: Role::Pest,
        hurts_people: false,
        life_stage: "nymphs",
        length_mm: [1.0, 3.0],
        shows: &[
            ("head", &["narrow"]),
            ("back", &["band"]),
            ("pace", &["slow"]),
        ],
        tells: "Red when small, darker later, with a pale band across the back; no wings.",
        look_alikes: &["big-eyed-bug"],
        drawing: drawing!("chinch-bug-nymph"),
        sources: &["University of California, IPM", "from memory"],
    },
    Kind {
        name: "big-eyed-bug",
        english: "Big-eyed bug",
        pest: None,
        role: Role::Helper,
        hurts_people: false,
        life_stage: "bugs of any stage",
        length_mm: [3.0, 5.0],
        shows: &[
            ("head", &["broad"]),
            ("body", &["oval"]),
            ("back", &["plain"]),
            ("pace", &["fast"]),
        ],
        tells: "It eats chinch bugs: leave it. The head is as broad as the shoulders, the eyes bulge, and it runs fast.",
        look_alikes: &["chinch-bug", "chinch-bug-nymph"],
        drawing: drawing!("big-eyed-bug"),
        sources: &[
            "University of California, IPM",
            "University of Florida, IFAS",
        ],
    },
    Kind {
        name: "false-chinch-bug",
        english: "False chinch bug",
        pest: None,
        role: Role::Harmless,
        hurts_people: false,
        life_stage: "bugs of any stage",
        length_mm: [3.0, 4.0],
        shows: &[
            ("head", &["narrow"]),
            ("body", &["slender"]),
            ("back", &["plain"]),
        ],
        tells: "Gray to tan all over with clear wing tips, without dark triangles; mostly on weeds, seldom a lawn pest.",
        look_alikes: &["chinch-bug"],
        drawing: drawing!("false-chinch-bug"),
        sources: &["from memory"],
    },
];
