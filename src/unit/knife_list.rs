//! The list of knives to compare: adding, removing and renaming, so that names stay their own and
//! the setting keeps the knife it fits.

use std::collections::{HashMap, HashSet};

use super::{Document, Field, Fitted, FlawKind, Knife, KnifePart, Reading, most};

impl Document {
    /// A knife of the list.
    #[must_use]
    pub fn knife_at(&self, place: Fitted) -> Option<&Knife> {
        match place {
            Fitted::Bench => Some(&self.knife),
            Fitted::Option(index) => self.options.get(index),
        }
    }

    pub(super) fn knife_at_mut(&mut self, place: Fitted) -> Option<&mut Knife> {
        match place {
            Fitted::Bench => Some(&mut self.knife),
            Fitted::Option(index) => self.options.get_mut(index),
        }
    }

    /// A name that no knife has: the one wanted, or that with the first number that is free.
    #[must_use]
    pub fn free_knife_name(&self, wanted: &str) -> String {
        FreeNames::of(self).take(wanted.to_owned())
    }

    /// Adds a knife to compare; one whose name is taken gets a free one. The name it then has.
    pub fn add_knife(&mut self, knife: Knife) -> &str {
        self.add_knives([knife]);
        self.options.last().map_or("", |knife| &knife.name)
    }

    /// Adds knives to compare; one whose name is taken gets a free one.
    pub fn add_knives(&mut self, knives: impl IntoIterator<Item = Knife>) {
        let mut names = FreeNames::of(self);
        for mut knife in knives {
            knife.name = names.take(knife.name);
            self.options.push(knife);
        }
    }

    /// Whether so many more knives can be compared.
    ///
    /// # Errors
    /// When there would be too many.
    pub fn has_room_for_knives(&self, count: usize) -> Result<(), FlawKind> {
        let knives = self.options.len() + count;
        if knives > most::KNIVES {
            return Err(FlawKind::TooManyKnives(knives));
        }
        Ok(())
    }

    /// Takes a knife to compare off the list; if it was fitted, the bench knife is again.
    pub fn remove_knife(&mut self, index: usize) {
        if index >= self.options.len() {
            return;
        }
        let was_fitted = self.fitted() == Some(Fitted::Option(index));
        self.options.remove(index);
        if was_fitted {
            self.setting.knife = None;
        }
    }

    /// Puts an edited knife in place of the one it was; a setting that fits it follows its name.
    pub fn put_knife(&mut self, place: Fitted, knife: Knife) {
        let is_fitted = self.setting.knife.is_some() && self.fitted() == Some(place);
        let name = knife.name.clone();
        if let Some(old) = self.knife_at_mut(place) {
            let old = std::mem::replace(old, knife);
            self.keep_what_changed(place, &old);
            if is_fitted {
                self.setting.knife = Some(name);
            }
        }
    }

    /// What was changed in a knife is no example any more.
    fn keep_what_changed(&mut self, place: Fitted, old: &Knife) {
        for part in KnifePart::ALL {
            let field = Field::from(Reading::Knife(place, part));
            if field.text(self) != old.part(part).text() {
                self.examples.keep(field);
            }
        }
    }

    /// Gives a knife another name; a setting that fits it follows.
    ///
    /// # Errors
    /// When the name is blank, or another knife's.
    pub fn rename_knife(&mut self, place: Fitted, name: &str) -> Result<(), FlawKind> {
        if name.trim().is_empty() {
            return Err(FlawKind::NoName);
        }
        let is_another = |(other, knife): (Fitted, &Knife)| other != place && knife.name == name;
        if self.knives().any(is_another) {
            return Err(FlawKind::NameTwice(name.to_owned()));
        }
        if let Some(knife) = self.knife_at(place).cloned() {
            let name = name.to_owned();
            self.put_knife(place, Knife { name, ..knife });
        }
        Ok(())
    }

    /// Fits a knife of the list. What the setting takes off the knife that was fitted stays on that one:
    /// another has its own.
    pub fn fit_knife(&mut self, place: Fitted) {
        if self.fitted() != Some(place) {
            self.setting.top_ground = None;
            self.setting.face_ground = None;
        }
        self.setting.knife = match place {
            Fitted::Bench => None,
            Fitted::Option(index) => self.options.get(index).map(|knife| knife.name.clone()),
        };
    }
}

/// The names that knives have, to find those that are free.
struct FreeNames {
    taken: HashSet<String>,
    /// Where the search for a free number goes on, by what stands before it and where it began: of a
    /// thousand knives of one name none is counted past twice.
    next: HashMap<(String, usize), usize>,
}

impl FreeNames {
    fn of(document: &Document) -> Self {
        Self {
            taken: document.knives().map(|(_, k)| k.name.clone()).collect(),
            next: HashMap::new(),
        }
    }

    /// The name wanted, or that with the first number that is free; it is taken then.
    fn take(&mut self, wanted: String) -> String {
        if self.taken.insert(wanted.clone()) {
            return wanted;
        }
        // A number it already ends with is counted on.
        let counted = wanted
            .rsplit_once(' ')
            .and_then(|(stem, number)| Some((stem, usize::from(number.parse::<u16>().ok()?))));
        let (stem, first) = match counted {
            Some((stem, number)) => (stem.to_owned(), number + 1),
            None => (wanted, 2),
        };
        let mut number = self
            .next
            .get(&(stem.clone(), first))
            .copied()
            .unwrap_or(first);
        loop {
            let name = format!("{stem} {number}");
            number += 1;
            if self.taken.insert(name.clone()) {
                self.next.insert((stem, first), number);
                return name;
            }
        }
    }
}

#[cfg(test)]
mod tests {

    use super::*;
    use crate::unit::read_text;

    fn demo() -> Document {
        let text = include_str!("../../demo-units/fairway-trailed.ron");
        read_text(text).unwrap()
    }

    #[test]
    fn a_knife_whose_name_is_taken_gets_the_first_free_one() {
        let mut document = demo();
        let copy = document.knife.clone();
        assert_eq!(document.add_knife(copy.clone()), "plain 2");
        assert_eq!(document.add_knife(copy.clone()), "plain 3");
        document.add_knives([copy.clone(), copy.clone(), copy]);
        let names: Vec<_> = document.options.iter().map(|k| k.name.as_str()).collect();
        assert!(
            names.ends_with(&["plain 4", "plain 5", "plain 6"]),
            "{names:?}"
        );
        assert_eq!(document.free_knife_name("plain 5"), "plain 7");
        assert_eq!(document.free_knife_name("long"), "long");
    }

    #[test]
    fn no_more_knives_are_added_than_can_be_compared() {
        let document = demo();
        let room = most::KNIVES - document.options.len();
        assert_eq!(document.has_room_for_knives(room), Ok(()));
        let problem = document
            .has_room_for_knives(room + 1)
            .unwrap_err()
            .to_string();
        assert!(problem.contains("the most is 5000"), "{problem}");
    }

    #[test]
    fn removing_the_knife_that_is_fitted_fits_the_bench_knife() {
        let mut document = demo();
        document.fit_knife(Fitted::Option(1));
        assert_eq!(document.fitted_name(), "short");
        document.remove_knife(0);
        assert_eq!(document.fitted(), Some(Fitted::Option(0)));
        document.remove_knife(0);
        assert_eq!(document.fitted(), Some(Fitted::Bench));
        assert_eq!(document.options.len(), 1);
        document.remove_knife(7);
    }
}
