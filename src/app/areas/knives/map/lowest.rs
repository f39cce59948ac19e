//! The lowest height of cut at which each knife leaves the least room wanted, through the reel's life.

use egui::{Grid, RichText, Ui, vec2};

use super::chosen::without_setting;
use crate::analysis::knives::{Life, LowestHeight};
use crate::analysis::ranges::{LEAST_HEIGHT_MM, MOST_HEIGHT_MM};
use crate::app::areas::knives::worked_out::{KnivesDrawn, Named};
use crate::app::widgets::lettering::strong;
use crate::geometry::KnifeSection;
use crate::unit::{Fitted, Follows, Uncertain, Unit};
use crate::units::{Length, System};

/// The lowest heights of cut that were found on a unit, for knives and sizes of the reel.
#[derive(Debug)]
struct Lowest {
    unit: Unit,
    /// What leaves a top face undecided.
    uncertain: Vec<Uncertain>,
    found: Vec<Found>,
}

/// The lowest height of cut that leaves a knife the room wanted.
#[derive(Clone, Copy, Debug)]
struct Found {
    /// Which of its values have the readings' ±, and the ± of which knife.
    followed: Follows,
    knife: KnifeSection,
    diameter: Length,
    lowest: LowestHeight,
}

impl Lowest {
    fn get(&self, followed: Follows, knife: &KnifeSection, diameter: Length) -> Option<&Found> {
        let is_meant = |found: &&Found| {
            found.followed == followed && found.knife == *knife && found.diameter == diameter
        };
        self.found.iter().find(is_meant)
    }
}

/// What has the readings' ± with a knife fitted, as far as it can leave a top face undecided: how the
/// unit stands, and with which reel, is given to the search.
fn followed(unit: &Unit, place: Fitted) -> Follows {
    Follows {
        reel_diameter: false,
        attitude: false,
        height_of_cut: false,
        ..unit.follows.with_knife(place)
    }
}

/// The lowest heights of cut found last; none before any were looked for.
#[derive(Debug, Default)]
pub struct LowestHeights(Option<Lowest>);

impl LowestHeights {
    /// Whether none were looked for yet.
    pub fn is_empty(&self) -> bool {
        self.0.is_none()
    }

    /// Finds the lowest heights that are not known yet; how many it had to look for.
    pub fn find(&mut self, unit: &Unit, knives: &[Named], places: &[Fitted]) -> usize {
        let plain = without_setting(unit);
        let known = self.0.take();
        let known = known.filter(|lowest| lowest.unit == plain);
        let known = known.filter(|lowest| lowest.uncertain == unit.uncertain);
        let mut lowest = Lowest {
            unit: plain,
            uncertain: unit.uncertain.clone(),
            found: Vec::new(),
        };
        let mut looked_for = 0;
        for ((_, section), place) in knives.iter().zip(places) {
            let followed = followed(unit, *place);
            for life in Life::ALL {
                let diameter = life.diameter(unit);
                if lowest.get(followed, section, diameter).is_some() {
                    continue;
                }
                let known = known
                    .as_ref()
                    .and_then(|known| known.get(followed, section, diameter));
                let found = known.copied().unwrap_or_else(|| {
                    looked_for += 1;
                    Found {
                        followed,
                        knife: *section,
                        diameter,
                        lowest: LowestHeight::of(unit, &unit.setting, (*place, *section), diameter),
                    }
                });
                lowest.found.push(found);
            }
        }
        self.0 = Some(lowest);
        looked_for
    }

