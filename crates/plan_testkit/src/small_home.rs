use plan_model::{ExactLength, Length, Plan, Side, Units, file};
use serde_json::{Map, Value, json};

/// Thickness of the outside walls.
const WALL: Length = Length::inches(6);
/// Thickness of the partition between two rooms.
const PARTITION: Length = Length::inches(4);
/// From a corner of the room to its first opening, and from one opening to the next.
const BESIDE: Length = Length::inches(3);

/// A window unit and where it stands.
#[derive(Clone, Debug)]
pub struct WindowSpec {
    /// How it opens, as in a plan file: `single-hung`.
    pub operation: &'static str,
    /// Frame width.
    pub width: Length,
    /// Frame height.
    pub height: Length,
    /// Published clear width and height; none leaves the estimate.
    pub clear: Option<(ExactLength, ExactLength)>,
    /// Bottom of the clear opening above the floor; none leaves it unknown.
    pub sill: Option<Length>,
}

/// A door unit.
#[derive(Clone, Debug)]
pub struct DoorSpec {
    /// How it opens, as in a plan file: `hinged`.
    pub operation: &'static str,
    /// Leaf width.
    pub width: Length,
    /// Leaf height.
    pub height: Length,
    /// Published clear width and height; none leaves the estimate.
    pub clear: Option<(ExactLength, ExactLength)>,
}

/// What stands between the two rooms of a small home.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Between {
    /// A partition 4 in thick.
    Wall,
    /// The same with a cased opening 30 in wide.
    Doorway,
    /// The same with a cased opening so wide and so high.
    Opening(Length, Length),
    /// The same with a hinged door whose leaf is so wide; it swings into the back room.
    Door(Length),
    /// Nothing: the rooms are one open space.
    OpenBoundary,
}

/// One room in a box of outside walls 6 in thick, with the outer face of the front wall on y = 0 and its corner on x = 0.
///
/// Its room is called `room` and its walls `front`, `right`, `back` and `left`, each with the room on its left.
/// Windows are `window-1`, `window-2`, doors `door-1` and so on; openings of one wall stand beside each other, the
/// first 3 in from the corner. Doors swing out. The catalogue estimates clear openings as is common practice.
#[derive(Clone, Debug)]
pub struct SmallHome {
    width: Length,
    length: Length,
    units: Units,
    room: Map<String, Value>,
    facts: Map<String, Value>,
    door_units: Vec<Value>,
    window_units: Vec<Value>,
    elements: Map<String, Value>,
    taken: [Length; 4],
}

impl SmallHome {
    /// A room of one use and clear size; `width` is along the front.
    #[must_use]
    pub fn new(usage: &str, width: Length, length: Length) -> Self {
        let middle = |clear: Length| exactly(Length::from_steps(WALL.steps() + clear.steps() / 2));
        let room =
            json!({ "id": "room", "name": capitalised(usage), "use": usage, "at": [middle(width), middle(length)] });
        Self {
            width,
            length,
            units: Units::In,
            room: object(room),
            facts: object(json!({ "legal_kind": "state-label" })),
            door_units: Vec::new(),
            window_units: Vec::new(),
            elements: Map::new(),
            taken: [WALL_CORNER; 4],
        }
    }

    /// Another name for the room than its use.
    #[must_use]
    pub fn named(mut self, name: &str) -> Self {
        self.room.insert("name".into(), name.into());
        self
    }

    /// A plan whose bare numbers are millimetres.
    #[must_use]
    pub const fn in_millimetres(mut self) -> Self {
        self.units = Units::Mm;
        self
    }

    /// A home sold under the federal label.
    #[must_use]
    pub fn under_federal_label(mut self) -> Self {
        self.facts.insert("legal_kind".into(), "federal-label".into());
        self
    }

    /// The floor so high above the ground outside.
    #[must_use]
    pub fn floor_above_grade(mut self, height: Length) -> Self {
        self.facts.insert("floor_above_grade".into(), exactly(height));
        self
    }

    /// A flat ceiling.
    #[must_use]
    pub fn ceiling(self, height: Length) -> Self {
        self.element("ceilings", json!({ "id": "ceiling", "height": exactly(height) }))
    }

    /// A ceiling that rises from the front wall.
    #[must_use]
    pub fn rising_ceiling(self, low: Length, rise_per_foot: Length) -> Self {
        let low_edge = [WALL, WALL + self.width].map(|x| [exactly(x), exactly(WALL)]);
        let slope = json!({ "from": low_edge[0], "to": low_edge[1], "rise_per_foot": exactly(rise_per_foot) });
        self.element("ceilings", json!({ "id": "ceiling", "height": exactly(low), "slope": slope }))
    }

    /// A lowered part of the ceiling along the back wall, so deep and so high above the floor.
    #[must_use]
    pub fn lowered_at_the_back(self, depth: Length, height: Length, what: &str) -> Self {
        let (right, back) = (WALL + self.width, WALL + self.length);
        let from = [exactly(WALL), exactly(back - depth)];
        let to = [exactly(right), exactly(back)];
        let lowered = json!({ "id": what, "from": from, "to": to, "height": exactly(height), "beam": what == "beam" });
        self.element("soffits", lowered)
    }

