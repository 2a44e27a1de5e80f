//! What must be entered in a plan for a figure to be known: data beside the sentence that says why it is not.

use plan_model::Id;

use super::spaces::list;
use crate::rule::Case;

impl Case<'_> {
    /// The clear opening of a window or door, which its unit has.
    pub(super) fn enter_clear(&self, opening: &Id) -> String {
        format!("the published clear opening of {}", self.unit(opening))
    }

    /// What the sill of a window's clear opening is reckoned from: its head, unless that is there and what is missing or
    /// wrong is where the unit opens.
    pub(super) fn enter_sill(&self, window: &Id) -> String {
        let placed = self.home.elements.windows.iter().find(|placed| placed.id == *window);
        let unit = placed.and_then(|placed| self.home.plan.catalogue.window(&placed.unit));
        let has_head = placed.and_then(|placed| placed.head).or(unit.and_then(|unit| unit.head)).is_some();
        let figures = self.derived.windows.iter().find(|figures| figures.id == *window);
        if has_head && figures.is_some_and(|figures| figures.sill.value().is_none()) {
            format!("how far the clear opening of {} is above its frame", self.unit(window))
        } else {
            format!("the head height of window \"{window}\"")
        }
    }

    /// The glass of those of some windows of which it is not known.
    pub(super) fn enter_glass(&self, windows: &[Id]) -> String {
        let is_unknown = |id: &&Id| {
            let of_window = self.derived.windows.iter().filter(|window| window.id == **id);
            let mut figures = of_window.map(|window| &window.glazed_area);
            figures.any(|figure| figure.value().is_none())
        };
        format!("the published glass of {}", self.units_of(windows.iter().filter(is_unknown)))
    }

    /// What of some windows and glazed doors opens, where that is not known.
    pub(super) fn enter_openable(&self, openings: &[Id]) -> String {
        let is_unknown = |id: &&Id| {
            let of_window = self.derived.windows.iter().filter(|window| window.id == **id);
            let of_door = self.derived.doors.iter().filter(|door| door.id == **id);
            of_window.map(|window| &window.openable_area).any(|figure| figure.value().is_none())
                || of_door.map(plan_geometry::DoorFigures::openable_area).any(|figure| figure.value().is_none())
        };
        format!("the published opening for air of {}", self.units_of(openings.iter().filter(is_unknown)))
    }

    /// The ceilings that the plan does not have over some rooms.
    pub(super) fn enter_ceiling(&self, rooms: &[Id]) -> String {
        let lacks = |id: &&Id| self.derived.room(id).is_some_and(|room| room.ceiling.lowest.is_none());
        let lacking: Vec<&Id> = rooms.iter().filter(lacks).collect();
        let of = if lacking.is_empty() { rooms.iter().collect() } else { lacking };
        let names: Vec<&str> = of.iter().filter_map(|id| Some(self.room(id)?.name.as_str())).collect();
        format!("the ceiling over {}", list(names.into_iter()))
    }

    /// The walls around the rooms that do not close.
    pub(crate) fn enter_walls(&self) -> Option<String> {
        let open = self.home.elements.rooms.iter().filter(|room| self.derived.room(&room.id).is_none());
        let names: Vec<&str> = open.map(|room| room.name.as_str()).collect();
        (!names.is_empty()).then(|| format!("walls that close around {}", list(names.into_iter())))
    }

    /// The units of some openings, each once.
    fn units_of<'a>(&self, openings: impl Iterator<Item = &'a Id>) -> String {
        let mut units: Vec<String> = openings.map(|id| self.unit(id)).collect();
        units.dedup();
        list(units.iter().map(String::as_str))
    }

    fn unit(&self, opening: &Id) -> String {
        let windows = self.home.elements.windows.iter().filter(|window| window.id == *opening);
        let doors = self.home.elements.doors.iter().filter(|door| door.id == *opening);
        let mut units = windows
            .map(|window| format!("window unit \"{}\"", window.unit))
            .chain(doors.map(|door| format!("door unit \"{}\"", door.unit)));
        units.next().unwrap_or_else(|| format!("\"{opening}\""))
    }
}
