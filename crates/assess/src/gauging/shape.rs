//! Out-of-round, taper and wear from a grid of heights and axes.

use ringland_stats::uncertainty::Standard;
use uom::si::{f64::Length, length::meter};

use super::reading::{AsNew, Gauged, GaugingError, Measured, Source, gauged, part};

/// Which way wear goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Feature {
    /// A bore grows.
    Bore,
    /// A journal shrinks.
    Journal,
}

/// Diameters of a bore or a journal: one for each height and axis.
///
/// Readings of one gauge: their scatter is independent, what the gauge is off by is common.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    feature: Feature,
    /// By height from the top, then by axis.
    rows: Vec<Vec<f64>>,
    repeatability: Standard,
    calibration: Standard,
}

/// The place where a part has worn most, and how far.
#[derive(Clone, Debug, PartialEq)]
pub struct MaxWear {
    /// Which height, from 0 at the top.
    pub height: usize,
    /// Which axis, from 0.
    pub axis: usize,
    /// The wear on the diameter.
    pub wear: Gauged,
}

impl Grid {
    /// A grid of diameters, by height from the top and then by axis. `repeatability` is the standard
    /// uncertainty of one reading in its scatter (its value is not read), `calibration` what the gauge is known to.
    ///
    /// # Errors
    ///
    /// [`GaugingError::Grid`] unless every height has a reading on each axis.
    pub fn new(
        feature: Feature,
        rows: &[Vec<Length>],
        repeatability: Measured,
        calibration: Length,
    ) -> Result<Self, GaugingError> {
        let want = rows.first().map_or(1, |row| row.len().max(1));
        if rows.is_empty() {
            return Err(GaugingError::Grid {
                height: 0,
                got: 0,
                want,
            });
        }
        for (height, row) in rows.iter().enumerate() {
            if row.len() != want {
                return Err(GaugingError::Grid {
                    height,
                    got: row.len(),
                    want,
                });
            }
        }
        Ok(Self {
            feature,
            rows: rows
                .iter()
                .map(|row| row.iter().map(Length::get::<meter>).collect())
                .collect(),
            repeatability: repeatability.standard(),
            calibration: Standard::known(calibration.get::<meter>()),
        })
    }

    /// The out-of-round at a height: how far its diameters are apart.
    ///
    /// # Formula
    ///
    /// ```text
    /// max D − min D over the axes; on two axes |D_thrust − D_axial|
    /// ```
    ///
    /// This is a difference of diameters, as the trade has it; roundness after ISO 1101 is radial, about half
    /// of it for an oval. The gauge's own error drops out.
    ///
    /// # Errors
    ///
    /// [`GaugingError::NoSuchPlace`].
    ///
    /// # Source
    ///
    /// Navy training manual 14076 (where to measure); the formula is common practice.
    pub fn out_of_round(&self, height: usize) -> Result<Gauged, GaugingError> {
        let row = self.rows.get(height).ok_or(GaugingError::NoSuchPlace {
            what: "height",
            given: height,
            of: self.rows.len(),
        })?;
        let most = row.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let least = row.iter().copied().fold(f64::INFINITY, f64::min);
        self.difference(most - least)
    }

    /// The taper along an axis: how far the diameters at top and bottom are apart.
    ///
    /// # Formula
    ///
    /// ```text
    /// |D_top − D_bottom|
    /// ```
    ///
    /// # Errors
    ///
    /// [`GaugingError::NoSuchPlace`].
    ///
    /// # Source
    ///
    /// As [`Grid::out_of_round`].
    pub fn taper(&self, axis: usize) -> Result<Gauged, GaugingError> {
        let none = GaugingError::NoSuchPlace {
            what: "axis",
            given: axis,
            of: self.rows[0].len(),
        };
        let at = |row: Option<&Vec<f64>>| row?.get(axis).copied();
        match (at(self.rows.first()), at(self.rows.last())) {
            (Some(top), Some(bottom)) => self.difference((top - bottom).abs()),
            _ => Err(none),
        }
    }

    /// Where the part has worn most, and how far: on the diameter.
    ///
    /// # Formula
    ///
    /// ```text
    /// bore: max D − D_new        journal: D_new − min D
    /// ```
    ///
    /// The budget is that of the reading that is furthest out; that the furthest of several is picked makes
    /// it a little too large on average, by up to the scatter of a reading.
    ///
    /// # Errors
    ///
    /// When a number is too large.
    pub fn max_wear(&self, as_new: &AsNew) -> Result<MaxWear, GaugingError> {
        let sign = match self.feature {
            Feature::Bore => 1.0,
            Feature::Journal => -1.0,
        };
        let (mut height, mut axis, mut furthest) = (0, 0, f64::NEG_INFINITY);
        for (at_height, row) in self.rows.iter().enumerate() {
            for (at_axis, diameter) in row.iter().enumerate() {
                if sign * diameter > furthest {
                    (height, axis, furthest) = (at_height, at_axis, sign * diameter);
                }
            }
        }
        let new = as_new.measured();
        let wear = gauged(
            furthest - sign * new.value.get::<meter>(),
            vec![
                part(Source::Reading, self.repeatability, 1.0),
                part(Source::Calibration, self.calibration, 1.0),
                part(Source::AsNew, new.standard(), -1.0),
            ],
        )?;
        Ok(MaxWear { height, axis, wear })
    }

    /// A difference of two readings.
    fn difference(&self, metres: f64) -> Result<Gauged, GaugingError> {
        gauged(
            metres,
            vec![
                part(Source::Reading, self.repeatability, 1.0),
                part(Source::OtherReading, self.repeatability, -1.0),
            ],
        )
    }
}
