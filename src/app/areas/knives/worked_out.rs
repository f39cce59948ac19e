//! The table of knives and its ranking, worked out from a solution: the rows in view at once, a long
//! list's others some at a time.

use std::collections::{BTreeMap, HashMap};
use std::rc::Rc;

use crate::analysis::Solved;
use crate::analysis::knives::{KnifeRow, Ranks, csv, rank_sentence, rests_on};
use crate::analysis::ranges::attitude_range;
use crate::app::desk::{Ticked, line_of};
use crate::geometry::KnifeSection;
use crate::unit::{ExampleCount, Fitted, Knife, RowProblem};
use crate::units::{Angle, System};

/// Rows worked out in a frame besides those in view: some 5 ms of it.
pub const AT_ONCE: usize = 16;

/// Knives drawn in the plots at the most: twenty lines can be told apart.
const PLOTTED: usize = 20;

/// The table and its ranking.
#[derive(Debug)]
pub struct WorkedOut {
    solved: Rc<Solved>,
    system: System,
    /// One a knife of the document that was solved; none where it was not worked out yet.
    rows: Vec<Option<KnifeRow>>,
    /// The first that may be wanting.
    next: usize,
    /// Once every row is there.
    ranks: Option<Ranks>,
    /// What was said about the knives in view, by their rank.
    sentences: BTreeMap<usize, String>,
    /// The knives by their names; of two with one name the first.
    by_name: HashMap<String, usize>,
    pub rests_on: [String; 3],
    /// How many of the unit's readings are still examples.
    pub examples: ExampleCount,
}

impl WorkedOut {
    /// The table of every knife of the document that was last solved, with no row yet.
    pub fn of(solved: &Rc<Solved>, system: System) -> Self {
        let document = &solved.document;
        let mut by_name = HashMap::new();
        for (index, (_, knife)) in document.knives().enumerate() {
            by_name.entry(knife.name.clone()).or_insert(index);
        }
        Self {
            solved: Rc::clone(solved),
            system,
            rows: vec![None; document.options.len() + 1],
            next: 0,
            ranks: None,
            sentences: BTreeMap::new(),
            by_name,
            rests_on: rests_on(document, system),
            examples: document.example_count(),
        }
    }

    /// The attitudes that are looked at.
    pub fn attitudes(&self) -> (Angle, Angle) {
        attitude_range(&self.solved.unit.limits)
    }

    /// How many knives the table has.
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// How many of them are worked out.
    pub fn count(&self) -> usize {
        self.rows.iter().flatten().count()
    }

    /// Works out the next rows that are wanting, so many at the most, and the ranking after the last;
    /// whether all is there.
    pub fn go_on(&mut self, at_most: usize) -> bool {
        let mut left = at_most;
        while self.next < self.rows.len() {
            if self.rows[self.next].is_none() {
                if left == 0 {
                    return false;
                }
                left -= 1;
                self.row(self.next);
            }
            self.next += 1;
        }
        if self.ranks.is_none() {
            self.ranks = Some(Ranks::of(self.rows.iter().flatten()));
        }
        true
    }

    /// The ranking; none while rows are wanting.
    pub fn ranks(&self) -> Option<&Ranks> {
        self.ranks.as_ref()
    }

    /// How many knives fit, in a sentence.
    pub fn first_sentence(&self) -> String {
        match &self.ranks {
            Some(ranks) => ranks.sentence(&self.solved, self.system),
            None => format!(
                "Comparing {} knives: {} are done.",
                self.rows.len(),
                self.count()
            ),
        }
    }

    /// What is said about the knife of a rank; empty while there is no ranking.
    pub fn sentence(&mut self, rank: usize) -> &str {
        let rows = &self.rows;
        let row = |index: usize| rows.get(index)?.as_ref();
        let told = || {
            let ranks = self.ranks.as_ref()?;
            let ranked = row(*ranks.order.get(rank)?)?;
            let tie = ranks.ties.get(rank)?.as_ref();
            let tie = tie.and_then(|tie| Some((tie, row(tie.with)?.name.as_str())));
            Some(rank_sentence(ranked, tie, &self.solved, self.system))
        };
        let told = || told().unwrap_or_default();
        self.sentences.entry(rank).or_insert_with(told)
    }

    /// The place of a knife by its name, for a list that is another by now.
    pub fn place_of(&self, name: &str) -> Option<usize> {
        self.by_name.get(name).copied()
    }

    /// A row, worked out now if it was not yet.
    pub fn row(&mut self, index: usize) -> Option<&KnifeRow> {
        let row = self.rows.get_mut(index)?;
        if row.is_none() {
            let place = match index.checked_sub(1) {
                None => Fitted::Bench,
                Some(option) => Fitted::Option(option),
            };
            let knife = self.solved.document.knife_at(place)?;
            *row = Some(KnifeRow::of(&self.solved, place, knife, self.system));
        }
        row.as_ref()
    }

    /// A row if it was worked out.
    pub fn known(&self, index: usize) -> Option<&KnifeRow> {
        self.rows.get(index)?.as_ref()
    }

    /// The whole table as CSV.
    ///
    /// # Errors
    /// When a row cannot be written.
    pub fn csv(&mut self) -> Result<String, RowProblem> {
        self.go_on(usize::MAX);
        csv(&self.solved, self.rows.iter().flatten(), self.system)
    }
}

