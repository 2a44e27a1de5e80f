//! Smoke and carbon monoxide alarms: where they stand, and how far from what they must be near to or away from.
//!
//! Distances are straight, level lines on the plan. IRC R314.3 and R314.3.1 ask for them "horizontally" and say nothing of
//! what stands between; air, though, goes through open doorways and not through walls. So each nearest thing is told twice:
//! whatever stands between, and in the open, which is in rooms that only open boundaries and cased openings divide.

mod distance;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use plan_model::elements::{Detector, DetectorKind, FixtureKind, Fuel, RoomUse};
use plan_model::{Home, Id, Length, Point};

use crate::asked::{Asked, Question};
use crate::conflict::fixture_outline;
use crate::kernel::{Bounds, Whereabouts};
use crate::room_graph::RoomGraphOf;
use crate::rooms::middle;
use crate::{
    Amount, BedroomDoorway, Derived, DoorFigures, Mark, Measure, MeasureName, Measured, Region, RoomFigures, RoomGraph,
};

/// The alarms of a home, and what calls for carbon monoxide alarms.
#[derive(Clone, Debug)]
pub struct Alarms {
    /// Every alarm, in the order of the file.
    pub detectors: Vec<DetectorFigures>,
    /// For every doorway of every sleeping area, in the order of the areas: the alarms outside it.
    pub outside_bedrooms: Vec<OutsideBedroom>,
    /// Fixtures and appliances that burn fuel. With `attached_garages`, what calls for carbon monoxide alarms (IRC R315.2).
    pub fuel_appliances: Vec<FuelAppliance>,
    /// Garages with an opening into the house.
    pub attached_garages: Vec<AttachedGarage>,
}

/// An alarm and what it is near to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DetectorFigures {
    /// The alarm.
    pub id: Id,
    /// What it senses.
    pub kind: DetectorKind,
    /// The room in which its centre is, on the edge included; none in a wall or outdoors.
    pub room: Option<Id>,
    /// The nearest door or other opening of a room with a tub or shower. Length in grid steps, from the alarm's centre to
    /// the nearest point of the opening in the wall. Source: IRC R314.3(4), 3 ft. Doors to closets and toilet rooms within
    /// the bath, and to outdoors, are none of these.
    pub bath_door: Nearest,
    /// The nearest range, in grid steps from the alarm's centre to the nearest point of the range's outline. Source: IRC
    /// R314.3.1, 20, 10 or 6 ft by the kind of alarm; the nearest point, not the centre, so that the figure is never more
    /// than any reading of the rule.
    pub cooking: Nearest,
}

/// The nearest of several things.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Nearest {
    /// Whatever stands between; none if there is no such thing in the home.
    pub straight: Option<AlarmDistance>,
    /// Of those beside the alarm's room or a room that is open to it; none as well if the alarm stands in no room.
    pub in_the_open: Option<AlarmDistance>,
}

/// How far an alarm is from something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AlarmDistance {
    /// The alarm.
    pub detector: Id,
    /// The door, open boundary or appliance.
    pub to: Id,
    /// The straight line on the plan, rounded down to the grid.
    pub distance: Measured,
    /// From the centre of the alarm to the nearest point of the other.
    pub span: [Point; 2],
}

/// The alarms outside a bedroom's doorway: in the room into which it opens or in a room open to that one. The book says how
/// near is "in the immediate vicinity" (IRC R314.3(2), R315.3).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutsideBedroom {
    /// Index of the sleeping area in [`RoomGraph::sleeping_areas`].
    pub area: usize,
    /// The bedroom.
    pub bedroom: Id,
    /// Its doorway.
    pub doorway: Id,
    /// The room into which it opens.
    pub room: Id,
    /// The nearest alarm that senses smoke, from its centre to the nearest point of the doorway.
    pub smoke: Option<AlarmDistance>,
    /// The nearest alarm that senses carbon monoxide.
    pub carbon_monoxide: Option<AlarmDistance>,
}

/// Something that burns fuel.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FuelAppliance {
    /// The fixture.
    pub id: Id,
    /// What it burns.
    pub fuel: Fuel,
    /// The room in which its middle is.
    pub room: Option<Id>,
}

