//! What a plan is drawn with: walls, openings, rooms, fixtures and everything else that has a place.
//!
//! Lists keep the order of the file. Each element carries an [`Id`] that is unique in the whole plan.

mod fixture;
mod opening;
mod overhead;
mod room;
mod service;
mod site;
mod wall;

use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub use fixture::{End, Fixture, FixtureKind, Fuel, Furniture, FurnitureKind};
pub use opening::{Door, Hinge, Lock, OpenBoundary, Swing, Window};
pub use overhead::{Ceiling, Slope, Soffit};
pub use room::{Room, RoomUse};
pub use service::{Detector, DetectorKind, ExhaustFan, FanRun};
pub use site::{Landing, Porch};
pub use wall::{Column, ColumnKind, PlacedBy, Wall, WallKind};

use crate::Id;
use crate::reversed::{Mirror, Reverse as _};

macro_rules! elements {
    ($($(#[$doc:meta])* $list:ident: $element:ty),+ $(,)?) => {
        /// Lists of elements: the base of a plan, what an alternate brings, or a whole resolved home.
        #[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
        #[serde(deny_unknown_fields, default)]
        pub struct Elements {
            $($(#[$doc])* #[serde(skip_serializing_if = "Vec::is_empty")] pub $list: Vec<$element>,)+
        }

        impl Elements {
            /// Whether there is nothing at all.
            #[must_use]
            pub fn is_empty(&self) -> bool {
                true $(&& self.$list.is_empty())+
            }

            /// The id of every element with the name of its list and its index there.
            pub fn ids(&self) -> impl Iterator<Item = (&Id, &'static str, usize)> {
                std::iter::empty()$(.chain(
                    self.$list.iter().enumerate().map(|(index, element)| (&element.id, stringify!($list), index))
                ))+
            }

            pub(crate) fn retain_others(&mut self, removed: &BTreeSet<&Id>) {
                $(self.$list.retain(|element| !removed.contains(&element.id));)+
            }

            /// Puts the image of every element in its place.
            pub(crate) fn reverse(&mut self, mirror: Mirror) {
                $(self.$list.iter_mut().for_each(|element| element.reverse(mirror));)+
            }

            /// Adds copies of everything in another list.
            pub fn append_clones(&mut self, brought: &Self) {
                $(self.$list.extend_from_slice(&brought.$list);)+
            }
        }
    };
}

elements! {
    /// Straight walls.
    walls: Wall,
    /// Lines of no thickness that divide one space into named rooms.
    open_boundaries: OpenBoundary,
    /// Columns and chases.
    columns: Column,
    /// Doors and cased openings, hosted by walls.
    doors: Door,
    /// Windows, hosted by walls.
    windows: Window,
    /// Rooms: a point inside, a name and a use.
    rooms: Room,
    /// Plumbing fixtures, appliances, cabinets and equipment.
    fixtures: Fixture,
    /// Loose furniture; drawn, never an obstruction.
    furniture: Furniture,
    /// Ceilings by room or for the whole home.
    ceilings: Ceiling,
    /// Lowered parts of a ceiling: furred-down ducts and beams.
    soffits: Soffit,
    /// Smoke and carbon monoxide alarms.
    detectors: Detector,
    /// Local exhaust fans.
    fans: ExhaustFan,
    /// Landings at outside doors.
    landings: Landing,
    /// Porches and decks.
    porches: Porch,
}
