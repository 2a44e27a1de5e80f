use plan_model::{Exact, Id, Point};

use crate::{AnsweredBy, RestsOn, What};

/// What a rule says of one subject.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verdict {
    /// The rule's id in the registry, such as `habitable-area`.
    pub rule: &'static str,
    /// The section of the book, where it is certain enough to be printed.
    pub section: Option<String>,
    /// What came out.
    pub outcome: Outcome,
    /// The element judged: a room, window, door; none for the home as a whole.
    pub subject: Option<Id>,
    /// The subject as people call it: "Bedroom 2", "window of Bedroom 2".
    pub subject_name: String,
    /// What the figures are.
    pub quantity: Quantity,
    /// The figure of the home, in grid steps or square grid steps; none if unknown, or if there is
    /// nothing to measure.
    pub measured: Option<Exact>,
    /// The limit of the book, in the same measure.
    pub required: Option<Exact>,
    /// One sentence for people: what is wrong (or met), measured and required with units.
    pub message: String,
    /// Exceptions applied, estimates, limits of confidence: clauses for people.
    pub notes: Vec<String>,
    /// Where on the plan.
    pub place: Place,
    /// Who answers for it.
    pub answered_by: AnsweredBy,
    /// What of the home the outcome rests on.
    pub rests_on: RestsOn,
    /// What of that ground.
    pub what: What,
    /// What must be entered in the plan for the figure to be known: "the head height of window \"w3\""; none where it is
    /// known, or where there is nothing to measure.
    pub enter: Option<String>,
    /// The exception of the book that lets the subject off, where one does.
    pub exception: Option<Exception>,
}

/// What lets a subject off a rule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Exception {
    /// What it says, in a sentence.
    pub text: String,
    /// The section of the code that it stands in, where it is certain enough to be printed.
    pub section: Option<String>,
}

impl Verdict {
    /// The verdict with what must be entered, if its figure is not known.
    pub(crate) fn entering(mut self, what: impl FnOnce() -> String) -> Self {
        self.enter = self.measured.is_none().then(what);
        self
    }

    /// Measured minus required (required minus measured for an upper limit): negative falls short.
    #[must_use]
    pub fn margin(&self) -> Option<Exact> {
        let difference = self.measured? - self.required?;
        Some(if self.quantity.is_upper_limit() { -difference } else { difference })
    }
}

/// What came out of judging one subject by one rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// A required rule that the home falls short of.
    Correction,
    /// A required rule that cannot be judged: the model does not hold a figure.
    Unknown,
    /// A recommendation not met; it never fails a plan.
    Advisory,
    /// The rule is met.
    Met,
    /// The home has nothing that the rule is about, an exception lets the subject off, or another rule tells that there is
    /// nothing to measure. No finding: it neither fails a plan nor holds one up.
    DoesNotApply,
}

/// What the two figures of a verdict are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// Length, at least so much.
    LengthAtLeast,
    /// Length, at most so much.
    LengthAtMost,
    /// Area, at least so much.
    AreaAtLeast,
    /// How many, at least so many; the figures are plain numbers.
    CountAtLeast,
    /// Whether something is so: 1 if it is, 0 if not.
    Possible,
}

impl Quantity {
    /// Whether more is worse.
    #[must_use]
    pub const fn is_upper_limit(self) -> bool {
        matches!(self, Self::LengthAtMost)
    }
}

/// Where a verdict is to be seen on the plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// The point where a mark stands.
    pub at: Point,
    /// The two places between which the measured figure is drawn, if it is a distance on the plan.
    pub dimension: Option<[Point; 2]>,
    /// Corners of the shape that was measured (a clear rectangle, an opening), if it is one.
    pub outline: Vec<Point>,
}
