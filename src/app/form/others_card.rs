//! The frame of every card that works a field out from other readings, and fills it in: ways to choose
//! from, how the reading is taken, its picture, its fields, what follows with its ±, and the cautions.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Debug;

use egui::{RichText, ScrollArea, Sense, Ui, Vec2};

use super::field::Fields;
use crate::analysis::other_readings::Derived;
use crate::app::desk::{Card, Change, Desk, Drafts, Next, Slot};
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::look::{colour, theme};
use crate::app::widgets::paint::{Painted, paper};
use crate::app::widgets::words::capitalised;
use crate::drawing::{Role, Scene, ShownIn, Theme, View, lay_out};
use crate::unit::{Document, Field, Reading};
use crate::units::{Measure, Quantity, System, Value};

/// Width of a card and of its picture.
const WIDTH: f32 = 470.0;
/// Height of its picture, and where the window is low.
const PICTURE: f32 = 190.0;
const LOW_PICTURE: f32 = 130.0;
/// A window lower than this has the low picture.
const LOW_WINDOW: f32 = 800.0;
/// What stands around what can be scrolled: title, buttons, margins and some of the window.
const AROUND: f32 = 150.0;

/// Why nothing is filled in yet.
const STILL_EXAMPLES: &str = "Type your own readings over the examples first.";

/// What a card works out, and from what.
pub trait FromOthers: Debug + 'static {
    /// What follows.
    type Of: Measure + Into<Value>;

    /// What is worked out, as it is called in a sentence.
    fn name(&self) -> &'static str;

    /// The card's title.
    fn title(&self) -> &'static str;

    /// The reading that is filled in.
    fn reading(&self) -> Reading;

    /// The ways there are, and whether each is the chosen one; none where there is but one.
    fn ways(&self) -> Vec<(&'static str, bool)> {
        Vec::new()
    }

    /// Takes another way, by its place.
    fn choose(&mut self, _way: usize) {}

    /// How the reading is taken.
    fn how(&self, document: &Document) -> &'static str;

    /// The way's picture, not to scale.
    fn picture(&self, document: &Document, system: System) -> Scene;

    /// The readings to type.
    fn fields_ui(&mut self, ui: &mut Ui, fields: &mut Fields);

    /// What else it stands on.
    fn basis(&self, document: &Document) -> String;

    /// A ± to write behind a reading, where none carries one: "0.02 mm".
    fn off_to_write(&self, system: System) -> Option<&'static str>;

    /// What follows, or why nothing does.
    fn found(&self, document: &Document, system: System) -> Result<Derived<Self::Of>, String>;

    /// What else is told of what follows, ordinary print and fine print.
    fn told(
        &self,
        found: &Derived<Self::Of>,
        document: &Document,
        system: System,
    ) -> (Option<String>, String);

    /// Puts it into the document.
    fn fill(&self, document: &mut Document, reading: Quantity<Self::Of>);

    /// The fields that it must not be an example by.
    fn rests_on(&self) -> &'static [Field];
}

/// The card while it is open. What is typed into it is no part of the unit until it is filled in.
#[derive(Debug)]
pub struct OthersCard<T> {
    of: T,
    drafts: Drafts,
    /// What a person typed in each way: the other fields hold examples.
    measured: BTreeMap<usize, BTreeSet<Slot>>,
    /// Whether an example stands in the way in hand.
    has_example: bool,
}

impl<T: FromOthers> OthersCard<T> {
    /// A card of one matter.
    pub fn of(of: T) -> Self {
        Self {
            of,
            drafts: Drafts::default(),
            measured: BTreeMap::new(),
            has_example: true,
        }
    }

    fn found(&self, document: &Document, system: System) -> Result<Derived<T::Of>, String> {
        if self.drafts.first_wrong().is_some() {
            return Err("The reading is not right yet.".to_owned());
        }
        self.of.found(document, system)
    }

    fn ways_ui(&mut self, ui: &mut Ui) {
        let ways = self.of.ways();
        if ways.is_empty() {
            return;
        }
        ui.horizontal_wrapped(|ui| {
            ui.label("From");
            for (place, (name, is_chosen)) in ways.into_iter().enumerate() {
                let button = egui::Button::selectable(is_chosen, name);
                if ui.add(button.frame_when_inactive(true)).clicked() && !is_chosen {
                    self.of.choose(place);
                    self.drafts = Drafts::default();
                }
            }
        });
    }

