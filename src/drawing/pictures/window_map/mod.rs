//! The window map: attitude across, reel diameter up, hatched regions with solved borders that say
//! what forbids a place, and the settings marked on it.

mod axes;
mod key;
mod names;
mod settings;

pub use axes::MapAxes;
pub use key::MapKey;
pub use settings::{MapMark, MapSetting};

use key::SHOWN;
use kurbo::{BezPath, Point};

use crate::analysis::knives::{Map, Region};
use crate::drawing::paper::{Panel, Pencil};
use crate::drawing::scene::{Role, closed, polyline};

/// A map to be drawn.
#[derive(Clone, Copy, Debug)]
pub struct MapPicture<'a> {
    /// What forbids each place.
    pub map: &'a Map,
    /// Where on paper it is drawn.
    pub axes: MapAxes,
}

impl MapPicture<'_> {
    /// The axes, and all within them but words and settings: what stays while a setting moves.
    #[must_use]
    pub fn ground(&self) -> [Panel; 2] {
        [self.axes.panel(), self.regions()]
    }

    /// The regions' names, clear of the settings, and the settings themselves.
    #[must_use]
    pub fn lettering(&self, settings: &[MapSetting]) -> Panel {
        // A setting at the map's border is marked whole.
        let beyond = 8.0 * self.axes.style.text;
        let window = self.axes.frame().inflate(beyond, beyond);
        let mut pencil = Pencil::new(self.axes.style, window);
        settings::draw_all(&mut pencil, settings, &self.axes);
        let marks = settings.iter().map(|setting| setting.place(&self.axes));
        let places: Vec<_> = marks.chain(pencil.words_places()).collect();
        self.names(&mut pencil, &places);
        pencil.done()
    }

    fn regions(&self) -> Panel {
        let mut pencil = Pencil::new(self.axes.style, self.axes.frame());
        for limit in SHOWN {
            let role = Role::Forbidden(limit);
            for region in self.map.forbidden(limit) {
                let (lows, highs) = self.sides(&region);
                let outline = outline(&lows, &highs);
                pencil.body(role, &outline);
                pencil.hatching(role, &outline);
                for side in [lows, highs] {
                    self.border(&mut pencil, role, &side);
                }
            }
        }
        for region in self.map.usable() {
            let (lows, highs) = self.sides(&region);
            for side in [lows, highs] {
                self.border(&mut pencil, Role::Usable, &side);
            }
        }
        pencil.done()
    }

    /// The two sides of a region, from the least diameter up.
    fn sides(&self, region: &Region) -> (Vec<Point>, Vec<Point>) {
        let mut bands = region.bands.clone();
        // A reel of one size is a single row, which the paper shows as a strip.
        if let [(_, band)] | [(_, band), (_, _)] = bands[..]
            && bands.first().map(|first| first.0) == bands.last().map(|last| last.0)
        {
            let (least, most) = self.axes.diameters();
            bands = vec![(least, band), (most, band)];
        }
        bands
            .iter()
            .map(|(diameter, band)| {
                (
                    self.axes.place(band.low, *diameter),
                    self.axes.place(band.high, *diameter),
                )
            })
            .unzip()
    }

    /// A side of a region, unless it is the edge of the map, where the search ended.
    fn border(&self, pencil: &mut Pencil, role: Role, side: &[Point]) {
        let frame = self.axes.frame();
        let is_edge = |x: f64| x < frame.x0 + 0.5 || x > frame.x1 - 0.5;
        if side.iter().any(|point| !is_edge(point.x)) {
            pencil.stroke(role, &polyline(side.iter().copied()));
        }
    }
}

fn outline(lows: &[Point], highs: &[Point]) -> BezPath {
    closed(lows.iter().chain(highs.iter().rev()).copied())
}

#[cfg(test)]
mod tests {
    use kurbo::Rect;

    use super::*;
    use crate::drawing::paper::{Mark, Pen, Theme};

    #[test]
    fn hatching_stays_in_its_region() {
        let lows = [(10.0, 90.0), (30.0, 50.0), (20.0, 10.0)].map(Point::from);
        let highs = [(60.0, 90.0), (80.0, 50.0), (90.0, 10.0)].map(Point::from);
        let outline = outline(&lows, &highs);
        for limit in SHOWN {
            let mut pencil = Pencil::new(Theme::Light, Rect::new(0.0, 0.0, 100.0, 100.0));
            pencil.hatching(Role::Forbidden(limit), &outline);
            let panel = pencil.done();
            let [Mark::Stroke { path, pen, .. }] = &panel.marks[..] else {
                panic!("{limit:?}: {panel:?}");
            };
            assert_eq!(*pen, Pen::Hatching);
            let ends: Vec<_> = path
                .elements()
                .iter()
                .filter_map(kurbo::PathEl::end_point)
                .collect();
            assert!(ends.len() > 6, "{limit:?}");
            for point in ends {
                assert!((9.9..=90.1).contains(&point.x), "{limit:?} {point:?}");
                assert!((9.9..=90.1).contains(&point.y), "{limit:?} {point:?}");
            }
        }
    }
}
