//! The table of units.

use egui::{
    Align, Button, Color32, EventFilter, FontId, Key, Label, Layout, RichText, ScrollArea, Sense,
    TextStyle, TextWrapMode, Ui, Vec2,
};
use egui_extras::{Column as Width, TableBuilder};

use super::column::Column;
use super::hover::Hover;
use super::order::Sorted;
use super::shown::Shown;
use crate::analysis::Level;
use crate::app::widgets::lettering::strong;
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;
use crate::command::BoardUnit;
use crate::drawing::Theme;

/// Height of a row and of the heads.
const ROW: f32 = 27.0;
/// The same where they have two lines.
const FOLDED_ROW: f32 = 48.0;
/// A unit's name takes no more room.
const WIDEST_NAME: f32 = 420.0;
/// Side of a symbol in a row.
const SYMBOL: f32 = 15.0;

/// What the table remembers.
#[derive(Default)]
pub struct UnitTable {
    hover: Hover,
    /// The file of the unit that is chosen.
    chosen: Option<String>,
    /// The place that is to have the keys and to be in view.
    wanted: Option<usize>,
}

/// What was done in the table.
pub enum Done {
    /// Sorted otherwise.
    Sorted(Sorted),
    /// A unit is to be opened.
    Open(usize),
    /// Letters were typed onto a row: units are to be found by them.
    Find(String),
}

/// The columns as they fit a width: each beside the other, or set and turf under the unit's name and long
/// words in two lines.
struct Fit {
    is_folded: bool,
    /// The columns beside each other, from the left, each with its width.
    beside: Vec<(Column, f32)>,
}

impl Fit {
    fn of(width: f32, gap: f32) -> Self {
        let wide = Column::ALL.map(|column| (column, column.width()));
        let all =
            |columns: &[(Column, f32)]| columns.iter().map(|(_, width)| width + gap).sum::<f32>();
        let rest = width - all(&wide);
        if rest >= 0.0 {
            let mut beside = wide.to_vec();
            if let Some((_, name)) = beside.first_mut() {
                *name = (*name + rest).min(WIDEST_NAME.max(*name));
            }
            return Self {
                is_folded: false,
                beside,
            };
        }
        let beside = Column::ALL.into_iter();
        let beside = beside.filter(|column| !matches!(column, Column::Set | Column::Turf));
        let mut beside: Vec<_> = beside
            .map(|column| (column, column.folded_width()))
            .collect();
        let rest = width - all(&beside);
        if let Some((_, name)) = beside.first_mut() {
            *name = (*name + rest).clamp(*name, WIDEST_NAME);
        }
        Self {
            is_folded: true,
            beside,
        }
    }

    fn row(&self) -> f32 {
        if self.is_folded { FOLDED_ROW } else { ROW }
    }

    /// The columns whose heads and texts stand in one place, the first over the others.
    fn in_one(&self, column: Column) -> &'static [Column] {
        match column {
            Column::Name if self.is_folded => &[Column::Set, Column::Turf],
            _ => &[],
        }
    }
}

impl UnitTable {
    /// Has the first row take the keys.
    pub const fn enter(&mut self) {
        self.wanted = Some(0);
    }

