//! Two units side by side, or two settings of one: at one scale, on one ground line, at one time, and what
//! they differ in between them.

use kurbo::{Point, Rect, Size, TranslateScale, Vec2};

use super::page::Page;
use super::seen::{BETWEEN, Seen, clips_in_one, halves};
use super::sheet::Sheet;
use super::view_picture::{ASIDE, FOOT, FOOT_WORDS, NoPicture, PictureView, SIZE, foot};
use crate::analysis::{Difference, Level, NumberId, Solved};
use crate::drawing::paper::{
    Anchor, Numbers, PAPER_PER_MM, Panel, Pen, Pencil, Style, Words, letters, level_symbol,
};
use crate::drawing::pictures::{ENLARGEMENTS, Hold, Lens, LensAim, LensChoice};
use crate::drawing::scene::Role;
use crate::units::System;

/// Two units to be seen side by side, the left one first.
#[derive(Clone, Debug)]
pub struct SideBySide<'a> {
    /// Both.
    pub units: [&'a Solved; 2],
    /// What each is called.
    pub names: [String; 2],
    /// The picture that each has, one of [`SideBySide::VIEWS`].
    pub view: PictureView,
    /// The units of the words.
    pub system: System,
    /// Where the left one's reel stands that turns, so many clips after the first.
    pub clips: f64,
}

/// The numbers that are told of both, and how large.
#[derive(Clone, Debug, PartialEq)]
pub struct PairNumbers {
    /// Which, what matters most first; those that find no room are left out.
    pub ids: Vec<NumberId>,
    /// Size of the numbers, in the window's sizes of words.
    pub size: f64,
    /// Size of what they are called: over the difference where the numbers are larger, else before it.
    pub name_size: f64,
}

impl PairNumbers {
    /// All that are told of two units in a picture, in ordinary words.
    #[must_use]
    pub fn all_of(view: PictureView) -> Self {
        let ids = if view == PictureView::Ground {
            Difference::ON_GROUND
        } else {
            Difference::ON_PLATE
        };
        Self {
            ids: ids.to_vec(),
            size: 14.0,
            name_size: 14.0,
        }
    }

    fn is_named_above(&self) -> bool {
        self.size > 1.2 * self.name_size
    }

    /// From one number to the next, in the window's sizes of words.
    fn line(&self) -> f64 {
        if self.is_named_above() {
            1.2 * self.name_size + 1.15 * self.size
        } else {
            1.45 * self.size
        }
    }
}

impl PairNumbers {
    /// Those that find room.
    fn shown_in(&self, place: Rect, style: Style) -> impl Iterator<Item = NumberId> {
        let room = MOST_NUMBERS * place.height() - style.text * WAY_HIGH;
        let line = style.text * self.line();
        let counted = self.ids.iter().zip(1_u8..);
        let shown = counted.take_while(move |(_, count)| f64::from(*count) * line <= room);
        shown.map(|(id, _)| *id)
    }
}

/// Where the pictures stand: under the names, over the numbers.
fn pictures_in(numbers: &PairNumbers, place: Rect, style: Style) -> Rect {
    let rows = numbers.shown_in(place, style);
    let rows = rows.fold(0.0, |rows, _| rows + 1.0);
    let high = if rows > 0.0 {
        rows * numbers.line() + WAY_HIGH + 4.0
    } else {
        0.0
    };
    Rect {
        y0: place.y0 + style.text * OVER,
        y1: place.y1 - style.text * high,
        ..place
    }
}

/// Size of the names over the halves, and the paper they take.
const NAME: f64 = 16.0;
const OVER: f64 = 26.0;
/// Size of the line that says which way the differences count, and the paper it takes.
const WAY: f64 = 11.5;
const WAY_HIGH: f64 = 18.0;
/// What a difference counts.
const RIGHT_LESS_LEFT: &str = "right less left";
/// Paper between a number and the difference beside it.
const GAP: f64 = 16.0;
/// Part of the height that numbers take at the most.
const MOST_NUMBERS: f64 = 0.55;
/// How much of a lens's width and height is taken by what it has to show, and how deep a sweep is on the
/// paper at least, where it can be.
const SHOWN: f64 = 0.68;
const LEAST_SWEEP: f64 = 4.0;
/// Words and pens on a page, against the window's.
const IN_THE_HAND: f64 = 0.8;
const MARGIN_MM: f64 = 6.0;

