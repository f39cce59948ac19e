//! The bar along the top: files, how the window looks, areas, units, help.

use egui::{Color32, Key, RichText, TextStyle, Ui};

use super::about::AboutCard;
use super::beside_card::BesideCard;
use super::drawer;
use super::edit_menu::edit_menu_ui;
use super::folder_card::FolderCard;
use super::keys::{Deed, keys_of};
use super::menu::{Menu, choice_ui, is_taken, item_ui, submenu_ui};
use super::picture_card::{
    PictureCard, copy_picture, copy_table, no_picture, why_no_picture, why_no_table,
};
use super::print_card::open_print_card;
use super::recent::recent_menu_ui;
use super::scale::scale_menu_ui;
use super::start_card::StartCard;
use super::steps_card::StepsCard;
use crate::app::areas::Areas;
use crate::app::desk::{Desk, DeskWork, InHand};
use crate::app::files::{
    Asking, PathCard, WorkPathCard, ask_first, quit_asked, save, save_as, save_work, save_work_as,
    why_not_savable, why_not_savable_there,
};
use crate::app::widgets::lettering::strong;
use crate::unit::most;
use crate::units::{System, clipped};

/// Room for what stands in the bar beside the areas and the unit's name.
const REST: f32 = 620.0;
/// Room for a unit's name of ordinary length; a longer one is cut short.
const NAME: f32 = 240.0;
/// Of words that are measured and not painted.
const INK: Color32 = Color32::PLACEHOLDER;

/// The bar. The areas get a row of their own where they do not fit beside the rest, and take the unit's
/// name with them where it has more room there.
pub fn top_bar_ui(ui: &mut Ui, desk: &mut Desk, areas: &mut Areas) {
    ui.add_space(3.0);
    let left = ui.available_width() - areas_width(ui, areas);
    let is_in_one_row = REST + name_width(ui, desk) <= left;
    let is_name_below = !is_in_one_row && NAME.max(ui.available_width() - REST) <= left;
    ui.horizontal(|ui| {
        Menu::File.show(ui, |ui| file_menu_ui(ui, desk, areas));
        edit_menu_ui(ui, desk);
        Menu::View.show(ui, |ui| view_menu_ui(ui, desk, areas));
        if drawer::is_folded(ui.ctx()) && areas.front().has_form(desk) {
            form_button_ui(ui);
        }
        if is_in_one_row {
            areas_ui(ui, areas);
        }
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
                .on_hover_text("How to get from a unit on the plate to its setting")
                .clicked()
            {
                desk.open_card(StepsCard::default());
            }
            ui.separator();
            system_ui(ui, desk);
            // What room is left between both ends is the name's.
            if !is_name_below {
                ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                    unit_name_ui(ui, desk);
                });
            }
        });
    });
    if is_name_below {
        ui.horizontal(|ui| {
            areas_ui(ui, areas);
            ui.separator();
            unit_name_ui(ui, desk);
        });
    } else if !is_in_one_row {
        ui.horizontal_wrapped(|ui| areas_ui(ui, areas));
    }
    ui.add_space(2.0);
}

/// Takes the form out over the area, or folds it away.
fn form_button_ui(ui: &mut Ui) {
    let is_out = drawer::is_out(ui.ctx());
    let help = format!(
        "Readings and settings, over the drawing ({})",
        keys_of(ui.ctx(), Deed::Form)
    );
    if ui
        .selectable_label(is_out, "Form")
        .on_hover_text(help)
        .clicked()
    {
        drawer::set_out(ui.ctx(), !is_out);
    }
}

/// How wide the areas stand in one row.
fn areas_width(ui: &Ui, areas: &Areas) -> f32 {
    let font = TextStyle::Button.resolve(ui.style());
    let around = 2.0 * ui.spacing().button_padding.x + ui.spacing().item_spacing.x;
    areas
        .abouts()
        .map(|about| {
            let painter = ui.painter();
            let words = painter.layout_no_wrap(about.title.to_owned(), font.clone(), INK);
            words.size().x + around
        })
        .sum()
}

