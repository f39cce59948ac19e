//! Printing or saving a sheet: the sheet itself on the screen, its kind, its paper, and where it goes.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::{Align, Button, Context, Layout, Ui, Vec2};

use super::preview::{Preview, blank_page_ui};
use super::sheet_choices::{lesson_choices_ui, paper_ui, sheet_choices_ui};
use crate::analysis::SolvedId;
use crate::app::areas::Areas;
use crate::app::desk::{
    Ask, Card, Desk, DeskWork, LessonToPrint, Next, PlateToPrint, PrintJob, ToPrint,
};
use crate::app::files::{Refusal, ask_place, ask_place_and_open, file_stem_for};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::making::{KeptMade, MadeState, Making};
use crate::drawing::{Awaited, Origin, Sheet};
use crate::printing::{
    BoundSheet, Progress, SheetAsked, bound_handout, bound_sheet, bound_worksheet, origin_of,
    with_record,
};
use crate::store;
use crate::unit::Document;
use crate::units::System;

/// What the sheets of the card depend on.
#[derive(Clone, Debug, PartialEq)]
struct Key {
    /// The solve that a unit's sheet is of; none for a plate sheet or a lesson, which stay as they were.
    solved: Option<SolvedId>,
    asked: SheetAsked,
    system: System,
    origin: Origin,
    file: Option<PathBuf>,
}

/// A sheet as it is shown, with the PDF that is printed and saved.
struct Shown {
    sheets: Vec<Sheet>,
    pdf: Arc<Vec<u8>>,
}

impl Shown {
    fn of(bound: BoundSheet) -> Self {
        Self {
            sheets: bound.sheets,
            pdf: Arc::new(bound.bytes),
        }
    }
}

/// The card.
#[derive(Default)]
pub struct PrintCard {
    /// The plate sheet that is printed; none where it is a sheet of the unit in front.
    plate: Option<PlateToPrint>,
    /// The lesson whose handout is offered.
    lesson: Option<LessonToPrint>,
    /// The handout is chosen, not a sheet of the unit in front.
    is_handout: bool,
    asked: SheetAsked,
    page: usize,
    shown: KeptMade<Key, Result<Shown, String>>,
    preview: Preview,
    refusal: Refusal,
}

/// Opens the card on what is printed of the area in front.
pub fn open_print_card(desk: &mut Desk, areas: &mut Areas) {
    match areas.front().to_print(desk) {
        Ok(what) => desk.open_card(PrintCard::of(what)),
        Err(why) => desk.warn(why),
    }
}

/// Room for how far the sheet is, and then for its pages.
const COMES_AND_GOES: f32 = 84.0;
/// How large a page is shown at the most.
const LARGEST: Vec2 = Vec2::new(430.0, 470.0);

/// What a sheet is made of.
enum Source {
    Unit(Arc<Document>),
    Plate(PlateToPrint),
    Lesson(LessonToPrint),
}

impl Source {
    /// What it is called.
    fn name(&self) -> &str {
        match self {
            Self::Unit(document) => &document.name,
            Self::Plate(plate) => &plate.unit.name,
            Self::Lesson(lesson) => &lesson.lesson.title,
        }
    }
}

/// Makes a sheet on a thread of its own.
fn making(ctx: &Context, source: Source, key: &Key) -> Making<Result<Shown, String>> {
    let key = key.clone();
    Making::begin(ctx, "sheet", move |teller| {
        let tell = |progress: Progress| teller.tell(progress.done, progress.of);
        let is_given_up = || teller.is_given_up();
        let awaited = Awaited::unless(&is_given_up);
        let bound = match source {
            Source::Plate(PlateToPrint { sheet, unit, .. }) => {
                let read = (key.asked.page, key.system);
                bound_worksheet((&sheet, unit), read, &key.origin, awaited, tell)
            }
            Source::Lesson(of) => {
                let lesson = (&*of.lesson, of.file_in_folder.as_deref());
                bound_handout(lesson, key.asked.page, &key.origin, awaited, tell)
            }
            Source::Unit(document) => {
                match with_record(key.origin, &key.asked, key.file.as_deref()) {
                    Ok(origin) => {
                        bound_sheet(document, &key.asked, &origin, key.system, awaited, tell)
                    }
                    Err(problem) => Err(problem.to_string()),
                }
            }
        };
        bound.transpose().map(|bound| bound.map(Shown::of))
    })
}

/// What is done with a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Wanted {
    Printed,
    Saved,
    SavedAndOpened,
}

