//! What a step tries on its units: their setting and their ground, typed for this step alone.

use std::collections::BTreeMap;
use std::sync::Arc;

use egui::{ComboBox, RichText, TextStyle, Ui, Vec2};

use super::texts::wrong_ui;
use crate::app::desk::{Change, Desk, Drafts};
use crate::app::form::Fields;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::list::list_ui;
use crate::app::widgets::look::theme;
use crate::lesson::{Named, Step, StepUnits, UnitUse, WrongEntry};
use crate::store::recovery::WrongText;
use crate::unit::{Document, Field, Reading};
use crate::units::clipped;

/// What of a setting is typed.
const SET: [Field; 4] = [
    Field::WantedAttitude,
    Field::WantedHeightOfCut,
    Field::WantedReelDiameter,
    Field::Extension,
];
/// Widths of an entry and of a list.
const ENTRY: f32 = 118.0;
const LIST: f32 = 130.0;
/// Letters of a knife's name that are shown.
const LONGEST: usize = 24;

/// Which of a step's units.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Side {
    First,
    Second,
}

/// What is being typed, by the step and its unit.
#[derive(Debug, Default)]
pub struct SettingsTyped(BTreeMap<(usize, Side), Typed>);

#[derive(Debug, Default)]
struct Typed {
    drafts: Drafts,
    /// The unit that is set here, and it as these fields left it.
    of: Option<Arc<Document>>,
    left: Option<Document>,
}

impl Side {
    const ALL: [Self; 2] = [Self::First, Self::Second];

    const fn title(self) -> &'static str {
        match self {
            Self::First => "Set for this step",
            Self::Second => "Set beside it",
        }
    }

    /// A field's name among both.
    fn named(self, name: &str) -> String {
        match self {
            Self::First => name.to_owned(),
            Self::Second => format!("{name}, beside it"),
        }
    }

    fn unit(self, step: &mut Step) -> &mut Option<UnitUse> {
        match self {
            Self::First => &mut step.unit,
            Self::Second => &mut step.second,
        }
    }

    /// What stands wrong for it in a step of the lesson.
    fn wrong(self, desk: &Desk, number: usize) -> Vec<WrongEntry> {
        let step = desk
            .lesson()
            .and_then(|work| work.lesson().steps.get(number));
        let wrong = step.iter().flat_map(|step| &step.wrong);
        let wrong = wrong.filter(|wrong| wrong.of_second == (self == Self::Second));
        wrong.cloned().collect()
    }

    fn document(self, units: &StepUnits) -> Option<&Arc<Document>> {
        let named: Option<&Named> = match self {
            Self::First => Some(&units.first),
            Self::Second => units.second.as_ref(),
        };
        named?.as_ref().ok()
    }
}

impl Typed {
    /// What stands wrong in these fields.
    fn wrong(&self, side: Side) -> impl Iterator<Item = WrongEntry> {
        let wrong = self.drafts.wrong_in_fields();
        wrong.map(move |(field, draft)| WrongEntry {
            of_second: side == Side::Second,
            field,
            name: draft.name.clone(),
            text: draft.text.clone(),
            why: draft.problem.clone().unwrap_or_default(),
        })
    }

    /// Puts what stands wrong back into its fields, in place of what stood in them.
    fn put_wrong(&mut self, wrong: &[WrongEntry], document: &Document) {
        self.drafts = Drafts::default();
        for wrong in wrong {
            let text = WrongText {
                field: wrong.field.to_string(),
                name: wrong.name.clone(),
                text: wrong.text.clone(),
                problem: wrong.why.clone(),
                is_waiting: false,
            };
            self.drafts
                .put_wrong_text(wrong.field.into(), &text, document);
        }
    }
}

/// The settings of a step's units.
pub fn settings_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    number: usize,
    units: &StepUnits,
    typed: &mut SettingsTyped,
) {
    for side in Side::ALL {
        let Some(document) = side.document(units) else {
            continue;
        };
        let typed = typed.0.entry((number, side)).or_default();
        ui.push_id(("set for a step", side as u8), |ui| {
            side_ui(ui, desk, (number, side), document, typed);
        });
    }
}

