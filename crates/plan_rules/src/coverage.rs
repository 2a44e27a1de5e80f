use crate::{BookRule, Clause, ClauseStatus};

/// What became of a section of the code in one judgement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coverage {
    /// Judged, as far as a plan can show it.
    Judged,
    /// Judged in part.
    Partly,
    /// Not judged: the program has no rule for it, or the book leaves its rules out.
    NotJudged,
    /// The plan has nothing that the section is about.
    DoesNotApply,
}

impl Coverage {
    /// Follows from the rules that the book has, each with whether it applies to the plan.
    pub(crate) fn of(clause: &Clause, rules: &[(&BookRule, bool)]) -> Self {
        let present: Vec<_> = rules.iter().filter(|(rule, _)| clause.rules.contains(&rule.rule.id)).collect();
        if present.is_empty() {
            Self::NotJudged
        } else if present.iter().all(|(_, applies)| !applies) {
            Self::DoesNotApply
        } else if clause.status == ClauseStatus::Judged && present.len() == clause.rules.len() {
            Self::Judged
        } else {
            Self::Partly
        }
    }
}
