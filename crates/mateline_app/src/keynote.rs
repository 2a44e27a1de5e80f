//! The letters under which choices are found on the plan: the same on their marks and in the list beside it.

use egui::{Color32, FontId, Painter, Pos2, Rect, Stroke, Vec2};
use plan_drawing::Ink;
use plan_model::{Id, Plan};

use crate::theme;

/// The side of a mark, in screen points.
pub(crate) const SIDE: f32 = 22.0;

/// The letter of a choice that changes a place of the plan: A for the first, AA after Z.
pub(crate) fn letter(plan: &Plan, choice: &Id) -> Option<String> {
    let mut placed = plan.choices.iter().filter(|choice| choice.at.is_some());
    placed.position(|placed| placed.id == *choice).map(nth)
}

fn nth(index: usize) -> String {
    let (turn, letter) = (index / 26, index % 26);
    let letter = char::from(b'A' + u8::try_from(letter).unwrap_or(0));
    if turn == 0 { letter.to_string() } else { format!("{}{letter}", nth(turn - 1)) }
}

/// How a mark looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Look {
    /// At rest.
    Plain,
    /// Pointed at, or its list is open.
    Lit,
    /// Its answer does not fit: ochre, and framed twice as heavily.
    InConflict,
}

impl Look {
    pub(crate) const fn ground(self) -> Color32 {
        match self {
            Self::Plain | Self::InConflict => theme::CARD,
            Self::Lit => theme::ACCENT_WASH,
        }
    }

    pub(crate) fn frame(self) -> Stroke {
        match self {
            Self::Plain | Self::Lit => Stroke::new(1.5, theme::ACCENT),
            Self::InConflict => Stroke::new(3.0, theme::ink(Ink::Caution)),
        }
    }
}

/// Draws a mark about its middle: a square with rounded corners, unlike the rings of redlines.
pub(crate) fn paint(painter: &Painter, middle: Pos2, letter: &str, look: Look) {
    const SIZE: f32 = 13.0;
    let rect = Rect::from_center_size(middle, Vec2::splat(SIDE));
    let frame = look.frame();
    painter.rect(rect, 5.0, look.ground(), frame, egui::StrokeKind::Inside);
    let galley = painter.layout_no_wrap(letter.to_owned(), FontId::new(SIZE, theme::bold()), frame.color);
    let corner = middle - Vec2::new(galley.size().x / 2.0, theme::middle_of_capitals(&galley, SIZE));
    painter.galley(corner, galley, frame.color);
}

#[cfg(test)]
mod tests {
    #[test]
    fn letters_go_on_after_z() {
        assert_eq!([0, 1, 25, 26, 27, 51, 52].map(super::nth), ["A", "B", "Z", "AA", "AB", "AZ", "BA"]);
    }
}
