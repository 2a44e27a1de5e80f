use std::sync::Arc;

use plan_geometry::Figure;
use plan_model::Exact;
use plan_model::elements::{Room, RoomUse};

use super::egress_opening::{Limits, Opening, chosen};
use super::opening_figure::OpeningFigure;
use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject, exact};
use crate::{Outcome, Place, Quantity, Rule, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "egress-area",
    name: "Area of the escape opening",
    measures: "Net clear area of each bedroom's best window or outside door; all limits of an escape opening must hold \
               on one and the same opening.",
    read,
};

#[derive(Debug)]
struct EgressArea {
    rooms: Vec<RoomUse>,
    limit: AreaLimit,
    limits: Limits,
}

/// The area that is required, which may be less near the ground.
#[derive(Debug)]
pub(super) struct AreaLimit {
    area: Exact,
    grade_floor: Option<GradeFloor>,
}

/// The smaller area for an opening whose sill is near the ground outside.
#[derive(Debug)]
struct GradeFloor {
    area: Exact,
    within: Exact,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    let (rooms, limit, limits) = (entry.rooms(), AreaLimit::read(entry), Limits::beside(entry));
    Arc::new(EgressArea { rooms, limit, limits })
}

impl AreaLimit {
    pub(super) fn read(entry: &Entry<'_>) -> Self {
        let grade_floor = entry.group("grade_floor").map(|group| {
            let grade_floor = GradeFloor { area: group.area("area"), within: group.length("within") };
            group.finish();
            grade_floor
        });
        Self { area: entry.area("area"), grade_floor }
    }

    /// What an opening must have. The larger area holds until the plan shows that the sill is near the ground.
    pub(super) fn required(&self, case: &Case<'_>, opening: &Opening<'_>) -> Exact {
        self.grade_floor(case, opening).map_or(self.area, |grade_floor| grade_floor.area)
    }

    fn grade_floor(&self, case: &Case<'_>, opening: &Opening<'_>) -> Option<&GradeFloor> {
        let above = sill_above_ground(case, opening)?;
        self.grade_floor.as_ref().filter(|limit| above.max(-above) <= limit.within)
    }
}

impl Check for EgressArea {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let judge = |(room, opening): (&Room, Option<Opening<'_>>)| match opening {
            Some(opening) => self.judge(case, room, &opening),
            None => self.no_opening(case, room),
        };
        chosen(case, &self.rooms, &self.limits).map(judge).collect()
    }
}

impl EgressArea {
    fn judge(&self, case: &Case<'_>, room: &Room, opening: &Opening<'_>) -> Verdict {
        let grade_floor = self.limit.grade_floor(case, opening);
        let required = self.limit.required(case, opening);
        let mut notes = Vec::new();
        if let Some(limit) = grade_floor {
            let within = show::length(limit.within, case.units());
            notes.push(format!("its sill is within {within} of the ground outside: the smaller area holds"));
        } else if let Some(limit) = self.would_do_near_the_ground(&opening.area) {
            let why = match sill_above_ground(case, opening) {
                Some(above) => {
                    let side = if above < Exact::from(0) { "below" } else { "above" };
                    let away = show::length_beside(above.max(-above), limit.within, case.units());
                    let within = show::length(limit.within, case.units());
                    format!("its sill is {away} {side} the ground outside, more than {within}")
                }
                None if case.home.plan.home.floor_above_grade.is_none() => {
                    "the plan does not say how high the floor is above the ground".to_owned()
                }
                None => "how high its sill is, is not known".to_owned(),
            };
            notes.push(format!("{why}: the larger area holds"));
        }
        let judged = opening.judged(room, "clear opening", &opening.area, Quantity::AreaAtLeast, required);
        OpeningFigure { notes, ..judged }.verdict(case)
    }

    /// The limit near the ground, where the area would do there and does not elsewhere.
    fn would_do_near_the_ground(&self, area: &Figure) -> Option<&GradeFloor> {
        let area = area.value()?;
        self.limit.grade_floor.as_ref().filter(|limit| area >= limit.area && area < self.limit.area)
    }

    fn no_opening(&self, case: &Case<'_>, room: &Room) -> Verdict {
        let required = self.limit.area;
        let message = format!(
            "{} has no window or door that opens to the outside; an escape opening of {} is required.",
            room.name,
            show::area(required, case.units()),
        );
        let subject = Subject { id: Some(room.id.clone()), name: room.name.clone(), place: Place::point(room.at) };
        let figures = Figures { quantity: Quantity::AreaAtLeast, measured: None, required };
        case.verdict(Outcome::Correction, subject, figures, message, Vec::new())
    }
}

/// The sill above the finished ground outside, below zero where it lies deeper; none if the plan does not say.
fn sill_above_ground(case: &Case<'_>, opening: &Opening<'_>) -> Option<Exact> {
    Some(exact(case.home.plan.home.floor_above_grade?) + opening.sill.value()?)
}
