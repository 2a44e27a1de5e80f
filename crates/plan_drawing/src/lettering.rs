use kurbo::{Affine, Point, Rect};

use crate::{Align, Lettering};

/// Height of capitals of the drawing's type family, in em.
///
/// Source: `sCapHeight` of the font files in `assets/fonts` (1433 to 1446 of 2000).
pub(crate) const CAPITALS: f64 = 0.72;

/// Advance widths from space to tilde in thousandths of an em.
///
/// Source: the `hmtx` table of the bold face in `assets/fonts`, the widest of the three. Kerning is left out.
#[rustfmt::skip]
const ADVANCES: [u16; 95] = [
    243, 281, 396, 580, 580, 820, 724, 212, 274, 274, 425, 580, 234, 373, 238, 466, 580, 580, 580, 580, 580, 580, 580,
    580, 580, 580, 258, 270, 580, 580, 580, 460, 844, 694, 658, 662, 760, 575, 566, 726, 770, 296, 430, 686, 520, 945,
    770, 808, 619, 808, 643, 548, 600, 742, 694, 1051, 670, 648, 606, 314, 466, 314, 580, 466, 400, 508, 568, 482, 568,
    534, 358, 528, 564, 254, 254, 534, 248, 838, 564, 574, 568, 568, 373, 440, 372, 564, 528, 802, 522, 528, 460, 306,
    261, 306, 580,
];

/// Advance of what the table does not hold, in thousandths of an em: that of figures and the multiplication sign.
const OTHER_ADVANCE: u16 = 580;

/// Estimated width of a text whose capitals are one unit high; seldom more than a few hundredths short or long.
pub(crate) fn width_per_height(text: &str) -> f64 {
    let advance = |letter: char| {
        let index = usize::try_from(u32::from(letter)).ok().and_then(|code| code.checked_sub(32));
        index.and_then(|index| ADVANCES.get(index)).copied().unwrap_or(OTHER_ADVANCE)
    };
    let thousandths: u32 = text.chars().map(|letter| u32::from(advance(letter))).sum();
    f64::from(thousandths) / 1000.0 / CAPITALS
}

impl Lettering {
    /// Estimated width of the text along its baseline, in plan inches.
    #[must_use]
    pub fn width(&self) -> f64 {
        width_per_height(&self.text) * self.height
    }

    /// Estimated rectangle around the text, square to the drawing; capitals only, without descenders.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let width = self.width();
        let left = match self.align {
            Align::Left => 0.0,
            Align::Centre => -width / 2.0,
            Align::Right => -width,
        };
        let flat = Rect::new(left, -self.height / 2.0, left + width, self.height / 2.0);
        let turn = Affine::translate(self.at.to_vec2()) * Affine::rotate(self.angle.to_radians());
        let corners = [(flat.x0, flat.y0), (flat.x1, flat.y0), (flat.x1, flat.y1), (flat.x0, flat.y1)];
        let mut turned = corners.map(|corner| turn * Point::from(corner)).into_iter();
        let first = turned.next().unwrap_or_default();
        turned.fold(Rect::from_points(first, first), |around, corner| around.union_pt(corner))
    }
}
