//! Ground over which discs are led: floors, and the parts into which their narrow places cut them.

use std::sync::OnceLock;

use plan_model::{Length, Point};

use super::narrows::{self, Narrow};
use super::touching::Edge;
use crate::Region;

/// Up to which width narrow places are sought at first, and then: most bodies are no wider than a door.
const REACHES: [Length; 3] = [Length::inches(36), Length::inches(72), Length::from_steps(4 * Length::LARGEST.steps())];

/// Floors without a way from one to the other.
#[derive(Debug)]
pub(crate) struct Ground(Vec<Floor>);

/// The widest disc that can be led somewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Led {
    /// How wide; zero if none can.
    pub(crate) width: Length,
    /// The narrow place that holds up a wider one; none where it is held up at an end of its way.
    pub(crate) held_at: Option<[Point; 2]>,
}

impl Ground {
    pub(crate) fn of(floors: &[Region]) -> Self {
        Self(
            floors
                .iter()
                .map(|region| Floor { region: region.clone(), cuts: [const { OnceLock::new() }; 3] })
                .collect(),
        )
    }

    /// The widest disc, up to a ceiling, that gets from one edge to the other.
    pub(crate) fn widest(&self, edges: [&Edge; 2], ceiling: Length) -> Led {
        if ceiling <= Length::ZERO {
            return Led { width: Length::ZERO, held_at: None };
        }
        if self.leads(edges, ceiling) {
            return Led { width: ceiling, held_at: None };
        }
        // The narrow places that a disc of some width gets through, as a count of those it does not.
        let narrows = || self.0.iter().flat_map(|floor| floor.cuts(ceiling).below(ceiling));
        let mut below: Vec<Length> = narrows().map(|narrow| narrow.width).collect();
        below.sort_unstable();
        below.dedup();
        let passable = below.partition_point(|width| self.leads(edges, *width));
        let (mut yes, mut no) = match passable.checked_sub(1) {
            Some(last) => (below[last], below.get(passable).copied().unwrap_or(ceiling)),
            None => (Length::ZERO, below.first().copied().unwrap_or(ceiling)),
        };
        let held_at = narrows().find(|narrow| narrow.width == yes).map(|narrow| narrow.ends);
        if held_at.is_some() && !self.leads(edges, yes + Length::from_steps(1)) {
            return Led { width: yes, held_at };
        }
        while (no - yes).steps() > 1 {
            let middle = Length::from_steps(yes.steps() + (no - yes).steps() / 2);
            if self.leads(edges, middle) {
                yes = middle;
            } else {
                no = middle;
            }
        }
        Led { width: yes, held_at: None }
    }

    /// Whether a disc of this diameter can be led from one edge to the other.
    fn leads(&self, edges: [&Edge; 2], width: Length) -> bool {
        let from = edges[0].centres(width);
        if from.is_empty() {
            return false;
        }
        let to = edges[1].centres(width);
        !to.is_empty()
            && self.parts(width).any(|part| {
                let inside = |centres: &[Point]| centres.iter().any(|centre| part.contains(*centre));
                inside(&from) && inside(&to)
            })
    }

    /// Each floor's parts that the centre of a disc of this diameter cannot leave.
    pub(crate) fn parts(&self, width: Length) -> impl Iterator<Item = &Region> {
        self.0.iter().flat_map(move |floor| floor.parts(width))
    }
}

#[derive(Debug)]
struct Floor {
    region: Region,
    /// By how far narrow places are sought.
    cuts: [OnceLock<Cuts>; 3],
}

impl Floor {
    /// The narrow places of the floor, at least those narrower than a disc.
    fn cuts(&self, width: Length) -> &Cuts {
        let [near, far, everywhere] = &self.cuts;
        let reaches = REACHES.into_iter().zip([near, far]);
        let (reach, cuts) = reaches.into_iter().find(|(reach, _)| width <= *reach).unwrap_or((REACHES[2], everywhere));
        cuts.get_or_init(|| Cuts::of(narrows::of(&self.region, reach)))
    }

    fn parts(&self, width: Length) -> &[Region] {
        let cuts = self.cuts(width);
        let cutting = cuts.below(width);
        match cuts.parts.get(cutting.len().wrapping_sub(1)) {
            None => std::slice::from_ref(&self.region),
            Some(parts) => parts.get_or_init(|| narrows::cut(&self.region, cutting)),
        }
    }
}

/// Narrow places, the narrowest first, and the parts into which the first one, the first two and so on cut a floor.
#[derive(Debug)]
struct Cuts {
    narrows: Vec<Narrow>,
    parts: Vec<OnceLock<Vec<Region>>>,
}

impl Cuts {
    fn of(narrows: Vec<Narrow>) -> Self {
        Self { parts: narrows.iter().map(|_| OnceLock::new()).collect(), narrows }
    }

    fn below(&self, width: Length) -> &[Narrow] {
        &self.narrows[..self.narrows.partition_point(|narrow| narrow.width < width)]
    }
}
