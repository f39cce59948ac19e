//! The form, in two steps: as measured, then as wanted. One at a time is on screen, so that no reading
//! is typed where a wish belongs.

mod behind_card;
mod choice;
mod entry;
mod example_mark;
mod field;
mod ground;
mod instruments;
mod knives;
mod lean_card;
mod limits;
mod measured;
mod others_card;
mod reading_help;
mod reason;
mod reel_card;
mod row;
mod section;
mod slider;
mod straightedge;
mod wanted;

pub use field::{Fields, fill_in};
pub use knives::edited_knife_ui;
pub use measured::example_speeds;
pub use wanted::{Wanted, range_of};

use egui::{Button, Id, Panel, Ui, Vec2};

use self::behind_card::BehindCard;
use self::lean_card::LeanCard;
use self::measured::{WantedCard, measured_ui};
use self::others_card::OthersCard;
use self::reading_help::reading_help_ui;
use self::reel_card::ReelCard;
use self::section::Standing;
use self::wanted::{drawn_as_wanted_ui, wanted_ui};
use super::desk::{Change, Desk, Part, SessionId, Slot};
use super::widgets::kept::Kept;
use super::widgets::lettering::Lettering;
use super::widgets::symbol::symbol;
use crate::unit::{Document, Field, Group, Reading, SettingEntry};

/// A step of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Step {
    Measured,
    Wanted,
}

impl Step {
    const ALL: [Self; 2] = [Self::Measured, Self::Wanted];

    const fn name(self) -> &'static str {
        match self {
            Self::Measured => "1 As measured",
            Self::Wanted => "2 As wanted",
        }
    }

    /// Whether a field stands in it.
    fn has(self, field: Field) -> bool {
        field.group().is_within(Group::Setting) == (self == Self::Wanted)
    }

    /// Whether it is the only one in which a change happened.
    fn has_all_of(self, change: &Change) -> bool {
        let is_here = |part: &Part| match part {
            Part::Field(field) => self.has(*field),
            Part::Group(group) => group.is_within(Group::Setting) == (self == Self::Wanted),
            Part::All => false,
        };
        !change.parts().is_empty() && change.parts().iter().all(is_here)
    }

    /// The step that a document is opened in.
    fn for_document(document: &Document) -> Self {
        let is_set = document.setting != SettingEntry::default();
        if is_set && document.example_count().is_none() {
            Self::Wanted
        } else {
            Self::Measured
        }
    }
}

/// The form. Which step is on screen begins anew with another document.
#[derive(Debug, Default)]
pub struct Form {
    state: Kept<SessionId, State>,
}

#[derive(Debug)]
struct State {
    step: Step,
    looked_at: Field,
    /// A reading that is to have the cursor when its step is shown.
    wanted: Option<Field>,
    keys: Keys,
}

impl State {
    fn for_document(document: &Document) -> Self {
        Self {
            step: Step::for_document(document),
            looked_at: Reading::ReelDiameter.into(),
            wanted: None,
            keys: Keys::default(),
        }
    }
}

/// Where the keys are and go in the form, as it was last shown.
#[derive(Clone, Debug, Default)]
pub struct Keys {
    /// The first entry.
    pub first: Option<Id>,
    /// Marks of examples and buttons between readings: their turn comes after every entry.
    pub marks: Vec<Id>,
    /// The field that has them.
    pub in_hand: Option<Field>,
}

impl Form {
    /// Where the keys are and go.
    pub fn keys(&self) -> Keys {
        let state = self.state.last();
        state.map_or_else(Keys::default, |state| state.keys.clone())
    }

