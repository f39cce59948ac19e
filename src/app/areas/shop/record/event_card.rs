//! The card on which an event is typed in, to be added to the record.

use std::cell::RefCell;
use std::path::PathBuf;
use std::rc::Rc;

use egui::{Button, Grid, TextEdit, Ui};

use crate::analysis::{Level, NumberId};
use crate::app::desk::{Card, Desk, Next};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::{colour, theme};
use crate::plate::{Day, Entry, EntryField, TypedEntry};
use crate::store::add_entry;
use crate::units::{Angle, Length, Measure as _, Quantity, System};

/// Width of a field, and of one for words.
const FIELD: f32 = 150.0;
const WORDS: f32 = 430.0;

/// What was typed on a card that was put away, and the file of the unit it was for: it stands on the next
/// card for that unit. None once it is added, or given up by Cancel.
pub type Draft = Rc<RefCell<Option<(Option<PathBuf>, TypedEntry)>>>;

/// The card.
pub struct EventCard {
    unit_file: Option<PathBuf>,
    typed: TypedEntry,
    /// What stood on it to begin with.
    begun_with: TypedEntry,
    draft: Draft,
    /// Whether it was to be added as it stands: fields left empty are told of then, too.
    was_tried: bool,
    /// Why it could not be added.
    problem: Option<String>,
    has_begun: bool,
}

impl EventCard {
    /// For the unit in front: what was typed for it before, or today and whoever wrote last.
    pub fn for_unit(desk: &Desk, last: Option<&Entry>, draft: &Draft) -> Self {
        let mut typed = TypedEntry::default();
        *typed.text_mut(EntryField::Date) = Day::today().to_string();
        if let Some(last) = last {
            typed.text_mut(EntryField::By).clone_from(&last.by);
        }
        let unit_file = desk.session().file().map(std::borrow::ToOwned::to_owned);
        let begun_with = typed.clone();
        let kept = draft.take().filter(|(of, _)| *of == unit_file);
        Self {
            unit_file,
            typed: kept.map_or(typed, |(_, typed)| typed),
            begun_with,
            draft: Rc::clone(draft),
            was_tried: false,
            problem: None,
            has_begun: false,
        }
    }

    /// Fills in what the unit is set to now.
    fn fill_in(&mut self, desk: &Desk) {
        let Some(good) = desk.good() else { return };
        let system = desk.system();
        let numbers = good.solution.numbers();
        let length = |id| Length::from_base(numbers.base(id).unwrap_or_default()).entry(system);
        let angle = |id| Angle::from_base(numbers.base(id).unwrap_or_default()).entry(system);
        let knife = good.document.fitted_name().to_owned();
        for (field, text) in [
            (EntryField::ReelDiameter, length(NumberId::ReelDiameter)),
            (EntryField::Knife, knife),
            (EntryField::HeightOfCut, length(NumberId::HeightOfCut)),
            (EntryField::Attitude, angle(NumberId::Attitude)),
            (EntryField::BehindCentre, length(NumberId::BehindCentre)),
        ] {
            *self.typed.text_mut(field) = text;
        }
    }

    fn fields_ui(&mut self, ui: &mut Ui, system: System) {
        Grid::new("event").num_columns(2).show(ui, |ui| {
            for field in EntryField::ALL {
                ui.label(field.name());
                let is_words = matches!(
                    field,
                    EntryField::By | EntryField::What | EntryField::Knife | EntryField::Notes
                );
                ui.vertical(|ui| {
                    let text = self.typed.text_mut(field);
                    let response = ui
                        .add(
                            TextEdit::singleline(text)
                                .id_salt(field.name())
                                .hint_text(example(field, system))
                                .desired_width(if is_words { WORDS } else { FIELD }),
                        )
                        .accessible_name(field.name());
                    if field == EntryField::Hours && !std::mem::replace(&mut self.has_begun, true) {
                        response.request_focus();
                    }
                    // While a person still types, it is not wrong yet.
                    let is_told = self.was_tried || !response.has_focus();
                    if let Some(why) = self.typed.problem(field, system).filter(|_| is_told) {
                        let ink = colour(theme(ui.ctx()).level(Level::Over));
                        ui.colored_label(ink, why);
                    }
                });
                ui.end_row();
            }
        });
    }

    /// Adds the event; whether the card stays.
    fn add(&mut self, desk: &mut Desk) -> Next {
        self.was_tried = true;
        let Ok(entry) = self.typed.entry(desk.system()) else {
            self.problem = Some("Not added yet: correct the marked fields.".to_owned());
            return Next::Stay;
        };
        let Some(file) = &self.unit_file else {
            self.problem = Some("Not added: save the unit first.".to_owned());
            return Next::Stay;
        };
        match add_entry(file, &entry) {
            Ok(record) => {
                desk.tell(format!("Added to the record: {}", record.display()));
                Next::Close
            }
            Err(problem) => {
                self.problem = Some(format!("Not added. {problem}"));
                Next::Stay
            }
        }
    }
}

impl Card for EventCard {
    fn name(&self) -> &'static str {
        "event"
    }

    fn width(&self) -> f32 {
        690.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("Add an event to the record"));
        ui.label("All but the date may be left out. What was added stays: correct a slip by adding another event with a note.");
        caution_in_short_ui(ui);
        if ui
            .add_enabled(
                desk.good().is_some(),
                Button::new("Fill in as the unit is set now"),
            )
            .on_hover_text("Reel diameter, knife, height of cut, attitude and behind centre")
            .clicked()
        {
            self.fill_in(desk);
        }
        self.fields_ui(ui, desk.system());
        if let Some(problem) = &self.problem {
            let ink = colour(theme(ui.ctx()).level(Level::Over));
            ui.colored_label(ink, problem);
        }
        ui.add_space(6.0);
        let mut next = Next::Stay;
        ui.horizontal(|ui| {
            if ui.button("Add to the record").clicked() {
                next = self.add(desk);
            }
            if ui.button("Cancel").clicked() {
                next = Next::Close;
            }
        });
        let is_kept = matches!(next, Next::Stay) && self.typed != self.begun_with;
        *self.draft.borrow_mut() = is_kept.then(|| (self.unit_file.clone(), self.typed.clone()));
        next
    }

    fn yields_to_a_click(&self) -> bool {
        false
    }

    fn works_on_unit(&self) -> bool {
        true
    }
}

/// What a field is filled in with, for example.
fn example(field: EntryField, system: System) -> String {
    let length = |mm| {
        Quantity::from_value(Length::from_mm(mm), system)
            .text()
            .to_owned()
    };
    match field {
        EntryField::Date => "2026-11-25".to_owned(),
        EntryField::Hours => "1210".to_owned(),
        EntryField::What => "reel ground".to_owned(),
        EntryField::ReelDiameter => length(125.984),
        EntryField::TopGround | EntryField::FaceGround => length(0.254),
        EntryField::HeightOfCut => length(12.7),
        EntryField::Attitude => "4 deg".to_owned(),
        EntryField::BehindCentre => length(7.62),
        EntryField::FrontBefore | EntryField::RearBefore => length(0.1016),
        EntryField::FrontAfter | EntryField::RearAfter => length(0.0127),
        EntryField::By | EntryField::Knife | EntryField::Notes => String::new(),
    }
}