    /// The lowest height of cut at which each knife leaves the room wanted.
    pub fn show(&self, ui: &mut Ui, unit: &Unit, plotted: &KnivesDrawn, system: System) {
        let Some(lowest) = &self.0 else {
            return;
        };
        let is_current = lowest.unit == without_setting(unit);
        let most = system.length(Length::from_mm(MOST_HEIGHT_MM));
        let room = system.angle(unit.limits.room);
        let head = format!("Lowest height of cut with at least {room} of room");
        ui.label(RichText::new(head).family(strong()));
        if let Some(note) = plotted.note() {
            ui.label(note);
        }
        Grid::new("lowest heights")
            .striped(true)
            .spacing(vec2(22.0, 5.0))
            .show(ui, |ui| {
                ui.label(RichText::new("Knife").weak());
                for life in Life::ALL {
                    let diameter = system.length(life.diameter(unit));
                    let words = format!("reel {}, {diameter}", life.name());
                    ui.label(RichText::new(words).weak());
                }
                ui.end_row();
                for ((name, section), place) in plotted.knives.iter().zip(&plotted.places) {
                    ui.label(name);
                    let followed = followed(unit, *place);
                    for life in Life::ALL {
                        // Those of another unit are not told while a hand still drags this one.
                        let found = Some(lowest)
                            .filter(|_| is_current)
                            .and_then(|lowest| lowest.get(followed, section, life.diameter(unit)));
                        let height = found.map(|found| found.lowest.height);
                        let shown = match height {
                            None => "…".to_owned(),
                            Some(None) => format!("none up to {most}"),
                            Some(Some(height)) if height.mm() <= LEAST_HEIGHT_MM => {
                                format!("{} or lower", system.length(height))
                            }
                            Some(Some(height)) => system.length(height),
                        };
                        let is_open = found.is_some_and(|f| f.lowest.is_top_face_undecided);
                        ui.label(if is_open {
                            format!("{shown}, undecided: top face")
                        } else {
                            shown
                        });
                    }
                    ui.end_row();
                }
            });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::Solved;
    use crate::app::areas::knives::worked_out::named_knives;
    use crate::unit::{Document, Knife, read_text};
    use crate::units::Quantity;

    fn document() -> Document {
        let text = include_str!("../../../../../demo-units/fairway-trailed.ron");
        read_text(text).expect("reads")
    }

    /// Finds them for the bench knife and one knife to compare.
    fn find(lowest: &mut LowestHeights, document: &Document) -> (usize, Vec<bool>) {
        let solved = Solved::of(document).expect("solves");
        let knives = named_knives(&solved);
        let places: Vec<_> = document.knives().map(|(place, _)| place).collect();
        let looked_for = lowest.find(&solved.unit, &knives, &places);
        let open = knives.iter().zip(&places).map(|((_, section), place)| {
            let found = lowest.0.as_ref().expect("looked for");
            let followed = followed(&solved.unit, *place);
            let new = found.get(followed, section, solved.unit.new_diameter);
            new.expect("found").lowest.is_top_face_undecided
        });
        (looked_for, open.collect())
    }

    #[test]
    fn two_knives_alike_are_each_decided_by_their_own_readings() {
        let mut document = document();
        let angle = |text| Some(Quantity::parse(text).expect("an angle"));
        document.knife.top_angle = angle("6 deg ± 15 deg");
        let twin = Knife {
            name: "twin".to_owned(),
            top_angle: angle("6 deg"),
            ..document.knife.clone()
        };
        document.options = vec![twin];
        let mut lowest = LowestHeights::default();
        let (looked_for, open) = find(&mut lowest, &document);
        assert_eq!((looked_for, open), (6, vec![true, false]));
        assert_eq!(find(&mut lowest, &document).0, 0);
    }

    #[test]
    fn they_are_looked_for_again_when_a_value_no_longer_follows_its_reading() {
        let mut document = document();
        let mut lowest = LowestHeights::default();
        document.options.clear();
        assert_eq!(find(&mut lowest, &document).0, 3);
        document.setting.gap = Some(document.bench.gap.clone());
        assert_eq!(find(&mut lowest, &document).0, 3, "the gap is exact now");
        assert_eq!(find(&mut lowest, &document).0, 0);
    }
}
