//! A sheet on the screen, as it will be on paper.

use egui::{
    Color32, ColorImage, Image, Rect, Sense, Stroke, TextureHandle, TextureOptions, Ui, Vec2,
};

use crate::app::widgets::making::{KeptMade, MadeState, Making};
use crate::drawing::{Pixels, Sheet, to_pixels};

/// Sheets with the pixels of the one that is shown. They are made on a thread of their own; the paper is
/// white until then.
#[derive(Default)]
pub struct Preview {
    shown: KeptMade<(usize, [u32; 2]), Result<TextureHandle, String>>,
}

impl Preview {
    /// Shows a sheet as large as it fits into a size.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "sizes of the screen are small and positive"
    )]
    pub fn show(&mut self, ui: &mut Ui, sheet: &Sheet, page: usize, most: Vec2) {
        let size = fitted(sheet.window, most);
        let pixels = size * ui.pixels_per_point();
        let key = (page, [pixels.x.round() as u32, pixels.y.round() as u32]);
        let shown = self.shown.get(key, |_| {
            let (ctx, sheet) = (ui.ctx().clone(), sheet.clone());
            let per_unit = f64::from(pixels.x) / sheet.window.width();
            Making::begin(ui.ctx(), "preview", move |_| {
                let texture = to_pixels(&sheet, per_unit).map(|pixels| {
                    ctx.load_texture("sheet", image_of(&pixels), TextureOptions::LINEAR)
                });
                Some(texture)
            })
        });
        let place = match shown {
            MadeState::Made(Ok(texture)) => {
                let image = Image::new((texture.id(), size))
                    .alt_text(format!("{}, as it will be on paper", sheet.title));
                ui.add(image).rect
            }
            MadeState::Going(_) => blank_ui(ui, size, ""),
            MadeState::Made(Err(why)) => blank_ui(ui, size, why),
            MadeState::Ended => blank_ui(ui, size, "This page cannot be shown."),
        };
        let border = Stroke::new(1.0, Color32::GRAY);
        ui.painter()
            .rect_stroke(place, 0.0, border, egui::StrokeKind::Outside);
    }

    /// Forgets what was shown: the sheet is another.
    pub fn forget(&mut self) {
        self.shown.forget();
    }
}

/// Keeps the room of a page that is not made yet.
pub fn blank_page_ui(ui: &mut Ui, page: kurbo::Rect, most: Vec2) {
    blank_ui(ui, fitted(page, most), "");
}

/// A page as large as it fits into a size.
#[expect(
    clippy::cast_possible_truncation,
    reason = "sizes of the screen are small"
)]
fn fitted(page: kurbo::Rect, most: Vec2) -> Vec2 {
    let paper = Vec2::new(page.width() as f32, page.height() as f32);
    paper * (most.x / paper.x).min(most.y / paper.y)
}

/// A page with no sheet on it, or why there is none.
fn blank_ui(ui: &mut Ui, size: Vec2, why: &str) -> Rect {
    let (place, _) = ui.allocate_exact_size(size, Sense::hover());
    if why.is_empty() {
        ui.painter().rect_filled(place, 0.0, Color32::WHITE);
    } else {
        ui.put(place, egui::Label::new(why).wrap());
    }
    place
}

/// Pixels as the window has them.
pub fn image_of(pixels: &Pixels) -> ColorImage {
    let size = [pixels.width as usize, pixels.height as usize];
    ColorImage::from_rgba_unmultiplied(size, &pixels.rgba)
}
