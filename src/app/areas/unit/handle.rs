//! A handle on the drawing: what it moves, in which steps and how far.

use egui::Id;
use kurbo::{Point, Vec2};

use crate::analysis::Solved;
use crate::analysis::ranges::{MOST_EXTENSION, MOST_ROLLER_MOVE, attitude_range};
use crate::app::desk::{Change, Desk};
use crate::drawing::Handles;
use crate::unit::{Field, RollerMoves, SettingEntry};
use crate::units::{Angle, Length, Quantity, System};

/// What one step turns the unit by.
const ATTITUDE_STEP: Angle = Angle::from_deg(0.05);

/// A handle on the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Handle {
    Rim,
    Edge,
    Back,
}

impl Handle {
    pub const ALL: [Self; 3] = [Self::Rim, Self::Edge, Self::Back];

    fn name(self) -> &'static str {
        match self {
            Self::Rim => "Reel diameter",
            Self::Edge => "Edge forward",
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

    pub fn id(self) -> Id {
        Id::unique("handle").with(self.name())
    }

    /// How far it stands off the place it moves, on the paper.
    pub fn off(self) -> Vec2 {
        match self {
            // The edge itself carries the clip point's ring; its handle stands off below it.
            Self::Edge => Vec2::new(-24.0, 24.0),
            Self::Rim | Self::Back => Vec2::ZERO,
        }
    }

    /// What moving it is called; what is being typed into its field is dropped, for a field keeps the
    /// focus while the pointer drags elsewhere.
    pub fn change(self, desk: &Desk) -> Change {
        let setting = &desk.document().setting;
        Change::of(self.called(setting), self.field(setting))
    }

    /// What it is called while the unit is set one way or the other.
    pub fn called(self, setting: &SettingEntry) -> &'static str {
        match self.field(setting) {
            Field::RearMove => "Rear roller",
            Field::FrontMove => "Front roller",
            _ => self.name(),
        }
    }

    /// What one step to the right or upwards adds to what it moves, in the base unit: a press of an
    /// arrow key makes one, and a drag goes by them.
    pub fn step(self, desk: &Desk) -> f64 {
        let length = match desk.system() {
            System::Millimetre => Length::from_mm(0.1),
            System::InchDecimal | System::InchFraction => Length::from_inches(0.005),
        };
        match self.field(&desk.document().setting) {
            Field::WantedAttitude => ATTITUDE_STEP.deg(),
            // The back rises on a rear roller that goes down.
            Field::RearMove => -length.mm(),
            _ => length.mm(),
        }
    }

    pub fn place(self, handles: &Handles) -> Point {
        match self {
            Self::Rim => handles.reel_rim,
            Self::Edge => handles.knife_edge,
            Self::Back => handles.unit_back,
        }
    }

    /// What it moves as it stands, in the base unit.
    pub fn now(self, desk: &Desk, solved: &Solved) -> f64 {
        let field = self.field(&desk.document().setting);
        let in_force = &solved.unit.setting;
        field.base(desk.document()).unwrap_or_else(|| match self {
            Self::Rim => in_force.reel_diameter.mm(),
            Self::Edge => in_force.extension.mm(),
            Self::Back if field == Field::WantedAttitude => solved.solution.pose.attitude.deg(),
            Self::Back => 0.0,
        })
    }

    /// Sets what it moves to what is wanted, as far as its limits go, if reel and knife still meet there.
    pub fn set(self, desk: &mut Desk, solved: &Solved, wanted: f64) {
        let (now, system) = (self.now(desk, solved), desk.system());
        let field = self.field(&desk.document().setting);
        let (least, most) = reach(field, solved);
        // What stands outside already can come back in steps.
        let wanted = wanted.max(least.min(now)).min(most.max(now));
        desk.edit_if_solved(self.change(desk), |document| {
            // What a handle moves is a quantity that can be written.
            let _ = field.set_base(document, wanted, system);
        });
    }
}

/// How far a handle moves its field, in the base unit.
fn reach(field: Field, solved: &Solved) -> (f64, f64) {
    match field {
        Field::WantedReelDiameter => {
            let scrap = solved.unit.smallest_diameter.mm();
            (scrap, solved.unit.new_diameter.mm().max(scrap))
        }
        Field::WantedAttitude => {
            let (low, high) = attitude_range(&solved.unit.limits);
            (low.deg(), high.deg())
        }
        Field::Extension => (-MOST_EXTENSION.mm(), MOST_EXTENSION.mm()),
        _ => (-MOST_ROLLER_MOVE.mm(), MOST_ROLLER_MOVE.mm()),
    }
}

/// The roller that the back's handle moves: the rear one, or the front one where that alone is given.
pub fn moved_entry(rollers: &mut RollerMoves) -> &mut Option<Quantity<Length>> {
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