    /// Heads and rows.
    pub fn show(&mut self, ui: &mut Ui, shown: &Shown, sorted: Sorted) -> Option<Done> {
        let mut done = None;
        let wanted = self.wanted.take();
        let gap = ui.spacing().item_spacing.x;
        let fit = Fit::of(ui.available_width(), gap);
        ScrollArea::horizontal()
            .id_salt("shop table")
            .auto_shrink(false)
            .show(ui, |ui| {
                ui.style_mut().interaction.selectable_labels = false;
                let mut table = TableBuilder::new(ui)
                    .id_salt("units of the folder")
                    .striped(true)
                    .auto_shrink(false)
                    .min_scrolled_height(2.0 * fit.row())
                    .sense(Sense::CLICK)
                    .cell_layout(Layout::left_to_right(Align::Center));
                for (_, width) in &fit.beside {
                    table = table.column(Width::exact(*width).clip(true));
                }
                if let Some(wanted) = wanted {
                    table = table.scroll_to_row(wanted, None);
                }
                let table = table.header(fit.row(), |mut heads| {
                    for (column, _) in &fit.beside {
                        heads.col(|ui| {
                            if let Some(clicked) = heads_ui(ui, *column, &fit, sorted) {
                                done = Some(Done::Sorted(sorted.after_click(clicked)));
                            }
                        });
                    }
                });
                table.body(|body| {
                    body.rows(fit.row(), shown.places.len(), |mut row| {
                        let index = row.index();
                        let of_row = shown.places.get(index).and_then(|place| {
                            let unit = shown.units.get(*place)?;
                            Some((*place, unit))
                        });
                        let Some((place, unit)) = of_row else {
                            return;
                        };
                        let is_chosen = self.chosen.as_deref() == Some(&unit.row.file);
                        row.set_selected(is_chosen);
                        let mut name = None;
                        for (column, _) in &fit.beside {
                            row.col(|ui| {
                                if *column != Column::Name {
                                    cell_ui(ui, *column, unit, shown, fit.is_folded);
                                    return;
                                }
                                let is_open = shown.open == Some(place);
                                name = Some(if fit.is_folded {
                                    name_over_ui(ui, &fit, unit, is_open, shown)
                                } else {
                                    name_ui(ui, unit, is_open, shown)
                                });
                            });
                        }
                        let (cells, Some(name)) = (row.response(), name) else {
                            return;
                        };
                        let whole = cells.union(name.clone());
                        if wanted == Some(index) {
                            name.request_focus();
                        }
                        if whole.clicked() || name.gained_focus() {
                            self.chosen = Some(unit.row.file.clone());
                        }
                        if whole.clicked() && !name.clicked() {
                            name.request_focus();
                        }
                        let steps = steps_by_key(&name);
                        if steps.is_open || whole.double_clicked() {
                            done = Some(Done::Open(place));
                        }
                        // The key that brought the keys here moves them no further.
                        if steps.by != 0 && wanted != Some(index) {
                            let to = index.saturating_add_signed(steps.by);
                            self.wanted = Some(to.min(shown.places.len() - 1));
                            name.ctx.request_repaint();
                        }
                        if let Some(letters) = letters_by_key(&name) {
                            done = Some(Done::Find(letters));
                        }
                        self.hover.show(&whole, &name, unit, shown);
                    });
                });
            });
        done
    }
}

/// What the keys do on a row that has them.
struct ByKey {
    is_open: bool,
    by: isize,
}

fn steps_by_key(row: &egui::Response) -> ByKey {
    let mut done = ByKey {
        is_open: false,
        by: 0,
    };
    if !row.has_focus() {
        return done;
    }
    let filter = EventFilter {
        vertical_arrows: true,
        ..EventFilter::default()
    };
    let ctx = &row.ctx;
    ctx.memory_mut(|memory| memory.set_focus_lock_filter(row.id, filter));
    ctx.input(|input| {
        let pressed = |key| isize::from(input.key_pressed(key));
        done.is_open = input.key_pressed(Key::Enter);
        done.by = pressed(Key::ArrowDown) - pressed(Key::ArrowUp)
            + 10 * (pressed(Key::PageDown) - pressed(Key::PageUp));
    });
    done
}

/// Letters that were typed onto a row that has the keys; a mark may be a key of the window.
fn letters_by_key(row: &egui::Response) -> Option<String> {
    if !row.has_focus() {
        return None;
    }
    let typed = row.ctx.input(|input| {
        let texts = input.events.iter().filter_map(|event| match event {
            egui::Event::Text(text) => Some(text.as_str()),
            _ => None,
        });
        texts.collect::<String>()
    });
    let is_word = typed.starts_with(char::is_alphanumeric);
    is_word.then_some(typed)
}

/// The heads that stand in one place: which was clicked.
fn heads_ui(ui: &mut Ui, column: Column, fit: &Fit, sorted: Sorted) -> Option<Column> {
    let mut clicked = None;
    let under = fit.in_one(column);
    if under.is_empty() {
        return head_ui(ui, column, sorted).then_some(column);
    }
    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for line in [&[column][..], under] {
            ui.horizontal(|ui| {
                for one in line {
                    if head_ui(ui, *one, sorted) {
                        clicked = Some(*one);
                    }
                    ui.add_space(8.0);
                }
            });
        }
    });
    clicked
}

/// A unit's name with what stands under it.
fn name_over_ui(
    ui: &mut Ui,
    fit: &Fit,
    unit: &BoardUnit,
    is_open: bool,
    shown: &Shown,
) -> egui::Response {
    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        // Two lines of words, with no more room around them than a row has.
        ui.spacing_mut().interact_size.y = 22.0;
        ui.spacing_mut().button_padding.y = 0.0;
        let name = name_ui(ui, unit, is_open, shown);
        ui.horizontal(|ui| {
            for column in fit.in_one(Column::Name) {
                cell_ui(ui, *column, unit, shown, false);
                ui.add_space(8.0);
            }
        });
        name
    })
    .inner
}

