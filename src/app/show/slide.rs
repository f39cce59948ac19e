//! A slide: what a room sees at once.

use kurbo::{Rect, TranslateScale};

use crate::analysis::{Kinematics, Level, NumberId, Solved, SolvedId};
use crate::drawing::{MotionOf, Panel, PictureView, Style, clip_on_paper};
use crate::lesson::{ShownFigure, Turned};
use crate::units::{Angle, Length, System};

/// What a slide's picture is of: another one is another picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum PictureOf {
    Unit(SolvedId, PictureView, System),
    /// The picture of the page in front when Show began.
    Page,
    Pair([SolvedId; 2], PictureView, System),
    Step(usize, SolvedId, Seen),
    /// On the way from one step to another, so much of it done.
    Between(usize, usize, f64),
}

/// How a step of a lesson is seen, where somebody asked for it otherwise.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Seen {
    /// The clip point enlarged, whatever the step shows.
    pub(super) is_lens: bool,
    /// The reel in motion or not, whatever the step shows.
    pub(super) motion: Option<bool>,
}

/// Draws a slide's picture: where, how, and so many clips after the first; or says why there is none.
pub(super) type Draw<'a> = Box<dyn Fn(Rect, Style, f64) -> Result<Vec<Panel>, String> + 'a>;

/// How two pictures are seen that are linked.
#[derive(Clone, Copy, Debug)]
pub(super) struct LinkedSeen {
    pub(super) clips: f64,
    /// Through what the left one is looked at; the right one alike.
    pub(super) glass: TranslateScale,
    pub(super) has_numbers: bool,
}

/// Draws two pictures that are linked: where, how, and how they are seen; or says why there are none.
pub(super) type DrawLinked<'a> =
    Box<dyn Fn(Rect, Style, LinkedSeen) -> Result<Vec<Panel>, String> + 'a>;

/// Two pictures side by side that are looked at as one: what enlarges a place of one enlarges it in both.
pub(super) struct Linked<'a> {
    /// The numbers under them, which are part of what is drawn.
    pub(super) shows: Vec<NumberId>,
    /// Where they stand on the paper of the slide's picture.
    pub(super) halves: Box<dyn Fn(Rect, Style) -> [Rect; 2] + 'a>,
    pub(super) draw: DrawLinked<'a>,
}

/// A number in large digits.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LargeNumber {
    pub(super) title: String,
    pub(super) shown: String,
    /// How it stands, where that should be looked at, with the word for it.
    pub(super) level: Option<(Level, String)>,
}

impl From<ShownFigure> for LargeNumber {
    fn from(figure: ShownFigure) -> Self {
        Self {
            title: figure.title,
            shown: figure.shown,
            level: None,
        }
    }
}

/// A reel that turns.
pub(super) struct InMotion<'a> {
    /// Blades a second when mowing.
    pub(super) real_clips_per_s: f64,
    /// The same of the right one of two, which turns by the same clock.
    pub(super) right_clips_per_s: Option<f64>,
    /// What is shown of it.
    pub(super) shows: MotionOf,
    /// How wide a clip is in a picture that fills so much paper.
    pub(super) clip_on_paper: Box<dyn Fn(Rect) -> f64 + 'a>,
}

impl<'a> InMotion<'a> {
    /// None where the unit's speeds are not known.
    pub(super) fn of<S>(solved: S, shows: MotionOf) -> Option<Self>
    where
        S: std::ops::Deref<Target = Solved> + 'a,
    {
        let kinematics = Kinematics::of(&solved.unit, &solved.solution)?;
        let turns_per_s = 1.0 / kinematics.path.turn_s();
        Some(Self {
            real_clips_per_s: turns_per_s * f64::from(solved.unit.blades.max(1)),
            right_clips_per_s: None,
            shows,
            clip_on_paper: Box::new(move |paper| clip_on_paper(&solved, &[], shows, paper)),
        })
    }

    /// Of two side by side; none where the speeds of one are not known.
    pub(super) fn of_both<S>([left, right]: [S; 2], shows: MotionOf) -> Option<Self>
    where
        S: std::ops::Deref<Target = Solved> + Clone + 'a,
    {
        let of_right = Self::of(right.clone(), shows)?;
        let of_left = Self::of(left.clone(), shows)?;
        let wide = move |paper| clip_on_paper(&left, &[&right], shows, paper);
        Some(Self {
            right_clips_per_s: Some(of_right.real_clips_per_s),
            clip_on_paper: Box::new(wide),
            ..of_left
        })
    }
}

/// The slider under a picture.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct SliderOf {
    pub(super) turned: Turned,
    /// Where it stands, and where it is set, in millimetres or degrees.
    pub(super) now_base: f64,
    pub(super) set_base: f64,
    /// From where to where it goes, and its step.
    pub(super) range_base: (f64, f64),
    pub(super) step_base: f64,
    /// The system that its quantity is shown in.
    pub(super) system: System,
    /// Why it went no further.
    pub(super) stopped: Option<String>,
}

impl SliderOf {
    /// Whether it was turned away from what is set.
    pub(super) fn is_turned(&self) -> bool {
        (self.now_base - self.set_base).abs() > 1e-6
    }

    /// Whether there is anything to take back: it was turned, or says why it went no further.
    pub(super) fn can_go_back(&self) -> bool {
        self.is_turned() || self.stopped.is_some()
    }

    /// The nearest whole step to a place that is not past its ends.
    pub(super) fn in_steps(&self, base: f64) -> f64 {
        let (low, high) = self.range_base;
        let stepped = (base / self.step_base).round() * self.step_base;
        stepped.clamp(low, high)
    }

    /// A place of it in words.
    pub(super) fn written(&self, base: f64) -> String {
        match self.turned {
            Turned::Attitude => self.system.angle(Angle::from_deg(base)),
            Turned::HeightOfCut | Turned::ReelDiameter | Turned::EdgeForward => {
                self.system.length(Length::from_mm(base))
            }
        }
    }
}

/// What a room sees at once.
pub(super) struct Slide<'a> {
    pub(super) title: String,
    /// What of the title stays where it is too long for a line; none where it may take more lines.
    pub(super) short_title: Option<String>,
    /// What is said about it; empty for none.
    pub(super) text: String,
    pub(super) numbers: Vec<LargeNumber>,
    /// The picture; none where there is no solution.
    pub(super) picture: Option<(PictureOf, Draw<'a>)>,
    /// Two pictures in place of the one, with their own numbers.
    pub(super) linked: Option<Linked<'a>>,
    /// Whether it is a chart or a map rather than a drawing.
    pub(super) is_chart: bool,
    /// Whether it is a drawing of the unit, of which few words are shown until somebody asks for the rest.
    pub(super) has_few_words: bool,
    /// Whether its reel can be asked to turn.
    pub(super) may_turn: bool,
    /// How its reel turns; none where it does not.
    pub(super) motion: Option<InMotion<'a>>,
    pub(super) slider: Option<SliderOf>,
}

impl Slide<'_> {
    /// Words alone.
    pub(super) fn of_words(title: String, text: String) -> Self {
        Self {
            title,
            short_title: None,
            text,
            numbers: Vec::new(),
            picture: None,
            linked: None,
            is_chart: false,
            has_few_words: false,
            may_turn: true,
            motion: None,
            slider: None,
        }
    }
}
