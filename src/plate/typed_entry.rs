//! An entry of a record as it is typed in, field by field.

use super::date::Day;
use super::record::Entry;
use crate::units::{Length, Measure, Quantity, System};

/// A field of an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EntryField {
    /// The day.
    Date,
    /// Who did it.
    By,
    /// The machine's hours.
    Hours,
    /// What was done.
    What,
    /// The reel's diameter after it.
    ReelDiameter,
    /// The knife that was fitted.
    Knife,
    /// Metal off the knife's top face.
    TopGround,
    /// Metal off the knife's front face.
    FaceGround,
    /// The height of cut it was set to.
    HeightOfCut,
    /// The attitude it was set to.
    Attitude,
    /// How far the edge stood behind centre.
    BehindCentre,
    /// The front roller out of parallel before.
    FrontBefore,
    /// And after.
    FrontAfter,
    /// The rear roller out of parallel before.
    RearBefore,
    /// And after.
    RearAfter,
    /// Notes.
    Notes,
}

impl EntryField {
    /// Every field, in the order they are asked for.
    pub const ALL: [Self; 16] = [
        Self::Date,
        Self::By,
        Self::Hours,
        Self::What,
        Self::ReelDiameter,
        Self::Knife,
        Self::TopGround,
        Self::FaceGround,
        Self::HeightOfCut,
        Self::Attitude,
        Self::BehindCentre,
        Self::FrontBefore,
        Self::FrontAfter,
        Self::RearBefore,
        Self::RearAfter,
        Self::Notes,
    ];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Date => "Date",
            Self::By => "By",
            Self::Hours => "Hours",
            Self::What => "What was done",
            Self::ReelDiameter => "Reel diameter after",
            Self::Knife => "Knife fitted",
            Self::TopGround => "Metal off top face",
            Self::FaceGround => "Metal off front face",
            Self::HeightOfCut => "Height of cut set",
            Self::Attitude => "Attitude set",
            Self::BehindCentre => "Behind centre",
            Self::FrontBefore => "Front roller out of parallel, before",
            Self::FrontAfter => "Front roller out of parallel, after",
            Self::RearBefore => "Rear roller out of parallel, before",
            Self::RearAfter => "Rear roller out of parallel, after",
            Self::Notes => "Notes",
        }
    }
}

/// An entry as it is typed: a text for each field, empty for what is left out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TypedEntry([String; EntryField::ALL.len()]);

impl TypedEntry {
    /// To put an event right that was kept with a slip: its day, its hours and what was read after it, to be
    /// typed over. What it took off the knife and what it changed between before and after happened
    /// once, and is not told again.
    #[must_use]
    pub fn correcting(entry: &Entry) -> Self {
        let mut typed = Self::default();
        let length = |length: &Option<Quantity<Length>>| {
            let text = length.as_ref().map(Quantity::text);
            text.unwrap_or_default().to_owned()
        };
        let attitude = entry.attitude.as_ref().map(Quantity::text);
        let what = entry.what.trim();
        for (field, text) in [
            (EntryField::Date, entry.date.clone()),
            (EntryField::By, entry.by.clone()),
            (EntryField::Hours, entry.hours.clone()),
            (EntryField::What, format!("correction: {what}")),
            (EntryField::ReelDiameter, length(&entry.reel_diameter)),
            (EntryField::Knife, entry.knife.clone()),
            (EntryField::HeightOfCut, length(&entry.height_of_cut)),
            (
                EntryField::Attitude,
                attitude.unwrap_or_default().to_owned(),
            ),
            (EntryField::BehindCentre, length(&entry.behind_centre)),
        ] {
            text.trim_end_matches([':', ' '])
                .clone_into(typed.text_mut(field));
        }
        typed
    }

    /// What stands in a field.
    #[must_use]
    pub fn text(&self, field: EntryField) -> &str {
        &self.0[field as usize]
    }

    /// What stands in a field, to be typed over.
    pub fn text_mut(&mut self, field: EntryField) -> &mut String {
        &mut self.0[field as usize]
    }

    /// What is wrong with a field; none where it is right or left out.
    #[must_use]
    pub fn problem(&self, field: EntryField, system: System) -> Option<String> {
        let text = self.text(field);
        if text.trim().is_empty() {
            let told = "write the day, year first, like 2026-11-25";
            return (field == EntryField::Date).then(|| told.to_owned());
        }
        let mut entry = Entry {
            date: Day::today().to_string(),
            ..Entry::default()
        };
        if let Err(why) = set(&mut entry, field, text, system) {
            return Some(why);
        }
        entry.check().err().map(|flaw| flaw.kind.to_string())
    }