impl SideBySide<'_> {
    /// The pictures that two units can have side by side.
    pub const VIEWS: [PictureView; 4] = [
        PictureView::Whole,
        PictureView::Lens,
        PictureView::Ground,
        PictureView::Motion,
    ];

    /// Draws both, with their numbers below and the differences between these.
    ///
    /// # Errors
    /// When one of them has no such picture, or two have none side by side.
    pub fn panels(
        &self,
        numbers: &PairNumbers,
        place: Rect,
        style: Style,
    ) -> Result<Vec<Panel>, NoPicture> {
        self.panels_at(numbers, place, style, (TranslateScale::default(), false))
    }

    /// The same with both pictures looked at through a glass that lies on the left one, and alike on the
    /// right one: what it enlarges, it enlarges in both. Words and lines keep their size.
    ///
    /// # Errors
    /// When one of them has no such picture, or two have none side by side.
    pub fn panels_through(
        &self,
        glass: TranslateScale,
        numbers: &PairNumbers,
        place: Rect,
        style: Style,
    ) -> Result<Vec<Panel>, NoPicture> {
        self.panels_at(numbers, place, style, (glass, false))
    }

    /// How many blades of the right one clip in the time from one of the left one to the next; none where the
    /// speeds of one are not known.
    #[must_use]
    pub fn right_clips_in_one(&self) -> Option<f64> {
        clips_in_one(self.units)
    }

    /// Where both pictures stand on a rectangle of paper.
    #[must_use]
    pub fn halves(numbers: &PairNumbers, place: Rect, style: Style) -> [Rect; 2] {
        halves(pictures_in(numbers, place, style))
    }

    fn panels_at(
        &self,
        numbers: &PairNumbers,
        place: Rect,
        style: Style,
        (glass, is_scale_of_row): (TranslateScale, bool),
    ) -> Result<Vec<Panel>, NoPicture> {
        if !Self::VIEWS.contains(&self.view) {
            return Err(NoPicture::NotSideBySide);
        }
        // Numbers and names stay where the words on the pictures are put away.
        let all = Style {
            words: Words::All,
            numbers: Numbers::Shown,
            ..style
        };
        let mut words = Pencil::new(all, place);
        self.numbers(&mut words, numbers);
        let pictures = pictures_in(numbers, place, style);
        for (half, name) in halves(pictures).into_iter().zip(&self.names) {
            let middle = Point::new(half.center().x, place.y0 + words.by_text(0.5 * OVER));
            let name = letters::readable(name);
            let name = words.fitted(Role::Heading, &name, NAME, half.width() - 2.0 * BETWEEN);
            let name = name.into_owned();
            words.sized_text(Role::Heading, middle, Anchor::Middle, NAME, name);
        }
        let [left, right] = halves(pictures);
        let x = left.x1.midpoint(right.x0);
        words.line(
            Role::LensFrame,
            Point::new(x, place.y0),
            Point::new(x, pictures.y1),
        );
        let seen = Seen {
            view: self.view,
            hold: Hold::Ground,
            alike: self.units.to_vec(),
            lens: Some(self.lens_aim(left)),
            looks_at_lip: false,
            is_scale_of_row,
            system: Some(self.system),
            style: Style {
                text: style.text / glass.scale,
                pen: style.pen / glass.scale,
                ..style
            },
            clips: self.clips,
        };
        let mut panels = seen.in_halves(self.units, pictures)?;
        if glass.scale > 1.0 {
            let halves = [left, right];
            let through = |panel: Panel| {
                let [left, right] = halves;
                let is_left = panel.window.center().x < left.x1;
                let to_right = Vec2::new((right.x0 - left.x0) * (1.0 - glass.scale), 0.0);
                if is_left {
                    panel.through_glass(glass, left, style)
                } else {
                    let glass = TranslateScale::new(glass.translation + to_right, glass.scale);
                    panel.through_glass(glass, right, style)
                }
            };
            panels = panels.into_iter().map(through).collect();
        }
        panels.push(words.done());
        Ok(panels)
    }

    /// The lens that shows both clip points over one ground: as large as it goes, the ground giving way
    /// where a sweep would not be seen beside it.
    fn lens_aim(&self, half: Rect) -> LensAim {
        let [first, _] = self.units;
        let seen = |solved: &Solved| {
            let held = Hold::Ground.place(&solved.case());
            let edge = solved.solution.pose.edge_on_plate - held.to_vec2();
            let sweep = &solved.solution.sweep;
            let lowest = edge + Vec2::new(sweep.behind_centre.mm(), -sweep.below_cut.mm());
            Rect::from_points(edge, lowest)
        };
        let [one, other] = self.units.map(seen);
        let points = one.union(other);
        let over_ground = points.union_pt((points.center().x, 0.0));
        let room = SHOWN * half.size();
        let fits = |shown: Rect, enlargement: f64| {
            let scale = enlargement * PAPER_PER_MM;
            scale * shown.width() <= room.width && scale * shown.height() <= room.height
        };
        let is_seen = |enlargement: f64| {
            self.units.iter().all(|unit| {
                let below = unit.solution.sweep.below_cut.mm();
                below <= 0.0 || enlargement * PAPER_PER_MM * below >= LEAST_SWEEP
            })
        };
        let from_largest = || ENLARGEMENTS.into_iter().rev();
        let with_ground = from_largest().find(|&e| fits(over_ground, e) && is_seen(e));
        let with_ground = with_ground.map(|enlargement| (enlargement, over_ground));
        let (enlargement, shown) = with_ground.unwrap_or_else(|| {
            let without = from_largest().find(|&e| fits(points, e));
            (without.unwrap_or(ENLARGEMENTS[0]), points)
        });
        let choice = LensChoice {
            enlargement: Some(enlargement),
            ..LensChoice::default()
        };
        let case = first.case();
        let middle = shown.center() + Hold::Ground.place(&case).to_vec2();
        let lens = Lens::on(&first.solution, choice, half, self.system);
        lens.aim(Hold::Ground, &case).at(middle, &case)
    }

    /// Writes the numbers of both at the foot, the differences between them.
    fn numbers(&self, words: &mut Pencil, numbers: &PairNumbers) {
        let place = words.window;
        let line = words.by_text(numbers.line());
        let way = words.by_text(WAY_HIGH);
        let rows = numbers.shown_in(place, words.style);
        let rows = rows.map(|id| Row::of(Difference::of(id, self.units), self.system));
        let rows: Vec<Row> = rows.collect();
        if rows.is_empty() {
            return;
        }
        let laid = Laid::of(words, numbers, &rows);
        let mut top = pictures_in(numbers, place, words.style).y1 + way;
        let middle = place.center().x;
        let at = Point::new(middle, top - 0.5 * way);
        words.sized_text(
            Role::Note,
            at,
            Anchor::Middle,
            WAY,
            RIGHT_LESS_LEFT.to_owned(),
        );
        for row in &rows {
            laid.row(words, numbers, row, middle, (top, top + line));
            top += line;
        }
    }
}

