use plan_geometry::RoomFigures;
use plan_model::Units;
use plan_model::elements::{Room, RoomUse};
use plan_rules::show;

use crate::notation;

/// What a tag may say.
pub(super) struct Words {
    pub(super) name: String,
    /// The name on two lines, where it has two words.
    pub(super) parted_name: Option<[String; 2]>,
    /// For rooms in which the name does not fit.
    pub(super) short_name: String,
    pub(super) size: Option<String>,
    /// The size on two lines.
    pub(super) parted_size: Option<[String; 2]>,
    pub(super) area: Option<String>,
    pub(super) says: Says,
}

/// What a tag has to say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Says {
    /// Name and size, even over furniture.
    Size,
    /// The size where the floor is free for it.
    SizeWhereFree,
    /// The name alone: the figures of small store rooms stand in the room schedule.
    Name,
}

impl Words {
    pub(super) fn new(room: &Room, figures: &RoomFigures, units: Units) -> Self {
        let name = room.name.to_uppercase();
        let (parted_name, short_name, says) = (parted(&name), short(&name, room.usage), says(room.usage));
        if says == Says::Name {
            return Self { name, parted_name, short_name, size: None, parted_size: None, area: None, says };
        }
        let [across, up] = figures.sizes.rectangle().across_and_up().map(|side| notation::length(side, units));
        let size = Some(format!("{across} \u{d7} {up}"));
        let area = show::area(figures.floor_area.exact(), units);
        let parted_size = Some([format!("{across} \u{d7}"), up]);
        Self { name, parted_name, short_name, size, parted_size, area: Some(area), says }
    }
}

const fn says(usage: RoomUse) -> Says {
    match usage {
        RoomUse::Living
        | RoomUse::Dining
        | RoomUse::Kitchen
        | RoomUse::Bedroom
        | RoomUse::Study
        | RoomUse::Hobby
        | RoomUse::Bath
        | RoomUse::Toilet
        | RoomUse::Utility
        | RoomUse::Garage => Says::Size,
        RoomUse::Hall
        | RoomUse::Entry
        | RoomUse::Closet
        | RoomUse::Pantry
        | RoomUse::Laundry
        | RoomUse::Storage
        | RoomUse::UnheatedStore => Says::SizeWhereFree,
        RoomUse::Linen | RoomUse::Mechanical => Says::Name,
    }
}

/// The first of two names, or the abbreviation of the use with the room's number (common practice, no source).
fn short(name: &str, usage: RoomUse) -> String {
    if let Some((first, _)) = name.split_once(',') {
        return first.to_owned();
    }
    let abbreviation = match usage {
        RoomUse::Living => "LIV",
        RoomUse::Dining => "DIN",
        RoomUse::Kitchen => "KIT",
        RoomUse::Bedroom => "BR",
        RoomUse::Study => "STUDY",
        RoomUse::Hobby => "HOBBY",
        RoomUse::Bath => "BATH",
        RoomUse::Toilet => "WC",
        RoomUse::Hall => "HALL",
        RoomUse::Entry => "ENT",
        RoomUse::Closet => "CL",
        RoomUse::Linen => "LIN",
        RoomUse::Pantry => "PAN",
        RoomUse::Laundry => "W/D",
        RoomUse::Utility => "UTIL",
        RoomUse::Mechanical => "MECH",
        RoomUse::Storage | RoomUse::UnheatedStore => "STOR",
        RoomUse::Garage => "GAR",
    };
    let number =
        name.rsplit(' ').next().filter(|last| !last.is_empty() && last.chars().all(|letter| letter.is_ascii_digit()));
    match number {
        Some(number) => format!("{abbreviation} {number}"),
        _ => abbreviation.to_owned(),
    }
}

/// Parts a name at the space nearest to its middle; a number does not stand alone on a line.
fn parted(name: &str) -> Option<[String; 2]> {
    let middle = name.len() / 2;
    let spaces = name.match_indices(' ').map(|(at, _)| at);
    let at = spaces.min_by_key(|at| at.abs_diff(middle))?;
    let (first, second) = (&name[..at], &name[at + 1..]);
    second.chars().any(char::is_alphabetic).then(|| [first.to_owned(), second.to_owned()])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_parted_near_its_middle() {
        assert_eq!(parted("OWNER'S BEDROOM"), Some(["OWNER'S".to_owned(), "BEDROOM".to_owned()]));
        assert_eq!(parted("PANTRY"), None);
        assert_eq!(parted("BEDROOM 3"), None);
    }

    #[test]
    fn an_abbreviation_keeps_the_number_of_the_room() {
        assert_eq!(short("BEDROOM 2", RoomUse::Bedroom), "BR 2");
        assert_eq!(short("OWNER'S BATH", RoomUse::Bath), "BATH");
        assert_eq!(short("PANTRY, LAUNDRY", RoomUse::Pantry), "PANTRY");
        assert_eq!(short("", RoomUse::Closet), "CL");
    }
}
