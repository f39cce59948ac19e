//! What was entered otherwise than it is entered now: by another way of reading, for another kind of
//! adjuster, of another gauge bar. It waits beside the sheet until that is chosen again; a file holds what is
//! chosen alone.

use super::field::SheetField;
use super::filling::Entries;
use super::held::{AdjusterKind, GapWay};
use super::waiting::Waiting;
use crate::plate::sheet::{Roller, Side};
use crate::plate::step::Step;
use crate::units::{Length, Measure as _, Quantity, System};

/// Bars whose thickness differs by no more are one bar (common practice, no source).
const SAME_BAR: Length = Length::from_inches(0.005);

/// What became of a bar that was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BarTaken {
    /// Its nominal size stands where it is to be measured.
    Nominal,
    /// It was measured before, and what was measured came back.
    CameBack,
    /// It is the one that is measured already.
    Same,
}

impl Entries {
    /// Has the ends of a roller read another way from here on. What was read the other ways waits until
    /// they are chosen again; `is_parallel` is whether the roller was, by that.
    pub fn change_gap_way(
        &mut self,
        roller: Roller,
        way: GapWay,
        is_parallel: bool,
        system: System,
    ) {
        let others = GapWay::ALL.into_iter().filter(|one| *one != way);
        let others: Vec<_> = others.flat_map(|one| one.fields(roller)).collect();
        let is_put_aside = self.put_aside(&others, system);
        self.bring_back(&way.fields(roller), system);
        if is_put_aside && !is_parallel {
            self.aside.not_parallel.push(roller);
        }
        self.aside.ways.remove(&roller);
        if self.gap_way(roller).is_none() && self.has_aside(&others) {
            self.aside.ways.insert(roller, way);
        }
        let is_read = way.fields(roller).iter().any(|field| self.has(*field));
        if !self.has_aside(&others) || is_read {
            self.aside.was_moved(roller);
        }
    }

    /// Has the end of a roller moved by another kind of adjuster. What was entered of the others waits
    /// until they are chosen again.
    pub fn change_adjuster(&mut self, roller: Roller, kind: AdjusterKind, system: System) {
        let others = AdjusterKind::ALL.into_iter().filter(|one| *one != kind);
        let others: Vec<_> = others.flat_map(|one| one.fields(roller)).collect();
        self.put_aside(&others, system);
        self.bring_back(&kind.fields(roller), system);
        self.aside.kinds.remove(&roller);
        if self.adjuster_kind(roller).is_none() && self.has_aside(&others) {
            self.aside.kinds.insert(roller, kind);
        }
    }

    /// The ways of reading a roller's ends whose entries wait.
    #[must_use]
    pub fn ways_aside(&self, roller: Roller) -> Vec<GapWay> {
        let ways = GapWay::ALL.into_iter();
        ways.filter(|way| self.has_aside(&way.fields(roller)))
            .collect()
    }

    /// The kinds of adjuster of a roller whose entries wait.
    #[must_use]
    pub fn kinds_aside(&self, roller: Roller) -> Vec<AdjusterKind> {
        let kinds = AdjusterKind::ALL.into_iter();
        kinds
            .filter(|kind| self.has_aside(&kind.fields(roller)))
            .collect()
    }

    /// Whether a roller was not parallel by the readings that wait, none being there now: whatever is
    /// read of it next is read after it was moved.
    #[must_use]
    pub fn was_not_parallel(&self, roller: Roller) -> bool {
        self.aside.not_parallel.contains(&roller)
    }

    /// The other bars that were measured, left and right, the last first.
    pub fn bars_aside(&self) -> impl Iterator<Item = &[String; 2]> {
        self.aside.bars.iter().rev()
    }

    fn has_aside(&self, fields: &[SheetField]) -> bool {
        let entries = &self.aside.entries;
        fields.iter().any(|field| entries.contains_key(field))
    }

