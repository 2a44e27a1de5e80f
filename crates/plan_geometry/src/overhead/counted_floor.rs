//! The floor of a space that is high enough to count.

use std::sync::Arc;

use plan_model::{Length, Point};

use super::{CeilingFigures, slope};
use crate::kernel::{difference, overlap};
use crate::{Area, ClearRectangle, ClearSizes, OFF_AXIS_SLACK, Region, Space};

/// From which height of ceiling floor counts. What has no height here counts under any.
///
/// A flat ceiling is not asked: how high it must be is a question of its own. Neither is a beam, which takes no floor away.
///
/// Source: IRC R304.3 (R304.4 to 2012), 5 ft under a slope and 7 ft under a furred-down ceiling; the limits are a book's.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct CountedHeights {
    /// Under a sloped ceiling.
    pub under_slope: Option<Length>,
    /// Under a lowered part of a ceiling that is no beam.
    pub under_lowered: Option<Length>,
}

impl CountedHeights {
    /// Those of the model code: 5 ft under a slope, 7 ft under a furred-down part.
    pub(crate) const MODEL_CODE: Self =
        Self { under_slope: Some(Length::inches(60)), under_lowered: Some(Length::inches(84)) };

    /// Whether all floor counts, whatever is above it.
    const fn are_none(self) -> bool {
        self.under_slope.is_none() && self.under_lowered.is_none()
    }
}

/// The floor of a space without the parts under a ceiling that is too low to count, and clear sizes of what is left, in the
/// direction of the whole space. What is left may lie in several parts; a square does not slide from one into another.
#[derive(Clone, Debug)]
pub struct CountedFloor {
    parts: Vec<ClearSizes>,
    cut_slack: Length,
}

impl Space {
    /// The floor that counts.
    ///
    /// # Errors
    /// If a height is asked for and the plan has no ceiling over a part of the space: what is missing, as a clause.
    pub fn counted_floor(&self, heights: CountedHeights) -> Result<CountedFloor, String> {
        if heights.are_none() {
            return Ok(self.whole_floor());
        }
        if let Some(ceiling) = self.ceilings.iter().find(|ceiling| ceiling.ceiling.is_none()) {
            return Err(format!("the plan has no ceiling over room \"{}\"", ceiling.room));
        }
        let low: Vec<Vec<Point>> =
            self.ceilings.iter().flat_map(|ceiling| ceiling.low_ground(heights, &self.region)).collect();
        if low.is_empty() {
            return Ok(self.whole_floor());
        }
        let left = difference(&self.region, low.iter().map(Vec::as_slice)).into_iter().map(Arc::new);
        Ok(CountedFloor {
            parts: left.map(|part| self.sizes.of_part(&part)).collect(),
            cut_slack: if self.ceilings.iter().any(|ceiling| ceiling.is_off_axis()) {
                OFF_AXIS_SLACK
            } else {
                Length::ZERO
            },
        })
    }

    /// All of the floor: the most that can count, whatever is above it.
    #[must_use]
    pub fn whole_floor(&self) -> CountedFloor {
        CountedFloor { parts: vec![self.sizes.clone()], cut_slack: Length::ZERO }
    }
}

impl CeilingFigures {
    /// Outlines that cover the floor of the room where its ceiling is too low to count. They may reach out of the space.
    fn low_ground(&self, heights: CountedHeights, space: &Region) -> Vec<Vec<Point>> {
        let lowered = heights.under_lowered.into_iter().flat_map(|height| {
            let low = self.lowered.iter().filter(move |lowered| !lowered.is_beam && lowered.height < height);
            low.map(|lowered| lowered.outline.to_vec())
        });
        let slope = self.ceiling.as_ref().and_then(|ceiling| Some((ceiling.height, ceiling.slope.as_ref()?)));
        let strip = slope
            .zip(heights.under_slope)
            .and_then(|((low_edge, slope), height)| slope::below(&self.floor, low_edge, slope, height));
        let sloped = match strip {
            None => Vec::new(),
            Some(strip) if *self.floor == *space => vec![strip.to_vec()],
            // The slope of one room is not over the next.
            Some(strip) => overlap(&self.floor, &strip).into_iter().flat_map(Region::into_boundaries).collect(),
        };
        lowered.chain(sloped).collect()
    }
}

impl CountedFloor {
    /// Its area.
    #[must_use]
    pub fn area(&self) -> Area {
        self.parts.iter().map(|part| part.region().area()).sum()
    }

    /// The parts in which it lies, if it has any.
    pub fn regions(&self) -> impl Iterator<Item = &Arc<Region>> {
        self.parts.iter().map(ClearSizes::region)
    }

    /// The clear rectangle of the part that has the largest.
    #[must_use]
    pub fn rectangle(&self) -> Option<ClearRectangle> {
        let rectangles = self.parts.iter().map(ClearSizes::rectangle);
        rectangles.max_by_key(|clear| (Area::of_rectangle(clear.width, clear.length), clear.width))
    }

    /// Side of the largest square: see [`ClearSizes::largest_square`].
    #[must_use]
    pub fn largest_square(&self) -> Length {
        self.parts.iter().map(ClearSizes::largest_square).max().unwrap_or_default()
    }

    /// See [`ClearSizes::qualifying_area`].
    #[must_use]
    pub fn qualifying_area(&self, side: Length) -> Area {
        self.parts.iter().map(|part| part.qualifying_area(side)).max().unwrap_or_default()
    }

    /// Outer boundaries, on the plan, of the ground whose area is the qualifying area.
    pub(crate) fn qualifying_ground(&self, side: Length) -> (Area, Vec<Vec<Point>>) {
        let parts = self.parts.iter().map(|part| part.qualifying_part(side));
        parts.max_by_key(|covered| covered.area).map(|covered| (covered.area, covered.ground)).unwrap_or_default()
    }

    /// See [`ClearSizes::least_dimension`].
    #[must_use]
    pub fn least_dimension(&self, required: Area) -> Option<Length> {
        Some(self.narrowest(required)?.0)
    }

    /// The least dimension, and the two ends of a line that shows it: the short side of the narrowest rectangle that is still
    /// counted, drawn through its middle.
    #[must_use]
    pub fn least_dimension_and_line(&self, required: Area) -> Option<(Length, Option<[Point; 2]>)> {
        let (least, part) = self.narrowest(required)?;
        Some((least, part.least_dimension_line(least)))
    }

    fn narrowest(&self, required: Area) -> Option<(Length, &ClearSizes)> {
        let parts = self.parts.iter().filter_map(|part| Some((part.least_dimension(required)?, part)));
        parts.max_by_key(|(least, _)| *least)
    }

    /// What lengths measured here may be off by.
    #[must_use]
    pub fn slack(&self) -> Length {
        self.parts.iter().map(ClearSizes::slack).fold(self.cut_slack, Length::max)
    }

    /// What areas measured here may be off by: half of the slack along every side.
    #[must_use]
    pub fn area_slack(&self) -> Area {
        if self.slack() == Length::ZERO {
            return Area::ZERO;
        }
        let side = |(a, b): (Point, Point)| (b.x - a.x).abs() + (b.y - a.y).abs();
        let around: Length = self.regions().flat_map(|region| region.sides()).map(side).sum();
        Area::of_rectangle(around, Length::from_steps(OFF_AXIS_SLACK.steps() / 2))
    }
}