fn side_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    (number, side): (usize, Side),
    before: &Arc<Document>,
    typed: &mut Typed,
) {
    let is_same = typed.of.as_ref().is_some_and(|of| Arc::ptr_eq(of, before));
    let left = typed.left.take();
    // Taken back or set elsewhere meanwhile: what stood in a field is no more what is typed.
    if let Some(left) = left.as_ref().filter(|left| !is_same && *left != &**before) {
        typed.drafts.drop_stale(&Change::new(""), left, before);
    }
    let left = left.filter(|_| is_same);
    let mut document = left.unwrap_or_else(|| Document::clone(before));
    typed.of = Some(Arc::clone(before));
    // What stands wrong belongs to the step, which may have been moved or taken back.
    let was_wrong = side.wrong(desk, number);
    if !typed.wrong(side).eq(was_wrong.iter().cloned()) {
        typed.put_wrong(&was_wrong, before);
    }
    let mut fields = Fields::over(&mut typed.drafts, document.system(), theme(ui.ctx()));
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(side.title()).family(strong()));
        for field in SET {
            let name = field.name();
            beside(ui, name, |ui| {
                let named = side.named(name);
                fields.entry(ui, &named, field, &mut document, "as measured", ENTRY);
            });
        }
        knife_ui(ui, side, &mut document, &mut fields);
    });
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(side.named("Ground")).family(strong()));
        ui.scope(|ui| {
            ui.set_max_width(LIST);
            let name = side.named("Shape of the ground");
            if fields.choice_entry(ui, &name, Field::GroundShape, &mut document) {
                let change = Change::of("Shape of the ground", Field::GroundShape);
                fields.set(change.and(Reading::GroundRadius));
            }
        });
        let mut readings = vec![("Roller sink", Reading::RollerSink)];
        if document.ground.shape.radius().is_some() {
            readings.insert(0, ("Radius", Reading::GroundRadius));
        }
        for (name, reading) in readings {
            beside(ui, name, |ui| {
                let (named, field) = (side.named(name), reading.into());
                fields.entry(ui, &named, field, &mut document, "not measured", ENTRY);
            });
        }
        let is_set = desk.lesson().is_some_and(|work| {
            let step = work.lesson().steps.get(number);
            let unit = step.and_then(|step| match side {
                Side::First => step.unit.as_ref(),
                Side::Second => step.second.as_ref(),
            });
            unit.is_some_and(|unit| unit.setting.is_some() || unit.ground.is_some())
        });
        let is_set = is_set || !was_wrong.is_empty();
        let back = ui.add_enabled_ui(is_set, |ui| ui.button("As the unit has it"));
        let back = back
            .inner
            .on_hover_text("Leaves out what is set for this step");
        let name = side.named("As the unit has it");
        if back.accessible_name(&name).clicked() {
            desk.edit_lesson("setting of the step left out", None, |lesson| {
                let step = lesson.steps.get_mut(number);
                if let Some(unit) = step.and_then(|step| side.unit(step).as_mut()) {
                    unit.setting = None;
                    unit.ground = None;
                }
                if let Some(step) = lesson.steps.get_mut(number) {
                    step.drop_wrong(side == Side::Second);
                }
            });
        }
    });
    let readings = [Reading::RollerSink, Reading::GroundRadius].map(Field::from);
    for field in SET.into_iter().chain(readings) {
        if let Some(why) = fields.problem(field) {
            wrong_ui(ui, &format!("{}: {why}", side.named(field.name())));
        }
    }
    let change = fields.change.take();
    let stance = [Field::WantedAttitude, Field::WantedHeightOfCut];
    let is_stance = stance
        .into_iter()
        .any(|field| field.text(&document) != field.text(before));
    if document.setting.rollers.is_some() {
        ui.label(Lettering::Note.of(
            "Set by its rollers: an attitude or a height of cut typed here takes their place.",
        ));
        if is_stance {
            document.setting.rollers = None;
        }
    }
    keep_typed(
        desk,
        (number, side),
        (before, &document),
        &was_wrong,
        (typed, change),
    );
    typed.left = Some(document);
}

