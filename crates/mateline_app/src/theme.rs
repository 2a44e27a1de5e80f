//! Type and colours of the window: the drawing's own, so that screen and paper look alike.

use std::sync::Arc;

use egui::style::{ScrollStyle, Selection, WidgetVisuals};
use egui::{
    Color32, Context, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Frame, Galley, Margin, Shadow,
    Stroke,
};
use egui::{TextStyle, Theme, Vec2, Visuals};
use plan_drawing::{Face, Ink, Rgba};

const REGULAR: &str = "Lato";
const BOLD: &str = "Lato Bold";
const ITALIC: &str = "Lato Italic";

/// Height of Lato's capitals as a part of its size: 1433 of 2000 units, as the font files say.
const CAPITALS: f32 = 1433.0 / 2000.0;

/// Size of text in lists and buttons, in screen points.
pub(crate) const BODY: f32 = 15.0;
/// Size of secondary text.
pub(crate) const SMALL: f32 = 13.0;
/// Size of headings.
pub(crate) const HEADING: f32 = 17.0;
/// Size of the plan's name and its leading figures.
pub(crate) const TITLE: f32 = 19.0;

/// Installs fonts, colours and spacing.
pub(crate) fn install(context: &Context) {
    context.set_fonts(fonts());
    // Paper is paper: a desktop in dark colours does not change the drawing.
    context.set_theme(Theme::Light);
    context.all_styles_mut(|style| {
        style.text_styles = [
            (TextStyle::Heading, FontId::new(HEADING, bold())),
            (TextStyle::Body, FontId::new(BODY, FontFamily::Proportional)),
            (TextStyle::Button, FontId::new(BODY, FontFamily::Proportional)),
            (TextStyle::Monospace, FontId::new(BODY, FontFamily::Proportional)),
            (TextStyle::Small, FontId::new(SMALL, FontFamily::Proportional)),
        ]
        .into();
        style.spacing.item_spacing = Vec2::new(8.0, 6.0);
        style.spacing.button_padding = Vec2::new(10.0, 6.0);
        style.spacing.interact_size.y = 30.0;
        style.spacing.window_margin = Margin::same(20);
        style.spacing.menu_margin = Margin::same(8);
        // A bar that is always there where there is more: nobody has to find it by pointing.
        style.spacing.scroll = ScrollStyle {
            floating_allocated_width: 9.0,
            bar_width: 7.0,
            floating_width: 4.0,
            dormant_handle_opacity: 0.45,
            dormant_background_opacity: 0.0,
            ..ScrollStyle::floating()
        };
        style.animation_time = 0.0;
        style.visuals = visuals();
    });
}

fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::empty();
    let files: [(&str, &'static [u8]); 3] = [
        (REGULAR, include_bytes!("../../../assets/fonts/Lato-Regular.ttf")),
        (BOLD, include_bytes!("../../../assets/fonts/Lato-Bold.ttf")),
        (ITALIC, include_bytes!("../../../assets/fonts/Lato-Italic.ttf")),
    ];
    for (name, bytes) in files {
        fonts.font_data.insert(name.to_owned(), Arc::new(FontData::from_static(bytes)));
    }
    for (family, name) in
        [(FontFamily::Proportional, REGULAR), (FontFamily::Monospace, REGULAR), (bold(), BOLD), (italic(), ITALIC)]
    {
        fonts.families.insert(family, vec![name.to_owned()]);
    }
    fonts
}

/// The bold face.
#[must_use]
pub(crate) fn bold() -> FontFamily {
    FontFamily::Name(BOLD.into())
}

fn italic() -> FontFamily {
    FontFamily::Name(ITALIC.into())
}

/// The face of a drawing's lettering.
#[must_use]
pub(crate) fn face(face: Face) -> FontFamily {
    match face {
        Face::Regular => FontFamily::Proportional,
        Face::Bold => bold(),
        Face::Italic => italic(),
    }
}

