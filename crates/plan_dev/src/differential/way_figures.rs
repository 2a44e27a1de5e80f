//! Our ways, for the other program: how long they are, and how far off they claim to be at most.

use plan_geometry::{Derived, Measured};
use serde_json::{Map, Value, json};

pub(super) fn of(derived: &Derived) -> Value {
    let doors: Vec<_> = derived.doors.iter().map(|door| &door.id).collect();
    let pairs = doors.iter().enumerate().flat_map(|(at, one)| doors[at + 1..].iter().map(move |other| (*one, *other)));
    let walks = pairs.map(|(one, other)| {
        let walk = derived.walk(one, other).map(|walk| measured(walk.length));
        json!({ "of": [one, other], "length": walk })
    });
    let ways_out: Map<String, Value> =
        derived.ways_out().iter().map(|out| (out.room.to_string(), measured(out.walk.length))).collect();
    let exits = derived.exit_pairs().iter().map(|pair| {
        json!({
            "of": pair.exits,
            "straight": measured(pair.straight),
            "length": pair.walk.as_ref().map(|walk| measured(walk.length)),
        })
    });
    // How far a leaf opens is not compared here: what a stopped one leaves open is taken from us.
    let stopped = derived.doors.iter().filter_map(|door| {
        let leaf = door.leaf.as_ref()?;
        let stop = leaf.stopped_by.as_ref()?;
        let across = leaf.closed - leaf.hinge;
        let (x, y) = (across.x.steps(), across.y.steps());
        let left = (x * x + y * y).isqrt() - stop.covers.steps();
        let known = door.clear_width.value().and_then(|width| i64::try_from(width.to_integer()).ok());
        Some((door.id.to_string(), json!(known.unwrap_or(left))))
    });
    let stopped: Map<String, Value> = stopped.collect();
    let rooms: Vec<_> = derived.rooms.iter().map(|room| &room.id).collect();
    json!({
        "walks": walks.collect::<Value>(),
        "ways_out": ways_out,
        "exits": exits.collect::<Value>(),
        "rooms": rooms,
        "stopped": stopped,
    })
}

fn measured(length: Measured) -> Value {
    json!([length.value.steps(), length.slack.steps()])
}
