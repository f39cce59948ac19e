//! The second step of the form, as wanted: what is set, each beside what was measured.

use egui::{Align, Button, ComboBox, Label, Layout, RichText, ScrollArea, Sense, Ui, Vec2};

use super::field::Fields;
use super::slider::{Range, slider_ui};
use crate::analysis::{Level, Solution, ranges};
use crate::app::desk::Change;
use crate::app::widgets::focus::Followed;
use crate::app::widgets::help::explain;
use crate::app::widgets::lettering::{Lettering, strong};
use crate::app::widgets::list::list_ui;
use crate::app::widgets::symbol::symbol;
use crate::unit::{Document, Field, Group, Reading, RollerMoves, SettingEntry};
use crate::units::{Angle, Length, Quantity, System};

/// Width of an entry beside a name; a length in fractions and thou needs it all.
const ENTRY_WIDTH: f32 = 152.0;
/// What stands in a setting that was left as it was measured.
const AS_MEASURED: &str = "as measured";

/// A setting: what it is called, and the reading it follows while it is left out.
#[derive(Clone, Copy)]
struct Wanted {
    name: &'static str,
    field: Field,
    measured: Option<Reading>,
}

const ATTITUDE: Wanted = Wanted {
    name: "Attitude",
    field: Field::WantedAttitude,
    measured: Some(Reading::Attitude),
};
const HEIGHT_OF_CUT: Wanted = Wanted {
    name: "Height of cut",
    field: Field::WantedHeightOfCut,
    measured: Some(Reading::HeightOfCut),
};
const REEL_DIAMETER: Wanted = Wanted {
    name: "Reel diameter",
    field: Field::WantedReelDiameter,
    measured: Some(Reading::ReelDiameter),
};
const EXTENSION: Wanted = Wanted {
    name: "Extension",
    field: Field::Extension,
    measured: None,
};
const GAP: Wanted = Wanted {
    name: "Gap",
    field: Field::WantedGap,
    measured: Some(Reading::Gap),
};
const TOP_GROUND: Wanted = Wanted {
    name: "Top ground",
    field: Field::TopGround,
    measured: None,
};
const FACE_GROUND: Wanted = Wanted {
    name: "Face ground",
    field: Field::FaceGround,
    measured: None,
};

impl Wanted {
    /// Every setting by a quantity, in the order of the step.
    const ALL: [Self; 7] = [
        HEIGHT_OF_CUT,
        ATTITUDE,
        REEL_DIAMETER,
        EXTENSION,
        GAP,
        TOP_GROUND,
        FACE_GROUND,
    ];

    /// Where it stands while it is left out, in base units.
    fn base_measured(self, document: &Document) -> f64 {
        let measured = self.measured.map(Field::from);
        measured
            .and_then(|field| field.base(document))
            .unwrap_or(0.0)
    }

    /// The same in words.
    fn measured_text(self, document: &Document, system: System) -> String {
        match self.measured {
            Some(_) => {
                let base = self.base_measured(document);
                let written = self.field.kind().written(base, system);
                format!("measured {}", written.unwrap_or_default())
            }
            None if self.field == Field::Extension => "as the knife's reach gives".to_owned(),
            None => "none taken off".to_owned(),
        }
    }

    /// Whether it asks for something else than was measured.
    fn is_changed(self, document: &Document) -> bool {
        let wanted = self.field.base(document);
        wanted.is_some_and(|wanted| (wanted - self.base_measured(document)).abs() > 1e-6)
    }
}

/// What is wanted differently from what was measured, each by its name.
fn differences(document: &Document) -> Vec<&'static str> {
    let changed = Wanted::ALL.into_iter().filter(|w| w.is_changed(document));
    let mut names: Vec<_> = changed.map(|wanted| wanted.name).collect();
    if document.fitted_name() != document.knife.name {
        names.push("knife");
    }
    let moves = [Field::FrontMove, Field::RearMove];
    if moves
        .iter()
        .any(|field| field.base(document).is_some_and(|mm| mm != 0.0))
    {
        names.push("rollers");
    }
    names
}

/// The step. A reading that a person wants to take first, where one is asked for.
pub fn wanted_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
    solution: Option<&Solution>,
) -> Option<Reading> {
    head_ui(ui, fields, document);
    ui.separator();
    let mut first = None;
    ScrollArea::vertical()
        .id_salt("as wanted")
        .auto_shrink(false)
        .show(ui, |ui| {
            let followed = Followed::begin(ui);
            for wanted in Wanted::ALL {
                first = first.or(wanted_row_ui(ui, fields, document, wanted, solution));
                match wanted.field {
                    Field::Extension => knife_ui(ui, fields, document),
                    Field::WantedAttitude => stance_ui(ui, fields, document, solution),
                    _ => {}
                }
            }
            ui.add_space(8.0);
            followed.bring_in(ui);
        });
    first
}

