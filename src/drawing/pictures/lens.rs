//! The lens: the clip point enlarged, with its scale, scale bars, and an optional vertical stretch.

use kurbo::{Line, Point, Rect, Shape as _, Vec2};

use crate::analysis::Solution;
use crate::drawing::paper::{
    Anchor, PAPER_PER_MM, Panel, Pen, Pencil, Style, TEXT_SIZE, View, lay_out_around,
};
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
    /// Enlargement against true size; fitted to what matters when none is chosen.
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
    pub fn panel(&self, scene: &Scene, style: impl Into<Style>) -> Panel {
        let style = style.into();
        let window = self.view.window;
        let mut pencil = Pencil::new(style, window);
        pencil.body(Role::Paper, &window.to_path(0.1));
        let mut panel = pencil.done();
        let mut pencil = Pencil::new(style, window);
        let covered = [self.bar_across(&pencil).place, self.title_strip(&pencil)];
        let enlarged = lay_out_around(scene, &self.view, ShownIn::Lens, style, &covered);
        panel.marks.extend(enlarged.marks);
        self.title(&mut pencil);
        self.bars(&mut pencil);
        let inside = -pencil.by_text(0.8);
        pencil.stroke(Role::LensFrame, &window.inset(inside).to_path(0.1));
        panel.marks.extend(pencil.done().marks);
        panel
    }

    /// The part of the whole view that the lens shows, with the letter that names it there.
    #[must_use]
    pub fn marks_on_whole(&self, whole: &View, style: impl Into<Style>) -> Panel {
        let shown = whole
            .paper_from_world()
            .transform_rect_bbox(self.view.world());
        let mut pencil = Pencil::new(style, whole.window);
        pencil.stroke(Role::LensFrame, &shown.to_path(0.1));
        let at = Point::new(
            shown.x1 + pencil.by_text(5.0),
            shown.y0 - pencil.by_text(4.0),
        );
        pencil.sized_text(
            Role::Heading,
            at,
            Anchor::BottomLeft,
            16.0,
            LETTER.to_owned(),
        );
        pencil.done()
    }

    fn title(&self, pencil: &mut Pencil) {
        let (window, strip) = (self.view.window, self.title_strip(pencil));
        pencil.body(Role::Frame, &strip.to_path(0.1));
        let middle = strip.center().y;
        let aside = pencil.by_text(12.0);
        let name = format!("Lens {LETTER}, {}", self.view.written_scale());
        let at = Point::new(window.x0 + aside, middle);
        pencil.sized_text(Role::Heading, at, Anchor::Left, 15.0, name);
        if self.is_stretched() {
            let text = format!("stretched upwards ×{}", self.view.stretch);
            let at = Point::new(window.x1 - aside, middle);
            pencil.sized_text(Role::Heading, at, Anchor::Right, 13.5, text);
        }
    }

    fn title_strip(&self, pencil: &Pencil) -> Rect {
        let window = self.view.window;
        let foot = window.y0 + pencil.by_text(TITLE_HEIGHT);
        Rect::new(window.x0, window.y0, window.x1, foot)
    }

    fn is_stretched(&self) -> bool {
        (self.view.stretch - 1.0).abs() > 1e-9
    }

    fn bar_foot(&self, pencil: &Pencil) -> Point {
        let (window, aside) = (self.view.window, pencil.by_text(18.0));
        Point::new(window.x0 + aside, window.y1 - aside)
    }

    fn bar_across(&self, pencil: &Pencil) -> ScaleBar {
        let window = self.view.window;
        let length = self.bar_length(BAR_PART * window.width() / self.view.scale);
        let from = self.bar_foot(pencil);
        let to = from + Vec2::new(length.mm() * self.view.scale, 0.0);
        let words_at = to + Vec2::new(pencil.by_text(8.0), 0.0);
        let words = self.system.length(length);
        let right = words_at.x + pencil.width_of(Role::Heading, &words, TEXT_SIZE);
        let place = Rect::new(
            window.x0,
            window.y1 - pencil.by_text(30.0),
            right + pencil.by_text(6.0),
            window.y1,
        );
        ScaleBar {
            from,
            to,
            words,
            words_at,
            place,
        }
    }

    fn bars(&self, pencil: &mut Pencil) {
        let window = self.view.window;
        let tick = pencil.by_text(5.0);
        let line = |pencil: &mut Pencil, from: Point, to: Point, pen: f64| {
            let path = Line::new(from, to).to_path(0.1);
            pencil.stroke_with(Role::Heading, &path, Pen::Wide(pen));
        };
        let bar = self.bar_across(pencil);
        line(pencil, bar.from, bar.to, 2.0);
        let across = Vec2::new(0.0, tick);
        for end in [bar.from, bar.to] {
            line(pencil, end - across, end + across, 1.5);
        }
        pencil.text(Role::Heading, bar.words_at, Anchor::Left, bar.words);
        if self.is_stretched() {
            let up_scale = self.view.scale * self.view.stretch;
            let up = self.bar_length(0.2 * window.height() / up_scale);
            let top = bar.from - Vec2::new(0.0, up.mm() * up_scale);
            line(pencil, bar.from, top, 2.0);
            let across = Vec2::new(tick, 0.0);
            line(pencil, top - across, top + across, 1.5);
            let at = top + Vec2::new(pencil.by_text(9.0), 0.0);
            pencil.text(Role::Heading, at, Anchor::Left, self.system.length(up));
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

/// The scale bar that lies across.
struct ScaleBar {
    from: Point,
    to: Point,
    words: String,
    words_at: Point,
    /// What bar and words take of the paper.
    place: Rect,
}
