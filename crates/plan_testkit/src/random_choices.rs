//! Random plans with choices. They are small, at any angle, and their choices move, take out and bring in whatever stands in
//! them, so that walls go missing, rooms merge and things stand in each other: what no maker would draw.

use plan_model::elements::{Elements, RoomUse};
use plan_model::{Alternate, Choice, Id, Length, Money, Plan, Point};

use crate::{Random, RandomPlan};

const USES: [RoomUse; 7] = [
    RoomUse::Bedroom,
    RoomUse::Living,
    RoomUse::Hall,
    RoomUse::Bath,
    RoomUse::Kitchen,
    RoomUse::Closet,
    RoomUse::Storage,
];

/// A plan with two to four choices of two or three alternates, about what it was drawn with.
#[must_use]
pub fn plan_with_choices(seed: u64, index: u64) -> Plan {
    let mut plan = RandomPlan::furnished(seed, index).plan();
    let mut random = Random::for_plan(seed ^ 0xC401CE, index);
    for room in &mut plan.base.rooms {
        room.usage = random.one_of(&USES);
    }
    for number in 0..random.whole(2, 4) {
        let moved = taken_out(&mut plan.base, &mut random);
        let mut alternates = vec![alternate("as-drawn", moved.clone())];
        if random.in_hundred(60) {
            alternates.push(alternate("without", Elements::default()));
        }
        if random.in_hundred(70) || alternates.len() == 1 {
            let by = Point::new(inches(&mut random), inches(&mut random));
            alternates.push(alternate("moved", elsewhere(&moved, by)));
        }
        if random.in_hundred(20) {
            // What another alternate takes out of the base.
            let ids: Vec<Id> = plan.base.ids().map(|(id, ..)| id.clone()).collect();
            if let Some(last) = alternates.last_mut()
                && !ids.is_empty()
            {
                let places: Vec<usize> = (0..ids.len()).collect();
                last.removes.push(ids[random.one_of(&places)].clone());
            }
        }
        alternates[0].included = true;
        plan.choices.push(Choice {
            id: format!("choice-{number}").into(),
            name: "Choice".into(),
            at: None,
            alternates,
        });
    }
    plan
}

fn inches(random: &mut Random) -> Length {
    Length::inches(random.whole(-40, 40))
}

fn alternate(id: &str, brings: Elements) -> Alternate {
    Alternate {
        id: id.into(),
        name: id.into(),
        included: false,
        price: Money::ZERO,
        needs: Vec::new(),
        excludes: Vec::new(),
        removes: Vec::new(),
        brings,
    }
}

/// One or two elements out of the base.
fn taken_out(base: &mut Elements, random: &mut Random) -> Elements {
    let mut taken = Elements::default();
    for _ in 0..random.whole(1, 2) {
        macro_rules! one_of {
            ($list:ident) => {
                if !base.$list.is_empty() {
                    let places: Vec<usize> = (0..base.$list.len()).collect();
                    taken.$list.push(base.$list.remove(random.one_of(&places)));
                }
            };
        }
        match random.whole(0, 9) {
            0..=2 => one_of!(walls),
            3..=4 => one_of!(doors),
            5..=7 => one_of!(fixtures),
            8 => one_of!(columns),
            _ => one_of!(open_boundaries),
        }
    }
    taken
}

/// Copies under other names, moved.
fn elsewhere(elements: &Elements, by: Point) -> Elements {
    let mut moved = elements.clone();
    let other = |id: &Id| Id::from(format!("{id}-moved"));
    for wall in &mut moved.walls {
        (wall.id, wall.from, wall.to) = (other(&wall.id), wall.from + by, wall.to + by);
    }
    for door in &mut moved.doors {
        (door.id, door.at) = (other(&door.id), door.at + by.x);
    }
    for fixture in &mut moved.fixtures {
        (fixture.id, fixture.at) = (other(&fixture.id), fixture.at + by);
    }
    for column in &mut moved.columns {
        (column.id, column.from, column.to) = (other(&column.id), column.from + by, column.to + by);
    }
    for line in &mut moved.open_boundaries {
        (line.id, line.from, line.to) = (other(&line.id), line.from + by, line.to + by);
    }
    moved
}
