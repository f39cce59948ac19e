//! The board: a folder of units, filtered and sorted, the sets that do not agree, what cannot be read.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;

use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{Button, ComboBox, Key, Label, Panel, ScrollArea, TextEdit, Ui};

use super::column::Column;
use super::fresh::Fresh;
use super::opening::AskedFor;
use super::order::{Filter, Sorted, places};
use super::set_amounts::{AmountsTyped, amounts, amounts_ui, disagreement};
use super::shown::Shown;
use super::table::{Done, UnitTable};
use crate::analysis::shop::{SetAmounts, ShopSet, repeated_names, sets};
use crate::analysis::{DUE_RULE, Level};
use crate::app::desk::{Ask, Desk};
use crate::app::files::ask;
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::list::list_ui;
use crate::command::{RefusedKind, ShopBoard};
use crate::printing::rows_to_paste;
use crate::store::{is_same_file, whole_path};

/// A window with less height than this left for table and notes is a low one.
const LOW: f32 = 440.0;

/// The board.
#[derive(Default)]
pub struct Board {
    folder: Option<Fresh<ShopBoard>>,
    /// The words that are being typed to find units by; none while nobody types.
    finding: Option<String>,
    /// Whether the field of those words is to take the keys.
    is_find_wanted: bool,
    table: UnitTable,
    asked_for: AskedFor,
    /// The path that is being typed; none while nobody types one.
    typed: Option<String>,
    amounts_typed: AmountsTyped,
    /// Places among the units of one reading of the folder.
    places: Kept<(u64, Filter, Sorted), Vec<usize>>,
    sets: Kept<(u64, SetAmounts), Vec<ShopSet>>,
    /// Names that more than one unit has.
    repeated: Kept<u64, Rc<BTreeSet<String>>>,
    /// Which of the units is open in the window.
    open: Kept<(u64, Option<PathBuf>), Option<usize>>,
}