    /// Takes entries out of the sheet; whether there were any.
    fn put_aside(&mut self, fields: &[SheetField], system: System) -> bool {
        let typed = fields.iter().map(|field| (*field, self.typed(*field)));
        let typed: Vec<_> = typed.filter(|(_, text)| !text.is_empty()).collect();
        for (field, _) in &typed {
            self.put(*field, "", system);
        }
        let is_any = !typed.is_empty();
        for (field, text) in typed {
            let is_again = |step: Step| self.sheet.again.contains(&step);
            let is_old = field.is_reading()
                && field.step().is_some_and(is_again)
                && !self.anew.contains(&field);
            let waiting = Waiting { text, is_old };
            self.aside.entries.insert(field, waiting);
        }
        is_any
    }

    /// Brings entries back into the sheet. What was moved since they were read puts their step back.
    fn bring_back(&mut self, fields: &[SheetField], system: System) {
        for field in fields {
            let Some(waiting) = self.aside.entries.remove(field) else {
                continue;
            };
            self.put(*field, &waiting.text, system);
            let step = field.step().filter(|_| field.is_reading());
            match step {
                Some(step) if waiting.is_old => {
                    self.anew.remove(field);
                    self.say_again(&[step]);
                }
                Some(step) if self.sheet.again.contains(&step) => {
                    self.anew.insert(*field);
                }
                _ => {}
            }
        }
    }

