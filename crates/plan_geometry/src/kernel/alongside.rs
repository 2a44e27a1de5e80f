//! Lines that run side by side.

use plan_model::{Length, Point};

use super::project;
use crate::OFF_AXIS_SLACK;
use crate::region::{cross, dot};

/// How a line runs beside another that is taken as the base.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Alongside {
    /// The stretch of the base beside which it runs, from the base's start.
    pub(crate) stretch: [Length; 2],
    /// How far to the left of the base it lies.
    pub(crate) left: Length,
    /// Whether it runs the same way as the base.
    pub(crate) same_way: bool,
    /// What the stretch and the distance may be off by.
    pub(crate) slack: Length,
}

/// How `line` runs beside `base`; none if they are not parallel, or no stretch of the base has the line beside it.
///
/// Lines that are square to the axes must be exactly parallel. Others lie within a step of true at each end: over the
/// length of the shorter they may part by twice the slack.
pub(crate) fn alongside(base: [Point; 2], line: [Point; 2]) -> Option<Alongside> {
    let [[a, b], [c, d]] = [base, line];
    let origin = Point::default();
    let (u, v) = (b - a, d - c);
    let (ahead, aside) = (dot(origin, u, v), cross(origin, u, v));
    let square = [u, v].iter().any(|way| way.x == Length::ZERO || way.y == Length::ZERO);
    let [long, line_long] = [base, line].map(|[from, to]| project(from, to, to).0);
    let stray = if square { Length::ZERO } else { OFF_AXIS_SLACK * 2 };
    if ahead == 0 || aside.abs() > i128::from(stray.steps()) * i128::from(long.max(line_long).steps()) {
        return None;
    }
    let same_way = ahead > 0;
    let [start, end] = [c, d].map(|point| project(a, b, point).0);
    let stretch = [start.min(end).max(Length::ZERO), start.max(end).min(long)];
    if stretch[1] - stretch[0] <= stray {
        return None;
    }
    // From the longer of the two, whose direction is the truer.
    let left = match (line_long <= long, same_way) {
        (true, _) => project(a, b, c).1,
        (false, false) => project(c, d, a).1,
        (false, true) => -project(c, d, a).1,
    };
    let slack = if square { Length::ZERO } else { OFF_AXIS_SLACK };
    Some(Alongside { stretch, left, same_way, slack })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(from: (i64, i64), to: (i64, i64)) -> [Point; 2] {
        [Point::inches(from.0, from.1), Point::inches(to.0, to.1)]
    }

    #[test]
    fn a_line_beside_another_has_a_stretch_and_a_side() {
        let base = line((0, 0), (100, 0));
        let beside = alongside(base, line((130, -4), (40, -4))).expect("it runs beside the end of the base");
        assert_eq!(beside.stretch, [Length::inches(40), Length::inches(100)]);
        assert_eq!((beside.left, beside.same_way, beside.slack), (Length::inches(-4), false, Length::ZERO));
        assert_eq!(alongside(base, line((100, 3), (150, 3))), None, "it only starts where the base ends");
        assert_eq!(alongside(base, line((0, 3), (100, 4))), None, "not parallel");
        assert_eq!(alongside(base, line((7, 3), (7, 3))), None, "a point");
    }

    #[test]
    fn from_either_line_the_other_lies_as_far_away() {
        let (short, long) = (line((30, 40), (60, 80)), line((-304, -397), (296, 403)));
        for (base, other, left) in [(short, long, 5), (long, short, -5)] {
            let beside = alongside(base, other).expect("parallel, off the axes");
            assert_eq!((beside.left, beside.same_way, beside.slack), (Length::inches(left), true, OFF_AXIS_SLACK));
            assert_eq!(beside.stretch[1] - beside.stretch[0], Length::inches(50));
        }
    }
}
