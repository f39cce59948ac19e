//! One field of the form: a name, an entry, and the reason beside an entry that is wrong.

use egui::{Align, ComboBox, Layout, RichText, TextEdit, Ui, Vec2};

use super::drafts::{Draft, Drafts};
use super::help::{Word, word_of};
use super::look::colour;
use crate::analysis::Unsolved;
use crate::drawing::{Theme, level_symbol};
use crate::units::{Measure, Quantity, System};

/// Width of a field's name.
const NAME_WIDTH: f32 = 148.0;

/// What a form's fields have in common.
pub(super) struct Fields<'a> {
    pub(super) drafts: &'a mut Drafts,
    pub(super) system: System,
    pub(super) trouble: Option<Unsolved>,
    pub(super) theme: Theme,
}

impl Fields<'_> {
    /// A quantity.
    pub(super) fn quantity<M: Measure>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        path: &str,
        quantity: &mut Quantity<M>,
    ) {
        self.row(ui, name, path, |fields, ui| {
            fields.entry(ui, name, path, quantity, f32::INFINITY);
        });
    }

    /// A quantity that may be left out; `otherwise` says what then holds.
    pub(super) fn optional<M: Measure>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        path: &str,
        entry: &mut Option<Quantity<M>>,
        otherwise: &str,
    ) {
        self.row(ui, name, path, |fields, ui| {
            fields.optional_entry(ui, name, path, entry, otherwise, f32::INFINITY);
        });
    }

    /// A text of one's own.
    pub(super) fn text(&mut self, ui: &mut Ui, name: &str, path: &str, text: &mut String) {
        self.checked_text(ui, name, path, text, |_| Ok(()));
    }

    /// A text of one's own that has to pass a check; a wrong one stays in its field alone.
    pub(super) fn checked_text(
        &mut self,
        ui: &mut Ui,
        name: &str,
        path: &str,
        text: &mut String,
        check: impl Fn(&str) -> Result<(), String>,
    ) {
        self.row(ui, name, path, |fields, ui| {
            let kept = text.clone();
            let shown = fields.shown(path, || kept.clone());
            fields.text_entry(ui, name, path, shown, kept, f32::INFINITY, |typed| {
                check(typed)?;
                typed.clone_into(text);
                Ok(())
            });
        });
    }

    /// A whole number.
    pub(super) fn count(&mut self, ui: &mut Ui, name: &str, path: &str, count: &mut u32) {
        self.row(ui, name, path, |fields, ui| {
            let kept = count.to_string();
            let shown = fields.shown(path, || kept.clone());
            fields.text_entry(ui, name, path, shown, kept, f32::INFINITY, |text| {
                let read = text.trim().parse::<u32>();
                *count = read.map_err(|_| "write a whole number, like 8".to_owned())?;
                Ok(())
            });
        });
    }

    /// The entry of a quantity without its name.
    pub(super) fn entry<M: Measure>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        path: &str,
        quantity: &mut Quantity<M>,
        width: f32,
    ) {
        let (system, unit) = (self.system, M::unit_in(self.system).0);
        let shown = self.shown(path, || quantity.shown_in(system));
        let kept = quantity.text().to_owned();
        self.text_entry(ui, name, path, shown, kept, width, |text| {
            *quantity = Quantity::typed(text, unit).map_err(|problem| problem.to_string())?;
            Ok(())
        });
    }

    /// The entry of a quantity that may be left out, without its name.
    pub(super) fn optional_entry<M: Measure>(
        &mut self,
        ui: &mut Ui,
        name: &str,
        path: &str,
        entry: &mut Option<Quantity<M>>,
        otherwise: &str,
        width: f32,
    ) {
        let (system, unit) = (self.system, M::unit_in(self.system).0);
        let was_left_out = match self.drafts.get(path) {
            Some(draft) => draft.kept.is_empty(),
            None => entry.is_none(),
        };
        let shown = self.shown(path, || {
            entry.as_ref().map_or_else(
                || otherwise.to_owned(),
                |quantity| quantity.shown_in(system),
            )
        });
        let kept = entry
            .as_ref()
            .map_or_else(String::new, |quantity| quantity.text().to_owned());
        self.text_entry(ui, name, path, shown, kept, width, |text| {
            let text = text.trim();
            // Going back to what stood there while nothing was set leaves it out again.
            *entry = if text.is_empty() || text == otherwise && was_left_out {
                None
            } else {
                Some(Quantity::typed(text, unit).map_err(|problem| problem.to_string())?)
            };
            Ok(())
        });
    }

    /// The reason why a field is wrong, from its draft or from the checks.
    pub(super) fn problem(&self, path: &str) -> Option<String> {
        let drafted = self
            .drafts
            .get(path)
            .and_then(|draft| draft.problem.clone());
        drafted.or_else(|| match &self.trouble {
            Some(Unsolved::Flaw(flaw)) if flaw.path == path => Some(flaw.kind.to_string()),
            _ => None,
        })
    }

    /// Shows the reason under a field, with a symbol.
    pub(super) fn problem_ui(&self, ui: &mut Ui, path: &str) {
        let Some(problem) = self.problem(path) else {
            return;
        };
        ui.horizontal_wrapped(|ui| {
            let (place, _) = ui.allocate_exact_size(Vec2::splat(14.0), egui::Sense::hover());
            symbol(ui, place, crate::analysis::Level::Over, self.theme);
            ui.label(RichText::new(problem).size(13.0));
        });
    }

    fn shown(&self, path: &str, otherwise: impl FnOnce() -> String) -> String {
        self.drafts
            .get(path)
            .map_or_else(otherwise, |draft| draft.text.clone())
    }

    fn row(&mut self, ui: &mut Ui, name: &str, path: &str, entry: impl FnOnce(&mut Self, &mut Ui)) {
        ui.horizontal(|ui| {
            name_ui(ui, name, path);
            entry(self, ui);
        });
        self.problem_ui(ui, path);
    }

    /// Shows a text and takes what is typed; a wrong text stays. `kept` is what the document holds.
    #[allow(clippy::too_many_arguments)] // one widget, and every argument is another of its parts
    fn text_entry(
        &mut self,
        ui: &mut Ui,
        name: &str,
        path: &str,
        mut text: String,
        kept: String,
        width: f32,
        mut take: impl FnMut(&str) -> Result<(), String>,
    ) {
        let is_wrong = self.problem(path).is_some();
        let response = ui
            .scope(|ui| {
                if is_wrong {
                    let wrong = egui::Stroke::new(
                        2.0,
                        colour(self.theme.level(crate::analysis::Level::Over)),
                    );
                    let widgets = &mut ui.visuals_mut().widgets;
                    for state in [
                        &mut widgets.inactive,
                        &mut widgets.hovered,
                        &mut widgets.active,
                    ] {
                        state.bg_stroke = wrong;
                    }
                }
                // Names are the file's, so that ids stay when the form is rearranged.
                ui.add(
                    TextEdit::singleline(&mut text)
                        .id_salt(path)
                        .desired_width(width),
                )
            })
            .inner
            .accessible_name(name);
        if response.changed() {
            let problem = take(&text).err();
            let kept = self
                .drafts
                .get(path)
                .map_or(kept, |draft| draft.kept.clone());
            let draft = Draft {
                name: name.to_owned(),
                text,
                problem,
                kept,
                holder: response.id,
            };
            self.drafts.put(path, draft);
        } else if !response.has_focus()
            && let Some(draft) = self.drafts.get(path).cloned()
            && (draft.holder == response.id || !ui.memory(|memory| memory.has_focus(draft.holder)))
        {
            let is_undone =
                response.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Escape));
            if is_undone {
                // What the document held was right, so taking it again cannot fail.
                let _ = take(&draft.kept);
            }
            if is_undone || draft.problem.is_none() {
                self.drafts.remove(path);
            }
        }
        explain(response, word_of(path));
    }
}

