//! An entry of the sheet: large, with what is wrong with it told under it; a wrong text stays.

use egui::accesskit::Invalid;
use egui::{
    FontId, Key, Margin, Rect, Response, RichText, Stroke, TextEdit, TextWrapMode, Ui, Vec2,
    WidgetText,
};

use super::field_course::FieldCourse;
use crate::analysis::Level;
use crate::analysis::plate::{Doubt, PlateResult, Reread, Verdict};
use crate::app::desk::{Desk, DeskWork as _, SheetWork};
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::symbol::symbol;
use crate::app::widgets::typing::take_all_in_hand;
use crate::plate::{Roller, SheetField, SheetFlaw};

/// Width of an entry.
pub const ENTRY: f32 = 132.0;
/// The widest entry of those beside each other: a reading with its ±.
const WIDE: f32 = 190.0;
/// The widest entry of a list.
const WIDEST: f32 = 420.0;
/// Width of a name beside its entry.
const NAME: f32 = 190.0;

/// What is being typed: as it stands in the field, until the field is left.
#[derive(Clone, Debug)]
pub struct Typing {
    field: SheetField,
    text: String,
    /// What stood there when the field was entered.
    began: String,
    revision: u64,
}

/// The entries of a page while it is shown.
pub struct Entries<'a> {
    pub desk: &'a mut Desk,
    pub typing: &'a mut Option<Typing>,
    /// The first value that makes no sense.
    pub flaw: Option<&'a SheetFlaw>,
    /// The numbers; none while a value makes no sense.
    pub result: Option<&'a PlateResult>,
    /// Hours that cannot be beside those of the unit's record.
    pub hours: Option<&'a Doubt>,
    /// The entries of the page in the order they are made.
    pub course: &'a mut FieldCourse,
}

/// Entries beside each other under a name for all, as left, middle and right.
pub struct Beside<'n> {
    /// What stands over each, and its entry.
    pub entries: Vec<(&'n str, SheetField)>,
    /// What an empty entry shows.
    pub hint: &'n str,
}

