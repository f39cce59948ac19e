//! The bar along the top: files, areas, units, light and dark, help.

use egui::{Button, Context, KeyboardShortcut, Modifiers, RichText, Ui};

use super::about::AboutCard;
use super::edit_menu::edit_menu_ui;
use super::start_card::StartCard;
use crate::app::areas::{About, Areas};
use crate::app::desk::Desk;
use crate::app::files::{Asking, NEW, OPEN, PathCard, SAVE, SAVE_AS, ask_first, save, save_as};
use crate::app::widgets::lettering::strong;
use crate::units::System;

/// The bar.
pub fn top_bar_ui(ui: &mut Ui, desk: &mut Desk, areas: &mut Areas) {
    ui.add_space(3.0);
    ui.horizontal(|ui| {
        ui.menu_button("File", |ui| file_menu_ui(ui, desk));
        edit_menu_ui(ui, desk);
        areas_ui(ui, areas);
        ui.separator();
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if ui
                .button("About")
                .on_hover_text("Cautions, what the numbers mean, limits of the model")
                .clicked()
            {
                desk.open_card(AboutCard);
            }
            if ui
                .button("First steps")
                .on_hover_text("The card of the first start")
                .clicked()
            {
                desk.open_card(StartCard);
            }
            ui.separator();
            theme_ui(ui, desk);
            ui.separator();
            system_ui(ui, desk);
            // What room is left between both ends is the name's.
            ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                unit_name_ui(ui, desk);
            });
        });
    });
    ui.add_space(2.0);
}

/// The unit's name, as much of it as there is room for, and whether it wants saving.
fn unit_name_ui(ui: &mut Ui, desk: &Desk) {
    let unit = &desk.document().name;
    let text = if desk.has_unsaved() {
        format!("• {unit}, unsaved changes")
    } else {
        unit.clone()
    };
    let label = egui::Label::new(RichText::new(text).family(strong())).truncate();
    let kept = match desk.session().file() {
        Some(file) => file.display().to_string(),
        None => "Not saved in a file yet".to_owned(),
    };
    ui.add(label).on_hover_text(kept);
}

fn file_menu_ui(ui: &mut Ui, desk: &mut Desk) {
    let item = |ui: &mut Ui, name: &str, shortcut: &egui::KeyboardShortcut| {
        let shown = ui.ctx().format_shortcut(shortcut);
        ui.add(Button::new(name).shortcut_text(shown)).clicked()
    };
    if item(ui, "New", &NEW) {
        ui.close();
        ask_first(desk, Asking::New);
    }
    if item(ui, "Open…", &OPEN) {
        ui.close();
        ask_first(desk, Asking::Choose);
    }
    ui.menu_button("Recent", |ui| {
        if desk.preferences().recent.is_empty() {
            ui.label("None yet");
        }
        for file in desk.preferences().recent.clone() {
            let name = file
                .file_name()
                .map_or_else(String::new, |n| n.to_string_lossy().into_owned());
            if ui
                .button(name)
                .on_hover_text(file.display().to_string())
                .clicked()
            {
                ui.close();
                ask_first(desk, Asking::Open(file));
            }
        }
    });
    if ui.button("Open a path…").clicked() {
        ui.close();
        desk.open_card(PathCard::to_open());
    }
    ui.separator();
    if item(ui, "Save", &SAVE) {
        ui.close();
        save(desk);
    }
    if item(ui, "Save as…", &SAVE_AS) {
        ui.close();
        save_as(desk);
    }
    if ui.button("Save to a path…").clicked() {
        ui.close();
        let card = PathCard::to_save(desk);
        desk.open_card(card);
    }
}

fn system_ui(ui: &mut Ui, desk: &mut Desk) {
    // Laid out from the right, so the last comes first.
    let mut system = desk.system();
    for offered in System::ALL.into_iter().rev() {
        ui.selectable_value(&mut system, offered, offered.name());
    }
    if system != desk.system() {
        desk.preferences_mut().system = Some(system);
    }
    ui.label(RichText::new("Units").weak());
}

fn theme_ui(ui: &mut Ui, desk: &mut Desk) {
    let is_dark = ui.ctx().theme() == egui::Theme::Dark;
    for (name, dark) in [("Dark", true), ("Light", false)] {
        if ui.selectable_label(is_dark == dark, name).clicked() {
            desk.preferences_mut().is_dark = Some(dark);
            ui.ctx().set_theme(if dark {
                egui::Theme::Dark
            } else {
                egui::Theme::Light
            });
        }
    }
}

/// The areas, each with its key.
fn areas_ui(ui: &mut Ui, areas: &mut Areas) {
    let front = areas.front_id();
    let mut chosen = front;
    for about in areas.abouts() {
        let is_front = about.id == front;
        let button = ui.selectable_label(is_front, about.title);
        let key = ui.ctx().format_shortcut(&shortcut_of(about));
        let help = format!("{} ({key})", about.purpose);
        if button.on_hover_text(help).clicked() {
            chosen = about.id;
        }
    }
    areas.bring_to_front(chosen);
}

/// The keys that bring an area to the front.
fn shortcut_of(about: &About) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND, about.key)
}

/// Brings the area to the front whose keys are pressed.
pub fn area_shortcuts(ctx: &Context, areas: &mut Areas) {
    let is_pressed = |about: &&About| {
        let shortcut = shortcut_of(about);
        ctx.input_mut(|input| input.consume_shortcut(&shortcut))
    };
    let pressed = areas.abouts().find(is_pressed);
    if let Some(about) = pressed {
        areas.bring_to_front(about.id);
    }
}
