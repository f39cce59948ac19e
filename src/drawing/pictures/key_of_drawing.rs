//! The key of the side view: what is cut and what is seen, what each line means that no word names, and
//! the scale.

use kurbo::{BezPath, Point, Rect, Shape as _, Size, Vec2};

use crate::drawing::paper::{
    Anchor, Panel, Pen, Pencil, Style, TEXT_SIZE, Theme, View, Words, cut_to,
};
use crate::drawing::scene::{Role, Scene, Shape, ShownIn, closed};

/// What stands in the key. The order is that of its lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Entry {
    /// What the section goes through, in a line.
    Section,
    /// The same in two lines.
    NarrowSection,
    RestOfSection,
    /// What lies behind it.
    View,
    /// What nobody measured.
    Hint,
    /// The unit as measured.
    Ghost,
    /// What can be dragged.
    Handle,
    Scale,
}

/// How long a sample is.
const SAMPLE: f64 = 26.0;
/// From a sample to its words, and from the key to the paper's border.
const BESIDE: f64 = 6.0;
const ASIDE: f64 = 8.0;
/// From one entry of a row to the next, and how many rows a key has at most.
const BETWEEN: f64 = 16.0;
const MOST_ROWS: f64 = 3.0;
/// From one line to the next.
const LEADING: f64 = 1.3 * TEXT_SIZE;

impl Entry {
    const fn words(self) -> &'static str {
        match self {
            Self::Section => "section: knife, bed bar, blades",
            Self::NarrowSection => "section: knife,",
            Self::RestOfSection => "bed bar, blades",
            Self::View => "the rest in view",
            Self::Hint => "not measured",
            Self::Ghost => "as measured",
            Self::Handle => "drag to set",
            Self::Scale => "scale",
        }
    }
}

/// A key on paper.
pub(super) struct Key {
    /// The paper that it takes.
    pub(super) place: Rect,
    pub(super) panel: Panel,
}

/// The key, in the first corner where it covers neither part nor handle, or in rows under the drawing. In a
/// window it has fewer lines where there is no room for all, and where there is none for what is cut the
/// scale alone; a sheet of paper has all of them.
pub(super) fn key_of_drawing(
    scene: &Scene,
    view: &View,
    style: Style,
    covered: &[Rect],
    has_handles: bool,
) -> Option<Key> {
    // Samples alone tell nobody anything, and a room is told few words.
    if style.words != Words::All {
        return None;
    }
    let has_ghost = scene.items.iter().any(|item| item.role == Role::Ghost);
    let lines = |section: &[Entry], has_view: bool, has_handles: bool| -> Vec<Entry> {
        let rest = [
            has_view.then_some(Entry::View),
            Some(Entry::Hint),
            has_ghost.then_some(Entry::Ghost),
            has_handles.then_some(Entry::Handle),
            Some(Entry::Scale),
        ];
        let rest = rest.into_iter().flatten();
        section.iter().copied().chain(rest).collect()
    };
    let (wide, narrow) = (
        [Entry::Section],
        [Entry::NarrowSection, Entry::RestOfSection],
    );
    let whole = [
        lines(&wide, true, has_handles),
        lines(&narrow, true, has_handles),
    ];
    let fewer = [
        lines(&wide, true, false),
        lines(&narrow, true, false),
        lines(&wide, false, false),
        lines(&narrow, false, false),
        vec![Entry::Scale],
    ];
    let scale = format!("scale {}", view.written_scale());
    let parts = parts_on_paper(scene, view);
    // The upper corners first: dimensions stand below.
    let key = |entries: &[Entry], corners: &[Corner], is_clear_of_parts: bool| {
        let size = size_of(entries, &scale, style, view.window);
        let places = corners
            .iter()
            .filter_map(|corner| in_corner(*corner, view.window, size, style));
        let place = places.into_iter().find(|place| {
            let is_covered = covered.iter().any(|other| other.overlaps(*place))
                || is_clear_of_parts && parts.iter().any(|part| is_on(part, *place));
            !is_covered
        })?;
        Some(Key {
            place,
            panel: drawn(entries, &scale, style, (view.window, place)),
        })
    };
    let (upper, all) = (&Corner::ALL[..2], &Corner::ALL[..]);
    let whole_key = || whole.iter().find_map(|entries| key(entries, upper, true));
    let in_rows = || key_in_rows(scene, view, style, (&whole[0], &scale, covered));
    if style.theme == Theme::Print {
        return whole_key()
            .or_else(in_rows)
            .or_else(|| whole.iter().find_map(|entries| key(entries, all, true)))
            .or_else(|| whole.iter().find_map(|entries| key(entries, all, false)));
    }
    whole_key()
        .or_else(in_rows)
        .or_else(|| fewer.iter().find_map(|entries| key(entries, upper, true)))
        .or_else(|| {
            fewer
                .iter()
                .rev()
                .find_map(|entries| key(entries, all, false))
        })
}

