//! What stays where it is, while a knife or a setting changes or knives are drawn over each other.

use kurbo::Point;

use crate::analysis::Case;

/// What holds still.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hold {
    /// The knife's edge.
    #[default]
    Edge,
    /// The holes in the bed bar that every knife is screwed to.
    Screws,
    /// The ground under the edge.
    Ground,
    /// The reel's centre.
    ReelCentre,
}

impl Hold {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Edge, Self::Screws, Self::Ground, Self::ReelCentre];

    /// Its name in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Edge => "the edge",
            Self::Screws => "the screws",
            Self::Ground => "the ground",
            Self::ReelCentre => "the reel's centre",
        }
    }

    /// Where it stands on the plate.
    #[must_use]
    pub fn place(self, case: &Case) -> Point {
        let pose = &case.solution.pose;
        match self {
            Self::Edge => pose.edge_on_plate,
            Self::Screws => {
                let reach = case.unit.profile.knife.reach.mm();
                pose.plate_from_bar() * Point::new(reach, 0.0)
            }
            Self::Ground => Point::new(pose.edge_on_plate.x, 0.0),
            Self::ReelCentre => pose.centre_on_plate,
        }
    }
}
