//! The Plate area: the sheet that is filled in at the surface plate, a page a step, in working order.

mod beside;
mod entry;
mod field_course;
mod fill_card;
mod no_sheet;
mod page;
mod pages;
mod picture;
mod printing;
mod steps;
mod tools;
mod worked_out;

use egui::{Align, CentralPanel, Id, Key, Layout, Panel, ScrollArea, Ui, Vec2};

use self::beside::{SheetsBeside, sheets_ui};
use self::entry::{Entries, Typing, told_ui};
use self::field_course::FieldCourse;
use self::no_sheet::NO_SHEET;
use self::page::Page;
use self::pages::{Shown, Ways, page_ui};
use self::picture::{StepPicture, has_picture, scene_of};
use self::printing::to_print;
use self::steps::{Unread, next_page, stands, state_of, steps_ui};
use self::tools::tools_ui;
use self::worked_out::{WorkedOut, Working};
use super::{About, Area, PagePicture};
use crate::analysis::Level;
use crate::analysis::plate::StepState;
use crate::app::desk::{Desk, DeskWork as _, InHand, SessionId, SheetWork, ToPrint, WorkKind};
use crate::app::files::PLATE_AREA;
use crate::app::widgets::caution::caution_in_short_ui;
use crate::app::widgets::focus::Followed;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::words::capitalised;
use crate::plate::{Roller, SheetField, SheetFlaw, Step};
use crate::printing::plate_table_to_paste;

pub const ABOUT: About = About {
    id: PLATE_AREA,
    title: "Plate",
    purpose: "Bring the rollers parallel on the surface plate, step by step",
    key: Key::Num5,
    picture: None,
};

/// Width of the list of steps.
const STEPS: f32 = 244.0;

/// From this width of a page on its picture stands beside its entries.
const BESIDE: f32 = 720.0;

/// A picture of a width, in the shape that all of them have.
fn picture_size(width: f32) -> Vec2 {
    let width = width.min(520.0);
    Vec2::new(width, 0.6 * width)
}

/// The area. What is looked at belongs to the sheet.
#[derive(Debug, Default)]
pub struct PlateArea {
    working: Working,
    /// The sheet that the rest is of.
    of: Option<SessionId>,
    page: Page,
    typing: Option<Typing>,
    ways: Ways,
    picture: StepPicture,
    beside: SheetsBeside,
    course: FieldCourse,
}

impl Area for PlateArea {
    fn about(&self) -> &'static About {
        &ABOUT
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let worked_out = self.working.of(desk);
        let beside = self.beside.look(ui.ctx(), desk);
        let Some(worked_out) = worked_out else {
            self.of = None;
            CentralPanel::default_margins().show(ui, |ui| {
                NO_SHEET.show(ui, desk, |ui, desk| sheets_ui(ui, desk, &beside));
            });
            return;
        };
        self.begin(desk, &worked_out);
        let is_free = !desk.is_asking();
        let last = self.working.last(desk).cloned();
        Panel::top("plate tools").show(ui, |ui| {
            let last = last.as_deref();
            ui.add_enabled_ui(is_free, |ui| tools_ui(ui, desk, &worked_out, last, &beside));
        });
        let unread = self.unread(desk);
        Panel::left("plate steps")
            .exact_size(STEPS)
            .resizable(false)
            .show(ui, |ui| {
                steps_ui(
                    ui,
                    &mut self.page,
                    last.as_deref(),
                    worked_out.hours.as_ref(),
                    &unread,
                );
            });
        CentralPanel::default_margins().show(ui, |ui| {
            ui.add_enabled_ui(is_free, |ui| self.front_ui(ui, desk, &worked_out));
        });
    }

    fn has_form(&self, _desk: &Desk) -> bool {
        false
    }

    fn in_hand(&self) -> InHand {
        InHand::Work(WorkKind::Sheet)
    }

    fn to_print(&mut self, desk: &Desk) -> Result<ToPrint, String> {
        match self.working.of(desk) {
            Some(worked_out) => to_print(desk, &worked_out),
            None => Ok(ToPrint::default()),
        }
    }

    fn page_picture(&mut self, desk: &Desk) -> Option<PagePicture> {
        let worked_out = self.working.of(desk)?;
        self.begin(desk, &worked_out);
        let shown = shown_of(desk, &worked_out);
        let scene = scene_of(self.page, &shown, self.ways.adjusters)?;
        let title = capitalised(self.page.title());
        Some(PagePicture { title, scene })
    }

    fn table(&mut self, desk: &Desk) -> Option<Result<String, String>> {
        Some(self.numbers_to_paste(desk))
    }
}