    fn body_ui(&mut self, ui: &mut Ui, document: &Document, (system, theme): (System, Theme)) {
        ui.label(self.of.how(document));
        picture_ui(ui, &self.of.picture(document, system), theme);
        let way = self.of.ways().iter().position(|(_, is_chosen)| *is_chosen);
        let measured = self.measured.entry(way.unwrap_or(0)).or_default();
        let mut fields = Fields::over(&mut self.drafts, system, theme).on_card(ui, measured);
        self.of.fields_ui(ui, &mut fields);
        self.has_example = fields.has_example;
        let mut basis = self.of.basis(document);
        if self.drafts.first_wrong().is_none()
            && let Some(off) = self.of.off_to_write(system)
        {
            basis.push_str(" No ± is written behind a reading: write one, like ± ");
            basis.push_str(off);
            basis.push('.');
        }
        ui.label(Lettering::FinePrint.of(basis).weak());
        match self.found(document, system) {
            Ok(found) => self.found_ui(ui, &found, (document, system)),
            Err(why) => {
                ui.label(RichText::new(why).family(strong()));
            }
        }
        caution_in_short_ui(ui);
    }

    fn found_ui(
        &self,
        ui: &mut Ui,
        found: &Derived<T::Of>,
        (document, system): (&Document, System),
    ) {
        let shown = |of: T::Of| -> String { Into::<Value>::into(of).shown_in(system) };
        let (name, value) = (self.of.name(), shown(found.value));
        let name = capitalised(name);
        let text = if found.has_off() {
            format!("{name} {value} ± {} (95 %)", shown(found.expanded))
        } else {
            format!("{name} {value}, ± not entered")
        };
        ui.label(Lettering::Heading.of(text));
        let (told, fine) = self.of.told(found, document, system);
        if let Some(told) = told {
            ui.label(Lettering::Note.of(told));
        }
        let filled = found.as_reading(system);
        let text = filled.text();
        let text = if filled.half_width().is_some() {
            format!("Will be filled in as {text}, half-width for the field{fine}")
        } else {
            format!("Will be filled in as {text}{fine}")
        };
        ui.label(Lettering::FinePrint.of(text).weak());
    }
}

/// What was done in the card.
enum Action<M> {
    Stay,
    PutAway,
    Fill(Derived<M>),
}

impl<T: FromOthers> Card for OthersCard<T> {
    fn name(&self) -> &'static str {
        self.of.name()
    }

    fn width(&self) -> f32 {
        WIDTH
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        let (system, theme) = (desk.system(), theme(ui.ctx()));
        let document = desk.document();
        ui.label(Lettering::CardTitle.of(self.of.title()));
        self.ways_ui(ui);
        let room = (ui.ctx().content_rect().height() - AROUND).max(120.0);
        // A card grows with what stands on it, up to that.
        ScrollArea::vertical()
            .max_height(room)
            .min_scrolled_height(room)
            .show(ui, |ui| self.body_ui(ui, document, (system, theme)));
        ui.add_space(6.0);
        let found = self.found(document, system);
        let action = ui.horizontal(|ui| {
            let is_measured = found.is_ok() && !self.has_example;
            let fill = ui.add_enabled(is_measured, egui::Button::new("Fill in"));
            let is_put_away = ui.button("Close").clicked();
            if self.has_example {
                ui.label(Lettering::Note.of(STILL_EXAMPLES).weak());
            }
            match found {
                Ok(found) if fill.clicked() => Action::Fill(found),
                _ if is_put_away => Action::PutAway,
                _ => Action::Stay,
            }
        });
        match action.inner {
            Action::Stay => return Next::Stay,
            Action::PutAway => {}
            Action::Fill(found) => self.fill(desk, &found),
        }
        Next::Close
    }

    fn works_on_unit(&self) -> bool {
        true
    }
}

impl<T: FromOthers> OthersCard<T> {
    fn fill(&self, desk: &mut Desk, found: &Derived<T::Of>) {
        let reading = found.as_reading(desk.system());
        let name = capitalised(self.of.name());
        desk.tell(format!("{name} filled in: {}.", reading.text()));
        let field = self.of.reading();
        desk.edit(Change::of(name, field), |document| {
            self.of.fill(document, reading);
            // What follows from an example is no more than one.
            let rests_on = self.of.rests_on();
            if !rests_on.iter().any(|from| document.examples.has(*from)) {
                document.examples.keep(field);
            }
        });
    }
}

/// A picture as wide as the card, lower in a low window.
fn picture_ui(ui: &mut Ui, scene: &Scene, theme: Theme) {
    let is_low = ui.ctx().content_rect().height() < LOW_WINDOW;
    let height = if is_low { LOW_PICTURE } else { PICTURE };
    let size = Vec2::new(ui.available_width().min(WIDTH), height);
    let (place, _) = ui.allocate_exact_size(size, Sense::hover());
    let view = View::fitting(scene.bounds, paper(place));
    let panel = lay_out(scene, &view, ShownIn::Whole, theme);
    let ground = colour(theme.look(Role::Paper).fill);
    ui.painter().rect_filled(place, 4.0, ground);
    let clipped = ui.painter().with_clip_rect(place.intersect(ui.clip_rect()));
    Painted::from_panel(&panel).paint(&clipped);
}