/// Whether it is as measured, and the way back.
fn head_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let differences = differences(document);
    ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let is_set = document.setting != SettingEntry::default();
            let button = ui.add_enabled(is_set, Button::new("Back to as measured"));
            if button
                .on_hover_text("Everything set here as it was measured")
                .clicked()
            {
                document.setting = SettingEntry::default();
                fields.set(Change::of("Back to as measured", Group::Setting));
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                let text = if differences.is_empty() {
                    "As measured".to_owned()
                } else {
                    let names = differences.join(", ").to_lowercase();
                    format!("Differs from as measured: {names}")
                };
                let text = Lettering::Name.of(text);
                ui.add(Label::new(text).wrap());
            });
        });
    });
}

/// A setting with its entry, and a slider under it where it has one. The reading that is to be taken
/// first, when a person asks for it: nothing can be wanted beside an example.
fn wanted_row_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
    wanted: Wanted,
    solution: Option<&Solution>,
) -> Option<Reading> {
    let Wanted {
        name,
        field,
        measured,
    } = wanted;
    if document.setting.rollers.is_some()
        && matches!(field, Field::WantedAttitude | Field::WantedHeightOfCut)
    {
        let shown = solution.map_or(String::new(), |solution| {
            let pose = &solution.pose;
            if field == Field::WantedAttitude {
                fields.system.angle(pose.attitude)
            } else {
                fields.system.length(pose.height_of_cut)
            }
        });
        follows_ui(ui, name, field, &shown);
        return None;
    }
    let example = measured.filter(|reading| Field::from(*reading).is_example(document));
    let told = wanted.measured_text(document, fields.system);
    let mut first = None;
    row_ui(ui, (name, field), &told, |ui| {
        if example.is_some() {
            let link = ui
                .button("measure it first")
                .accessible_name(format!("{name}: measure it first"));
            let help = "What was measured is still an example. Write your own reading under 1 As measured, then what you want here.";
            if link.on_hover_text(help).clicked() {
                first = example;
            }
            return;
        }
        let otherwise = match measured {
            Some(_) => AS_MEASURED,
            None => "none",
        };
        fields.entry(ui, name, field, document, otherwise, ENTRY_WIDTH);
        if field.text(document).is_some() {
            let back = ui
                .small_button("Back")
                .accessible_name(format!("{name}: back to as measured"));
            if back.on_hover_text("As measured").clicked()
                && field.set(document, "", fields.system).is_ok()
            {
                fields.set(Change::of(format!("{name} as measured"), field));
            }
        }
    });
    if let Some(range) = range_of(fields, document, field) {
        ui.add_enabled_ui(example.is_none(), |ui| {
            let base = wanted.base_measured(document);
            slider_ui(ui, fields, document, (name, field), base, &range);
        });
    }
    fields.problem_ui(ui, field);
    first
}

/// The range of a setting's slider; none for one that has no slider.
fn range_of(fields: &Fields, document: &Document, field: Field) -> Option<Range> {
    let (bench, setting) = (&document.bench, &document.setting);
    let system = fields.system;
    match field {
        Field::WantedAttitude => {
            let bench = bench.attitude.value();
            let now = setting.attitude.as_ref().map_or(bench, Quantity::value);
            let limits = document.limits.as_ref();
            let range = limits.and_then(|limits| limits.attitude_range.as_ref());
            let (low, high) = range.map_or(ranges::ATTITUDES, |range| {
                (range.low.value(), range.high.value())
            });
            let low = low.deg().min(now.deg()).min(bench.deg());
            let high = high.deg().max(now.deg()).max(bench.deg());
            let angle = Angle::from_deg;
            Some(Range::of_angle(angle(low), angle(high)))
        }
        Field::WantedHeightOfCut => {
            let bench = bench.height_of_cut.value();
            let now = setting
                .height_of_cut
                .as_ref()
                .map_or(bench, Quantity::value);
            let least = least_of(bench * 0.5, now);
            let most = most_of(bench * 2.0, now);
            Some(Range::of_length(system, least, most))
        }
        Field::WantedReelDiameter => {
            let bench = bench.reel_diameter.value();
            let now = setting
                .reel_diameter
                .as_ref()
                .map_or(bench, Quantity::value);
            let reel = &document.reel;
            let (new, smallest) = (reel.new_diameter.value(), reel.smallest_diameter.value());
            let least = [now, bench].into_iter().fold(smallest, least_of);
            let most = [now, bench].into_iter().fold(new, most_of);
            Some(Range::of_length(system, least, most))
        }
        Field::Extension => {
            let now = setting
                .extension
                .as_ref()
                .map_or(Length::ZERO, Quantity::value);
            let most = ranges::MOST_EXTENSION;
            Some(Range::of_length(
                system,
                least_of(-most, now),
                most_of(most, now),
            ))
        }
        _ => None,
    }
}

fn least_of(a: Length, b: Length) -> Length {
    if b < a { b } else { a }
}

fn most_of(a: Length, b: Length) -> Length {
    if b > a { b } else { a }
}

