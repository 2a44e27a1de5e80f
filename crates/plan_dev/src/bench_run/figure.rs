//! One line of the table.

use std::fmt;

/// What a figure counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unit {
    /// Millionths of a second.
    Microseconds,
    /// How many times as long.
    Times,
}

/// A measured or computed figure with its name.
#[derive(Debug, PartialEq)]
pub(crate) struct Figure {
    pub(crate) name: String,
    pub(crate) value: f64,
    unit: Unit,
}

impl Figure {
    pub(crate) fn new(name: impl Into<String>, value: f64, unit: Unit) -> Self {
        Self { name: name.into(), value, unit }
    }

    /// The same figure under another name.
    pub(crate) fn renamed(&self, name: &str) -> Self {
        Self::new(name, self.value, self.unit)
    }

    /// A time that a benchmark gave in billionths of a second.
    pub(crate) fn from_nanoseconds(name: impl Into<String>, nanoseconds: f64) -> Self {
        Self::new(name, nanoseconds / 1000.0, Unit::Microseconds)
    }
}

impl fmt::Display for Figure {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = match self.unit {
            Unit::Microseconds => "us",
            Unit::Times => "x",
        };
        write!(formatter, "{} {:.1} {unit}", self.name, self.value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_has_a_name_a_value_and_a_unit() {
        assert_eq!(Figure::from_nanoseconds("derive_home", 312_449.0).to_string(), "derive_home 312.4 us");
        assert_eq!(Figure::new("ratio", 24.54, Unit::Times).to_string(), "ratio 24.5 x");
    }
}
