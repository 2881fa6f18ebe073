//! Clearances and gaps from sizes and wear.

use std::f64::consts::PI;

use uom::si::{
    f64::{Length, TemperatureCoefficient, TemperatureInterval},
    length::meter,
    temperature_coefficient::per_kelvin,
    temperature_interval::kelvin,
};

use super::reading::{Gauged, GaugingError, Measured, Range, Source, gauged, part};

/// The clearance of a journal in a bore.
///
/// # Formula
///
/// ```text
/// C = D_bore − D_journal        below 0 it is interference
/// ```
///
/// The bore of a bearing is measured with its shells in and its bolts tightened.
///
/// # Errors
///
/// When a number is not finite.
pub fn clearance(bore: &Measured, journal: &Measured) -> Result<Gauged, GaugingError> {
    gauged(
        (bore.value - journal.value).get::<meter>(),
        vec![
            part(Source::Bore, bore.standard(), 1.0),
            part(Source::Journal, journal.standard(), -1.0),
        ],
    )
}

/// The clearance of a journal between two shells whose walls were measured out of their housing.
///
/// # Formula
///
/// ```text
/// C = D_housing − t₁ − t₂ − D_journal
/// ```
///
/// So wear of t on each of two shells opens the clearance by 2t. Crush, which presses the walls thinner
/// when the bolts are tightened, is not in it.
///
/// # Errors
///
/// When a number is not finite.
pub fn clearance_in_shells(
    housing: &Measured,
    walls: &[Measured; 2],
    journal: &Measured,
) -> Result<Gauged, GaugingError> {
    let [upper, lower] = walls;
    let left = housing.value - upper.value - lower.value - journal.value;
    gauged(
        left.get::<meter>(),
        vec![
            part(Source::Bore, housing.standard(), 1.0),
            part(Source::Wall(1), upper.standard(), -1.0),
            part(Source::Wall(2), lower.standard(), -1.0),
            part(Source::Journal, journal.standard(), -1.0),
        ],
    )
}

/// The clearances that new parts may have.
///
/// # Formula
///
/// ```text
/// least: bore least − journal greatest        greatest: bore greatest − journal least
/// ```
pub fn clearances_as_new(bore: Range, journal: Range) -> Range {
    Range {
        low: bore.low - journal.high,
        high: bore.high - journal.low,
    }
}

/// How far a ring's gap has opened by the growth of its bore and the wear of its face.
///
/// # Formula
///
/// ```text
/// ΔG = π·ΔD + 2π·w        ΔD growth of the bore's diameter, w radial wear of the ring's face
/// ```
///
/// # Errors
///
/// When a number is not finite.
///
/// # Source
///
/// Geometry: the ring's outer edge is as long as the bore is round. At least one published manual gives less
/// (0.08 mm for 0.03 mm of diameter, where geometry gives 0.094 mm).
pub fn ring_gap_growth(
    bore_growth: &Measured,
    face_wear: &Measured,
) -> Result<Gauged, GaugingError> {
    let growth = bore_growth.value * PI + face_wear.value * (2.0 * PI);
    gauged(
        growth.get::<meter>(),
        vec![
            part(Source::Bore, bore_growth.standard(), PI),
            part(Source::FaceWear, face_wear.standard(), 2.0 * PI),
        ],
    )
}

/// How far a clearance closes when both parts warm by as much and the inner one expands more.
///
/// # Formula
///
/// ```text
/// D·(α_inner − α_outer)·ΔT
/// ```
pub fn closing_when_warm(
    size: Length,
    inner: TemperatureCoefficient,
    outer: TemperatureCoefficient,
    warmer: TemperatureInterval,
) -> Length {
    let per_kelvin_apart = (inner - outer).get::<per_kelvin>();
    size * (per_kelvin_apart * warmer.get::<kelvin>())
}