/// A field's name, with its meaning while the pointer rests on it.
pub(super) fn name_ui(ui: &mut Ui, name: &str, path: &str) {
    let size = Vec2::new(NAME_WIDTH, ui.spacing().interact_size.y);
    let layout = Layout::left_to_right(Align::Center);
    let label = ui.allocate_ui_with_layout(size, layout, |ui| {
        ui.set_min_width(NAME_WIDTH);
        let label = egui::Label::new(name).truncate().selectable(false);
        ui.add(label.sense(egui::Sense::hover()))
    });
    explain(label.inner, word_of(path));
}

/// Shows a word's meaning and how it is measured while the pointer rests on it.
pub(super) fn explain(response: egui::Response, word: Option<&'static Word>) -> egui::Response {
    match word {
        None => response,
        Some(word) => response.on_hover_ui(|ui| word.help_ui(ui)),
    }
}

/// A level's symbol.
pub(super) fn symbol(ui: &Ui, place: egui::Rect, level: crate::analysis::Level, theme: Theme) {
    use super::paint::{paper, rect, stroked};
    let (body, line) = level_symbol(level, paper(place));
    let ink = colour(theme.level(level));
    let painter = ui.painter();
    match level {
        crate::analysis::Level::Fine => {
            painter.circle_filled(place.center(), place.width() / 2.0, ink);
        }
        crate::analysis::Level::Watch => {
            let corners = body.elements().iter().filter_map(kurbo::PathEl::end_point);
            let corners = corners.map(super::paint::pos).collect();
            painter.add(egui::Shape::convex_polygon(
                corners,
                ink,
                egui::Stroke::NONE,
            ));
        }
        crate::analysis::Level::Over => {
            painter.rect_filled(rect(kurbo::Shape::bounding_box(&body)), 1.0, ink);
        }
    }
    let white = colour(theme.look(crate::drawing::Role::Paper).fill);
    painter.extend(stroked(
        &line,
        egui::Stroke::new((place.width() / 9.0).max(1.6), white),
    ));
}

/// Small words under a heading.
pub(super) fn note(ui: &mut Ui, text: &str) {
    ui.label(RichText::new(text).weak().size(13.0));
}

/// A choice of a few, with its name beside it.
pub(super) fn choice(
    ui: &mut Ui,
    name: &str,
    path: &str,
    shown: &str,
    choices: impl FnOnce(&mut Ui),
) {
    ui.horizontal(|ui| {
        name_ui(ui, name, path);
        let response = ComboBox::from_id_salt(path)
            .width(ui.available_width())
            .selected_text(shown)
            .show_ui(ui, choices)
            .response
            .accessible_name(name);
        explain(response, word_of(path));
    });
}
