//! Handles on the drawing itself: the reel's rim, the knife's edge, the unit's back.

use egui::{CursorIcon, EventFilter, Key, Sense, Ui, WidgetInfo};
use kurbo::{Point, Rect, Size};

use super::handle::{Handle, moved_entry};
use super::held_handle::HeldHandle;
use crate::analysis::Solved;
use crate::app::desk::Desk;
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::colour;
use crate::app::widgets::paint::{point, pos, rect};
use crate::drawing::{Handles, Role, Theme, View};
use crate::units::{Length, Quantity};

/// The part of a step that a press with Shift makes.
const FINE_PART: f64 = 0.1;
/// From the middle of a handle's mark to its corners, at rest and in use.
const SMALL: f32 = 7.0;
const LARGE: f32 = 9.0;

/// Moves what the handles move. Where they stood and what the pointer does to them is known since the
/// last frame, so this can be done before anything is drawn.
pub fn take_handles(ui: &Ui, desk: &mut Desk, view: &View, held: &mut Option<HeldHandle>) {
    let is_free = |held: &HeldHandle| {
        let response = ui.ctx().read_response(held.handle.id());
        response.is_none_or(|response| !response.dragged())
    };
    held.take_if(|held| is_free(held));
    if desk.why_not_current().is_some() {
        return;
    }
    for handle in Handle::ALL {
        let Some(response) = ui.ctx().read_response(handle.id()) else {
            continue;
        };
        if response.double_clicked() {
            reset(desk, handle);
        }
        if response.has_focus() {
            take_keys(ui, desk, handle);
        }
        if response.dragged()
            && let Some(pointer) = response.interact_pointer_pos()
            && let Some(solved) = desk.good().cloned()
        {
            let pressed = ui.input(|input| input.pointer.press_origin());
            let pressed = point(pressed.unwrap_or(pointer));
            held.get_or_insert_with(|| HeldHandle::taken(handle, desk, &solved, pressed, view))
                .follow(desk, &solved, point(pointer));
        }
    }
}

/// The handles that a view shows, with their places on its paper.
fn shown_handles(solved: &Solved, view: &View) -> impl Iterator<Item = (Handle, Point)> {
    let handles = Handles::of(&solved.solution);
    let paper_from_world = view.paper_from_world();
    let inner = view.window.inset(-8.0);
    Handle::ALL
        .into_iter()
        .map(move |handle| {
            (
                handle,
                paper_from_world * handle.place(&handles) + handle.off(),
            )
        })
        .filter(move |(_, place)| inner.contains(*place))
}

/// The paper that the handles cover.
pub fn covered_by_handles(solved: &Solved, view: &View) -> Vec<Rect> {
    let square = Size::new(2.0 * f64::from(LARGE), 2.0 * f64::from(LARGE));
    shown_handles(solved, view)
        .map(|(_, place)| Rect::from_center_size(place, square))
        .collect()
}

/// Handles on the drawing itself, with the value beside the pointer.
pub fn handles_ui(ui: &Ui, desk: &Desk, solved: &Solved, view: &View, theme: Theme) {
    for (handle, place) in shown_handles(solved, view) {
        let hit = egui::Rect::from_center_size(pos(place), egui::Vec2::splat(24.0));
        let response = ui
            .interact(hit, handle.id(), Sense::click_and_drag())
            .on_hover_and_drag_cursor(CursorIcon::Grab);
        let name = handle.called(&desk.document().setting);
        response.widget_info(|| {
            WidgetInfo::labeled(egui::Role::Button, true, format!("{name} handle"))
        });
        let value = handle_value(desk, handle);
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_value(value.as_str());
        });
        let is_pointed_at = response.hovered() || response.dragged();
        let is_lively = is_pointed_at || response.has_focus();
        handle_mark(ui, hit.center(), is_lively, theme);
        if is_lively {
            let pointer = ui.input(|input| input.pointer.hover_pos());
            let at = pointer.filter(|_| is_pointed_at);
            let at = at.unwrap_or(hit.center());
            beside_pointer(ui, at, &format!("{name} {value}"), view, theme);
        }
    }
}

