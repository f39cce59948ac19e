//! The window map: attitude across, reel diameter up, and what forbids each place.

use super::life::Trial;
use super::limit::{Limit, Margins};
use super::window::{Span, attitude_spans};
use crate::analysis::{Case, Solution};
use crate::geometry::{KnifeSection, Setting, Stance};
use crate::unit::Unit;
use crate::units::{Angle, Length};

/// Rows of a map, from scrap size to new, before any is added where regions begin or end.
const ROWS: u32 = 40;
/// How often the space between two rows is halved towards a place where regions begin or end.
const HALVINGS: u32 = 7;

/// A band of attitudes in one row that a limit forbids.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Its least attitude.
    pub low: Angle,
    /// Its most.
    pub high: Angle,
}

/// One row: a diameter of the reel, cut at every crossing of a limit.
#[derive(Clone, Debug, PartialEq)]
pub struct MapRow {
    /// The reel's diameter.
    pub diameter: Length,
    /// The spans of attitude, from the least up.
    pub spans: Vec<Span>,
}

impl MapRow {
    /// The bands in which a limit is passed.
    #[must_use]
    pub fn bands(&self, limit: Limit) -> Vec<Band> {
        joined(
            self.spans
                .iter()
                .filter(|span| span.passed.contains(&limit)),
        )
    }

    /// The bands in which a limit is the only one that is passed.
    #[must_use]
    pub fn bands_alone(&self, limit: Limit) -> Vec<Band> {
        joined(self.spans.iter().filter(|span| span.passed == [limit]))
    }

    /// The bands in which every limit holds.
    #[must_use]
    pub fn windows(&self) -> Vec<Band> {
        joined(self.spans.iter().filter(|span| span.is_within()))
    }
}

fn joined<'a>(spans: impl Iterator<Item = &'a Span>) -> Vec<Band> {
    let mut bands: Vec<Band> = Vec::new();
    for span in spans {
        match bands.last_mut() {
            Some(band) if band.high == span.low => band.high = span.high,
            _ => bands.push(Band {
                low: span.low,
                high: span.high,
            }),
        }
    }
    bands
}

/// A region of a map: one band in each of several neighbouring rows, from the least diameter up.
///
/// Between two rows its sides are straight; the ends of its bands are solved.
#[derive(Clone, Debug, PartialEq)]
pub struct Region {
    /// Diameters and bands.
    pub bands: Vec<(Length, Band)>,
}

/// A map of one knife, or of several together, at one height of cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Map {
    /// The rows, from scrap size to new. Borders between spans are solved, not sampled. Where
    /// regions begin, end, split or cross, rows lie closer. There is a single one where the reel
    /// has no life between its two sizes.
    pub rows: Vec<MapRow>,
}

impl Map {
    /// The regions that a limit forbids.
    #[must_use]
    pub fn forbidden(&self, limit: Limit) -> Vec<Region> {
        self.regions(|row| row.bands(limit))
    }

    /// The regions in which every limit holds.
    #[must_use]
    pub fn usable(&self) -> Vec<Region> {
        self.regions(MapRow::windows)
    }

    /// Strings the bands of neighbouring rows together. Where their number changes, the rows lie so
    /// close that every region simply ends half way to the next row and others begin there.
    fn regions(&self, bands_of: impl Fn(&MapRow) -> Vec<Band>) -> Vec<Region> {
        let mut done = Vec::new();
        let mut open: Vec<Region> = Vec::new();
        let mut last_diameter = None;
        for row in &self.rows {
            let bands = bands_of(row);
            let is_continued = open.len() == bands.len()
                && open.iter().zip(&bands).all(|(region, band)| {
                    let last = region.bands.last();
                    last.is_some_and(|(_, last)| last.low <= band.high && band.low <= last.high)
                });
            if is_continued {
                for (region, band) in open.iter_mut().zip(bands) {
                    region.bands.push((row.diameter, band));
                }
            } else {
                let begin = last_diameter.map_or(row.diameter, |last: Length| {
                    Length::from_mm(f64::midpoint(last.mm(), row.diameter.mm()))
                });
                for region in &mut open {
                    if let Some((_, band)) = region.bands.last().copied() {
                        region.bands.push((begin, band));
                    }
                }
                done.append(&mut open);
                open.extend(bands.into_iter().map(|band| Region {
                    bands: vec![(begin, band), (row.diameter, band)],
                }));
            }
            last_diameter = Some(row.diameter);
        }
        done.append(&mut open);
        done
    }
}