/// A row: its name on the left with what was measured under it, what it holds on the right.
fn row_ui(ui: &mut Ui, (name, field): (&str, Field), told: &str, right: impl FnOnce(&mut Ui)) {
    ui.horizontal(|ui| {
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            let text = Lettering::Name.of(name);
            let label = Label::new(text).selectable(false).sense(Sense::hover());
            explain(ui.add(label), field);
            ui.label(Lettering::FinePrint.of(told).weak());
        });
        ui.with_layout(Layout::right_to_left(Align::Center), right);
    });
}

/// A value that follows from the rollers and cannot be set.
fn follows_ui(ui: &mut Ui, name: &str, field: Field, shown: &str) {
    row_ui(ui, (name, field), "", |ui| {
        ui.label(RichText::new(format!("{shown}, follows from the rollers")).weak());
    });
}

fn knife_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let before = document.setting.knife.clone();
    let told = format!("measured with {}", document.knife.name);
    row_ui(ui, ("Knife fitted", Field::FittedKnife), &told, |ui| {
        let shown = document.fitted_name().to_owned();
        let list = ComboBox::from_id_salt(Field::FittedKnife)
            .width(200.0)
            .truncate()
            .selected_text(shown);
        list_ui(ui, list, |ui, list| {
            let fitted = &mut document.setting.knife;
            let bench = &document.knife.name;
            let is_bench = fitted.is_none() || fitted.as_ref() == Some(bench);
            if list.offer(ui, is_bench, format!("{bench} (bench)")) {
                *fitted = None;
            }
            for option in &document.options {
                let is_fitted = fitted.as_ref() == Some(&option.name);
                if list.offer(ui, is_fitted, &option.name) {
                    *fitted = Some(option.name.clone());
                }
            }
        })
        .accessible_name("Knife fitted");
    });
    if document.setting.knife != before {
        fields.set(Change::of("Knife fitted", Field::FittedKnife));
    }
    fields.problem_ui(ui, Field::FittedKnife);
}

/// The two ways of setting, and what the rollers do.
fn stance_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
    solution: Option<&Solution>,
) {
    let is_by_rollers = document.setting.rollers.is_some();
    let mut wants_rollers = is_by_rollers;
    ui.horizontal(|ui| {
        ui.label("Set by");
        ui.selectable_value(&mut wants_rollers, false, "attitude and height")
            .on_hover_text(
                "Attitude and height are wanted; how far to move each roller comes out.",
            );
        ui.selectable_value(&mut wants_rollers, true, "the rollers")
            .on_hover_text(
                "The rollers are given, by a spacer or left alone; attitude and height come out.",
            );
    });
    if wants_rollers != is_by_rollers
        && let Some(solution) = solution
    {
        let pose = &solution.pose;
        let stance = if wants_rollers {
            pose.as_rollers()
        } else {
            pose.as_wanted()
        };
        document.set_stance(stance, fields.system);
        fields.set(Change::of("Set by", Group::Setting));
    }
    if document.setting.rollers.is_some() {
        fields.group_rows(ui, document, Group::RollerMoves);
        let help = "Nobody touched the rollers since the unit was measured: both moves are zero.";
        let button = ui.button("Left alone, both 0").on_hover_text(help);
        if button.clicked() {
            let zero = Quantity::from_value(Length::ZERO, fields.system);
            document.setting.rollers = Some(RollerMoves {
                front_move: zero.clone(),
                rear_move: zero,
            });
            fields.set(Change::of("Rollers left alone", Group::RollerMoves));
        }
        let hint = "Up, towards the reel, is +; down is -: a 1/8 in spacer that pushes a roller down is -1/8.";
        ui.label(Lettering::Note.of(hint).weak());
    } else if let Some(solution) = solution {
        roller_moves_ui(ui, fields, document, solution);
    }
    ui.add_space(4.0);
}

/// How far each roller has to move from where it was measured.
fn roller_moves_ui(ui: &mut Ui, fields: &Fields, document: &Document, solution: &Solution) {
    let pose = &solution.pose;
    for (name, roller) in [
        ("Front roller", &pose.front_roller),
        ("Rear roller", &pose.rear_roller),
    ] {
        ui.horizontal(|ui| {
            ui.label(RichText::new(format!("{name}:")).weak());
            ui.label(RichText::new(fields.system.roller_move(roller.moved)).family(strong()));
            ui.label(RichText::new("from where it was measured").weak());
        });
    }
    let places = [Group::FrontRoller, Group::RearRoller];
    let mut marked = document.examples.iter().map(Field::group);
    if marked.any(|group| places.contains(&group)) {
        ui.horizontal(|ui| {
            let (place, _) = ui.allocate_exact_size(Vec2::splat(14.0), Sense::hover());
            symbol(ui, place, Level::Watch, fields.theme);
            ui.label(Lettering::Note.of("The rollers' places are still examples."));
        });
    }
}
