//! A sheet on the screen, as it will be on paper.

use egui::{Color32, ColorImage, Image, Sense, Stroke, TextureHandle, TextureOptions, Ui, Vec2};

use crate::app::widgets::kept::Kept;
use crate::drawing::{Pixels, Sheet, to_pixels};

/// Sheets with the pixels of the one that is shown.
#[derive(Default)]
pub struct Preview {
    shown: Kept<(usize, [u32; 2]), Result<TextureHandle, String>>,
}

impl Preview {
    /// Shows a sheet as large as it fits into a size.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "sizes of the screen are small and positive"
    )]
    pub fn show(&mut self, ui: &mut Ui, sheet: &Sheet, page: usize, most: Vec2) {
        let paper = Vec2::new(sheet.window.width() as f32, sheet.window.height() as f32);
        let part = (most.x / paper.x).min(most.y / paper.y);
        let size = paper * part;
        let pixels = size * ui.pixels_per_point();
        let key = (page, [pixels.x.round() as u32, pixels.y.round() as u32]);
        let ctx = ui.ctx().clone();
        let shown = self.shown.get(key, |_| {
            let per_unit = f64::from(pixels.x) / sheet.window.width();
            to_pixels(sheet, per_unit)
                .map(|pixels| ctx.load_texture("sheet", image_of(&pixels), TextureOptions::LINEAR))
        });
        match shown {
            Ok(texture) => {
                let image = Image::new((texture.id(), size))
                    .alt_text(format!("{}, as it will be on paper", sheet.title));
                let response = ui.add(image);
                let border = Stroke::new(1.0, Color32::GRAY);
                ui.painter()
                    .rect_stroke(response.rect, 0.0, border, egui::StrokeKind::Outside);
            }
            Err(why) => {
                let (place, _) = ui.allocate_exact_size(size, Sense::hover());
                ui.put(place, egui::Label::new(why.as_str()).wrap());
            }
        }
    }

    /// Forgets what was shown: the sheet is another.
    pub fn forget(&mut self) {
        self.shown = Kept::default();
    }
}

/// Pixels as the window has them.
pub fn image_of(pixels: &Pixels) -> ColorImage {
    let size = [pixels.width as usize, pixels.height as usize];
    ColorImage::from_rgba_unmultiplied(size, &pixels.rgba)
}
