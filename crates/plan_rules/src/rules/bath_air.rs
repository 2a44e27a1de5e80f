use std::sync::Arc;

use plan_model::Exact;
use plan_model::elements::{FanRun, Room, RoomUse};

use crate::book::Entry;
use crate::rule::{Case, Check, Figures, Subject};
use crate::{Place, Quantity, Rule, Verdict, show};

pub(super) static RULE: Rule = Rule {
    id: "bath-air",
    name: "Air of baths and toilet rooms",
    measures: "Whether each bath and toilet room has an exhaust fan that moves enough air, or a window with enough glass \
               of which enough opens.",
    read,
};

#[derive(Debug)]
struct BathAir {
    rooms: Vec<RoomUse>,
    /// Air moved by a fan that runs now and then, and by one that always runs, in cubic feet a minute.
    fan: [Exact; 2],
    /// Glass of the window, and what of it opens; none where a window does not do.
    window: Option<[Exact; 2]>,
}

fn read(entry: &Entry<'_>) -> Arc<dyn Check> {
    let window = entry.group("window").map(|group| {
        let window = [group.area("glass"), group.area("openable")];
        group.finish();
        window
    });
    let fan = [entry.count("intermittent_fan_cfm"), entry.count("continuous_fan_cfm")];
    Arc::new(BathAir { rooms: entry.rooms(), fan, window })
}

impl Check for BathAir {
    fn check(&self, case: &Case<'_>) -> Vec<Verdict> {
        let rooms = case.home.elements.rooms.iter().filter(|room| self.rooms.contains(&room.usage));
        rooms.filter(|room| case.derived.room(&room.id).is_some()).map(|room| self.judge(case, room)).collect()
    }
}

impl BathAir {
    fn judge(&self, case: &Case<'_>, room: &Room) -> Verdict {
        let fans = case.home.elements.fans.iter().filter(|fan| fan.room == room.id);
        let moves_enough = |airflow: u32, runs| {
            let needed = if runs == FanRun::Continuous { self.fan[1] } else { self.fan[0] };
            Exact::from(i128::from(airflow)) >= needed
        };
        let strongest = fans.clone().map(|fan| fan.airflow_cfm).max();
        let by_fan = fans.clone().any(|fan| moves_enough(fan.airflow_cfm, fan.runs));
        let by_window = self.by_window(case, room);
        let measured = if by_fan { Some(true) } else { by_window };
        let asked = format!("a fan of {} cfm, or {} cfm always running", self.fan[0], self.fan[1]);
        let asked = match self.window {
            Some([glass, openable]) => {
                let [glass, openable] = [glass, openable].map(|area| show::area(area, case.units()));
                format!("{asked}, or a window with {glass} of glass of which {openable} opens, is asked for")
            }
            None => format!("{asked}, is asked for"),
        };
        let name = &room.name;
        let has = match (measured, strongest) {
            (Some(true), _) if by_fan => "has an exhaust fan that moves enough air".to_owned(),
            (Some(true), _) => "has a window that gives enough air".to_owned(),
            (None, _) => "has a window of which the glass or the opening is not known, and no fan that does".to_owned(),
            (Some(false), Some(airflow)) => format!("has a fan of {airflow} cfm and no window that does"),
            (Some(false), None) => "has neither fan nor window that does".to_owned(),
        };
        let figures = Figures {
            quantity: Quantity::Possible,
            measured: measured.map(|is_so| Exact::from(i128::from(is_so))),
            required: Exact::from(1),
        };
        let subject = Subject { id: Some(room.id.clone()), name: name.clone(), place: Place::point(room.at) };
        let enter = || {
            let light = case.derived.daylight_of_room(&room.id);
            let windows = light.map_or(&[][..], |light| &light.windows);
            match light.is_some_and(|light| light.glazed.value().is_none()) {
                true => case.enter_glass(windows),
                false => case.enter_openable(windows),
            }
        };
        case.compare(subject, figures, format!("{name} {has}; {asked}."), Vec::new()).entering(enter)
    }

    /// Whether its windows do; none where that is not known.
    fn by_window(&self, case: &Case<'_>, room: &Room) -> Option<bool> {
        let Some([glass, openable]) = self.window else { return Some(false) };
        let light = case.derived.daylight_of_room(&room.id)?;
        if light.windows.is_empty() {
            return Some(false);
        }
        match (light.glazed.value(), light.openable.value()) {
            (Some(glazed), _) if glazed < glass => Some(false),
            (_, Some(opens)) if opens < openable => Some(false),
            (Some(_), Some(_)) => Some(true),
            _ => None,
        }
    }
}
