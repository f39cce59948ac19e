//! Handles on the drawing itself: the reel's rim, the knife's edge, the unit's back.

use egui::{CursorIcon, EventFilter, Id, Key, Sense, Ui, WidgetInfo};
use kurbo::{Point, Vec2};

use crate::analysis::Solved;
use crate::analysis::ranges::attitude_range;
use crate::app::desk::{Change, Desk};
use crate::app::widgets::lettering::Lettering;
use crate::app::widgets::look::colour;
use crate::app::widgets::paint::{point, pos, rect};
use crate::drawing::{Handles, Role, Theme, View};
use crate::unit::{Field, RollerMoves, SettingEntry};
use crate::units::{Angle, Length, Quantity, System};

/// What one press of an arrow key turns the unit by.
const ATTITUDE_STEP: Angle = Angle::from_deg(0.05);
/// The part of a step that a press with Shift makes.
const FINE_PART: f64 = 0.1;

/// A handle on the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Handle {
    Rim,
    Edge,
    Back,
}

impl Handle {
    const ALL: [Self; 3] = [Self::Rim, Self::Edge, Self::Back];

    fn name(self) -> &'static str {
        match self {
            Self::Rim => "Reel diameter",
            Self::Edge => "Extension",
            Self::Back => "Attitude",
        }
    }

    /// The setting's field it moves.
    fn field(self, setting: &SettingEntry) -> Field {
        match (self, &setting.rollers) {
            (Self::Rim, _) => Field::WantedReelDiameter,
            (Self::Edge, _) => Field::Extension,
            (Self::Back, None) => Field::WantedAttitude,
            (Self::Back, Some(rollers)) if is_by_front(rollers) => Field::FrontMove,
            (Self::Back, Some(_)) => Field::RearMove,
        }
    }

    fn id(self) -> Id {
        Id::unique("handle").with(self.name())
    }

    /// How far it stands off the place it moves, on the paper.
    fn off(self) -> Vec2 {
        match self {
            // The edge itself carries the clip point's ring; its handle stands off below it.
            Self::Edge => Vec2::new(-24.0, 24.0),
            Self::Rim | Self::Back => Vec2::ZERO,
        }
    }

    /// What moving it is called; what is being typed into its field is dropped, for a field keeps the
    /// focus while the pointer drags elsewhere.
    fn change(self, desk: &Desk) -> Change {
        let setting = &desk.document().setting;
        Change::of(self.called(setting), self.field(setting))
    }

    /// What it is called while the unit is set one way or the other.
    fn called(self, setting: &SettingEntry) -> &'static str {
        match self.field(setting) {
            Field::RearMove => "Rear roller",
            Field::FrontMove => "Front roller",
            _ => self.name(),
        }
    }

    /// What one press of an arrow key to the right or upwards adds to what it moves, in the base unit.
    fn step(self, setting: &SettingEntry, system: System) -> f64 {
        let length = match system {
            System::Millimetre => Length::from_mm(0.1),
            System::InchDecimal | System::InchFraction => Length::from_inches(0.005),
        };
        match self.field(setting) {
            Field::WantedAttitude => ATTITUDE_STEP.deg(),
            // The back rises on a rear roller that goes down.
            Field::RearMove => -length.mm(),
            _ => length.mm(),
        }
    }

    fn place(self, handles: &Handles) -> Point {
        match self {
            Self::Rim => handles.reel_rim,
            Self::Edge => handles.knife_edge,
            Self::Back => handles.unit_back,
        }
    }
}

/// Moves what the handles move. Where they stood and what the pointer does to them is known since the
/// last frame, so this can be done before anything is drawn.
pub fn take_handles(ui: &Ui, desk: &mut Desk, view: &View) {
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
        if response.drag_started() {
            ui.data_mut(|data| data.remove::<f64>(left_over()));
        }
        if response.dragged()
            && let Some(pointer) = response.interact_pointer_pos()
            && let Some(solved) = desk.good().cloned()
        {
            let off = handle.off();
            let delta = response.drag_delta();
            let from = view.world_from_paper() * (point(pointer - delta) - off);
            let to = view.world_from_paper() * (point(pointer) - off);
            drag(ui, desk, handle, &solved, from, to);
        }
    }
}

