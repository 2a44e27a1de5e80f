//! The example of a rule: a small home that falls short of it, for people who want to see what the rule measures.
//!
//! Examples are plan files, written from the cases of the rules' own test pages (`cargo dev examples`), and so what is shown
//! is what is tested.

use std::sync::Arc;

use include_dir::{Dir, include_dir};
use plan_geometry::{Amount, Derived, Mark, Measure, MeasureName, derive};
use plan_model::{Exact, Home, LegalKind, Plan, Selection, file};

use crate::rule::exact;
use crate::{BookFacts, Outcome, Quantity, Rule, RuleBook, Verdict, judge};

static FILES: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/../../assets/rule-examples");

/// A small home as a rule judges it.
#[derive(Debug)]
pub struct Example {
    /// The home.
    pub plan: Plan,
    /// Its figures.
    pub derived: Derived,
    /// What the rule says of it.
    pub verdict: Verdict,
    /// The book by which that is said.
    pub book: Arc<BookFacts>,
    /// The measures that the rule compares, of the list.
    compared: Vec<MeasureName>,
}

impl Example {
    /// The example of a rule, judged by a book as far as it falls short of that, and else by the book of the rule's page.
    #[must_use]
    pub fn of(rule: &Rule, book: Option<&RuleBook>) -> Option<Self> {
        let text = FILES.get_file(format!("{}.json", rule.id))?.contents_utf8()?;
        let plan = file::read(text).ok()?;
        let falls_short = |example: &Self| matches!(example.verdict.outcome, Outcome::Correction | Outcome::Advisory);
        let by_book = book.and_then(|book| Self::judged(rule, &plan, book)).filter(falls_short);
        by_book.or_else(|| Self::judged(rule, &plan, &own_book(rule)?))
    }

    fn judged(rule: &Rule, plan: &Plan, book: &RuleBook) -> Option<Self> {
        let mut plan = plan.clone();
        plan.home.legal_kind = book.facts().legal_kind.unwrap_or(LegalKind::StateLabel);
        let home = plan.home(&Selection::included(&plan));
        let derived = derive(&home);
        let verdicts = judge(&home, &derived, book).ok()?.verdicts.into_iter();
        // As on the rule's page: what falls short is what the example is about.
        let verdict = verdicts.filter(|verdict| verdict.rule == rule.id).min_by_key(|verdict| verdict.outcome)?;
        drop(home);
        let compared = book.rule(rule.id)?.check().measures();
        Some(Self { plan, derived, verdict, book: Arc::clone(book.facts()), compared })
    }

    /// The home; the plan has no choices.
    #[must_use]
    pub fn home(&self) -> Home<'_> {
        self.plan.home(&Selection::included(&self.plan))
    }

    /// What it shows, in a sentence with what is measured and what is required, and by which book.
    #[must_use]
    pub fn caption(&self) -> String {
        let BookFacts { name, edition, amendments, .. } = &*self.book;
        let amended: Vec<&str> = amendments.iter().map(|amendment| amendment.name.as_str()).collect();
        let amended =
            if amended.is_empty() { String::new() } else { format!(", amended by {}", amended.join(" and ")) };
        format!("{} ({name}, {edition}{amended})", self.verdict.message)
    }

    /// The measures that show what the verdict is about.
    #[must_use]
    pub fn measures(&self) -> Vec<Measure> {
        let Verdict { rule, subject, place, .. } = &self.verdict;
        let is_of_subject = |measure: &Measure| subject.as_ref().is_none_or(|subject| measure.of.contains(subject));
        let mut measures = self.derived.measures().to_vec();
        match shown_by(rule) {
            [] => {
                // A bed has two sides with the same space beside them.
                let is_its_place = |measure: &Measure| {
                    place.dimension.is_none_or(|dimension| measure.marks.contains(&Mark::Span(dimension)))
                };
                let is_compared = |measure: &Measure| self.compared.contains(&measure.name);
                measures.retain(|measure| {
                    is_compared(measure)
                        && is_of_subject(measure)
                        && is_its_place(measure)
                        && self.is_figure_of_verdict(measure)
                });
            }
            shown => {
                measures.retain(|measure| shown.contains(&measure.name));
                // What is measured between a door and an alarm is of neither room.
                if measures.iter().any(is_of_subject) {
                    measures.retain(is_of_subject);
                }
            }
        }
        measures
    }

    /// Whether a measure is the figure that was compared.
    #[must_use]
    pub fn is_figure_of_verdict(&self, measure: &Measure) -> bool {
        let figure = figure(&measure.amount, self.verdict.quantity);
        figure.is_some() && figure == self.verdict.measured
    }
}

