//! A slide: what a room sees at once.

use kurbo::Rect;

use crate::analysis::SolvedId;
use crate::drawing::{Panel, PictureView, Style};
use crate::lesson::ShownFigure;
use crate::units::System;

/// What a slide's picture is of: another one is another picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum PictureOf {
    Unit(SolvedId, PictureView, System),
    Step(usize),
    /// On the way from one step to another, so much of it done.
    Between(usize, usize, f64),
}

/// Draws a slide's picture: where, how, and so many clips after the first; or says why there is none.
pub(super) type Draw<'a> = Box<dyn Fn(Rect, Style, f64) -> Result<Vec<Panel>, String> + 'a>;

/// What a room sees at once.
pub(super) struct Slide<'a> {
    pub(super) title: String,
    /// What is said about it; empty for none.
    pub(super) text: String,
    pub(super) numbers: Vec<ShownFigure>,
    /// The picture; none where there is no solution.
    pub(super) picture: Option<(PictureOf, Draw<'a>)>,
    /// Whether it is a chart or a map rather than a drawing.
    pub(super) is_chart: bool,
    /// Whether its reel turns.
    pub(super) moves: bool,
}
