//! The numbers that the sums are done in: plain ones, or dual ones that carry a derivative along.
//!
//! Every formula is written once over [`Number`]. With `f64` it gives the value, with
//! `num_dual::Dual64` the value and its derivative (forward differentiation, W. K. Clifford's dual
//! numbers). Numbers are compared by their real part, so both walk the same way.

use std::f64::consts::FRAC_PI_2;

use num_dual::DualNum;

/// A number that the geometry can reckon with: `f64`, or a dual number over it.
pub trait Number: DualNum<Primitive = f64> + Copy {
    /// A number without a derivative.
    #[must_use]
    fn exact(value: f64) -> Self {
        Self::from(value)
    }

    /// Its derivative alone, on the value zero.
    #[must_use]
    fn without_value(self) -> Self {
        self - self.re()
    }

    /// The square root; zero, and no derivative, where rounding left zero or less.
    ///
    /// At zero the root has no derivative: a reading the least bit off has no solution, or one
    /// infinitely far off in proportion.
    #[must_use]
    fn root(self) -> Self {
        if self.re() <= 0.0 {
            Self::exact(0.0)
        } else {
            self.sqrt()
        }
    }

    /// The angle from the first axis, in radians, of a way with this height and such a length
    /// along; its derivative is right straight up and down too.
    #[must_use]
    fn angle_over(self, along: Self) -> Self {
        let (y, x) = (self.re(), along.re());
        if x.abs() >= y.abs() {
            self.atan2(along)
        } else {
            -(along / self).atan() + FRAC_PI_2.copysign(y)
        }
    }
}

impl<N: DualNum<Primitive = f64> + Copy> Number for N {}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use num_dual::Dual64;

    use super::*;

    #[test]
    fn an_angle_turns_evenly_all_the_way_round() {
        for step in -17..18_i32 {
            let angle_rad = f64::from(step) * PI / 18.0;
            let angle = Dual64::new(angle_rad, 1.0);
            let (height, along) = angle.sin_cos();
            let back = height.angle_over(along);
            assert!((back.re - angle_rad).abs() < 1e-15, "{angle_rad}");
            assert!((back.eps - 1.0).abs() < 1e-15, "{angle_rad}");
        }
        let straight_up = Dual64::new(2.0, 0.0).angle_over(Dual64::new(0.0, 1.0));
        assert!(
            (straight_up.re - FRAC_PI_2).abs() < 1e-15 && (straight_up.eps + 0.5).abs() < 1e-15
        );
    }

    #[test]
    fn the_root_of_zero_is_zero_without_a_derivative() {
        for under_root in [0.0, -1e-13] {
            let root = Dual64::new(under_root, 1.0).root();
            assert_eq!((root.re.to_bits(), root.eps.to_bits()), (0, 0));
        }
        let root = Dual64::new(9.0, 1.0).root();
        assert!((root.re - 3.0).abs() < 1e-15 && (root.eps - 1.0 / 6.0).abs() < 1e-15);
    }
}
