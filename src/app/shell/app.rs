//! The program's window: bar, form and the area in front, and the card over them.

use std::path::Path;

use egui::{Context, Panel, Ui, ViewportCommand};

use super::beginning::Beginning;
use super::beside_card::BesideCard;
use super::beside_file::put as put_beside;
use super::course::{Course, Stops};
use super::deeds::do_as_pressed;
use super::drawer;
use super::notice::notice_strip_ui;
use super::placing::Placing;
use super::print_card::PrintCard;
use super::remembering::Remembering;
use super::scale::apply_scale;
use super::shot::Shot;
use super::start_card::StartCard;
use super::title::Title;
use super::top_bar::top_bar_ui;
use super::turns::Turns;
use crate::app::areas::{About, Areas};
use crate::app::desk::{
    Change, Desk, DeskWork as _, Dialogs, LastWork, MotionWish, Opener, OtherUnit, Preferences,
    Printer, Session, SessionId, SheetWork, StepId, WorkKind, show_card,
};
use crate::app::files::{
    close_asked, dropped_files, is_lesson, name_without_dialog, offer_left, watch_file,
};
use crate::app::form::{Form, Keys};
use crate::app::show::{First, Show, Talk};
use crate::app::widgets::focus::focus_ring_ui;
use crate::command::OpenLesson;
use crate::drawing::PictureView;
use crate::store::plain;
use crate::store::recovery::{Keeper, LeftBehind, left_behind_with};
use crate::unit::Document;
use crate::units::System;

/// The program's window.
pub struct App {
    desk: Desk,
    areas: Areas,
    form: Form,
    course: Course,
    turns: Turns,
    show: Show,
    /// What dead windows left, until it is offered: not over what a room sees.
    left: Option<LeftBehind>,
    title: Title,
    remembering: Option<Remembering>,
    placing: Option<Placing>,
    shot: Option<Shot>,
}

impl App {
    /// A window on a document, with a card over it where what to work on is asked.
    #[must_use]
    pub fn new(
        beginning: impl Into<Beginning>,
        mut preferences: Preferences,
        dialogs: Box<dyn Dialogs>,
    ) -> Self {
        let Beginning {
            session,
            sheet,
            lesson,
            told,
            is_asked,
            keeps_last,
        } = beginning.into();
        match session.file() {
            Some(file) => preferences.remember(file),
            None if keeps_last => {}
            None => preferences.last_open = None,
        }
        if let Some(file) = sheet.as_ref().and_then(SheetWork::file) {
            preferences.remember_work(file);
        }
        let mut desk = Desk::new(session, preferences, dialogs);
        if let Some(sheet) = sheet {
            desk.lay_sheet(sheet);
        }
        if let Some(lesson) = lesson {
            desk.lay_lesson(lesson);
        }
        if is_asked {
            desk.open_card(StartCard::default());
        }
        if let Some(told) = told {
            desk.warn(told);
        }
        Self {
            desk,
            areas: Areas::all(),
            form: Form::default(),
            course: Course::default(),
            turns: Turns::default(),
            show: Show::default(),
            left: None,
            title: Title::default(),
            remembering: None,
            placing: None,
            shot: None,
        }
    }

    /// The session in front: its document, and what follows from it.
    #[must_use]
    pub fn session(&self) -> &Session {
        self.desk.session()
    }

    /// What is remembered from one start to the next.
    #[must_use]
    pub fn preferences(&self) -> &Preferences {
        self.desk.preferences()
    }

    /// The units shown: those chosen, or those the document was measured in.
    #[must_use]
    pub fn system(&self) -> System {
        self.desk.system()
    }

    /// Changes the document in front and works out what follows, as every part of the window does.
    pub fn edit<R>(&mut self, change: Change, edit: impl FnOnce(&mut Document) -> R) -> R {
        self.desk.edit(change, edit)
    }

    /// Lays another session beside those on the desk, behind the one in front.
    pub fn lay_beside(&mut self, session: Session) -> SessionId {
        self.desk.lay_beside(session)
    }

    /// Brings a session to the front; whether it is on the desk.
    pub fn bring_session_to_front(&mut self, session: SessionId) -> bool {
        self.desk.bring_to_front(session)
    }

