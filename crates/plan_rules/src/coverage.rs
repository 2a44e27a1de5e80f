use crate::{BookRule, Clause, ClauseStatus};

/// What became of a section of the code in one judgement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coverage {
    /// Judged, as far as a plan can show it.
    Judged,
    /// Judged in part.
    Partly,
    /// Not judged: the program has no rule for it, the book leaves its rules out, or the drawing keeps them from judging.
    NotJudged,
    /// The plan has nothing that the section is about.
    DoesNotApply,
}

/// A rule of a book in one judgement.
pub(crate) struct RuleUse<'a> {
    pub(crate) rule: &'a BookRule,
    /// Whether the home has anything that it is about.
    pub(crate) applies: bool,
    /// Whether it gave a verdict.
    pub(crate) judged: bool,
}

impl Coverage {
    /// Follows from the rules that the book has.
    pub(crate) fn of(clause: &Clause, rules: &[RuleUse<'_>]) -> Self {
        let present: Vec<_> = rules.iter().filter(|used| clause.rules.contains(&used.rule.rule.id)).collect();
        if !present.is_empty() && !present.iter().any(|used| used.applies) {
            Self::DoesNotApply
        } else if !present.iter().any(|used| used.judged) {
            Self::NotJudged
        } else if clause.status == ClauseStatus::Judged && present.len() == clause.rules.len() {
            Self::Judged
        } else {
            Self::Partly
        }
    }
}
