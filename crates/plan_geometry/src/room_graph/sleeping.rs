//! Sleeping areas: bedrooms whose doors open into the same named room.

use std::collections::{BTreeMap, BTreeSet};

use plan_model::Id;
use plan_model::elements::RoomUse;

use super::{Connection, RoomGraph, groups};

/// Bedrooms whose doors open into the same named rooms.
///
/// A bedroom is in one area only. If its doors open into several rooms, the bedrooms of all of them are one area, and so
/// are two bedrooms with a door between them: an alarm outside the one is outside the other. An open boundary of a bedroom
/// counts as a door.
///
/// What one does not live in does not count as the room into which a bedroom opens: closets, linen and mechanical closets,
/// stores, baths, toilet rooms and garages; nor does outdoors. A bedroom that opens into nothing else belongs to the rooms
/// beyond them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SleepingArea {
    /// The bedrooms, in the order of the file; at least one.
    pub bedrooms: Vec<Id>,
    /// The rooms into which they open, in the order of the file; none if they open only to outdoors or not at all.
    pub rooms: Vec<Id>,
    /// The doorways between the two.
    pub doorways: Vec<BedroomDoorway>,
}

/// Where a bedroom opens into a room outside its sleeping area.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BedroomDoorway {
    /// The bedroom.
    pub bedroom: Id,
    /// The door, cased opening or open boundary; of a bedroom that opens only into a bath or closet, the one beyond it.
    pub doorway: Id,
    /// The room into which it opens.
    pub room: Id,
    pub(crate) connection: usize,
}

const fn counts(usage: RoomUse) -> bool {
    !matches!(
        usage,
        RoomUse::Closet
            | RoomUse::Linen
            | RoomUse::Mechanical
            | RoomUse::Storage
            | RoomUse::UnheatedStore
            | RoomUse::Bath
            | RoomUse::Toilet
            | RoomUse::Garage
    )
}

/// Where a bedroom leads: bedrooms beside it, and rooms with the connection that opens into them.
#[derive(Default)]
struct Opens {
    bedrooms: Vec<usize>,
    rooms: Vec<(usize, usize)>,
}

pub(super) fn areas(graph: &RoomGraph) -> Vec<SleepingArea> {
    let bedrooms: Vec<usize> = (0..graph.rooms.len()).filter(|room| graph.usage(*room) == RoomUse::Bedroom).collect();
    let opens: Vec<Opens> = bedrooms.iter().map(|bedroom| opens(graph, *bedroom)).collect();
    let pairs = bedrooms.iter().zip(&opens).flat_map(|(bedroom, opens)| {
        let beyond = opens.bedrooms.iter().chain(opens.rooms.iter().map(|(room, _)| room));
        beyond.map(|beyond| [*bedroom, *beyond])
    });
    let group = groups(graph.rooms.len(), pairs);
    let mut areas: BTreeMap<usize, Gathered> = BTreeMap::new();
    for (bedroom, opens) in bedrooms.iter().zip(opens) {
        let area = areas.entry(group[*bedroom]).or_insert_with(|| Gathered { first: *bedroom, ..Gathered::default() });
        area.bedrooms.push(*bedroom);
        area.rooms.extend(opens.rooms.iter().map(|(room, _)| *room));
        area.doorways.extend(opens.rooms.iter().map(|(room, connection)| BedroomDoorway {
            bedroom: graph.name(*bedroom).clone(),
            doorway: graph.connections[*connection].id.clone(),
            room: graph.name(*room).clone(),
            connection: *connection,
        }));
    }
    let mut areas: Vec<Gathered> = areas.into_values().collect();
    areas.sort_by_key(|area| area.first);
    let name = |room: usize| graph.name(room).clone();
    let area = |area: Gathered| SleepingArea {
        bedrooms: area.bedrooms.into_iter().map(name).collect(),
        rooms: area.rooms.into_iter().map(name).collect(),
        doorways: area.doorways,
    };
    areas.into_iter().map(area).collect()
}

/// An area while its bedrooms are gathered.
#[derive(Default)]
struct Gathered {
    first: usize,
    bedrooms: Vec<usize>,
    rooms: BTreeSet<usize>,
    doorways: Vec<BedroomDoorway>,
}

/// What a bedroom opens into; only if that is nothing that counts, what lies beyond its baths and closets.
fn opens(graph: &RoomGraph, bedroom: usize) -> Opens {
    let mut opens = Opens::default();
    let mut seen = BTreeSet::from([bedroom]);
    let mut passed = vec![bedroom];
    while let Some(room) = passed.pop() {
        let mut through = Vec::new();
        for at in &graph.leading[room] {
            let connection: &Connection = &graph.connections[*at];
            let Some(beyond) = connection.beyond(room) else { continue };
            match graph.usage(beyond) {
                RoomUse::Bedroom if beyond != bedroom => opens.bedrooms.push(beyond),
                usage if counts(usage) && beyond != bedroom => opens.rooms.push((beyond, *at)),
                RoomUse::Garage => {}
                _ if seen.insert(beyond) => through.push(beyond),
                _ => {}
            }
        }
        let leads_on = room != bedroom || (opens.bedrooms.is_empty() && opens.rooms.is_empty());
        if leads_on {
            passed.extend(through);
        }
    }
    opens
}