    /// The areas of the window, in the order of the bar.
    pub fn areas(&self) -> impl Iterator<Item = &'static About> {
        self.areas.abouts()
    }

    /// Brings an area to the front; whether there is one of this name.
    pub fn bring_to_front(&mut self, area: &str) -> bool {
        self.areas.bring_to_front(area)
    }

    /// Shows what is in front to a room: the lesson that the area in front holds, else the unit, beginning
    /// with the picture of that area.
    pub fn show_in_front(&mut self, ctx: &Context) {
        if let Some(step) = self.areas.front().step_shown(&self.desk) {
            return self.desk.ask_to_show_lesson(step);
        }
        let first = first_shown(&mut self.areas, &self.desk);
        self.show.show_unit(ctx, &mut self.desk, first);
        self.fill_screen(ctx);
    }

    /// Opens the card on which the unit in front and another one are looked at side by side.
    pub fn look_beside(&mut self, other: OtherUnit) {
        put_beside(&mut self.desk, other);
        let beside = self.desk.beside().clone();
        self.desk.want_beside(beside);
    }

    /// Shows the unit in front and another one to a room, beginning with the picture of the area in front.
    pub fn show_beside(&mut self, ctx: &Context, other: OtherUnit) {
        put_beside(&mut self.desk, other);
        let view = match first_shown(&mut self.areas, &self.desk) {
            First::View(view) => view,
            First::Page(_) => PictureView::Whole,
        };
        self.show.show_beside(ctx, &mut self.desk, view);
        self.fill_screen(ctx);
    }

    /// Shows a lesson to a room from a step on, the first being 0.
    pub fn show_lesson(&mut self, ctx: &Context, lesson: OpenLesson, step: usize) {
        let talk = Talk::from_step(lesson, step);
        self.show.show_lesson(ctx, &mut self.desk, talk);
        self.fill_screen(ctx);
    }

    /// Opens the presenter's window beside the lesson that is shown.
    pub fn open_presenter(&mut self) {
        self.show.open_presenter();
    }

    /// Takes all of the screen; for a shot the size that was asked for, everything in it at rest.
    fn fill_screen(&mut self, ctx: &Context) {
        if self.shot.is_some() {
            self.show.pause();
        } else {
            ctx.send_viewport_cmd(ViewportCommand::Fullscreen(true));
        }
    }

    /// Shows a folder of units on the shop board.
    pub fn show_folder(&mut self, folder: &Path) {
        self.desk.preferences_mut().shop.folder = Some(folder.to_owned());
    }

    /// Keeps what is not saved in a folder from here on, and offers what dead windows left there, once no
    /// room looks on. Where it cannot be written, that is told once and all else goes on. Whether it is kept.
    pub fn keep_work_in(&mut self, folder: &Path, ctx: &Context) -> bool {
        let ctx = ctx.clone();
        let keeper = Keeper::new(folder, move || ctx.request_repaint());
        let is_kept = keeper.is_ok();
        match keeper {
            Ok(keeper) => self.desk.keep_with(keeper),
            Err(error) => self.desk.warn(format!(
                "What is not saved is not kept for recovery, and what is chosen here is forgotten when the window closes: the program's own folder cannot be written: {}. Folder: {}",
                plain(&error),
                folder.display()
            )),
        }
        self.left = Some(left_behind_with(folder, is_lesson));
        is_kept
    }

    /// Has files that were written opened by this opener from here on.
    pub fn open_files_with(&mut self, opener: Box<dyn Opener>) {
        self.desk.open_files_with(opener);
    }

    /// Has sheets printed by this printer from here on.
    pub fn print_with(&mut self, printer: Box<dyn Printer>) {
        self.desk.print_with(printer);
    }

    /// Has the desktop asked by this whether less is to move, from here on.
    pub fn ask_for_motion_with(&mut self, wish: Box<dyn MotionWish>) {
        self.desk.ask_for_motion_with(wish);
    }

    /// Keeps preferences in a file from here on. `read` is what stands there.
    pub fn keep_preferences_in(&mut self, file: &Path, read: Preferences) {
        self.remembering = Some(Remembering::new(file, read));
    }

    /// Leaves the window's place as it is remembered: it was asked for this time only.
    pub(super) fn keep_no_place(&mut self) {
        self.remembering = self.remembering.take().map(Remembering::without_place);
    }

    /// Leaves dark or light as it is remembered: it was asked for this time only.
    pub(super) fn keep_no_darkness(&mut self) {
        let shown = self.desk.preferences().is_dark;
        let remembering = self.remembering.take();
        self.remembering = remembering.map(|remembering| remembering.showing_now(shown));
    }

    /// Puts the window where it fits once it is shown.
    pub(super) fn place(&mut self, placing: Placing) {
        self.placing = Some(placing);
    }

    /// Keeps where the window stands, as it closes.
    pub fn keep_place(&mut self) {
        if let Some(remembering) = &mut self.remembering {
            remembering.keep_place(&mut self.desk);
        }
    }

    /// What has the last work written before the program ends.
    pub(super) fn last_work(&self) -> LastWork {
        self.desk.last_work()
    }

    /// Tells that something is not as it should be.
    pub(super) fn warn(&mut self, what: String) {
        self.desk.warn(what);
    }

    /// Takes a shot once the window has settled, and closes it.
    pub(super) fn take_shot(&mut self, shot: Option<Shot>) {
        self.shot = shot;
    }

    /// Shows the whole window and takes what is done in it.
    pub fn window_ui(&mut self, ui: &mut Ui) {
        let ctx = &ui.ctx().clone();
        let Self {
            desk,
            areas,
            form,
            course,
            turns,
            show,
            left,
            title,
            remembering,
            placing,
            shot,
        } = self;
        turns.take(ctx);
        // Before the keys are looked at: the Escape that ends Show puts no card away.
        if let Some(left) = left.take_if(|_| !show.is_on()) {
            offer_left(desk, left);
        }
        desk.look_at_hands(ctx);
        course.go_on(ctx, desk.has_card());
        desk.take_in_hand(areas.front().in_hand());
        let has_form = areas.front().has_form(desk);
        let keys = if has_form {
            form.keys()
        } else {
            Keys::default()
        };
        if show.is_on() {
            show.do_as_pressed(ui, desk);
        } else {
            do_as_pressed(ctx, desk, areas, &keys);
            dropped_files(desk, ctx);
        }
        if desk.is_asked_to_show() {
            if let Some(step) = areas.front().step_shown(desk) {
                desk.ask_to_show_lesson(step);
            } else {
                let first = first_shown(areas, desk);
                show.show_unit(ctx, desk, first);
                ctx.send_viewport_cmd(ViewportCommand::Fullscreen(true));
            }
        }
        if let Some(view) = desk.asked_to_show_beside() {
            show.show_beside(ctx, desk, view);
            ctx.send_viewport_cmd(ViewportCommand::Fullscreen(true));
        }
        watch_file(desk, ctx);
        let seen = if show.is_on() {
            let seen = Seen::now(desk);
            show.show(ui, desk);
            show_card(ctx, desk);
            seen
        } else {
            work_ui(ui, desk, areas, form, course)
        };
        if let Some(view) = desk.step_to_keep() {
            match desk.keep_step_in(view) {
                Ok(told) => desk.tell(told),
                Err(why) => desk.warn(why),
            }
        }
        if let Some(step) = desk.lesson_to_show()
            && let Some(work) = desk.lesson()
        {
            let file = work.file_in_folder();
            let lesson = OpenLesson::as_it_stands(work.lesson().clone(), file.as_deref());
            show.show_lesson(ctx, desk, Talk::from_step(lesson, step));
            ctx.send_viewport_cmd(ViewportCommand::Fullscreen(true));
        }
        desk.hear_from_copying(ctx);
        close_asked(desk, ctx);
        desk.keep_work();
        if shot.is_none() {
            apply_scale(ctx, desk.preferences());
        }
        if let Some(placing) = placing.as_mut().filter(|_| !show.is_on()) {
            placing.send(ctx);
        }
        if let Some(remembering) = remembering {
            remembering.look_at_place(ctx);
            remembering.keep(desk);
        }
        if left.is_some() && !show.is_on() {
            ctx.request_repaint();
        }
        if Seen::now(desk) != seen {
            // Changed or told while or after it was drawn: the next frame shows what follows.
            ctx.request_repaint();
        }
        title.send(ctx, desk);
    }
}

