//! How widgets look: neutral slate around the drawing, the bundled fonts, sizes that read well.

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::epaint::Shadow;
use egui::{
    Color32, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Margin, Stroke,
    TextStyle, Vec2, Visuals,
};

use super::lettering::{Lettering, strong};
use super::typed_ahead::TypedAhead;
use crate::drawing::{Rgb, Role, Theme, fonts};

/// The theme that the window is shown in.
pub fn theme(ctx: &egui::Context) -> Theme {
    match ctx.theme() {
        egui::Theme::Dark => Theme::Dark,
        egui::Theme::Light => Theme::Light,
    }
}

/// A drawing's colour on the screen.
pub fn colour(rgb: Rgb) -> Color32 {
    let [r, g, b] = rgb.rgb;
    Color32::from_rgba_unmultiplied(r, g, b, rgb.opacity)
}

/// The ring around the widget that has the keys: of no other use, and seen from two metres.
pub fn ring(theme: egui::Theme) -> Color32 {
    match theme {
        egui::Theme::Light => Color32::from_rgb(0x0B, 0x46, 0xC8),
        egui::Theme::Dark => Color32::from_rgb(0xFF, 0xD2, 0x3F),
    }
}

/// Neutral tones of the form around the drawing.
struct Tones {
    panel: Color32,
    field: Color32,
    line: Color32,
    raised: Color32,
    hovered: Color32,
    text: Color32,
    weak: Color32,
    accent: Color32,
    on_accent: Color32,
}

fn tones(theme: Theme) -> Tones {
    let ink = colour(theme.look(Role::Heading).ink);
    let weak = colour(theme.look(Role::Note).ink);
    let accent = colour(theme.look(Role::CutLine).ink);
    match theme {
        Theme::Light | Theme::Print => Tones {
            panel: Color32::from_rgb(0xF0, 0xF2, 0xF3),
            field: Color32::from_rgb(0xFE, 0xFE, 0xFD),
            line: Color32::from_rgb(0xBD, 0xC5, 0xCC),
            raised: Color32::from_rgb(0xDD, 0xE2, 0xE6),
            hovered: Color32::from_rgb(0xCF, 0xD7, 0xDD),
            text: ink,
            weak,
            accent,
            on_accent: Color32::WHITE,
        },
        Theme::Dark => Tones {
            panel: Color32::from_rgb(0x1E, 0x23, 0x29),
            field: Color32::from_rgb(0x12, 0x16, 0x1A),
            line: Color32::from_rgb(0x47, 0x52, 0x5D),
            raised: Color32::from_rgb(0x33, 0x3C, 0x45),
            hovered: Color32::from_rgb(0x43, 0x4E, 0x59),
            text: ink,
            weak,
            accent,
            on_accent: Color32::from_rgb(0x10, 0x16, 0x1B),
        },
    }
}

fn visuals(theme: Theme) -> Visuals {
    let tones = tones(theme);
    let mut visuals = match theme {
        Theme::Light | Theme::Print => Visuals::light(),
        Theme::Dark => Visuals::dark(),
    };
    visuals.panel_fill = tones.panel;
    visuals.window_fill = tones.panel;
    visuals.extreme_bg_color = tones.field;
    visuals.text_edit_bg_color = Some(tones.field);
    visuals.faint_bg_color = tones.raised.gamma_multiply(0.5);
    visuals.window_stroke = Stroke::new(1.0, tones.line);
    visuals.window_corner_radius = CornerRadius::same(6);
    visuals.menu_corner_radius = CornerRadius::same(5);
    visuals.window_shadow = Shadow {
        offset: [0, 4],
        blur: 18,
        spread: 0,
        color: Color32::from_black_alpha(70),
    };
    visuals.popup_shadow = Shadow {
        offset: [0, 2],
        blur: 8,
        spread: 0,
        color: Color32::from_black_alpha(60),
    };
    visuals.weak_text_color = Some(tones.weak);
    visuals.hyperlink_color = tones.accent;
    visuals.selection.bg_fill = tones.accent;
    visuals.selection.stroke = Stroke::new(1.5, tones.on_accent);
    visuals.slider_trailing_fill = true;
    // A cursor that blinks has the whole window drawn anew each time.
    visuals.text_cursor.blink = false;
    let widgets = &mut visuals.widgets;
    widgets.noninteractive.bg_stroke = Stroke::new(1.0, tones.line);
    widgets.noninteractive.fg_stroke = Stroke::new(1.0, tones.text);
    for (state, fill) in [
        (&mut widgets.inactive, tones.raised),
        (&mut widgets.hovered, tones.hovered),
        (&mut widgets.active, tones.hovered),
        (&mut widgets.open, tones.hovered),
    ] {
        state.bg_fill = fill;
        state.weak_bg_fill = fill;
        state.bg_stroke = Stroke::new(1.0, tones.line);
        state.fg_stroke = Stroke::new(1.4, tones.text);
        state.corner_radius = CornerRadius::same(4);
    }
    widgets.hovered.bg_stroke = Stroke::new(1.2, tones.accent);
    widgets.active.bg_stroke = Stroke::new(1.6, tones.accent);
    visuals
}

