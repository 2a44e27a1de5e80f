use kurbo::{BezPath, Point};

/// A list of things to draw, the first at the bottom.
#[derive(Clone, Debug, Default)]
pub struct Drawing {
    /// What is drawn.
    pub items: Vec<Item>,
}

/// One thing to draw.
#[derive(Clone, Debug)]
pub enum Item {
    /// A filled shape (even-odd).
    Fill {
        /// Closed paths, in plan inches.
        path: BezPath,
        /// Colour by meaning.
        ink: Ink,
    },
    /// A line.
    Stroke {
        /// Open or closed paths, in plan inches.
        path: BezPath,
        /// Its width and dashes.
        pen: Pen,
        /// Colour by meaning.
        ink: Ink,
    },
    /// A line of lettering.
    Text(Lettering),
}

/// How a line is drawn; widths as on paper at 1/4" = 1'-0".
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pen {
    /// Width in millimetres on paper.
    pub width_mm: f64,
    /// Dash and gap in millimetres on paper; none for a continuous line.
    pub dash_mm: Option<(f64, f64)>,
}

impl Pen {
    /// What stands on the floor: fixtures, cabinets, door leaves.
    pub const OBJECT: Self = Self::solid(0.35);
    /// Swings, dimensions, tile and glass lines.
    pub const FINE: Self = Self::solid(0.18);
    /// Door leaves, window frames, dimension ticks: between what is cut and what is fine.
    pub const MEDIUM: Self = Self::solid(0.25);
    /// Furniture and what else must stand back.
    pub const LIGHT: Self = Self::solid(0.13);
    /// What lies above the cutting plane or is not built: wall cabinets, eaves.
    pub const HIDDEN: Self = Self { width_mm: 0.18, dash_mm: Some((1.6, 0.9)) };
    /// A division that is no wall: between two rooms of one space.
    pub const FAINT: Self = Self { width_mm: 0.13, dash_mm: Some((0.9, 1.8)) };
    /// A correction.
    pub const REDLINE: Self = Self::solid(0.45);
    /// An advisory or something unknown: dashed, so that it differs from a correction without colour.
    pub const CAUTION: Self = Self { width_mm: 0.35, dash_mm: Some((2.0, 1.0)) };

    /// A measure that somebody asked for.
    pub const MEASURE: Self = Self::solid(0.4);

    /// A continuous line.
    #[must_use]
    pub const fn solid(width_mm: f64) -> Self {
        Self { width_mm, dash_mm: None }
    }
}

/// A colour by what it stands for; the palette gives it a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ink {
    /// The paper itself.
    Paper,
    /// A floor inside the house, a shade lighter than the paper.
    Floor,
    /// A cut wall.
    Wall,
    /// Outlines of what stands in the house.
    Object,
    /// Fill of fixtures and cabinets.
    ObjectFill,
    /// Outlines of furniture, lighter than fixtures.
    Furniture,
    /// Fill of furniture.
    FurnitureFill,
    /// Swings, glass, inner lines of fixtures.
    Fine,
    /// Joints of floor tile: just visible.
    Tile,
    /// Dimension strings and their text.
    Dimension,
    /// Room names.
    Lettering,
    /// Outlines of porches, landings and what else lies outdoors.
    Outdoors,
    /// Fill of porches and landings.
    OutdoorsFill,
    /// A correction.
    Redline,
    /// A thin wash over the place of a correction.
    RedlineWash,
    /// An advisory or something unknown.
    Caution,
    /// A thin wash over its place.
    CautionWash,
    /// A measure that somebody asked for.
    Measure,
    /// A thin wash over the ground that it counts.
    MeasureWash,
}

/// A line of lettering.
#[derive(Clone, Debug, PartialEq)]
pub struct Lettering {
    /// What it says.
    pub text: String,
    /// Where its alignment point stands.
    pub at: Point,
    /// Height of capitals in plan inches.
    pub height: f64,
    /// Counter-clockwise angle of the baseline, in degrees.
    pub angle: f64,
    /// Which face.
    pub face: Face,
    /// Which point of the text stands at `at`; vertically it is always the middle of the capitals.
    pub align: Align,
    /// Colour by meaning.
    pub ink: Ink,
}

/// A face of the drawing's type family.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Face {
    /// Figures and notes.
    Regular,
    /// Room names and titles.
    Bold,
    /// Notes on corrections.
    Italic,
}

/// Which point of a line of text stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Its left end.
    Left,
    /// Its middle.
    Centre,
    /// Its right end.
    Right,
}