impl Board {
    /// Everything of it.
    pub fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        self.asked_for.follow(desk);
        self.follow_folder(ui, desk);
        let Some(folder) = &self.folder else {
            self.no_folder_ui(ui, desk);
            return;
        };
        let read = folder.read().cloned();
        match read.as_deref() {
            None => {
                self.folder_ui(ui, desk);
                ui.add_space(40.0);
                ui.label("Reading the folder…");
                caution_in_short_ui(ui);
            }
            Some(Err(why)) => {
                ui.label(Lettering::Headline.of("The folder cannot be read"));
                self.folder_ui(ui, desk);
                ui.label(why);
                ui.add_space(16.0);
                caution_in_short_ui(ui);
            }
            Some(Ok(board)) => self.units_ui(ui, desk, board),
        }
    }

    /// The units that are wanted in their order, as they are shown, for a spreadsheet.
    pub fn table_to_paste(&self, desk: &Desk) -> Result<String, String> {
        let folder = self.folder.as_ref().ok_or("No folder is chosen yet.")?;
        let board = match folder.read().map(AsRef::as_ref) {
            None => return Err("The folder is still being read.".to_owned()),
            Some(Err(why)) => return Err(why.clone()),
            Some(Ok(board)) => board,
        };
        let system = desk.system();
        let mut rows = vec![Column::ALL.map(|column| column.bare_head(system)).to_vec()];
        let repeated = repeated_names(board.rows());
        let (filter, sorted) = self.wanted(desk);
        for place in places(&board.units, &filter, sorted) {
            let row = &board.units[place].row;
            let mut cells = Column::ALL.map(|column| column.bare(row, system));
            cells[0] = row.name_among(&repeated);
            rows.push(cells.to_vec());
        }
        rows_to_paste(&rows).map_err(|problem| problem.to_string())
    }

    /// Which units are wanted, and in what order.
    fn wanted(&self, desk: &Desk) -> (Filter, Sorted) {
        let shop = &desk.preferences().shop;
        let mut filter = Filter::remembered(shop);
        if let Some(words) = &self.finding {
            filter.words.clone_from(words);
        }
        (filter, Sorted::remembered(shop))
    }

    /// Opens the folder that is remembered, and looks after the one that is open.
    fn follow_folder(&mut self, ui: &Ui, desk: &Desk) {
        let remembered = desk.preferences().shop.folder.as_deref();
        let is_other = self.folder.as_ref().map(Fresh::path) != remembered;
        if is_other {
            self.folder = remembered.map(|path| Fresh::open(path, path, ui.ctx(), read_folder));
            self.typed = None;
        }
        if let Some(folder) = &mut self.folder {
            folder.look(ui.ctx());
        }
    }

    fn no_folder_ui(&mut self, ui: &mut Ui, desk: &mut Desk) {
        ui.label(Lettering::Headline.of("The units of a folder beside each other"));
        ui.label("Choose the folder with your unit files. The board shows each unit's status, what is left of its reel, its last job and when it is next due; units of one set that differ are marked.");
        ui.add_space(8.0);
        self.folder_ui(ui, desk);
        ui.add_space(16.0);
        caution_in_short_ui(ui);
    }

    /// The folder: where it is, another one, and reading it again.
    fn folder_ui(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let own = desk.session().file().and_then(Path::parent);
        let own = own.map(Path::to_owned);
        let shown = self.folder.as_ref().map(Fresh::path);
        let is_own = own.as_deref() == shown;
        let written = shown.map_or_else(String::new, |path| path.display().to_string());
        ui.horizontal_wrapped(|ui| {
            ui.label("Folder");
            let mut text = self.typed.clone().unwrap_or_else(|| written.clone());
            let field = ui
                .add(
                    TextEdit::singleline(&mut text)
                        .desired_width((ui.available_width() - 430.0).clamp(160.0, 520.0))
                        .hint_text("its path"),
                )
                .accessible_name("Folder of units");
            if field.changed() {
                self.typed = Some(text.clone());
            }
            if field.lost_focus() && self.typed.is_some() {
                let is_given = ui.input(|input| input.key_pressed(egui::Key::Enter));
                self.typed = None;
                if is_given {
                    take_typed(desk, &text);
                }
            }
            if ui.button("Choose a folder…").clicked() {
                choose(desk);
            }
            if let Some(own) = own.filter(|_| !is_own)
                && ui
                    .button("Folder of this unit")
                    .on_hover_text(own.display().to_string())
                    .clicked()
            {
                desk.preferences_mut().shop.folder = Some(own);
            }
            if let Some(folder) = &mut self.folder {
                let refresh = ui.add_enabled(!folder.is_reading(), Button::new("Refresh"));
                if refresh.on_hover_text("Reads the folder again").clicked() {
                    folder.refresh(ui.ctx());
                }
            }
        });
        let unwatched = self.folder.as_ref().and_then(Fresh::why_not_watched);
        if let Some(why) = unwatched {
            ui.label(format!(
                "This folder is not watched ({why}): press Refresh after files in it have changed."
            ));
        }
    }

    fn units_ui(&mut self, ui: &mut Ui, desk: &mut Desk, board: &ShopBoard) {
        let reading = self.folder.as_ref().map_or(0, Fresh::number);
        let amounts = amounts(desk);
        let mut sets_kept = std::mem::take(&mut self.sets);
        let sets = &*sets_kept.get((reading, amounts), |_| sets(board.rows(), &amounts));
        ui.add(Label::new(Lettering::Headline.of(in_short(board, sets))).wrap());
        self.folder_ui(ui, desk);
        self.filter_ui(ui, desk, board);
        // In a low window the rows come first.
        let is_low = ui.available_height() < LOW;
        if !is_low {
            amounts_ui(ui, desk, &mut self.amounts_typed);
        }
        let system = desk.system();
        let repeated = Rc::clone(
            self.repeated
                .get(reading, |_| Rc::new(repeated_names(board.rows()))),
        );
        let name_of = |file: &str| {
            let row = board.rows().find(|row| row.file == file);
            row.map_or_else(|| file.to_owned(), |row| row.name_among(&repeated))
        };
        let height = ui.available_height();
        Panel::bottom("shop notes")
            .default_size((0.24 * height).clamp(74.0, 190.0))
            .size_range(70.0..=400.0)
            .resizable(true)
            .show(ui, |ui| {
                ScrollArea::vertical()
                    .id_salt("shop notes")
                    .auto_shrink(false)
                    .show(ui, |ui| {
                        for told in sets
                            .iter()
                            .filter_map(|set| disagreement(set, system, name_of))
                        {
                            ui.label(told);
                        }
                        if is_low {
                            amounts_ui(ui, desk, &mut self.amounts_typed);
                        }
                        refused_ui(ui, board);
                        caution_in_short_ui(ui);
                        ui.label(Lettering::FinePrint.of(DUE_RULE).weak());
                    });
            });
        let (filter, sorted) = self.wanted(desk);
        let places = {
            let key = (reading, filter, sorted);
            let made =
                |(_, filter, sorted): &(u64, Filter, Sorted)| places(&board.units, filter, *sorted);
            Arc::from(&**self.places.get(key, made))
        };
        let in_front = desk.session().file().map(Path::to_owned);
        let open = *self.open.get((reading, in_front), |(_, file)| {
            let file = file.as_ref()?;
            let mut units = board.units.iter();
            units.position(|unit| is_same_file(&unit.file, file))
        });
        let shown = Shown {
            units: &board.units,
            places: &places,
            sets: &by_name(sets),
            repeated: &repeated,
            name_of: &name_of,
            system,
            open,
        };
        match self.table.show(ui, &shown, sorted) {
            Some(Done::Sorted(sorted)) => sorted.remember(&mut desk.preferences_mut().shop),
            Some(Done::Find(letters)) => {
                self.finding = Some(filter_words(desk) + &letters);
                self.is_find_wanted = true;
                ui.ctx().request_repaint();
            }
            Some(Done::Open(place)) => {
                if let Some(unit) = board.units.get(place) {
                    self.asked_for.open(desk, &unit.file);
                }
            }
            None => {}
        }
        self.sets = sets_kept;
    }

    fn filter_ui(&mut self, ui: &mut Ui, desk: &mut Desk, board: &ShopBoard) {
        let before = Filter::remembered(&desk.preferences().shop);
        let mut filter = before.clone();
        ui.horizontal_wrapped(|ui| {
            ui.label("Find");
            let id = ui.scope_id().with("find units");
            let mut text = self.finding.take().unwrap_or_else(|| before.words.clone());
            let field = ui
                .add(
                    TextEdit::singleline(&mut text)
                        .id(id)
                        .hint_text("unit, set, turf or file")
                        .desired_width(210.0),
                )
                .accessible_name("Find units");
            // What was typed onto a row of the table goes on here.
            if std::mem::take(&mut self.is_find_wanted) {
                field.request_focus();
                put_cursor_last(ui, &field, &text);
                self.finding = Some(text);
            } else if field.has_focus() {
                if ui.input(|input| input.key_pressed(Key::ArrowDown)) {
                    self.table.enter();
                }
                self.finding = Some(text);
            } else {
                filter.words = text;
            }
            let named = |level: Option<Level>| level.map_or("every status", Level::word);
            let chosen = filter.level;
            let levels = ComboBox::from_id_salt("shop status")
                .width(110.0)
                .selected_text(named(chosen));
            list_ui(ui, levels, |ui, list| {
                let levels = Filter::LEVELS.map(Some).into_iter();
                for level in std::iter::once(None).chain(levels) {
                    if list.offer(ui, chosen == level, named(level)) {
                        filter.level = level;
                    }
                }
            })
            .accessible_name("Status");
            let is_typed = |words: &String| !words.is_empty();
            if filter != Filter::default() || self.finding.as_ref().is_some_and(is_typed) {
                if ui.button("Show all units").clicked() {
                    filter = Filter::default();
                    self.finding = None;
                }
                let count = self.places.last().map_or(0, Vec::len);
                ui.label(format!("{count} of {}", board.units.len()));
            }
        });
        if filter != before {
            filter.remember(&mut desk.preferences_mut().shop);
        }
    }
}

