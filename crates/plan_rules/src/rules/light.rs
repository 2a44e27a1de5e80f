//! Light and air of spaces, by themselves or borrowed through open passages: what the rules on glass and on what opens share.

use plan_geometry::{Basis, BorrowedLight, Daylight, Figure, Space};
use plan_model::{Exact, Id, VentilationKind};

use super::opening_figure::ESTIMATED;
use super::spaces::{Covered, CoveredSpace};
use crate::book::Entry;
use crate::rule::{Case, Figures};
use crate::{Quantity, Verdict, show};

/// When a space may borrow from another one: the opening between them is at least the largest of these.
#[derive(Debug)]
struct Borrowing {
    /// A part of the wall that the two have in common.
    of_wall: Exact,
    /// A part of the floor of the space that borrows.
    of_inner_floor: Option<Exact>,
    /// A part of both floors together.
    of_combined_floor: Option<Exact>,
    area: Exact,
}

/// How much of its floor a space needs.
#[derive(Debug)]
pub(super) struct Share {
    covered: Covered,
    share: Exact,
    borrowing: Option<Borrowing>,
}

/// Two spaces as one.
struct Borrowed {
    /// What they have together.
    figure: Figure,
    required: Exact,
    /// The windows of the space that lends.
    lent: Vec<Id>,
}

/// Which of the two is asked for.
pub(super) struct Asked {
    /// In words: "glass to outdoors".
    pub(super) what: &'static str,
    pub(super) figure: fn(&Daylight) -> &Figure,
    /// What must be entered of some windows for it to be known.
    pub(super) enter: fn(&Case<'_>, &[Id]) -> String,
}

impl Share {
    pub(super) fn read(entry: &Entry<'_>) -> Self {
        let borrowing = entry.group("borrowed").map(|group| {
            let borrowing = Borrowing {
                of_wall: group.share("share_of_wall"),
                of_inner_floor: group.optional_share("share_of_inner_floor"),
                of_combined_floor: group.optional_share("share_of_combined_floor"),
                area: group.area("area"),
            };
            group.finish();
            borrowing
        });
        Self { covered: Covered::read(entry), share: entry.share("share_of_floor"), borrowing }
    }

    pub(super) fn check(&self, case: &Case<'_>, asked: &Asked) -> Vec<Verdict> {
        self.covered.named(case).iter().map(|space| self.judge(case, space, asked)).collect()
    }

    fn judge(&self, case: &Case<'_>, covered: &CoveredSpace<'_>, asked: &Asked) -> Verdict {
        let light = case.derived.daylight(&covered.space);
        let mut notes = Vec::new();
        let own = (asked.figure)(&light).clone();
        let alone = (own, self.share * light.floor_area.exact());
        let falls_short = alone.0.value().is_some_and(|own| own < alone.1);
        let borrowed = if falls_short { self.borrowed(case, &covered.space, &light, asked, &mut notes) } else { None };
        let mut windows = light.windows.clone();
        let (figure, required) = borrowed.map_or(alone, |Borrowed { figure, required, lent }| {
            windows.extend(lent);
            (figure, required)
        });
        if matches!(figure, Figure::Known { basis: Basis::Estimated, .. }) {
            notes.push(ESTIMATED.to_owned());
        }
        let subject = covered.subject(&covered.space.sizes.rectangle(), None);
        let (name, what) = (&subject.name, asked.what);
        let share = show::percent(self.share);
        let needed = format!("{} is asked for, {share} of the floor", show::area(required, case.units()));
        let message = match &figure {
            Figure::Known { value, .. } => {
                format!("{name} has {} of {what}; {needed}.", case.area(*value, required))
            }
            Figure::Unknown(why) => format!("How much {what} {name} has is not known: {why}; {needed}."),
        };
        let figures = Figures { quantity: Quantity::AreaAtLeast, measured: figure.value(), required };
        case.compare(subject, figures, message, notes).entering(|| (asked.enter)(case, &windows))
    }

    /// Both spaces as one, if the first may borrow from the other; what it has then, and what it needs.
    fn borrowed(
        &self,
        case: &Case<'_>,
        space: &Space,
        light: &Daylight,
        asked: &Asked,
        notes: &mut Vec<String>,
    ) -> Option<Borrowed> {
        let limits = self.borrowing.as_ref()?;
        case.derived.borrowed_light(space).iter().find_map(|borrowed| {
            let lender = lender(case, borrowed)?;
            let lent = case.derived.daylight(&lender);
            let least = limits.least(borrowed, &lent)?;
            if borrowed.opening_area.value()? < least {
                return None;
            }
            let floor = light.floor_area.exact() + lent.floor_area.exact();
            let name = borrowed.lender.first().and_then(|id| case.room(id)).map_or("the other room", |room| &room.name);
            notes.push(format!("judged as one with {name}, from which it borrows through an open passage"));
            let figure = (asked.figure)(light).plus((asked.figure)(&lent));
            Some(Borrowed { figure, required: self.share * floor, lent: lent.windows })
        })
    }
}

impl Borrowing {
    /// The least opening; none where the common wall is not known.
    fn least(&self, borrowed: &BorrowedLight, lent: &Daylight) -> Option<Exact> {
        let inner = borrowed.floor_area.exact();
        let of_wall = self.of_wall * borrowed.common_wall.area.value()?;
        let of_inner = self.of_inner_floor.map(|share| share * inner);
        let of_combined = self.of_combined_floor.map(|share| share * (inner + lent.floor_area.exact()));
        [Some(of_wall), of_inner, of_combined, Some(self.area)].into_iter().flatten().max()
    }
}

fn lender(case: &Case<'_>, borrowed: &BorrowedLight) -> Option<Space> {
    let holds = |space: &&Space| borrowed.lender.iter().all(|room: &Id| space.rooms.contains(room));
    case.derived.spaces.iter().find(holds).cloned()
}

/// A whole-house ventilator, as the plan tells of it.
pub(super) fn has_whole_house_ventilation(case: &Case<'_>) -> bool {
    let ventilation = case.home.plan.home.whole_house_ventilation.as_ref();
    ventilation.is_some_and(|ventilation| ventilation.kind != VentilationKind::None)
}
