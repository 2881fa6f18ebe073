//! A polynomial by least squares, through Householder's reflections.

use crate::{
    confidence::Dof,
    error::{StatsError, check_pairs, finite},
};

/// The highest degree that is fitted: past it powers are no good base.
pub const HIGHEST_DEGREE: usize = 6;

/// A fitted number with its standard error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coefficient {
    /// The number, in units of y for each unit of xᵏ.
    pub value: f64,
    /// Its standard error.
    pub se: f64,
}

/// A polynomial y = Σ bₖ·xᵏ through paired samples.
#[derive(Clone, Debug, PartialEq)]
pub struct PolynomialFit {
    /// b₀, b₁ and so on.
    pub coefficients: Vec<Coefficient>,
    /// s: the standard deviation of y about the curve, in the unit of y.
    pub residual_sd: f64,
    /// The degrees of freedom of s.
    pub dof: Dof,
    /// What share of the squares about the mean the curve takes away; none where there were none.
    pub r_squared: Option<f64>,
}

/// Fits a polynomial of a degree from 1 to [`HIGHEST_DEGREE`].
///
/// # Formula
///
/// ```text
/// z = x/max|x|        V = (zᵢᵏ)        V = Q·R by Householder's reflections
/// R·c = Qᵀy           bₖ = cₖ/max|x|ᵏ  s² = Σ (the rest of Qᵀy)²/(n − degree − 1)
/// u²(c) = s²·(RᵀR)⁻¹
/// ```
///
/// The normal equations are never formed, as they would square what is lost to rounding.
///
/// # Errors
///
/// [`StatsError::Lengths`] when the rows do not pair, [`StatsError::OutOfRange`] for another degree,
/// [`StatsError::TooFew`] where nothing is left to tell the scatter by, [`StatsError::NotFinite`],
/// [`StatsError::NoSpread`] when too few x differ, [`StatsError::Overflow`].
///
/// # Source
///
/// A. Björck, *Numerical methods for least squares problems*, SIAM 1996; held against NIST StRD Pontius.
pub fn fit_polynomial(x: &[f64], y: &[f64], degree: usize) -> Result<PolynomialFit, StatsError> {
    let what = "polynomial";
    if !(1..=HIGHEST_DEGREE).contains(&degree) {
        return Err(StatsError::OutOfRange {
            what: "degree of a polynomial",
            given: degree as f64,
            low: 1.0,
            high: HIGHEST_DEGREE as f64,
        });
    }
    let terms = degree + 1;
    check_pairs(what, x, y, terms + 1)?;
    let n = x.len();
    let Some(dof) = Dof::left(n, terms) else {
        return Err(StatsError::TooFew {
            what,
            got: n,
            least: terms + 1,
        });
    };
    let scale = x.iter().fold(0.0, |most: f64, x| most.max(x.abs()));
    let no_spread = StatsError::NoSpread { what, row: "x", n };
    if scale <= 0.0 {
        return Err(no_spread);
    }
    let mut columns = powers(x, scale, terms);
    let mut rest = y.to_vec();
    let diagonal = reflect(&mut columns, &mut rest).ok_or(no_spread)?;
    let left: f64 = rest[terms..].iter().map(|r| r * r).sum();
    let variance = finite(what, left)? / dof.get();
    let scaled = back(&columns, &diagonal, &rest);
    let inverse = rows_of_inverse(&columns, &diagonal);
    let mut coefficients = Vec::with_capacity(terms);
    let mut unit = 1.0;
    for (value, row) in scaled.iter().zip(&inverse) {
        let squares: f64 = row.iter().map(|r| r * r).sum();
        coefficients.push(Coefficient {
            value: finite(what, value / unit)?,
            se: finite(what, (variance * squares).sqrt() / unit)?,
        });
        unit *= scale;
    }
    let mean = crate::spread::mean(y)?;
    let squares: f64 = y.iter().map(|y| (y - mean) * (y - mean)).sum();
    Ok(PolynomialFit {
        coefficients,
        residual_sd: variance.sqrt(),
        dof,
        r_squared: (squares > 0.0).then(|| 1.0 - left / squares),
    })
}

/// By power: (x/scale)ᵏ of every sample.
fn powers(x: &[f64], scale: f64, terms: usize) -> Vec<Vec<f64>> {
    let mut columns = vec![vec![1.0; x.len()]];
    for _ in 1..terms {
        let next = match columns.last() {
            Some(last) => last.iter().zip(x).map(|(p, x)| p * (x / scale)).collect(),
            None => Vec::new(),
        };
        columns.push(next);
    }
    columns
}

/// Turns the columns into R (above its diagonal, which is given back) and y into Qᵀy. None where a
/// column is, to rounding, a mixture of those before it.
fn reflect(columns: &mut [Vec<f64>], y: &mut [f64]) -> Option<Vec<f64>> {
    const LOST: f64 = 1e-13;
    let mut diagonal = Vec::with_capacity(columns.len());
    for k in 0..columns.len() {
        let (done, others) = columns.split_at_mut(k + 1);
        let own = &mut done[k];
        let whole = norm(own);
        let length = norm(&own[k..]);
        if length <= LOST * whole {
            return None;
        }
        let turned = -length.copysign(own[k]);
        // The mirror's normal, v = own − turned·e, kept in place of the column below the diagonal.
        own[k] -= turned;
        let squares: f64 = own[k..].iter().map(|v| v * v).sum();
        for other in others.iter_mut().map(Vec::as_mut_slice).chain([&mut *y]) {
            let along: f64 = own[k..].iter().zip(&other[k..]).map(|(v, o)| v * o).sum();
            let by = 2.0 * along / squares;
            for (v, o) in own[k..].iter().zip(&mut other[k..]) {
                *o -= by * v;
            }
        }
        diagonal.push(turned);
    }
    Some(diagonal)
}

fn norm(column: &[f64]) -> f64 {
    column.iter().map(|v| v * v).sum::<f64>().sqrt()
}

/// Solves R·c = Qᵀy.
fn back(columns: &[Vec<f64>], diagonal: &[f64], y: &[f64]) -> Vec<f64> {
    let mut solved = vec![0.0; diagonal.len()];
    for k in (0..diagonal.len()).rev() {
        let known: f64 = (k + 1..diagonal.len())
            .map(|j| columns[j][k] * solved[j])
            .sum();
        solved[k] = (y[k] - known) / diagonal[k];
    }
    solved
}

/// R⁻¹ by rows.
fn rows_of_inverse(columns: &[Vec<f64>], diagonal: &[f64]) -> Vec<Vec<f64>> {
    let terms = diagonal.len();
    let mut rows = vec![vec![0.0; terms]; terms];
    for column in 0..terms {
        let mut unit = vec![0.0; terms];
        unit[column] = 1.0;
        for (row, value) in rows.iter_mut().zip(back(columns, diagonal, &unit)) {
            row[column] = value;
        }
    }
    rows
}
