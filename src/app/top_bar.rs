//! The bar along the top: files, units, light and dark, help.

use egui::{Button, RichText, Ui};

use super::files::{Asking, NEW, OPEN, SAVE, SAVE_AS};
use super::look::{colour, strong};
use super::path_card::PathCard;
use super::{App, Area, Notice};
use crate::analysis::Level;
use crate::units::System;

impl App {
    /// The bar.
    pub(super) fn top_bar_ui(&mut self, ui: &mut Ui) {
        ui.add_space(3.0);
        ui.horizontal(|ui| {
            ui.menu_button("File", |ui| self.file_menu_ui(ui));
            ui.selectable_value(&mut self.area, Area::Unit, "Unit")
                .on_hover_text("The unit on screen");
            ui.selectable_value(&mut self.area, Area::Knives, "Knives")
                .on_hover_text("Compare knives before ordering");
            ui.selectable_value(&mut self.area, Area::Why, "Why")
                .on_hover_text("Why it marks the turf, and what each adjustment would do");
            ui.selectable_value(&mut self.area, Area::BladePath, "Blade path")
                .on_hover_text("Clips, and the blades' path over the ground");
            ui.separator();
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                if ui
                    .button("About")
                    .on_hover_text("Cautions, what the numbers mean, limits of the model")
                    .clicked()
                {
                    self.is_about_open = true;
                }
                if ui
                    .button("First steps")
                    .on_hover_text("The card of the first start")
                    .clicked()
                {
                    self.is_start_card_open = true;
                }
                ui.separator();
                self.theme_ui(ui);
                ui.separator();
                self.system_ui(ui);
                // What room is left between both ends is the name's.
                ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                    self.unit_name_ui(ui);
                });
            });
        });
        ui.add_space(2.0);
    }

    /// The unit's name, as much of it as there is room for, and whether it wants saving.
    fn unit_name_ui(&self, ui: &mut Ui) {
        let unit = &self.session.document.name;
        let text = if self.has_unsaved() {
            format!("• {unit}, unsaved changes")
        } else {
            unit.clone()
        };
        let label = egui::Label::new(RichText::new(text).family(strong())).truncate();
        let kept = match &self.session.file {
            Some(file) => file.display().to_string(),
            None => "Not saved in a file yet".to_owned(),
        };
        ui.add(label).on_hover_text(kept);
    }

    fn file_menu_ui(&mut self, ui: &mut Ui) {
        let item = |ui: &mut Ui, name: &str, shortcut: &egui::KeyboardShortcut| {
            let shown = ui.ctx().format_shortcut(shortcut);
            ui.add(Button::new(name).shortcut_text(shown)).clicked()
        };
        if item(ui, "New", &NEW) {
            ui.close();
            self.ask_first(Asking::New);
        }
        if item(ui, "Open…", &OPEN) {
            ui.close();
            self.ask_first(Asking::Choose);
        }
        ui.menu_button("Recent", |ui| {
            if self.preferences.recent.is_empty() {
                ui.label("None yet");
            }
            for file in self.preferences.recent.clone() {
                let name = file
                    .file_name()
                    .map_or_else(String::new, |n| n.to_string_lossy().into_owned());
                if ui
                    .button(name)
                    .on_hover_text(file.display().to_string())
                    .clicked()
                {
                    ui.close();
                    self.ask_first(Asking::Open(file));
                }
            }
        });
        if ui.button("Open a path…").clicked() {
            ui.close();
            self.path_card = Some(PathCard {
                text: String::new(),
                is_saving: false,
                has_begun: false,
            });
        }
        ui.separator();
        if item(ui, "Save", &SAVE) {
            ui.close();
            self.save_file();
        }
        if item(ui, "Save as…", &SAVE_AS) {
            ui.close();
            self.save_as();
        }
        if ui.button("Save to a path…").clicked() {
            ui.close();
            let file = self.session.file.as_ref();
            let text = file.map_or_else(String::new, |file| file.display().to_string());
            self.path_card = Some(PathCard {
                text,
                is_saving: true,
                has_begun: false,
            });
        }
    }

    fn system_ui(&mut self, ui: &mut Ui) {
        // Laid out from the right, so the last comes first.
        let mut system = self.system();
        for offered in System::ALL.into_iter().rev() {
            ui.selectable_value(&mut system, offered, offered.name());
        }
        if system != self.system() {
            self.preferences.system = Some(system);
        }
        ui.label(RichText::new("Units").weak());
    }

    fn theme_ui(&mut self, ui: &mut Ui) {
        let is_dark = ui.ctx().theme() == egui::Theme::Dark;
        for (name, dark) in [("Dark", true), ("Light", false)] {
            if ui.selectable_label(is_dark == dark, name).clicked() {
                self.preferences.is_dark = Some(dark);
                ui.ctx().set_theme(if dark {
                    egui::Theme::Dark
                } else {
                    egui::Theme::Light
                });
            }
        }
    }

    /// What was last told, over the bottom of the window, so that nothing moves under the hand.
    pub(super) fn notice_ui(&mut self, ctx: &egui::Context) {
        let solved = self.session.good().map(|good| good.id);
        let is_old = |notice: &mut Notice| {
            let told_at = notice.solved.or(solved);
            notice.solved = told_at;
            !notice.is_problem && told_at != solved
        };
        if self.notice.as_mut().is_some_and(is_old) {
            self.notice = None;
        }
        let Some(notice) = self.notice.clone() else {
            return;
        };
        let theme = Self::theme(ctx);
        let ink = if notice.is_problem {
            colour(theme.level(Level::Over))
        } else {
            colour(theme.look(crate::drawing::Role::CutLine).ink)
        };
        let area = egui::Area::new(egui::Id::unique("notice"))
            .anchor(egui::Align2::CENTER_BOTTOM, egui::vec2(0.0, -14.0))
            .order(egui::Order::Foreground);
        area.show(ctx, |ui| {
            let frame = egui::Frame::popup(ui.style());
            frame
                .stroke(egui::Stroke::new(2.0, ink))
                .inner_margin(10.0)
                .show(ui, |ui| {
                    ui.set_max_width(720.0);
                    ui.horizontal(|ui| {
                        if notice.is_problem {
                            let size = egui::Vec2::splat(16.0);
                            let (place, _) = ui.allocate_exact_size(size, egui::Sense::hover());
                            super::field::symbol(ui, place, Level::Over, theme);
                        }
                        if ui.small_button("Put away").clicked() {
                            self.notice = None;
                        }
                        ui.add(egui::Label::new(notice.text).wrap());
                    });
                });
        });
    }
}
