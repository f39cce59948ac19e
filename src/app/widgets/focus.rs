//! The widget that has the keys: a ring around it, and the scroll area it stands in moved so that it is
//! in view.

use egui::{Context, CornerRadius, Id, Stroke, StrokeKind, Ui, Vec2};

use super::look::ring;

/// How wide the ring is.
pub const RING_WIDTH: f32 = 3.0;
/// How far it stands off the widget.
const OFF: f32 = 1.0;
/// What is kept in view around a widget: its ring, and its name where that stands over it.
const AROUND: Vec2 = Vec2::new(6.0, 24.0);

/// Draws a ring around the widget that has the keys, over whatever stands there.
pub fn focus_ring_ui(ctx: &Context) {
    let focused = ctx.memory(egui::Memory::focused);
    ctx.data_mut(|data| {
        let brought: Option<Id> = data.get_temp(bringing());
        let brought = brought.or_else(|| data.get_temp(brought_in()));
        data.remove::<Id>(bringing());
        if let Some(brought) = brought.filter(|brought| Some(*brought) == focused) {
            data.insert_temp(brought_in(), brought);
        } else {
            data.remove::<Id>(brought_in());
        }
    });
    let shown = focused.and_then(|id| ctx.viewport(|view| view.this_pass.widgets.get(id).copied()));
    let Some(widget) = shown.filter(|widget| widget.interact_rect.is_positive()) else {
        return;
    };
    let room = widget.interact_rect.expand(OFF + RING_WIDTH + 1.0);
    let stroke = Stroke::new(RING_WIDTH, ring(ctx.theme()));
    ctx.layer_painter(widget.layer_id)
        .with_clip_rect(room)
        .rect_stroke(
            widget.rect.expand(OFF),
            CornerRadius::same(5),
            stroke,
            StrokeKind::Outside,
        );
}

/// A scroll area as what stands in it begins.
#[derive(Clone, Copy, Debug)]
pub struct Followed {
    /// How many widgets were shown before.
    before: usize,
}

impl Followed {
    /// Begins with what stands in a scroll area.
    pub fn begin(ui: &Ui) -> Self {
        let layer = ui.layer_id();
        let before = ui
            .ctx()
            .viewport(|view| view.this_pass.widgets.get_layer(layer).count());
        Self { before }
    }

    /// Ends with what stands there: the area moves so that what gets the keys in it is in view.
    pub fn bring_in(self, ui: &Ui) {
        let Some(focused) = ui.memory(egui::Memory::focused) else {
            return;
        };
        let within = ui.ctx().viewport(|view| {
            let widgets = &view.this_pass.widgets;
            let (layer, place) = widgets.order(focused)?;
            let widget = widgets.get(focused)?;
            (layer == ui.layer_id() && place >= self.before).then_some(widget.rect)
        });
        if let Some(place) = within
            && ui.data(|data| data.get_temp(brought_in())) != Some(focused)
        {
            ui.scroll_to_rect(place.expand2(AROUND), None);
            // Areas within one another move each in their own direction.
            ui.data_mut(|data| data.insert_temp(bringing(), focused));
        }
    }
}

/// The widget that was brought into view, while it keeps the keys.
fn brought_in() -> Id {
    Id::unique("brought into view")
}

/// The widget that is brought into view in this frame.
fn bringing() -> Id {
    Id::unique("being brought into view")
}