impl PrintCard {
    /// With what is to be printed chosen.
    pub fn of(what: ToPrint) -> Self {
        match what {
            ToPrint::Unit(kind) => Self {
                asked: SheetAsked {
                    kind,
                    ..SheetAsked::default()
                },
                ..Self::default()
            },
            ToPrint::Plate(plate) => Self {
                plate: Some(plate),
                ..Self::default()
            },
            ToPrint::Lesson(lesson) => Self {
                lesson: Some(lesson),
                is_handout: true,
                ..Self::default()
            },
        }
    }

    /// What the sheet is, and how the name of its file ends.
    fn named(&self) -> (&'static str, &'static str) {
        match &self.plate {
            Some(_) => ("Plate sheet", "plate"),
            None if self.is_handout => ("Handout", "handout"),
            None => (self.asked.kind.name(), self.asked.kind.id()),
        }
    }

    /// The lesson whose handout is chosen.
    fn handout(&self) -> Option<&LessonToPrint> {
        self.lesson.as_ref().filter(|_| self.is_handout)
    }

    /// What the sheet is made of, with what it depends on; or why it cannot be made.
    fn source(&self, desk: &Desk) -> Result<(Source, Key), String> {
        let (asked, system) = (self.asked, desk.system());
        let of_work = |origin: &Origin| Key {
            solved: None,
            asked,
            system,
            origin: origin.clone(),
            file: None,
        };
        if let Some(plate) = &self.plate {
            return Ok((Source::Plate(plate.clone()), of_work(&plate.origin)));
        }
        if let Some(lesson) = self.handout() {
            return Ok((Source::Lesson(lesson.clone()), of_work(&lesson.origin)));
        }
        let good = desk
            .good()
            .ok_or("This unit has no solution yet that a sheet could show.")?;
        if let Some(why) = desk.why_not_current() {
            return Err(format!("Not current. {why}"));
        }
        let session = desk.session();
        let (file, digest) = (session.file(), session.digest());
        let key = Key {
            solved: Some(good.id),
            asked,
            system,
            origin: origin_of(file, digest, session.is_changed()),
            file: file.map(Path::to_owned),
        };
        Ok((Source::Unit(Arc::clone(&good.document)), key))
    }

    fn pages_ui(&mut self, ui: &mut Ui, count: usize) {
        self.page = self.page.min(count.saturating_sub(1));
        if count < 2 {
            return;
        }
        ui.horizontal(|ui| {
            let back = ui.add_enabled(self.page > 0, Button::new("Previous page"));
            if back.clicked() {
                self.page -= 1;
            }
            ui.label(format!("{} of {count}", self.page + 1));
            let on = self.page + 1 < count;
            let on = ui.add_enabled(on, Button::new("Next page"));
            if on.clicked() {
                self.page += 1;
            }
        });
    }

    /// How far the sheet is, once that takes a while; it can be broken off, and begun again.
    fn progress_ui(&mut self, ui: &mut Ui) {
        let is_cancelled = match self.shown.state() {
            MadeState::Going(making) => making.progress_ui(ui, "Making the sheet"),
            MadeState::Made(Ok(_)) => false,
            MadeState::Made(Err(why)) => {
                ui.label(format!("This sheet cannot be made. {why}"));
                false
            }
            MadeState::Ended => {
                ui.label("The sheet is not made.");
                if ui.button("Make the sheet").clicked() {
                    self.shown.forget();
                }
                false
            }
        };
        if is_cancelled {
            self.shown.give_up();
        }
    }

    fn buttons_ui(&self, ui: &mut Ui) -> Option<Wanted> {
        let is_made = matches!(self.shown.made(), Some(Ok(_)));
        let mut wanted = None;
        for (one, name, help) in [
            (
                Wanted::Printed,
                "Print…",
                "Opens the print dialog of this desktop; without one, the PDF in its viewer.",
            ),
            (Wanted::Saved, "Save PDF…", "Asks where to save it."),
            (
                Wanted::SavedAndOpened,
                "Save PDF and open it…",
                "Opens it in this system's PDF viewer, to be printed from there.",
            ),
        ] {
            let button = ui.add_enabled(is_made, Button::new(name));
            if button.on_hover_text(help).clicked() {
                wanted = Some(one);
            }
        }
        wanted
    }