    /// A chase in the corner between the back and the right wall; it leaves the room L-shaped.
    #[must_use]
    pub fn chase(self, width: Length, length: Length) -> Self {
        let corner = [exactly(WALL + self.width), exactly(WALL + self.length)];
        let inner = [exactly(WALL + self.width - width), exactly(WALL + self.length - length)];
        self.element("columns", json!({ "id": "chase", "kind": "chase", "from": inner, "to": corner }))
    }

    /// A further room, called `part`, that takes the back of the room; the two are parted so far from the back wall.
    ///
    /// It must leave more than half of the room.
    #[must_use]
    pub fn back_part(mut self, usage: &str, length: Length, between: Between) -> Self {
        let half = |length: Length| Length::from_steps(length.steps() / 2);
        let (back, right) = (WALL + self.length, WALL + self.width);
        let part = json!({
            "id": "part",
            "name": capitalised(usage),
            "use": usage,
            "at": [exactly(WALL + half(self.width)), exactly(back - half(length))],
        });
        self = self.element("rooms", part);
        if between == Between::OpenBoundary {
            let ends = [WALL, right].map(|x| [exactly(x), exactly(back - length)]);
            let boundary = json!({ "id": "open-boundary", "from": ends[0], "to": ends[1] });
            return self.element("open_boundaries", boundary);
        }
        let ends = [half(WALL), right + half(WALL)].map(|x| [exactly(x), exactly(back - length - half(PARTITION))]);
        let wall = json!({
            "id": "partition", "kind": "partition", "from": ends[0], "to": ends[1], "thickness": exactly(PARTITION),
        });
        self = self.element("walls", wall);
        if between == Between::Wall {
            return self;
        }
        let usual = Length::inches(80);
        let (operation, width, height) = match between {
            Between::Door(width) => ("hinged", width, usual),
            Between::Opening(width, height) => ("cased-opening", width, height),
            _ => ("cased-opening", Length::inches(30), usual),
        };
        self.door_units.push(json!({
            "id": "doorway-unit", "operation": operation, "width": exactly(width), "height": exactly(height),
        }));
        let at = exactly(WALL_CORNER + BESIDE);
        let mut door = json!({ "id": "doorway", "unit": "doorway-unit", "wall": "partition", "at": at });
        if operation == "hinged" {
            // The partition runs from left to right.
            door["hinge"] = "near".into();
            door["swing"] = "left".into();
        }
        self.element("doors", door)
    }

    /// A window in a wall.
    #[must_use]
    pub fn window(mut self, wall: Side, spec: &WindowSpec) -> Self {
        let number = self.window_units.len() + 1;
        let unit_id = format!("window-unit-{number}");
        let mut unit = json!({
            "id": unit_id,
            "operation": spec.operation,
            "width": exactly(spec.width),
            "height": exactly(spec.height),
        });
        publish(&mut unit, spec.clear);
        let at = self.place(wall, spec.width);
        let mut window = json!({ "id": format!("window-{number}"), "unit": unit_id, "wall": name(wall), "at": at });
        if let Some(sill) = spec.sill {
            // Where the frame stands follows from where its clear opening is to begin.
            unit["sill_above_frame"] = exactly(SILL_ABOVE_FRAME);
            window["head"] = exactly(sill - SILL_ABOVE_FRAME + spec.height);
        }
        self.window_units.push(unit);
        self.element("windows", window)
    }

    /// A door in a wall; a hinged leaf swings out.
    #[must_use]
    pub fn door(mut self, wall: Side, spec: &DoorSpec) -> Self {
        let number = self.door_units.len() + 1;
        let unit_id = format!("door-unit-{number}");
        let mut unit = json!({
            "id": unit_id,
            "operation": spec.operation,
            "width": exactly(spec.width),
            "height": exactly(spec.height),
        });
        publish(&mut unit, spec.clear);
        self.door_units.push(unit);
        let at = self.place(wall, spec.width);
        let mut door = json!({ "id": format!("door-{number}"), "unit": unit_id, "wall": name(wall), "at": at });
        if spec.operation == "hinged" {
            door["hinge"] = "near".into();
            door["swing"] = "right".into();
        }
        self.element("doors", door)
    }

    /// Any further element of a list of the plan file.
    #[must_use]
    pub fn element(mut self, list: &str, element: Value) -> Self {
        let elements = self.elements.entry(list).or_insert_with(|| json!([]));
        if let Some(elements) = elements.as_array_mut() {
            elements.push(element);
        }
        self
    }

