//! A unit measured anew on the surface plate: what was read now stands as measured, and what was not read is
//! carried there from the pose it was measured in before.

use crate::geometry::Pose;
use crate::plate::Measured;
use crate::unit::{ClosingReadings, Document, Reading, SettingEntry};
use crate::units::{Angle, Length, Measure, Quantity, System};

/// What was read of a unit now.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct MeasuredAnew {
    /// The reel's diameter.
    pub reel_diameter: Option<Measured>,
    /// The height of cut.
    pub height_of_cut: Option<Measured>,
    /// The attitude.
    pub attitude: Option<Measured<Angle>>,
}

/// Why what was read of a unit does not go into it as measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotAsMeasured {
    /// The unit is drawn with its rollers given, with another knife, its edge moved, or ground.
    SetOtherwise,
    /// There is no pose with these readings and what was measured before.
    NoSuchPose,
}

/// Readings nearer to each other are one, in millimetres and degrees.
const SAME: f64 = 1e-6;

/// A reading with its ±, a rectangular half-width (JCGM 100:2008, 4.3.7); without one where it says nothing
/// of itself.
pub(super) fn with_off<M: Measure>(read: Measured<M>, system: System) -> Quantity<M> {
    let half_width = M::from_base(read.standard.base() * 3.0_f64.sqrt());
    off_by(Quantity::from_value(read.value, system), half_width, system)
}

/// A quantity with a ±, whose digits are kept where rounding would change it.
fn off_by<M: Measure>(value: Quantity<M>, half_width: M, system: System) -> Quantity<M> {
    const MOST_ROUNDED: f64 = 0.02;
    if half_width.base() <= 0.0 {
        return value;
    }
    let round = Quantity::from_value(half_width, system);
    let rounded_by = (round.value().base() / half_width.base() - 1.0).abs();
    let off = if rounded_by > MOST_ROUNDED {
        Quantity::exactly(half_width, system)
    } else {
        round
    };
    Quantity::parse(&format!("{} ± {}", value.text(), off.text())).unwrap_or(value)
}

/// Puts a reading in the place of an older one. One that is the same, or says nothing of its ±, keeps the
/// older one's: it was most likely read with the same instrument.
fn read_anew<M: Measure>(older: &mut Quantity<M>, read: Measured<M>, system: System) {
    let now = with_off(read, system);
    let is_same = (now.value().base() - older.value().base()).abs() < SAME;
    let older_off = older.half_width().filter(|off| off.base() > 0.0);
    match (older_off, read.standard.base() > 0.0) {
        (_, false) if is_same => {}
        (Some(off), false) => *older = off_by(now, off, system),
        _ if is_same && older_off.is_some_and(|off| now.half_width() == Some(off)) => {}
        _ => *older = now,
    }
}

/// Takes a reading along to where it is now, with its own ±.
fn carry<M: Measure>(reading: &mut Quantity<M>, now: M, system: System) {
    if (now.base() - reading.value().base()).abs() < SAME {
        return;
    }
    let off = reading.half_width();
    let now = Quantity::from_value(now, system);
    *reading = match off {
        Some(off) => off_by(now, off, system),
        None => now,
    };
}

impl MeasuredAnew {
    /// Whether nothing was read.
    #[must_use]
    pub fn is_none(&self) -> bool {
        *self == Self::default()
    }

    /// Puts what was read into a unit as measured, and takes the older readings along: behind centre, the
    /// rollers' places, a pivot and a lean stand then where the geometry brings them in the pose that was
    /// read. Each keeps its own ±: what a pose differs from an older one by was read with one instrument
    /// both times, whose own fault is not in the difference.
    ///
    /// # Errors
    /// Where the unit is drawn otherwise than it was measured, or no such pose exists; it is left as it is.
    pub fn put_into(&self, document: &mut Document) -> Result<(), NotAsMeasured> {
        let SettingEntry {
            knife,
            extension,
            top_ground,
            face_ground,
            rollers,
            ..
        } = &document.setting;
        let is_some = |length: &Option<Quantity<Length>>| {
            length
                .as_ref()
                .is_some_and(|length| length.value() != Length::ZERO)
        };
        let is_other_knife = knife
            .as_ref()
            .is_some_and(|knife| *knife != document.knife.name);
        if rollers.is_some()
            || is_other_knife
            || [extension, top_ground, face_ground]
                .into_iter()
                .any(is_some)
        {
            return Err(NotAsMeasured::SetOtherwise);
        }
        let system = document.system();
        let Some(pose) = self.pose(document, system) else {
            return Err(NotAsMeasured::NoSuchPose);
        };
        carry_along(document, &pose, system);
        let (bench, setting) = (&mut document.bench, &mut document.setting);
        if let Some(read) = self.reel_diameter {
            read_anew(&mut bench.reel_diameter, read, system);
            setting.reel_diameter = None;
            document.examples.keep(Reading::ReelDiameter);
        }
        if let Some(read) = self.height_of_cut {
            read_anew(&mut bench.height_of_cut, read, system);
            setting.height_of_cut = None;
            document.examples.keep(Reading::HeightOfCut);
        }
        if let Some(read) = self.attitude {
            read_anew(&mut bench.attitude, read, system);
            setting.attitude = None;
            document.examples.keep(Reading::Attitude);
        }
        Ok(())
    }

    /// The pose that was read; what was not read of it as it was measured before.
    fn pose(&self, document: &Document, system: System) -> Option<Pose> {
        let rounded = |read: Measured| Quantity::from_value(read.value, system);
        let mut set = document.clone();
        set.setting = SettingEntry {
            reel_diameter: self.reel_diameter.map(rounded),
            height_of_cut: self.height_of_cut.map(rounded),
            attitude: self
                .attitude
                .map(|read| Quantity::from_value(read.value, system)),
            ..SettingEntry::default()
        };
        let unit = set.checked().ok()?;
        Pose::solve(&unit.profile, &unit.setting).ok()
    }
}

/// Takes the older readings along to a pose.
fn carry_along(document: &mut Document, pose: &Pose, system: System) {
    let edge_mm = pose.edge_on_plate.x;
    let bench = &mut document.bench;
    let across = Length::from_mm;
    carry(
        &mut bench.behind_centre,
        across(pose.edge_to_centre_mm().x),
        system,
    );
    let ahead_mm = pose.front_roller.centre.x - edge_mm;
    carry(&mut bench.front_roller.ahead, across(ahead_mm), system);
    let behind_mm = edge_mm - pose.rear_roller.centre.x;
    carry(&mut bench.rear_roller.behind, across(behind_mm), system);
    match &mut document.closing {
        ClosingReadings::ReelPivots { ahead, above }
        | ClosingReadings::KnifePivots { ahead, above } => {
            let in_frame = kurbo::Point::new(ahead.value().mm(), above.value().mm());
            let on_plate = pose.plate_from_frame * in_frame;
            carry(ahead, across(on_plate.x - edge_mm), system);
            carry(above, across(on_plate.y), system);
        }
        ClosingReadings::ReelSlides { lean } | ClosingReadings::KnifeSlides { lean } => {
            let [cos, sin, ..] = pose.plate_from_frame.as_coeffs();
            if let Some(lean) = lean {
                // What noses the unit down leans the line ahead.
                let nosed_down = Angle::from_rad(-sin.atan2(cos));
                let now = lean.value() + nosed_down;
                carry(lean, now, system);
            }
        }
    }
}
