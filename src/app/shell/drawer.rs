//! The form in a narrow window: a drawer over the area, folded away until it is asked for, so that the
//! drawing keeps its room.

use egui::{Context, Id, Rect, Sense, Ui, UiBuilder};

/// From this width of the window on, in points, the form stands beside the area.
const BESIDE: f32 = 980.0;
/// The widest drawer.
const WIDTH: f32 = 398.0;

/// Whether the window is too narrow for the form beside the area.
pub fn is_folded(ctx: &Context) -> bool {
    ctx.content_rect().width() < BESIDE
}

/// Whether the drawer is out, in a window that has one.
pub fn is_out(ctx: &Context) -> bool {
    ctx.data(|data| data.get_temp(state())).unwrap_or(false)
}

/// Takes the drawer out, or folds it away.
pub fn set_out(ctx: &Context, is_out: bool) {
    ctx.data_mut(|data| data.insert_temp(state(), is_out));
    ctx.request_repaint();
}

/// The drawer over the area that stands in a place, and the form in it.
pub fn drawer_ui(ui: &mut Ui, place: Rect, form_ui: impl FnOnce(&mut Ui)) {
    let mut place = place;
    place.set_width(WIDTH.min(place.width()));
    let mut ui = ui.new_child(UiBuilder::new().id_salt("form drawer").max_rect(place));
    ui.set_clip_rect(place);
    // Nothing under the drawer is pressed through it.
    ui.interact(
        place,
        ui.scope_id().with("ground"),
        Sense::CLICK | Sense::DRAG,
    );
    form_ui(&mut ui);
}

fn state() -> Id {
    Id::unique("form drawer is out")
}