/// A number of both, as it is read.
struct Row {
    name: &'static str,
    shown: [String; 2],
    more: String,
    levels: [Level; 2],
}

impl Row {
    fn of(difference: Difference, system: System) -> Self {
        Self {
            name: difference.id.title(),
            shown: difference.shown(system),
            more: difference.more_shown(system),
            levels: difference.levels,
        }
    }

    fn in_a_line(&self) -> String {
        format!("{}: {}", self.name, self.more)
    }
}

/// How wide the columns of the numbers are, and by how much the words are smaller than asked for where they
/// would find no room.
struct Laid {
    half_middle: f64,
    part: f64,
}

impl Laid {
    fn of(words: &Pencil, numbers: &PairNumbers, rows: &[Row]) -> Self {
        let widest = |of: &dyn Fn(&Row) -> f64| rows.iter().map(of).fold(0.0, f64::max);
        let aside = widest(&|row| {
            let widths = row.shown.iter();
            widths
                .map(|shown| words.width_of(Role::Heading, shown, numbers.size))
                .fold(0.0, f64::max)
        });
        let symbol = words.by_text(1.2 * numbers.size);
        let middle = widest(&|row| {
            if numbers.is_named_above() {
                let name = words.width_of(Role::Note, row.name, numbers.name_size);
                name.max(words.width_of(Role::Heading, &row.more, numbers.size))
            } else {
                words.width_of(Role::Heading, &row.in_a_line(), numbers.size)
            }
        });
        let needed = middle + 2.0 * (aside + symbol + words.by_text(2.0 * GAP));
        let part = (words.window.width() / needed).min(1.0);
        Self {
            half_middle: part * (0.5 * middle + words.by_text(GAP)),
            part,
        }
    }

