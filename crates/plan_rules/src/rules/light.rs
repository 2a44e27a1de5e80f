//! Light and air of spaces, by themselves or borrowed through open passages: what the rules on glass and on what opens share.

use plan_geometry::{Basis, BorrowedLight, Daylight, Figure, Space};
use plan_model::{Exact, Id, VentilationKind};

use super::opening_figure::ESTIMATED;
use super::spaces::{Covered, CoveredSpace};
use crate::book::Entry;
use crate::rule::{Case, Figures};
use crate::{Quantity, RestsOn, Verdict, What, show};

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

/// What a space has and needs, by itself or as one with a space from which it borrows.
struct Borrowed {
    figure: Figure,
    required: Exact,
    /// What is told with it.
    note: Option<String>,
    /// The windows of the space that lends.
    windows: Vec<Id>,
    /// What must be entered to know whether it may borrow.
    enter: Option<String>,
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
        let borrowed = if falls_short { self.borrowed(case, &covered.space, &light, asked) } else { None };
        let alone = Borrowed { figure: alone.0, required: alone.1, note: None, windows: Vec::new(), enter: None };
        let Borrowed { figure, required, note, windows, enter } = borrowed.unwrap_or(alone);
        notes.extend(note);
        let windows = [light.windows, windows].concat();
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
        let verdict = case
            .compare(subject, figures, message, notes)
            .entering(|| enter.unwrap_or_else(|| (asked.enter)(case, &windows)));
        // A space with too little of its own may borrow from those beyond its doorways, by their common wall.
        if falls_short { verdict.resting_on(RestsOn::Neighbours) } else { verdict.of_the(What::Shell) }
    }

    /// Both spaces as one, if the first may borrow from another: of several the one with which it has enough. Unknown where
    /// it would have enough with one, and the plan does not say whether it may.
    fn borrowed(&self, case: &Case<'_>, space: &Space, light: &Daylight, asked: &Asked) -> Option<Borrowed> {
        let limits = self.borrowing.as_ref()?;
        let lent = case.derived.borrowed_light(space);
        let tried = lent.iter().filter_map(|borrowed| self.tried_with(case, limits, borrowed, light, asked));
        tried.min_by_key(|borrowed| borrowed.outcome())
    }

    fn tried_with(
        &self,
        case: &Case<'_>,
        limits: &Borrowing,
        borrowed: &BorrowedLight,
        light: &Daylight,
        asked: &Asked,
    ) -> Option<Borrowed> {
        let lender = lender(case, borrowed)?;
        let lent = case.derived.daylight(&lender);
        let figure = (asked.figure)(light).plus((asked.figure)(&lent));
        let required = self.share * (light.floor_area.exact() + lent.floor_area.exact());
        let name = borrowed.lender.first().and_then(|id| case.room(id)).map_or("the other room", |room| &room.name);
        let why = match limits.is_large_enough(borrowed, &lent) {
            Ok(false) => return None,
            Ok(true) => {
                let note = format!("judged as one with {name}, from which it borrows through an open passage");
                return Some(Borrowed { figure, required, note: Some(note), windows: lent.windows, enter: None });
            }
            Err(why) => why,
        };
        if figure.value().is_some_and(|both| both < required) {
            return None;
        }
        let why = format!("it borrows from {name} if the passage between them is large enough, and {why}");
        let of_passage = || {
            let doors =
                case.derived.doors.iter().filter(|door| door.clear_width.times(&door.clear_height).value().is_none());
            let door = doors.map(|door| &door.id).find(|id| borrowed.through.contains(id))?;
            Some(case.enter_clear(door))
        };
        let enter = of_passage().unwrap_or_else(|| case.enter_ceiling(&borrowed.borrower));
        let required = self.share * light.floor_area.exact();
        Some(Borrowed { figure: Figure::Unknown(why), required, note: None, windows: Vec::new(), enter: Some(enter) })
    }
}

impl Borrowed {
    /// What comes of it, the best first.
    fn outcome(&self) -> u8 {
        match (&self.enter, self.figure.value()) {
            (None, Some(both)) if both >= self.required => 0,
            (_, None) => 1,
            (_, Some(_)) => 2,
        }
    }
}

impl Borrowing {
    /// Whether the opening is as large as it must be at the least; why that is not known, where it is not.
    fn is_large_enough(&self, borrowed: &BorrowedLight, lent: &Daylight) -> Result<bool, String> {
        let inner = borrowed.floor_area.exact();
        let of_inner = self.of_inner_floor.map_or(self.area, |share| share * inner);
        let of_combined = self.of_combined_floor.map_or(self.area, |share| share * (inner + lent.floor_area.exact()));
        let of_floors = self.area.max(of_inner).max(of_combined);
        match (&borrowed.opening_area, &borrowed.common_wall.area) {
            (Figure::Known { value: opening, .. }, _) if *opening < of_floors => Ok(false),
            (Figure::Known { value: opening, .. }, Figure::Known { value: wall, .. }) => {
                Ok(*opening >= of_floors.max(self.of_wall * *wall))
            }
            (Figure::Unknown(why), _) | (_, Figure::Unknown(why)) => Err(why.clone()),
        }
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
