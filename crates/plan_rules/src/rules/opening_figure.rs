use plan_geometry::{Basis, Figure};
use plan_model::{Exact, Id, Point};

use crate::rule::{Case, Figures, Subject};
use crate::{Place, Quantity, Verdict, show};

/// What an estimate must be told with.
pub(super) const ESTIMATED: &str = "estimated from the unit's size: confirm with the maker's published clear opening";

/// One figure of a window or door with what is asked of it.
pub(super) struct OpeningFigure<'a> {
    pub(super) id: &'a Id,
    /// The opening as people call it: "window of Bedroom 2".
    pub(super) opening: String,
    pub(super) outline: &'a [Point; 4],
    /// The figure in words: "clear width".
    pub(super) what: &'static str,
    pub(super) figure: &'a Figure,
    pub(super) quantity: Quantity,
    pub(super) required: Exact,
    /// Where the figure is drawn, if it is a distance on the plan.
    pub(super) dimension: Option<[Point; 2]>,
    pub(super) notes: Vec<String>,
}

impl OpeningFigure<'_> {
    pub(super) fn verdict(self, case: &Case<'_>) -> Verdict {
        let Self { opening, what, required, mut notes, .. } = self;
        let is_area = self.quantity == Quantity::AreaAtLeast;
        let limit = if is_area { show::area(required, case.units()) } else { show::length(required, case.units()) };
        let limit = if self.quantity.is_upper_limit() {
            format!("at most {limit} is allowed")
        } else {
            format!("{limit} is required")
        };
        let message = match self.figure {
            Figure::Known { value, .. } => {
                let shown = if is_area { case.area(*value, required) } else { case.length(*value, required) };
                format!("The {what} of the {opening} is {shown}; {limit}.")
            }
            Figure::Unknown(why) => format!("The {what} of the {opening} is not known: {why}; {limit}."),
        };
        if matches!(self.figure, Figure::Known { basis: Basis::Estimated, .. }) {
            notes.push(ESTIMATED.to_owned());
        }
        let place = Place::opening(self.outline, self.dimension);
        let figures = Figures { quantity: self.quantity, measured: self.figure.value(), required };
        let subject = Subject { id: Some(self.id.clone()), name: opening, place };
        let enter =
            || if self.quantity.is_upper_limit() { case.enter_sill(self.id) } else { case.enter_clear(self.id) };
        case.compare(subject, figures, message, notes).entering(enter)
    }
}
