//! The registry: one rule, one file. A new rule takes two lines here, its file, its entry in the books and its page in
//! `tests/rules`.

mod alarm_places;
mod alarm_to_bath;
mod alarm_to_cooking;
mod bath_air;
mod bed_side;
mod bedroom_access;
mod bowls_apart;
mod carbon_monoxide_alarms;
mod ceiling_height;
mod clear_floor;
mod closet_depth;
mod counted_space;
mod door_sweeps;
mod egress_area;
mod egress_door;
mod egress_door_height;
mod egress_door_width;
mod egress_height;
mod egress_opening;
mod egress_sill;
mod egress_width;
mod entering;
mod equipment_front;
mod exit_separation;
mod exit_travel;
mod exterior_doors;
mod garage_to_bedroom;
mod habitable_area;
mod hallway_width;
mod interior_door_width;
mod landing;
mod largest_room;
mod laundry_front;
mod lavatory_front;
mod lavatory_side;
mod least_dimension;
mod light;
mod listed;
mod low_ceilings;
mod mate_line_span;
mod natural_light;
mod openable_area;
mod opening_figure;
mod panel_front;
mod room_closes;
mod room_entered;
mod route_width;
mod sanitation;
mod shipping_length;
mod shipping_width;
mod shower_entry;
mod shower_front;
mod shower_size;
mod smoke_alarms_in_rooms;
mod smoke_alarms_outside;
mod spaces;
mod straddling;
mod subject;
mod toilet_access;
mod toilet_front;
mod toilet_room_depth;
mod toilet_room_width;
mod toilet_side;
mod tub_front;
mod turning_circle;
mod walkway;
mod ways;
mod whole_house_ventilation;
mod work_aisle;
mod work_triangle;

pub(crate) use counted_space::CountedSpaces;
pub(crate) use hallway_width::shows_passages;
pub(crate) use spaces::Covered;

use crate::Rule;

/// Every rule, in the order of verdicts and reports.
const REGISTRY: [&Rule; 58] = [
    &room_closes::RULE,
    &room_entered::RULE,
    &habitable_area::RULE,
    &largest_room::RULE,
    &least_dimension::RULE,
    &ceiling_height::RULE,
    &natural_light::RULE,
    &openable_area::RULE,
    &bath_air::RULE,
    &whole_house_ventilation::RULE,
    &sanitation::RULE,
    &toilet_side::RULE,
    &toilet_front::RULE,
    &toilet_room_width::RULE,
    &toilet_room_depth::RULE,
    &lavatory_side::RULE,
    &lavatory_front::RULE,
    &bowls_apart::RULE,
    &tub_front::RULE,
    &shower_size::RULE,
    &shower_entry::RULE,
    &shower_front::RULE,
    &egress_area::RULE,
    &egress_width::RULE,
    &egress_height::RULE,
    &egress_sill::RULE,
    &exterior_doors::RULE,
    &egress_door_width::RULE,
    &egress_door_height::RULE,
    &landing::RULE,
    &exit_separation::RULE,
    &exit_travel::RULE,
    &hallway_width::RULE,
    &interior_door_width::RULE,
    &door_sweeps::RULE,
    &smoke_alarms_in_rooms::RULE,
    &smoke_alarms_outside::RULE,
    &alarm_to_bath::RULE,
    &alarm_to_cooking::RULE,
    &carbon_monoxide_alarms::RULE,
    &garage_to_bedroom::RULE,
    &bedroom_access::RULE,
    &toilet_access::RULE,
    &closet_depth::RULE,
    &work_aisle::RULE,
    &walkway::RULE,
    &work_triangle::RULE,
    &bed_side::RULE,
    &laundry_front::RULE,
    &equipment_front::RULE,
    &panel_front::RULE,
    &turning_circle::RULE,
    &clear_floor::RULE,
    &route_width::RULE,
    &shipping_width::RULE,
    &shipping_length::RULE,
    &straddling::RULE,
    &mate_line_span::RULE,
];

/// Every rule that the program knows, in the order of verdicts and reports.
pub fn registry() -> impl Iterator<Item = &'static Rule> {
    REGISTRY.into_iter()
}