impl Entries<'_> {
    /// What is wrong with an entry, and how badly.
    fn against(&self, field: SheetField) -> Option<(Level, String)> {
        let sheet = self.desk.sheet()?;
        if let Some(loose) = sheet.entries().loose_of(field) {
            let level = if loose.is_wrong {
                Level::Over
            } else {
                Level::Watch
            };
            return Some((level, loose.why.clone()));
        }
        if let Some(flaw) = self.flaw {
            let is_here =
                SheetField::at_path(&flaw.path) == Some(field) && sheet.entries().has(field);
            return is_here.then(|| (Level::Over, flaw.kind.to_string()));
        }
        let doubt = self.doubt(field)?;
        Some((doubt.level, doubt.told(self.desk.system())))
    }

    /// What makes an entry doubtful beside another.
    fn doubt(&self, field: SheetField) -> Option<&Doubt> {
        self.doubts(field).max_by_key(|doubt| doubt.level)
    }

    /// All that makes it doubtful.
    fn doubts(&self, field: SheetField) -> impl Iterator<Item = &Doubt> {
        let doubts = self.result.into_iter().flat_map(|result| &result.doubts);
        let doubts = doubts.chain(self.hours);
        doubts.filter(move |doubt| doubt.fields.contains(&field))
    }

    /// An entry without its name.
    pub fn entry(&mut self, ui: &mut Ui, field: SheetField, width: f32, hint: &str) {
        self.text_entry(ui, field, width, hint, 1);
    }

    /// An entry of several lines.
    pub fn lines(&mut self, ui: &mut Ui, field: SheetField, width: f32, rows: usize) {
        self.text_entry(ui, field, width, "", rows);
    }

    fn text_entry(&mut self, ui: &mut Ui, field: SheetField, width: f32, hint: &str, rows: usize) {
        let system = self.desk.system();
        let Some(sheet) = self.desk.sheet() else {
            return;
        };
        let revision = sheet.revision();
        let shown = sheet.entries().shown(field, system);
        let held = self.typing.as_ref();
        let held = held.filter(|typing| typing.field == field && typing.revision == revision);
        let held_text = held.map(|typing| typing.text.clone());
        let began = held.map_or_else(|| shown.clone(), |typing| typing.began.clone());
        let mut text = held.map_or(shown, |typing| typing.text.clone());
        let against = self.against(field);
        let response = entry_ui(ui, field, &mut text, (width, rows), hint, against.as_ref());
        if rows == 1 {
            take_all_in_hand(ui, &response, &text);
        }
        self.course.pass(ui, &response, text.is_empty());
        if response.changed() {
            // On the way through a number any roller can look out of parallel for a moment.
            let is_first = held_text.is_none_or(|held| held == began);
            let moved = is_first.then(|| self.moved_since(field)).flatten();
            self.desk
                .edit_sheet(&field.name(), Some(response.id), |entries| {
                    if let Some(roller) = moved {
                        entries.later_again(roller);
                    }
                    entries.set(field, &text, system);
                });
            self.hold(field, text, began);
        } else if response.lost_focus() {
            let is_put_back = ui.input(|input| input.key_pressed(Key::Escape));
            if is_put_back {
                self.desk
                    .edit_sheet(&field.name(), Some(response.id), |entries| {
                        entries.set(field, &began, system);
                    });
            }
            *self.typing = None;
        } else if response.has_focus() {
            self.hold(field, text, began);
        }
    }

    /// The roller that was moved if an entry is typed over: one that was not parallel, and is read anew.
    fn moved_since(&self, field: SheetField) -> Option<Roller> {
        let roller = field.roller_read()?;
        let sheet = self.desk.sheet()?;
        let is_out = self.is_not_parallel(roller) || sheet.entries().was_not_parallel(roller);
        is_out.then_some(roller)
    }

    /// Whether a roller is not parallel by what was read of it.
    pub fn is_not_parallel(&self, roller: Roller) -> bool {
        let result = self.result.and_then(|result| result.roller(roller));
        // Readings that clash are a slip to be put right, and say nothing of the roller.
        result.is_some_and(|result| {
            result.again != Some(Reread::Clash)
                && result
                    .parallel
                    .as_ref()
                    .is_some_and(|parallel| parallel.verdict == Some(Verdict::Fail))
        })
    }

    fn hold(&mut self, field: SheetField, text: String, began: String) {
        let revision = self.desk.sheet().map_or(0, SheetWork::revision);
        *self.typing = Some(Typing {
            field,
            text,
            began,
            revision,
        });
    }

    /// An entry with its name beside it, and what is wrong with it under both.
    pub fn row(&mut self, ui: &mut Ui, name: &str, field: SheetField, hint: &str) {
        self.row_within(ui, name, field, hint, ENTRY);
    }

    /// The same for a list, as wide as there is room.
    pub fn list_row(&mut self, ui: &mut Ui, name: &str, field: SheetField, hint: &str) {
        self.row_within(ui, name, field, hint, WIDEST);
    }

    fn row_within(
        &mut self,
        ui: &mut Ui,
        name: &str,
        field: SheetField,
        hint: &str,
        most_width: f32,
    ) {
        ui.horizontal(|ui| {
            name_ui(ui, name);
            let width = most_width.min(ui.available_width());
            self.entry(ui, field, width, hint);
        });
        self.problem_ui(ui, field);
    }

    /// A name, and entries beside each other, each under what it is called.
    pub fn beside(&mut self, ui: &mut Ui, beside: &Beside) {
        let hints = vec![beside.hint; beside.entries.len()];
        self.beside_with(ui, &beside.entries, &hints);
    }

    /// The same, each with what it shows while it is empty.
    pub fn beside_with(&mut self, ui: &mut Ui, row: &[(&str, SheetField)], hints: &[&str]) {
        let gap = ui.spacing().item_spacing.x;
        let count = u8::try_from(row.len()).unwrap_or(u8::MAX);
        let each = (ui.available_width() + gap) / f32::from(count.max(1)) - gap;
        let width = each.clamp(60.0, WIDE);
        ui.horizontal_top(|ui| {
            for ((over, field), hint) in row.iter().zip(hints) {
                ui.vertical(|ui| {
                    ui.set_width(width);
                    ui.label(Lettering::Note.of(*over));
                    self.entry(ui, *field, width, hint);
                });
            }
        });
        for (_, field) in row {
            self.problem_ui(ui, *field);
        }
    }

    /// What is wrong with an entry, in a sentence.
    pub fn problem_ui(&self, ui: &mut Ui, field: SheetField) {
        let Some((level, why)) = self.against(field) else {
            return;
        };
        let is_told_elsewhere = |doubt: &Doubt| doubt.fields.last() != Some(&field);
        let has_loose = |sheet: &SheetWork| sheet.entries().loose_of(field).is_some();
        if self.flaw.is_none() && !self.desk.sheet().is_some_and(has_loose) {
            let doubts: Vec<_> = self.doubts(field).collect();
            for doubt in doubts.iter().filter(|doubt| !is_told_elsewhere(doubt)) {
                told_ui(ui, doubt.level, &doubt.told_alone(self.desk.system()));
            }
            return;
        }
        told_ui(ui, level, &format!("{}: {why}.", field.name()));
    }
}