/// Maps a knife from scrap size to a new reel at a height of cut.
#[must_use]
pub fn map(unit: &Unit, trial: &Trial, knife: KnifeSection) -> Map {
    map_of_all(unit, trial, &[knife])
}

/// Maps several knives together: a place is forbidden where a limit is passed with any of them, so
/// what is left is where the windows of all overlap.
#[must_use]
pub fn map_of_all(unit: &Unit, trial: &Trial, knives: &[KnifeSection]) -> Map {
    let (smallest, new) = (unit.smallest_diameter.mm(), unit.new_diameter.mm());
    let row_at = |diameter_mm: f64| {
        let diameter = Length::from_mm(diameter_mm);
        let spans = knives
            .iter()
            .map(|knife| {
                let setting = trial.setting(unit, *knife, diameter);
                attitude_spans(unit, &setting, trial.height_of_cut)
            })
            .reduce(|all, next| together(&all, &next));
        MapRow {
            diameter,
            spans: spans.unwrap_or_default(),
        }
    };
    let mut rows = vec![row_at(smallest)];
    let steps = if new > smallest { ROWS } else { 0 };
    for step in 1..=steps {
        let part = f64::from(step) / f64::from(steps);
        let next = row_at(smallest + (new - smallest) * part);
        if let Some(last) = rows.last() {
            let mut between = Vec::new();
            refine(&row_at, last, &next, HALVINGS, &mut between);
            rows.append(&mut between);
        }
        rows.push(next);
    }
    Map { rows }
}

/// Adds rows between two that are not cut alike.
fn refine(
    row_at: &dyn Fn(f64) -> MapRow,
    below: &MapRow,
    above: &MapRow,
    halvings: u32,
    between: &mut Vec<MapRow>,
) {
    if halvings == 0 || is_cut_alike(below, above) {
        return;
    }
    let middle = row_at(f64::midpoint(below.diameter.mm(), above.diameter.mm()));
    refine(row_at, below, &middle, halvings - 1, between);
    let mut upper = Vec::new();
    refine(row_at, &middle, above, halvings - 1, &mut upper);
    between.push(middle);
    between.append(&mut upper);
}

/// Whether two rows pass the same limits in the same order.
fn is_cut_alike(one: &MapRow, other: &MapRow) -> bool {
    let order = |row: &MapRow| {
        let mut order: Vec<Vec<Limit>> = row.spans.iter().map(|span| span.passed.clone()).collect();
        order.dedup();
        order
    };
    order(one) == order(other)
}

/// Spans cut where either of two is cut, with the limits that either passes.
fn together(one: &[Span], other: &[Span]) -> Vec<Span> {
    let mut spans: Vec<Span> = Vec::with_capacity(one.len() + other.len());
    let (mut ones, mut others) = (one.iter().peekable(), other.iter().peekable());
    while let (Some(a), Some(b)) = (ones.peek(), others.peek()) {
        let last = spans.last();
        let (low, begin) = last.map_or((a.low, a.begin), |span| (span.high, span.end));
        let (high, end) = if b.high < a.high {
            (b.high, b.end)
        } else {
            (a.high, a.end)
        };
        let mut passed = [a.passed.as_slice(), b.passed.as_slice()].concat();
        passed.sort_unstable();
        passed.dedup();
        let (is_one_over, is_other_over) = (a.high <= high, b.high <= high);
        spans.push(Span {
            low,
            high,
            begin,
            end,
            passed,
        });
        if is_one_over {
            ones.next();
        }
        if is_other_over {
            others.next();
        }
    }
    spans
}

