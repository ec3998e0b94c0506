//! Our own simple signs for what lies near, each told apart by its shape alone.
//!
//! The word beside a sign is the drawing's matter.

/// The lines of a sign, within 8 units of its middle; a question mark for an unknown kind.
pub(super) fn lines(kind: &str) -> &'static str {
    match kind {
        // A swing.
        "play_area" => "M-8 8 L-4 -7 H4 L8 8 M-2 -7 V3 M2 -7 V3 M-3 3 H3",
        // Two waves.
        "water" => "M-8 -2 q4 -6 8 0 t8 0 M-8 5 q4 -6 8 0 t8 0",
        // A round shaft under a beam.
        "well" => {
            "M-8 -7 H8 M0 -7 V-2 M-6 3 a6 4 0 1 0 12 0 a6 4 0 1 0 -12 0 M-6 3 V6 a6 3 0 0 0 12 0 V3"
        }
        // A grate.
        "drain" => "M-7 -6 H7 V6 H-7 Z M-3 -6 V6 M0 -6 V6 M3 -6 V6",
        // A flower with a stalk.
        "bloom" => {
            "M0 8 V2 M-2 -2 a2 2 0 1 0 4 0 a2 2 0 1 0 -4 0 M0 -4 a3 3 0 1 1 2 2 a3 3 0 1 1 -2 2 a3 3 0 1 1 -2 -2 a3 3 0 1 1 2 -2"
        }
        // A house.
        "neighbour" => "M-8 -1 L0 -8 L8 -1 M-6 -2 V8 H6 V-2 M-2 8 V3 H2 V8",
        // A stack of hoops with its door.
        "hive" => {
            "M-7 8 H7 V4 H-7 Z M-6 4 V0 H6 V4 M-4 0 V-4 H4 V0 M-2 -4 V-7 H2 V-4 M-1 8 V6 H1 V8"
        }
        // A gate with its brace.
        "gate" => "M-8 -7 V8 M8 -7 V8 M-8 -4 H8 M-8 5 H8 M-8 5 L8 -4",
        // Two kerbs and a middle line.
        "street" => "M-8 -5 H8 M-8 5 H8 M-7 0 H-3 M-1 0 H2 M4 0 H7",
        // A block with windows.
        "building" => "M-7 -8 H7 V8 H-7 Z M-4 -5 H-1 M1 -5 H4 M-4 -1 H-1 M1 -1 H4 M-2 8 V3 H2 V8",
        // A crown on a trunk.
        "tree" => "M0 8 V2 M-6 -3 a6 5 0 1 0 12 0 a6 5 0 1 0 -12 0",
        _ => "M-3 -4 a3 3 0 1 1 4 3 q-1 1 -1 3 M0 5 V6",
    }
}

#[cfg(test)]
mod tests {
    use super::lines;

    #[test]
    fn every_kind_has_a_sign_of_its_own() {
        let kinds = [
            "play_area",
            "water",
            "well",
            "drain",
            "bloom",
            "neighbour",
            "hive",
            "gate",
            "street",
            "building",
            "tree",
            "what a newer program wrote",
        ];
        let mut signs: Vec<&str> = kinds.iter().map(|k| lines(k)).collect();
        signs.sort_unstable();
        signs.dedup();
        assert_eq!(signs.len(), kinds.len());
    }
}