/// The words by which units are found, as they are remembered.
fn filter_words(desk: &Desk) -> String {
    desk.preferences().shop.find.clone()
}

/// Puts the cursor behind what stands in a field.
fn put_cursor_last(ui: &Ui, field: &egui::Response, text: &str) {
    if let Some(mut state) = TextEditState::load(ui.ctx(), field.id) {
        let end = CCursor::new(text.chars().count());
        state.cursor.set_char_range(Some(CCursorRange::one(end)));
        state.store(ui.ctx(), field.id);
    }
}

fn read_folder(folder: &Path) -> Result<ShopBoard, String> {
    ShopBoard::read(folder).map_err(|problem| problem.to_string())
}

fn by_name(sets: &[ShopSet]) -> BTreeMap<&str, &ShopSet> {
    sets.iter().map(|set| (set.name.as_str(), set)).collect()
}

/// What the board comes to, in one line.
fn in_short(board: &ShopBoard, sets: &[ShopSet]) -> String {
    let levels = [Level::Over, Level::Watch, Level::Fine].map(|level| {
        let count = board
            .rows()
            .filter(|row| row.shown_level() == level)
            .count();
        format!("{count} {}", level.word())
    });
    let apart = sets.iter().filter(|set| !set.agrees).count();
    let told = |count: usize, one: &str, many: &str| match count {
        0 => String::new(),
        1 => format!("; 1 {one}"),
        _ => format!("; {count} {many}"),
    };
    let count = board.units.len();
    let units = if count == 1 { "unit" } else { "units" };
    let refused = board.refused_told().join("; ");
    let semicolon = if refused.is_empty() { "" } else { "; " };
    format!(
        "{count} {units}: {}{}{semicolon}{refused}",
        levels.join(", "),
        told(apart, "set does not agree", "sets do not agree"),
    )
}

/// The files that cannot be read, each with its reason.
fn refused_ui(ui: &mut Ui, board: &ShopBoard) {
    if board.refused.is_empty() {
        return;
    }
    ui.label(egui::RichText::new("Not read").family(strong()));
    for kind in RefusedKind::ALL {
        for refused in board.refused.iter().filter(|refused| refused.kind == kind) {
            ui.label(format!("{}: {}", refused.file, refused.why));
        }
    }
}

/// Opens the folder whose path was typed.
fn take_typed(desk: &mut Desk, text: &str) {
    match whole_path(text.trim()) {
        Ok(path) => desk.preferences_mut().shop.folder = Some(path),
        Err(problem) => desk.warn(problem.to_string()),
    }
}

/// Has a person choose a folder.
fn choose(desk: &mut Desk) {
    ask(desk, &Ask::FolderOfUnits, |desk, folder| {
        let is_chosen = folder.is_some();
        if let Some(folder) = folder {
            desk.preferences_mut().shop.folder = Some(folder);
        } else if desk.missed_dialog().is_some() {
            desk.warn("No folder was chosen: the desktop showed no dialog. Type its path into the field Folder and press Enter.");
        }
        is_chosen
    });
}
