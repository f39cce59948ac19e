//! The lens: the clip point enlarged, with its scale, scale bars, and an optional vertical stretch.

use kurbo::{Line, Point, Rect, Shape as _, Vec2};

use super::hold::Hold;
use super::lens_aim::{GROUND_PART, LensAim};
use super::side_view::SideView;
use crate::analysis::{Case, Solution};
use crate::drawing::paper::{
    Anchor, Numbers, PAPER_PER_MM, Panel, Pen, Pencil, Style, TEXT_SIZE, View, lay_out_around,
};
use crate::drawing::scene::{Role, Scene, ShownIn};
use crate::units::{Length, System, round_down};

/// The enlargements that are offered, against true size on paper: the row of ISO 5455.
pub const ENLARGEMENTS: [f64; 7] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0];
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

/// How far under a fitted lens's middle the ground stands, and the cut line at most, in parts of its height.
const GROUND_AT: f64 = 0.42;
const CUT_AT: f64 = 0.12;
/// How much of a fitted lens's width is the knife's at least, and how far the middle stands ahead of what it
/// looks at where there is room.
const LEAST_KNIFE: f64 = 0.2;
const MOST_AHEAD: f64 = 0.1;
/// How deep the sweep is on the paper at least, where it can be: 1.5 mm on a sheet.
const LEAST_SWEEP: f64 = 1.5 * PAPER_PER_MM;
/// How much of the lens's width lies between edge and vertical at most, with a little beside them: as it is
/// liked, and where the sweep would not be seen otherwise.
const APART: f64 = 0.75;
const FURTHEST_APART: f64 = 0.86;
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
const TITLE_SIZE: f64 = 14.0;
/// Paper to the left and right of what stands in that strip.
const ASIDE: f64 = 10.0;
/// Size of the letter on the whole, and the paper it takes.
const LETTER_SIZE: f64 = 16.0;
const LETTER_PLACE: Vec2 = Vec2::new(15.0, 19.0);

impl Lens {
    /// A lens on a solved unit in a rectangle of paper, the unit standing on the plate.
    #[must_use]
    pub fn on(solution: &Solution, choice: LensChoice, window: Rect, system: System) -> Self {
        Self::over(solution, 0.0, choice, (window, system))
    }