    fn row(
        &self,
        words: &mut Pencil,
        numbers: &PairNumbers,
        row: &Row,
        middle: f64,
        (top, foot): (f64, f64),
    ) {
        let (size, name_size) = (self.part * numbers.size, self.part * numbers.name_size);
        let centre = top.midpoint(foot);
        if numbers.is_named_above() {
            let above = top + words.by_text(0.6 * numbers.name_size);
            let at = Point::new(middle, above);
            let number_at = Point::new(middle, foot - words.by_text(0.58 * numbers.size));
            words.sized_text(
                Role::Heading,
                number_at,
                Anchor::Middle,
                size,
                row.more.clone(),
            );
            // After the number, whose ground would lie over the feet of the letters.
            let name = row.name.to_owned();
            words.sized_text(Role::Note, at, Anchor::Middle, name_size, name);
        } else {
            let at = Point::new(middle, centre);
            words.sized_text(Role::Heading, at, Anchor::Middle, size, row.in_a_line());
        }
        let beside = if numbers.is_named_above() {
            foot - words.by_text(0.58 * numbers.size)
        } else {
            centre
        };
        let sides = [(-1.0, Anchor::Right), (1.0, Anchor::Left)];
        for ((shown, level), (side, anchor)) in row.shown.iter().zip(row.levels).zip(sides) {
            let at = Point::new(middle + side * self.half_middle, beside);
            words.sized_text(Role::Heading, at, anchor, size, shown.clone());
            if level > Level::Fine {
                let high = words.by_text(0.85 * size);
                let wide = words.width_of(Role::Heading, shown, size) + words.by_text(0.75 * size);
                let middle = Point::new(at.x + side * wide, at.y);
                let place = Rect::from_center_size(middle, Size::new(high, high));
                let (symbol, stroke) = level_symbol(level, place);
                words.fill(Role::Level(level), &symbol);
                words.stroke_with(Role::Paper, &stroke, Pen::Wide(0.1 * high));
            }
        }
    }
}

/// A picture of two units side by side, by itself, with the cautions that go with it; on a page at a scale
/// that drawings on paper have.
///
/// # Errors
/// When one of them has no such picture, or two have none side by side.
pub fn side_by_side_sheet(
    pair: &SideBySide,
    style: impl Into<Style>,
    page: Option<Page>,
) -> Result<Sheet, NoPicture> {
    sheet_told(pair, style.into(), page, "")
}

/// One picture of a moving one of two units side by side, with what is told of its speed.
///
/// # Errors
/// When one of them has no such picture, or two have none side by side.
pub fn side_by_side_frame(
    pair: &SideBySide,
    told: &str,
    style: impl Into<Style>,
) -> Result<Sheet, NoPicture> {
    sheet_told(pair, style.into(), None, &format!(" {told}."))
}

/// The sheet of two units, with more to be told at its foot; empty for none.
fn sheet_told(
    pair: &SideBySide,
    style: Style,
    page: Option<Page>,
    more: &str,
) -> Result<Sheet, NoPicture> {
    let (style, window) = match page {
        None => (style, SIZE.to_rect()),
        Some(page) => {
            let style = Style {
                text: IN_THE_HAND,
                pen: IN_THE_HAND,
                ..style
            };
            (style, page.on_its_side())
        }
    };
    let title = format!("Side by side: {}", pair.view.name().to_lowercase());
    let mut sheet = Sheet::blank(title.clone(), window, style);
    let margin = page.map_or(0.0, |_| MARGIN_MM * PAPER_PER_MM);
    let mut words = Pencil::new(style, window.inset(-margin));
    let place = Rect {
        y1: words.window.y1 - FOOT,
        ..words.window.inset(-ASIDE)
    };
    let numbers = PairNumbers::all_of(pair.view);
    let told = format!("{title}: {} and {}", pair.names[0], pair.names[1]);
    sheet.add_figure(
        told,
        pair.panels_at(
            &numbers,
            place,
            style,
            (TranslateScale::default(), page.is_some()),
        )?,
    );
    let examples = pair.units.map(|unit| unit.document.example_count().told());
    let sides = ["left", "right"];
    let examples = examples.into_iter().zip(sides);
    let examples: String = examples
        .filter_map(|(told, side)| Some(format!(" {}, {side}.", told?)))
        .collect();
    let ground = match pair.view {
        PictureView::Lens => "Both lenses have one scale and one ground line.",
        _ => "Both have one scale and one ground line.",
    };
    let told = format!("{title}.{more} {ground}{examples}");
    let room = place.width();
    let told = words.fitted(Role::Heading, &told, FOOT_WORDS, room);
    let told = told.into_owned();
    foot(&mut words, told);
    sheet.panels.push(words.done());
    Ok(sheet)
}
