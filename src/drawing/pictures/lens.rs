//! The lens: the clip point enlarged, with its scale, scale bars, and an optional vertical stretch.

use kurbo::{Point, Rect, Shape as _, Vec2};

use crate::analysis::Solution;
use crate::drawing::paper::{Anchor, PAPER_PER_MM, Panel, Paper, Pen, Theme, View, lay_out_around};
use crate::drawing::scene::{Role, Scene, ShownIn};
use crate::units::{Length, System, round_down};

/// The enlargements that are offered, against true size on paper.
pub const ENLARGEMENTS: [f64; 16] = [
    1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 80.0,
];
/// The vertical stretches that are offered; 1 is true.
pub const STRETCHES: [f64; 5] = [1.0, 2.0, 3.0, 5.0, 10.0];

/// What a person chose for the lens.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LensChoice {
    /// Enlargement against true size; fitted to what matters when nothing is chosen.
    pub enlargement: Option<f64>,
    /// How many times larger upwards than across; 1 is true.
    pub stretch: f64,
}

impl Default for LensChoice {
    fn default() -> Self {
        Self {
            enlargement: None,
            stretch: 1.0,
        }
    }
}

/// How much of the lens's width its scale bar takes at most.
const BAR_PART: f64 = 0.3;

/// The place of a lens's scale bar and its length in words.
fn scale_bar_place(window: Rect) -> Rect {
    let words = 90.0;
    let right = window.x0 + 18.0 + BAR_PART * window.width() + words;
    Rect::new(window.x0, window.y1 - 30.0, right, window.y1)
}

/// A lens on paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lens {
    /// What it shows.
    pub view: View,
    enlargement: f64,
    system: System,
}

/// The letter that names the enlarged part, on the whole and on the lens.
const LETTER: &str = "A";
/// Height of the strip with the lens's name and scale.
const TITLE_HEIGHT: f64 = 30.0;

impl Lens {
    /// A lens on a solved unit in a rectangle of paper.
    #[must_use]
    pub fn on(solution: &Solution, choice: LensChoice, window: Rect, system: System) -> Self {
        let sweep = &solution.sweep;
        let behind = sweep.behind_centre.mm();
        let below = sweep.below_cut.mm().max(0.0);
        let enlargement = choice.enlargement.unwrap_or_else(|| {
            let width = window.width() / PAPER_PER_MM;
            let height = window.height() / PAPER_PER_MM;
            let fits = |enlargement: f64| {
                enlargement * (behind.abs() + 3.0) <= 0.66 * width
                    && enlargement * choice.stretch * below <= 0.3 * height
            };
            ENLARGEMENTS
                .into_iter()
                .rev()
                .find(|&e| fits(e))
                .unwrap_or(ENLARGEMENTS[0])
        });
        let scale = enlargement * PAPER_PER_MM;
        let edge = solution.pose.edge_on_plate;
        // The cut line a little above the middle, edge and lowest point even about it; enlarged so
        // far that they do not fit, the edge stays.
        let (wide, high) = (
            window.width() / scale,
            window.height() / scale / choice.stretch,
        );
        let (most_aside, most_down) = (0.36 * wide.max(0.0), 0.36 * high);
        let aside = (behind / 2.0).clamp(-most_aside, most_aside);
        let down = (0.04 * high + below / 2.0).min(most_down);
        let middle = edge + Vec2::new(aside, -down);
        Self {
            view: View {
                window,
                middle,
                scale,
                stretch: choice.stretch,
            },
            enlargement,
            system,
        }
    }

    /// The enlargement in force.
    #[must_use]
    pub fn enlargement(&self) -> f64 {
        self.enlargement
    }

    /// The lens's marks: the enlarged scene, its border, title and scale bars.
    #[must_use]
    pub fn panel(&self, scene: &Scene, theme: Theme) -> Panel {
        let window = self.view.window;
        let mut paper = Paper::new(theme, window);
        paper.body(Role::Paper, &window.to_path(0.1));
        let mut panel = paper.done();
        let bar = Some(scale_bar_place(window));
        let enlarged = lay_out_around(scene, &self.view, ShownIn::Lens, theme, bar);
        panel.marks.extend(enlarged.marks);
        let mut paper = Paper::new(theme, window);
        self.title(&mut paper);
        self.bars(&mut paper);
        paper.stroke(Role::LensFrame, &window.inset(-0.8).to_path(0.1));
        panel.marks.extend(paper.done().marks);
        panel
    }