/// A sentence behind the symbol of its level.
pub fn told_ui(ui: &mut Ui, level: Level, text: &str) {
    let theme = theme(ui.ctx());
    ui.horizontal_top(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(16.0), egui::Sense::hover());
        symbol(ui, place, level, theme);
        ui.add(egui::Label::new(text).wrap());
    });
}

/// The name of an entry beside it.
pub fn name_ui(ui: &mut Ui, name: &str) {
    let size = Vec2::new(NAME.min(0.55 * ui.available_width()), 34.0);
    let layout = egui::Layout::left_to_right(egui::Align::Center);
    ui.allocate_ui_with_layout(size, layout, |ui| {
        ui.set_min_size(size);
        ui.add(egui::Label::new(name).wrap());
    });
}

/// A name with what was worked out, strong.
pub fn number_ui(ui: &mut Ui, name: &str, value: &str) {
    ui.horizontal_top(|ui| {
        let width = NAME.min(0.45 * ui.available_width());
        ui.allocate_ui_with_layout(
            Vec2::new(width, 0.0),
            egui::Layout::top_down(egui::Align::Min),
            |ui| {
                ui.set_width(width);
                ui.add(egui::Label::new(name).wrap());
            },
        );
        ui.add(egui::Label::new(RichText::new(value).family(strong())).wrap());
    });
}

/// The font of an entry: smaller where its text would run past it, as far as that can be read.
fn fitted(ui: &Ui, text: &str, room: f32) -> (FontId, bool) {
    const LEAST: f32 = 10.0;
    let mut font = Lettering::InShort.font();
    let width = |font: &FontId| {
        let laid_out = WidgetText::from(RichText::new(text).font(font.clone())).into_galley(
            ui,
            Some(TextWrapMode::Extend),
            f32::INFINITY,
            font.clone(),
        );
        laid_out.size().x
    };
    let wide = width(&font);
    if wide > room {
        font.size = (font.size * room / wide).floor().max(LEAST);
    }
    let fits = wide <= room || width(&font) <= room;
    (font, fits)
}

fn entry_ui(
    ui: &mut Ui,
    field: SheetField,
    text: &mut String,
    (width, rows): (f32, usize),
    hint: &str,
    against: Option<&(Level, String)>,
) -> Response {
    // What an entry keeps free on both sides of its text, and for a symbol.
    const MARGIN: f32 = 6.0;
    const SYMBOL: f32 = 16.0;
    let theme = theme(ui.ctx());
    let symbol_room = if against.is_some() { SYMBOL } else { 0.0 };
    let (font, fits) = if rows > 1 {
        (Lettering::InShort.font(), true)
    } else {
        fitted(ui, text, width - 2.0 * MARGIN - symbol_room)
    };
    let whole = (!fits).then(|| text.clone());
    let response = ui
        .scope(|ui| {
            if let Some((level, _)) = against {
                let wrong = Stroke::new(2.0, colour(theme.level(*level)));
                let widgets = &mut ui.visuals_mut().widgets;
                for state in [
                    &mut widgets.inactive,
                    &mut widgets.hovered,
                    &mut widgets.active,
                ] {
                    state.bg_stroke = wrong;
                }
            }
            let edit = if rows > 1 {
                TextEdit::multiline(text).desired_rows(rows)
            } else {
                TextEdit::singleline(text)
            };
            ui.add(
                edit.id_salt(field.path())
                    .font(font)
                    .margin(Margin::symmetric(6, 7))
                    .hint_text(hint)
                    .desired_width(width),
            )
        })
        .inner
        .accessible_name(field.name());
    let response = match whole {
        Some(whole) if !response.has_focus() => response.on_hover_text(whole),
        _ => response,
    };
    if let Some((level, why)) = against {
        let place = Rect::from_center_size(
            response.rect.right_center() - Vec2::new(13.0, 0.0),
            Vec2::splat(14.0),
        );
        symbol(ui, place, *level, theme);
        ui.ctx().accesskit_node_builder(response.id, |node| {
            if *level == Level::Over {
                node.set_invalid(Invalid::True);
            }
            node.set_description(why.clone());
        });
    }
    response
}
