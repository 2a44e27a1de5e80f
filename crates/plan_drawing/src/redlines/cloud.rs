use kurbo::{BezPath, Point, Vec2};

/// Chords of scallops in heights of lettering, in turn: uneven, as drawn by hand.
const CHORDS: [f64; 5] = [1.9, 1.5, 2.1, 1.7, 1.35];

/// A scalloped line around a polygon: outside a small one, just inside a large one, whose own edge is a wall.
pub(super) fn around(corners: &[Point], lettering: f64) -> BezPath {
    /// Narrower shapes are clouded from outside, in heights of lettering.
    const SMALL: f64 = 7.0;
    let counter_clockwise = twice_area(corners) >= 0.0;
    let mut corners = corners.to_vec();
    if !counter_clockwise {
        corners.reverse();
    }
    let narrowest = sides(&corners).map(|(a, b)| a.distance(b)).fold(f64::INFINITY, f64::min);
    let shift = if narrowest < SMALL * lettering { 0.25 * lettering } else { -0.85 * lettering };
    let corners = shifted(&corners, shift);
    let mut path = BezPath::new();
    let Some(first) = corners.first() else { return path };
    path.move_to(*first);
    let mut turn = 0;
    for (a, b) in sides(&corners) {
        let (length, along) = (a.distance(b), (b - a).normalize());
        let out = Vec2::new(along.y, -along.x);
        let mean: f64 = CHORDS.iter().sum::<f64>() / 5.0 * lettering;
        let count = (length / mean).round().max(1.0);
        // Chords of this side in their uneven proportions, scaled to fill it.
        let mut chords = Vec::new();
        while f64::from(u32::try_from(chords.len()).unwrap_or(u32::MAX)) < count {
            chords.push(CHORDS[turn % CHORDS.len()]);
            turn += 1;
        }
        let scale = length / chords.iter().sum::<f64>();
        let mut from = a;
        for chord in chords {
            let to = from + along * (chord * scale);
            let bulge = out * (chord * scale * 0.48);
            path.curve_to(from + bulge, to + bulge, to);
            from = to;
        }
    }
    path.close_path();
    path
}

fn sides(corners: &[Point]) -> impl Iterator<Item = (Point, Point)> {
    corners.iter().copied().zip(corners.iter().copied().cycle().skip(1))
}

fn twice_area(corners: &[Point]) -> f64 {
    sides(corners).map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum()
}

/// The polygon with every side moved outwards (inwards if negative); corners stay corners.
fn shifted(corners: &[Point], by: f64) -> Vec<Point> {
    let count = corners.len();
    let corner = |index: usize| {
        let (before, here, after) =
            (corners[(index + count - 1) % count], corners[index], corners[(index + 1) % count]);
        let (u, v) = ((here - before).normalize(), (after - here).normalize());
        let (out_before, out_after) = (Vec2::new(u.y, -u.x), Vec2::new(v.y, -v.x));
        // Along the bisector; a very sharp corner is not followed to its far tip.
        let bisector = out_before + out_after;
        here + bisector * (2.0 * by / bisector.hypot2().max(0.5))
    };
    (0..count).map(corner).collect()
}

#[cfg(test)]
mod tests {
    use kurbo::Shape;

    use super::*;

    fn rectangle(width: f64, height: f64) -> Vec<Point> {
        [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)].map(Point::from).to_vec()
    }

    #[test]
    fn a_small_place_is_clouded_from_outside() {
        let bounds = around(&rectangle(36.0, 6.5), 4.5).bounding_box();
        assert!(bounds.x0 < 0.0 && bounds.y0 < 0.0 && bounds.x1 > 36.0 && bounds.y1 > 6.5);
    }

    #[test]
    fn the_cloud_of_a_room_stays_off_its_walls() {
        let bounds = around(&rectangle(120.0, 90.0), 4.5).bounding_box();
        assert!(bounds.x0 > -1.0 && bounds.y0 > -1.0 && bounds.x1 < 121.0 && bounds.y1 < 91.0, "{bounds:?}");
    }

    #[test]
    fn the_cloud_does_not_depend_on_which_way_round_corners_are_listed() {
        let mut corners = rectangle(36.0, 6.5);
        let one = around(&corners, 4.5).bounding_box();
        corners.reverse();
        let other = around(&corners, 4.5).bounding_box();
        assert!((one.area() - other.area()).abs() < 0.2 * one.area());
    }
}
