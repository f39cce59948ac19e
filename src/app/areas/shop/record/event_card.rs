//! The card on which an event is typed in, to be added to the record.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::rc::Rc;

use egui::{Button, Grid, Key, Label, Sense, TextEdit, Ui, Vec2};

use crate::analysis::{EventDoubt, Level, NumberId, ReelSizes, event_doubts};
use crate::app::desk::{Card, Desk, Next};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::theme;
use crate::app::widgets::symbol::symbol;
use crate::app::widgets::typing::{take_all, take_all_in_hand};
use crate::plate::{Day, Entry, EntryField, TypedEntry};
use crate::store::{add_entry, open_record, record_beside};
use crate::units::{Angle, Length, Measure as _, Quantity, System};

/// Width of a field, and of one for words.
const FIELD: f32 = 150.0;
const WORDS: f32 = 430.0;
/// Side of a level's sign.
const SIGN: f32 = 16.0;

/// What was typed on cards that were put away, each by the file of the unit it was for and the place of the
/// event it corrects: it stands on the next card for those. None once it is added, or given up by Cancel.
pub type Drafts = Rc<RefCell<BTreeMap<For, TypedEntry>>>;

/// The file of a unit, and the place of the event in its record that is corrected.
type For = (Option<PathBuf>, Option<usize>);

/// The card.
pub struct EventCard {
    is_for: For,
    typed: TypedEntry,
    /// What stood on it to begin with.
    begun_with: TypedEntry,
    drafts: Drafts,
    /// Whether it was to be added as it stands: fields left empty are told of then, too.
    was_tried: bool,
    /// Why it could not be added.
    problem: Option<String>,
    /// What a person is asked about before it is added, and what was typed then.
    asked: Option<(TypedEntry, Vec<EventDoubt>)>,
    /// The field that is to have the keys.
    wanted: Option<EntryField>,
}

impl EventCard {
    /// For the unit in front: what was typed for it before, or today and whoever wrote last.
    pub fn for_unit(desk: &Desk, last: Option<&Entry>, drafts: &Drafts) -> Self {
        let mut typed = TypedEntry::default();
        *typed.text_mut(EntryField::Date) = Day::today().to_string();
        if let Some(last) = last {
            typed.text_mut(EntryField::By).clone_from(&last.by);
        }
        Self::begun(desk, None, EntryField::Hours, typed, drafts)
    }

    /// To correct an event in the record of the unit in front: with its day, its hours and what was read.
    pub fn correcting(desk: &Desk, (place, entry): (usize, &Entry), drafts: &Drafts) -> Self {
        let typed = TypedEntry::correcting(entry);
        let first = if entry.reel_diameter.is_some() {
            EntryField::ReelDiameter
        } else {
            EntryField::Hours
        };
        Self::begun(desk, Some(place), first, typed, drafts)
    }

    fn begun(
        desk: &Desk,
        corrects: Option<usize>,
        first: EntryField,
        typed: TypedEntry,
        drafts: &Drafts,
    ) -> Self {
        let file = desk.session().file().map(Path::to_owned);
        let is_for = (file, corrects);
        let begun_with = typed.clone();
        let kept = drafts.borrow_mut().remove(&is_for);
        Self {
            is_for,
            typed: kept.unwrap_or(typed),
            begun_with,
            drafts: Rc::clone(drafts),
            was_tried: false,
            problem: None,
            asked: None,
            wanted: Some(first),
        }
    }