/// Puts what was set by these fields into the step, and what stands wrong in them beside it.
fn keep_typed(
    desk: &mut Desk,
    (number, side): (usize, Side),
    (before, document): (&Document, &Document),
    was_wrong: &[WrongEntry],
    (typed, change): (&mut Typed, Option<Change>),
) {
    let wrong: Vec<_> = typed.wrong(side).collect();
    let is_left_out = side.wrong(desk, number) != was_wrong;
    let typed_wrong = (wrong != was_wrong && !is_left_out).then(|| {
        let draft = typed.drafts.wrong_in_fields().map(|(_, draft)| draft);
        let draft = draft.last();
        let gone = was_wrong.iter().find(|was| !wrong.contains(was));
        let name = gone.map(|gone| gone.name.clone());
        let name = name.or_else(|| draft.map(|draft| draft.name.clone()));
        let change = Change::new(name.unwrap_or_default());
        match draft {
            Some(draft) => change.typed_into(draft.holder),
            None => change,
        }
    });
    let is_set = change.is_some();
    if let Some(change) = change.or(typed_wrong) {
        let name = format!("{} of the step", change.name().to_lowercase());
        desk.edit_lesson_by(&name, &change, |lesson| {
            if let Some(step) = lesson.steps.get_mut(number) {
                if is_set {
                    put(side.unit(step), before, document);
                }
                step.drop_wrong(side == Side::Second);
                step.wrong.extend(wrong);
            }
        });
        // The next unit to be set here is worked out from this one.
        typed.of = None;
    }
}

/// A name and its entry, which stay on one line.
fn beside(ui: &mut Ui, name: &str, entry: impl FnOnce(&mut Ui)) {
    let font = TextStyle::Body.resolve(ui.style());
    let words = ui
        .painter()
        .layout_no_wrap(name.to_owned(), font, ui.visuals().text_color());
    let between = ui.spacing().item_spacing.x;
    let wide = words.size().x + ENTRY.max(LIST) + 3.0 * between;
    let size = Vec2::new(wide, ui.spacing().interact_size.y);
    ui.allocate_ui(size, |ui| {
        ui.horizontal(|ui| {
            ui.label(name);
            entry(ui);
        });
    });
}

/// The knife fitted, where the unit has more than one.
fn knife_ui(ui: &mut Ui, side: Side, document: &mut Document, fields: &mut Fields) {
    if document.options.is_empty() {
        return;
    }
    let own = std::iter::once(&document.knife.name);
    let others = document.options.iter().map(|knife| &knife.name);
    let names: Vec<String> = own.chain(others).cloned().collect();
    let places: Vec<usize> = (0..names.len()).collect();
    let fitted = document.fitted_name();
    let before = names.iter().position(|name| name == fitted).unwrap_or(0);
    let mut at = before;
    let shown = |at: usize| clipped(&names[at], LONGEST).to_string();
    let list = ComboBox::from_id_salt("knife of the step")
        .selected_text(shown(at))
        .width(LIST);
    beside(ui, "Knife", |ui| {
        let list = list_ui(ui, list, |ui, list| {
            list.values(ui, &places, &mut at, shown);
        });
        list.accessible_name(side.named("Knife"));
    });
    if at != before {
        document.setting.knife = (at > 0).then(|| names[at].clone());
        fields.set(Change::new("knife"));
    }
}

/// Writes what a step tries into its use of a unit.
fn put(unit: &mut Option<UnitUse>, before: &Document, document: &Document) {
    // One that went on with the step before has all that this one tried from here on.
    let goes_on = unit.is_none();
    let unit = unit.get_or_insert_default();
    if goes_on || document.setting != before.setting {
        unit.setting = Some(document.setting.clone());
    }
    if goes_on || document.ground != before.ground {
        unit.ground = Some(document.ground.clone());
    }
}
