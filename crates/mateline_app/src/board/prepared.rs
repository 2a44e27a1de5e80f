use kurbo::{BezPath, PathEl, Point};
use plan_drawing::{Drawing, Ink, Item, Lettering, Pen};

/// A drawing made ready for the screen: curves as short lines, fills as triangles, still in plan inches.
///
/// It is made once for a drawing; moving and zooming only transform its points.
pub struct Prepared {
    /// In the order of the drawing, the first at the bottom.
    pub items: Vec<PreparedItem>,
    /// What encloses everything drawn; none if nothing is.
    pub bounds: Option<kurbo::Rect>,
    /// The places that lettering takes, so that marks laid over the drawing can leave it free.
    pub lettering: Vec<kurbo::Rect>,
}

/// One thing to draw.
pub enum PreparedItem {
    /// A filled shape.
    Fill {
        /// Triangles that do not overlap.
        triangles: Vec<[Point; 3]>,
        /// Its colour by meaning.
        ink: Ink,
    },
    /// Lines of one pen.
    Stroke {
        /// Each line as its points.
        lines: Vec<Line>,
        /// Its width and dashes.
        pen: Pen,
        /// Its colour by meaning.
        ink: Ink,
    },
    /// A line of lettering.
    Text(Lettering),
}

/// A line as its points.
pub struct Line {
    /// At least two.
    pub points: Vec<Point>,
    /// Whether the last point is joined to the first.
    pub closed: bool,
}

/// How far a curve may be from its short lines, in plan inches: under half a screen point until 16 points to the inch.
const FLATNESS: f64 = 0.03;

impl Prepared {
    /// Makes a drawing ready.
    #[must_use]
    pub fn new(drawing: Drawing) -> Self {
        let prepare = |item| match item {
            Item::Fill { path, ink } => PreparedItem::Fill { triangles: triangles_of(&lines_of(&path)), ink },
            Item::Stroke { path, pen, ink } => PreparedItem::Stroke { lines: lines_of(&path), pen, ink },
            Item::Text(lettering) => PreparedItem::Text(lettering),
        };
        let bounds = drawing.bounds();
        let lettering = drawing.items.iter().filter_map(place_of_lettering).collect();
        Self { items: drawing.items.into_iter().map(prepare).collect(), bounds, lettering }
    }
}

fn place_of_lettering(item: &Item) -> Option<kurbo::Rect> {
    if let Item::Text(lettering) = item { Some(lettering.bounds()) } else { None }
}

fn lines_of(path: &BezPath) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    kurbo::flatten(path, FLATNESS, |element| match element {
        PathEl::MoveTo(point) => lines.push(Line { points: vec![point], closed: false }),
        PathEl::LineTo(point) => {
            if let Some(line) = lines.last_mut()
                && line.points.last() != Some(&point)
            {
                line.points.push(point);
            }
        }
        PathEl::ClosePath => {
            if let Some(line) = lines.last_mut() {
                line.closed = true;
                if line.points.len() > 1 && line.points.first() == line.points.last() {
                    line.points.pop();
                }
            }
        }
        // `flatten` gives straight parts only.
        PathEl::QuadTo(..) | PathEl::CurveTo(..) => {}
    });
    lines.retain(|line| line.points.len() > 1);
    lines
}

fn triangles_of(rings: &[Line]) -> Vec<[Point; 3]> {
    let rings: Vec<Vec<[f64; 2]>> = rings
        .iter()
        .filter(|ring| ring.points.len() > 2)
        .map(|ring| ring.points.iter().map(|point| [point.x, point.y]).collect())
        .collect();
    let corners = |triangle: [[f64; 2]; 3]| triangle.map(|[x, y]| Point::new(x, y));
    plan_geometry::triangulate(&rings).into_iter().map(corners).collect()
}
