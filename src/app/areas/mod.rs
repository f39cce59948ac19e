//! The areas of the window: what a person does with a unit, one folder for each.
//!
//! An area owns its own state and is lent the desk; it knows no other area. [`AREAS`] is the one list
//! of them: the bar, the keys and the command line are driven by it.

mod area;
mod blade_path;
mod knives;
mod lesson;
mod no_work;
mod not_current;
mod plate;
mod shop;
mod unit;
mod why;

pub use area::{About, Area, PagePicture};

use crate::drawing::PictureView;

/// Begins an area.
type Begin = fn() -> Box<dyn Area>;

/// Every area, in the order of the bar. The first is in front at the start.
pub const AREAS: [(&About, Begin); 7] = [
    (&unit::ABOUT, || Box::new(unit::UnitArea::default())),
    (&knives::ABOUT, || Box::new(knives::KnivesArea::default())),
    (&why::ABOUT, || Box::new(why::WhyArea::default())),
    (&blade_path::ABOUT, || {
        Box::new(blade_path::BladePathArea::default())
    }),
    (&plate::ABOUT, || Box::new(plate::PlateArea::default())),
    (&shop::ABOUT, || Box::new(shop::ShopArea::default())),
    (&lesson::ABOUT, || Box::new(lesson::LessonArea::default())),
];

/// The areas of a window, one of them in front.
pub struct Areas {
    all: Vec<Box<dyn Area>>,
    front: usize,
}

impl Areas {
    /// The areas there are, the first of them in front.
    pub fn all() -> Self {
        Self::of(AREAS.iter().map(|(_, begin)| begin()).collect())
    }

    /// These areas, of which there is at least one; the first is in front.
    pub fn of(all: Vec<Box<dyn Area>>) -> Self {
        Self { all, front: 0 }
    }

    /// What each is called and for, in the order of the bar.
    pub fn abouts(&self) -> impl Iterator<Item = &'static About> {
        self.all.iter().map(|area| area.about())
    }

    /// The area in front.
    pub fn front(&mut self) -> &mut dyn Area {
        &mut *self.all[self.front]
    }

    /// The name of the area in front.
    pub fn front_id(&self) -> &'static str {
        self.front_about().id
    }

    /// What the area in front is called and for, and the picture that is saved and copied from it.
    pub fn front_about(&self) -> &'static About {
        self.all[self.front].about()
    }

    /// The picture that a room sees first: that of the area in front, or the whole unit.
    pub fn shown_first(&self) -> PictureView {
        self.front_about().picture.unwrap_or(PictureView::Whole)
    }

    /// Brings an area to the front; whether there is one of this name.
    pub fn bring_to_front(&mut self, id: &str) -> bool {
        let found = self.all.iter().position(|area| area.about().id == id);
        self.front = found.unwrap_or(self.front);
        found.is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_area_is_told_from_every_other() {
        for (index, (about, begin)) in AREAS.iter().enumerate() {
            assert_eq!(begin().about(), *about, "its list entry");
            for (other, _) in &AREAS[..index] {
                assert_ne!(other.id, about.id);
                assert_ne!(other.title, about.title);
                assert_ne!(other.key, about.key);
            }
        }
    }
}
