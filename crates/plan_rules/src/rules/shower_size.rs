use std::sync::Arc;

use plan_geometry::ShowerSpace;
use plan_model::Exact;
use plan_model::elements::FixtureKind;

use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject, exact};
use crate::{Outcome, Place, Quantity, Rule, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "shower-size",
    name: "Size of showers",
    measures: "The finished inside of each shower: its area and its shorter side, of which a disc as wide fits; a narrower one \
               does where it is large enough, if the book says so.",
    read,
};

#[derive(Debug)]
struct Size {
    area: Exact,
    side: Exact,
}

#[derive(Debug)]
struct ShowerSize {
    size: Size,
    /// Another size that does instead.
    narrower: Option<Size>,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    let size = |entry: &Entry<'_>| Size { area: entry.area("area"), side: entry.length("side") };
    let narrower = entry.group("narrower").map(|group| {
        let narrower = size(&group);
        group.finish();
        narrower
    });
    Arc::new(ShowerSize { size: size(entry), narrower })
}

impl Check for ShowerSize {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let spaces = case.derived.fixture_spaces();
        spaces.flat_map(|space| &space.showers).map(|shower| self.judge(case, shower)).collect()
    }

    fn nothing(&self, case: &Case<'_>) -> Option<String> {
        (!case.has_fixture(&[FixtureKind::Shower])).then(|| "The home has no shower.".to_owned())
    }
}

impl ShowerSize {
    fn judge(&self, case: &Case<'_>, shower: &ShowerSpace) -> Verdict {
        let (side, area) = (exact(shower.least_side), shower.area.exact());
        let has = |size: &Size| side >= size.side && area >= size.area;
        let by_exception = !has(&self.size) && self.narrower.as_ref().is_some_and(has);
        let named = case.named_or_home(Some(&shower.id));
        let units = case.units();
        // Of the two the one that falls short, the side before the area.
        let figures = if side < self.size.side {
            Figures { quantity: Quantity::LengthAtLeast, measured: Some(side), required: self.size.side }
        } else {
            Figures { quantity: Quantity::AreaAtLeast, measured: Some(area), required: self.size.area }
        };
        let message = format!(
            "The inside of {} is {} at its narrowest and {} large; {} and {} are asked for.",
            named.name,
            case.length(side, self.size.side),
            case.area(area, self.size.area),
            show::length(self.size.side, units),
            show::area(self.size.area, units),
        );
        let notes = match &self.narrower {
            Some(other) if by_exception => vec![format!(
                "a narrower one does where it is at least {} and {}",
                show::length(other.side, units),
                show::area(other.area, units)
            )],
            _ => Vec::new(),
        };
        let subject = Subject { id: Some(shower.id.clone()), name: named.name, place: Place::point(named.at) };
        let outcome = if by_exception { Outcome::Met } else { figures.outcome() };
        case.verdict(outcome, subject, figures, message, notes)
    }
}