fn shown_of(desk: &Desk, worked_out: &WorkedOut) -> Shown {
    Shown {
        result: worked_out.result.as_ref().ok().cloned(),
        unit: worked_out.unit.clone(),
        system: desk.system(),
    }
}

fn has_width(sheet: &SheetWork) -> bool {
    sheet.entries().has(SheetField::CutWidth)
}

/// Why a sheet with a flaw has no numbers.
fn why_not_worked_out(sheet: &SheetWork, flaw: &SheetFlaw) -> String {
    if !has_width(sheet) {
        return "Not worked out yet: write the cutting width under The job.".to_owned();
    }
    let name = SheetField::at_path(&flaw.path).map(SheetField::name);
    let name = name.unwrap_or_else(|| flaw.path.clone());
    format!("Not worked out. {name}: {}.", flaw.kind)
}

/// A bar's own size stands where it is to be measured.
fn unmeasured_bar_ui(ui: &mut Ui, desk: &mut Desk) {
    let sheet = desk.sheet().map(SheetWork::sheet);
    if !sheet.is_some_and(|sheet| sheet.again.contains(&Step::PlateAndBar)) {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.label(
            "This is the bar's nominal size: measure the bar under both ends, and type over it.",
        );
        let help = "Keeps the sizes shown here as measured";
        if ui.button("It measures so").on_hover_text(help).clicked() {
            desk.edit_sheet("gauge bar measured", None, |entries| {
                entries.still_holds(Step::PlateAndBar);
            });
        }
    });
}

impl PlateArea {
    /// How much of the rollers' turns was read where that is not all.
    fn unread(&self, desk: &Desk) -> Unread {
        let sheet = desk.sheet().map(SheetWork::entries);
        sheet.map_or_else(Default::default, |entries| self.ways.unread(entries))
    }

    /// Begins with another sheet at the first page that is not done; with a new one at the job, as long as
    /// nobody wrote down who does it and at how many hours.
    fn begin(&mut self, desk: &Desk, worked_out: &WorkedOut) {
        let id = desk.sheet().map(SheetWork::id);
        if self.of == id {
            return;
        }
        let result = worked_out.result.as_ref().ok();
        let next = next_page(result.map(|result| &**result));
        let is_blank = |sheet: &SheetWork| {
            let fields = [SheetField::By, SheetField::Hours];
            sheet.file().is_none() && fields.iter().any(|field| !sheet.entries().has(*field))
        };
        let is_new = desk.sheet().is_some_and(is_blank);
        let next = next.filter(|_| !is_new);
        *self = Self {
            working: std::mem::take(&mut self.working),
            beside: std::mem::take(&mut self.beside),
            of: id,
            page: next.unwrap_or_default(),
            ..Self::default()
        };
        if is_new {
            self.course.turn_to_blank();
        }
    }

    /// The sheet's numbers for a spreadsheet.
    fn numbers_to_paste(&mut self, desk: &Desk) -> Result<String, String> {
        let worked_out = self.working.of(desk);
        let (Some(sheet), Some(worked_out)) = (desk.sheet(), worked_out) else {
            return Err("No plate sheet is open: begin one or open one first.".to_owned());
        };
        match &worked_out.result {
            Ok(result) => plate_table_to_paste(sheet.sheet(), result, desk.system())
                .map_err(|problem| problem.to_string()),
            Err(flaw) => Err(why_not_worked_out(sheet, flaw)),
        }
    }

    /// The page in front.
    fn front_ui(&mut self, ui: &mut Ui, desk: &mut Desk, worked_out: &WorkedOut) {
        ScrollArea::vertical()
            .id_salt(("plate page", self.page.title()))
            .auto_shrink(false)
            .show(ui, |ui| {
                let followed = Followed::begin(ui);
                self.page_head_ui(ui, desk, worked_out);
                let flaw = worked_out.result.as_ref().err();
                let shown = shown_of(desk, worked_out);
                let revision = desk.sheet().map_or(0, SheetWork::revision);
                let pictured = (&shown, self.ways.adjusters);
                let width = ui.available_width();
                let is_beside = width >= BESIDE && has_picture(self.page);
                self.course.begin(ui);
                let mut entries = Entries {
                    desk,
                    typing: &mut self.typing,
                    flaw,
                    result: worked_out.result.as_deref().ok(),
                    hours: worked_out.hours.as_ref(),
                    course: &mut self.course,
                };
                if is_beside {
                    let picture = picture_size(0.42 * width);
                    ui.horizontal_top(|ui| {
                        let left = width - picture.x - ui.spacing().item_spacing.x;
                        let layout = Layout::top_down(Align::Min);
                        ui.allocate_ui_with_layout(Vec2::new(left, 0.0), layout, |ui| {
                            ui.set_width(left);
                            page_ui(ui, self.page, &mut entries, &shown, &mut self.ways);
                        });
                        self.picture
                            .show(ui, self.page, revision, pictured, picture);
                    });
                } else {
                    let size = picture_size(width.min(300.0));
                    self.picture.show(ui, self.page, revision, pictured, size);
                    page_ui(ui, self.page, &mut entries, &shown, &mut self.ways);
                }
                ui.add_space(10.0);
                let next = self.turn_ui(ui, &shown);
                self.course.go_on(ui, next);
                ui.add_space(14.0);
                caution_in_short_ui(ui);
                followed.bring_in(ui);
            });
    }

