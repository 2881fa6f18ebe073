//! How a plane is seen in a picture: the projective map that takes four points to four others.
//!
//! A straight line stays straight, a length does not keep its ratio to another. What lies on the plane can be measured
//! in the picture once four points of it are known; what does not lie on it cannot.

use crate::{
    Point,
    error::{StatsError, check, finite},
    point::{coordinates, cross},
};

/// Twice the area of a triangle of three corners below which they are taken to lie on one line, where the four lie √2
/// from their middle on average. Rounding makes some 1e-15; marks in a picture of a thousand pixels stand a million
/// times as far apart.
const FLAT: f64 = 1e-6;

/// What w is taken to be 0 below, where it is 1 in the middle of the corners: nearer the horizon rounding decides.
const HORIZON: f64 = 1e-9;

/// Unknowns of a map of which one entry is set to 1.
const UNKNOWNS: usize = 8;

/// A projective map of a plane.
///
/// Its horizon is the line that it takes to infinity. It is asked only on that side of it where the four corners lie:
/// a camera does not see the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Homography {
    from: Frame,
    to: Frame,
    /// The map from normalised points to normalised points; its last entry is 1.
    normal: [[f64; 3]; 3],
}

impl Homography {
    /// The map that takes each of four corners, in order along the edges, to the one of the same place in `to`.
    /// Whether they go round in the same sense does not matter: a picture counts y downwards.
    ///
    /// # Formula
    ///
    /// ```text
    /// x′ = (h₁₁·x + h₁₂·y + h₁₃)/w   y′ = (h₂₁·x + h₂₂·y + h₂₃)/w   w = h₃₁·x + h₃₂·y + 1
    /// ```
    ///
    /// Multiplied by w these are two linear equations for each pair of points, eight for eight unknowns. Either four
    /// points are moved first to have their middle at 0, and scaled to lie √2 from it on average.
    ///
    /// # Errors
    ///
    /// [`StatsError::NotConvex`] where either four are not the corners of a convex quadrilateral in order, or three of
    /// them lie on one line; [`StatsError::NotFinite`], whose place counts x and y of each point in turn;
    /// [`StatsError::Overflow`].
    ///
    /// # Source
    ///
    /// R. Hartley and A. Zisserman, *Multiple View Geometry in Computer Vision*, 2nd edition, Cambridge 2004, section
    /// 4.1; R. Hartley, *In defense of the eight-point algorithm*, IEEE Trans. Pattern Anal. Mach. Intell. 19 (1997)
    /// 580-593, for the scaling (both from memory).
    pub fn from_points(from: [Point; 4], to: [Point; 4]) -> Result<Self, StatsError> {
        let (from_frame, from) = normalised(from, "points mapped from")?;
        let (to_frame, to) = normalised(to, "points mapped to")?;
        // w is 1 in the middle of the corners, which lies between them, so setting the last entry to 1 loses no map.
        let mut equations = [[0.0; UNKNOWNS + 1]; UNKNOWNS];
        for (pair, ((x, y), (u, v))) in from.into_iter().zip(to).enumerate() {
            equations[2 * pair] = [x, y, 1.0, 0.0, 0.0, 0.0, -u * x, -u * y, u];
            equations[2 * pair + 1] = [0.0, 0.0, 0.0, x, y, 1.0, -v * x, -v * y, v];
        }
        let [a, b, c, d, e, f, g, h] = solved(equations)?;
        Ok(Self {
            from: from_frame,
            to: to_frame,
            normal: [[a, b, c], [d, e, f], [g, h, 1.0]],
        })
    }

    /// Where a point is taken to, in the unit of the points mapped to.
    ///
    /// # Errors
    ///
    /// [`StatsError::BeyondHorizon`] on the horizon or past it, [`StatsError::NotFinite`], [`StatsError::Overflow`].
    pub fn apply(&self, point: Point) -> Result<Point, StatsError> {
        let (seen, _) = self.seen(point)?;
        let (x, y) = self.to.restore(seen);
        let what = "mapped point";
        Ok((finite(what, x)?, finite(what, y)?))
    }

    /// The map back.
    ///
    /// # Formula
    ///
    /// ```text
    /// H⁻¹ = adj H / (adj H)₃₃
    /// ```
    ///
    /// on normalised points; a map's factor is free, and with this one w is again 1 in the middle of the corners.
    #[must_use]
    pub fn inverse(&self) -> Self {
        let [[a, b, c], [d, e, f], [g, h, i]] = self.normal;
        let last = a * e - b * d;
        let adjugate = [
            [e * i - f * h, c * h - b * i, b * f - c * e],
            [f * g - d * i, a * i - c * g, c * d - a * f],
            [d * h - e * g, b * g - a * h, last],
        ];
        Self {
            from: self.to,
            to: self.from,
            normal: adjugate.map(|row| row.map(|entry| entry / last)),
        }
    }

    /// The derivatives at a point, `[[∂x′/∂x, ∂x′/∂y], [∂y′/∂x, ∂y′/∂y]]`, in units mapped to for each unit mapped
    /// from. With them the covariance U of a point becomes J·U·Jᵀ, and so the uncertainty of a length is found from
    /// that of its ends (JCGM 102, 6.2, from memory). They tell nothing of how uncertain the four corners are.
    ///
    /// # Formula
    ///
    /// ```text
    /// J = ((h₁₁ − x′·h₃₁)/w  (h₁₂ − x′·h₃₂)/w)
    ///     ((h₂₁ − y′·h₃₁)/w  (h₂₂ − y′·h₃₂)/w)
    /// ```
    ///
    /// # Errors
    ///
    /// As [`Homography::apply`].
    pub fn jacobian(&self, point: Point) -> Result<[[f64; 2]; 2], StatsError> {
        let ((u, v), w) = self.seen(point)?;
        let [x, y, [along_x, along_y, _]] = self.normal;
        let unit = self.from.scale / self.to.scale / w;
        let entry = |entry: f64| finite("derivative of the map", entry * unit);
        Ok([
            [entry(x[0] - u * along_x)?, entry(x[1] - u * along_y)?],
            [entry(y[0] - v * along_x)?, entry(y[1] - v * along_y)?],
        ])
    }

