//! The seven steps of a visit: what is done, what is open, what is blocked and why, what comes next.
//!
//! Only what the steps hang on is here; reading it from the book is [`super::known`].

use sward_book::view::visit::VisitState;

/// A step, in the one order a visit has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Step {
    Look,
    Measure,
    Plan,
    Ready,
    Treat,
    KeepOff,
    Recheck,
}

impl Step {
    /// All of them, in their order.
    pub(crate) const ALL: [Self; 7] = [
        Self::Look,
        Self::Measure,
        Self::Plan,
        Self::Ready,
        Self::Treat,
        Self::KeepOff,
        Self::Recheck,
    ];
}

/// Where a step stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Stand {
    /// Done.
    Done,
    /// It may be done now.
    Open,
    /// Something else has to come first.
    Blocked(Block),
    /// The visit has gone on, or ended, without it.
    NotNeeded,
}

/// What has to come first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Block {
    /// The yard's sheet has not arrived on this device.
    YardNotHere,
    /// No section is measured.
    NothingMeasured,
    /// There is no label sheet.
    NoLabel,
    /// No label sheet, or not the plan's, was read back.
    LabelNotReadBack,
    /// The plan is not whole.
    PlanFirst,
    /// Sky and yard were not judged, or too long ago.
    ReadyFirst,
    /// Nothing was put on.
    NotStarted,
    /// No finish is recorded.
    NotFinished,
}

/// What the steps of a visit hang on.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is one thing that a step waits for"
)]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Known {
    pub(crate) state: VisitState,
    pub(crate) yard_is_here: bool,
    /// Counts that stand.
    pub(crate) counts: usize,
    /// Whether something was counted after the finish.
    pub(crate) counted_after: bool,
    /// Sections that are not hidden, and how many of them are measured.
    pub(crate) sections: usize,
    pub(crate) measured: usize,
    /// Label sheets, and how many of them were read back.
    pub(crate) labels: usize,
    pub(crate) labels_read: usize,
    /// Whether the plan lacks nothing, and whether its label sheet was read back.
    pub(crate) plan_is_whole: bool,
    pub(crate) plan_label_read: bool,
    /// Whether sky and yard were judged for the plan's label sheet, and recently enough to start.
    pub(crate) judged_now: bool,
    /// Keep-offs of this visit, and how many of them run.
    pub(crate) keep_offs: usize,
    pub(crate) running: usize,
}

impl Known {
    fn has_started(&self) -> bool {
        matches!(self.state, VisitState::Treating | VisitState::Finished)
    }

    /// Where a step stands.
    pub(crate) fn stand(&self, step: Step) -> Stand {
        let ended_without = self.state == VisitState::NotTreated;
        match step {
            Step::Look if self.counts > 0 => Stand::Done,
            Step::Look if ended_without || self.has_started() => Stand::NotNeeded,
            Step::Look => Stand::Open,
            Step::Measure if self.sections > 0 && self.measured == self.sections => Stand::Done,
            Step::KeepOff if self.keep_offs > 0 => self.keep_off(),
            _ if ended_without => Stand::NotNeeded,
            Step::Measure if self.has_started() => Stand::NotNeeded,
            Step::Measure if !self.yard_is_here => Stand::Blocked(Block::YardNotHere),
            Step::Plan | Step::Ready if self.has_started() => Stand::Done,
            Step::Plan => self.plan(),
            Step::Ready => self.ready(),
            Step::Treat => self.treat(),
            Step::KeepOff => Stand::Blocked(Block::NotStarted),
            Step::Recheck if self.state != VisitState::Finished => {
                Stand::Blocked(Block::NotFinished)
            }
            Step::Recheck if self.counted_after => Stand::Done,
            Step::Measure | Step::Recheck => Stand::Open,
        }
    }

    fn plan(&self) -> Stand {
        if !self.yard_is_here {
            Stand::Blocked(Block::YardNotHere)
        } else if self.measured == 0 {
            Stand::Blocked(Block::NothingMeasured)
        } else if self.plan_is_whole {
            Stand::Done
        } else if self.labels == 0 {
            Stand::Blocked(Block::NoLabel)
        } else if self.labels_read == 0 {
            Stand::Blocked(Block::LabelNotReadBack)
        } else {
            Stand::Open
        }
    }

    /// A plan that lacks nothing, and sections that it can be worked out for.
    fn is_planned(&self) -> bool {
        self.plan() == Stand::Done
    }

    fn ready(&self) -> Stand {
        if !self.is_planned() {
            Stand::Blocked(Block::PlanFirst)
        } else if !self.plan_label_read {
            Stand::Blocked(Block::LabelNotReadBack)
        } else if self.judged_now {
            Stand::Done
        } else {
            Stand::Open
        }
    }

    fn treat(&self) -> Stand {
        match self.state {
            VisitState::Finished => Stand::Done,
            VisitState::Treating => Stand::Open,
            _ if !self.is_planned() => Stand::Blocked(Block::PlanFirst),
            _ if !self.plan_label_read => Stand::Blocked(Block::LabelNotReadBack),
            _ if self.judged_now => Stand::Open,
            _ => Stand::Blocked(Block::ReadyFirst),
        }
    }

    fn keep_off(&self) -> Stand {
        if self.running == 0 && self.state == VisitState::Finished {
            Stand::Done
        } else {
            Stand::Open
        }
    }

    /// The one step to go on with; none when all that is left is blocked, or nothing is.
    ///
    /// A whole plan means that whoever made it does not look again first.
    pub(crate) fn next(&self) -> Option<Step> {
        let order: &[Step] = match self.state {
            VisitState::Treating => &[Step::Treat],
            VisitState::Finished | VisitState::NotTreated => &[Step::KeepOff, Step::Recheck],
            VisitState::Looking if self.is_planned() => &[Step::Treat, Step::Ready],
            VisitState::Looking => &[Step::Look, Step::Measure, Step::Plan],
        };
        order
            .iter()
            .copied()
            .find(|step| self.stand(*step) == Stand::Open)
    }

