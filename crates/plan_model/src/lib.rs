//! The authored document of a factory-built home: what people drew and decided, and nothing else.
//!
//! A [`Plan`] holds one base home and all its [`Choice`]s. A [`Selection`] answers every choice with one alternate;
//! [`Plan::home`] lays the answers over the base and gives the [`Home`] that is drawn, measured and judged.
//! Everything that can be computed from a home lives in other crates and is never stored.
//!
//! Lengths are whole numbers on one grid ([`Length`]); figures that a maker publishes are exact rationals
//! ([`Exact`]). The file format is in [`mod@file`].

mod catalogue;
mod choice;
mod currency;
mod date;
pub mod elements;
mod exact;
pub mod file;
mod home;
mod id;
mod length;
mod money;
mod plan;
mod point;
mod prices;
mod reversed;
mod selection;
mod units;

pub use catalogue::{
    Catalogue, Deduction, DoorOperation, DoorUnit, Operation, PublishedClear, WindowOperation, WindowUnit,
};
pub use choice::{Alternate, Choice, Count};
pub use currency::currency_places;
pub use date::{Date, NotADate};
pub use elements::Elements;
pub use exact::{Exact, ExactLength};
pub use home::Home;
pub use id::Id;
pub use length::{Length, LengthError};
pub use money::Money;
pub use plan::{Eave, HomeFacts, LegalKind, MateLine, Module, Plan, Side, Ventilation, VentilationKind};
pub use point::{Facing, Point};
pub use prices::{
    AlternatePrice, Basis, ElementKind, Expiry, LineKind, NotInForce, Per, Percent, PercentOf, PriceBook, PriceLine,
};
pub use reversed::Mirror;
pub use selection::{AlternateRef, Selection, SelectionError};
pub use units::Units;
