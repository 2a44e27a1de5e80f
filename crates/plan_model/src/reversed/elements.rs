//! The image of each kind of element.

use super::{Mirror, Reverse};
use crate::elements::{
    Ceiling, Column, Detector, Door, End, ExhaustFan, Fixture, Furniture, Landing, OpenBoundary, PlacedBy, Porch, Room,
    Soffit, Swing, Wall, Window,
};

impl Reverse for Wall {
    fn reverse(&mut self, mirror: Mirror) {
        self.from = mirror.point(self.from);
        self.to = mirror.point(self.to);
        self.placed_by = match self.placed_by {
            PlacedBy::Centre => PlacedBy::Centre,
            PlacedBy::LeftFace => PlacedBy::RightFace,
            PlacedBy::RightFace => PlacedBy::LeftFace,
        };
    }
}

impl Reverse for Door {
    /// It keeps its distance from the wall's `from` point, and with it the jamb that carries the hinges.
    fn reverse(&mut self, _: Mirror) {
        self.swing = self.swing.map(|swing| match swing {
            Swing::Left => Swing::Right,
            Swing::Right => Swing::Left,
        });
    }
}

impl Reverse for Window {
    /// It keeps its distance from the wall's `from` point.
    fn reverse(&mut self, _: Mirror) {}
}

impl Reverse for OpenBoundary {
    fn reverse(&mut self, mirror: Mirror) {
        self.from = mirror.point(self.from);
        self.to = mirror.point(self.to);
    }
}

impl Reverse for Column {
    fn reverse(&mut self, mirror: Mirror) {
        mirror.rectangle(&mut self.from, &mut self.to);
    }
}

impl Reverse for Room {
    fn reverse(&mut self, mirror: Mirror) {
        self.at = mirror.point(self.at);
    }
}

impl Reverse for Fixture {
    fn reverse(&mut self, mirror: Mirror) {
        self.at = mirror.point(self.at);
        self.faces = self.faces.mirrored();
        for bowl in &mut self.bowls {
            *bowl = self.width - *bowl;
        }
        self.bowls.reverse();
        self.drain = self.drain.map(|end| match end {
            End::Left => End::Right,
            End::Right => End::Left,
        });
    }
}

impl Reverse for Furniture {
    fn reverse(&mut self, mirror: Mirror) {
        self.at = mirror.point(self.at);
        self.faces = self.faces.mirrored();
    }
}

impl Reverse for Ceiling {
    fn reverse(&mut self, mirror: Mirror) {
        if let Some(slope) = &mut self.slope {
            // It still rises to the left of its low edge.
            (slope.from, slope.to) = (mirror.point(slope.to), mirror.point(slope.from));
        }
    }
}

impl Reverse for Soffit {
    fn reverse(&mut self, mirror: Mirror) {
        mirror.rectangle(&mut self.from, &mut self.to);
    }
}

impl Reverse for Detector {
    fn reverse(&mut self, mirror: Mirror) {
        self.at = mirror.point(self.at);
    }
}

impl Reverse for ExhaustFan {
    fn reverse(&mut self, mirror: Mirror) {
        self.at = mirror.point(self.at);
    }
}

impl Reverse for Landing {
    fn reverse(&mut self, mirror: Mirror) {
        mirror.rectangle(&mut self.from, &mut self.to);
    }
}

impl Reverse for Porch {
    fn reverse(&mut self, mirror: Mirror) {
        mirror.rectangle(&mut self.from, &mut self.to);
    }
}
