//! Two units side by side, or two settings of one: at one scale, on one ground line, at one time, and what
//! they differ in between them.

use kurbo::{Point, Rect, TranslateScale, Vec2};

use super::page::Page;
use super::pair_numbers::PairNumbers;
use super::seen::{BETWEEN, Seen, clips_in_one, halves};
use super::sheet::Sheet;
use super::view_picture::{ASIDE, FOOT, FOOT_WORDS, NoPicture, PictureView, SIZE, foot};
use crate::analysis::Solved;
use crate::drawing::paper::{Anchor, Numbers, PAPER_PER_MM, Panel, Pencil, Style, Words, letters};
use crate::drawing::pictures::{ENLARGEMENTS, Hold, Lens, LensAim, LensChoice, MotionOf, Subject};
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

/// Where the pictures stand: under the names, over the numbers.
fn pictures_in(numbers: &PairNumbers, place: Rect, style: Style) -> Rect {
    Rect {
        y0: place.y0 + style.text * OVER,
        y1: place.y1 - numbers.high_in(place, style),
        ..place
    }
}

/// Size of the names over the halves, and the paper they take.
const NAME: f64 = 16.0;
const OVER: f64 = 26.0;
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
        numbers.write(&mut words, self.units, self.system);
        let pictures = pictures_in(numbers, place, style);
        let room = halves(pictures)[0].width() - 2.0 * BETWEEN;
        let names = self.names.each_ref().map(|name| letters::readable(name));
        let fits = |name: &str| words.width_of(Role::Heading, name, NAME) <= room;
        let apart = told_apart(names.each_ref().map(|name| &**name));
        let apart = apart.filter(|_| !names.iter().all(|name| fits(name)));
        for (at, half) in halves(pictures).into_iter().enumerate() {
            let middle = Point::new(half.center().x, place.y0 + words.by_text(0.5 * OVER));
            let name = apart.map_or(&*names[at], |apart| apart[at]);
            let name = words.fitted(Role::Heading, name, NAME, room);
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
            motion: MotionOf::Mowing,
            hold: Hold::Ground,
            is_pair: true,
            alike: self.units.to_vec(),
            subject: Subject::Sweep,
            lens: (self.view == PictureView::Lens).then(|| self.lens_aim(left)),
            at_lip: None,
            is_scale_of_row,
            system: Some(self.system),
            style,
            clips: self.clips,
        };
        let mut panels = seen.in_halves_through(self.units, pictures, glass)?;
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
}

/// What two names end with that begin alike, up to a comma: `on the fairway` and `on the green`. None where they
/// do not, or one of them ends there.
fn told_apart(names: [&str; 2]) -> Option<[&str; 2]> {
    let [one, other] = names;
    let alike = one.bytes().zip(other.bytes());
    let alike = alike.take_while(|(one, other)| one == other).count();
    let begun = one.as_bytes()[..alike]
        .rsplitn(2, |byte| *byte == b',')
        .nth(1)?;
    let apart = names.map(|name| name.get(begun.len() + 1..).map_or("", str::trim_start));
    apart.iter().all(|name| !name.is_empty()).then_some(apart)
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_names_are_told_by_what_they_end_with() {
        let pair = [
            "Example, matched pair, on the fairway",
            "Example, matched pair, on the green",
        ];
        assert_eq!(told_apart(pair), Some(["on the fairway", "on the green"]));
        assert_eq!(
            told_apart(["Example, 3", "Example, 3, as measured"]),
            Some(["3", "3, as measured"])
        );
        assert_eq!(told_apart(["Example, é", "Example, è"]), Some(["é", "è"]));
        for alone in [
            ["As set", "As measured"],
            ["One, two,", "One, two, three"],
            ["", ""],
        ] {
            assert_eq!(told_apart(alone), None, "{alone:?}");
        }
    }
}
