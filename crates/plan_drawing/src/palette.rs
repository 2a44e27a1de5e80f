use crate::Ink;

/// A colour: red, green, blue and opacity from 0 to 255, not premultiplied.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Rgba {
    /// Red.
    pub red: u8,
    /// Green.
    pub green: u8,
    /// Blue.
    pub blue: u8,
    /// 255 is opaque.
    pub alpha: u8,
}

impl Rgba {
    const fn opaque(rgb: u32) -> Self {
        let [_, red, green, blue] = rgb.to_be_bytes();
        Self { red, green, blue, alpha: 255 }
    }
}

impl Ink {
    /// Its value on warm paper.
    ///
    /// Corrections are a vermilion, cautions an ochre and measures a blue of clearly different lightness, so that they differ from each
    /// other and from the drawing's brown-black where red and green look alike; marks never rest on colour alone.
    #[must_use]
    pub const fn rgba(self) -> Rgba {
        match self {
            Self::Paper => Rgba::opaque(0xF5_EF_E3),
            Self::Floor => Rgba::opaque(0xFB_F8_F1),
            Self::Wall => Rgba::opaque(0x33_2D_28),
            Self::Object => Rgba::opaque(0x5B_51_48),
            Self::ObjectFill => Rgba::opaque(0xFF_FE_FA),
            Self::Furniture => Rgba::opaque(0xA8_9B_8A),
            Self::FurnitureFill => Rgba::opaque(0xF7_F2_E7),
            Self::Fine => Rgba::opaque(0x86_7A_6D),
            Self::Tile => Rgba::opaque(0xEC_E5_D8),
            Self::Dimension => Rgba::opaque(0x66_60_5A),
            Self::Lettering => Rgba::opaque(0x2B_26_22),
            Self::Outdoors => Rgba::opaque(0x9C_90_80),
            Self::OutdoorsFill => Rgba::opaque(0xEE_E6_D6),
            Self::Redline => Rgba::opaque(0xBE_2A_18),
            Self::RedlineWash => Rgba { alpha: 24, ..Rgba::opaque(0xBE_2A_18) },
            Self::Caution => Rgba::opaque(0x8F_5C_00),
            Self::CautionWash => Rgba { alpha: 24, ..Rgba::opaque(0x8F_5C_00) },
            Self::Measure => Rgba::opaque(0x1D_4F_8C),
            Self::MeasureWash => Rgba { alpha: 30, ..Rgba::opaque(0x1D_4F_8C) },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Contrast of two opaque colours from 1 to 21.
    ///
    /// Source: WCAG 2.1, definitions of relative luminance and contrast ratio.
    fn contrast(one: Ink, other: Ink) -> f64 {
        let luminance = |ink: Ink| {
            let Rgba { red, green, blue, .. } = ink.rgba();
            let linear = |value: u8| {
                let value = f64::from(value) / 255.0;
                if value <= 0.03928 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
            };
            0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue)
        };
        let (a, b) = (luminance(one), luminance(other));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn lettering_is_readable_on_paper_and_floor() {
        /// Source: WCAG 2.1 success criterion 1.4.3, level AA.
        const READABLE: f64 = 4.5;
        let inks = [Ink::Lettering, Ink::Dimension, Ink::Object, Ink::Redline, Ink::Caution, Ink::Measure];
        for (ink, ground) in inks.into_iter().flat_map(|ink| [(ink, Ink::Paper), (ink, Ink::Floor)]) {
            assert!(contrast(ink, ground) >= READABLE, "{ink:?} on {ground:?}: {:.2}", contrast(ink, ground));
        }
    }

    #[test]
    fn washes_let_the_drawing_through() {
        assert!([Ink::RedlineWash, Ink::CautionWash, Ink::MeasureWash].iter().all(|wash| wash.rgba().alpha < 64));
    }
}