    /// The home as the text of a plan file.
    #[must_use]
    pub fn text(&self) -> String {
        let half = Length::from_steps(WALL.steps() / 2);
        let (right, back) = (WALL + self.width + half, WALL + self.length + half);
        let corner = |x, y| json!([exactly(x), exactly(y)]);
        let corners = [corner(half, half), corner(right, half), corner(right, back), corner(half, back)];
        let wall = |index: usize, wall| {
            let (from, to) = (&corners[index], &corners[(index + 1) % 4]);
            json!({ "id": name(wall), "kind": "exterior", "from": from, "to": to, "thickness": exactly(WALL) })
        };
        let walls = WALLS.iter().enumerate().map(|(index, side)| wall(index, *side));
        let mut base = self.elements.clone();
        for (list, elements) in [("walls", walls.collect()), ("rooms", vec![Value::from(self.room.clone())])] {
            let brought = base.remove(list).and_then(|list| list.as_array().cloned()).unwrap_or_default();
            base.insert(list.into(), elements.into_iter().chain(brought).collect());
        }
        let outer = corner(WALL + self.width + WALL, WALL + self.length + WALL);
        let plan = json!({
            "mateline_plan": 1,
            "name": "Small home",
            "maker": "Nobody",
            "units": self.units.abbreviation(),
            "currency": "USD",
            "base_price": "0",
            "home": self.facts,
            "modules": [{ "id": "module", "name": "Module", "from": corner(Length::ZERO, Length::ZERO), "to": outer }],
            "catalogue": { "doors": self.door_units, "windows": self.window_units, "deductions": deductions() },
            "base": base,
        });
        plan.to_string()
    }

    /// The home as a plan.
    ///
    /// # Panics
    /// When what was added does not make a plan.
    #[must_use]
    pub fn plan(&self) -> Plan {
        file::read(&self.text()).unwrap_or_else(|error| panic!("a small home is a readable plan: {error}"))
    }

    /// Takes room for an opening in a wall; the distance from the wall's start.
    fn place(&mut self, wall: Side, width: Length) -> Value {
        let taken = &mut self.taken[WALLS.iter().position(|side| *side == wall).unwrap_or_default()];
        let at = *taken + BESIDE;
        *taken = at + width;
        exactly(at)
    }
}

/// Counter-clockwise, as the walls run.
const WALLS: [Side; 4] = [Side::Front, Side::Right, Side::Back, Side::Left];
/// From the start of a wall's centre line to the corner of the room.
const WALL_CORNER: Length = Length::from_steps(WALL.steps() / 2);
const SILL_ABOVE_FRAME: Length = Length::inches(2);

/// Common practice, no source.
fn deductions() -> Value {
    json!([
        { "operation": "hinged", "width_less": "2 3/8 in", "height_less": 0 },
        { "operation": "single-hung", "width_less": "3 1/4 in", "height_parts": 2, "height_less": "3 1/2 in" },
        { "operation": "slider", "width_parts": 2, "width_less": "3 1/2 in", "height_less": "3 1/4 in" },
        { "operation": "casement", "width_less": "7 3/4 in", "height_less": "4 3/4 in" },
    ])
}

fn publish(unit: &mut Value, clear: Option<(ExactLength, ExactLength)>) {
    if let Some((width, height)) = clear {
        let millimetres = |length: ExactLength| {
            let value = length.steps() / i128::from(Units::Mm.steps());
            Value::from(format!("{}/{} mm", value.numer(), value.denom()))
        };
        unit["clear"] = json!({ "width": millimetres(width), "height": millimetres(height) });
    }
}

const fn name(wall: Side) -> &'static str {
    match wall {
        Side::Front => "front",
        Side::Right => "right",
        Side::Back => "back",
        Side::Left => "left",
    }
}

fn capitalised(usage: &str) -> String {
    let mut name = usage.to_owned();
    name[..1].make_ascii_uppercase();
    name
}

/// A length as text that means the same in every unit.
fn exactly(length: Length) -> Value {
    format!("{}/{} mm", length.steps(), Units::Mm.steps()).into()
}

fn object(value: Value) -> Map<String, Value> {
    match value {
        Value::Object(fields) => fields,
        _ => Map::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn builds_a_readable_plan() {
        let clear = ["34.2", "24"].map(|text| ExactLength::parse(text, Units::In).expect("a length"));
        let window = WindowSpec {
            operation: "casement",
            width: Length::inches(40),
            height: Length::inches(36),
            clear: Some((clear[0], clear[1])),
            sill: Some(Length::inches(40)),
        };
        let door = DoorSpec { operation: "hinged", width: Length::inches(36), height: Length::inches(80), clear: None };
        let home = SmallHome::new("bedroom", Length::inches(120), Length::inches(144))
            .floor_above_grade(Length::inches(30))
            .ceiling(Length::inches(96))
            .chase(Length::inches(10), Length::inches(12))
            .window(Side::Front, &window)
            .door(Side::Back, &door);
        for plan in [home.plan(), home.in_millimetres().plan()] {
            assert_eq!(plan.base.walls.len(), 4);
            assert_eq!(plan.catalogue.windows[0].clear.map(|clear| clear.width), Some(clear[0]));
            assert_eq!(plan.base.windows[0].head, Some(Length::inches(74)));
        }
    }

    #[test]
    fn a_rising_ceiling_rises_from_the_front() {
        let home = SmallHome::new("study", Length::inches(120), Length::inches(144));
        let plan = home.rising_ceiling(Length::inches(60), Length::inches(4)).plan();
        assert_eq!(plan.base.ceilings[0].slope.as_ref().map(|slope| slope.from.y), Some(WALL));
    }
}
