//! Which checks of the sky apply to which method: one table.

use crate::finding::Check;
use crate::label::Method;

/// A check, and whether it is asked of granules, foliar sprays, drenches and bait.
struct Row {
    check: Check,
    granule: bool,
    foliar_spray: bool,
    drench: bool,
    bait: bool,
}

/// In the order in which findings are listed.
///
/// Inversions and what lies down wind matter where drops drift; drying speed only where drops are
/// left to dry on the leaf. Wind, rain, temperature, soil and blooms matter to all.
#[rustfmt::skip]
const TABLE: [Row; 8] = [
    row(Check::Wind,        true,  true,  true,  true),
    row(Check::DownWind,    false, true,  true,  false),
    row(Check::Rain,        true,  true,  true,  true),
    row(Check::Temperature, true,  true,  true,  true),
    row(Check::Inversion,   false, true,  true,  false),
    row(Check::DryingSpeed, false, true,  false, false),
    row(Check::Soil,        true,  true,  true,  true),
    row(Check::Bloom,       true,  true,  true,  true),
];

const fn row(check: Check, granule: bool, foliar_spray: bool, drench: bool, bait: bool) -> Row {
    Row {
        check,
        granule,
        foliar_spray,
        drench,
        bait,
    }
}

/// The checks of the sky that this method asks for, in the order of their findings.
///
/// ```
/// use sward_rules::finding::Check;
/// use sward_rules::label::Method;
/// use sward_rules::sky::which_checks;
/// assert!(which_checks(Method::FoliarSpray).contains(&Check::DryingSpeed));
/// assert!(!which_checks(Method::Granule).contains(&Check::DryingSpeed));
/// ```
pub fn which_checks(method: Method) -> Vec<Check> {
    TABLE
        .iter()
        .filter(|row| match method {
            Method::Granule => row.granule,
            Method::FoliarSpray => row.foliar_spray,
            Method::Drench => row.drench,
            Method::Bait => row.bait,
        })
        .map(|row| row.check)
        .collect()
}
