//! What moves the end of a roller: an eccentric that is turned, a thread that is screwed.

use crate::units::{Angle, Length};

/// An eccentric: its centre goes round the bolt's on a circle. At 0° it stands level with it, and from
/// there it goes up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Eccentric {
    /// The radius of that circle.
    pub throw: Length,
    /// Where it stands.
    pub now: Angle,
}

/// How far an eccentric can still go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// Down: zero or less.
    pub down: Length,
    /// Up: zero or more.
    pub up: Length,
}

/// One of the two places at which an eccentric stands as high as wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EccentricTurn {
    /// Where it stands then, above -180° up to 180°.
    pub to: Angle,
    /// How far it is turned to get there, the short way round: positive as its angle grows.
    pub turn: Angle,
    /// How far the roller shifts along meanwhile, positive towards 0°.
    pub shift: Length,
}

/// A sine that is past the end of a circle by no more than the last digits of the sums is at its end.
const AT_THE_END: f64 = 1e-9;

impl Eccentric {
    /// How far it can still go: `throw·(1 − sin now)` up, `throw·(1 + sin now)` down.
    #[must_use]
    pub fn reach(self) -> Reach {
        let sine = self.now.rad().sin();
        Reach {
            down: self.throw * -(1.0 + sine),
            up: self.throw * (1.0 - sine),
        }
    }

    /// Where it stands when it has raised the roller's end by so much, the nearer turn first:
    /// `sin θ₂ = sin θ₁ + by/throw`. None when that is out of its throw.
    #[must_use]
    pub fn raised_by(self, by: Length) -> Option<[EccentricTurn; 2]> {
        let (sine, cosine) = self.now.rad().sin_cos();
        let wanted = sine + by.mm() / self.throw.mm();
        if wanted.abs() > 1.0 + AT_THE_END {
            return None;
        }
        let ahead_rad = wanted.clamp(-1.0, 1.0).asin();
        let mut turns = [ahead_rad.to_degrees(), 180.0 - ahead_rad.to_degrees()].map(|to_deg| {
            let to = Angle::from_deg(within_half_turn(to_deg));
            EccentricTurn {
                to,
                turn: Angle::from_deg(within_half_turn(to_deg - self.now.deg())),
                shift: self.throw * (to.rad().cos() - cosine),
            }
        });
        let [first, second] = turns.map(|turn| turn.turn.deg().abs());
        if second < first {
            turns.reverse();
        }
        Some(turns)
    }
}

/// The same angle above -180° and up to 180°, in degrees.
fn within_half_turn(deg: f64) -> f64 {
    let deg = deg.rem_euclid(360.0);
    if deg > 180.0 { deg - 360.0 } else { deg }
}

/// How many turns of a thread raise the roller's end by so much; a thread that leans raises it by less
/// in a turn.
#[must_use]
pub fn turns_to_raise(by: Length, pitch: Length, tilt: Angle) -> f64 {
    by.mm() / (pitch.mm() * tilt.rad().cos())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn eccentric(now_deg: f64) -> Eccentric {
        Eccentric {
            throw: Length::from_inches(0.0625),
            now: Angle::from_deg(now_deg),
        }
    }

    #[test]
    fn a_sixteenth_of_throw_is_turned_as_worked_by_hand() {
        // Worked by hand: asin(0.010/0.0625) is 9.207°, and 0.0625·(cos 170.793° − 1) is −0.1242.
        let up = eccentric(0.0)
            .raised_by(Length::from_inches(0.010))
            .unwrap();
        assert!((up[0].to.deg() - 9.207).abs() < 5e-4, "{up:?}");
        assert!((up[1].to.deg() - 170.793).abs() < 5e-4, "{up:?}");
        assert!((up[1].shift.inches() + 0.1242).abs() < 5e-5, "{up:?}");
        let low = eccentric(30.0);
        assert_eq!(low.raised_by(Length::from_inches(0.040)), None);
        assert!((low.reach().up.inches() - 0.03125).abs() < 1e-12);
        assert!((low.reach().down.inches() + 0.09375).abs() < 1e-12);
    }

    #[test]
    fn at_the_end_of_its_throw_both_turns_are_one() {
        let low = eccentric(-30.0);
        let [near, far] = low.raised_by(low.reach().up).unwrap();
        assert!((near.to.deg() - 90.0).abs() < 1e-3 && (far.to.deg() - 90.0).abs() < 1e-3);
    }

    #[test]
    fn a_thread_that_leans_takes_more_turns() {
        let pitch = Length::from_mm(1.25);
        let turns = |tilt| turns_to_raise(Length::from_mm(-0.5), pitch, Angle::from_deg(tilt));
        assert!((turns(0.0) + 0.4).abs() < 1e-12);
        assert!((turns(60.0) + 0.8).abs() < 1e-12);
    }

    proptest! {
        #[test]
        fn both_turns_raise_it_as_wanted_and_the_first_is_the_nearer(
            throw_mm in 0.2..5.0_f64,
            now_deg in -360.0..360.0_f64,
            share in -1.0..1.0_f64,
        ) {
            let eccentric = Eccentric {
                throw: Length::from_mm(throw_mm),
                now: Angle::from_deg(now_deg),
            };
            let reach = eccentric.reach();
            let by = if share < 0.0 { reach.down * -share } else { reach.up * share };
            let turns = eccentric.raised_by(by).unwrap();
            for turn in turns {
                let (start, end) = (eccentric.now.rad(), turn.to.rad());
                prop_assert!((throw_mm * (end.sin() - start.sin()) - by.mm()).abs() < 1e-9);
                prop_assert!((throw_mm * (end.cos() - start.cos()) - turn.shift.mm()).abs() < 1e-9);
                prop_assert!(turn.to.deg() > -180.0 && turn.to.deg() <= 180.0);
                let arrives = (start + turn.turn.rad() - end).sin();
                prop_assert!(arrives.abs() < 1e-9);
            }
            prop_assert!(turns[0].turn.deg().abs() <= turns[1].turn.deg().abs());
            let past = by.mm() + by.mm().signum() * 2.0 * throw_mm + 1e-3;
            prop_assert_eq!(eccentric.raised_by(Length::from_mm(past)), None);
        }
    }
}
