//! The map's key: samples of its regions and marks, with their words.

use egui::{Rect, Sense, Ui, WidgetInfo, pos2, vec2};

use crate::analysis::knives::Map;
use crate::app::areas::knives::inks::ink;
use crate::app::widgets::paint::{Painted, paper};
use crate::drawing::{MapKey, MapSetting, Theme};

/// What the hatches and the marks mean.
pub fn key_ui(ui: &mut Ui, map: &Map, settings: &[MapSetting], theme: Theme) {
    ui.horizontal_wrapped(|ui| {
        for key in MapKey::of(map, settings) {
            key_entry_ui(ui, key, theme);
        }
    });
}

/// A sample and its words, which no line break parts.
fn key_entry_ui(ui: &mut Ui, key: MapKey, theme: Theme) {
    const SAMPLE: egui::Vec2 = vec2(22.0, 16.0);
    let words = key.words();
    let font = egui::TextStyle::Body.resolve(ui.style());
    let galley = ui
        .painter()
        .layout_no_wrap(words.to_owned(), font, ink(theme));
    let size = vec2(
        SAMPLE.x + galley.size().x + 14.0,
        SAMPLE.y.max(galley.size().y),
    );
    let (place, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(egui::Role::Label, true, words));
    let corner = pos2(place.left(), place.center().y - SAMPLE.y / 2.0);
    let at = Rect::from_min_size(corner, SAMPLE);
    Painted::from_panel(&key.sample(paper(at), theme)).paint(ui.painter());
    let corner = pos2(at.right() + 6.0, place.center().y - galley.size().y / 2.0);
    ui.painter().galley(corner, galley, ink(theme));
}