/// The limits that a knife passes at one place of the map.
#[must_use]
pub fn passed_at(
    unit: &Unit,
    trial: &Trial,
    knife: KnifeSection,
    attitude: Angle,
    diameter: Length,
) -> Vec<Limit> {
    let setting = Setting {
        stance: Stance::Wanted {
            attitude,
            height_of_cut: trial.height_of_cut,
        },
        ..trial.setting(unit, knife, diameter)
    };
    let Ok(solution) = Solution::of(unit, &setting) else {
        return vec![Limit::Reach];
    };
    let case = Case {
        unit,
        setting: &setting,
        solution: &solution,
    };
    Margins::of(&case).passed().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::Solved;
    use crate::unit::read_text;

    const DEMO_UNIT: &str = include_str!("../../../demo-units/fairway-trailed.ron");

    fn solved() -> (Unit, Trial, Vec<KnifeSection>) {
        let document = read_text(DEMO_UNIT).expect("reads");
        let solved = Solved::of(&document).expect("solves");
        let knives = document
            .knives()
            .map(|(place, knife)| document.section_of(place, knife));
        (solved.unit, Trial::of(&solved.solution), knives.collect())
    }

    /// Whether a point lies in one of the regions.
    fn is_in(regions: &[Region], attitude: f64, diameter_mm: f64) -> bool {
        regions.iter().any(|region| {
            region.bands.windows(2).any(|pair| {
                let ((from, a), (to, b)) = (pair[0], pair[1]);
                if !(from.mm()..to.mm()).contains(&diameter_mm) {
                    return false;
                }
                let part = (diameter_mm - from.mm()) / (to.mm() - from.mm());
                let low = a.low.deg() + (b.low.deg() - a.low.deg()) * part;
                let high = a.high.deg() + (b.high.deg() - a.high.deg()) * part;
                (low..high).contains(&attitude)
            })
        })
    }

    #[test]
    fn regions_hold_just_the_places_that_their_limit_forbids() {
        let (unit, trial, knives) = solved();
        for chosen in [&knives[..1], &knives[1..3]] {
            let map = map_of_all(&unit, &trial, chosen);
            let usable = map.usable();
            let (low, high) = crate::analysis::ranges::attitude_range(&unit.limits);
            let (smallest, new) = (unit.smallest_diameter.mm(), unit.new_diameter.mm());
            let mut mistaken = 0;
            for across in 0..60_u32 {
                for up in 0..20_u32 {
                    let part = |step: u32, of: f64| (f64::from(step) + 0.437) / of;
                    let attitude = low.deg() + (high.deg() - low.deg()) * part(across, 60.0);
                    let diameter_mm = smallest + (new - smallest) * part(up, 20.0);
                    let passed: Vec<Limit> = chosen
                        .iter()
                        .flat_map(|knife| {
                            let diameter = Length::from_mm(diameter_mm);
                            passed_at(&unit, &trial, *knife, Angle::from_deg(attitude), diameter)
                        })
                        .collect();
                    if is_in(&usable, attitude, diameter_mm) != passed.is_empty() {
                        mistaken += 1;
                    }
                    for limit in Limit::WITH_MARGIN {
                        let is_forbidden = is_in(&map.forbidden(limit), attitude, diameter_mm);
                        if is_forbidden != passed.contains(&limit) {
                            mistaken += 1;
                        }
                    }
                }
            }
            assert_eq!(mistaken, 0);
        }
    }

    #[test]
    fn two_knives_leave_what_each_of_them_leaves() {
        let (unit, trial, knives) = solved();
        let both = map_of_all(&unit, &trial, &knives[..2]);
        for row in &both.rows {
            for band in row.windows() {
                let middle = Angle::from_deg(f64::midpoint(band.low.deg(), band.high.deg()));
                for knife in &knives[..2] {
                    let passed = passed_at(&unit, &trial, *knife, middle, row.diameter);
                    assert_eq!(passed, []);
                }
            }
        }
        let alone = map(&unit, &trial, knives[0]);
        let again = map_of_all(&unit, &trial, &[knives[0], knives[0]]);
        assert_eq!(alone.usable(), again.usable());
    }

    #[test]
    fn a_reel_of_one_size_has_one_row() {
        let (mut unit, trial, knives) = solved();
        unit.smallest_diameter = unit.new_diameter;
        let map = map(&unit, &trial, knives[0]);
        assert_eq!(map.rows.len(), 1);
        assert!(!map.usable().is_empty());
    }
}