    /// A lens on a solved unit, the ground under its edge so high on the drawing.
    fn over(
        solution: &Solution,
        ground_mm: f64,
        choice: LensChoice,
        (window, system): (Rect, System),
    ) -> Self {
        let sweep = &solution.sweep;
        let behind = sweep.behind_centre.mm();
        let below = sweep.below_cut.mm().max(0.0);
        let enlargement = choice.enlargement.unwrap_or_else(|| {
            let width = window.width() / PAPER_PER_MM;
            let height = window.height() / PAPER_PER_MM;
            let has_room = |enlargement: f64, spare_mm: f64, apart: f64| {
                enlargement * (behind.abs() + spare_mm) <= apart * width
                    && enlargement * choice.stretch * below <= 0.3 * height
            };
            let fits = |enlargement: f64| has_room(enlargement, 3.0, APART);
            let tall = (solution.pose.edge_on_plate.y - ground_mm).max(0.0);
            let shows_ground =
                |enlargement: f64| enlargement * choice.stretch * tall <= GROUND_PART * height;
            let is_seen = |enlargement: f64| {
                let on_paper = enlargement * choice.stretch * below * PAPER_PER_MM;
                below <= 0.0 || on_paper >= LEAST_SWEEP
            };
            let from_largest = || ENLARGEMENTS.into_iter().rev();
            // The ground gives way where the sweep would not be seen beside it.
            from_largest()
                .find(|&e| fits(e) && shows_ground(e) && is_seen(e))
                .or_else(|| {
                    let is_seen = |&e: &f64| has_room(e, 1.5, FURTHEST_APART) && is_seen(e);
                    ENLARGEMENTS.into_iter().find(is_seen)
                })
                .or_else(|| from_largest().find(|&e| fits(e)))
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
        // What is told of the sweep stands ahead of the vertical, which leaves it more of the room to spare.
        let spare = 0.5 * (wide - behind.abs()) - LEAST_KNIFE * wide;
        let ahead = spare.max(0.0).min(MOST_AHEAD * wide);
        let aside = (behind / 2.0).clamp(-most_aside, most_aside) + ahead;
        let down = (0.04 * high + below / 2.0).min(most_down);
        let mut middle = edge + Vec2::new(aside, -down);
        // Ground and cut line both, where they fit: the ground at the foot, which is no room for words, but
        // the cut line no lower than leaves some for them below it.
        let tall = edge.y - ground_mm;
        if tall > 0.0 && tall <= GROUND_PART * high {
            middle.y = ground_mm + (GROUND_AT * high).min(tall + CUT_AT * high);
        }
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

    /// A lens that looks where it was aimed.
    #[must_use]
    pub fn aimed(aim: LensAim, case: &Case, stretch: f64, window: Rect, system: System) -> Self {
        Self {
            view: View {
                window,
                middle: aim.middle(case),
                scale: aim.enlargement * PAPER_PER_MM,
                stretch,
            },
            enlargement: aim.enlargement,
            system,
        }
    }

    /// A lens fitted on a unit, and where it looks: at the clip point.
    #[must_use]
    pub fn fitted(
        side_view: &SideView,
        choice: LensChoice,
        hold: Hold,
        window: Rect,
    ) -> (LensAim, Self) {
        let (case, system) = (&side_view.case, side_view.system);
        let ground = side_view.ground_under_edge_mm();
        let fitted = Self::over(case.solution, ground, choice, (window, system));
        (fitted.aim(hold, case), fitted)
    }

    /// Where it looks, told from what holds still.
    #[must_use]
    pub fn aim(&self, hold: Hold, case: &Case) -> LensAim {
        LensAim::fitted(self.enlargement, hold, self.view.middle, case)
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
        let mut reserved = vec![self.strip(&pencil)];
        // Without numbers there is nothing to read off a scale.
        let has_bars = style.numbers == Numbers::Shown;
        if has_bars {
            reserved.push(self.bar_across(&pencil).place);
            reserved.extend(self.bar_up(&pencil).map(|bar| bar.place));
        }
        let around = (&reserved[..], |_: &_| false);
        let enlarged = lay_out_around(scene, &self.view, ShownIn::Lens, style, around);
        panel.marks.extend(enlarged.marks);
        self.title(&mut pencil);
        if has_bars {
            self.bars(&mut pencil);
        }
        // Half its width inside the paper, so that no part shows beyond it.
        let frame = self
            .part_shown(style)
            .inset(-0.5 * style.look(Role::LensFrame).width);
        pencil.stroke(Role::LensFrame, &frame.to_path(0.1));
        panel.marks.extend(pencil.done().marks);
        panel
    }

    /// The part of the whole view that the lens shows, with the letter that names it there.
    #[must_use]
    pub fn marks_on_whole(&self, whole: &View, style: impl Into<Style>) -> Panel {
        let style = style.into();
        let mut pencil = Pencil::new(style, whole.window);
        let shown = self.shown_on(whole, style);
        pencil.stroke(Role::LensFrame, &shown.to_path(0.1));
        if let Some(place) = self.letter_place(whole, style) {
            pencil.sized_text(
                Role::Heading,
                place.center(),
                Anchor::Middle,
                LETTER_SIZE,
                LETTER.to_owned(),
            );
        }
        pencil.done()
    }

    /// The paper under the title, which shows the unit.
    fn part_shown(&self, style: Style) -> Rect {
        let window = self.view.window;
        let below_title = window.y0 + TITLE_HEIGHT * style.text;
        Rect {
            y0: below_title.min(window.y1),
            ..window
        }
    }

    fn shown_on(&self, whole: &View, style: Style) -> Rect {
        let shown = self.part_shown(style);
        let world = self.view.world_from_paper().transform_rect_bbox(shown);
        whole.paper_from_world().transform_rect_bbox(world)
    }

    /// Where the letter stands on the whole: beside the corner of the part shown, on the paper. None
    /// where the paper does not show that part.
    pub(super) fn letter_place(&self, whole: &View, style: Style) -> Option<Rect> {
        let (shown, window) = (self.shown_on(whole, style), whole.window);
        if !shown.overlaps(window) {
            return None;
        }
        let size = LETTER_PLACE * style.text;
        let room = Rect::new(window.x0, window.y0, window.x1 - size.x, window.y1 - size.y);
        let x = (shown.x1 + 3.0 * style.text).min(room.x1).max(room.x0);
        let y = (shown.y0 - size.y).min(room.y1).max(room.y0);
        let place = Rect::from_origin_size((x, y), size.to_size());
        window.contains_rect(place).then_some(place)
    }

    fn strip(&self, pencil: &Pencil) -> Rect {
        let window = self.view.window;
        Rect {
            y1: window.y0 + pencil.by_text(TITLE_HEIGHT),
            ..window
        }
    }

    fn title(&self, pencil: &mut Pencil) {
        let strip = self.strip(pencil);
        // Past the border, where the last pixel of what lies under it would show.
        let covered = Rect {
            y0: strip.y0 - 2.0,
            ..strip
        };
        pencil.body(Role::Paper, &covered.to_path(0.1));
        let aside = pencil.by_text(ASIDE);
        let bar = self.bar_across(pencil);
        let room = if bar.is_in_strip && pencil.style.numbers == Numbers::Shown {
            bar.place.x0 - strip.x0 - 2.0 * aside
        } else {
            strip.width() - 2.0 * aside
        };
        let scale = self.view.written_scale();
        let mut names = vec![
            format!("Lens {LETTER}, section, {scale}"),
            format!("Lens {LETTER}, {scale}"),
            format!("{LETTER}, {scale}"),
        ];
        let mut told = Vec::new();
        if self.is_stretched() {
            let stretch = self.view.stretch;
            told = vec![
                format!("stretched upwards ×{stretch}"),
                format!("upwards ×{stretch}"),
            ];
        }
        // Both, or as much of each as there is room for.
        let between = pencil.by_text(14.0);
        let width = |pencil: &Pencil, text: &str| pencil.width_of(Role::Heading, text, TITLE_SIZE);
        let fits = |pencil: &Pencil, name: &str, told: &str| {
            width(pencil, name) + between + width(pencil, told) <= room
        };
        let pairs = names
            .iter()
            .flat_map(|name| told.iter().map(move |told| (name.clone(), told.clone())));
        let both = pairs
            .into_iter()
            .find(|(name, told)| fits(pencil, name, told));
        if let Some((name, told)) = both {
            let at = Point::new(strip.x1 - aside, strip.center().y);
            pencil.sized_text(Role::Heading, at, Anchor::Right, TITLE_SIZE, told);
            names = vec![name];
        } else if let Some(told) = told.pop() {
            names = vec![format!("{scale}, {told}")];
        }
        let sizes = (9.0, TITLE_SIZE);
        if let Some((name, size)) = pencil.longest_fitting(Role::Heading, &names, sizes, room) {
            let at = Point::new(strip.x0 + aside, strip.center().y);
            pencil.sized_text(Role::Heading, at, Anchor::Left, size, name.to_owned());
        }
    }

    fn is_stretched(&self) -> bool {
        (self.view.stretch - 1.0).abs() > 1e-9
    }

    fn bar_foot(&self, pencil: &Pencil) -> Point {
        let (window, aside) = (self.view.window, pencil.by_text(18.0));
        Point::new(window.x0 + aside, window.y1 - aside)
    }

    /// The scale bar: beside the title where the lens is true to shape, so that it covers nothing; else in
    /// the lens's corner, where the other one stands on it.
    fn bar_across(&self, pencil: &Pencil) -> ScaleBar {
        let window = self.view.window;
        if !self.is_stretched() {
            let strip = self.strip(pencil);
            let least_title =
                pencil.width_of(Role::Heading, &self.view.written_scale(), TITLE_SIZE);
            let aside = pencil.by_text(ASIDE);
            let most = window.width() - least_title - 4.0 * aside;
            let length = self.bar_length(BAR_PART * window.width() / self.view.scale);
            let words = self.system.length(length);
            let wide = pencil.width_of(Role::Heading, &words, TEXT_SIZE);
            let long = length.mm() * self.view.scale;
            if long + wide + aside <= most {
                let words_at = Point::new(strip.x1 - aside - wide, strip.center().y);
                let to = words_at - Vec2::new(pencil.by_text(8.0), 0.0);
                let from = to - Vec2::new(long, 0.0);
                return ScaleBar {
                    from,
                    to,
                    words,
                    words_at,
                    place: Rect {
                        x0: from.x,
                        ..strip
                    },
                    is_in_strip: true,
                };
            }
        }
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
            is_in_strip: false,
        }
    }

    fn bars(&self, pencil: &mut Pencil) {
        let tick = pencil.by_text(5.0);
        let line = |pencil: &mut Pencil, from: Point, to: Point, pen: f64| {
            let path = Line::new(from, to).to_path(0.1);
            pencil.stroke_with(Role::Heading, &path, Pen::Wide(pen));
        };
        let bar = self.bar_across(pencil);
        // On paper of its own: the knife is where it stands.
        pencil.body(Role::Paper, &bar.place.to_path(0.1));
        line(pencil, bar.from, bar.to, 2.0);
        let across = Vec2::new(0.0, tick);
        for end in [bar.from, bar.to] {
            line(pencil, end - across, end + across, 1.5);
        }
        pencil.text(Role::Heading, bar.words_at, Anchor::Left, bar.words);
        if let Some(bar) = self.bar_up(pencil) {
            line(pencil, bar.from, bar.to, 2.0);
            let across = Vec2::new(tick, 0.0);
            line(pencil, bar.to - across, bar.to + across, 1.5);
            pencil.text(Role::Heading, bar.words_at, Anchor::Left, bar.words);
        }
    }

    /// The scale bar that stands up, in a stretched lens.
    fn bar_up(&self, pencil: &Pencil) -> Option<ScaleBar> {
        if !self.is_stretched() {
            return None;
        }
        let window = self.view.window;
        let up_scale = self.view.scale * self.view.stretch;
        let length = self.bar_length(0.2 * window.height() / up_scale);
        let from = self.bar_foot(pencil);
        let to = from - Vec2::new(0.0, length.mm() * up_scale);
        let words_at = to + Vec2::new(pencil.by_text(9.0), 0.0);
        let words = self.system.length(length);
        let right = words_at.x + pencil.width_of(Role::Heading, &words, TEXT_SIZE);
        let place = Rect::new(
            window.x0,
            to.y - pencil.by_text(10.0),
            right + pencil.by_text(6.0),
            from.y,
        );
        Some(ScaleBar {
            from,
            to,
            words,
            words_at,
            place,
            is_in_strip: false,
        })
    }

    /// A round length in the reader's units, no longer than `most_mm`.
    fn bar_length(&self, most_mm: f64) -> Length {
        let unit_mm = match self.system {
            System::Millimetre => 1.0,
            System::InchDecimal | System::InchFraction => Length::from_inches(1.0).mm(),
        };
        let most = most_mm / unit_mm;
        // Fractions halve; what is finer than they go is read in decimals, which go by tens.
        let half = 2_f64.powf(most.log2().floor());
        let most = match self.system {
            System::InchFraction if half >= 1.0 / 64.0 => return Length::from_inches(half),
            System::InchFraction | System::InchDecimal | System::Millimetre => most,
        };
        Length::from_mm(round_down(most) * unit_mm)
    }
}

/// A scale bar.
struct ScaleBar {
    from: Point,
    to: Point,
    words: String,
    words_at: Point,
    /// What bar and words take of the paper.
    place: Rect,
    is_in_strip: bool,
}
