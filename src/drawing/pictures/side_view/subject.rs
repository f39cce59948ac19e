//! What a drawing is about: its words are larger than others, and asked for while numbers are hidden.

use super::{SideView, Standing};
use crate::analysis::{FindingId, NumberId};
use crate::drawing::scene::{Label, Role, Scene, Shape, ShownIn};
use crate::units::Length;

/// How many times as large as others the words about the reel and the soil are.
const LARGER: f64 = 1.5;

/// What a drawing makes the most of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Subject {
    /// How deep the reel sweeps.
    #[default]
    Sweep,
    /// How far behind centre the edge stands.
    BehindCentre,
    /// The height of cut.
    HeightOfCut,
    /// How far the reel stands above the soil, or in it.
    ReelToSoil,
    /// A part or a setting, and no number of the drawing.
    NoNumber,
}

impl SideView<'_> {
    /// How many times as large as others words about something are.
    pub(super) fn larger(&self, about: Subject, where_subject: f64) -> f64 {
        if self.subject == about {
            where_subject
        } else {
            1.0
        }
    }

    /// Whether the drawing tells how the reel stands to the soil.
    fn tells_reel_to_soil(&self) -> bool {
        self.subject == Subject::ReelToSoil && self.standing == Standing::Turf
    }

    /// Whether a finding's number is told where the drawing is about it.
    pub(super) fn is_told_by_subject(&self, finding: FindingId) -> bool {
        self.tells_reel_to_soil() && finding == FindingId::Reel
    }

    /// The reel's clearance to the soil, or how deep it stands in it, where the drawing is about that.
    pub(super) fn reel_to_soil(&self, scene: &mut Scene) {
        let numbers = self.case.solution.numbers();
        let clear = numbers.base(NumberId::ReelOnGround);
        let Some(clear) = clear.filter(|_| self.tells_reel_to_soil()) else {
            return;
        };
        let deep = self.length(Length::from_mm(clear.abs()));
        let told = if clear < 0.0 {
            format!("reel {deep} into the soil")
        } else {
            format!("reel {deep} above the soil")
        };
        let worst = self.worst_place();
        let worst = worst.filter(|worst| self.is_told_by_subject(worst.finding));
        let (role, mut forms) = match worst {
            Some(worst) => {
                let whole = format!("{}: {told}", worst.standing);
                (Role::Worst(worst.level), vec![whole])
            }
            None => (Role::Dimension, Vec::new()),
        };
        forms.push(told);
        let label = Label {
            at: self.reel_below_cut().lowest,
            offset: (46.0, 62.0).into(),
            has_leader: true,
            larger: LARGER,
            text: forms.remove(0),
            shorter: forms,
        };
        scene.add_in(ShownIn::Whole, role, Shape::Label(label));
    }
}
