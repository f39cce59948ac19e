//! A document as it was at one time, sharing with the one before it whatever stayed.

use std::sync::Arc;

use crate::unit::{Document, HardwareReadings, Knife};

/// A document as it was. What can be long is shared with the snapshot before it as far as it is the
/// same, a knife and a point at a time: a thousand snapshots of five thousand knives weigh little
/// more than one.
#[derive(Clone, Debug)]
pub struct Snapshot {
    /// The document without what stands below.
    rest: Arc<Document>,
    knives: Shared<Knife>,
    hardware: Shared<HardwareReadings>,
}

/// A list whose entries are shared between snapshots, and the list itself where all are.
type Shared<T> = Arc<[Arc<T>]>;

impl Snapshot {
    /// A document as it is now, after another snapshot of it.
    pub fn of(document: &Document, before: Option<&Self>) -> Self {
        let mut rest = document.clone();
        let knives = std::mem::take(&mut rest.options);
        let hardware = std::mem::take(&mut rest.hardware);
        Self {
            rest: match before {
                Some(before) if *before.rest == rest => Arc::clone(&before.rest),
                _ => Arc::new(rest),
            },
            knives: share(knives, before.map(|before| &before.knives)),
            hardware: share(hardware, before.map(|before| &before.hardware)),
        }
    }

    /// The document.
    pub fn document(&self) -> Document {
        let mut document = Document::clone(&self.rest);
        document.options = owned(&self.knives);
        document.hardware = owned(&self.hardware);
        document
    }

    /// Whether it is the same document.
    pub fn is_same_as(&self, other: &Self) -> bool {
        is_same(&self.rest, &other.rest)
            && are_same(&self.knives, &other.knives)
            && are_same(&self.hardware, &other.hardware)
    }
}

fn owned<T: Clone>(shared: &Shared<T>) -> Vec<T> {
    shared.iter().map(|one| T::clone(one)).collect()
}

/// Shares a list with an earlier one: from its beginning, and from its end, as far as both agree; in
/// between, place by place.
fn share<T: PartialEq>(list: Vec<T>, before: Option<&Shared<T>>) -> Shared<T> {
    let earlier: &[Arc<T>] = before.map_or(&[], |before| before);
    let same_at = |(one, other): (&T, &Arc<T>)| *one == **other;
    let begins = list.iter().zip(earlier).take_while(|&p| same_at(p)).count();
    if let Some(before) = before
        && begins == list.len()
        && begins == before.len()
    {
        return Arc::clone(before);
    }
    let most = list.len().min(earlier.len()) - begins;
    let backwards = list.iter().rev().zip(earlier.iter().rev());
    let ends = backwards.take(most).take_while(|&p| same_at(p)).count();
    let (length, earlier_length) = (list.len(), earlier.len());
    let shared = list.into_iter().enumerate().map(|(place, one)| {
        let earlier_place = if place < length - ends {
            place
        } else {
            earlier_length + place - length
        };
        match earlier.get(earlier_place) {
            Some(other) if **other == one => Arc::clone(other),
            _ => Arc::new(one),
        }
    });
    shared.collect()
}

fn is_same<T: PartialEq + ?Sized>(one: &Arc<T>, other: &Arc<T>) -> bool {
    Arc::ptr_eq(one, other) || one == other
}

fn are_same<T: PartialEq>(one: &Shared<T>, other: &Shared<T>) -> bool {
    let pairs = || one.iter().zip(other.iter());
    Arc::ptr_eq(one, other)
        || one.len() == other.len() && pairs().all(|(one, other)| is_same(one, other))
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::unit::{self, Fitted};

    fn demo() -> Document {
        let text = include_str!("../../../demo-units/fairway-trailed.ron");
        unit::read_text(text).expect("the demo unit")
    }

    #[test]
    fn a_snapshot_gives_back_the_document_it_was_taken_of() {
        let mut document = demo();
        let first = Snapshot::of(&document, None);
        assert_eq!(first.document(), document);
        document.remove_knife(0);
        document.name.push_str(" again");
        let second = Snapshot::of(&document, Some(&first));
        assert_eq!(second.document(), document);
        assert!(!second.is_same_as(&first));
        assert!(second.is_same_as(&Snapshot::of(&document, None)));
    }

    #[test]
    fn a_thousand_snapshots_share_the_knives_that_stayed() {
        let mut document = demo();
        let knife = document.options[0].clone();
        document.options = (0..500)
            .map(|number| Knife {
                name: format!("knife {number}"),
                ..knife.clone()
            })
            .collect();
        let mut all = vec![Snapshot::of(&document, None)];
        for step in 0..1000_usize {
            match step % 4 {
                0 => document.remove_knife(step % 7),
                1 => drop(document.add_knife(knife.clone()).to_owned()),
                2 => {
                    let named = document.rename_knife(Fitted::Option(step % 400), "renamed");
                    named.expect("the name is free");
                }
                _ => {
                    let named = document.rename_knife(
                        Fitted::Option((step - 1) % 400),
                        &format!("renamed at {step}"),
                    );
                    named.expect("the name is free");
                }
            }
            all.push(Snapshot::of(&document, all.last()));
        }
        let knives = all.iter().flat_map(|one| one.knives.iter());
        let distinct: BTreeSet<_> = knives.map(Arc::as_ptr).collect();
        assert!(distinct.len() <= 500 + 1000, "{}", distinct.len());
    }

    #[test]
    fn a_change_elsewhere_shares_the_whole_list() {
        let mut document = demo();
        let first = Snapshot::of(&document, None);
        document.name.push_str(" again");
        let second = Snapshot::of(&document, Some(&first));
        assert!(Arc::ptr_eq(&first.knives, &second.knives));
        assert!(Arc::ptr_eq(&first.hardware, &second.hardware));
    }
}