/// A garage that is part of the house.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AttachedGarage {
    /// The room.
    pub garage: Id,
    /// The doors and open boundaries between it and rooms that are no garage; at least one.
    pub openings: Vec<Id>,
}

/// Whether an alarm senses smoke.
#[must_use]
pub const fn senses_smoke(kind: DetectorKind) -> bool {
    !matches!(kind, DetectorKind::CarbonMonoxide)
}

/// Whether an alarm senses carbon monoxide.
#[must_use]
pub const fn senses_carbon_monoxide(kind: DetectorKind) -> bool {
    matches!(kind, DetectorKind::CarbonMonoxide | DetectorKind::Combined)
}

impl Alarms {
    /// The alarms in a room.
    pub fn in_room<'a>(&'a self, room: &Id) -> impl Iterator<Item = &'a DetectorFigures> + use<'a> {
        let room = Some(room.clone());
        self.detectors.iter().filter(move |detector| detector.room == room)
    }
}

/// All that the distances of alarms rest on.
#[derive(Debug, PartialEq)]
pub(crate) struct AlarmsOf {
    detectors: Vec<Detector>,
    appliances: Vec<Appliance>,
    /// Floors and outlines of doors, by the indices of the graph.
    floors: Vec<Arc<Region>>,
    doors: Vec<[Point; 4]>,
    graph: Asked<RoomGraphOf>,
}

/// A range, or whatever burns fuel.
#[derive(Debug, PartialEq)]
struct Appliance {
    id: Id,
    kind: FixtureKind,
    fuel: Option<Fuel>,
    outline: [Point; 4],
}

impl AlarmsOf {
    pub(crate) fn of(
        home: &Home<'_>,
        rooms: &[RoomFigures],
        doors: &[DoorFigures],
        graph: &Asked<RoomGraphOf>,
    ) -> Self {
        let concerned = home.elements.fixtures.iter().filter(|fixture| cooks(fixture.kind) || fixture.fuel.is_some());
        let appliance = |fixture: &plan_model::elements::Fixture| Appliance {
            id: fixture.id.clone(),
            kind: fixture.kind,
            fuel: fixture.fuel,
            outline: fixture_outline(fixture),
        };
        Self {
            detectors: home.elements.detectors.clone(),
            appliances: concerned.map(appliance).collect(),
            floors: rooms.iter().map(|room| room.region.clone()).collect(),
            doors: doors.iter().map(|door| door.outline).collect(),
            graph: graph.clone(),
        }
    }
}

/// Permanently installed appliances on which one cooks.
const fn cooks(kind: FixtureKind) -> bool {
    matches!(kind, FixtureKind::Range)
}

impl Question for AlarmsOf {
    type Answer = Alarms;

    fn answer(&self) -> Alarms {
        let graph = self.graph.get();
        let floors = Whereabouts::of(self.floors.iter().map(|floor| Bounds::around(&floor.outer)));
        let room_at = |at: Point| {
            let near = floors.touching(Bounds::around(&[at]));
            near.into_iter().find(|room| self.floors[*room].contains(at))
        };
        let name = |room: usize| graph.name(room).clone();
        let standing: Vec<Standing<'_>> =
            self.detectors.iter().map(|detector| Standing { detector, room: room_at(detector.at) }).collect();
        let appliance_rooms: Vec<Option<usize>> = self
            .appliances
            .iter()
            .map(|appliance| room_at(middle(appliance.outline[0], appliance.outline[2])))
            .collect();
        let ranges = self.appliances.iter().zip(&appliance_rooms).filter(|(appliance, _)| cooks(appliance.kind));
        let ranges = ranges.map(|(range, room)| Target {
            id: &range.id,
            ground: range.outline,
            opens_to: [room.map(|room| graph.undivided(room)), None],
        });
        let ranges = Targets::of(ranges.collect());
        let bath_doors = Targets::of(bath_doors(graph, &self.doors));
        let detectors = standing.iter().map(|standing| DetectorFigures {
            id: standing.detector.id.clone(),
            kind: standing.detector.kind,
            room: standing.room.map(name),
            bath_door: bath_doors.nearest(standing, graph),
            cooking: ranges.nearest(standing, graph),
        });
        let burning = self.appliances.iter().zip(&appliance_rooms).filter_map(|(appliance, room)| {
            Some(FuelAppliance { id: appliance.id.clone(), fuel: appliance.fuel?, room: room.map(name) })
        });
        Alarms {
            detectors: detectors.collect(),
            outside_bedrooms: outside_bedrooms(graph, &self.doors, &standing),
            fuel_appliances: burning.collect(),
            attached_garages: attached_garages(graph),
        }
    }
}

