//! Wear grades: an ordinal ladder with half steps.

use std::fmt;

use serde::{Deserialize, Serialize};

/// A wear grade: none, trace, light, medium, heavy, severe, and the half steps between.
///
/// A grade is ordinal: it says "more than" and "less than", not "by how much". What it is worth on
/// the score is a table of the plan. The ladder is common practice of the trade; its boundaries are
/// not standardised.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// No wear seen.
    None,
    /// Between none and trace.
    NoneToTrace,
    /// Just to be seen.
    Trace,
    /// Between trace and light.
    TraceToLight,
    /// Light.
    Light,
    /// Between light and medium.
    LightToMedium,
    /// Medium.
    Medium,
    /// Between medium and heavy.
    MediumToHeavy,
    /// Heavy.
    Heavy,
    /// Between heavy and severe.
    HeavyToSevere,
    /// Severe.
    Severe,
}

impl Grade {
    /// Every grade from none to severe, half steps among them.
    pub const ALL: [Self; 11] = [
        Self::None,
        Self::NoneToTrace,
        Self::Trace,
        Self::TraceToLight,
        Self::Light,
        Self::LightToMedium,
        Self::Medium,
        Self::MediumToHeavy,
        Self::Heavy,
        Self::HeavyToSevere,
        Self::Severe,
    ];

    /// The six whole grades.
    pub const WHOLE: [Self; 6] = [
        Self::None,
        Self::Trace,
        Self::Light,
        Self::Medium,
        Self::Heavy,
        Self::Severe,
    ];

    /// How many half steps above none: 0 to 10.
    pub fn half_steps(self) -> usize {
        self as usize
    }

    /// The grade so many half steps above none, if there is one.
    pub fn from_half_steps(half_steps: usize) -> Option<Self> {
        Self::ALL.get(half_steps).copied()
    }

    /// The name as the file writes it.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::NoneToTrace => "none_to_trace",
            Self::Trace => "trace",
            Self::TraceToLight => "trace_to_light",
            Self::Light => "light",
            Self::LightToMedium => "light_to_medium",
            Self::Medium => "medium",
            Self::MediumToHeavy => "medium_to_heavy",
            Self::Heavy => "heavy",
            Self::HeavyToSevere => "heavy_to_severe",
            Self::Severe => "severe",
        }
    }
}

impl fmt::Display for Grade {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}
