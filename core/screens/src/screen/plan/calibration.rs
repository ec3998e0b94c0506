//! Whether the calibration of what the plan is put on with still holds for this job.
//!
//! Where the machine's parts are written down, they are taken to be those in use: they stand beside
//! the findings, so that a person compares them. What nobody wrote down is not known.

use sward_book::sheet::{EquipmentKind, EquipmentSheet};
use sward_rules::Finding;
use sward_rules::calibrate::{Calibrated, CalibrationAdvice, Part, SetUp, calibration_findings};
use sward_rules::finding::{Check, Reason};

use super::work::Job;
use crate::Result;
use crate::ask::Ask;
use crate::screen::visit::who;

/// What speaks against using the calibration on this sheet for this job, or that nothing does.
pub(super) fn findings(ask: &Ask<'_>, job: &Job, sheet: &EquipmentSheet) -> Result<Vec<Finding>> {
    let book = ask.book()?;
    let here = book.secret().map(|own| who(book, own.stream()));
    let here = here.unwrap_or_default();
    let today = ask.words.day_of(ask.now.utc_ms);
    Ok(held(
        sheet,
        &Now {
            product: &job.sheet.label.product,
            is_wet: job.is_wet(),
            operator: &here,
            swath: job.kept.as_ref().and_then(|kept| kept.swath),
            age_days: sheet.calibrated_on.map(|day| (today - day).num_days()),
        },
    ))
}

/// What is to be done with the machine now.
struct Now<'a> {
    product: &'a str,
    is_wet: bool,
    operator: &'a str,
    swath: Option<sward_rules::Entered>,
    age_days: Option<i64>,
}

fn held(sheet: &EquipmentSheet, now: &Now<'_>) -> Vec<Finding> {
    let known = |text| match text {
        "" => Part::NotKnown,
        text => Part::Is(text),
    };
    let parts = known(sheet.parts.as_str());
    let (wheel, nozzle) = match sheet.kind {
        Some(EquipmentKind::RotarySpreader | EquipmentKind::DropSpreader) => (parts, Part::None),
        Some(EquipmentKind::HandSpreader | EquipmentKind::HoseEndSprayer) => {
            (Part::None, Part::None)
        }
        _ => (Part::None, parts),
    };
    let always = SetUp {
        product: Part::None,
        operator: known(sheet.calibrated_by.as_str()),
        machine: Part::Is(&sheet.name),
        wheel,
        nozzle,
        swath: sheet.swath,
    };
    // A sprayer is calibrated by the mix that it puts on, whatever is in it.
    let product = |text| if now.is_wet { Part::None } else { known(text) };
    let made = Calibrated {
        age_days: now.age_days,
        on: SetUp {
            product: product(&sheet.calibrated_for),
            ..always
        },
    };
    let used = SetUp {
        product: product(now.product),
        operator: known(now.operator),
        swath: now.swath,
        ..always
    };
    // A day alone says of no rate that it was found.
    let is_there = sheet.calibrated_rate.is_some();
    let found = calibration_findings(
        is_there.then_some(&made),
        &used,
        CalibrationAdvice::default(),
    );
    // A swath that is no length, which only another program can have written, is not known.
    found.unwrap_or_else(|_| {
        vec![Finding::unknown(
            Check::Calibration,
            Reason::NeverCalibrated,
        )]
    })
}

#[cfg(test)]
mod tests {
    use sward_rules::finding::sum;
    use sward_rules::{Entered, Verdict};

    use super::*;

    fn sheet() -> EquipmentSheet {
        EquipmentSheet {
            name: "red one".to_owned(),
            kind: Some(EquipmentKind::RotarySpreader),
            holds: None,
            vessel: None,
            swath: Entered::parse("8 ft").ok(),
            setting: "4".to_owned(),
            pace: None,
            calibrated_on: "2026-05-01".parse().ok(),
            calibrated_for: "Invented granules".to_owned(),
            calibrated_rate: Entered::parse("2.5 lb/1000 ft2").ok(),
            calibrated_by: "Ana".to_owned(),
            parts: "air tires".to_owned(),
            note: String::new(),
            retired: false,
        }
    }

    fn now() -> Now<'static> {
        Now {
            product: "Invented granules",
            is_wet: false,
            operator: "Ana",
            swath: Entered::parse("8 ft").ok(),
            age_days: Some(4),
        }
    }

    fn reasons(sheet: &EquipmentSheet, now: &Now<'_>) -> Vec<String> {
        let found = held(sheet, now);
        assert!(found.iter().all(|f| f.check == Check::Calibration));
        found.iter().map(|f| f.reason.to_string()).collect()
    }

    #[test]
    fn it_holds_for_what_it_was_done_with_and_for_nothing_else() {
        assert_eq!(sum(&held(&sheet(), &now())), Verdict::Clear);
        let others = [
            Now {
                product: "Other granules",
                ..now()
            },
            Now {
                operator: "Ben",
                ..now()
            },
            Now {
                swath: Entered::parse("10 ft").ok(),
                ..now()
            },
            Now {
                swath: None,
                ..now()
            },
            Now {
                age_days: Some(60),
                ..now()
            },
            Now {
                age_days: None,
                ..now()
            },
            Now {
                operator: "",
                ..now()
            },
        ];
        for other in &others {
            assert_eq!(reasons(&sheet(), other).len(), 1);
            assert_ne!(sum(&held(&sheet(), other)), Verdict::Clear);
        }
        assert_ne!(reasons(&sheet(), &others[0]), reasons(&sheet(), &others[1]));
    }

    #[test]
    fn what_nobody_wrote_down_is_not_known() {
        let bare = EquipmentSheet {
            parts: String::new(),
            ..sheet()
        };
        assert_eq!(sum(&held(&bare, &now())), Verdict::Unknown);
        for day in [None, sheet().calibrated_on] {
            let never = EquipmentSheet {
                calibrated_on: day,
                calibrated_rate: None,
                ..sheet()
            };
            assert_eq!(
                reasons(&never, &now()),
                [Reason::NeverCalibrated.to_string()]
            );
        }
    }

    #[test]
    fn a_sprayer_holds_for_any_mix() {
        let sprayer = EquipmentSheet {
            kind: Some(EquipmentKind::BoomSprayer),
            calibrated_for: "water".to_owned(),
            ..sheet()
        };
        let now = Now {
            is_wet: true,
            ..now()
        };
        assert_eq!(sum(&held(&sprayer, &now)), Verdict::Clear);
    }
}
