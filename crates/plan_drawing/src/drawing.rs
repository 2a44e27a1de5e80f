use kurbo::{BezPath, Point, Rect, Shape};

use crate::shapes::joined;
use crate::{Align, Drawing, Face, Ink, Item, Lettering, Pen};

impl Drawing {
    /// The smallest rectangle around everything drawn, lettering included as far as its width can be estimated.
    /// None for an empty drawing.
    #[must_use]
    pub fn bounds(&self) -> Option<Rect> {
        joined(self.items.iter().filter_map(Item::bounds))
    }

    /// Lays another drawing over this one.
    pub fn append(&mut self, over: Self) {
        self.items.extend(over.items);
    }

    pub(crate) fn fill(&mut self, path: BezPath, ink: Ink) {
        self.items.push(Item::Fill { path, ink });
    }

    pub(crate) fn stroke(&mut self, path: BezPath, pen: Pen, ink: Ink) {
        if !path.elements().is_empty() {
            self.items.push(Item::Stroke { path, pen, ink });
        }
    }

    /// Centred, upright, in the regular face.
    pub(crate) fn note(&mut self, text: impl Into<String>, at: Point, height: f64, ink: Ink) {
        let (text, face, align) = (text.into(), Face::Regular, Align::Centre);
        self.items.push(Item::Text(Lettering { text, at, height, angle: 0.0, face, align, ink }));
    }
}

impl Item {
    /// The smallest rectangle around it, without the width of pens.
    pub(crate) fn bounds(&self) -> Option<Rect> {
        match self {
            Self::Fill { path, .. } | Self::Stroke { path, .. } => {
                (!path.elements().is_empty()).then(|| path.bounding_box())
            }
            Self::Text(lettering) => Some(lettering.bounds()),
        }
    }
}