    /// The switch between the steps, and the one that is chosen.
    pub fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let begin = |_: &SessionId| State::for_document(desk.document());
        let state = self.state.get(desk.session().id(), begin);
        // On a card the toolkit keeps the keys, and for one frame after it.
        let is_in_reach = ui.memory(|memory| memory.is_above_modal_layer(ui.layer_id()));
        if is_in_reach && !desk.has_card() && desk.begins_with_first_field() {
            state.wanted = Some(Field::Name);
        }
        if let Some(change) = desk.moved_by_step() {
            let only = Step::ALL.into_iter().find(|step| step.has_all_of(&change));
            state.step = only.unwrap_or(state.step);
        }
        state.show(ui, desk);
    }
}

impl State {
    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let solution = desk.good().map(|good| good.solution);
        let before = (self.looked_at, self.step);
        let (wants_card, keys) = fill_in(ui, desk, |ui, fields, document| {
            self.switch_ui(ui, fields, document);
            if self.step == Step::Measured {
                drawn_as_wanted_ui(ui, document, fields.system);
            }
            ui.separator();
            let wants_card = match self.step {
                Step::Measured => self.measured_ui(ui, fields, document),
                Step::Wanted => {
                    if let Some(first) = wanted_ui(ui, fields, document, solution.as_ref()) {
                        self.step = Step::Measured;
                        self.wanted = Some(first.into());
                    }
                    None
                }
            };
            let keys = Keys {
                first: fields.first,
                marks: std::mem::take(&mut fields.marks),
                in_hand: fields.in_hand.and_then(Slot::field),
            };
            (wants_card, keys)
        });
        self.keys = keys;
        match wants_card {
            Some(WantedCard::BehindCentre) => {
                let card = BehindCard::for_document(desk.document(), desk.system());
                desk.open_card(OthersCard::of(card));
            }
            Some(WantedCard::ReelDiameter) => {
                let card = ReelCard::for_document(desk.document(), desk.system());
                desk.open_card(OthersCard::of(card));
            }
            Some(WantedCard::Lean) => {
                if let Some(card) = LeanCard::for_document(desk.document(), desk.system()) {
                    desk.open_card(OthersCard::of(card));
                }
            }
            None => {}
        }
        if (self.looked_at, self.step) != before {
            ui.ctx().request_repaint();
        }
    }

    fn switch_ui(&mut self, ui: &mut Ui, fields: &Fields, document: &Document) {
        ui.add_space(4.0);
        ui.horizontal(|ui| {
            let size = Vec2::new(
                (ui.available_width() - ui.spacing().item_spacing.x) / 2.0,
                32.0,
            );
            for step in Step::ALL {
                let text = Lettering::Heading.of(step.name());
                let button = Button::selectable(self.step == step, text)
                    .frame_when_inactive(true)
                    .min_size(size);
                let response = ui.add(button);
                let told = Standing::of(fields, document, |field| step.has(field)).told();
                if let Some((level, _)) = &told {
                    let sign = Vec2::splat(15.0);
                    let at = response.rect.right_center() - Vec2::new(14.0, 0.0);
                    let place = egui::Rect::from_center_size(at, sign);
                    symbol(ui, place, *level, fields.theme);
                }
                if response.clicked() {
                    self.step = step;
                }
                let help = match step {
                    Step::Measured => "What you read on the unit as it stands on the plate.",
                    Step::Wanted => {
                        "What you want instead. Whatever you leave out stays as measured."
                    }
                };
                response.on_hover_ui(|ui| {
                    ui.label(help);
                    if let Some((_, text)) = told {
                        ui.label(text);
                    }
                });
            }
        });
    }

    fn measured_ui(
        &mut self,
        ui: &mut Ui,
        fields: &mut Fields,
        document: &mut Document,
    ) -> Option<WantedCard> {
        Panel::bottom("what is measured")
            .resizable(false)
            .exact_size(reading_help::HEIGHT)
            .show(ui, |ui| {
                reading_help_ui(ui, self.looked_at, document, fields);
            });
        fields.wanted = self.wanted.take();
        let wants_card = measured_ui(ui, fields, document);
        self.looked_at = fields.looked_at.unwrap_or(self.looked_at);
        wants_card
    }
}