/// The key in a few rows under the drawing and what is dimensioned there; none where there is no room.
fn key_in_rows(
    scene: &Scene,
    view: &View,
    style: Style,
    (entries, scale, covered): (&[Entry], &str, &[Rect]),
) -> Option<Key> {
    let window = view.window;
    let pencil = Pencil::new(style, window);
    let (line, apart) = (pencil.by_text(LEADING), pencil.by_text(BETWEEN));
    let aside = pencil.by_text(ASIDE);
    let inner = window.inset(-aside);
    let mut places: Vec<(Entry, Point)> = Vec::new();
    let (mut across, mut row) = (0.0, 0.0);
    let mut widest: f64 = 0.0;
    for &entry in entries {
        let wide = width_of(entry, scale, &pencil);
        if across > 0.0 && across + wide > inner.width() {
            (across, row) = (0.0, row + 1.0);
        }
        places.push((entry, Point::new(across, row * line)));
        across += wide + apart;
        widest = widest.max(across - apart);
    }
    let size = Size::new(widest, (row + 1.0) * line);
    let origin = Point::new(inner.x0, inner.y1 - size.height);
    let place = Rect::from_origin_size(origin, size);
    let lowest = view.paper_from_world() * Point::new(scene.bounds.x0, scene.bounds.y0);
    let has_room = row < MOST_ROWS && widest <= inner.width() && lowest.y <= place.y0;
    if !has_room || covered.iter().any(|other| other.overlaps(place)) {
        return None;
    }
    let mut pencil = pencil;
    for (entry, at) in places {
        let from = origin + at.to_vec2() + Vec2::new(0.0, 0.5 * line);
        draw_entry(&mut pencil, entry, scale, from);
    }
    Some(Key {
        place,
        panel: pencil.done(),
    })
}

/// The outlines of the parts, on the paper.
fn parts_on_paper(scene: &Scene, view: &View) -> Vec<BezPath> {
    let is_part = |role: Role| {
        matches!(
            role,
            Role::TipCircle
                | Role::Roller
                | Role::Ghost
                | Role::Knife
                | Role::Bar
                | Role::Hardware
                | Role::Frame
                | Role::Overlay(_)
        )
    };
    let paper_from_world = view.paper_from_world();
    let shown = scene.items.iter();
    let shown = shown.filter(|item| item.shown_in != ShownIn::Lens);
    shown
        .filter_map(|item| match &item.shape {
            Shape::Line(path) | Shape::Fill(path) | Shape::Hatch(path) if is_part(item.role) => {
                Some(paper_from_world * path)
            }
            // The arrows of travel and of turning.
            Shape::Arrow(path) => Some(paper_from_world * path),
            _ => None,
        })
        .collect()
}

/// Whether an outline runs through a place or about it.
fn is_on(outline: &BezPath, place: Rect) -> bool {
    const NEAR: f64 = 0.5;
    if outline.winding(place.center()) != 0 {
        return true;
    }
    let mut flat = BezPath::new();
    kurbo::flatten(outline, NEAR, |element| flat.push(element));
    flat.segments().any(|piece| match piece {
        kurbo::PathSeg::Line(line) => cut_to(line, place).is_some(),
        _ => false,
    })
}

fn size_of(entries: &[Entry], scale: &str, style: Style, window: Rect) -> Size {
    let pencil = Pencil::new(style, window);
    let widths = entries.iter().map(|entry| width_of(*entry, scale, &pencil));
    let lines = u32::try_from(entries.len()).unwrap_or(u32::MAX);
    Size::new(
        widths.fold(0.0, f64::max),
        f64::from(lines) * pencil.by_text(LEADING),
    )
}