/// An alarm with the index of its room.
struct Standing<'a> {
    detector: &'a Detector,
    room: Option<usize>,
}

impl Standing<'_> {
    fn distance_to(&self, id: &Id, ground: &[Point; 4]) -> AlarmDistance {
        let (distance, nearest) = distance::to_outline(self.detector.at, ground);
        AlarmDistance {
            detector: self.detector.id.clone(),
            to: id.clone(),
            distance,
            span: [self.detector.at, nearest],
        }
    }
}

/// Something whose distance from alarms counts, and the rooms from which nothing divides it.
struct Target<'a> {
    id: &'a Id,
    ground: [Point; 4],
    opens_to: [Option<usize>; 2],
}

/// Such things, found by where they are.
struct Targets<'a> {
    all: Vec<Target<'a>>,
    whereabouts: Whereabouts,
    /// The rooms to which at least one of them opens.
    opened_to: BTreeSet<usize>,
}

impl<'a> Targets<'a> {
    fn of(all: Vec<Target<'a>>) -> Self {
        let whereabouts = Whereabouts::of(all.iter().map(|target| Bounds::around(&target.ground)));
        let opened_to = all.iter().flat_map(|target| target.opens_to).flatten().collect();
        Self { all, whereabouts, opened_to }
    }

    fn nearest(&self, standing: &Standing<'_>, graph: &RoomGraph) -> Nearest {
        let open = standing.room.map(|room| graph.undivided(room)).filter(|open| self.opened_to.contains(open));
        Nearest {
            straight: self.nearest_of(standing, |_| true),
            in_the_open: open
                .and_then(|open| self.nearest_of(standing, |target| target.opens_to.contains(&Some(open)))),
        }
    }

    /// The nearest of some, looked for ever further around the alarm.
    fn nearest_of(&self, standing: &Standing<'_>, counts: impl Fn(&Target<'_>) -> bool) -> Option<AlarmDistance> {
        let mut reach = FIRST_REACH;
        loop {
            let near = self.whereabouts.touching(Bounds::around(&[standing.detector.at]).grown(reach));
            let are_all = near.len() == self.all.len();
            let near = near.into_iter().map(|target| &self.all[target]).filter(|target| counts(target));
            let distances = near.map(|target| standing.distance_to(target.id, &target.ground));
            let nearest = distances.min_by_key(|nearest| nearest.distance.value);
            // What lies beyond the box may be nearer than what lies in its corners.
            if are_all || nearest.as_ref().is_some_and(|nearest| nearest.distance.value <= reach) {
                return nearest;
            }
            reach = reach * 4;
        }
    }
}

/// How far around an alarm the nearest thing is looked for at first; most have one within it.
const FIRST_REACH: Length = Length::inches(20 * 12);

/// The doors and open boundaries of rooms with a tub or shower, but for those that lead outdoors or to a closet or toilet
/// room.
fn bath_doors<'a>(graph: &'a RoomGraph, doors: &[[Point; 4]]) -> Vec<Target<'a>> {
    let target = |connection: &'a crate::Connection| {
        let [Some(one), Some(other)] = connection.ends() else { return None };
        let usages = [one, other].map(|room| graph.usage(room));
        let within = |usage| matches!(usage, RoomUse::Closet | RoomUse::Linen | RoomUse::Toilet);
        let is_bath_door = usages.contains(&RoomUse::Bath) && !usages.into_iter().any(within);
        let opens_to = [one, other].map(|room| Some(graph.undivided(room)));
        let ground = connection.ground(doors).filter(|_| is_bath_door)?;
        Some(Target { id: &connection.id, ground, opens_to })
    };
    graph.connections().iter().filter_map(target).collect()
}

