//! What a new sheet takes from the one before it of the same unit: what belongs to the unit, and no reading.

use super::field::{RollerField, SheetField};
use super::filling::Entries;
use crate::plate::sheet::{Roller, Worksheet};
use crate::units::System;

impl SheetField {
    /// Every entry that stays with the unit from one sheet to the next. Where an eccentric stands does not:
    /// it is looked at each time.
    fn of_unit() -> impl Iterator<Item = Self> {
        let of_roller = [
            RollerField::AdjustersApart,
            RollerField::Throw,
            RollerField::Pitch,
            RollerField::Tilt,
            RollerField::Shims,
        ];
        let rollers = Roller::ALL.into_iter();
        let rollers = rollers.flat_map(move |roller| of_roller.map(|of| Self::Of(roller, of)));
        [Self::CutWidth].into_iter().chain(rollers)
    }
}

impl Entries {
    /// Takes what belongs to the unit from its last sheet, where it is empty here; what was taken.
    pub fn take_from(&mut self, last: &Worksheet, system: System) -> Vec<SheetField> {
        let last = Self::new(last.clone());
        let fields = SheetField::of_unit().filter(|field| last.has(*field) && !self.has(*field));
        let fields: Vec<_> = fields.collect();
        for field in &fields {
            self.put(*field, &last.typed(*field), system);
        }
        fields
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_new_sheet_takes_what_belongs_to_the_unit_and_no_reading() {
        let text = include_str!("../../../demo-units/example-ground/greens-1.plate.ron");
        let last = crate::plate::read_sheet(text).expect("a sheet");
        let mut entries = Entries::default();
        let system = System::InchDecimal;
        let taken = entries.take_from(&last, system);
        let of = |roller, field| SheetField::Of(roller, field);
        assert_eq!(
            taken,
            [
                SheetField::CutWidth,
                of(Roller::Front, RollerField::AdjustersApart),
                of(Roller::Front, RollerField::Throw),
                of(Roller::Rear, RollerField::AdjustersApart),
                of(Roller::Rear, RollerField::Pitch),
                of(Roller::Rear, RollerField::Tilt),
            ]
        );
        assert_eq!(entries.sheet.cut_width.text(), "21 in");
        // Where the eccentric stands is still to be looked at.
        let throw = of(Roller::Front, RollerField::Throw);
        assert_eq!(entries.shown(throw, system), "1/16 in");
        assert!(!entries.has(of(Roller::Front, RollerField::Now)));
        let readings = SheetField::all_but_turns().filter(|field| field.is_reading());
        assert!(readings.into_iter().all(|field| !entries.has(field)));
        assert!(entries.take_from(&last, system).is_empty());
    }
}
