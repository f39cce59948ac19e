//! What is done to a sheet besides typing: another way of reading, a roller moved, a step ticked.

use super::field::{End, RollerField, SheetField};
use super::filling::Entries;
use crate::plate::sheet::{AdjusterEntry, Roller, Side};
use crate::plate::step::Step;
use crate::units::{Angle, Length, Quantity, System};

impl Entries {
    /// Takes out what was read of a roller's ends.
    fn take_out_ends(&mut self, roller: Roller) {
        for end in End::ALL {
            for field in [
                RollerField::Goes(end),
                RollerField::StopsAt(end),
                RollerField::Gap(end),
                RollerField::OverTop(end),
            ] {
                self.loose.remove(&SheetField::Of(roller, field));
            }
        }
        self.change(roller, |entry| {
            for end in End::ALL {
                *end.entry_mut(entry) = None;
            }
        });
        self.aside.drop_ends(roller);
    }

    /// Chooses the end of a roller that is moved.
    pub fn adjust(&mut self, roller: Roller, side: Side) {
        self.change(roller, |entry| entry.adjust = Some(side));
    }

    /// Notes that a roller was moved at its adjuster: its ends are to be read anew, and whatever was read
    /// after them may hold no more. How far it was `out` when the work began is kept for the record; an
    /// eccentric stands at another angle now.
    pub fn moved(
        &mut self,
        roller: Roller,
        out: Option<Length>,
        eccentric_at: Option<Angle>,
        system: System,
    ) {
        self.take_out_ends(roller);
        self.change(roller, |entry| {
            if entry.out_before.is_none() {
                entry.out_before = out.map(|out| Quantity::from_value(out, system));
            }
            if let (Some(AdjusterEntry::Eccentric { now, .. }), Some(at)) =
                (&mut entry.adjuster, eccentric_at)
            {
                *now = Quantity::from_value(at, system);
            }
        });
        let adjuster = Step::adjuster(roller);
        self.anew
            .retain(|field| field.step().is_none_or(|step| step <= adjuster));
        self.later_again(roller);
    }

    /// Has whatever was read after a roller read again, because the roller lies another way now: noted as
    /// moved, or found not parallel and then read anew. It stays so until each of these steps was read or
    /// ticked anew.
    pub fn later_again(&mut self, roller: Roller) {
        let later = Step::ALL.into_iter();
        let later = later.filter(|step| *step > Step::adjuster(roller) && self.is_begun(*step));
        let later: Vec<_> = later.collect();
        self.say_again(&later);
        self.aside.is_old_in(|step| step > Step::adjuster(roller));
        self.aside.was_moved(roller);
    }

    /// Says of steps that they are to be done again; of those that are, it changes none of what was done
    /// anew in them.
    pub(super) fn say_again(&mut self, steps: &[Step]) {
        for step in steps {
            if !self.sheet.again.contains(step) {
                self.sheet.again.push(*step);
                self.anew.retain(|field| field.step() != Some(*step));
            }
        }
        self.sheet.again.sort();
    }

    /// Whether something was entered in a step.
    pub(super) fn is_begun(&self, step: Step) -> bool {
        let mut fields = SheetField::all_but_turns().filter(|field| field.step() == Some(step));
        self.sheet.ticked.contains(&step) || fields.any(|field| self.has(field))
    }

    /// Notes that an entry was typed. A step that wants doing again does so until each of its readings was
    /// entered anew: old and new ones side by side say no more than the old ones did.
    pub(super) fn entered_anew(&mut self, field: SheetField) {
        let Some(step) = field.step().filter(|_| field.is_reading()) else {
            return;
        };
        if !self.sheet.again.contains(&step) {
            return;
        }
        self.anew.insert(field);
        let readings = SheetField::all_but_turns();
        let mut readings = readings.filter(|one| one.is_reading() && one.step() == Some(step));
        if readings.all(|one| self.anew.contains(&one) || !self.has(one)) {
            self.still_holds(step);
        }
    }

    /// Writes a gauge bar's own size under the ends of the knife that nobody wrote down yet; what was
    /// written down there stays. A size is no reading: the bar is still to be measured. Whether an end was
    /// empty.
    pub(super) fn lay_bar(&mut self, text: &str, system: System) -> bool {
        let bars = Side::ALL.map(SheetField::Bar);
        let [empty, read]: [Vec<_>; 2] = [false, true].map(|is_read| {
            let of = bars.into_iter().filter(|bar| self.has(*bar) == is_read);
            of.collect()
        });
        if empty.is_empty() {
            return false;
        }
        let was_to_measure = self.sheet.again.contains(&Step::PlateAndBar);
        for bar in empty {
            self.set(bar, text, system);
        }
        if !was_to_measure {
            self.sheet.again.push(Step::PlateAndBar);
            self.sheet.again.sort();
            self.anew
                .retain(|field| field.step() != Some(Step::PlateAndBar));
            self.anew.extend(read);
        }
        true
    }