    /// The part of the whole view that the lens shows, with the letter that names it there.
    #[must_use]
    pub fn marks_on_whole(&self, whole: &View, theme: Theme) -> Panel {
        let shown = whole
            .paper_from_world()
            .transform_rect_bbox(self.view.world());
        let mut paper = Paper::new(theme, whole.window);
        paper.stroke(Role::LensFrame, &shown.to_path(0.1));
        let at = Point::new(shown.x1 + 5.0, shown.y0 - 4.0);
        paper.sized_text(
            Role::Heading,
            at,
            Anchor::BottomLeft,
            16.0,
            LETTER.to_owned(),
        );
        paper.done()
    }

    fn title(&self, paper: &mut Paper) {
        let window = self.view.window;
        let strip = Rect::new(window.x0, window.y0, window.x1, window.y0 + TITLE_HEIGHT);
        paper.body(Role::Frame, &strip.to_path(0.1));
        let middle = strip.center().y;
        let name = format!("Lens {LETTER}, {}", self.view.written_scale());
        let at = Point::new(window.x0 + 12.0, middle);
        paper.sized_text(Role::Heading, at, Anchor::Left, 15.0, name);
        if (self.view.stretch - 1.0).abs() > 1e-9 {
            let text = format!("stretched upwards ×{}", self.view.stretch);
            let at = Point::new(window.x1 - 12.0, middle);
            paper.sized_text(Role::Heading, at, Anchor::Right, 13.5, text);
        }
    }

    fn bars(&self, paper: &mut Paper) {
        let window = self.view.window;
        let foot = Point::new(window.x0 + 18.0, window.y1 - 18.0);
        let up_scale = self.view.scale * self.view.stretch;
        let across = self.bar_length(BAR_PART * window.width() / self.view.scale);
        let tick = |paper: &mut Paper, at: Point, way: Vec2| {
            paper.stroke_with(
                Role::Heading,
                &kurbo::Line::new(at - way, at + way).to_path(0.1),
                Pen::Wide(1.5),
            );
        };
        let end = foot + Vec2::new(across.mm() * self.view.scale, 0.0);
        paper.stroke_with(
            Role::Heading,
            &kurbo::Line::new(foot, end).to_path(0.1),
            Pen::Wide(2.0),
        );
        tick(paper, foot, Vec2::new(0.0, 5.0));
        tick(paper, end, Vec2::new(0.0, 5.0));
        let at = end + Vec2::new(8.0, 0.0);
        paper.text(Role::Heading, at, Anchor::Left, self.system.length(across));
        if (self.view.stretch - 1.0).abs() > 1e-9 {
            let up = self.bar_length(0.2 * window.height() / up_scale);
            let top = foot - Vec2::new(0.0, up.mm() * up_scale);
            paper.stroke_with(
                Role::Heading,
                &kurbo::Line::new(foot, top).to_path(0.1),
                Pen::Wide(2.0),
            );
            tick(paper, top, Vec2::new(5.0, 0.0));
            let at = top + Vec2::new(9.0, 0.0);
            paper.text(Role::Heading, at, Anchor::Left, self.system.length(up));
        }
    }

    /// A round length in the reader's units, no longer than `most_mm`.
    fn bar_length(&self, most_mm: f64) -> Length {
        let unit_mm = match self.system {
            System::Millimetre => 1.0,
            System::InchDecimal | System::InchFraction => Length::from_inches(1.0).mm(),
        };
        let most = most_mm / unit_mm;
        // Fractions halve; below a tenth of an inch they are read in thou, which go by tens.
        let half = 2_f64.powf(most.log2().floor());
        let most = match self.system {
            System::InchFraction if half >= 0.125 => return Length::from_inches(half),
            System::InchFraction => most.min(0.099),
            System::InchDecimal | System::Millimetre => most,
        };
        Length::from_mm(round_down(most) * unit_mm)
    }
}