    /// The entry; a number without its unit is read in those of `system`.
    ///
    /// # Errors
    /// Every field that is wrong, with what would be right.
    pub fn entry(&self, system: System) -> Result<Entry, Vec<(EntryField, String)>> {
        let problems: Vec<_> = EntryField::ALL
            .into_iter()
            .filter_map(|field| Some((field, self.problem(field, system)?)))
            .collect();
        let mut entry = Entry::default();
        for field in EntryField::ALL {
            let text = self.text(field);
            if !text.trim().is_empty() && problems.is_empty() {
                // Read already.
                let _ = set(&mut entry, field, text, system);
            }
        }
        if problems.is_empty() {
            Ok(entry)
        } else {
            Err(problems)
        }
    }
}

/// Puts a text into its field.
fn set(entry: &mut Entry, field: EntryField, text: &str, system: System) -> Result<(), String> {
    let length = || typed::<Length>(text, system).map(Some);
    let plain = || text.trim().to_owned();
    match field {
        EntryField::Date => entry.date = plain(),
        EntryField::By => entry.by = plain(),
        EntryField::Hours => entry.hours = plain(),
        EntryField::What => entry.what = plain(),
        EntryField::ReelDiameter => entry.reel_diameter = length()?,
        EntryField::Knife => entry.knife = plain(),
        EntryField::TopGround => entry.top_ground = length()?,
        EntryField::FaceGround => entry.face_ground = length()?,
        EntryField::HeightOfCut => entry.height_of_cut = length()?,
        EntryField::Attitude => entry.attitude = Some(typed(text, system)?),
        EntryField::BehindCentre => entry.behind_centre = length()?,
        EntryField::FrontBefore => entry.front_before = length()?,
        EntryField::FrontAfter => entry.front_after = length()?,
        EntryField::RearBefore => entry.rear_before = length()?,
        EntryField::RearAfter => entry.rear_after = length()?,
        EntryField::Notes => entry.notes = plain(),
    }
    Ok(())
}

fn typed<M: Measure>(text: &str, system: System) -> Result<Quantity<M>, String> {
    Quantity::typed(text, M::unit_in(system).0).map_err(|problem| problem.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(fields: &[(EntryField, &str)]) -> TypedEntry {
        let mut typed = TypedEntry::default();
        for (field, text) in fields {
            (*text).clone_into(typed.text_mut(*field));
        }
        typed
    }

    #[test]
    fn what_is_typed_into_a_field_stands_in_its_place_and_in_no_other() {
        for field in EntryField::ALL {
            let text = match field {
                EntryField::Date => "2026-11-25",
                EntryField::Hours => "1210",
                EntryField::Attitude => "4 deg",
                _ => "0.1 in",
            };
            let typed = typed(&[(EntryField::Date, "2026-11-25"), (field, text)]);
            let entry = typed.entry(System::InchDecimal).unwrap();
            let mut plain = Entry {
                date: "2026-11-25".to_owned(),
                ..Entry::default()
            };
            set(&mut plain, field, text, System::InchDecimal).unwrap();
            assert_eq!(entry, plain);
            let differs = entry
                != Entry {
                    date: entry.date.clone(),
                    ..Entry::default()
                };
            assert_eq!(differs, field != EntryField::Date, "{field:?}");
        }
    }

    #[test]
    fn every_wrong_field_gets_its_sentence_and_a_bare_number_the_readers_unit() {
        let typed = typed(&[
            (EntryField::Date, "25.11.2026"),
            (EntryField::Hours, "many"),
            (EntryField::ReelDiameter, "-3"),
            (EntryField::TopGround, "thin"),
            (EntryField::HeightOfCut, "0.5"),
        ]);
        let wrong = typed.entry(System::InchDecimal).unwrap_err();
        let fields: Vec<_> = wrong.iter().map(|(field, _)| *field).collect();
        assert_eq!(
            fields,
            [
                EntryField::Date,
                EntryField::Hours,
                EntryField::ReelDiameter,
                EntryField::TopGround
            ]
        );
        assert!(wrong.iter().all(|(_, why)| !why.is_empty()), "{wrong:?}");
        assert!(wrong[0].1.contains("2026-11-25"), "{wrong:?}");
        let mut right = TypedEntry::default();
        assert!(right.entry(System::Millimetre).is_err(), "it has no day");
        "2026-11-25".clone_into(right.text_mut(EntryField::Date));
        "12.5".clone_into(right.text_mut(EntryField::HeightOfCut));
        let entry = right.entry(System::Millimetre).unwrap();
        let height = entry.height_of_cut.unwrap().value();
        assert!((height.mm() - 12.5).abs() < 1e-12);
    }
}
