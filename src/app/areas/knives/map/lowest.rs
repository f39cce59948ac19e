//! The lowest height of cut at which each knife leaves the least room wanted, through the reel's life.

use egui::{Grid, RichText, Ui, vec2};

use super::chosen::without_setting;
use crate::analysis::knives::{Life, LowestHeight};
use crate::analysis::ranges::{LEAST_HEIGHT_MM, MOST_HEIGHT_MM};
use crate::app::areas::knives::worked_out::{KnivesDrawn, Named};
use crate::app::widgets::lettering::strong;
use crate::geometry::KnifeSection;
use crate::unit::{Fitted, Uncertain, Unit};
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
    knife: KnifeSection,
    diameter: Length,
    lowest: LowestHeight,
}

impl Lowest {
    fn get(&self, knife: &KnifeSection, diameter: Length) -> Option<&Found> {
        let is_meant = |found: &&Found| found.knife == *knife && found.diameter == diameter;
        self.found.iter().find(is_meant)
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
            for life in Life::ALL {
                let diameter = life.diameter(unit);
                if lowest.get(section, diameter).is_some() {
                    continue;
                }
                let known = known
                    .as_ref()
                    .and_then(|known| known.get(section, diameter));
                let found = known.copied().unwrap_or_else(|| {
                    looked_for += 1;
                    Found {
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
                for (name, section) in &plotted.knives {
                    ui.label(name);
                    for life in Life::ALL {
                        // Those of another unit are not told while a hand still drags this one.
                        let found = Some(lowest)
                            .filter(|_| is_current)
                            .and_then(|lowest| lowest.get(section, life.diameter(unit)));
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
