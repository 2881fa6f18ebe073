//! A reading with its uncertainty, and a result with its budget.

use ringland_stats::{
    StatsError,
    confidence::{Confidence, Dof},
    uncertainty::{Budget, Component, Expanded, Standard, combine, repeats},
};
use uom::si::{f64::Length, length::meter};

/// What goes into a result.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// A reading of the part.
    Reading,
    /// The scatter of repeats of a reading.
    Repeats,
    /// The smallest step that the gauge shows.
    Resolution,
    /// A second reading that the first is held against.
    OtherReading,
    /// What the gauge itself is known to, common to all its readings.
    Calibration,
    /// The size as new.
    AsNew,
    /// A bore, or the housing of a bearing.
    Bore,
    /// A journal or another shaft.
    Journal,
    /// The wall of a bearing shell; the number is that of the shell.
    Wall(u8),
    /// The wear of a face.
    FaceWear,
    /// The part's temperature.
    PartTemperature,
    /// The gauge's temperature.
    GaugeTemperature,
    /// The temperature of both, read once.
    Temperature,
    /// The part's expansion coefficient.
    PartExpansion,
    /// The gauge's expansion coefficient.
    GaugeExpansion,
    /// The wear while breaking in.
    BreakIn,
}

/// Why nothing can be worked out.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum GaugingError {
    /// A grid with a gap, or with nothing in it.
    #[error(
        "the grid has {got} readings at height {height}, not {want}: each height needs one for each axis"
    )]
    Grid {
        /// Which height, from 0.
        height: usize,
        /// Readings there.
        got: usize,
        /// Axes.
        want: usize,
    },
    /// A place that the grid does not have.
    #[error("there is no {what} {given} in a grid of {of}")]
    NoSuchPlace {
        /// Height or axis.
        what: &'static str,
        /// The number asked for, from 0.
        given: usize,
        /// How many there are.
        of: usize,
    },
    /// A limit at the size as new.
    #[error("the limit equals the as-new size: there is no allowance to use")]
    NoAllowance,
    /// A distance, time or amount of fuel that leaves nothing to divide by.
    #[error(
        "run for {run} with a break-in until {until}: the run must be longer, and both of one kind"
    )]
    Run {
        /// The run, in SI units.
        run: f64,
        /// The end of the break-in, in SI units; 0 where there is none.
        until: f64,
    },
    /// Positions of different kinds, or none.
    #[error("the first limit takes at least one position, all with runs of one kind")]
    Positions,
    /// Numbers that cannot be worked with.
    #[error(transparent)]
    Numbers(#[from] StatsError),
}

/// A length with its standard uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// The length.
    pub value: Length,
    /// Its standard uncertainty.
    pub u: Length,
    /// The degrees of freedom of that.
    pub dof: Dof,
}

impl Measured {
    /// With an uncertainty that is itself not in doubt.
    pub fn known(value: Length, u: Length) -> Self {
        Self {
            value,
            u,
            dof: Dof::INFINITE,
        }
    }

    /// The mean of repeated readings.
    ///
    /// # Errors
    ///
    /// Under two readings, and for readings that are not finite.
    pub fn from_repeats(readings: &[Length]) -> Result<Self, GaugingError> {
        let metres: Vec<f64> = readings.iter().map(Length::get::<meter>).collect();
        let repeats = repeats(&metres)?;
        Ok(Self {
            value: Length::new::<meter>(repeats.mean),
            u: Length::new::<meter>(repeats.standard.u),
            dof: repeats.standard.dof,
        })
    }

    /// The standard uncertainty in metres.
    pub(super) fn standard(&self) -> Standard {
        Standard {
            u: self.u.get::<meter>(),
            dof: self.dof,
        }
    }
}

/// All sizes from one to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The least.
    pub low: Length,
    /// The greatest.
    pub high: Length,
}

/// The size of a part before it ran.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AsNew {
    /// It was measured.
    Known(Measured),
    /// Only the range of new parts is known: it was anywhere in it.
    Range(Range),
}

impl AsNew {
    /// The best value; the middle of a range with the range's rectangular uncertainty.
    pub fn measured(&self) -> Measured {
        match *self {
            Self::Known(measured) => measured,
            Self::Range(Range { low, high }) => {
                let half = (high - low).abs().get::<meter>() / 2.0;
                Measured::known(
                    (low + high) / 2.0,
                    Length::new::<meter>(Standard::rectangular(half).u),
                )
            }
        }
    }
}

/// A length that was worked out, with the budget of its uncertainty in metres.
#[derive(Clone, Debug, PartialEq)]
pub struct Gauged {
    /// The length.
    pub value: Length,
    /// What its uncertainty is made of.
    pub budget: Budget<Source>,
}

impl Gauged {
    /// To go into another result. Where the budget has no effective degrees of freedom they count as 1:
    /// as few as there can be.
    pub fn measured(&self) -> Measured {
        Measured {
            value: self.value,
            u: Length::new::<meter>(self.budget.u),
            dof: self.budget.dof.unwrap_or(Dof::ONE),
        }
    }

    /// The expanded uncertainty, in metres.
    ///
    /// # Errors
    ///
    /// When it is too large for a number.
    pub fn expanded(&self, confidence: Confidence) -> Result<Option<Expanded>, GaugingError> {
        Ok(self.budget.expanded(confidence)?)
    }
}

/// A component: what it is, its standard uncertainty, and the result's sensitivity to it.
pub(super) fn part(label: Source, standard: Standard, sensitivity: f64) -> Component<Source> {
    Component {
        label,
        standard,
        sensitivity,
    }
}

/// A length in metres with its independent components.
pub(super) fn gauged(
    metres: f64,
    components: Vec<Component<Source>>,
) -> Result<Gauged, GaugingError> {
    if !metres.is_finite() {
        return Err(StatsError::NotFinite {
            place: 0,
            given: metres,
        }
        .into());
    }
    Ok(Gauged {
        value: Length::new::<meter>(metres),
        budget: combine(components, &[])?,
    })
}
