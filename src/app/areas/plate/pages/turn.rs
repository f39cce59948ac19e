//! Which places of a roller's turn are shown to be read, and how many of them were.

use crate::plate::{Entries, Place, Roller, Station};

/// How many places are offered to be read round a turn.
pub const COUNTS: [u32; 4] = [4, 6, 8, 12];

/// So many places are offered before any was read.
const USUAL: u32 = 8;

/// Which places of a roller's turn are shown to be read.
#[derive(Clone, Debug, Default)]
pub struct Turn {
    /// How many evenly round it, where somebody said so.
    pub chosen: Option<u32>,
    /// One's own place as it is typed.
    pub own: String,
    /// Places of one's own, beside the even ones.
    pub added: Vec<Place>,
    /// Why what is typed is no other place.
    pub problem: Option<String>,
}

impl Turn {
    /// Whether what was read lies on so many places evenly round the turn, but for those of one's own.
    pub fn can_be(&self, count: u32, read: &[Place]) -> bool {
        let even: Vec<_> = Place::round(count).collect();
        let mut others = read.iter().filter(|place| !self.added.contains(place));
        others.all(|place| even.contains(place))
    }

    /// How many places evenly round the turn are shown; none where what was read lies on others.
    pub fn count(&self, read: &[Place]) -> Option<u32> {
        let can_be = |count: &u32| self.can_be(*count, read);
        let is_whole = |count: &u32| Place::round(*count).eq(read.iter().copied());
        let chosen = self.chosen.filter(can_be);
        let whole = || COUNTS.into_iter().find(is_whole);
        let usual = || Some(USUAL).filter(can_be);
        let any = || COUNTS.into_iter().find(can_be);
        chosen.or_else(whole).or_else(usual).or_else(any)
    }

    /// The places that are shown: what was begun by other places is gone on with by those.
    pub fn places(&self, read: &[Place]) -> Vec<Place> {
        let even = self.count(read).into_iter().flat_map(Place::round);
        let read = read.iter().copied();
        let mut places: Vec<_> = even.chain(read).chain(self.added.iter().copied()).collect();
        places.sort();
        places.dedup();
        places
    }

    /// How much of the turn was read where it was not read at every place, station by station.
    pub fn unread(&self, entries: &Entries, roller: Roller) -> Option<String> {
        let places = self.places(&entries.places_of(roller)).len();
        let read =
            Station::ALL.map(|station| (station, entries.places_read(roller, station).len()));
        let short = read.iter().filter(|(_, count)| *count < places);
        let short: Vec<_> = short
            .map(|(station, count)| format!("{} {count}", station.word()))
            .collect();
        (!short.is_empty()).then(|| format!("{} of {places} places read", short.join(", ")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(places: &[f64]) -> Vec<Place> {
        places.iter().map(|deg| Place::at(*deg)).collect()
    }

    #[test]
    fn the_count_that_is_marked_is_the_one_whose_places_are_shown() {
        let turn = Turn::default();
        for (read, count, shown) in [
            (at(&[]), Some(8), 8),
            (at(&[0.0, 45.0]), Some(8), 8),
            (at(&[0.0, 90.0, 180.0, 270.0]), Some(4), 4),
            (at(&[0.0, 60.0]), Some(6), 6),
            (at(&[0.0, 30.0]), Some(12), 12),
            (at(&[0.0, 72.0, 144.0]), None, 3),
        ] {
            assert_eq!(turn.count(&read), count, "{read:?}");
            assert_eq!(turn.places(&read).len(), shown, "{read:?}");
        }
        // What was chosen holds while what was read lies on it.
        let chosen = Turn {
            chosen: Some(12),
            ..Turn::default()
        };
        assert_eq!(chosen.count(&at(&[0.0, 90.0])), Some(12));
        assert_eq!(chosen.count(&at(&[0.0, 45.0])), Some(8));
        let own = Turn {
            added: at(&[10.0]),
            ..Turn::default()
        };
        assert_eq!(own.places(&at(&[0.0, 10.0])).len(), 9);
    }
}
