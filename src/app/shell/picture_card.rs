//! Saving or copying one picture of the unit, and copying the table of an area.

use egui::{Context, Ui, Vec2};

use super::preview::{Preview, image_of};
use crate::analysis::SolvedId;
use crate::app::areas::{About, Areas};
use crate::app::desk::{Ask, Card, Desk, Next};
use crate::app::files::{Refusal, ask_place, file_stem_for};
use crate::app::widgets::kept::Kept;
use crate::app::widgets::lettering::Lettering;
use crate::drawing::{NoPicture, Page, PictureView, Sheet, Standing, Theme, to_pixels};
use crate::printing::{PictureAsked, PictureFormat, Resolution, picture_bytes, table_to_paste};
use crate::store;
use crate::units::System;

/// Pixels for a paper unit of a copied picture.
const COPIED: f64 = 1.5;

fn asked(view: PictureView, system: System) -> PictureAsked {
    PictureAsked {
        view: Some(view),
        page: Page::default(),
        resolution: Resolution::Usual,
        is_clear: false,
        theme: Theme::Light,
        standing: Standing::Plate,
        system,
    }
}

/// Why no picture is saved or copied from an area.
pub fn no_picture(of: &About) -> String {
    format!("The area {} has no picture of its own.", of.title)
}

/// Copies the picture of an area, if it has one.
pub fn copy_picture(ctx: &Context, desk: &mut Desk, of: &About) {
    match of.picture {
        Some(view) => copy(ctx, desk, &asked(view, desk.system())),
        None => desk.warn(format!("Not copied. {}", no_picture(of))),
    }
}

fn copy(ctx: &Context, desk: &mut Desk, asked: &PictureAsked) {
    let sheet = match drawn(desk, asked) {
        Ok(sheet) => sheet,
        Err(why) => {
            desk.warn(format!("Not copied. {why}"));
            return;
        }
    };
    match to_pixels(&sheet, COPIED) {
        Ok(pixels) => {
            ctx.copy_image(image_of(&pixels));
            desk.tell(format!("Copied the picture: {}", sheet.title));
        }
        Err(why) => desk.warn(format!("Not copied. {why}")),
    }
}

/// Copies the table of the area in front, with headings, for a spreadsheet: its own, or the one that goes
/// with its picture.
pub fn copy_table(ctx: &Context, desk: &mut Desk, areas: &mut Areas) {
    let view = areas.shown_first();
    let own = areas.front().table(desk);
    match own.unwrap_or_else(|| unit_table(desk, view)) {
        Ok(table) => {
            ctx.copy_text(table);
            desk.tell("Copied the table: paste it into a spreadsheet");
        }
        Err(why) => desk.warn(format!("Not copied. {why}")),
    }
}

/// The table that goes with a picture of the unit.
fn unit_table(desk: &Desk, view: PictureView) -> Result<String, String> {
    match (desk.good(), desk.why_not_current()) {
        (_, Some(why)) => Err(why),
        (None, None) => Err("This unit has no solution yet.".to_owned()),
        (Some(good), None) => {
            table_to_paste(good, view, desk.system()).map_err(|problem| problem.to_string())
        }
    }
}

fn drawn(desk: &Desk, asked: &PictureAsked) -> Result<Sheet, String> {
    if let Some(why) = desk.why_not_current() {
        return Err(why);
    }
    let good = desk.good().ok_or("This unit has no solution yet.")?;
    let sheet = asked.sheet(good);
    sheet.map_err(|none: NoPicture| none.to_string())
}

/// What the picture of the card depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Key {
    solved: Option<SolvedId>,
    asked: PictureAsked,
    is_current: bool,
}

/// The card on which a picture is chosen.
pub struct PictureCard {
    view: PictureView,
    is_dark: bool,
    is_clear: bool,
    sheet: Kept<Key, Result<Sheet, String>>,
    preview: Preview,
    shown: Option<Key>,
    refusal: Refusal,
}

impl PictureCard {
    /// A card that begins with a picture.
    pub fn of(view: PictureView) -> Self {
        Self {
            view,
            is_dark: false,
            is_clear: false,
            sheet: Kept::default(),
            preview: Preview::default(),
            shown: None,
            refusal: Refusal::default(),
        }
    }
}

impl Card for PictureCard {
    fn name(&self) -> &'static str {
        "picture"
    }

    fn width(&self) -> f32 {
        740.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of("Save a picture"));
        self.refusal.hear(desk);
        let mut next = Next::Stay;
        ui.horizontal_top(|ui| {
            ui.vertical(|ui| {
                ui.set_width(220.0);
                for view in PictureView::ALL {
                    ui.radio_value(&mut self.view, view, view.name());
                }
                ui.checkbox(&mut self.is_dark, "Light lines on dark");
                ui.checkbox(&mut self.is_clear, "Clear background")
                    .on_hover_text("To lay the picture over something else");
            });
            let mut asked = asked(self.view, desk.system());
            asked.is_clear = self.is_clear;
            if self.is_dark {
                asked.theme = Theme::Dark;
            }
            let key = Key {
                solved: desk.good().map(|good| good.id),
                asked,
                is_current: desk.why_not_current().is_none(),
            };
            if self.shown != Some(key) {
                self.preview.forget();
                if self.shown.is_some() {
                    self.refusal.forget();
                }
                self.shown = Some(key);
            }
            ui.vertical(|ui| {
                match self.sheet.get(key, |_| drawn(desk, &asked)) {
                    Ok(sheet) => self.preview.show(ui, sheet, 0, Vec2::new(480.0, 300.0)),
                    Err(why) => {
                        ui.label(why.as_str());
                    }
                }
                ui.add_space(6.0);
                ui.label("The name's ending chooses: .png, .svg or .pdf.");
                ui.horizontal(|ui| {
                    if ui.button("Save picture…").clicked() {
                        next = save(desk, &asked);
                    }
                    if ui.button("Copy").clicked() {
                        copy(ui.ctx(), desk, &asked);
                    }
                    if ui.button("Close").clicked() {
                        next = Next::Close;
                    }
                });
                self.refusal.show(ui);
            });
        });
        next
    }

    fn works_on_unit(&self) -> bool {
        true
    }
}

fn save(desk: &mut Desk, asked: &PictureAsked) -> Next {
    let sheet = match drawn(desk, asked) {
        Ok(sheet) => sheet,
        Err(why) => {
            desk.warn(format!("Not saved. {why}"));
            return Next::Stay;
        }
    };
    let view = asked.view.map_or("unit", PictureView::id);
    let name = format!("{}-{view}.png", file_stem_for(&desk.document().name));
    let place = Ask::PlaceForPicture(name);
    ask_place(desk, &place, &["png", "svg", "pdf"], move |file| {
        let shown = file.display();
        let Some(format) = PictureFormat::of(file) else {
            return Err("Not saved: write a name that ends in .png, .svg or .pdf.".to_owned());
        };
        let written = picture_bytes(&sheet, format, Resolution::Usual).and_then(|bytes| {
            let written = store::write_whole(file, &bytes);
            written.map_err(|error| error.to_string())
        });
        match written {
            Ok(()) => Ok(format!("Saved the picture: {shown}")),
            Err(error) => Err(format!("Not saved: {error}. File: {shown}")),
        }
    })
}
