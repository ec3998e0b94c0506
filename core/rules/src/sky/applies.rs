//! Which checks of the sky apply to which method: one table.

use crate::finding::Check;
use crate::label::Method;

use Method::{Bait, Drench, FoliarSpray, Granule};

/// Each check with the methods that ask for it, in the order in which findings are listed.
///
/// Inversions and what lies down wind matter where drops drift; drying speed only where drops are
/// left to dry on the leaf. Wind, rain, temperature, soil and blooms matter to all.
#[rustfmt::skip]
const TABLE: [(Check, &[Method]); 8] = [
    (Check::Wind,        &[Granule, FoliarSpray, Drench, Bait]),
    (Check::DownWind,    &[         FoliarSpray, Drench      ]),
    (Check::Rain,        &[Granule, FoliarSpray, Drench, Bait]),
    (Check::Temperature, &[Granule, FoliarSpray, Drench, Bait]),
    (Check::Inversion,   &[         FoliarSpray, Drench      ]),
    (Check::DryingSpeed, &[         FoliarSpray              ]),
    (Check::Soil,        &[Granule, FoliarSpray, Drench, Bait]),
    (Check::Bloom,       &[Granule, FoliarSpray, Drench, Bait]),
];

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
        .filter(|(_, methods)| methods.contains(&method))
        .map(|(check, _)| *check)
        .collect()
}