/// How wide an entry is with its sample.
fn width_of(entry: Entry, scale: &str, pencil: &Pencil) -> f64 {
    let wide = |text: &str| pencil.width_of(Role::Note, text, TEXT_SIZE);
    match entry {
        Entry::Scale => wide(scale),
        _ => pencil.by_text(SAMPLE + BESIDE) + wide(entry.words()),
    }
}

/// A corner of the paper.
#[derive(Clone, Copy, Debug)]
struct Corner {
    is_left: bool,
    is_top: bool,
}

impl Corner {
    const ALL: [Self; 4] = [
        Self::at(true, true),
        Self::at(false, true),
        Self::at(true, false),
        Self::at(false, false),
    ];

    const fn at(is_left: bool, is_top: bool) -> Self {
        Self { is_left, is_top }
    }
}

/// Where a key so large stands in a corner; none where there is no room.
fn in_corner(corner: Corner, window: Rect, size: Size, style: Style) -> Option<Rect> {
    let aside = style.text * ASIDE;
    let x = if corner.is_left {
        window.x0 + aside
    } else {
        window.x1 - aside - size.width
    };
    let y = if corner.is_top {
        window.y0 + aside
    } else {
        window.y1 - aside - size.height
    };
    let place = Rect::from_origin_size((x, y), size);
    window
        .contains_rect(place.inflate(aside, 0.0))
        .then_some(place)
}

fn drawn(entries: &[Entry], scale: &str, style: Style, (window, place): (Rect, Rect)) -> Panel {
    let mut pencil = Pencil::new(style, window);
    let line = pencil.by_text(LEADING);
    for (row, entry) in (0_u32..).zip(entries) {
        let from = place.origin() + Vec2::new(0.0, (f64::from(row) + 0.5) * line);
        draw_entry(&mut pencil, *entry, scale, from);
    }
    pencil.done()
}

/// An entry with its sample, from the middle of its left border.
fn draw_entry(pencil: &mut Pencil, entry: Entry, scale: &str, from: Point) {
    if entry == Entry::Scale {
        pencil.text(Role::Note, from, Anchor::Left, scale.to_owned());
        return;
    }
    let to = from + Vec2::new(pencil.by_text(SAMPLE), 0.0);
    sample(pencil, entry, from, to);
    let beside = to + Vec2::new(pencil.by_text(BESIDE), 0.0);
    pencil.text(Role::Note, beside, Anchor::Left, entry.words().to_owned());
}

/// What an entry is about, as it is drawn.
fn sample(pencil: &mut Pencil, entry: Entry, from: Point, to: Point) {
    let up = Vec2::new(0.0, pencil.by_text(4.5));
    let half = |part: f64| Rect::from_points(from - up, from.lerp(to, part) + up);
    match entry {
        Entry::Section | Entry::NarrowSection => {
            let hatched = half(0.6).to_path(0.1);
            pencil.body(Role::Knife, &hatched);
            pencil.closer_hatching(Role::Knife, &hatched, 0.8);
            pencil.stroke(Role::Knife, &hatched);
            let filled = Rect::from_points(from.lerp(to, 0.72) - up, to + up).to_path(0.1);
            pencil.body(Role::Blade, &filled);
            pencil.stroke(Role::Blade, &filled);
        }
        Entry::View => {
            let seen = Rect::from_points(from - up, to + up).to_path(0.1);
            pencil.body(Role::Roller, &seen);
            pencil.stroke(Role::Roller, &seen);
        }
        Entry::Hint => pencil.line(Role::Hint, from, to),
        Entry::Ghost => pencil.line(Role::Ghost, from, to),
        Entry::Handle => {
            let (middle, size) = (from.midpoint(to), pencil.by_text(5.5));
            let ways = [(0.0, -size), (size, 0.0), (0.0, size), (-size, 0.0)];
            let diamond = closed(ways.map(|way| middle + Vec2::from(way)));
            pencil.body(Role::Paper, &diamond);
            pencil.stroke_with(Role::CutLine, &diamond, Pen::Wide(1.6));
        }
        Entry::RestOfSection | Entry::Scale => {}
    }
}