/// Handles on the drawing itself, with the value beside the pointer.
pub fn handles_ui(ui: &Ui, desk: &Desk, solved: &Solved, view: &View, theme: Theme) {
    let handles = Handles::of(&solved.solution);
    let paper_from_world = view.paper_from_world();
    for handle in Handle::ALL {
        let place = paper_from_world * handle.place(&handles) + handle.off();
        if !view.window.inset(-8.0).contains(place) {
            continue;
        }
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
    let system = desk.system();
    let setting = &desk.document().setting;
    let field = handle.field(setting);
    let step = handle.step(setting, system) * if is_fine { FINE_PART } else { 1.0 };
    let in_force = &solved.unit.setting;
    let now = field.base(desk.document()).unwrap_or_else(|| match handle {
        Handle::Rim => in_force.reel_diameter.mm(),
        Handle::Edge => in_force.extension.mm(),
        Handle::Back if field == Field::WantedAttitude => solved.solution.pose.attitude.deg(),
        Handle::Back => 0.0,
    });
    let (least, most) = match field {
        Field::WantedReelDiameter => diameters(&solved),
        Field::WantedAttitude => {
            let (low, high) = attitude_range(&solved.unit.limits);
            (low.deg(), high.deg())
        }
        _ => (f64::NEG_INFINITY, f64::INFINITY),
    };
    let wanted = now + f64::from(presses) * step;
    // What stands outside already can come back in steps.
    let wanted = wanted.max(least.min(now)).min(most.max(now));
    // A step that parts reel and knife is not made.
    desk.edit_if_solved(handle.change(desk), |document| {
        // What a handle moves is a quantity that can be written.
        let _ = field.set_base(document, wanted, system);
    });
}

/// The reel diameters that the rim's handle reaches, in millimetres: somewhat past new and scrap at the
/// most, for the handle is to stay in sight.
fn diameters(solved: &Solved) -> (f64, f64) {
    let least = 0.75 * solved.unit.smallest_diameter.mm();
    let most = 1.25 * solved.unit.new_diameter.mm();
    (least.min(most), most)
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

/// Moves a handle's value by what the pointer moved, from one place of the plate to another.
///
/// What a drag leaves below the digits shown is kept until the drag ends, so slow hands move
/// the value too.
fn drag(ui: &Ui, desk: &mut Desk, handle: Handle, solved: &Solved, from: Point, to: Point) {
    let system = desk.system();
    let pose = &solved.solution.pose;
    let before: f64 = ui.data(|data| data.get_temp(left_over())).unwrap_or(0.0);
    let by = to - from;
    let mut rest = 0.0;
    let change = handle.change(desk);
    // A drag stops where reel and knife would part, and can go back from there.
    let is_solved = desk.edit_if_solved(change, |document| {
        let setting = &mut document.setting;
        rest = match handle {
            Handle::Rim => {
                let outwards = (from - pose.centre_on_plate).normalize();
                let from_edge = (pose.centre_on_plate - pose.edge_on_plate).normalize();
                // As the reel grows, half of it moves the rim outwards and half the centre away
                // from the edge.
                let rim_for_diameter = 0.5 * (1.0 + outwards.dot(from_edge));
                let grown = by.dot(outwards) / rim_for_diameter.max(0.25);
                let wanted = solved.unit.setting.reel_diameter.mm() + before + grown;
                let (least, most) = diameters(solved);
                let wanted = wanted.max(least).min(most);
                let entry = Quantity::from_value(Length::from_mm(wanted), system);
                let rest = wanted - entry.value().mm();
                setting.reel_diameter = Some(entry);
                rest
            }
            Handle::Edge => {
                let attitude = pose.attitude.rad();
                let ahead = Vec2::new(attitude.cos(), -attitude.sin());
                let wanted = solved.unit.setting.extension.mm() + before + by.dot(ahead);
                let entry = Quantity::from_value(Length::from_mm(wanted), system);
                let rest = wanted - entry.value().mm();
                setting.extension = Some(entry);
                rest
            }
            Handle::Back => {
                if let Some(rollers) = &mut setting.rollers {
                    // Pulled up, the back of the unit rises on a rear roller that goes down, or on a
                    // front one that goes up.
                    let wanted = if rollers.rear_move.is_some() {
                        pose.rear_roller.moved.mm() + before - by.y
                    } else {
                        pose.front_roller.moved.mm() + before + by.y
                    };
                    let entry = Quantity::from_value(Length::from_mm(wanted), system);
                    let rest = wanted - entry.value().mm();
                    *moved_entry(rollers) = Some(entry);
                    rest
                } else {
                    let (from, to) = (from - pose.edge_on_plate, to - pose.edge_on_plate);
                    // Lifting the back is turning clockwise about the edge.
                    let turn = -from.cross(to).atan2(from.dot(to));
                    let (low, high) = attitude_range(&solved.unit.limits);
                    let wanted = (pose.attitude.deg() + before + turn.to_degrees())
                        .max(low.deg())
                        .min(high.deg());
                    let entry = Quantity::from_value(Angle::from_deg(wanted), system);
                    let rest = wanted - entry.value().deg();
                    setting.attitude = Some(entry);
                    rest
                }
            }
        };
    });
    if is_solved {
        ui.data_mut(|data| data.insert_temp(left_over(), rest));
    }
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

/// The roller that the back's handle moves: the rear one, or the front one where that alone is given.
fn moved_entry(rollers: &mut RollerMoves) -> &mut Option<Quantity<Length>> {
    if is_by_front(rollers) {
        &mut rollers.front_move
    } else {
        &mut rollers.rear_move
    }
}

/// Whether the front roller alone is given.
fn is_by_front(rollers: &RollerMoves) -> bool {
    rollers.rear_move.is_none() && rollers.front_move.is_some()
}

/// What a drag left below the digits shown.
fn left_over() -> Id {
    Id::unique("left over of a drag")
}

fn handle_mark(ui: &Ui, centre: egui::Pos2, is_lively: bool, theme: Theme) {
    let radius = if is_lively { 9.0 } else { 7.0 };
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