    /// Ticks a step that has no reading, or takes its tick away.
    pub fn tick(&mut self, step: Step, is_done: bool) {
        self.sheet.ticked.retain(|ticked| *ticked != step);
        self.sheet.again.retain(|again| *again != step);
        if is_done {
            self.sheet.ticked.push(step);
            self.sheet.ticked.sort();
        }
    }

    /// Says of a step that what was read in it holds: still, or anew. How parallel a roller is follows from
    /// how its ends were read.
    pub fn still_holds(&mut self, step: Step) {
        let with_it = match step {
            Step::FrontEnds => Step::FrontAdjuster,
            Step::RearEnds => Step::RearAdjuster,
            alone => alone,
        };
        self.sheet
            .again
            .retain(|again| *again != step && *again != with_it);
        self.anew.retain(|field| field.step() != Some(step));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const IN: System = System::InchDecimal;

    #[test]
    fn a_front_roller_that_was_moved_puts_what_was_read_after_it_back() {
        let text = include_str!("../../../demo-units/example-ground/gang-2.plate.ron");
        let mut entries = Entries::new(crate::plate::read_sheet(text).expect("a sheet"));
        entries.moved(Roller::Front, Some(Length::from_inches(0.003)), None, IN);
        let again = &entries.sheet.again;
        assert!(again.contains(&Step::RearEnds) && again.contains(&Step::Height));
        assert!(!again.contains(&Step::FrontRunout));
        let front = entries.sheet.front.as_ref().unwrap();
        assert!(front.left.is_none() && front.right.is_none());
        assert_eq!(front.out_before.as_ref().unwrap().text(), "0.003 in");
        // The first is what the work began with.
        entries.moved(Roller::Front, Some(Length::from_inches(0.001)), None, IN);
        let front = entries.sheet.front.as_ref().unwrap();
        assert_eq!(front.out_before.as_ref().unwrap().text(), "0.003 in");
        entries.set(
            SheetField::Height(crate::plate::Station::Left),
            "0.5 in",
            IN,
        );
        // What was read in the middle and at the right is older than the roller's move.
        assert!(entries.sheet.again.contains(&Step::Height));
        for station in [crate::plate::Station::Middle, crate::plate::Station::Right] {
            entries.set(SheetField::Height(station), "0.5 in", IN);
        }
        assert!(!entries.sheet.again.contains(&Step::Height));
        // A limit typed over is no reading.
        let limit = SheetField::Of(Roller::Rear, RollerField::ParallelWithin);
        entries.set(limit, "0.007 in", IN);
        assert!(entries.sheet.again.contains(&Step::RearEnds));
        entries.still_holds(Step::RearEnds);
        assert!(!entries.sheet.again.contains(&Step::RearEnds));
    }

    #[test]
    fn what_was_read_after_a_roller_is_to_be_done_again_until_it_is_done_anew() {
        let text = include_str!("../../../demo-units/example-ground/gang-2.plate.ron");
        let mut entries = Entries::new(crate::plate::read_sheet(text).expect("a sheet"));
        entries.later_again(Roller::Rear);
        let after = [Step::RockTest, Step::Height, Step::Attitude, Step::Record];
        assert_eq!(entries.sheet.again, after);
        let [left, right] = Side::ALL.map(SheetField::Attitude);
        entries.set(left, "4.1 deg", IN);
        // Said once more, it takes nothing away of what was done anew.
        entries.later_again(Roller::Rear);
        entries.set(right, "4.1 deg", IN);
        entries.tick(Step::RockTest, true);
        assert_eq!(entries.sheet.again, [Step::Height, Step::Record]);
    }

    #[test]
    fn a_bars_own_size_goes_over_no_reading_and_is_still_to_be_measured() {
        let [left, right] = Side::ALL.map(SheetField::Bar);
        let mut entries = Entries::default();
        entries.set(left, "0.2503 in ± 0.0001 in", IN);
        assert!(entries.lay_bar("0.25 in", IN));
        assert_eq!(entries.shown(left, IN), "0.2503 in ± 0.0001 in");
        assert_eq!(entries.shown(right, IN), "0.25 in");
        assert_eq!(entries.sheet.again, [Step::PlateAndBar]);
        assert!(!entries.lay_bar("0.25 in", IN));
        entries.set(right, "0.2502 in", IN);
        assert!(entries.sheet.again.is_empty());
    }
}