    /// Does with the sheet what is wanted; whether the card stays.
    fn take(&self, desk: &mut Desk, wanted: Wanted, name: &str) -> Next {
        let Some(Ok(shown)) = self.shown.made() else {
            return Next::Stay;
        };
        if wanted != Wanted::Printed {
            let is_opened = wanted == Wanted::SavedAndOpened;
            let is_unsaved = |work: Option<bool>| work == Some(true);
            let beside =
                if self.plate.is_some() && is_unsaved(desk.sheet().map(DeskWork::has_unsaved)) {
                    ". This is the page alone: the plate sheet is not saved yet"
                } else if self.is_handout && is_unsaved(desk.lesson().map(DeskWork::has_unsaved)) {
                    ". This is the handout alone: the lesson is not saved yet"
                } else {
                    ""
                };
            let pdf = (&shown.pdf, beside);
            return save(desk, self.named().1, name, pdf, is_opened);
        }
        desk.print(PrintJob {
            title: format!("{}: {name}", self.named().0),
            page: self.asked.page,
            is_lying: shown.sheets.first().is_some_and(Sheet::is_lying),
            pdf: Arc::clone(&shown.pdf),
        });
        Next::Close
    }
}

impl Card for PrintCard {
    fn name(&self) -> &'static str {
        "print"
    }

    fn width(&self) -> f32 {
        700.0
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) -> Next {
        ui.label(Lettering::CardTitle.of(match &self.plate {
            Some(_) => "Print or save the plate sheet",
            None => "Print or save a sheet",
        }));
        if let Err(why) = self.source(desk) {
            ui.label(why);
            // The handout can still be chosen.
            if self.lesson.is_some() && ui.button("Handout of the lesson").clicked() {
                self.is_handout = true;
            }
            return close_ui(ui);
        }
        self.refusal.hear(desk);
        let before = (self.asked, self.is_handout);
        let mut next = Next::Stay;
        ui.horizontal_top(|ui| {
            ui.vertical(|ui| {
                ui.set_width(230.0);
                match (&self.plate, &self.lesson) {
                    (Some(_), _) => paper_ui(ui, &mut self.asked.page),
                    (None, Some(_)) => {
                        lesson_choices_ui(ui, &mut self.asked, &mut self.is_handout);
                    }
                    (None, None) => sheet_choices_ui(ui, &mut self.asked),
                }
                if (self.asked, self.is_handout) != before {
                    self.page = 0;
                    self.refusal.forget();
                }
                let Ok((source, key)) = self.source(desk) else {
                    return;
                };
                let name = source.name().to_owned();
                let (ctx, preview) = (ui.ctx().clone(), &mut self.preview);
                self.shown.get(key, |key| {
                    preview.forget();
                    making(&ctx, source, key)
                });
                ui.add_space(10.0);
                ui.label("Print at 100 %, not fitted to the page.");
                ui.add_space(6.0);
                if let Some(wanted) = self.buttons_ui(ui) {
                    next = self.take(desk, wanted, &name);
                }
                if ui.button("Close").clicked() {
                    next = Next::Close;
                }
                // What comes and goes has its room below, so that no button moves under the hand.
                ui.add_space(6.0);
                let room = Vec2::new(ui.available_width(), COMES_AND_GOES);
                ui.allocate_ui_with_layout(room, Layout::top_down(Align::Min), |ui| {
                    ui.set_min_height(COMES_AND_GOES);
                    let pages = match self.shown.made() {
                        Some(Ok(shown)) => shown.sheets.len(),
                        _ => 0,
                    };
                    self.pages_ui(ui, pages);
                    self.progress_ui(ui);
                });
                self.refusal.show(ui);
            });
            if let Some(Ok(shown)) = self.shown.made()
                && let Some(sheet) = shown.sheets.get(self.page)
            {
                self.preview.show(ui, sheet, self.page, LARGEST);
            } else {
                // As much room as the sheet will take, so that the card stays where it is.
                blank_page_ui(ui, self.asked.page.upright(), LARGEST);
            }
        });
        next
    }

    fn works_on_unit(&self) -> bool {
        self.plate.is_none() && !self.is_handout
    }
}

fn close_ui(ui: &mut Ui) -> Next {
    if ui.button("Close").clicked() {
        Next::Close
    } else {
        Next::Stay
    }
}

fn save(
    desk: &mut Desk,
    end: &str,
    name: &str,
    (pdf, beside): (&Arc<Vec<u8>>, &'static str),
    is_opened: bool,
) -> Next {
    let name = format!("{}-{end}.pdf", file_stem_for(name));
    let pdf = Arc::clone(pdf);
    let write = move |file: &Path| {
        let shown = file.display();
        match store::write_whole(file, &pdf) {
            Ok(()) => Ok(format!("Saved the sheet: {shown}{beside}")),
            Err(error) => Err(format!("Not saved: {error}. File: {shown}")),
        }
    };
    let place = Ask::PlaceForSheet(name);
    if is_opened {
        ask_place_and_open(desk, &place, &["pdf"], write)
    } else {
        ask_place(desk, &place, &["pdf"], write)
    }
}
