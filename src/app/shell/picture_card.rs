//! Saving or copying one picture of the unit, and copying the table of an area.

use std::path::PathBuf;
use std::sync::Arc;

use egui::{Button, Context, Ui, Vec2};

use super::preview::{Preview, blank_page_ui, image_of};
use super::work_card::{WorkCard, WorkWords};
use crate::analysis::{Kinematics, Solved, SolvedId};
use crate::app::areas::{About, Areas};
use crate::app::desk::{Ask, Card, CopiedPicture, Desk, NO_SOLUTION, Next};
use crate::app::files::{Refusal, ask_place_then, file_stem_for};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::making::{KeptMade, MadeState, Making, Teller};
use crate::drawing::{NoPicture, Page, PictureView, Sheet, Standing, Theme, to_pixels};
use crate::printing::{PictureAsked, PictureFormat, Resolution, picture_bytes, table_to_paste};
use crate::store;
use crate::unit::Document;
use crate::units::System;

/// How large a picture is shown at the most.
const LARGEST: Vec2 = Vec2::new(480.0, 300.0);
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
        Some(view) => match current(desk) {
            Ok(document) => {
                let mut asked = asked(view, desk.system());
                // Of the unit itself the page that says most: with its lens, its numbers and its verdict, and
                // on what size of paper its scale holds.
                if view == PictureView::Whole {
                    asked.view = None;
                }
                copy(ctx, desk, move || drawn(document, &asked).map(Arc::new));
            }
            Err(why) => desk.warn(format!("Not copied. {why}")),
        },
        None => desk.warn(format!("Not copied. {}", no_picture(of))),
    }
}

/// Has a picture drawn, and its pixels copied.
fn copy(
    ctx: &Context,
    desk: &mut Desk,
    draw: impl FnOnce() -> Result<Arc<Sheet>, String> + Send + 'static,
) {
    desk.copy_picture(ctx, move |_| {
        let sheet = draw()?;
        Ok(CopiedPicture {
            image: image_of(&to_pixels(&sheet, COPIED)?),
            title: sheet.title.clone(),
        })
    });
}

/// Why the table of the area in front cannot be copied now; none where it can.
pub fn why_no_table(desk: &Desk, areas: &mut Areas) -> Option<String> {
    let view = areas.shown_first();
    match areas.front().table(desk) {
        Some(own) => own.err(),
        None => why_no_view(desk, view),
    }
}

/// Why an area's picture cannot be copied now; none where it can.
pub fn why_no_picture(desk: &Desk, of: &About) -> Option<String> {
    of.picture
        .map_or_else(|| Some(no_picture(of)), |view| why_no_view(desk, view))
}

/// Why a view of the unit in front shows nothing now.
fn why_no_view(desk: &Desk, view: PictureView) -> Option<String> {
    if let Some(why) = desk.why_not_current() {
        return Some(why);
    }
    let Some(good) = desk.good() else {
        return Some(NO_SOLUTION.to_owned());
    };
    let is_moving = matches!(view, PictureView::Path | PictureView::Motion);
    let is_still = Kinematics::of(&good.unit, &good.solution).is_none();
    (is_moving && is_still).then(|| NoPicture::NoSpeeds.to_string())
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
    match (desk.good(), why_no_view(desk, view)) {
        (Some(good), None) => {
            table_to_paste(good, view, desk.system()).map_err(|problem| problem.to_string())
        }
        (_, why) => Err(why.unwrap_or_default()),
    }
}

/// What pictures are drawn of now.
fn current(desk: &Desk) -> Result<Arc<Document>, String> {
    if let Some(why) = desk.why_not_current() {
        return Err(why);
    }
    let good = desk.good().ok_or(NO_SOLUTION)?;
    Ok(Arc::clone(&good.document))
}

fn drawn(document: Arc<Document>, asked: &PictureAsked) -> Result<Sheet, String> {
    let solved = Solved::of_shared(document).map_err(|why| why.shown_in(asked.system))?;
    let sheet = asked.sheet(&solved);
    sheet.map_err(|none: NoPicture| none.to_string())
}

/// What the picture of the card depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Key {
    solved: Option<SolvedId>,
    asked: PictureAsked,
    is_current: bool,
}

/// What a person chose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Chosen {
    view: PictureView,
    is_dark: bool,
    is_clear: bool,
}

impl Chosen {
    fn asked(self, system: System) -> PictureAsked {
        PictureAsked {
            is_clear: self.is_clear,
            theme: if self.is_dark {
                Theme::Dark
            } else {
                Theme::Light
            },
            ..asked(self.view, system)
        }
    }
}

/// The card on which a picture is chosen.
pub struct PictureCard {
    chosen: Chosen,
    sheet: KeptMade<Key, Result<Arc<Sheet>, String>>,
    preview: Preview,
    shown: Option<Key>,
    refusal: Refusal,
}

impl PictureCard {
    /// A card that begins with a picture.
    pub fn of(view: PictureView) -> Self {
        Self::with(Chosen {
            view,
            is_dark: false,
            is_clear: false,
        })
    }

