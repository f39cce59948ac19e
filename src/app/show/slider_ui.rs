//! The slider under a picture.

use egui::{Align, Color32, Label, Layout, Rect, RichText, Slider, Ui, UiBuilder};

use super::sizes::{BETWEEN, Sizes};
use super::slide::SliderOf;
use super::strips::{cut_foot, width_of};

/// Height of its row, in parts of the screen's.
const ROW: f32 = 0.042;
/// What is told beside a slider that was turned.
const UNCHANGED: &str = "tried here alone: the unit keeps its setting";

/// The slider off the foot of a rectangle; where it was turned to. Without its numbers it is told by its name
/// alone.
pub(super) fn slider_ui(
    ui: &mut Ui,
    left: &mut Rect,
    of: &SliderOf,
    has_numbers: bool,
    (sizes, ink): (Sizes, Color32),
) -> Option<f64> {
    let fine = sizes.fine();
    let told = of.stopped.as_ref().map_or_else(
        || {
            let set = of.written(of.set_base);
            match (of.is_turned(), has_numbers) {
                (true, true) => format!("{UNCHANGED}, {set}"),
                (true, false) => UNCHANGED.to_owned(),
                (false, _) => String::new(),
            }
        },
        |why| format!("no further: {why}"),
    );
    if !told.is_empty() {
        // As many lines as a reason takes.
        let galley = ui
            .painter()
            .layout(told.clone(), fine.clone(), ink, left.width());
        let place = cut_foot(left, galley.size().y + 0.4 * fine.size);
        let told = Label::new(RichText::new(told).font(fine).color(ink)).wrap();
        ui.new_child(UiBuilder::new().max_rect(place)).add(told);
    }
    let place = cut_foot(left, sizes.part(ROW));
    let font = sizes.name();
    let mut row = ui.new_child(
        UiBuilder::new()
            .id_salt("turned")
            .max_rect(place)
            .layout(Layout::left_to_right(Align::Center)),
    );
    row.spacing_mut().item_spacing.x = sizes.part(BETWEEN);
    row.spacing_mut().interact_size.y = 0.8 * place.height();
    let name = of.turned.name();
    row.add(Label::new(RichText::new(name).font(font.clone()).color(ink)).extend());
    // As wide for every number, so that the slider stays where it is under the hand.
    let (low, high) = of.range_base;
    let widest = [low, high, of.now_base, of.set_base].map(|base| of.written(base));
    let widest = widest
        .iter()
        .map(|text| width_of(ui, text, font.clone(), ink));
    let beside = if has_numbers {
        1.3 * widest.fold(0.0, f32::max) + sizes.part(BETWEEN)
    } else {
        0.0
    };
    let mut at = of.now_base;
    row.spacing_mut().slider_width = (row.available_width() - beside).max(40.0);
    let slider = Slider::new(&mut at, low..=high)
        .show_value(false)
        .smart_aim(false);
    let response = row.add(slider).accessible_name(format!("{name} slider"));
    if has_numbers {
        let written = of.written(of.now_base);
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_value(written.clone());
        });
        row.add(Label::new(RichText::new(written).font(font).color(ink)).extend());
    } else {
        // Not even to a screen reader.
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.clear_numeric_value();
            node.clear_value();
        });
    }
    // In whole steps under a hand; where it is set it may stand between two.
    response.changed().then(|| of.in_steps(at))
}