    /// Takes a gauge bar of a nominal size. What was measured of another one waits until that is taken
    /// again, and what was read over it is to be read again over this one. A size is no reading: the bar
    /// is still to be measured.
    pub fn take_bar(&mut self, nominal: &str, system: System) -> BarTaken {
        let fields = Side::ALL.map(SheetField::Bar);
        let is_this = |text: &str| {
            let unit = Length::unit_in(system).0;
            let bars = [text, nominal].map(|text| Quantity::<Length>::typed(text, unit).ok());
            matches!(bars, [Some(one), Some(this)]
                if (one.value() - this.value()).mm().abs() <= SAME_BAR.mm())
        };
        let typed = fields.map(|field| self.typed(field));
        let is_nominal = self.sheet.again.contains(&Step::PlateAndBar);
        if typed.iter().all(|text| text.is_empty() || is_this(text)) {
            return if self.lay_bar(nominal, system) {
                BarTaken::Nominal
            } else {
                BarTaken::Same
            };
        }
        for field in fields {
            self.put(field, "", system);
        }
        if !is_nominal {
            self.aside.bars.push(typed);
        }
        self.still_holds(Step::PlateAndBar);
        let is_over_it = |step: Step| (Step::FrontEnds..=Step::RearAdjuster).contains(&step);
        let over_it = Step::ALL.into_iter().filter(|step| is_over_it(*step));
        let over_it: Vec<_> = over_it.filter(|step| self.is_begun(*step)).collect();
        self.say_again(&over_it);
        self.aside.is_old_in(is_over_it);
        let mut bars = self.aside.bars.iter();
        let back = bars.position(|bar| bar.iter().all(|text| text.is_empty() || is_this(text)));
        let Some(back) = back else {
            self.lay_bar(nominal, system);
            return BarTaken::Nominal;
        };
        let measured = self.aside.bars.remove(back);
        for (field, text) in fields.into_iter().zip(measured) {
            self.put(field, &text, system);
        }
        BarTaken::CameBack
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plate::entries::field::{End, RollerField};

    const IN: System = System::InchDecimal;

    fn gang() -> Entries {
        let text = include_str!("../../../demo-units/example-ground/gang-2.plate.ron");
        Entries::new(crate::plate::read_sheet(text).expect("a sheet"))
    }

    #[test]
    fn what_was_read_another_way_comes_back_with_it_to_the_letter() {
        let before = gang();
        let mut entries = before.clone();
        entries.change_gap_way(Roller::Front, GapWay::Gap, true, IN);
        assert_eq!(entries.ways_aside(Roller::Front), [GapWay::OverTop]);
        assert_eq!(entries.gap_way(Roller::Front), Some(GapWay::Gap));
        let front = entries.sheet.front.as_ref().unwrap();
        assert!(front.left.is_none() && front.right.is_none());
        let gap = |side| SheetField::Of(Roller::Front, RollerField::Gap(End::of(side, false)));
        entries.set(gap(Side::Left), "0.004 in", IN);
        entries.change_gap_way(Roller::Front, GapWay::OverTop, true, IN);
        assert_eq!(entries.sheet, before.sheet);
        entries.change_gap_way(Roller::Front, GapWay::Gap, true, IN);
        assert_eq!(entries.shown(gap(Side::Left), IN), "0.004 in");
        entries.set(gap(Side::Left), "", IN);
        entries.change_gap_way(Roller::Front, GapWay::OverTop, true, IN);
        assert_eq!(entries, before);
    }

    #[test]
    fn every_kind_of_adjuster_keeps_its_own_entries() {
        let mut entries = gang();
        let of = |field| SheetField::Of(Roller::Rear, field);
        let shims = entries.shown(of(RollerField::Shims), IN);
        entries.change_adjuster(Roller::Rear, AdjusterKind::Thread, IN);
        entries.set(of(RollerField::Pitch), "1.25 mm", IN);
        entries.set(of(RollerField::Tilt), "10 deg", IN);
        entries.change_adjuster(Roller::Rear, AdjusterKind::Eccentric, IN);
        entries.set(of(RollerField::Throw), "1/16 in", IN);
        assert_eq!(
            entries.kinds_aside(Roller::Rear),
            [AdjusterKind::Thread, AdjusterKind::Shims]
        );
        assert!(entries.sheet.rear.as_ref().unwrap().adjuster.is_none());
        entries.change_adjuster(Roller::Rear, AdjusterKind::Thread, IN);
        assert_eq!(entries.shown(of(RollerField::Tilt), IN), "10 deg");
        entries.change_adjuster(Roller::Rear, AdjusterKind::Shims, IN);
        assert_eq!(entries.shown(of(RollerField::Shims), IN), shims);
        entries.change_adjuster(Roller::Rear, AdjusterKind::Eccentric, IN);
        // Half of an eccentric comes back as the half it was.
        let throw = entries.loose_of(of(RollerField::Throw)).expect("it waits");
        assert!(throw.text == "1/16 in" && !throw.is_wrong);
    }

    #[test]
    fn readings_that_waited_while_a_roller_was_moved_come_back_as_old_ones() {
        let mut entries = gang();
        entries.change_gap_way(Roller::Rear, GapWay::Gap, true, IN);
        entries.moved(Roller::Front, None, None, IN);
        entries.change_gap_way(Roller::Rear, GapWay::Feeler, true, IN);
        assert!(entries.sheet.again.contains(&Step::RearEnds));
        // What was read of the roller itself is gone with its move.
        entries.change_gap_way(Roller::Rear, GapWay::Gap, true, IN);
        entries.moved(Roller::Rear, None, None, IN);
        assert!(entries.ways_aside(Roller::Rear).is_empty());
    }

    #[test]
    fn a_bar_measured_before_comes_back_with_what_was_measured_of_it() {
        let [left, right] = Side::ALL.map(SheetField::Bar);
        let mut entries = gang();
        assert_eq!(entries.take_bar("1/2 in", IN), BarTaken::Same);
        assert_eq!(entries.take_bar("3/16 in", IN), BarTaken::Nominal);
        assert_eq!(entries.shown(right, IN), "3/16 in");
        let again = [
            Step::PlateAndBar,
            Step::FrontEnds,
            Step::FrontAdjuster,
            Step::RearEnds,
            Step::RearAdjuster,
        ];
        assert_eq!(entries.sheet.again, again);
        assert_eq!(entries.bars_aside().count(), 1);
        assert_eq!(entries.take_bar("0.5 in", IN), BarTaken::CameBack);
        assert_eq!(entries.shown(left, IN), "0.5001 in ± 0.0001 in");
        assert!(!entries.sheet.again.contains(&Step::PlateAndBar));
        // A nominal size that nobody measured is kept for nobody.
        assert_eq!(entries.bars_aside().count(), 0);
    }
}
