//! The setting over the form: three sliders that stand out, height and knife beside them, and the
//! two ways of setting a unit.

use egui::{ComboBox, RichText, Slider, Ui};

use super::field::{Fields, fill_in};
use crate::analysis::{Solution, ranges};
use crate::app::desk::{Change, Desk};
use crate::app::widgets::help::explain;
use crate::unit::{Document, Field, Group, RollerMoves, SettingEntry};

use crate::app::widgets::lettering::{Lettering, strong};
use crate::units::{Angle, Length, Measure, Quantity, System};

/// Width of an entry beside a name; a length in fractions and thou needs it all.
const ENTRY_WIDTH: f32 = 152.0;

/// A slider: the range it covers and its steps, in the unit it shows.
struct Range {
    low: f64,
    high: f64,
    /// By arrow key.
    step: f64,
    /// By arrow key with Shift, and while dragging with Shift.
    fine: f64,
    /// Size of the unit in base units.
    unit: f64,
}

impl Range {
    fn of_length(system: System, low: Length, high: Length) -> Self {
        let (unit, step, fine) = match system {
            System::Millimetre => (1.0, 0.1, 0.01),
            System::InchDecimal | System::InchFraction => {
                (Length::from_inches(1.0).mm(), 0.005, 0.0005)
            }
        };
        let floor = (low.mm() / unit / step).floor() * step;
        let ceil = (high.mm() / unit / step).ceil() * step;
        Self {
            low: floor,
            // A reel that is scrap when new still has a slider.
            high: ceil.max(floor + step),
            step,
            fine,
            unit,
        }
    }

    fn of_angle(low: Angle, high: Angle) -> Self {
        Self {
            low: low.deg().floor(),
            high: high.deg().ceil(),
            step: 0.1,
            fine: 0.01,
            unit: 1.0,
        }
    }
}

/// The setting, over the form.
pub fn show(ui: &mut Ui, desk: &mut Desk) {
    ui.add_space(6.0);
    ui.horizontal(|ui| {
        ui.heading("Set it");
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            let is_elsewhere = desk.document().setting != SettingEntry::default();
            let button = ui.add_enabled(is_elsewhere, egui::Button::new("Back to the bench"));
            if button
                .on_hover_text("Everything set here as it was measured on the bench")
                .clicked()
            {
                desk.edit(
                    Change::of("Back to the bench", Group::Setting),
                    |document| {
                        document.setting = SettingEntry::default();
                    },
                );
            }
        });
    });
    let solution = desk.good().map(|good| good.solution);
    let solution = solution.as_ref();
    fill_in(ui, desk, |ui, fields, document| {
        attitude_ui(ui, fields, document, solution);
        reel_diameter_ui(ui, fields, document);
        extension_ui(ui, fields, document);
        height_and_knife_ui(ui, fields, document, solution);
        stance_ui(ui, fields, document, solution);
    });
}

fn attitude_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
    solution: Option<&Solution>,
) {
    let field = Field::WantedAttitude;
    if document.setting.rollers.is_some() {
        let shown = solution.map_or(String::new(), |s| fields.system.angle(s.pose.attitude));
        follows_ui(ui, "Attitude", field, &shown);
        return;
    }
    let bench = document.bench.attitude.value();
    let now = document.setting.attitude.as_ref();
    let now = now.map_or(bench, Quantity::value);
    let (low, high) = document
        .limits
        .as_ref()
        .and_then(|limits| limits.attitude_range.as_ref())
        .map_or(ranges::ATTITUDES, |range| {
            (range.low.value(), range.high.value())
        });
    let low = low.deg().min(now.deg()).min(bench.deg());
    let high = high.deg().max(now.deg()).max(bench.deg());
    let range = Range::of_angle(Angle::from_deg(low), Angle::from_deg(high));
    slider_ui(ui, fields, document, ("Attitude", field), bench, &range);
}

