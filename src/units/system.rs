//! The units a person works in: decimal inches, fractions of an inch, or millimetres.

/// The units a person works in. It changes what is shown, never a stored value.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub enum System {
    /// `0.125 in`.
    #[default]
    InchDecimal,
    /// `1/8 in`, `1-3/8 in`; what no 64th meets in decimals.
    InchFraction,
    /// `3.18 mm`.
    Millimetre,
}

impl System {
    /// Every system, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::InchDecimal, Self::InchFraction, Self::Millimetre];

    /// Whether its lengths are metric.
    #[must_use]
    pub const fn is_metric(self) -> bool {
        matches!(self, Self::Millimetre)
    }

    /// Its name in the unit switch.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::InchDecimal => "in, decimal",
            Self::InchFraction => "in, fractions",
            Self::Millimetre => "mm",
        }
    }
}
