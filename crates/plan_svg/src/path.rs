//! Numbers and path data.

use std::fmt::Write as _;

use kurbo::{BezPath, PathEl, Point};

/// A number as SVG takes it: the shortest decimal that reads back as the same number, and never a negative zero.
pub(crate) fn number(value: f64) -> String {
    format!("{}", value + 0.0)
}

/// A path as the value of `d`, y turned over. None for a path without parts, and for one with a place that is no number: it
/// has no place on paper either, and a document with `NaN` in it would be refused as a whole.
pub(crate) fn data(path: &BezPath) -> Option<String> {
    if path.elements().is_empty() || !path.is_finite() {
        return None;
    }
    let mut data = String::new();
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(to) => command(&mut data, 'M', &[to]),
            PathEl::LineTo(to) => command(&mut data, 'L', &[to]),
            PathEl::QuadTo(by, to) => command(&mut data, 'Q', &[by, to]),
            PathEl::CurveTo(first, second, to) => command(&mut data, 'C', &[first, second, to]),
            PathEl::ClosePath => data.push('Z'),
        }
    }
    Some(data)
}

fn command(data: &mut String, letter: char, places: &[Point]) {
    data.push(letter);
    for (index, place) in places.iter().enumerate() {
        let _ = write!(data, "{}{} {}", if index == 0 { "" } else { " " }, number(place.x), number(-place.y));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_back_as_they_were() {
        for value in [0.0, -0.0, 1.0 / 3.0, 1e-7, -12.5, 1.0 + f64::EPSILON, 1e7] {
            assert_eq!(number(value).parse(), Ok(value));
            assert!(number(value) != "-0" && !number(value).contains('e'));
        }
    }

    #[test]
    fn every_kind_of_part_is_written() {
        let mut path = BezPath::new();
        path.move_to((1.0, 2.0));
        path.line_to((3.5, -4.0));
        path.quad_to((5.0, 0.0), (6.0, 7.0));
        path.curve_to((1.0, 1.0), (2.0, 2.0), (3.0, 3.0));
        path.close_path();
        assert_eq!(data(&path).as_deref(), Some("M1 -2L3.5 4Q5 0 6 -7C1 -1 2 -2 3 -3Z"));
    }

    #[test]
    fn what_has_no_place_is_left_out() {
        assert_eq!(data(&BezPath::new()), None);
        let mut path = BezPath::new();
        path.move_to((f64::NAN, 0.0));
        assert_eq!(data(&path), None);
    }
}
