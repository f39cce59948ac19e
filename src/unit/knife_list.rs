//! The list of knives to compare: adding, removing and renaming, so that names stay their own and
//! the setting keeps the knife it fits.

use super::{Document, Fitted, FlawKind, Knife};

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
        let is_free = |name: &str| self.knives().all(|(_, knife)| knife.name != name);
        if is_free(wanted) {
            return wanted.to_owned();
        }
        // A number it already ends with is counted on.
        let counted = wanted
            .rsplit_once(' ')
            .and_then(|(stem, number)| Some((stem, usize::from(number.parse::<u16>().ok()?))));
        let (stem, first) = match counted {
            Some((stem, number)) => (stem, number + 1),
            None => (wanted, 2),
        };
        // One more than there are knives is sure to hold a name that is free.
        (first..=first + self.options.len() + 1)
            .map(|number| format!("{stem} {number}"))
            .find(|name| is_free(name))
            .unwrap_or_default()
    }

    /// Adds a knife to compare; one whose name is taken gets a free one. The name it then has.
    pub fn add_knife(&mut self, mut knife: Knife) -> &str {
        knife.name = self.free_knife_name(&knife.name);
        self.options.push(knife);
        self.options.last().map_or("", |knife| &knife.name)
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
            *old = knife;
            if is_fitted {
                self.setting.knife = Some(name);
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

    /// Fits a knife of the list.
    pub fn fit_knife(&mut self, place: Fitted) {
        self.setting.knife = match place {
            Fitted::Bench => None,
            Fitted::Option(index) => self.options.get(index).map(|knife| knife.name.clone()),
        };
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
        assert_eq!(document.add_knife(copy), "plain 3");
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