    fn page_head_ui(&self, ui: &mut Ui, desk: &mut Desk, worked_out: &WorkedOut) {
        let last = self.working.last(desk).cloned();
        let state = state_of(self.page, last.as_deref());
        let title = capitalised(self.page.title());
        let stands = stands(
            self.page,
            last.as_deref(),
            worked_out.hours.as_ref(),
            &self.unread(desk),
        );
        ui.label(Lettering::Headline.of(format!("{title}: {stands}")));
        ui.label(Lettering::InShort.of(self.page.what_to_do()));
        if let Some(caution) = self.page.caution() {
            told_ui(ui, Level::Watch, caution);
        }
        if let Page::Step(step) = self.page
            && state == StepState::Again
            && desk
                .sheet()
                .is_some_and(|sheet| sheet.sheet().again.contains(&step))
        {
            ui.horizontal_wrapped(|ui| {
                ui.label("A roller was moved, or another bar taken, since: read it again.");
                if ui
                    .button("It still holds")
                    .on_hover_text("Keeps what was read before that")
                    .clicked()
                {
                    desk.edit_sheet("a step that still holds", None, |entries| {
                        entries.still_holds(step);
                    });
                }
            });
        }
        if self.page == Page::Step(Step::PlateAndBar) {
            unmeasured_bar_ui(ui, desk);
        }
        self.trouble_ui(ui, desk, worked_out);
        ui.add_space(6.0);
    }

    /// Why there are no numbers.
    fn trouble_ui(&self, ui: &mut Ui, desk: &Desk, worked_out: &WorkedOut) {
        let Err(flaw) = &worked_out.result else {
            return;
        };
        let Some(sheet) = desk.sheet() else {
            return;
        };
        let text = why_not_worked_out(sheet, flaw);
        let field = SheetField::at_path(&flaw.path);
        let is_told_here = field.is_some_and(|field| {
            let page = field.step().map_or(Page::Job, Page::Step);
            page == self.page && sheet.entries().has(field)
        });
        if is_told_here {
            let told = "Not worked out until the entry marked below is put right.";
            told_ui(ui, Level::Over, told);
        } else if has_width(sheet) {
            told_ui(ui, Level::Over, &text);
        } else if self.page != Page::Job {
            told_ui(ui, Level::Watch, &text);
        }
    }

    /// The ends to be read again after their roller was moved on this page.
    fn read_again(&self, shown: &Shown) -> Option<Page> {
        let (roller, ends) = match self.page {
            Page::Step(Step::FrontAdjuster) => (Roller::Front, Step::FrontEnds),
            Page::Step(Step::RearAdjuster) => (Roller::Rear, Step::RearEnds),
            _ => return None,
        };
        let result = shown.result.as_ref()?;
        let was_moved = result.readings.roller(roller)?.out_before.is_some();
        let is_open = result.state_of(ends) != StepState::Done;
        (was_moved && is_open).then_some(Page::Step(ends))
    }

    /// Back to the page before, and on to the next: its button, where there is one.
    fn turn_ui(&mut self, ui: &mut Ui, shown: &Shown) -> Option<Id> {
        let (before, after) = self.page.neighbours();
        let again = self.read_again(shown);
        let (way, after) = match again {
            Some(again) => ("Back", Some(again)),
            None => ("On", after),
        };
        let mut next = None;
        ui.horizontal_wrapped(|ui| {
            let size = egui::Vec2::new(120.0, 34.0);
            if let Some(before) = before
                && ui
                    .add(egui::Button::new("Step before").min_size(size))
                    .clicked()
            {
                self.page = before;
                self.course.turn();
            }
            if let Some(after) = after {
                let text = format!("{way} to {}", after.title());
                let button = egui::Button::new(Lettering::Name.of(text)).min_size(size);
                let button = ui.add(button).accessible_name("Next step");
                next = Some(button.id);
                if button.clicked() {
                    self.page = after;
                    self.course.turn();
                }
            }
        });
        next
    }
}
