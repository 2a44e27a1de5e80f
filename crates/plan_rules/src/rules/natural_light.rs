use std::sync::Arc;

use super::light::{Asked, Share};
use crate::book::Entry;
use crate::rule::{Case, Check};
use crate::{Rule, Verdict};

pub(super) static RULE: Rule = Rule {
    id: "natural-light",
    name: "Glass of habitable rooms",
    measures: "The area of glass to outdoors of each habitable space against a part of its floor; a space that falls short \
               may borrow through an open passage that is large enough, and is judged as one with the other then.",
    read,
};

#[derive(Debug)]
struct NaturalLight(Share);

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    Arc::new(NaturalLight(Share::read(entry)))
}

const GLASS: Asked = Asked {
    what: "glass to outdoors",
    figure: |light| &light.glazed,
    enter: |case, windows| case.enter_glass(windows),
};

impl Check for NaturalLight {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        self.0.check(case, &GLASS)
    }
}
