//! The names of the window map's regions, each where there is most room for it.

use kurbo::{Point, Rect, Size, Vec2};

use super::{MapKey, MapPicture};
use crate::analysis::knives::{Band, MapRow};
use crate::drawing::paper::{Anchor, Pencil, in_lines, words};
use crate::drawing::scene::Role;
use crate::units::Angle;

/// Size of the names.
const SIZE: f64 = 13.0;

/// The bands of a row of the map on paper: its height, and from where to where they go.
struct Row {
    y: f64,
    bands: Vec<(f64, f64)>,
}

/// A name set in lines, with the paper it takes.
#[derive(Clone)]
struct Name {
    lines: Vec<String>,
    size: Size,
}

impl MapKey {
    fn role(self) -> Role {
        match self {
            Self::Forbidden(limit) => Role::Forbidden(limit),
            Self::Usable => Role::Usable,
            Self::Marked(_) => Role::Setting,
        }
    }

    /// The bands of a row that are its own, without any that another limit forbids as well.
    fn alone(self, row: &MapRow) -> Vec<Band> {
        match self {
            Self::Forbidden(limit) => row.bands_alone(limit),
            _ => row.windows(),
        }
    }

    fn bands(self, row: &MapRow) -> Vec<Band> {
        match self {
            Self::Forbidden(limit) => row.bands(limit),
            _ => Vec::new(),
        }
    }
}

impl MapPicture<'_> {
    /// Writes the names: each where it is forbidden by no other limit, if there is such a place with
    /// room for it in one line or in several; clear of places that are avoided.
    pub(super) fn names(&self, pencil: &mut Pencil, avoided: &[Rect]) {
        let mut taken = avoided.to_vec();
        for key in MapKey::regions() {
            let role = key.role();
            let mut names = [1, 2, 3].map(|lines| Name::set(pencil, role, key.words(), lines));
            let alone = self.rows(|row| key.alone(row));
            let any = self.rows(|row| key.bands(row));
            let find = |names: &[Name], rows: &[Row], needs_room: bool| {
                names.iter().find_map(|name| {
                    let place = self.room(pencil, rows, name.size, needs_room, &taken)?;
                    Some((place, name.clone()))
                })
            };
            let mut found = find(&names, &alone, true).or_else(|| find(&names, &any, true));
            // A narrow window is plain enough; a name would hide it. Where nothing has room, the narrowest
            // stands least over what lies beside it.
            if key != MapKey::Usable {
                names.reverse();
                found = found
                    .or_else(|| find(&names, &alone, false))
                    .or_else(|| find(&names, &any, false));
            }
            if let Some((place, name)) = found {
                let margin = pencil.by_text(3.0);
                taken.push(place.inflate(margin, margin));
                name.write(pencil, role, place);
            }
        }
    }

    fn rows(&self, bands: impl Fn(&MapRow) -> Vec<Band>) -> Vec<Row> {
        self.map
            .rows
            .iter()
            .map(|row| {
                let across = |attitude| self.axes.place(attitude, row.diameter).x;
                let bands = bands(row).into_iter();
                Row {
                    y: self.axes.place(Angle::ZERO, row.diameter).y,
                    bands: bands
                        .map(|band| (across(band.low), across(band.high)))
                        .collect(),
                }
            })
            .collect()
    }

    /// Where a name has most room in the bands of some row.
    fn room(
        &self,
        pencil: &Pencil,
        rows: &[Row],
        size: Size,
        needs_room: bool,
        taken: &[Rect],
    ) -> Option<Rect> {
        let frame = self.axes.frame();
        let margin = pencil.by_text(4.0);
        let half = size.to_vec2() / 2.0;
        let centres = frame.inflate(-margin - half.x, -margin - half.y);
        // Insets past the middle would turn a rectangle inside out.
        if frame.width() < size.width + 2.0 * margin || frame.height() < size.height + 2.0 * margin
        {
            return None;
        }
        let has_room = |place: Rect| {
            rows.iter()
                .filter(|row| (place.y0 - margin..=place.y1 + margin).contains(&row.y))
                .all(|row| {
                    row.bands.iter().any(|(from, to)| {
                        *from < place.x0 - margin / 2.0 && place.x1 + margin / 2.0 < *to
                    })
                })
        };
        let mut best: Option<(f64, Rect)> = None;
        for row in rows {
            for (from, to) in &row.bands {
                let middle = Point::new(
                    from.midpoint(*to).clamp(centres.x0, centres.x1),
                    row.y.clamp(centres.y0, centres.y1),
                );
                let place = Rect::from_center_size(middle, size);
                // Past what a name needs, the middle of the paper is better than more room.
                let off_middle = (row.y - frame.center().y).abs() / frame.height();
                let score = (to - from).min(2.0 * size.width) - pencil.by_text(40.0) * off_middle;
                let is_free = to - from > pencil.by_text(6.0)
                    && !taken.iter().any(|other| other.overlaps(place))
                    && best.is_none_or(|(had, _)| score > had)
                    && (!needs_room || has_room(place));
                if is_free {
                    best = Some((score, place));
                }
            }
        }
        best.map(|(_, place)| place)
    }
}

impl Name {
    fn set(pencil: &Pencil, role: Role, text: &str, lines: usize) -> Self {
        let lines = in_lines(text, lines);
        let width = |line: &String| pencil.width_of(role, line, SIZE);
        let widest = lines.iter().map(width).fold(0.0, f64::max);
        let height: f64 = lines.iter().map(|_| line_height(pencil)).sum();
        let size = Size::new(widest + pencil.by_text(10.0), height + pencil.by_text(4.0));
        Self { lines, size }
    }

    fn write(&self, pencil: &mut Pencil, role: Role, place: Rect) {
        let height = line_height(pencil);
        let mut at = Point::new(
            place.center().x,
            place.y0 + pencil.by_text(2.0) + height / 2.0,
        );
        for line in &self.lines {
            pencil.sized_text(role, at, Anchor::Middle, SIZE, line.clone());
            at += Vec2::new(0.0, height);
        }
    }
}

fn line_height(pencil: &Pencil) -> f64 {
    pencil.by_text(words::LINE * SIZE)
}
