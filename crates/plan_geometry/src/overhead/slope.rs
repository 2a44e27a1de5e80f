//! How high a sloped ceiling is over a floor.

use plan_model::elements::Slope;
use plan_model::{Length, Point};

use crate::Region;
use crate::kernel::{along, offset, project};

/// The lowest that a slope is over a floor, rounded down to the step.
///
/// A slope rises evenly until it becomes flat, so that it is lowest over a corner; over one of the outer boundary, since
/// that lies around all holes.
pub(super) fn lowest_over(floor: &Region, low_edge: Length, slope: &Slope) -> Length {
    let highest = slope.highest.unwrap_or(Length::LARGEST);
    let height_over = |point: &Point| {
        let away = i128::from(project(slope.from, slope.to, *point).1.steps());
        let rise = (away * i128::from(slope.rise_per_foot.steps())).div_euclid(i128::from(Length::FOOT.steps()));
        // Held within the lengths of a plan, which a steep slope may leave.
        let rise = rise.clamp((-Length::LARGEST).steps().into(), Length::LARGEST.steps().into());
        (low_edge + Length::from_steps(i64::try_from(rise).unwrap_or_default())).min(highest)
    };
    floor.outer.iter().map(height_over).min().unwrap_or(low_edge)
}

/// A rectangle over everything that lies below a height under a slope; none if nothing does.
///
/// Where the height is reached between two steps, the rectangle ends at the farther one: what counts is never more than
/// the true strip, and narrower by less than a step.
pub(super) fn below(floor: &Region, low_edge: Length, slope: &Slope, height: Length) -> Option<[Point; 4]> {
    let places = || floor.outer.iter().map(|corner| project(slope.from, slope.to, *corner));
    let reach = places().map(|(ahead, _)| ahead.abs()).max()? + Length::FOOT;
    let down = places().map(|(_, away)| away).min()? - Length::FOOT;
    let up = places().map(|(_, away)| away).max()? + Length::FOOT;
    let (rise, run) = ((height - low_edge).steps(), slope.rise_per_foot.steps());
    let never = slope.highest.is_some_and(|highest| highest < height) || (run <= 0 && rise > 0);
    let away = if never {
        up
    } else {
        let away = i128::from(rise) * i128::from(Length::FOOT.steps());
        let away = -(-away).div_euclid(i128::from(run.max(1)));
        let held = away.clamp((down - Length::FOOT).steps().into(), up.steps().into());
        i64::try_from(held).map_or(up, Length::from_steps)
    };
    if away <= down + Length::FOOT {
        return None;
    }
    let back = along(slope.from, slope.to, -reach);
    let ahead = along(slope.from, slope.to, reach);
    let at = |point: Point, left: Length| offset(point, slope.from, slope.to, left);
    Some([at(back, down), at(ahead, down), at(ahead, away), at(back, away)])
}
