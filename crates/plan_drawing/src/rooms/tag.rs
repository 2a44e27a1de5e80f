use kurbo::Point;

use super::words::Words;
use crate::lettering::width_per_height;
use crate::{Align, Drawing, Face, Ink, Item, Lettering};

/// Height of a room's name, in heights of ordinary notes.
const NAME: f64 = 1.2;
/// Height of its figures.
const FIGURES: f64 = 0.92;
/// Between two lines, in heights of ordinary notes.
const LEADING: f64 = 0.62;
/// Kept free around a tag.
const MARGIN: f64 = 0.45;

/// No tag is narrower or lower than this, in heights of ordinary notes: one line of the smallest name.
pub(super) const LEAST: f64 = 0.7 * (NAME + 2.0 * MARGIN);

/// How much a tag says, how large, and which way it reads.
#[derive(Clone, Copy)]
pub(super) struct Layout {
    name: Lines,
    size: Lines,
    area: Lines,
    reads: Reads,
    scale: f64,
}

/// On how many lines a part of a tag stands.
#[derive(Clone, Copy, PartialEq)]
enum Lines {
    None,
    One,
    /// Two, where it can be parted.
    Two,
}

/// The way a tag reads.
#[derive(Clone, Copy, PartialEq)]
enum Reads {
    FromBelow,
    FromTheRight,
}

impl Layout {
    const WHOLE: Self =
        Self { name: Lines::One, size: Lines::One, area: Lines::One, reads: Reads::FromBelow, scale: 1.0 };
    const PARTED: Self = Self { name: Lines::Two, ..Self::WHOLE };
    const NARROW: Self = Self { size: Lines::Two, ..Self::PARTED };
    /// Everything, at most a little smaller.
    pub(super) const FULL: [Self; 5] = [
        Self::WHOLE,
        Self::PARTED,
        Self { scale: 0.88, ..Self::WHOLE },
        Self { scale: 0.88, ..Self::PARTED },
        Self { scale: 0.88, ..Self::NARROW },
    ];
    const SIZED: Self = Self { area: Lines::None, ..Self::WHOLE };
    const NAMED: Self = Self { size: Lines::None, ..Self::SIZED };
    const TURNED: Self = Self { reads: Reads::FromTheRight, ..Self::NAMED };
    /// Less and less.
    pub(super) const SHORTER: [Self; 13] = [
        Self::SIZED,
        Self { name: Lines::Two, ..Self::SIZED },
        Self { scale: 0.85, ..Self::SIZED },
        Self { name: Lines::Two, scale: 0.85, ..Self::SIZED },
        Self { name: Lines::Two, size: Lines::Two, scale: 0.85, ..Self::SIZED },
        Self { reads: Reads::FromTheRight, scale: 0.85, ..Self::SIZED },
        Self::NAMED,
        Self { name: Lines::Two, ..Self::NAMED },
        Self::TURNED,
        Self { scale: 0.85, ..Self::NAMED },
        Self { scale: 0.85, ..Self::TURNED },
        Self { scale: 0.7, ..Self::NAMED },
        Self { scale: 0.7, ..Self::TURNED },
    ];
    /// What may lie over hangers, shelves, swings and furniture.
    pub(super) const NAME_ONLY: [Self; 5] = [
        Self { scale: 0.85, ..Self::NAMED },
        Self { scale: 0.85, ..Self::TURNED },
        Self { scale: 0.7, ..Self::NAMED },
        Self { scale: 0.7, ..Self::TURNED },
        Self { name: Lines::Two, scale: 0.7, ..Self::NAMED },
    ];
}

/// A tag laid out: its lines from the top down with their heights.
pub(super) struct Tag<'a> {
    lines: Vec<(&'a str, f64, Face)>,
    leading: f64,
    /// Height of all lines with the leading between them.
    block: f64,
    /// Width and height of its box, margin included, as it stands on the drawing.
    pub(super) size: (f64, f64),
    reads: Reads,
}

impl<'a> Tag<'a> {
    pub(super) fn new(words: &'a Words, layout: Layout, lettering: f64) -> Self {
        let unit = lettering * layout.scale;
        let mut lines: Vec<(&str, f64, Face)> = Vec::new();
        let parts = [
            (layout.name, Some(&words.name), &words.parted_name, NAME, Face::Bold),
            (layout.size, words.size.as_ref(), &words.parted_size, FIGURES, Face::Regular),
            (layout.area, words.area.as_ref(), &None, FIGURES, Face::Regular),
        ];
        for (wanted, whole, parted, height, face) in parts {
            match (wanted, whole, parted) {
                (Lines::None, ..) | (_, None, _) => {}
                (Lines::Two, _, Some(parts)) => {
                    lines.extend(parts.iter().map(|part| (part.as_str(), height * unit, face)));
                }
                (_, Some(whole), _) => lines.push((whole, height * unit, face)),
            }
        }
        let leading = LEADING * unit;
        let width = lines.iter().map(|(text, height, _)| width_per_height(text) * height).fold(0.0, f64::max);
        let gaps = f64::from(u32::try_from(lines.len().saturating_sub(1)).unwrap_or(0));
        let block = lines.iter().map(|(_, height, _)| height).sum::<f64>() + leading * gaps;
        let (width, height) = (width + 2.0 * MARGIN * unit, block + 2.0 * MARGIN * unit);
        let size = match layout.reads {
            Reads::FromBelow => (width, height),
            Reads::FromTheRight => (height, width),
        };
        Self { lines, leading, block, size, reads: layout.reads }
    }

    pub(super) fn draw(self, drawing: &mut Drawing, middle: Point) {
        let mut top = self.block / 2.0;
        for (text, height, face) in self.lines {
            let down = top - height / 2.0;
            let (at, angle) = match self.reads {
                Reads::FromBelow => (Point::new(middle.x, middle.y + down), 0.0),
                Reads::FromTheRight => (Point::new(middle.x - down, middle.y), 90.0),
            };
            top -= height + self.leading;
            let (align, ink) = (Align::Centre, Ink::Lettering);
            drawing.items.push(Item::Text(Lettering { text: text.to_owned(), at, height, angle, face, align, ink }));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_turned_tag_swaps_its_sides() {
        let words = Words { name: "CLOSET".to_owned(), parted_name: None, size: None, parted_size: None, area: None };
        let (flat, turned) = (Tag::new(&words, Layout::NAMED, 4.5), Tag::new(&words, Layout::TURNED, 4.5));
        assert_eq!((flat.size.0, flat.size.1), (turned.size.1, turned.size.0));
    }
}
