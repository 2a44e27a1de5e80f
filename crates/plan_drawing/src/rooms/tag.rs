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
/// Kept free around one in the smallest rooms.
const LEAST_MARGIN: f64 = 0.28;

/// No tag is narrower or lower than this, in heights of ordinary notes: one line of the smallest name.
pub(super) const LEAST: f64 = 0.7 * (NAME + 2.0 * LEAST_MARGIN);

/// How much a tag says, how large, and which way it reads.
#[derive(Clone, Copy)]
pub(super) struct Layout {
    name: Lines,
    size: Lines,
    area: Lines,
    reads: Reads,
    scale: f64,
    /// Kept free around it, in heights of its own ordinary notes.
    margin: f64,
}

/// On how many lines a part of a tag stands.
#[derive(Clone, Copy, PartialEq)]
enum Lines {
    None,
    One,
    /// Two, where it can be parted.
    Two,
    /// The abbreviation of a name.
    Short,
}

/// The way a tag reads.
#[derive(Clone, Copy, PartialEq)]
enum Reads {
    FromBelow,
    FromTheRight,
}

impl Layout {
    const WHOLE: Self = Self {
        name: Lines::One,
        size: Lines::One,
        area: Lines::One,
        reads: Reads::FromBelow,
        scale: 1.0,
        margin: MARGIN,
    };
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
    const WITH_SIZE: Self = Self { area: Lines::None, ..Self::WHOLE };
    const SMALL: Self = Self { scale: 0.7, margin: LEAST_MARGIN, ..Self::WITH_SIZE };
    /// Without the area.
    pub(super) const SIZED: [Self; 6] = [
        Self::WITH_SIZE,
        Self { name: Lines::Two, ..Self::WITH_SIZE },
        Self { scale: 0.85, ..Self::WITH_SIZE },
        Self { name: Lines::Two, scale: 0.85, ..Self::WITH_SIZE },
        Self { name: Lines::Two, size: Lines::Two, scale: 0.85, ..Self::WITH_SIZE },
        Self { reads: Reads::FromTheRight, scale: 0.85, ..Self::WITH_SIZE },
    ];
    /// Without the area, so small that little furniture is covered.
    pub(super) const SIZED_OVER: [Self; 4] = [
        Self { scale: 0.85, ..Self::WITH_SIZE },
        Self { name: Lines::Two, scale: 0.85, ..Self::WITH_SIZE },
        Self { name: Lines::Two, size: Lines::Two, scale: 0.85, ..Self::WITH_SIZE },
        Self { reads: Reads::FromTheRight, scale: 0.85, ..Self::WITH_SIZE },
    ];
    /// Without the area, as small as can be read, then with the name abbreviated.
    pub(super) const SMALL_SIZED: [Self; 7] = [
        Self::SMALL,
        Self { name: Lines::Two, ..Self::SMALL },
        Self { name: Lines::Two, size: Lines::Two, ..Self::SMALL },
        Self { reads: Reads::FromTheRight, ..Self::SMALL },
        Self { name: Lines::Short, ..Self::SMALL },
        Self { name: Lines::Short, size: Lines::Two, ..Self::SMALL },
        Self { name: Lines::Short, reads: Reads::FromTheRight, ..Self::SMALL },
    ];
    const NAME_ALONE: Self = Self { size: Lines::None, ..Self::WITH_SIZE };
    const TURNED: Self = Self { reads: Reads::FromTheRight, ..Self::NAME_ALONE };
    /// The name alone.
    pub(super) const NAMED: [Self; 9] = [
        Self::NAME_ALONE,
        Self { name: Lines::Two, ..Self::NAME_ALONE },
        Self::TURNED,
        Self { scale: 0.85, ..Self::NAME_ALONE },
        Self { name: Lines::Two, scale: 0.85, ..Self::NAME_ALONE },
        Self { scale: 0.85, ..Self::TURNED },
        Self { scale: 0.7, margin: LEAST_MARGIN, ..Self::NAME_ALONE },
        Self { name: Lines::Two, scale: 0.7, margin: LEAST_MARGIN, ..Self::NAME_ALONE },
        Self { scale: 0.7, margin: LEAST_MARGIN, ..Self::TURNED },
    ];
    const SHORT_NAME: Self = Self { name: Lines::Short, ..Self::NAME_ALONE };
    const SHORT_TURNED: Self = Self { name: Lines::Short, ..Self::TURNED };
    /// The abbreviation alone.
    pub(super) const SHORT: [Self; 6] = [
        Self::SHORT_NAME,
        Self::SHORT_TURNED,
        Self { scale: 0.85, ..Self::SHORT_NAME },
        Self { scale: 0.85, ..Self::SHORT_TURNED },
        Self { scale: 0.7, margin: LEAST_MARGIN, ..Self::SHORT_NAME },
        Self { scale: 0.7, margin: LEAST_MARGIN, ..Self::SHORT_TURNED },
    ];
    /// Beside the room, where a leader says which room is meant.
    pub(super) const BESIDE: Self = Self { scale: 0.7, ..Self::NAME_ALONE };
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
                (Lines::Short, ..) => lines.push((&words.short_name, height * unit, face)),
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
        let (width, height) = (width + 2.0 * layout.margin * unit, block + 2.0 * layout.margin * unit);
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
        let words = Words {
            name: "CLOSET".to_owned(),
            parted_name: None,
            short_name: "CL".to_owned(),
            size: None,
            parted_size: None,
            area: None,
            says: super::super::words::Says::Name,
        };
        let (flat, turned) = (Tag::new(&words, Layout::NAME_ALONE, 4.5), Tag::new(&words, Layout::TURNED, 4.5));
        assert_eq!((flat.size.0, flat.size.1), (turned.size.1, turned.size.0));
    }
}
