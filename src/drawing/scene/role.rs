//! Roles: what a shape means. A theme turns a role into a look.

use crate::analysis::Level;
use crate::analysis::knives::Limit;

/// What a shape of the scene means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// The surface plate and level ground.
    Plate,
    /// Soil under turf.
    Soil,
    /// Grass.
    Turf,
    /// The frame that carries reel and rollers, only hinted at.
    Frame,
    /// The outline of a reel, and the way of a blade's tip.
    ReelRim,
    /// The circle of blade tips: what the reel sweeps, no body's outline.
    TipCircle,
    /// Inside the reel.
    ReelBody,
    /// A blade, the shaft.
    Blade,
    /// The knife's section.
    Knife,
    /// The bed bar's section over the knife.
    Bar,
    /// Screws, heads and pins.
    Hardware,
    /// What no file says, drawn as such parts look.
    Hint,
    /// A roller.
    Roller,
    /// Axes: long dash, dot.
    CentreLine,
    /// The vertical through the reel's centre.
    Vertical,
    /// The knife datum.
    Datum,
    /// The height of cut, across.
    CutLine,
    /// What the reel sweeps below the cut line, with how that stands to its limits.
    BelowCut(Level),
    /// The place of the worst finding, with its level.
    Worst(Level),
    /// Where something lies as far as the readings can be off.
    Band,
    /// The clip point and the edge.
    Clip,
    /// Dimension lines, extension lines, leaders.
    Dimension,
    /// Words on the drawing.
    Note,
    /// Words that matter most.
    Heading,
    /// The bench pose behind the present one.
    Ghost,
    /// Another knife drawn over the present one, by its place in the list of knives.
    Overlay(u8),
    /// The border of the enlarged part.
    LensFrame,
    /// Where a limit forbids a setting, on the window map.
    Forbidden(Limit),
    /// Where every limit holds, on the window map.
    Usable,
    /// A setting marked on the window map.
    Setting,
    /// The paper itself.
    Paper,
    /// A level's own colour.
    Level(Level),
}