/// What a frame showed.
#[derive(PartialEq)]
struct Seen {
    /// What it showed the numbers of: session, solves, newest step.
    of: (SessionId, u64, Option<StepId>),
    /// The works beside the units, each with its revision.
    works: [Option<(SessionId, u64)>; 2],
    /// How often something had been told.
    told: u64,
}

impl Seen {
    fn now(desk: &Desk) -> Self {
        let session = desk.session();
        let works = WorkKind::ALL.map(|kind| {
            let work = desk.work(kind)?;
            Some((work.id(), work.revision()))
        });
        Self {
            of: (session.id(), session.solves(), desk.newest_step()),
            works,
            told: desk.notices().told(),
        }
    }
}

/// What a room sees first: the picture of the page in front, that of the area, or the whole unit.
fn first_shown(areas: &mut Areas, desk: &Desk) -> First {
    let page = areas.front().page_picture(desk);
    page.map_or_else(|| First::View(areas.shown_first()), First::Page)
}

/// Bar, form, the area in front and the card over them, with what a frame showed.
fn work_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    areas: &mut Areas,
    form: &mut Form,
    course: &mut Course,
) -> Seen {
    let ctx = &ui.ctx().clone();
    let bar = Stops::of(ui, |ui| {
        Panel::top("top bar").show(ui, |ui| top_bar_ui(ui, desk, areas));
    });
    let notices = Stops::of(ui, |ui| notice_strip_ui(ui, desk));
    let told = desk.notices().told();
    let has_form = areas.front().has_form(desk);
    let is_folded = drawer::is_folded(ctx);
    if is_folded && desk.wants_first_field() {
        drawer::set_out(ctx, true);
    }
    let is_drawer = has_form && is_folded && drawer::is_out(ctx);
    let has_form = has_form && (!is_folded || is_drawer);
    let mut fields = Stops::of(ui, |ui| {
        if has_form && !is_drawer {
            left_ui(ui, desk, form);
        }
    });
    let place = ui.available_rect_before_wrap();
    let keys = if has_form {
        form.keys()
    } else {
        Keys::default()
    };
    let seen = Seen {
        told,
        ..Seen::now(desk)
    };
    let area = Stops::of(ui, |ui| areas.front().show(ui, desk));
    let mut keys = keys;
    if is_drawer {
        // Over the area, so after it.
        fields = Stops::of(ui, |ui| {
            drawer::drawer_ui(ui, place, |ui| left_ui(ui, desk, form));
        });
        keys = form.keys();
    }
    if desk.is_beside_wanted() {
        desk.open_card(BesideCard::default());
    }
    if let Some(what) = desk.sheet_wanted() {
        desk.open_card(PrintCard::of(what));
    }
    show_card(ctx, desk);
    name_without_dialog(desk);
    if let Some(wanted) = desk.area_wanted() {
        areas.bring_to_front(wanted);
        ctx.request_repaint();
    }
    desk.hear_from_opener();
    desk.hear_from_printer();
    let parts = [
        bar.in_reading_order(),
        fields.with_marks_last(&keys.marks),
        area,
        notices.in_reading_order(),
    ];
    course.lay(ctx, parts, &keys, desk.has_card());
    focus_ring_ui(ctx);
    seen
}

/// The form.
fn left_ui(ui: &mut Ui, desk: &mut Desk, form: &mut Form) {
    Panel::left("form")
        .default_size(398.0)
        .size_range(350.0..=560.0)
        .show(ui, |ui| {
            if desk.is_asking() {
                ui.disable();
            }
            form.show(ui, desk);
        });
}

impl eframe::App for App {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.window_ui(ui);
        if let Some(shot) = &mut self.shot
            && shot.take(ui.ctx())
        {
            self.desk.close();
        }
    }

    fn on_exit(&mut self, _gl: Option<&eframe::glow::Context>) {
        self.keep_place();
    }

    fn persist_egui_memory(&self) -> bool {
        false
    }
}