    /// What correcting does and does not.
    fn how_to_correct(&self) -> String {
        let record = self.is_for.0.as_deref().map(record_beside);
        let record = record.as_deref().and_then(Path::file_name);
        let record = record.unwrap_or_default().to_string_lossy();
        format!(
            "Type what is right and keep the date: of the reel diameters of one date, the last added counts, and no new reel begins with it. The event with the slip stays in the record. Of what was set, the last added is shown as what came after it. A wrong date cannot be put right this way: take the event's line out of {record} with a text editor."
        )
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

    /// The fields; whether Enter was pressed in one.
    fn fields_ui(&mut self, ui: &mut Ui, system: System) -> bool {
        let mut is_entered = false;
        let wanted = self.wanted.take();
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
                    take_all_in_hand(ui, &response, self.typed.text(field));
                    if wanted == Some(field) {
                        response.request_focus();
                        take_all(ui, &response, self.typed.text(field));
                    }
                    is_entered |=
                        response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
                    // While a person still types, it is not wrong yet.
                    let is_told = self.was_tried || !response.has_focus();
                    if let Some(why) = self.typed.problem(field, system).filter(|_| is_told) {
                        told_ui(ui, Level::Over, &why);
                    }
                    let asked = self.asked.iter().flat_map(|(_, doubts)| doubts);
                    for doubt in asked.filter(|doubt| doubt.field == field) {
                        told_ui(ui, Level::Watch, &doubt.told);
                    }
                });
                ui.end_row();
            }
        });
        is_entered
    }

    /// Adds the event, once a person has said that it is right where it is odd beside the record or the
    /// unit; whether the card stays.
    fn add(&mut self, desk: &mut Desk, is_said_to_be_right: bool) -> Next {
        self.was_tried = true;
        self.asked = None;
        let system = desk.system();
        let entry = match self.typed.entry(system) {
            Ok(entry) => entry,
            Err(wrong) => {
                self.wanted = wrong.first().map(|(field, _)| *field);
                self.problem = Some("Not added yet: correct the marked fields.".to_owned());
                return Next::Stay;
            }
        };
        let Some(file) = &self.is_for.0 else {
            self.problem = Some("Not added: save the unit first.".to_owned());
            return Next::Stay;
        };
        if !is_said_to_be_right {
            let doubts = doubts(desk, file, &entry);
            if let Some(first) = doubts.first() {
                self.wanted = Some(first.field);
                self.problem = None;
                self.asked = Some((self.typed.clone(), doubts));
                return Next::Stay;
            }
        }
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
        let is_correcting = self.is_for.1.is_some();
        if is_correcting {
            ui.label(Lettering::CardTitle.of("Correct an event of the record"));
            ui.label(self.how_to_correct());
        } else {
            ui.label(Lettering::CardTitle.of("Add an event to the record"));
            ui.label("All but the date may be left out. What was added stays in the record: a slip is put right by another event of the same date, see \"Correct…\" beside each.");
        }
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
        // Over the fields, where it is in view in a low window too.
        let is_right = self.asked.is_some() && asked_ui(ui, self.wanted.is_some());
        let is_entered = self.fields_ui(ui, desk.system());
        if self
            .asked
            .as_ref()
            .is_some_and(|(typed, _)| *typed != self.typed)
        {
            self.asked = None;
        }
        if let Some(problem) = &self.problem {
            told_ui(ui, Level::Over, problem);
        }
        ui.add_space(6.0);
        let mut next = Next::Stay;
        ui.horizontal(|ui| {
            let is_given = ui.button("Add to the record").clicked();
            if is_given || is_entered || is_right {
                next = self.add(desk, is_right);
            }
            if ui.button("Cancel").clicked() {
                next = Next::Close;
            }
        });
        let is_kept = matches!(next, Next::Stay) && self.typed != self.begun_with;
        let mut drafts = self.drafts.borrow_mut();
        if is_kept {
            drafts.insert(self.is_for.clone(), self.typed.clone());
        } else {
            drafts.remove(&self.is_for);
        }
        next
    }

    fn yields_to_a_click(&self) -> bool {
        false
    }

    fn works_on_unit(&self) -> bool {
        true
    }
}

/// A sentence with the sign of its level, in an ink that can be read on the card.
fn told_ui(ui: &mut Ui, level: Level, told: &str) {
    ui.horizontal_top(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(SIGN), Sense::hover());
        symbol(ui, place, level, theme(ui.ctx()));
        ui.add(Label::new(told).wrap());
    });
}

/// Asks whether what is marked is right; whether it was said to be. A question that is new is brought into
/// view.
fn asked_ui(ui: &mut Ui, is_new: bool) -> bool {
    let question = "Not added yet. Is what is marked right? Correct it, or add it as it is.";
    let asked = ui.horizontal(|ui| {
        let (place, _) = ui.allocate_exact_size(Vec2::splat(SIGN), Sense::hover());
        symbol(ui, place, Level::Watch, theme(ui.ctx()));
        ui.label(question);
        ui.button("It is right: add it").clicked()
    });
    if is_new {
        asked.response.scroll_to_me(None);
    }
    asked.inner
}

/// What is odd about an event beside the record as it stands now, and the unit. A record that cannot be read
/// is told when the event is added.
fn doubts(desk: &Desk, unit_file: &Path, entry: &Entry) -> Vec<EventDoubt> {
    let record = open_record(&record_beside(unit_file)).unwrap_or_default();
    let reel = &desk.document().reel;
    let reel = ReelSizes {
        new: reel.new_diameter.value(),
        smallest: reel.smallest_diameter.value(),
    };
    event_doubts(entry, &record, Some(reel), Day::today(), desk.system())
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
