//! A handle held in hand: it keeps up with the pointer, in steps and within its limits.

use kurbo::{Point, Vec2};

use super::handle::Handle;
use crate::analysis::Solved;
use crate::app::desk::Desk;
use crate::drawing::{Handles, Hold, View};

/// A handle held in hand, from the press to the letting go.
#[derive(Clone, Copy, Debug)]
pub struct HeldHandle {
    pub handle: Handle,
    /// Where the pointer pressed, on the paper.
    pressed: Point,
    /// From the handle's place to the pointer then.
    off: Vec2,
    /// What the handle moves, as it stood then, in base units.
    began: f64,
    /// The view then, and where what holds still stood in it.
    view: View,
    still: Point,
}

impl HeldHandle {
    /// A handle taken by a pointer that pressed at a place of the paper.
    pub fn taken(
        handle: Handle,
        desk: &Desk,
        solved: &Solved,
        pressed: Point,
        view: &View,
    ) -> Self {
        let place = view.paper_from_world() * handle.place(&Handles::of(&solved.solution));
        Self {
            handle,
            pressed,
            off: pressed - place,
            began: handle.now(desk, solved),
            view: *view,
            still: handle.still().place(&solved.case()),
        }
    }

    /// The view while it is held: what the handle turns or moves against holds still, so that the
    /// drawing does not run away under the pointer.
    pub fn view(&self, solved: &Solved) -> View {
        let moved = self.handle.still().place(&solved.case()) - self.still;
        View {
            middle: self.view.middle + moved,
            ..self.view
        }
    }

    /// Moves the handle to the pointer, as near as its steps and limits let it.
    pub fn follow(&self, desk: &mut Desk, solved: &Solved, pointer: Point) {
        let world_from_paper = self.view(solved).world_from_paper();
        let (step, now) = (self.handle.step(desk), self.handle.now(desk, solved));
        let wanted = if desk.document().setting.rollers.is_some() && self.handle == Handle::Back {
            // How far the back rises by a roller depends on where it stands: the way of the hand is
            // the roller's.
            let way = world_from_paper * pointer - world_from_paper * self.pressed;
            self.began + way.y * step.signum()
        } else {
            let target = world_from_paper * (pointer - self.off);
            now + self.handle.towards(solved, target)
        };
        // A setting that stands between two steps stays there until the hand has gone half of one.
        if (wanted - now).abs() >= 0.5 * step.abs() {
            self.handle
                .set(desk, solved, (wanted / step).round() * step);
        }
    }
}

impl Handle {
    /// What holds still on the paper while it is held.
    fn still(self) -> Hold {
        match self {
            Self::Rim | Self::Back => Hold::Ground,
            Self::Edge => Hold::Screws,
        }
    }

    /// How much more of what it moves brings it to a place of the plate, in base units.
    fn towards(self, solved: &Solved, target: Point) -> f64 {
        let pose = &solved.solution.pose;
        let place = self.place(&Handles::of(&solved.solution));
        let (edge, centre) = (pose.edge_on_plate, pose.centre_on_plate);
        match self {
            Self::Rim => {
                let outwards = (place - centre).normalize();
                let from_edge = (centre - edge).normalize();
                // As the reel grows, half of it moves the rim outwards and half the centre away
                // from the edge.
                let rim_for_diameter = 0.5 * (1.0 + outwards.dot(from_edge));
                (target - place).dot(outwards) / rim_for_diameter.max(0.25)
            }
            Self::Edge => {
                let attitude = pose.attitude.rad();
                (target - place).dot(Vec2::new(attitude.cos(), -attitude.sin()))
            }
            Self::Back => {
                // Lifting the back is turning clockwise about the edge.
                let (from, to) = (place - edge, target - edge);
                -from.cross(to).atan2(from.dot(to)).to_degrees()
            }
        }
    }
}
