//! A sketch filled from the book: the yard's sections and marks, and the keep-offs that run there.
//!
//! Wind and passes are added by the screens that know them.

use sward_book::ids::SheetId;
use sward_book::sheet::{Mark, Section, YardSheet};

use super::{KeepOffDrawn, Orientation, Place, Point, Sketch, SketchMark, SketchSection};
use crate::Result;
use crate::ask::Ask;
use crate::part::keep_off::{running_on, told};

impl Sketch {
    /// The sketch of a yard as its sheet says: sections that are shown, and hidden ones on which a
    /// keep-off runs; north up.
    ///
    /// # Errors
    /// When the book cannot be read.
    pub(crate) fn for_yard(ask: &Ask<'_>, yard: SheetId, sheet: &YardSheet) -> Result<Self> {
        let words = ask.words.in_zone(sheet.zone);
        let running = running_on(ask.book()?, yard)?;
        let mut sections: Vec<SketchSection> = sheet
            .sections
            .iter()
            .filter(|s| !s.hidden || running.iter().any(|k| k.section == s.id))
            .map(section)
            .collect();
        for keep_off in &running {
            let told = told(words, keep_off.standing(ask.now), ask.now);
            let drawn = KeepOffDrawn {
                outline: keep_off.outline.clone(),
                until: format!("{}: {}", told.state, told.until),
            };
            match sections.iter_mut().find(|s| s.id == keep_off.section) {
                Some(section) => section.keep_offs.push(drawn),
                // Its section has not arrived, or is no more: the keep-off stands all the same.
                None => sections.push(SketchSection {
                    id: keep_off.section,
                    name: keep_off.name.clone(),
                    outline: None,
                    place: None,
                    keep_offs: vec![drawn],
                    passes: None,
                }),
            }
        }
        Ok(Self {
            id: "sk",
            name: sheet.name.clone(),
            sections,
            marks: sheet.marks.iter().filter(|m| !m.hidden).map(mark).collect(),
            wind: None,
            orientation: Orientation::North,
        })
    }

    /// As one stands in the street, where it is known in which direction that lies.
    #[must_use]
    pub(crate) fn seen_from_street(mut self, street_bearing_deg: Option<f64>) -> Self {
        self.orientation = street_bearing_deg.map_or(Orientation::North, Orientation::Street);
        self
    }
}

pub(super) fn section(section: &Section) -> SketchSection {
    let place = section.east.zip(section.north).map(|(east, north)| Place {
        at: Point::new(east.metres(), north.metres()),
        turn_deg: section.turn_deg.unwrap_or(0.0),
    });
    SketchSection {
        id: section.id,
        name: section.name.clone(),
        outline: section.outline.clone(),
        place,
        keep_offs: Vec::new(),
        passes: None,
    }
}

fn mark(mark: &Mark) -> SketchMark {
    SketchMark {
        kind: mark
            .kind
            .map_or_else(String::new, |kind| kind.word().to_owned()),
        name: mark.name.clone(),
        at: mark_point(mark),
    }
}

/// Where a mark lies; none while nobody said.
pub(super) fn mark_point(mark: &Mark) -> Option<Point> {
    let placed = mark.east.zip(mark.north);
    placed.map(|(east, north)| Point::new(east.metres(), north.metres()))
}
