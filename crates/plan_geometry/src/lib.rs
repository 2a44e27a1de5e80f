//! Every measure of a home, derived from what people drew and never stored.
//!
//! [`derive()`] takes a [`Home`](plan_model::Home) and gives its [`Derived`] figures together with the [`Problem`]s
//! that kept it from more: half-drawn input is normal, a guess is not. What each figure means is said at the figure;
//! a *rule*, elsewhere, compares figures with limits.
//!
//! All shapes lie on the model's grid. Sums and comparisons are exact integers; only faces of walls that are not square
//! to the axes are rounded, by at most one step, and measures taken from them carry [`OFF_AXIS_SLACK`].

mod alarms;
mod area;
mod asked;
mod clear_size;
mod conflict;
mod daylight;
mod derive;
mod figure;
mod fixture_space;
mod free_floor;
mod heated;
mod kernel;
mod landings;
mod measure;
mod modules;
mod openings;
mod overhead;
mod passage;
mod problem;
mod reach;
mod region;
mod room_graph;
mod rooms;
mod triangulate;
mod walking;
mod walls;

pub use alarms::{
    AlarmDistance, Alarms, AttachedGarage, DetectorFigures, FuelAppliance, Nearest, OutsideBedroom,
    senses_carbon_monoxide, senses_smoke,
};
pub use area::Area;
pub use clear_size::{ClearRectangle, ClearSizes, Inset};
pub use conflict::outline;
pub use daylight::{BorrowedLight, CommonWall, Daylight};
pub use derive::{Derived, derive, derive_after};
pub use figure::{Basis, Figure, Measured, OFF_AXIS_SLACK};
pub use fixture_space::{
    ApplianceSpace, BedSpace, BowlsApart, Clearance, ClosetDepth, FixtureSpace, LavatorySpace, Met, ShowerSpace,
    SweepAcross, ToiletSpace, TriangleLeg, TubSpace, Walkway, WorkAisle, WorkTriangle,
};
pub use free_floor::Obstruction;
pub use heated::{AreaArithmetic, AreaMethod, AreaPart, HeatedArea, HeatedModule, TraverseCorner};
pub use landings::LandingFigures;
pub use measure::{Amount, FixtureSide, Mark, Measure, MeasureName, Part};
pub use modules::{
    BodySize, ClearSpan, MateOpening, MateOpeningKind, ModuleFigures, Overhang, OverhangOf, PlumbingGroup, Straddler,
    StraddlerKind, StraddlerSide,
};
pub use openings::{DoorFigures, Leaf, Side, Stop, SweepCrossing, SweptDoorway, WindowFigures};
pub use overhead::{CeilingFigures, CountedFloor, CountedHeights};
pub use passage::{Doorway, Passage};
pub use problem::{Problem, ProblemKind};
pub use reach::{LargestDisc, Narrowest, Reach, RoomReach, RouteWidth, SpaceReach, WayIn};
pub use region::Region;
pub use room_graph::{BedroomDoorway, Connection, ConnectionKind, Node, RoomGraph, Route, SleepingArea};
pub use rooms::{Enclosure, RoomFigures, Space, middle};
pub use triangulate::triangulate;
pub use walking::{ExitPair, Walk, WayOut};
pub use walls::{WallFaces, WallSolid};