    fn with(chosen: Chosen) -> Self {
        Self {
            chosen,
            sheet: KeptMade::default(),
            preview: Preview::default(),
            shown: None,
            refusal: Refusal::default(),
        }
    }

    /// The picture as it will be, how far it is, or why there is none; what it is once it is made.
    fn picture_ui(&mut self, ui: &mut Ui, desk: &Desk, key: Key) -> Option<Arc<Sheet>> {
        let is_cancelled = match self.sheet.get(key, |key| making(ui.ctx(), desk, key)) {
            MadeState::Made(Ok(sheet)) => {
                self.preview.show(ui, sheet, 0, LARGEST);
                return Some(Arc::clone(sheet));
            }
            MadeState::Made(Err(why)) => {
                ui.label(why.as_str());
                false
            }
            MadeState::Going(making) => {
                blank_page_ui(ui, Page::default().on_its_side(), LARGEST);
                making.progress_ui(ui, "Making the picture")
            }
            MadeState::Ended => {
                ui.label("The picture is not made.");
                if ui.button("Make the picture").clicked() {
                    self.sheet.forget();
                }
                false
            }
        };
        if is_cancelled {
            self.sheet.give_up();
        }
        None
    }
}

/// Lays a picture out on a thread of its own.
fn making(ctx: &Context, desk: &Desk, key: &Key) -> Making<Result<Arc<Sheet>, String>> {
    let (document, asked) = (current(desk), key.asked);
    Making::begin(ctx, "picture", move |teller| {
        let sheet = document.and_then(|document| drawn(document, &asked).map(Arc::new));
        teller.tell(1, 1).is_continue().then_some(sheet)
    })
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
                    ui.radio_value(&mut self.chosen.view, view, view.name());
                }
                ui.checkbox(&mut self.chosen.is_dark, "Light lines on dark");
                ui.checkbox(&mut self.chosen.is_clear, "Clear background")
                    .on_hover_text("To lay the picture over something else");
            });
            let key = Key {
                solved: desk.good().map(|good| good.id),
                asked: self.chosen.asked(desk.system()),
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
                let made = self.picture_ui(ui, desk, key);
                ui.add_space(6.0);
                ui.label("The name's ending chooses: .png, .svg or .pdf.");
                ui.horizontal(|ui| {
                    let button = |ui: &mut Ui, name: &str| {
                        let button = ui.add_enabled(made.is_some(), Button::new(name));
                        made.as_ref().filter(|_| button.clicked())
                    };
                    if let Some(sheet) = button(ui, "Save picture…") {
                        next = save(desk, self.chosen, sheet);
                    }
                    if let Some(sheet) = button(ui, "Copy") {
                        let sheet = Arc::clone(sheet);
                        copy(ui.ctx(), desk, move || Ok(sheet));
                    }
                    if ui.button("Close").clicked() {
                        next = Next::Close;
                    }
                });
                desk.copying_ui(ui);
                self.refusal.show(ui);
            });
        });
        next
    }

    fn works_on_unit(&self) -> bool {
        true
    }
}

/// Asks for a place and has the picture written there on a thread of its own; the card comes back where it
/// was not written.
fn save(desk: &mut Desk, chosen: Chosen, sheet: &Arc<Sheet>) -> Next {
    let view = chosen.view.id();
    let name = format!("{}-{view}.png", file_stem_for(&desk.document().name));
    let place = Ask::PlaceForPicture(name);
    let sheet = Arc::clone(sheet);
    ask_place_then(desk, &place, &["png", "svg", "pdf"], move |desk, file| {
        let Some(format) = PictureFormat::of(file) else {
            return Err("Not saved: write a name that ends in .png, .svg or .pdf.".to_owned());
        };
        desk.open_card(writing(chosen, Arc::clone(&sheet), file.to_owned(), format));
        Ok(())
    })
}

/// The card that is open while a picture is written.
fn writing(
    chosen: Chosen,
    sheet: Arc<Sheet>,
    file: PathBuf,
    format: PictureFormat,
) -> WorkCard<Result<(), String>> {
    let words = WorkWords {
        title: "Saving a picture",
        about: file.display().to_string(),
        counted: "Making the picture",
        cancelled: "Cancelled: no picture was saved.",
        failed: "Not saved: the picture could not be made.",
    };
    let out = file.clone();
    let make = move |teller: &Teller| {
        let bytes = match picture_bytes(&sheet, format, Resolution::Usual) {
            Ok(bytes) => bytes,
            Err(why) => return Some(Err(why)),
        };
        if teller.go_past().is_break() {
            return None;
        }
        let written = store::write_whole(&out, &bytes);
        Some(written.map_err(|error| error.to_string()))
    };
    WorkCard::new(words, make, move |desk, written| {
        let shown = file.display();
        match written {
            Ok(()) => desk.tell(format!("Saved the picture: {shown}")),
            Err(error) => {
                desk.warn(format!("Not saved: {error}. File: {shown}"));
                desk.open_card(PictureCard::with(chosen));
            }
        }
    })
}
