//! Off the axes, ends are rounded to the grid; a wall that comes back must still find everything where it was.

use std::sync::Arc;

use plan_model::{Id, Length, Plan, Point};

use super::Move;
use crate::standing::Standing;
use crate::{Document, Refused};

/// Refuses a move after which the way back would leave some of `followers` a step away from where they were.
pub(super) fn check(
    before: &Document,
    after: &Arc<Plan>,
    wall: &Id,
    by: Length,
    followers: &[Id],
) -> Result<(), Refused> {
    let off_grid = |follower: &Id| Refused::OffGrid { wall: wall.clone(), follower: follower.clone() };
    let there = Document { plan: Arc::clone(after), selection: before.selection.clone() };
    let (old, new) = (Standing::in_home(before), Standing::in_home(&there));
    let (Some(from), Some(to)) = (old.wall(wall), new.wall(wall)) else {
        return Err(off_grid(wall));
    };
    let (out, back) = (Move::new(&old, from, by)?, Move::new(&new, to, -by)?);
    // What goes along with the wall goes by its shift.
    if back.shift + out.shift != Point::default() {
        return Err(off_grid(wall));
    }
    let back = back.carry_out(&there).map_err(|_| off_grid(wall))?.plan;
    let lost = followers.iter().find(|follower| {
        let [old, gone, returned] = [&before.plan, after, &back].map(|plan| drawn(plan, follower));
        // What is no longer attached on the way back rightly stays.
        returned != old && returned != gone
    });
    lost.map_or(Ok(()), |follower| Err(off_grid(follower)))
}

/// The ends of a wall or open boundary, and where its openings are.
fn drawn(plan: &Plan, id: &Id) -> (Option<[Point; 2]>, Vec<Length>) {
    let walls = plan.all_elements().flat_map(|elements| &elements.walls).map(|wall| (&wall.id, [wall.from, wall.to]));
    let boundaries = plan.all_elements().flat_map(|elements| &elements.open_boundaries);
    let mut lines = walls.chain(boundaries.map(|line| (&line.id, [line.from, line.to])));
    let doors = plan.all_elements().flat_map(|elements| &elements.doors).map(|door| (&door.wall, door.at));
    let windows = plan.all_elements().flat_map(|elements| &elements.windows).map(|window| (&window.wall, window.at));
    let openings = doors.chain(windows).filter(|(wall, _)| *wall == id).map(|(_, at)| at);
    (lines.find(|(line, _)| *line == id).map(|(_, ends)| ends), openings.collect())
}