    /// What blocks the visit, where there is no next step because of it.
    pub(crate) fn blocked_by(&self) -> Option<Block> {
        if self.next().is_some() || self.state != VisitState::Looking {
            return None;
        }
        Step::ALL.iter().find_map(|step| match self.stand(*step) {
            Stand::Blocked(block) => Some(block),
            _ => None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A visit that was just opened, to a measured yard, with one label sheet that was read back.
    const OPENED: Known = Known {
        state: VisitState::Looking,
        yard_is_here: true,
        counts: 0,
        counted_after: false,
        sections: 2,
        measured: 2,
        labels: 1,
        labels_read: 1,
        plan_is_whole: false,
        plan_label_read: false,
        judged_now: false,
        keep_offs: 0,
        running: 0,
    };

    fn stands(known: &Known) -> [Stand; 7] {
        Step::ALL.map(|step| known.stand(step))
    }

    #[test]
    fn a_visit_begins_with_a_look_and_may_go_on_to_the_plan() {
        assert_eq!(OPENED.next(), Some(Step::Look));
        assert_eq!(OPENED.stand(Step::Plan), Stand::Open);
        assert_eq!(OPENED.stand(Step::Ready), Stand::Blocked(Block::PlanFirst));
        assert_eq!(OPENED.stand(Step::Treat), Stand::Blocked(Block::PlanFirst));
        assert_eq!(
            OPENED.stand(Step::KeepOff),
            Stand::Blocked(Block::NotStarted)
        );
        assert_eq!(
            OPENED.stand(Step::Recheck),
            Stand::Blocked(Block::NotFinished)
        );
    }

    #[test]
    fn a_whole_plan_is_followed_by_getting_ready_and_then_by_treating() {
        let planned = Known {
            plan_is_whole: true,
            plan_label_read: true,
            ..OPENED
        };
        assert_eq!(planned.next(), Some(Step::Ready));
        assert_eq!(
            planned.stand(Step::Treat),
            Stand::Blocked(Block::ReadyFirst)
        );
        let judged = Known {
            judged_now: true,
            ..planned
        };
        assert_eq!(judged.next(), Some(Step::Treat));
        let hidden = Known {
            measured: 0,
            ..judged
        };
        assert_eq!(
            hidden.stand(Step::Plan),
            Stand::Blocked(Block::NothingMeasured)
        );
        assert_eq!(hidden.stand(Step::Treat), Stand::Blocked(Block::PlanFirst));
        let changed = Known {
            plan_label_read: false,
            ..judged
        };
        assert_eq!(changed.next(), None);
        assert_eq!(changed.blocked_by(), Some(Block::LabelNotReadBack));
    }

    #[test]
    fn each_thing_that_lacks_for_a_plan_is_named_in_its_turn() {
        let counted = Known {
            counts: 1,
            ..OPENED
        };
        let blocked = |known: Known| known.stand(Step::Plan);
        let none_measured = Known {
            measured: 0,
            labels: 0,
            ..counted
        };
        assert_eq!(
            blocked(none_measured),
            Stand::Blocked(Block::NothingMeasured)
        );
        assert_eq!(none_measured.next(), Some(Step::Measure));
        let no_label = Known {
            labels: 0,
            labels_read: 0,
            ..counted
        };
        assert_eq!(blocked(no_label), Stand::Blocked(Block::NoLabel));
        assert_eq!(no_label.next(), None);
        assert_eq!(no_label.blocked_by(), Some(Block::NoLabel));
        let unread = Known {
            labels_read: 0,
            ..counted
        };
        assert_eq!(unread.blocked_by(), Some(Block::LabelNotReadBack));
        let unknown_yard = Known {
            yard_is_here: false,
            sections: 0,
            measured: 0,
            ..counted
        };
        assert_eq!(unknown_yard.blocked_by(), Some(Block::YardNotHere));
    }

    #[test]
    fn while_treating_nothing_leads_away_from_it() {
        let treating = Known {
            state: VisitState::Treating,
            keep_offs: 2,
            running: 2,
            ..OPENED
        };
        assert_eq!(treating.next(), Some(Step::Treat));
        assert_eq!(treating.stand(Step::KeepOff), Stand::Open);
        assert_eq!(treating.stand(Step::Look), Stand::NotNeeded);
    }

    #[test]
    fn after_the_finish_come_the_keep_offs_and_then_the_re_check() {
        let finished = Known {
            state: VisitState::Finished,
            keep_offs: 2,
            running: 1,
            ..OPENED
        };
        assert_eq!(finished.next(), Some(Step::KeepOff));
        let over = Known {
            running: 0,
            ..finished
        };
        assert_eq!(over.stand(Step::KeepOff), Stand::Done);
        assert_eq!(over.next(), Some(Step::Recheck));
        let checked = Known {
            counted_after: true,
            ..over
        };
        assert_eq!(checked.next(), None);
        assert_eq!(checked.blocked_by(), None);
    }

    #[test]
    fn a_visit_that_ended_without_treating_asks_for_nothing_more() {
        let ended = Known {
            state: VisitState::NotTreated,
            counts: 1,
            ..OPENED
        };
        assert_eq!(ended.next(), None);
        assert_eq!(ended.blocked_by(), None);
        assert_eq!(
            stands(&ended)[2..],
            [Stand::NotNeeded; 5],
            "everything from the plan on"
        );
    }
}