fn reel_diameter_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let bench = document.bench.reel_diameter.value();
    let now = document.setting.reel_diameter.as_ref();
    let now = now.map_or(bench, Quantity::value);
    let (new, smallest) = (
        document.reel.new_diameter.value(),
        document.reel.smallest_diameter.value(),
    );
    let least = [smallest, now, bench].into_iter().fold(smallest, least_of);
    let most = [new, now, bench].into_iter().fold(new, most_of);
    let range = Range::of_length(fields.system, least, most);
    let named = ("Reel diameter", Field::WantedReelDiameter);
    slider_ui(ui, fields, document, named, bench, &range);
}

fn extension_ui(ui: &mut Ui, fields: &mut Fields, document: &mut Document) {
    let now = document.setting.extension.as_ref();
    let now = now.map_or(Length::ZERO, Quantity::value);
    let most = ranges::MOST_EXTENSION;
    let range = Range::of_length(fields.system, least_of(-most, now), most_of(most, now));
    let named = ("Extension", Field::Extension);
    slider_ui(ui, fields, document, named, Length::ZERO, &range);
}

fn least_of(a: Length, b: Length) -> Length {
    if b < a { b } else { a }
}

fn most_of(a: Length, b: Length) -> Length {
    if b > a { b } else { a }
}

/// A setting with its entry and a slider under it; `bench` is what holds where it is left out.
fn slider_ui<M: Measure>(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
    (name, field): (&'static str, Field),
    bench: M,
    range: &Range,
) {
    let otherwise = bench.entry(fields.system);
    row_ui(ui, name, field, |ui| {
        fields.entry(ui, name, field, document, &otherwise, ENTRY_WIDTH);
    });
    let before = field.base(document).unwrap_or(bench.base()) / range.unit;
    let mut shown = before;
    let is_fine = ui.input(|input| input.modifiers.shift);
    let step = if is_fine { range.fine } else { range.step };
    let width = ui.available_width();
    let response = ui
        .scope(|ui| {
            ui.spacing_mut().slider_width = width - 4.0;
            let slider = Slider::new(&mut shown, range.low..=range.high)
                .show_value(false)
                .smart_aim(false)
                .clamping(egui::SliderClamping::Never)
                .step_by(step);
            ui.add(slider)
        })
        .inner
        .accessible_name(format!("{name} slider"));
    bench_mark(
        ui,
        response.rect,
        (bench.base() / range.unit - range.low) / (range.high - range.low),
    );
    // A slider of its own accord takes drags alone, and never hears of a click.
    let clicks = response.interact(egui::Sense::click());
    if clicks.clicked() || response.drag_stopped() {
        response.request_focus();
    }
    if response.has_focus() {
        focus_ring(ui, response.rect);
        // From where it stands, not from the nearest whole step: a fine setting is kept.
        let presses = ui.input(|input| {
            let pressed = |key| i32::try_from(input.num_presses(key)).unwrap_or(0);
            pressed(egui::Key::ArrowRight) - pressed(egui::Key::ArrowLeft)
        });
        if presses != 0 {
            shown = before + f64::from(presses) * step;
        }
    }
    let taken = if clicks.double_clicked() {
        Some(field.set(document, "", fields.system))
    } else if response.changed() {
        Some(field.set_base(document, shown * range.unit, fields.system))
    } else {
        None
    };
    if let Some(Ok(())) = taken {
        fields.set(Change::of(name, field));
    }
    let help = format!(
        "Drag, or click and use the arrow keys; with Shift in finer steps. Double-click for the bench's {otherwise}."
    );
    response.on_hover_text(help);
    fields.problem_ui(ui, field);
}

/// Shows which slider the arrow keys move.
fn focus_ring(ui: &Ui, slider: egui::Rect) {
    let stroke = ui.visuals().widgets.active.bg_stroke;
    let ring = slider.expand2(egui::vec2(3.0, 0.0));
    ui.painter()
        .rect_stroke(ring, 5.0, stroke, egui::StrokeKind::Outside);
}

/// A row: its name on the left, what it holds on the right.
fn row_ui(ui: &mut Ui, name: &str, field: Field, right: impl FnOnce(&mut Ui)) {
    ui.horizontal(|ui| {
        let text = Lettering::Name.of(name);
        let label = egui::Label::new(text)
            .selectable(false)
            .sense(egui::Sense::hover());
        explain(ui.add(label), field);
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), right);
    });
}