/// A knife by its name.
pub type Named = (String, KnifeSection);

/// Every knife of the document that was last solved: others were not checked with its unit.
pub fn named_knives(good: &Solved) -> Vec<Named> {
    let knives = good.document.knives();
    knives
        .map(|(place, knife)| named(good, place, knife))
        .collect()
}

/// A knife by its name, ground as it is judged.
fn named(good: &Solved, place: Fitted, knife: &Knife) -> Named {
    (knife.name.clone(), good.document.section_of(place, knife))
}

/// The knives that the plots draw and what is dear is looked for: all of a list that can be told
/// apart, and of a longer one the one measured, the one fitted and those ticked.
#[derive(Clone, Debug, PartialEq)]
pub struct KnivesDrawn {
    pub knives: Vec<Named>,
    /// The place of each in the document.
    pub places: Vec<Fitted>,
    /// The line of each.
    pub lines: Vec<u8>,
    /// The place of the fitted one among them.
    pub fitted: usize,
    /// How many there are in all.
    pub of: usize,
}

impl KnivesDrawn {
    /// The knives drawn of the document that was last solved.
    pub fn of(good: &Solved, ticked: &Ticked) -> Self {
        let of = good.document.options.len() + 1;
        let fitted = good.unit.fitted;
        let is_drawn = |place: Fitted, name: &str| {
            of <= PLOTTED
                || place == Fitted::Bench
                || place == fitted
                || ticked.place_of(name).is_some()
        };
        let knives = good.document.knives();
        let drawn: Vec<_> = knives
            .filter(|(place, knife)| is_drawn(*place, &knife.name))
            .collect();
        let place = drawn.iter().position(|(place, _)| *place == fitted);
        Self {
            fitted: place.unwrap_or(0),
            places: drawn.iter().map(|(place, _)| *place).collect(),
            lines: drawn.iter().map(|(place, _)| line_of(*place)).collect(),
            knives: drawn
                .into_iter()
                .map(|(place, knife)| named(good, place, knife))
                .collect(),
            of,
        }
    }

    /// That there are more knives than are drawn; none where there are not.
    pub fn note(&self) -> Option<String> {
        (self.knives.len() < self.of).then(|| {
            format!(
                "Of {} knives: the one measured, the one fitted and those ticked \"overlay\" in the table.",
                self.of
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::knives::{rank, table};
    use crate::app::desk::Session;
    use crate::unit::{Document, most};

    fn long_list(options: usize) -> Document {
        let mut document = Session::demo()
            .expect("the demo unit opens")
            .document()
            .clone();
        document.options.truncate(3);
        for index in document.options.len()..options {
            let mut knife = document.options[index % 3].clone();
            knife.name = format!("{} {index}", knife.name);
            document.options.push(knife);
        }
        document
    }

    #[test]
    fn a_long_list_is_worked_out_some_rows_a_frame() {
        let document = long_list(500);
        let solved = Rc::new(Solved::of(&document).expect("it solves"));
        let mut worked_out = WorkedOut::of(&solved, System::default());
        assert_eq!((worked_out.len(), worked_out.count()), (501, 0));
        // A row in view is there at once, and no other with it.
        assert!(worked_out.row(400).is_some());
        assert_eq!(worked_out.count(), 1);
        let mut frames = 0;
        loop {
            let before = worked_out.count();
            let is_done = worked_out.go_on(AT_ONCE);
            frames += 1;
            assert!(worked_out.count() - before <= AT_ONCE);
            if is_done {
                break;
            }
            assert!(worked_out.ranks().is_none());
        }
        assert_eq!(frames, 500_usize.div_ceil(AT_ONCE));
        // What comes out is what the whole table is at once.
        let rows = table(&solved);
        let ranking = rank(&rows, &solved, System::default());
        for (index, row) in rows.iter().enumerate() {
            assert_eq!(worked_out.known(index), Some(row));
        }
        let ranks = worked_out.ranks().expect("it is done");
        assert_eq!(ranks, &ranking.ranks);
        assert_eq!(worked_out.first_sentence(), ranking.sentences[0]);
        for rank in [0, 77, 500] {
            assert_eq!(worked_out.sentence(rank), ranking.sentences[rank + 1]);
        }
    }

    #[test]
    fn of_a_long_list_only_some_knives_are_plotted() {
        let solved = Solved::of(&long_list(most::KNIVES - 1)).expect("it solves");
        let mut ticked = Ticked::default();
        let name = solved.document.options[4321].name.clone();
        ticked.set(&name, true);
        let plotted = KnivesDrawn::of(&solved, &ticked);
        assert_eq!(plotted.of, most::KNIVES);
        assert!(plotted.knives.len() <= 3 && plotted.note().is_some());
        assert!(plotted.knives.iter().any(|(known, _)| *known == name));
        let (fitted, _) = &plotted.knives[plotted.fitted];
        assert_eq!(fitted, solved.document.fitted_name());
        let short = Solved::of(&long_list(19)).expect("it solves");
        let plotted = KnivesDrawn::of(&short, &Ticked::default());
        assert_eq!((plotted.knives.len(), plotted.note()), (20, None));
    }
}
