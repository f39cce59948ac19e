//! The presenter's window: a second one beside what the room sees, with what the room is not to see.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use egui::{Context, Vec2, ViewportBuilder, ViewportId};

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
    ui: PresenterUi,
}

/// The presenter's window; none while it is closed.
#[derive(Default)]
pub(super) struct Presenter {
    shared: Option<Arc<Mutex<Shared>>>,
    is_wanted: bool,
}

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
        let shared = self.shared.get_or_insert_with(|| {
            Arc::new(Mutex::new(Shared {
                sight: sight.clone(),
                asked: Vec::new(),
                is_closed: false,
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
