//! Long lists: what is in view is laid out, what is not takes its room.

use egui::Ui;

/// A list no longer than this is laid out whole, so that Tab and a screen reader reach all of it.
pub const SHORT: usize = 40;

/// Items so near to what is in view are laid out as well: Tab reaches them, and brings them in.
const NEAR: f32 = 160.0;

/// Shows items under one another, each by its place in the list; how many of them were laid out.
///
/// Every item stands in one `push_id` of its own, which follows the item where the list is sorted
/// anew, so that what is being typed into it goes on.
///
/// An item may be as high as it likes. Until it was in view once it is taken to be `about` so high,
/// room below it counted in.
pub fn long_list_ui(
    ui: &mut Ui,
    salt: &str,
    count: usize,
    about: f32,
    mut item_ui: impl FnMut(&mut Ui, usize),
) -> usize {
    let id = ui.scope_id().with(salt);
    let mut heights: Vec<f32> = ui.data_mut(|data| data.remove_temp(id)).unwrap_or_default();
    heights.resize(count, about);
    let view = ui.clip_rect().y_range().expand(NEAR);
    let (mut left_out, mut laid_out) = (0.0, 0);
    for (index, height) in heights.iter_mut().enumerate() {
        let top = ui.cursor().top() + left_out;
        let is_near = top + *height >= view.min && top <= view.max;
        if count > SHORT && !is_near {
            left_out += *height;
            ui.skip_ahead_auto_ids(1);
            continue;
        }
        ui.add_space(std::mem::take(&mut left_out));
        item_ui(ui, index);
        *height = ui.cursor().top() - top;
        laid_out += 1;
    }
    ui.add_space(left_out);
    ui.data_mut(|data| data.insert_temp(id, heights));
    laid_out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is laid out of a list in a window 600 points high, scrolled down so far, and how high
    /// the whole is.
    fn shown(ctx: &egui::Context, count: usize, scrolled: f32) -> (Vec<usize>, f32) {
        let mut shown = Vec::new();
        let mut height = 0.0;
        let screen = egui::Rect::from_min_size(egui::Pos2::ZERO, egui::vec2(400.0, 600.0));
        let input = egui::RawInput {
            screen_rect: Some(screen),
            ..egui::RawInput::default()
        };
        let mut output = ctx.run_ui(input, |ui| {
            let area = egui::ScrollArea::vertical().vertical_scroll_offset(scrolled);
            let out = area.show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = 0.0;
                shown.clear();
                long_list_ui(ui, "list", count, 30.0, |ui, index| {
                    // Every third is higher than it was taken to be.
                    let height = if index % 3 == 0 { 50.0 } else { 30.0 };
                    ui.push_id(index, |ui| ui.allocate_space(egui::vec2(100.0, height)));
                    shown.push(index);
                });
            });
            height = out.content_size.y;
        });
        output.textures_delta.clear();
        (shown, height)
    }

    #[test]
    fn only_what_is_in_view_is_laid_out() {
        let ctx = egui::Context::default();
        let (first, height) = shown(&ctx, 5000, 0.0);
        assert_eq!(first.first(), Some(&0));
        assert!(first.len() < 40, "{}", first.len());
        assert!(height > 150_000.0, "{height}");
        let (later, height_later) = shown(&ctx, 5000, 60_000.0);
        assert!(later.len() < 40 && later[0] > 1900, "{later:?}");
        assert!(later.windows(2).all(|pair| pair[1] == pair[0] + 1));
        // What was measured is remembered.
        assert!(height_later > height, "{height_later}");
        let (last, _) = shown(&ctx, 5000, 1e9);
        assert!(
            last.is_empty() || *last.last().expect("some") == 4999,
            "{last:?}"
        );
    }

    #[test]
    fn a_short_list_is_laid_out_whole() {
        let ctx = egui::Context::default();
        let (all, _) = shown(&ctx, SHORT, 0.0);
        assert_eq!(all, (0..SHORT).collect::<Vec<_>>());
    }
}
