//! The window: a form on the left, the drawing on the right, findings and numbers under it.
//!
//! What belongs here: widgets, files as a person opens and saves them, painting marks with egui. A
//! `_ui` function shows and edits; what is computed comes from `analysis`, what is drawn from
//! `drawing`. The document is the truth, widgets own none. This room imports every other but
//! `headless`.

mod about;
mod behind_card;
mod blade_path;
mod canvas;
mod card;
mod drafts;
mod field;
mod files;
mod form;
mod form_ground;
mod form_knives;
mod form_limits;
mod form_straightedge;
mod handles;
mod help;
mod knives;
mod look;
mod numbers;
mod paint;
mod path_card;
mod preferences;
mod session;
mod setting_card;
mod shot;
mod start_card;
mod top_bar;
mod why;
mod window;
mod words;

pub use files::{Dialogs, NoDialogs};
pub use look::dress;
pub use preferences::Preferences;
pub use session::{DEMO_UNIT, Session};
pub use window::open_window;

use behind_card::BehindCard;
use blade_path::BladePathState;
use canvas::CanvasState;
use drafts::Drafts;
use files::Asking;
use knives::KnivesState;
use path_card::PathCard;
use shot::Shot;
use why::WhyState;

use crate::analysis::{SolvedId, Unsolved};
use crate::drawing;
use crate::units::System;

/// The program's window.
pub struct App {
    /// The document being edited, and what follows from it.
    pub session: Session,
    /// What is remembered from one start to the next.
    pub preferences: Preferences,
    drafts: Drafts,
    canvas: CanvasState,
    knives: KnivesState,
    blade_path: BladePathState,
    why: WhyState,
    area: Area,
    dialogs: Box<dyn Dialogs>,
    asking: Option<Asking>,
    path_card: Option<PathCard>,
    behind_card: Option<BehindCard>,
    notice: Option<Notice>,
    is_about_open: bool,
    is_start_card_open: bool,
    may_close: bool,
    title_sent: String,
    shot: Option<Shot>,
}

/// The areas of the window.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Area {
    /// The unit on screen.
    #[default]
    Unit,
    /// Choosing a knife.
    Knives,
    /// Why the unit marks the turf.
    Why,
    /// The reel in motion.
    BladePath,
}

/// Something to tell, until the next thing happens.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Notice {
    text: String,
    is_problem: bool,
    /// The solution that stood when it was first shown; news of an older one is no news.
    solved: Option<SolvedId>,
}

impl App {
    /// A window on a document.
    #[must_use]
    pub fn new(session: Session, preferences: Preferences, dialogs: Box<dyn Dialogs>) -> Self {
        let is_start_card_open = !preferences.has_seen_start_card;
        let canvas = CanvasState::for_document(&session.document);
        Self {
            session,
            preferences,
            drafts: Drafts::default(),
            canvas,
            knives: KnivesState::default(),
            blade_path: BladePathState::default(),
            why: WhyState::default(),
            area: Area::default(),
            dialogs,
            asking: None,
            path_card: None,
            behind_card: None,
            notice: None,
            is_about_open: false,
            is_start_card_open,
            may_close: false,
            title_sent: String::new(),
            shot: None,
        }
    }

    /// The units shown: those chosen, or those the document was measured in.
    #[must_use]
    pub fn system(&self) -> System {
        self.preferences
            .system
            .unwrap_or_else(|| self.session.document.system())
    }

    /// Shows the whole window and takes what is done in it.
    pub fn window_ui(&mut self, ui: &mut egui::Ui) {
        self.keys(ui.ctx());
        self.dropped_files(ui.ctx());
        let is_asking = self.asking.is_some();
        egui::Panel::top("top bar").show(ui, |ui| self.top_bar_ui(ui));
        let is_alone = self.area == Area::Unit && self.canvas.is_alone;
        if !is_alone {
            self.left_ui(ui, is_asking);
        }
        self.session.settle();
        match self.area {
            Area::Unit if is_alone => {
                egui::CentralPanel::default_margins().show(ui, |ui| self.canvas_ui(ui));
            }
            Area::Unit => self.unit_ui(ui),
            Area::Knives => {
                egui::CentralPanel::default_margins().show(ui, |ui| self.knives_ui(ui));
            }
            Area::Why => {
                egui::CentralPanel::default_margins().show(ui, |ui| self.why_ui(ui));
            }
            Area::BladePath => self.blade_path_ui(ui),
        }
        self.question_ui(ui.ctx());
        self.path_card_ui(ui.ctx());
        self.behind_card_ui(ui.ctx());
        self.about_ui(ui.ctx());
        self.start_card_ui(ui.ctx());
        if self.session.settle() {
            // Changed after it was drawn: what follows is shown by the next frame.
            ui.ctx().request_repaint();
        }
        self.notice_ui(ui.ctx());
        self.close_asked(ui.ctx());
        self.window_title(ui.ctx());
    }

    /// The setting's card and the form.
    fn left_ui(&mut self, ui: &mut egui::Ui, is_asking: bool) {
        egui::Panel::left("form")
            .default_size(398.0)
            .size_range(350.0..=560.0)
            .show(ui, |ui| {
                if is_asking {
                    ui.disable();
                }
                self.setting_card_ui(ui);
                ui.separator();
                self.form_ui(ui);
            });
    }

    /// The unit on screen: drawing, and findings and numbers under it.
    fn unit_ui(&mut self, ui: &mut egui::Ui) {
        let height = ui.ctx().content_rect().height();
        egui::Panel::bottom("numbers")
            .default_size((0.27 * height).clamp(150.0, 330.0))
            .size_range(110.0..=460.0)
            .resizable(true)
            .show(ui, |ui| self.numbers_ui(ui));
        egui::CentralPanel::default_margins().show(ui, |ui| self.canvas_ui(ui));
    }

    /// Puts another document in the window.
    fn show_document(&mut self, session: Session) {
        self.canvas = CanvasState::for_document(&session.document);
        self.knives = KnivesState::default();
        self.blade_path = BladePathState::default();
        self.why = WhyState::default();
        self.behind_card = None;
        self.session = session;
        self.drafts = Drafts::default();
        self.notice = None;
    }

    fn theme(ctx: &egui::Context) -> drawing::Theme {
        match ctx.theme() {
            egui::Theme::Dark => drawing::Theme::Dark,
            egui::Theme::Light => drawing::Theme::Light,
        }
    }

    fn tell(&mut self, text: impl Into<String>) {
        self.notice = Some(Notice {
            text: text.into(),
            is_problem: false,
            solved: None,
        });
    }

    fn warn(&mut self, text: impl Into<String>) {
        self.notice = Some(Notice {
            text: text.into(),
            is_problem: true,
            solved: None,
        });
    }

    /// Why drawing and numbers are those of an earlier entry; nothing while they are current.
    fn why_not_current(&self) -> Option<String> {
        if let Some(draft) = self.drafts.first_wrong() {
            return Some(draft.told());
        }
        let trouble = self.session.trouble()?;
        let why = trouble.shown_in(self.system());
        Some(match trouble {
            Unsolved::Flaw(flaw) => format!("{}: {why}", flaw.field.name()),
            Unsolved::Impossible { .. } => why,
        })
    }
}

impl eframe::App for App {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        self.window_ui(ui);
        self.take_shot(ui.ctx());
    }

    fn save(&mut self, storage: &mut dyn eframe::Storage) {
        if self.shot.is_none() {
            eframe::set_value(storage, eframe::APP_KEY, &self.preferences);
        }
    }

    fn persist_egui_memory(&self) -> bool {
        false
    }
}
