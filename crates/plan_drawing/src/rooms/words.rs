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
    pub(super) size: Option<String>,
    /// The size on two lines.
    pub(super) parted_size: Option<[String; 2]>,
    pub(super) area: Option<String>,
}

impl Words {
    pub(super) fn new(room: &Room, figures: &RoomFigures, units: Units) -> Self {
        let name = room.name.to_uppercase();
        let parted_name = parted(&name);
        if says_only_its_name(room.usage) {
            return Self { name, parted_name, size: None, parted_size: None, area: None };
        }
        let [across, up] = figures.sizes.rectangle().across_and_up().map(|side| notation::length(side, units));
        let size = Some(format!("{across} \u{d7} {up}"));
        let area = show::area(figures.floor_area.exact(), units);
        let parted_size = Some([format!("{across} \u{d7}"), up]);
        Self { name, parted_name, size, parted_size, area: Some(area) }
    }
}

/// Small store rooms, whose figures stand in the room schedule.
const fn says_only_its_name(usage: RoomUse) -> bool {
    matches!(usage, RoomUse::Linen | RoomUse::Mechanical)
}

/// Parts a name at the space nearest to its middle.
fn parted(name: &str) -> Option<[String; 2]> {
    let middle = name.len() / 2;
    let spaces = name.match_indices(' ').map(|(at, _)| at);
    let at = spaces.min_by_key(|at| at.abs_diff(middle))?;
    Some([name[..at].to_owned(), name[at + 1..].to_owned()])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_parted_near_its_middle() {
        assert_eq!(parted("OWNER'S BEDROOM"), Some(["OWNER'S".to_owned(), "BEDROOM".to_owned()]));
        assert_eq!(parted("PANTRY"), None);
    }
}
