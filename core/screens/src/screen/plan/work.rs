//! One plan with everything that belongs to it: label sheet, sections, and the amounts where they
//! can be worked out.

use sward_book::Book;
use sward_book::ids::{ItemId, SheetId, VisitId};
use sward_book::sheet::{LabelSheet, PlanSheet, Section as YardSection};
use sward_book::view::visit::VisitState;
use sward_rules::label::{Label, Method};
use sward_rules::measure::AreaEstimate;
use sward_rules::plan::{
    AreaBasis, IngredientDose, Passes, Plan, PlanInput, Section, Vessel, plan,
};
use sward_rules::quantity::Dimension;
use sward_rules::{Entered, RuleError};

use crate::Result;
use crate::screen::visit::Here;

/// How many visits back a plan is looked for.
const LOOKED_BACK: usize = 20;

/// A visit's plan with one label sheet.
pub(super) struct Job {
    pub(super) label_id: SheetId,
    pub(super) sheet: LabelSheet,
    pub(super) is_read_back: bool,
    pub(super) read_back_by: Option<String>,
    /// The plan as it was kept, where that was with this label sheet.
    pub(super) kept: Option<PlanSheet>,
    /// Sections with their areas, and the names of those that are not measured.
    pub(super) sections: Vec<Section>,
    pub(super) unmeasured: Vec<String>,
    /// None while the kept plan lacks something.
    pub(super) worked: Option<std::result::Result<Plan, RuleError>>,
}

impl Job {
    /// Reads it and works it out.
    pub(super) fn read(book: &Book, here: &Here, label_id: SheetId) -> Result<Self> {
        let sheet = book.label_sheet(label_id)?;
        let read_back = book.label(label_id)?.read_back;
        let kept = book
            .plan(here.visit.visit)?
            .filter(|p| p.label == Some(label_id));
        let chosen = kept.as_ref().map_or(&[][..], |k| k.sections.as_slice());
        let (sections, unmeasured) = sections(here, chosen);
        let mut job = Self {
            label_id,
            sheet,
            is_read_back: read_back.is_some(),
            read_back_by: read_back.map(|r| r.person),
            kept,
            sections,
            unmeasured,
            worked: None,
        };
        job.worked = job.work_out();
        Ok(job)
    }

    /// Whether the product goes on in water.
    pub(super) fn is_wet(&self) -> bool {
        is_wet(self.sheet.label.method)
    }

    fn work_out(&self) -> Option<std::result::Result<Plan, RuleError>> {
        let kept = self.kept.as_ref()?;
        let vessel = Vessel {
            name: String::new(),
            least_step: kept.vessel?,
        };
        let input = PlanInput {
            sections: &self.sections,
            label: &self.sheet.label,
            rate: kept.rate?,
            carrier: kept.carrier,
            capacity: kept.holds?,
            vessel: &vessel,
            passes: if kept.two_passes {
                Passes::TwoAtRightAngles
            } else {
                Passes::One
            },
            swath: kept.swath,
            basis: if kept.less_uncertainty {
                AreaBasis::LessUncertainty
            } else {
                AreaBasis::Best
            },
        };
        if self.is_wet() && kept.carrier.is_none() {
            return None;
        }
        Some(plan(&input))
    }
}

pub(super) fn is_wet(method: Method) -> bool {
    matches!(method, Method::FoliarSpray | Method::Drench)
}

/// The sections that are not hidden, of those that are chosen where any are.
pub(super) fn shown<'a>(
    here: &'a Here,
    chosen: &'a [ItemId],
) -> impl Iterator<Item = &'a YardSection> {
    here.yard
        .iter()
        .flat_map(|y| &y.sections)
        .filter(move |s| !s.hidden && (chosen.is_empty() || chosen.contains(&s.id)))
}

fn sections(here: &Here, chosen: &[ItemId]) -> (Vec<Section>, Vec<String>) {
    let mut measured = Vec::new();
    let mut unmeasured = Vec::new();
    for section in shown(here, chosen) {
        match area(section) {
            Some(section) => measured.push(section),
            None => unmeasured.push(section.name.clone()),
        }
    }
    (measured, unmeasured)
}

/// A section with its area; none where it has no outline that gives one.
pub(super) fn area(section: &YardSection) -> Option<Section> {
    let area = section.outline.as_ref()?.area().ok()?.value;
    Some(Section {
        name: section.name.clone(),
        area,
    })
}

/// The plan of the newest finished visit to the same yard, with this label sheet or with any, and
/// when that visit was opened.
pub(super) fn last_with(
    book: &Book,
    here: &Here,
    label: Option<SheetId>,
) -> Result<Option<(PlanSheet, i64)>> {
    let Some(yard) = here.visit.yard else {
        return Ok(None);
    };
    let visits = book.visits_to_newest(yard, LOOKED_BACK)?;
    let earlier = visits.iter().filter(|v| is_earlier(v.visit, v.state, here));
    for visit in earlier {
        let Some(plan) = book.plan(visit.visit)? else {
            continue;
        };
        let fits = label.is_none_or(|label| plan.label == Some(label));
        if let (true, Some(opened)) = (fits, visit.opened) {
            return Ok(Some((plan, opened.utc_ms)));
        }
    }
    Ok(None)
}

fn is_earlier(visit: VisitId, state: VisitState, here: &Here) -> bool {
    visit != here.visit.visit && state == VisitState::Finished
}

/// Doses by ingredient for a rate, as the rules give them with a plan; empty where they give none.
pub(super) fn doses(label: &Label, rate: &Entered) -> Vec<IngredientDose> {
    // Doses hang on label and rate alone; any lawn, vessel and tank will do.
    let by_volume = rate.dimension() == Dimension::VolumePerArea;
    let amount = |text: &str| Entered::parse(text).expect("a fixed amount can be read");
    let Ok(area) = AreaEstimate::stated(&amount("100000 ft2"), &amount("1 ft2")) else {
        return Vec::new();
    };
    let vessel = Vessel {
        name: String::new(),
        least_step: amount(if by_volume { "0.001 mL" } else { "0.001 g" }),
    };
    let worked = plan(&PlanInput {
        sections: &[Section {
            name: String::new(),
            area,
        }],
        label,
        rate: *rate,
        carrier: is_wet(label.method).then(|| amount("1000 gal/1000 ft2")),
        capacity: amount(match (is_wet(label.method), by_volume) {
            (true, _) | (false, true) => "100000 gal",
            (false, false) => "100000 lb",
        }),
        vessel: &vessel,
        passes: Passes::One,
        swath: None,
        basis: AreaBasis::Best,
    });
    worked.map_or_else(
        |_| Vec::new(),
        |plan| plan.ingredients.into_iter().map(|a| a.value).collect(),
    )
}
