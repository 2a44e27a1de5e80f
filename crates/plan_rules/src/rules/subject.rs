//! What people call the things that are judged.

use plan_model::elements::FixtureKind;
use plan_model::{Id, Point};

use crate::rule::{Case, middle};

/// A thing as people call it, and where it is.
pub(crate) struct Named {
    pub(crate) name: String,
    pub(crate) at: Point,
    /// The room that it is, or stands in.
    pub(crate) room: Option<Id>,
}

impl Case<'_> {
    /// A room, door, window, fixture, bed, alarm or module by its id.
    pub(crate) fn named(&self, id: &Id) -> Option<Named> {
        self.a_room(id)
            .or_else(|| self.an_opening(id))
            .or_else(|| self.a_fixture(id))
            .or_else(|| self.furniture(id))
            .or_else(|| self.an_alarm(id))
            .or_else(|| self.a_module(id))
    }

    /// The same, or the home where there is no such thing.
    pub(crate) fn named_or_home(&self, id: Option<&Id>) -> Named {
        let fallback = || Named { name: "the home".to_owned(), at: self.first_room(), room: None };
        id.and_then(|id| self.named(id)).unwrap_or_else(fallback)
    }

    /// Whether a fixture of one of these kinds is drawn.
    pub(crate) fn has_fixture(&self, kinds: &[FixtureKind]) -> bool {
        self.home.elements.fixtures.iter().any(|fixture| kinds.contains(&fixture.kind))
    }

    /// A place of the home for what belongs to the whole.
    pub(crate) fn first_room(&self) -> Point {
        self.home.elements.rooms.first().map(|room| room.at).unwrap_or_default()
    }

    fn a_room(&self, id: &Id) -> Option<Named> {
        let room = self.room(id)?;
        Some(Named { name: room.name.clone(), at: room.at, room: Some(id.clone()) })
    }

    fn an_opening(&self, id: &Id) -> Option<Named> {
        let doors = self.derived.doors.iter().map(|door| ("door", &door.id, &door.sides, &door.outline));
        let windows = self.derived.windows.iter().map(|window| ("window", &window.id, &window.sides, &window.outline));
        let (word, _, sides, outline) = doors.chain(windows).find(|(_, own, ..)| *own == id)?;
        let rooms: Vec<&Id> = sides.iter().filter_map(|side| side.room.as_ref()).collect();
        let names: Vec<&str> = rooms.iter().filter_map(|id| Some(self.room(id)?.name.as_str())).collect();
        let name = match names[..] {
            [] => format!("the {word} \"{id}\""),
            [room] => format!("the {word} of {room}"),
            [one, other, ..] => format!("the {word} between {one} and {other}"),
        };
        Some(Named { name, at: middle(outline[0], outline[2]), room: rooms.first().map(|id| (*id).clone()) })
    }

    fn a_fixture(&self, id: &Id) -> Option<Named> {
        let fixture = self.home.elements.fixtures.iter().find(|fixture| fixture.id == *id)?;
        Some(self.standing(fixture.kind.word(), fixture.at))
    }

    fn furniture(&self, id: &Id) -> Option<Named> {
        let bed = self.home.elements.furniture.iter().find(|bed| bed.id == *id)?;
        Some(self.standing("bed", bed.at))
    }

    fn an_alarm(&self, id: &Id) -> Option<Named> {
        let alarm = self.home.elements.detectors.iter().find(|alarm| alarm.id == *id)?;
        Some(self.standing("alarm", alarm.at))
    }

    fn a_module(&self, id: &Id) -> Option<Named> {
        let module = self.derived.modules().iter().find(|module| module.id == *id)?;
        let [a, _, c, _] = module.outline;
        Some(Named { name: format!("module \"{id}\""), at: middle(a, c), room: None })
    }

    fn standing(&self, word: &str, at: Point) -> Named {
        let room = self.derived.rooms.iter().find(|room| room.region.contains(at));
        let name = room.and_then(|room| self.room(&room.id)).map(|room| format!("the {word} of {}", room.name));
        let name = name.unwrap_or_else(|| format!("the {word}"));
        Named { name, at, room: room.map(|room| room.id.clone()) }
    }
}
