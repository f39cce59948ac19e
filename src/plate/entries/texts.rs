//! Typed texts as what a sheet holds of them; what it cannot hold stays loose beside it.

use super::field::{Place, RollerField, SheetField};
use super::filling::{Entries, Loose, typed_in_thou};
use crate::plate::sheet::{AdjusterEntry, RunoutReading};
use crate::units::{Angle, Length, Measure, Quantity, System};

/// Readings of a turn that a circle takes.
const LEAST_OF_A_TURN: usize = 3;

impl Entries {
    /// A text as a quantity; one that is none stays loose.
    pub(super) fn one<M: Measure>(
        &mut self,
        texts: &[(SheetField, String)],
        system: System,
    ) -> Option<Quantity<M>> {
        let (field, text) = texts.first()?;
        self.read(*field, text, system)
    }

    fn read<M: Measure>(
        &mut self,
        field: SheetField,
        text: &str,
        system: System,
    ) -> Option<Quantity<M>> {
        if text.is_empty() {
            return None;
        }
        match Quantity::typed(text, unit_of::<M>(field, system)) {
            Ok(quantity) => Some(quantity),
            Err(problem) => {
                self.leave(field, text, problem.to_string(), true);
                None
            }
        }
    }

    fn leave(&mut self, field: SheetField, text: &str, why: String, is_wrong: bool) {
        let text = text.to_owned();
        let loose = Loose {
            text,
            why,
            is_wrong,
        };
        self.loose.insert(field, loose);
    }

    /// Two texts of which the file holds both or none.
    pub(super) fn both<A: Measure, B: Measure>(
        &mut self,
        texts: &[(SheetField, String)],
        system: System,
    ) -> Option<(Quantity<A>, Quantity<B>)> {
        let [(one_field, one_text), (two_field, two_text)] = texts else {
            return None;
        };
        let one = self.read::<A>(*one_field, one_text, system);
        let two = self.read::<B>(*two_field, two_text, system);
        if let (Some(one), Some(two)) = (&one, &two) {
            return Some((one.clone(), two.clone()));
        }
        if let Some(one) = one {
            self.leave(*one_field, one.text(), waits_for(*two_field), false);
        }
        if let Some(two) = two {
            self.leave(*two_field, two.text(), waits_for(*one_field), false);
        }
        None
    }

    /// A thread's pitch, which counts without a lean, and the lean of its part, which does not without it.
    pub(super) fn thread(
        &mut self,
        changed: RollerField,
        texts: &[(SheetField, String)],
        system: System,
    ) -> Option<AdjusterEntry> {
        let [(pitch_field, pitch), (tilt_field, tilt)] = texts else {
            return None;
        };
        let is_emptied = changed == RollerField::Pitch && pitch.trim().is_empty();
        let pitch = self.read(*pitch_field, pitch, system);
        let tilt = self.read(*tilt_field, tilt, system);
        match (pitch, tilt) {
            // A lean of zero came with the pitch, which was taken out.
            (None, Some(tilt)) if is_emptied && tilt.value() == Angle::ZERO => None,
            (Some(pitch), tilt) => Some(AdjusterEntry::Thread {
                pitch,
                tilt: tilt.unwrap_or_else(|| Quantity::from_value(Angle::ZERO, system)),
            }),
            (None, Some(tilt)) => {
                self.leave(*tilt_field, tilt.text(), waits_for(*pitch_field), false);
                None
            }
            (None, None) => None,
        }
    }

    /// The sizes of shims in stock.
    pub(super) fn shims(
        &mut self,
        texts: &[(SheetField, String)],
        system: System,
    ) -> Option<AdjusterEntry> {
        let (field, text) = texts.first()?;
        if text.is_empty() {
            return None;
        }
        let unit = Length::unit_in(system).0;
        let sizes = text.split([',', ';']).map(str::trim);
        let sizes: Result<Vec<_>, _> = sizes
            .filter(|size| !size.is_empty())
            .map(|size| Quantity::typed(size, unit))
            .collect();
        match sizes {
            Ok(sizes) if !sizes.is_empty() => Some(AdjusterEntry::Shims(sizes)),
            Ok(_) => {
                let why = "write the sizes in stock with commas between, like 0.005 in, 0.010 in";
                self.leave(*field, text, why.to_owned(), true);
                None
            }
            Err(problem) => {
                self.leave(*field, text, problem.to_string(), true);
                None
            }
        }
    }

    /// The readings of a turn, once there are enough of them for a circle.
    pub(super) fn turn(
        &mut self,
        texts: &[(SheetField, String)],
        system: System,
    ) -> Vec<RunoutReading> {
        let mut readings = Vec::new();
        for (field, text) in texts {
            if let SheetField::Of(_, RollerField::Runout(_, place)) = field
                && let Some(read) = self.read::<Length>(*field, text, system)
            {
                readings.push((*field, *place, read));
            }
        }
        if readings.len() < LEAST_OF_A_TURN {
            for (field, _, read) in readings {
                let why = "a circle takes three readings of a turn at least".to_owned();
                self.leave(field, read.text(), why, false);
            }
            return Vec::new();
        }
        let angle = |place: Place| Quantity::from_value(Angle::from_deg(place.deg()), system);
        readings
            .into_iter()
            .map(|(_, place, read)| RunoutReading(angle(place), read))
            .collect()
    }
}

fn waits_for(other: SheetField) -> String {
    format!(
        "counts together with \"{}\", which is still empty or wrong",
        other.name()
    )
}

fn unit_of<M: Measure>(field: SheetField, system: System) -> &'static str {
    let is_in_inches = system != System::Millimetre;
    if typed_in_thou(field) && is_in_inches {
        "thou"
    } else {
        M::unit_in(system).0
    }
}