fn outside_bedrooms(graph: &RoomGraph, doors: &[[Point; 4]], standing: &[Standing<'_>]) -> Vec<OutsideBedroom> {
    let mut by_rooms: BTreeMap<usize, Vec<&Standing<'_>>> = BTreeMap::new();
    for standing in standing {
        if let Some(room) = standing.room {
            by_rooms.entry(graph.undivided(room)).or_default().push(standing);
        }
    }
    let outside = |(area, doorway): (usize, &BedroomDoorway)| {
        let ground = graph.connections().get(doorway.connection)?.ground(doors)?;
        let rooms = graph.undivided(graph.room(&doorway.room)?);
        let bedroom = graph.room(&doorway.bedroom);
        let near = by_rooms.get(&rooms).into_iter().flatten().filter(|standing| standing.room != bedroom);
        let nearest = |senses: fn(DetectorKind) -> bool| {
            let sensing = near.clone().filter(|standing| senses(standing.detector.kind));
            let distances = sensing.map(|standing| standing.distance_to(&doorway.doorway, &ground));
            distances.min_by_key(|distance| distance.distance.value)
        };
        Some(OutsideBedroom {
            area,
            bedroom: doorway.bedroom.clone(),
            doorway: doorway.doorway.clone(),
            room: doorway.room.clone(),
            smoke: nearest(senses_smoke),
            carbon_monoxide: nearest(senses_carbon_monoxide),
        })
    };
    let areas = graph.sleeping_areas().iter().enumerate();
    areas.flat_map(|(at, area)| area.doorways.iter().map(move |doorway| (at, doorway))).filter_map(outside).collect()
}

fn attached_garages(graph: &RoomGraph) -> Vec<AttachedGarage> {
    let mut garages: BTreeMap<usize, Vec<Id>> = BTreeMap::new();
    for connection in graph.connections() {
        let [Some(one), Some(other)] = connection.ends() else { continue };
        let is_garage = [one, other].map(|room| graph.usage(room) == RoomUse::Garage);
        if is_garage[0] != is_garage[1] {
            let garage = if is_garage[0] { one } else { other };
            garages.entry(garage).or_default().push(connection.id.clone());
        }
    }
    let attached = |(garage, openings): (usize, _)| AttachedGarage { garage: graph.name(garage).clone(), openings };
    garages.into_iter().map(attached).collect()
}

impl Derived {
    /// Its alarms; worked out when they are first asked for.
    #[must_use]
    pub fn alarms(&self) -> &Alarms {
        self.alarms.get()
    }
}

/// Distances of alarms to what they must be near to or far from.
pub(crate) fn measures(derived: &Derived) -> Vec<Measure> {
    let alarms = derived.alarms();
    let mut measures = Vec::new();
    let mut tell = |name, distance: &AlarmDistance| {
        measures.push(Measure {
            name,
            part: None,
            of: vec![distance.detector.clone(), distance.to.clone()],
            amount: Amount::Length(distance.distance),
            marks: vec![Mark::Span(distance.span)],
        });
    };
    for detector in &alarms.detectors {
        let nearest =
            [(MeasureName::AlarmToBathDoor, &detector.bath_door), (MeasureName::AlarmToCooking, &detector.cooking)];
        for (name, Nearest { straight, in_the_open }) in nearest {
            let further = in_the_open.as_ref().filter(|_| in_the_open != straight);
            straight.iter().chain(further).for_each(|distance| tell(name, distance));
        }
    }
    for outside in &alarms.outside_bedrooms {
        outside.smoke.iter().for_each(|distance| tell(MeasureName::BedroomDoorToSmokeAlarm, distance));
        outside
            .carbon_monoxide
            .iter()
            .for_each(|distance| tell(MeasureName::BedroomDoorToCarbonMonoxideAlarm, distance));
    }
    measures
}