    /// How many times as large as around a point of this plane it is around the point that it is taken to.
    ///
    /// # Formula
    ///
    /// ```text
    /// |det J| = |det H|/|w|³
    /// ```
    ///
    /// with J the derivatives of [`Self::jacobian`].
    ///
    /// # Errors
    ///
    /// As [`Self::apply`].
    pub fn magnification(&self, point: Point) -> Result<f64, StatsError> {
        let [[a, b, c], [d, e, f], [g, h, i]] = self.normal;
        let (x, y) = self.from.normalise(point);
        let w = g * x + h * y + i;
        // Asked of each pixel of a photo: only where something is wrong is it looked into what.
        if !(w >= HORIZON && w.is_finite()) {
            self.seen(point)?;
        }
        let determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
        let unit = self.from.scale / self.to.scale;
        finite(
            "magnification of the map",
            (unit * unit * determinant / (w * w * w)).abs(),
        )
    }

    /// Where a point is taken to, normalised, and its w.
    fn seen(&self, point: Point) -> Result<(Point, f64), StatsError> {
        check("mapped point", &coordinates(&[point]), 1)?;
        let (x, y) = self.from.normalise(point);
        let [u, v, w] = self
            .normal
            .map(|[along_x, along_y, fixed]| along_x * x + along_y * y + fixed);
        if w < HORIZON {
            return Err(StatsError::BeyondHorizon {
                x: point.0,
                y: point.1,
            });
        }
        Ok(((u / w, v / w), w))
    }
}

/// Where normalised points have their origin, and how many of their units go into one of the others'.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Frame {
    middle: Point,
    scale: f64,
}

impl Frame {
    fn normalise(self, (x, y): Point) -> Point {
        (
            (x - self.middle.0) * self.scale,
            (y - self.middle.1) * self.scale,
        )
    }

    fn restore(self, (x, y): Point) -> Point {
        (
            x / self.scale + self.middle.0,
            y / self.scale + self.middle.1,
        )
    }
}

/// Four corners about their middle, √2 from it on average; refuses those that no map is of.
fn normalised(corners: [Point; 4], row: &'static str) -> Result<(Frame, [Point; 4]), StatsError> {
    check(row, &coordinates(&corners), 8)?;
    let mean = |of: fn(Point) -> f64| corners.iter().map(|corner| of(*corner)).sum::<f64>() / 4.0;
    let middle = (
        finite(row, mean(|(x, _)| x))?,
        finite(row, mean(|(_, y)| y))?,
    );
    let distances = corners.map(|(x, y)| libm::hypot(x - middle.0, y - middle.1));
    let distance = finite(row, distances.iter().sum::<f64>() / 4.0)?;
    if distance <= 0.0 {
        return Err(StatsError::NotConvex { row });
    }
    let scale = finite(row, std::f64::consts::SQRT_2 / distance)?;
    let frame = Frame { middle, scale };
    let corners = corners.map(|corner| frame.normalise(corner));
    if is_convex(corners) {
        Ok((frame, corners))
    } else {
        Err(StatsError::NotConvex { row })
    }
}

/// Whether a walk along the corners turns the same way at each, and by enough. Four turns are too few for a walk that
/// crosses itself to do so. The three corners about each turn are all the threes that there are.
fn is_convex([a, b, c, d]: [Point; 4]) -> bool {
    let turns = [
        cross(a, b, c),
        cross(b, c, d),
        cross(c, d, a),
        cross(d, a, b),
    ];
    turns.iter().all(|turn| *turn > FLAT) || turns.iter().all(|turn| *turn < -FLAT)
}

/// Solves linear equations, whose last column is what they come to, by Gauss's elimination with partial pivoting.
fn solved(mut equations: [[f64; UNKNOWNS + 1]; UNKNOWNS]) -> Result<[f64; UNKNOWNS], StatsError> {
    for column in 0..UNKNOWNS {
        // The largest in the column: by a small one rounding would be magnified.
        let largest = (column + 1..UNKNOWNS).fold(column, |largest, row| {
            let larger = equations[row][column].abs() > equations[largest][column].abs();
            if larger { row } else { largest }
        });
        equations.swap(column, largest);
        let (done, below) = equations.split_at_mut(column + 1);
        let pivot = done[column];
        for row in below {
            let factor = row[column] / pivot[column];
            for (cell, of_pivot) in row.iter_mut().zip(pivot).skip(column) {
                *cell -= factor * of_pivot;
            }
        }
    }
    let mut unknowns = [0.0; UNKNOWNS];
    for row in (0..UNKNOWNS).rev() {
        let equation = &equations[row];
        let known = equation.iter().zip(unknowns).skip(row + 1);
        let known: f64 = known.map(|(factor, unknown)| factor * unknown).sum();
        unknowns[row] = finite(
            "projective map",
            (equation[UNKNOWNS] - known) / equation[row],
        )?;
    }
    Ok(unknowns)
}
