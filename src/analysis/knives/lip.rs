//! A knife's own life: the lip that is left, and how many grinds are left in it.

use crate::analysis::ranges::MOST_OF_LIP;
use crate::geometry::KnifeSection;
use crate::unit::Grinding;
use crate::units::Length;

/// What is left of a knife's lip, zero or more.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LipLeft {
    /// Its thickness under the edge as ground, square to the knife datum.
    pub thickness: Length,
    /// Its length behind the edge as ground, along the knife datum.
    pub length: Length,
    /// The least thickness that a grind may leave.
    pub least: Length,
    /// Whole grinds of the top face until then; none where it is not known what a grind takes.
    pub grinds: Option<u32>,
}

impl LipLeft {
    /// The lip of a knife as it is ground.
    #[must_use]
    pub fn of(knife: &KnifeSection, grinding: &Grinding) -> Self {
        let zero_or_more = |mm: f64| Length::from_mm(mm.max(0.0));
        let edge = knife.edge_from_unground();
        let thickness_mm = knife.lip_thickness.mm() - edge.y;
        let least = grinding
            .least_lip
            .unwrap_or(knife.lip_thickness * (1.0 - MOST_OF_LIP));
        let grinds = grinding.a_grind.map(|a_grind| {
            let once_more = KnifeSection {
                top_ground: knife.top_ground + a_grind,
                ..*knife
            };
            let a_grind_mm = once_more.edge_from_unground().y - edge.y;
            // What is left over after whole grinds is not to be lost to the last digit.
            let grinds = (thickness_mm - least.mm()) / a_grind_mm + 1e-9;
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "whole grinds, zero or more"
            )]
            let grinds = grinds.floor().max(0.0) as u32;
            grinds
        });
        Self {
            thickness: zero_or_more(thickness_mm),
            length: zero_or_more(knife.lip_length.mm() - edge.x),
            least,
            grinds,
        }
    }

    /// The grinds left in words; none where it is not known what a grind takes.
    #[must_use]
    pub fn grinds_told(&self) -> Option<String> {
        Some(match self.grinds? {
            0 => "no grind left".to_owned(),
            1 => "1 grind left".to_owned(),
            grinds => format!("{grinds} grinds left"),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Angle;

    fn inches(inches: f64) -> Length {
        Length::from_inches(inches)
    }

    fn knife() -> KnifeSection {
        KnifeSection {
            reach: inches(1.5),
            width: inches(2.5),
            lip_thickness: inches(0.12),
            lip_length: inches(0.5),
            body_thickness: inches(0.25),
            top_angle: None,
            front_angle: None,
            top_ground: inches(0.02),
            face_ground: inches(0.1),
        }
    }

    #[test]
    fn grinds_are_counted_down_to_the_least_lip() {
        let grinding = |a_grind: Option<f64>, least: Option<f64>| Grinding {
            a_grind: a_grind.map(inches),
            least_lip: least.map(inches),
        };
        let left = LipLeft::of(&knife(), &grinding(Some(0.005), Some(0.04)));
        assert!((left.thickness.inches() - 0.1).abs() < 1e-12);
        assert!((left.length.inches() - 0.4).abs() < 1e-12);
        assert_eq!(left.grinds, Some(12));
        // Half of what it was made with, where no least is given: 0.06 of 0.12 in.
        let left = LipLeft::of(&knife(), &grinding(Some(0.005), None));
        assert_eq!((left.grinds, left.least), (Some(8), inches(0.06)));
        assert_eq!(LipLeft::of(&knife(), &grinding(None, None)).grinds, None);
        let worn = KnifeSection {
            top_ground: inches(0.2),
            ..knife()
        };
        let left = LipLeft::of(&worn, &grinding(Some(0.005), None));
        assert_eq!((left.thickness, left.grinds), (Length::ZERO, Some(0)));
        assert_eq!(left.grinds_told().as_deref(), Some("no grind left"));
    }

    #[test]
    fn a_leaning_front_face_and_a_relieved_top_face_count() {
        // Ground one grind at a time, the lip is at its least after as many as were told, and below
        // it after one more.
        let faced = KnifeSection {
            top_angle: Some(Angle::from_deg(7.0)),
            front_angle: Some(Angle::from_deg(9.0)),
            ..knife()
        };
        let grinding = Grinding {
            a_grind: Some(inches(0.004)),
            least_lip: Some(inches(0.05)),
        };
        let grinds = LipLeft::of(&faced, &grinding).grinds.expect("known");
        let after = |grinds: u32| {
            let ground = KnifeSection {
                top_ground: faced.top_ground + inches(0.004) * f64::from(grinds),
                ..faced
            };
            LipLeft::of(&ground, &grinding).thickness
        };
        assert!(grinds > 0, "{grinds}");
        assert!(after(grinds) >= inches(0.05), "{grinds}");
        assert!(after(grinds + 1) < inches(0.05), "{grinds}");
    }
}
