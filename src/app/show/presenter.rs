//! The presenter's window: a second one beside what the room sees, with what the room is not to see.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use egui::{Context, Vec2, ViewportBuilder, ViewportCommand, ViewportId};

use super::keys::{Act, pressed};
use super::presenter_ui::PresenterUi;
use super::sight::Sight;

/// What the window is opened with, in points, and the least it can be made.
const SIZE: Vec2 = Vec2::new(900.0, 620.0);
const LEAST: Vec2 = Vec2::new(420.0, 320.0);

/// What both windows have in common.
struct Shared {
    sight: Sight,
    /// What was asked for in the presenter's window.
    asked: Vec<Act>,
    is_closed: bool,
    /// It is brought before the others for a while; none once that is done.
    comes_first: Option<Wait>,
    ui: PresenterUi,
}

/// The presenter's window; none while it is closed.
#[derive(Default)]
pub(super) struct Presenter {
    shared: Option<Arc<Mutex<Shared>>>,
    is_wanted: bool,
    /// It opens once the room's window has the whole screen, which would else come before it.
    waits: Option<Wait>,
}

/// Waiting for a window of the desktop.
#[derive(Clone, Copy, Debug, Default)]
struct Wait {
    /// Since when, by the toolkit's clock; none before the first frame.
    since_s: Option<f64>,
}

impl Wait {
    /// How long it takes by now.
    fn passed_s(&mut self, now: f64) -> f64 {
        now - *self.since_s.get_or_insert(now)
    }
}

/// How long the room's window is waited for, in seconds: not every desktop gives it the whole screen; and how
/// long its coming before the others takes.
const LONGEST_WAIT_S: f64 = 2.0;
const SETTLES_S: f64 = 1.0;
/// How soon it is tried again to come before the others.
const AGAIN: Duration = Duration::from_millis(100);

/// What is left of a window whose drawing failed is still worth its keys.
fn locked(shared: &Mutex<Shared>) -> MutexGuard<'_, Shared> {
    shared.lock().unwrap_or_else(PoisonError::into_inner)
}

fn id() -> ViewportId {
    ViewportId::from_hash_of("presenter's window")
}

impl Presenter {
    /// Opens the window, or closes it.
    pub(super) fn open_or_close(&mut self) {
        self.is_wanted = !self.is_wanted;
    }

    /// Opens the window before the room's, once that has the whole screen.
    pub(super) fn open_over_whole_screen(&mut self) {
        self.is_wanted = true;
        self.waits = Some(Wait::default());
    }

    /// Whether the room's window is still waited for.
    fn goes_on_waiting(&mut self, ctx: &Context) -> bool {
        let Some(wait) = &mut self.waits else {
            return false;
        };
        let (now, is_whole) = ctx.input(|input| {
            let is_whole = input.viewport().fullscreen == Some(true);
            (input.time, is_whole)
        });
        let waited = wait.passed_s(now);
        let is_over = waited >= LONGEST_WAIT_S || is_whole && waited >= SETTLES_S;
        if is_over {
            self.waits = None;
        } else {
            ctx.request_repaint();
        }
        !is_over
    }

    /// What was asked for in it since this was last asked.
    pub(super) fn asked(&mut self) -> Vec<Act> {
        let Some(shared) = &self.shared else {
            return Vec::new();
        };
        let mut shared = locked(shared);
        if shared.is_closed {
            self.is_wanted = false;
        }
        std::mem::take(&mut shared.asked)
    }

    /// Shows what goes with what the room sees; not where the program has one window only: then the room
    /// would read along.
    pub(super) fn show(&mut self, ctx: &Context, sight: &Sight) {
        if !self.is_wanted || ctx.embed_viewports() {
            self.shared = None;
            return;
        }
        let was_waiting = self.waits.is_some();
        if self.goes_on_waiting(ctx) {
            return;
        }
        let shared = self.shared.get_or_insert_with(|| {
            Arc::new(Mutex::new(Shared {
                sight: sight.clone(),
                asked: Vec::new(),
                is_closed: false,
                comes_first: was_waiting.then(Wait::default),
                ui: PresenterUi::default(),
            }))
        });
        {
            let mut shared = locked(shared);
            if !shared.sight.is_same_as(sight) {
                shared.sight = sight.clone();
                ctx.request_repaint_of(id());
            }
        }
        let builder = ViewportBuilder::default()
            .with_title("Presenter - Sweepgauge")
            .with_inner_size(SIZE)
            .with_min_inner_size(LEAST);
        let shared = Arc::clone(shared);
        ctx.show_viewport_deferred(id(), builder, move |ui, _| {
            let shared = &mut *locked(&shared);
            let mut is_asked = false;
            shared.come_first(ui.ctx());
            if ui.input(|input| input.viewport().close_requested()) {
                shared.is_closed = true;
                is_asked = true;
            }
            while let Some(act) = pressed(ui.ctx()) {
                shared.take(act);
                is_asked = true;
            }
            if let Some(act) = shared.ui.show(ui, &shared.sight) {
                shared.take(act);
                is_asked = true;
            }
            if is_asked {
                ui.ctx().request_repaint_of(ViewportId::ROOT);
            }
        });
    }
}

impl Shared {
    /// Brings the window before the others, which the desktop does by itself only for what a key opened.
    fn come_first(&mut self, ctx: &Context) {
        let Some(wait) = &mut self.comes_first else {
            return;
        };
        let (now, is_first) = ctx.input(|input| (input.time, input.viewport().focused));
        if wait.passed_s(now) >= SETTLES_S {
            self.comes_first = None;
            return;
        }
        if is_first != Some(true) {
            ctx.send_viewport_cmd(ViewportCommand::Focus);
        }
        ctx.request_repaint_after(AGAIN);
    }

    /// What is for the presenter alone is done here; all else where the room looks.
    fn take(&mut self, act: Act) {
        match act {
            Act::ListKeys => self.ui.list_keys(),
            // Its card would stand before the room.
            Act::Choose => {}
            act => self.asked.push(act),
        }
    }
}
