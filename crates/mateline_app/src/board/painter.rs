use egui::epaint::{PathShape, PathStroke, TextShape, Vertex};
use egui::{Color32, Mesh, Painter, Pos2, Rect, Shape, Stroke, Vec2};
use plan_drawing::{Align, Ink, Lettering, Pen};

use super::{Camera, Line, Prepared, PreparedItem};
use crate::theme;

/// One millimetre on paper at 1/4" = 1'-0" is this many inches of the plan.
const PLAN_INCHES_PER_PAPER_MM: f64 = 48.0 / 25.4;
/// Thinner lines break up on a screen.
const THINNEST: f32 = 0.6;
/// Wider lines no longer look drawn.
const WIDEST: f32 = 3.0;
/// Smaller lettering is only a grey smear; it is left out.
const SMALLEST_LETTERING: f32 = 5.0;

/// Lines thinner than this that are square to the screen are laid on its pixels, where they do not blur.
const SNAPPED: f32 = 1.6;

/// Whether every part of a line runs straight across or straight up the screen.
fn is_square(points: &[Pos2]) -> bool {
    /// Far less than a pixel: only rounding lies between the two ends.
    const ROUNDING: f32 = 0.01;
    points.windows(2).all(|ends| {
        let along = ends[1] - ends[0];
        along.x.abs() < ROUNDING || along.y.abs() < ROUNDING
    })
}

/// Draws a prepared drawing where the camera sees it.
pub(crate) fn paint(prepared: &Prepared, camera: &Camera, board: Rect, painter: &Painter) {
    let pencil = Pencil { camera, board, painter };
    for item in &prepared.items {
        match item {
            PreparedItem::Fill { triangles, ink } => pencil.fill(triangles, *ink),
            PreparedItem::Stroke { lines, pen, ink } => pencil.stroke(lines, *pen, *ink),
            PreparedItem::Text(lettering) => pencil.letter(lettering),
        }
    }
}

struct Pencil<'a> {
    camera: &'a Camera,
    board: Rect,
    painter: &'a Painter,
}

impl Pencil<'_> {
    fn place(&self, point: kurbo::Point) -> Pos2 {
        self.camera.to_screen(point, self.board)
    }

    fn fill(&self, triangles: &[[kurbo::Point; 3]], ink: Ink) {
        let color = theme::ink(ink);
        let mut mesh = Mesh::default();
        for corner in triangles.iter().flatten() {
            let index = u32::try_from(mesh.vertices.len()).unwrap_or(u32::MAX);
            mesh.indices.push(index);
            mesh.vertices.push(Vertex::untextured(self.place(*corner), color));
        }
        self.painter.add(Shape::mesh(mesh));
    }

    fn stroke(&self, lines: &[Line], pen: Pen, ink: Ink) {
        let width = self.camera.length(pen.width_mm * PLAN_INCHES_PER_PAPER_MM).clamp(THINNEST, WIDEST);
        let color = theme::ink(ink);
        for line in lines {
            let mut points: Vec<Pos2> = line.points.iter().map(|point| self.place(*point)).collect();
            if !self.painter.clip_rect().intersects(Rect::from_points(&points).expand(WIDEST)) {
                continue;
            }
            if width < SNAPPED && is_square(&points) {
                for point in &mut points {
                    let crisp = |part: f32| self.painter.round_to_pixel_center(part);
                    *point = Pos2::new(crisp(point.x), crisp(point.y));
                }
            }
            match pen.dash_mm {
                Some((dash, gap)) => {
                    if line.closed {
                        points.extend(points.first().copied());
                    }
                    let on_screen = |mm: f64| self.camera.length(mm * PLAN_INCHES_PER_PAPER_MM).max(2.0);
                    let (dash, gap) = (on_screen(dash), on_screen(gap));
                    let mut dashes = Vec::new();
                    Shape::dashed_line_many(&points, Stroke::new(width, color), dash, gap, &mut dashes);
                    self.painter.extend(dashes);
                }
                None => {
                    let stroke = PathStroke::new(width, color);
                    let path = PathShape { points, closed: line.closed, fill: Color32::TRANSPARENT, stroke };
                    self.painter.add(path);
                }
            }
        }
    }

    #[expect(clippy::cast_possible_truncation, reason = "an angle of lettering")]
    fn letter(&self, lettering: &Lettering) {
        let capitals = self.camera.length(lettering.height);
        let size = theme::size_for_capitals(capitals);
        if size < SMALLEST_LETTERING {
            return;
        }
        let font = egui::FontId::new(size, theme::face(lettering.face));
        let galley = self.painter.layout_no_wrap(lettering.text.clone(), font, theme::ink(lettering.ink));
        let across = match lettering.align {
            Align::Left => 0.0,
            Align::Centre => galley.size().x / 2.0,
            Align::Right => galley.size().x,
        };
        let baseline = galley.rows.first().map_or(0.0, |row| row.pos.y + row.glyphs.first().map_or(0.0, |g| g.pos.y));
        // egui turns clockwise about the upper left corner; the drawing turns counter-clockwise about the place.
        let angle = -lettering.angle.to_radians() as f32;
        let to_corner = Vec2::new(-across, capitals / 2.0 - baseline);
        let corner = self.place(lettering.at) + egui::emath::Rot2::from_angle(angle) * to_corner;
        self.painter.add(TextShape::new(corner, galley, theme::ink(lettering.ink)).with_angle(angle));
    }
}