/// Steps what a handle moves by the arrow keys, which move nothing else while it has them.
fn take_keys(ui: &Ui, desk: &mut Desk, handle: Handle) {
    let arrows = EventFilter {
        horizontal_arrows: true,
        vertical_arrows: true,
        ..EventFilter::default()
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(handle.id(), arrows));
    let (presses, is_fine) = ui.input(|input| {
        let pressed = |key| i32::try_from(input.num_presses(key)).unwrap_or(0);
        let more = pressed(Key::ArrowRight) + pressed(Key::ArrowUp);
        let less = pressed(Key::ArrowLeft) + pressed(Key::ArrowDown);
        (more - less, input.modifiers.shift)
    });
    if presses == 0 {
        return;
    }
    let Some(solved) = desk.good().cloned() else {
        return;
    };
    let part = if is_fine { FINE_PART } else { 1.0 };
    let wanted = handle.now(desk, &solved) + f64::from(presses) * part * handle.step(desk);
    // A step that parts reel and knife is not made.
    handle.set(desk, &solved, wanted);
}

fn reset(desk: &mut Desk, handle: Handle) {
    let system = desk.system();
    let change = handle.change(desk);
    desk.edit(change, |document| {
        let setting = &mut document.setting;
        match (handle, &mut setting.rollers) {
            (Handle::Rim, _) => setting.reel_diameter = None,
            (Handle::Edge, _) => setting.extension = None,
            (Handle::Back, None) => setting.attitude = None,
            (Handle::Back, Some(rollers)) => {
                let zero = Quantity::from_value(Length::ZERO, system);
                *moved_entry(rollers) = Some(zero);
            }
        }
    });
}

fn handle_value(desk: &Desk, handle: Handle) -> String {
    let system = desk.system();
    let document = &desk.document();
    let setting = &document.setting;
    match handle {
        Handle::Rim => setting
            .reel_diameter
            .as_ref()
            .unwrap_or(&document.bench.reel_diameter)
            .shown_in(system),
        Handle::Edge => setting
            .extension
            .as_ref()
            .map_or_else(|| system.length(Length::ZERO), |e| e.shown_in(system)),
        Handle::Back => match &setting.rollers {
            Some(rollers) => {
                let moved = rollers.rear_move.as_ref().or(rollers.front_move.as_ref());
                system.roller_move(moved.map_or(Length::ZERO, Quantity::value))
            }
            None => system.angle(
                setting
                    .attitude
                    .as_ref()
                    .map_or(document.bench.attitude.value(), Quantity::value),
            ),
        },
    }
}

fn handle_mark(ui: &Ui, centre: egui::Pos2, is_lively: bool, theme: Theme) {
    let radius = if is_lively { LARGE } else { SMALL };
    let ink = colour(theme.look(Role::CutLine).ink);
    let fill = if is_lively {
        ink
    } else {
        colour(theme.look(Role::Paper).fill)
    };
    let corners = [(0.0, -radius), (radius, 0.0), (0.0, radius), (-radius, 0.0)];
    let corners = corners
        .iter()
        .map(|&(x, y)| centre + egui::vec2(x, y))
        .collect();
    ui.painter().add(egui::Shape::convex_polygon(
        corners,
        fill,
        egui::Stroke::new(2.2, ink),
    ));
}

fn beside_pointer(ui: &Ui, at: egui::Pos2, text: &str, view: &View, theme: Theme) {
    let painter = ui.painter();
    let ink = colour(theme.look(Role::Heading).ink);
    let galley = painter.layout_no_wrap(text.to_owned(), Lettering::Name.font(), ink);
    let window = rect(view.window);
    let mut corner = at + egui::vec2(18.0, -34.0);
    corner.x = corner.x.min(window.right() - galley.size().x - 10.0);
    corner.y = corner.y.max(window.top() + 6.0);
    let back = egui::Rect::from_min_size(corner, galley.size()).expand2(egui::vec2(7.0, 4.0));
    painter.rect(
        back,
        4.0,
        colour(theme.look(Role::Paper).fill),
        egui::Stroke::new(1.2, ink),
        egui::StrokeKind::Outside,
    );
    painter.galley(corner, galley, ink);
}
