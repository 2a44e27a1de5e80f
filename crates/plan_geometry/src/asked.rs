//! Figures that are worked out when they are first asked for, and kept as long as what they rest on stays the same.
//!
//! A [`Question`] holds *everything* that its answer rests on, and the answer is a pure function of it. So an answer that
//! was given before may stand for the same question asked again: that is all there is to deriving a home anew after a
//! change, and why it cannot say anything else than a derivation from nothing.

use std::sync::{Arc, OnceLock};

/// Something to work out, with all that it rests on.
pub(crate) trait Question: PartialEq {
    /// What comes of it.
    type Answer: std::fmt::Debug;

    /// Works it out.
    fn answer(&self) -> Self::Answer;
}

/// A question with its answer once it was given; clones share it.
#[derive(Debug)]
pub(crate) struct Asked<Q: Question>(Arc<Kept<Q>>);

#[derive(Debug)]
struct Kept<Q: Question> {
    question: Q,
    answer: OnceLock<Q::Answer>,
}

impl<Q: Question> Asked<Q> {
    /// A question that nobody has answered yet.
    pub(crate) fn of(question: Q) -> Self {
        Self(Arc::new(Kept { question, answer: OnceLock::new() }))
    }

    /// The question, with the answer that an earlier derivation gave to the same one.
    pub(crate) fn after(earlier: Option<&Self>, question: Q) -> Self {
        match earlier {
            Some(earlier) if earlier.0.question == question => earlier.clone(),
            _ => Self::of(question),
        }
    }

    /// The answer, worked out if nobody has asked before.
    pub(crate) fn get(&self) -> &Q::Answer {
        self.0.answer.get_or_init(|| self.0.question.answer())
    }

    /// What the answer rests on.
    pub(crate) fn question(&self) -> &Q {
        &self.0.question
    }
}

/// The same question, whether or not somebody has answered it: a question can rest on the answer to another.
impl<Q: Question> PartialEq for Asked<Q> {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || self.question() == other.question()
    }
}

impl<Q: Question> Clone for Asked<Q> {
    fn clone(&self) -> Self {
        Self(self.0.clone())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;
    use std::rc::Rc;

    struct Doubled(i32, Rc<Cell<u32>>);

    impl PartialEq for Doubled {
        fn eq(&self, other: &Self) -> bool {
            self.0 == other.0
        }
    }

    impl Question for Doubled {
        type Answer = i32;
        fn answer(&self) -> i32 {
            self.1.set(self.1.get() + 1);
            self.0 * 2
        }
    }

    #[test]
    fn an_answer_is_worked_out_once_and_kept_for_the_same_question_only() {
        let times = Rc::new(Cell::new(0));
        let first = Asked::of(Doubled(4, times.clone()));
        assert_eq!((*first.get(), *first.clone().get(), times.get()), (8, 8, 1));
        let same = Asked::after(Some(&first), Doubled(4, times.clone()));
        assert_eq!((*same.get(), times.get()), (8, 1));
        let other = Asked::after(Some(&same), Doubled(5, times.clone()));
        assert_eq!((*other.get(), times.get()), (10, 2));
    }
}