/// Gives a window its fonts, sizes and colours, and a keyboard that may be typed on without a pause.
pub fn dress(ctx: &egui::Context) {
    let mut definitions = FontDefinitions::default();
    for (name, bytes) in [("regular", fonts::REGULAR), ("semibold", fonts::SEMIBOLD)] {
        definitions
            .font_data
            .insert(name.to_owned(), Arc::new(FontData::from_static(bytes)));
    }
    let fallbacks = definitions
        .families
        .get(&FontFamily::Proportional)
        .cloned()
        .unwrap_or_default();
    let family = |first: &str| {
        std::iter::once(first.to_owned())
            .chain(fallbacks.clone())
            .collect()
    };
    definitions.families.insert(strong(), family("semibold"));
    definitions
        .families
        .insert(FontFamily::Proportional, family("regular"));
    ctx.set_fonts(definitions);
    ctx.add_plugin(TypedAhead::default());
    // Where the desktop does not say, light: it reads better in a workshop.
    ctx.options_mut(|options| {
        options.fallback_theme = egui::Theme::Light;
        // Scales are chosen in steps, and remembered.
        options.zoom_with_keyboard = false;
    });
    let text_styles: BTreeMap<_, _> = [
        (TextStyle::Small, Lettering::Label.font()),
        (TextStyle::Body, Lettering::Body.font()),
        (TextStyle::Button, Lettering::Body.font()),
        (
            TextStyle::Monospace,
            FontId::new(Lettering::Note.font().size, FontFamily::Monospace),
        ),
        (TextStyle::Heading, Lettering::Heading.font()),
    ]
    .into();
    for (theme, drawn) in [
        (egui::Theme::Light, Theme::Light),
        (egui::Theme::Dark, Theme::Dark),
    ] {
        ctx.style_mut_of(theme, |style| {
            style.visuals = visuals(drawn);
            style.text_styles.clone_from(&text_styles);
            style.spacing.interact_size.y = 26.0;
            style.spacing.item_spacing = Vec2::new(8.0, 5.0);
            style.spacing.button_padding = Vec2::new(8.0, 3.0);
            style.spacing.window_margin = Margin::same(14);
            style.spacing.tooltip_width = 380.0;
            style.interaction.tooltip_delay = 0.35;
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::widgets::focus::RING_WIDTH;

    /// Contrast ratio by WCAG 2.2, <https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio>.
    fn contrast(a: Color32, b: Color32) -> f32 {
        let luminance = |colour: Color32| {
            let [red, green, blue, _] = egui::Rgba::from(colour).to_array();
            0.2126 * red + 0.7152 * green + 0.0722 * blue
        };
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// WCAG 2.2, 2.4.13 asks for two pixels and a contrast of 3 to 1; from two metres it takes more.
    #[test]
    fn the_ring_stands_out_from_whatever_it_is_drawn_over() {
        const { assert!(RING_WIDTH >= 3.0) };
        for (theme, drawn) in [
            (egui::Theme::Light, Theme::Light),
            (egui::Theme::Dark, Theme::Dark),
        ] {
            let tones = tones(drawn);
            let paper = colour(drawn.look(Role::Paper).fill);
            for ground in [tones.panel, tones.field, tones.raised, tones.hovered, paper] {
                let ratio = contrast(ring(theme), ground);
                assert!(ratio >= 4.5, "{theme:?}: {ratio} over {ground:?}");
            }
        }
    }

    /// WCAG 2.2, 1.4.3 asks for 4.5 to 1 for words, hints of empty fields and fine print among them.
    #[test]
    fn no_words_of_the_window_are_grey_on_grey() {
        for theme in [Theme::Light, Theme::Dark] {
            let tones = tones(theme);
            for ground in [tones.panel, tones.field, tones.raised] {
                for ink in [tones.text, tones.weak] {
                    let ratio = contrast(ink, ground);
                    assert!(ratio >= 4.5, "{theme:?}: {ink:?} over {ground:?}, {ratio}");
                }
            }
            let ratio = contrast(tones.on_accent, tones.accent);
            assert!(ratio >= 4.5, "{theme:?}: a choice, {ratio}");
        }
    }
}