/// How wide the unit's name is with what is told of it while it wants saving, so that nothing moves as it
/// does; the room for an ordinary one and half as much at the most.
fn name_width(ui: &Ui, desk: &Desk) -> f32 {
    let unit = clipped(&desk.document().name, most::NAME_LETTERS).to_string();
    let mut font = TextStyle::Button.resolve(ui.style());
    font.family = strong();
    let words = ui.painter().layout_no_wrap(unsaved(&unit), font, INK);
    words.size().x.clamp(NAME, 1.5 * NAME)
}

fn unsaved(unit: &str) -> String {
    format!("• {unit}, unsaved changes")
}

/// The unit's name, as much of it as there is room for, and whether it wants saving.
fn unit_name_ui(ui: &mut Ui, desk: &Desk) {
    let unit = clipped(&desk.document().name, most::NAME_LETTERS).to_string();
    let text = if desk.has_unsaved() {
        unsaved(&unit)
    } else {
        unit.clone()
    };
    let label = egui::Label::new(RichText::new(text).family(strong())).truncate();
    let kept = match desk.session().file() {
        Some(file) => file.display().to_string(),
        None => "Not saved in a file yet".to_owned(),
    };
    ui.add(label).on_hover_text(format!("{unit}\n{kept}"));
}

fn file_menu_ui(ui: &mut Ui, desk: &mut Desk, areas: &mut Areas) {
    let item = |ui: &mut Ui, name: &str, letter: Key, deed: Option<Deed>| {
        let keys = deed.map_or_else(String::new, |deed| keys_of(ui.ctx(), deed));
        let item = item_ui(ui, name, letter, &keys);
        is_taken(ui, &item, letter)
    };
    if item(ui, "New", Key::N, Some(Deed::New)) {
        ui.close();
        ask_first(desk, Asking::New);
    }
    if item(ui, "Open…", Key::O, Some(Deed::Open)) {
        ui.close();
        ask_first(desk, Asking::Choose);
    }
    submenu_ui(ui, "Recent", Key::R, |ui| {
        if desk.preferences().recent.is_empty() {
            ui.label("None yet");
        }
        if let Some(file) = recent_menu_ui(ui, desk.preferences().recent.iter()) {
            ui.close();
            ask_first(desk, Asking::Open(file));
        }
    });
    if item(ui, "Start…", Key::T, None) {
        ui.close();
        desk.open_card(StartCard::default());
    }
    if item(ui, "Open a path…", Key::P, None) {
        ui.close();
        desk.open_card(PathCard::to_open());
    }
    ui.separator();
    let work = match desk.in_hand() {
        InHand::Work(kind) => Some(kind),
        InHand::Unit => None,
    };
    let (why_not, why_not_there) = match work {
        Some(kind) => {
            let why_not = desk.work(kind).and_then(DeskWork::why_not_savable);
            (why_not.clone(), why_not)
        }
        None => (why_not_savable(desk), why_not_savable_there(ui, desk)),
    };
    let save_item =
        |ui: &mut Ui, (name, letter, deed): (&str, Key, Option<Deed>), why_not: Option<&String>| {
            let keys = deed.map_or_else(String::new, |deed| keys_of(ui.ctx(), deed));
            let item = |ui: &mut Ui| item_ui(ui, name, letter, &keys);
            let item = ui.add_enabled_ui(why_not.is_none(), item).inner;
            let is_taken = is_taken(ui, &item, letter);
            if let Some(why_not) = why_not {
                item.on_disabled_hover_text(format!("It cannot be saved yet. {why_not}"));
            }
            is_taken
        };
    let saving = ("Save", Key::S, Some(Deed::Save));
    if save_item(ui, saving, why_not_there.as_ref()) {
        ui.close();
        match work {
            Some(kind) => save_work(desk, kind, |_, is_saved| is_saved),
            None => save(desk, |_, is_saved| is_saved),
        }
    }
    let saving_as = ("Save as…", Key::A, Some(Deed::SaveAs));
    if save_item(ui, saving_as, why_not.as_ref()) {
        ui.close();
        match work {
            Some(kind) => save_work_as(desk, kind, |_, is_saved| is_saved),
            None => save_as(desk, |_, is_saved| is_saved),
        }
    }
    if save_item(ui, ("Save to a path…", Key::H, None), why_not.as_ref()) {
        ui.close();
        if let Some(kind) = work {
            let card = WorkPathCard::to_save(desk, kind);
            desk.open_card(card);
        } else {
            let card = PathCard::to_save(desk);
            desk.open_card(card);
        }
    }
    ui.separator();
    paper_items_ui(ui, desk, areas);
    ui.separator();
    let keys = keys_of(ui.ctx(), Deed::Quit);
    let quit = item_ui(ui, "Quit", Key::Q, &keys);
    if is_taken(ui, &quit, Key::Q) {
        ui.close();
        quit_asked(desk);
    }
}