/// What shows best what a rule is about, where that is not the figure of the list that it compares: of a rule that reads the
/// typed figures, or of one that asks whether something is possible.
fn shown_by(rule: &str) -> &'static [MeasureName] {
    match rule {
        "habitable-area" => &[MeasureName::QualifyingArea],
        "least-dimension" => &[MeasureName::LeastDimension],
        "ceiling-height" => &[MeasureName::LowestCeiling],
        "natural-light" => &[MeasureName::GlazedAreaOfSpace],
        "openable-area" => &[MeasureName::OpenableAreaOfSpace],
        "shower-size" => &[MeasureName::ShowerLeastSide],
        "landing" => &[MeasureName::LandingDepth],
        "hallway-width" => &[MeasureName::PassageWidth],
        "smoke-alarms-outside" => &[MeasureName::BedroomDoorToSmokeAlarm],
        "carbon-monoxide-alarms" => &[MeasureName::BedroomDoorToCarbonMonoxideAlarm],
        "largest-room" => &[MeasureName::FloorArea],
        "exit-travel" => &[MeasureName::WayOut],
        "door-sweeps" => &[MeasureName::LeafAngle],
        "work-triangle" => &[MeasureName::WorkTriangleLeg],
        "turning-circle" => &[MeasureName::LargestDisc],
        "clear-floor" => &[MeasureName::ClearRectangleWidth],
        _ => &[],
    }
}

/// The book by which a rule's page judges the example.
fn own_book(rule: &Rule) -> Option<RuleBook> {
    let books: toml::Table = FILES.get_file("books.toml")?.contents_utf8()?.parse().ok()?;
    RuleBook::built_in(books.get(rule.id)?.as_str()?)
}

/// An amount as a verdict of this quantity would have it.
fn figure(amount: &Amount, quantity: Quantity) -> Option<Exact> {
    match (amount, quantity) {
        (Amount::Length(length), Quantity::LengthAtLeast | Quantity::LengthAtMost) => Some(exact(length.value)),
        (Amount::OpeningLength(figure), Quantity::LengthAtLeast | Quantity::LengthAtMost) => figure.value(),
        (Amount::Area(area), Quantity::AreaAtLeast) => Some(area.exact()),
        (Amount::OpeningArea(figure), Quantity::AreaAtLeast) => figure.value(),
        (Amount::Possible(is_so), Quantity::Possible) => Some(Exact::from(i128::from(*is_so))),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::registry;

    #[test]
    fn every_rule_has_an_example_that_its_book_judges() {
        for rule in registry() {
            let example = Example::of(rule, None).unwrap_or_else(|| panic!("{}: run `cargo dev examples`", rule.id));
            assert_eq!(example.verdict.rule, rule.id);
            let falls_short = matches!(example.verdict.outcome, Outcome::Correction | Outcome::Advisory);
            assert!(falls_short || example.verdict.outcome == Outcome::Met, "{}: {}", rule.id, example.caption());
        }
    }

    fn example(rule: &str, book: Option<&str>) -> Example {
        let rule = registry().find(|known| known.id == rule).expect("a rule of the registry");
        let book = book.map(|book| RuleBook::built_in(book).expect("it comes with the program"));
        Example::of(rule, book.as_ref()).expect("it has an example")
    }

    #[test]
    fn the_book_that_is_asked_for_judges_as_far_as_the_example_falls_short_of_it() {
        assert_eq!(example("toilet-side", Some("planning-guidelines")).book.id, "planning-guidelines");
        assert_eq!(example("toilet-side", None).book.id, "irc-2021");
        // The guidelines do not hold it.
        assert_eq!(example("egress-sill", Some("planning-guidelines")).book.id, "irc-2021");
        assert_eq!(example("toilet-side", Some("hud-3280")).plan.home.legal_kind, LegalKind::FederalLabel);
        // 56 sq ft are enough there.
        let too_small_by_the_other = example("habitable-area", Some("hud-3280"));
        assert_eq!(too_small_by_the_other.book.id, "irc-2021");
        assert_eq!(too_small_by_the_other.plan.home.legal_kind, LegalKind::StateLabel);
    }

    #[test]
    fn an_example_shows_what_its_rule_measures() {
        for (rule, names) in [
            ("toilet-side", &[MeasureName::ToiletLeft][..]),
            ("hallway-width", &[MeasureName::PassageWidth]),
            ("turning-circle", &[MeasureName::LargestDisc]),
            ("work-triangle", &[MeasureName::WorkTriangleLeg; 3]),
            ("smoke-alarms-outside", &[MeasureName::BedroomDoorToSmokeAlarm]),
            ("sanitation", &[]),
        ] {
            let shown: Vec<MeasureName> = example(rule, None).measures().iter().map(|measure| measure.name).collect();
            assert_eq!(shown, names, "{rule}");
        }
    }
}