/// The head of a column; whether it was clicked.
fn head_ui(ui: &mut Ui, column: Column, sorted: Sorted) -> bool {
    let text = RichText::new(column.head()).family(strong());
    ui.style_mut().wrap_mode = Some(TextWrapMode::Wrap);
    ui.spacing_mut().item_spacing.x = 3.0;
    let button = ui
        .add(Button::new(text).frame(false))
        .accessible_name(format!("Sort by {}", column.head()));
    let response = button.on_hover_text(format!(
        "{}\nClick to sort; click again for the other way round.",
        column.meaning()
    ));
    if sorted.by == column {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(9.0), Sense::hover());
        let (foot, tip) = if sorted.is_reversed {
            (place.top(), place.bottom())
        } else {
            (place.bottom(), place.top())
        };
        let corners = vec![
            egui::pos2(place.left(), foot),
            egui::pos2(place.center().x, tip),
            egui::pos2(place.right(), foot),
        ];
        let ink = ui.visuals().text_color();
        ui.painter().add(egui::Shape::convex_polygon(
            corners,
            ink,
            egui::Stroke::NONE,
        ));
    }
    response.clicked()
}

/// A unit's name, which has the keys of its row.
fn name_ui(ui: &mut Ui, unit: &BoardUnit, is_open: bool, shown: &Shown) -> egui::Response {
    let name = unit.row.name_among(shown.repeated);
    // Where names are cut short, what tells equal ones apart stands first.
    let whole = if name == unit.row.name {
        name.clone()
    } else {
        format!("{}: {}", unit.row.file, unit.row.name)
    };
    let mut font = TextStyle::Button.resolve(ui.style());
    if is_open {
        font.family = strong();
    }
    let room = ui.available_width() - 2.0 * ui.spacing().button_padding.x;
    let text = RichText::new(without_middle(ui, &whole, &font, room)).font(font);
    let told = if is_open {
        format!("{name}, open")
    } else {
        name
    };
    ui.add(Button::new(text).frame(false)).accessible_name(told)
}

/// A text cut short in its middle where it takes more room: names often differ at their ends alone.
fn without_middle(ui: &Ui, text: &str, font: &FontId, room: f32) -> String {
    let takes = |text: String| {
        let laid = ui.painter();
        let laid = laid.layout_no_wrap(text, font.clone(), Color32::PLACEHOLDER);
        laid.size().x
    };
    if takes(text.to_owned()) <= room {
        return text.to_owned();
    }
    let letters: Vec<char> = text.chars().collect();
    let cut = |kept: usize| {
        let first: String = letters[..kept - kept / 2].iter().collect();
        let last: String = letters[letters.len() - kept / 2..].iter().collect();
        format!("{}…{}", first.trim_end(), last.trim_start())
    };
    // How many letters are kept: the most that fit.
    let (mut fits, mut too_many) = (2.min(letters.len()), letters.len());
    while fits + 1 < too_many {
        let middle = usize::midpoint(fits, too_many);
        if takes(cut(middle)) <= room {
            fits = middle;
        } else {
            too_many = middle;
        }
    }
    cut(fits)
}

fn cell_ui(ui: &mut Ui, column: Column, unit: &BoardUnit, shown: &Shown, is_wrapped: bool) {
    let (row, theme) = (&unit.row, theme(ui.ctx()));
    ui.spacing_mut().item_spacing.x = 4.0;
    let set = row.set.as_deref().and_then(|set| shown.sets.get(set));
    let differs = set.is_some_and(|set| {
        let [height, behind] = set.marks(&row.file);
        match column {
            Column::Set => height || behind,
            Column::Height => height,
            Column::Behind => behind,
            _ => false,
        }
    });
    let level = match column {
        Column::Status => Some(row.shown_level()),
        _ => differs.then_some(Level::Watch),
    };
    if let Some(level) = level {
        symbol_ui(ui, level, theme);
    }
    let text = column.text(row, shown.system);
    let mut text = RichText::new(text);
    if differs {
        text = text.family(strong());
    }
    // A row that is chosen has one ink for all its words; a weak one cannot be read on it.
    let is_chosen = ui.visuals().override_text_color.is_some();
    if column == Column::Due && row.due.is_err() && !is_chosen {
        text = text.weak();
    }
    let label = Label::new(text);
    ui.add(if is_wrapped {
        label.wrap()
    } else {
        label.extend()
    });
}

fn symbol_ui(ui: &mut Ui, level: Level, theme: Theme) {
    let (place, _) = ui.allocate_exact_size(Vec2::splat(SYMBOL), Sense::hover());
    symbol(ui, place, level, theme);
}