/// The size of type whose capitals are so high, in quarters of a point: zooming then reuses most of its letters.
#[must_use]
pub(crate) fn size_for_capitals(height: f32) -> f32 {
    (height / CAPITALS * 4.0).round() / 4.0
}

/// From the top of one line of text down to the middle of its capitals; `size` is that of the type.
#[must_use]
pub(crate) fn middle_of_capitals(galley: &Galley, size: f32) -> f32 {
    let baseline = galley.rows.first().map_or(0.0, |row| row.pos.y + row.glyphs.first().map_or(0.0, |g| g.pos.y));
    baseline - size * CAPITALS / 2.0
}

/// The colour of a drawing's ink.
#[must_use]
pub(crate) fn ink(ink: Ink) -> Color32 {
    let Rgba { red, green, blue, alpha } = ink.rgba();
    Color32::from_rgba_unmultiplied(red, green, blue, alpha)
}

/// What can be chosen or grasped, and what is chosen.
pub(crate) const ACCENT: Color32 = Color32::from_rgb(0x2f, 0x5d, 0x62);
/// A thin wash of it.
pub(crate) const ACCENT_WASH: Color32 = Color32::from_rgb(0xdc, 0xe6, 0xe2);
/// Text.
pub(crate) const TEXT: Color32 = Color32::from_rgb(0x2b, 0x28, 0x24);
/// Secondary text; 4.5 to 1 and better on every ground used here.
pub(crate) const QUIET: Color32 = Color32::from_rgb(0x66, 0x5f, 0x56);
/// A figure that does not count at the moment.
pub(crate) const FAINT: Color32 = Color32::from_rgb(0x8d, 0x86, 0x7b);
/// The ground of bars and panels.
pub(crate) const PANEL: Color32 = Color32::from_rgb(0xf3, 0xee, 0xe4);
/// The ground of tags and pop-up lists.
pub(crate) const CARD: Color32 = Color32::from_rgb(0xfd, 0xfb, 0xf6);
/// Rules between parts of a panel.
pub(crate) const RULE: Color32 = Color32::from_rgb(0xd8, 0xcf, 0xbf);

/// The frame of a question that stands in the way of everything else.
pub(crate) fn modal(context: &Context) -> Frame {
    Frame::popup(&context.global_style()).inner_margin(Margin::same(24))
}

fn visuals() -> Visuals {
    let widget = |fill: Color32, edge: Color32, text: Color32| WidgetVisuals {
        bg_fill: fill,
        weak_bg_fill: fill,
        bg_stroke: Stroke::new(1.0, edge),
        corner_radius: CornerRadius::same(3),
        fg_stroke: Stroke::new(1.0, text),
        expansion: 0.0,
    };
    let mut visuals = Visuals::light();
    visuals.widgets.noninteractive = widget(PANEL, RULE, TEXT);
    visuals.widgets.inactive = widget(CARD, RULE, TEXT);
    visuals.widgets.hovered = widget(ACCENT_WASH, ACCENT, TEXT);
    visuals.widgets.active = widget(ACCENT_WASH, ACCENT, TEXT);
    visuals.widgets.open = widget(ACCENT_WASH, ACCENT, TEXT);
    visuals.selection = Selection { bg_fill: ACCENT_WASH, stroke: Stroke::new(1.5, ACCENT) };
    visuals.override_text_color = None;
    visuals.weak_text_color = Some(QUIET);
    visuals.hyperlink_color = ACCENT;
    visuals.extreme_bg_color = CARD;
    visuals.panel_fill = PANEL;
    visuals.window_fill = CARD;
    visuals.window_stroke = Stroke::new(1.0, RULE);
    visuals.window_corner_radius = CornerRadius::same(4);
    visuals.menu_corner_radius = CornerRadius::same(4);
    let shadow = Shadow { offset: [0, 3], blur: 12, spread: 0, color: Color32::from_black_alpha(40) };
    // A blinking cursor would draw the whole window twice a second.
    visuals.text_cursor.blink = false;
    visuals.window_shadow = shadow;
    visuals.popup_shadow = shadow;
    visuals
}
