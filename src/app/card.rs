//! A card over the window, for what must be read or answered first.

use egui::{Frame, Id, Margin, Modal, ModalResponse, Ui};

/// Shows a card of some width in the middle of the window.
pub(super) fn card<R>(
    ctx: &egui::Context,
    name: &str,
    width: f32,
    contents: impl FnOnce(&mut Ui) -> R,
) -> ModalResponse<R> {
    let frame = Frame::popup(&ctx.global_style()).inner_margin(Margin::same(20));
    Modal::new(Id::unique(name)).frame(frame).show(ctx, |ui| {
        ui.set_width(width);
        contents(ui)
    })
}
