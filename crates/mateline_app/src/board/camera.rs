use egui::{Pos2, Rect, Vec2, pos2};
use kurbo::Point;

/// What part of the plan the board shows: plan inches to screen points and back.
///
/// The place is kept in plan inches, never in pixels, so that another window size or display changes nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Camera {
    /// The place of the plan in the middle of the board, in plan inches.
    pub centre: Point,
    /// Screen points to a plan inch.
    pub zoom: f64,
}

impl Camera {
    /// The whole of a 100 ft house still fits a small window.
    const LEAST_ZOOM: f64 = 0.15;
    /// An inch is then as wide as a finger.
    const GREATEST_ZOOM: f64 = 40.0;
    /// Paper left free around what is brought into view, as a part of the board.
    const MARGIN: f64 = 0.012;

    /// Shows a rectangle of the plan as large as the board allows.
    #[must_use]
    pub fn fit(bounds: kurbo::Rect, board: Vec2) -> Self {
        let free = 1.0 - 2.0 * Self::MARGIN;
        let across = f64::from(board.x) * free / bounds.width().max(1.0);
        let up = f64::from(board.y) * free / bounds.height().max(1.0);
        let zoom = across.min(up).clamp(Self::LEAST_ZOOM, Self::GREATEST_ZOOM);
        Self { centre: bounds.center(), zoom }
    }

    /// Where a place of the plan is seen.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, reason = "screen points need no more than f32")]
    pub fn to_screen(&self, place: Point, board: Rect) -> Pos2 {
        let from_centre = place - self.centre;
        let middle = board.center();
        pos2(middle.x + (from_centre.x * self.zoom) as f32, middle.y - (from_centre.y * self.zoom) as f32)
    }

    /// The place of the plan under a screen point.
    #[must_use]
    pub fn to_plan(&self, point: Pos2, board: Rect) -> Point {
        let from_middle = point - board.center();
        let across = f64::from(from_middle.x) / self.zoom;
        let up = -f64::from(from_middle.y) / self.zoom;
        Point::new(self.centre.x + across, self.centre.y + up)
    }

    /// The rectangle of the board in which a rectangle of the plan is seen.
    #[must_use]
    pub fn rect_to_screen(&self, rect: kurbo::Rect, board: Rect) -> Rect {
        let corners = [(rect.x0, rect.y0), (rect.x1, rect.y1)].map(|corner| self.to_screen(corner.into(), board));
        Rect::from_points(&corners)
    }

    /// Moves the plan with the pointer by a screen distance.
    pub fn pan(&mut self, by: Vec2) {
        self.centre.x -= f64::from(by.x) / self.zoom;
        self.centre.y += f64::from(by.y) / self.zoom;
    }

    /// Magnifies about a screen point, which keeps its place of the plan.
    pub fn zoom_about(&mut self, point: Pos2, factor: f64, board: Rect) {
        let kept = self.to_plan(point, board);
        self.zoom = (self.zoom * factor).clamp(Self::LEAST_ZOOM, Self::GREATEST_ZOOM);
        let moved = self.to_plan(point, board);
        self.centre += kept - moved;
    }

    /// Brings a rectangle of the plan into the middle; magnified only if it would be too small to read, and made smaller
    /// only if it would not fit.
    pub fn bring_into_view(&mut self, bounds: kurbo::Rect, board: Vec2) {
        /// Screen points to a plan inch at which dimensions and small rooms are read without effort.
        const READABLE: f64 = 2.2;
        let largest = Self::fit(bounds, board).zoom;
        self.centre = bounds.center();
        self.zoom = self.zoom.max(READABLE).min(largest);
    }

    /// The screen size of a distance on the plan.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, reason = "screen points need no more than f32")]
    pub fn length(&self, inches: f64) -> f32 {
        (inches * self.zoom) as f32
    }
}

#[cfg(test)]
mod tests {
    use egui::vec2;

    use super::*;

    fn board() -> Rect {
        Rect::from_min_size(pos2(40.0, 60.0), vec2(1000.0, 700.0))
    }

    fn near(a: Point, b: Point) -> bool {
        (a - b).hypot() < 1e-3
    }

    #[test]
    fn a_place_is_seen_where_it_is_picked() {
        let camera = Camera { centre: Point::new(348.0, 165.0), zoom: 1.7 };
        let place = Point::new(12.5, 300.25);
        assert!(near(camera.to_plan(camera.to_screen(place, board()), board()), place));
    }

    #[test]
    fn up_on_the_plan_is_up_on_the_screen() {
        let camera = Camera { centre: Point::ZERO, zoom: 2.0 };
        let middle = board().center();
        assert_eq!(camera.to_screen(Point::new(10.0, 10.0), board()), middle + vec2(20.0, -20.0));
    }

    #[test]
    fn zooming_keeps_the_place_under_the_pointer() {
        let mut camera = Camera { centre: Point::new(348.0, 165.0), zoom: 1.4 };
        let pointer = pos2(300.0, 500.0);
        let before = camera.to_plan(pointer, board());
        camera.zoom_about(pointer, 1.9, board());
        assert!(near(camera.to_plan(pointer, board()), before));
        camera.zoom_about(pointer, 1e9, board());
        assert!(near(camera.to_plan(pointer, board()), before));
    }

    #[test]
    fn panning_moves_the_plan_with_the_pointer() {
        let mut camera = Camera { centre: Point::ZERO, zoom: 2.0 };
        let place = Point::new(5.0, 7.0);
        let before = camera.to_screen(place, board());
        camera.pan(vec2(30.0, -12.0));
        assert_eq!(camera.to_screen(place, board()), before + vec2(30.0, -12.0));
    }

    #[test]
    fn a_fit_shows_the_whole_of_it() {
        let bounds = kurbo::Rect::new(-40.0, -60.0, 760.0, 400.0);
        let camera = Camera::fit(bounds, board().size());
        for corner in [Point::new(bounds.x0, bounds.y0), Point::new(bounds.x1, bounds.y1)] {
            assert!(board().contains(camera.to_screen(corner, board())));
        }
    }
}