/// What leaves the window on paper, as a picture and as a table.
fn paper_items_ui(ui: &mut Ui, desk: &mut Desk, areas: &mut Areas) {
    let item = |ui: &mut Ui, name: &str, letter: Key, deed: Option<Deed>| {
        let keys = deed.map_or_else(String::new, |deed| keys_of(ui.ctx(), deed));
        let item = item_ui(ui, name, letter, &keys);
        is_taken(ui, &item, letter)
    };
    if item(ui, "Print or save a sheet…", Key::I, Some(Deed::Print)) {
        ui.close();
        open_print_card(desk, areas);
    }
    let name = "Print or save sheets of a folder…";
    if item(ui, name, Key::F, None) {
        ui.close();
        let card = FolderCard::of(desk);
        desk.open_card(card);
    }
    let about = areas.front_about();
    let item_unless =
        |ui: &mut Ui, (name, letter, deed): (&str, Key, Option<Deed>), why_not: Option<String>| {
            let keys = deed.map_or_else(String::new, |deed| keys_of(ui.ctx(), deed));
            let item = |ui: &mut Ui| item_ui(ui, name, letter, &keys);
            let item = ui.add_enabled_ui(why_not.is_none(), item).inner;
            let is_taken = is_taken(ui, &item, letter);
            if let Some(why_not) = why_not {
                item.on_disabled_hover_text(why_not);
            }
            is_taken
        };
    // On its card another one can be chosen.
    let why_not = about.picture.is_none().then(|| no_picture(about));
    if item_unless(ui, ("Save picture…", Key::V, None), why_not)
        && let Some(picture) = about.picture
    {
        ui.close();
        desk.open_card(PictureCard::of(picture));
    }
    let copying = ("Copy picture", Key::C, Some(Deed::CopyPicture));
    if item_unless(ui, copying, why_no_picture(desk, about)) {
        ui.close();
        copy_picture(ui.ctx(), desk, about);
    }
    let why_not = why_no_table(desk, areas);
    if item_unless(ui, ("Copy table", Key::B, None), why_not) {
        ui.close();
        copy_table(ui.ctx(), desk, areas);
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

/// How the window looks: light or dark, and how large.
fn view_menu_ui(ui: &mut Ui, desk: &mut Desk, areas: &Areas) {
    let is_dark = ui.ctx().theme() == egui::Theme::Dark;
    for (name, letter, dark) in [("Light", Key::L, false), ("Dark", Key::D, true)] {
        if choice_ui(ui, (name, letter), is_dark == dark, "") {
            ui.close();
            desk.preferences_mut().is_dark = Some(dark);
            ui.ctx().set_theme(if dark {
                egui::Theme::Dark
            } else {
                egui::Theme::Light
            });
        }
    }
    ui.separator();
    let item = item_ui(ui, "Show to a room", Key::S, &keys_of(ui.ctx(), Deed::Show));
    if is_taken(ui, &item, Key::S) {
        ui.close();
        desk.ask_to_show();
    }
    let keys = keys_of(ui.ctx(), Deed::KeepStep);
    let item = item_ui(ui, "Keep this as a step", Key::K, &keys);
    if is_taken(ui, &item, Key::K) {
        ui.close();
        desk.ask_to_keep_step(areas.shown_first());
    }
    let item = item_ui(ui, "Side by side…", Key::B, "");
    if is_taken(ui, &item, Key::B) {
        ui.close();
        desk.open_card(BesideCard::default());
    }
    ui.separator();
    ui.label(RichText::new("Scale").weak());
    scale_menu_ui(ui, desk);
}

/// The areas, each with its key.
fn areas_ui(ui: &mut Ui, areas: &mut Areas) {
    let front = areas.front_id();
    let mut chosen = front;
    for about in areas.abouts() {
        let is_front = about.id == front;
        let button = ui.selectable_label(is_front, about.title);
        let key = keys_of(ui.ctx(), Deed::Front(about));
        let help = format!("{} ({key})", about.purpose);
        if button.on_hover_text(help).clicked() {
            chosen = about.id;
        }
    }
    areas.bring_to_front(chosen);
}

#[cfg(test)]
mod tests {
    use egui::{Key, Modifiers, Rect, Vec2};
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable as _;

    use super::*;
    use crate::app::areas::{About, Area};
    use crate::app::desk::{NoDialogs, Preferences, Session};
    use crate::app::form::Keys;
    use crate::app::shell::deeds::do_as_pressed;
    use crate::app::widgets::look::dress;
    use crate::drawing::PictureView;

    struct Empty(&'static About);

    impl Area for Empty {
        fn about(&self) -> &'static About {
            self.0
        }
        fn show(&mut self, _: &mut Ui, _: &mut Desk) {}
    }

    const fn about(id: &'static str, title: &'static str, key: Key) -> About {
        About {
            picture: Some(PictureView::Whole),
            id,
            title,
            purpose: "",
            key,
        }
    }

    static EIGHT: [About; 8] = [
        about("one", "Unit", Key::Num1),
        about("two", "Knives", Key::Num2),
        about("three", "Why", Key::Num3),
        about("four", "Blade path", Key::Num4),
        about("five", "Surface plate", Key::Num5),
        about("six", "Shop board", Key::Num6),
        about("seven", "Lessons", Key::Num7),
        about("eight", "Side by side", Key::Num8),
    ];

    /// A window of a width with a bar of eight areas.
    fn window(width: f32) -> Harness<'static, (Desk, Areas)> {
        let session = Session::demo().expect("the demo unit opens");
        let desk = Desk::new(session, Preferences::default(), Box::new(NoDialogs));
        let areas = EIGHT.iter().map(|about| Box::new(Empty(about)) as _);
        let areas = Areas::of(areas.collect());
        let mut harness = Harness::builder()
            .with_size(Vec2::new(width, 200.0))
            .with_context_setup(dress)
            .build_ui_state(
                |ui, (desk, areas)| {
                    do_as_pressed(ui.ctx(), desk, areas, &Keys::default());
                    top_bar_ui(ui, desk, areas);
                },
                (desk, areas),
            );
        harness.run();
        harness
    }

    /// Where the eight areas and the buttons around them stand.
    fn places(width: f32) -> Vec<Rect> {
        let window = window(width);
        let titles = EIGHT.iter().map(|about| about.title);
        titles
            .chain(["First steps", "About", "File"])
            .map(|title| window.get_by_label(title).rect())
            .collect()
    }

    #[test]
    fn eight_areas_have_room_in_every_window() {
        for width in [900.0, 1024.0, 1280.0, 1600.0] {
            let places = places(width);
            let window = Rect::from_min_size(egui::Pos2::ZERO, Vec2::new(width, 200.0));
            for (index, place) in places.iter().enumerate() {
                assert!(window.contains_rect(*place), "{width}: {place:?}");
                let mut before = places[..index].iter();
                let other = before.find(|other| other.shrink(1.0).intersects(*place));
                assert_eq!(other, None, "{width}: {place:?}");
            }
        }
    }

    #[test]
    fn a_key_brings_each_area_to_the_front() {
        let mut window = window(1280.0);
        for about in EIGHT.iter().rev() {
            window.key_press_modifiers(Modifiers::COMMAND, about.key);
            window.run();
            assert_eq!(window.state().1.front_id(), about.id);
        }
    }
}