/// A tick under a slider where the bench reading is.
#[expect(clippy::cast_possible_truncation, reason = "a place on the screen")]
fn bench_mark(ui: &Ui, slider: egui::Rect, part: f64) {
    let handle = slider.height() / 2.5;
    let x = egui::lerp(
        slider.left() + handle..=slider.right() - handle,
        part as f32,
    );
    let y = slider.bottom() + 3.0;
    let colour = ui
        .visuals()
        .weak_text_color
        .unwrap_or(ui.visuals().text_color());
    let corners = vec![
        egui::pos2(x, y - 5.0),
        egui::pos2(x + 3.5, y),
        egui::pos2(x - 3.5, y),
    ];
    ui.painter().add(egui::Shape::convex_polygon(
        corners,
        colour,
        egui::Stroke::NONE,
    ));
}

/// A value that follows from the rollers and cannot be set.
fn follows_ui(ui: &mut Ui, name: &str, field: Field, shown: &str) {
    row_ui(ui, name, field, |ui| {
        ui.label(RichText::new(format!("{shown}, follows from the rollers")).weak());
    });
}

fn height_and_knife_ui(
    ui: &mut Ui,
    fields: &mut Fields,
    document: &mut Document,
    solution: Option<&Solution>,
) {
    ui.add_space(4.0);
    if document.setting.rollers.is_some() {
        let shown = solution.map_or(String::new(), |s| {
            fields.system.length(s.pose.height_of_cut)
        });
        follows_ui(ui, "Height of cut", Field::WantedHeightOfCut, &shown);
    } else {
        let otherwise = document.bench.height_of_cut.value().entry(fields.system);
        let (name, field) = ("Height of cut", Field::WantedHeightOfCut);
        row_ui(ui, name, field, |ui| {
            fields.entry(ui, name, field, document, &otherwise, ENTRY_WIDTH);
        });
        fields.problem_ui(ui, Field::WantedHeightOfCut);
    }
    let before = document.setting.knife.clone();
    row_ui(ui, "Knife fitted", Field::FittedKnife, |ui| {
        let shown = document.fitted_name().to_owned();
        ComboBox::from_id_salt(Field::FittedKnife)
            .width(214.0)
            .selected_text(shown)
            .show_ui(ui, |ui| {
                let fitted = &mut document.setting.knife;
                let bench = &document.knife.name;
                let is_bench = fitted.is_none() || fitted.as_ref() == Some(bench);
                if ui
                    .selectable_label(is_bench, format!("{bench} (bench)"))
                    .clicked()
                {
                    *fitted = None;
                }
                for option in &document.options {
                    let is_fitted = fitted.as_ref() == Some(&option.name);
                    if ui.selectable_label(is_fitted, &option.name).clicked() {
                        *fitted = Some(option.name.clone());
                    }
                }
            })
            .response
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
    ui.add_space(4.0);
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
        let help = "Nobody touched the rollers since the bench: both moves are nothing.";
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
        let pose = &solution.pose;
        for (name, roller) in [
            ("Front roller", &pose.front_roller),
            ("Rear roller", &pose.rear_roller),
        ] {
            ui.horizontal(|ui| {
                ui.label(RichText::new(format!("{name}:")).weak());
                ui.label(RichText::new(fields.system.roller_move(roller.moved)).family(strong()));
                ui.label(RichText::new("from the bench").weak());
            });
        }
    }
}
