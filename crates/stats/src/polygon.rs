//! Polygons: the area, and what lies inside. The last corner is joined to the first.

use crate::{
    Point,
    error::{StatsError, check, finite},
    point::{coordinates, cross},
};

/// The fewest corners of a polygon.
const FEWEST: usize = 3;

/// The area with its sign, in squared units: above 0 where the corners go round from x to y, counter-clockwise where y
/// counts upwards and clockwise in a picture, where it counts downwards.
///
/// # Formula
///
/// ```text
/// A = ½·Σ ((xᵢ − x₁)·(yᵢ₊₁ − y₁) − (xᵢ₊₁ − x₁)·(yᵢ − y₁))
/// ```
///
/// From the first corner, not from 0: far from 0 the differences would be lost to rounding. Where edges cross, what is
/// gone round twice counts twice, and what is gone round the other way counts against the rest; [`contains`] takes
/// neither for inside and outside.
///
/// # Errors
///
/// [`StatsError::TooFew`] for fewer than 3 corners; [`StatsError::NotFinite`], whose place counts x and y of each
/// corner in turn; [`StatsError::Overflow`].
///
/// # Source
///
/// Textbook: the shoelace formula of Meister and Gauss.
pub fn signed_area(corners: &[Point]) -> Result<f64, StatsError> {
    check_corners(corners)?;
    let triangles = corners
        .windows(2)
        .map(|edge| cross(corners[0], edge[0], edge[1]));
    finite("area", triangles.sum::<f64>() / 2.0)
}

/// Whether a point lies inside, by the even-odd rule: a ray from it towards higher x crosses an odd number of edges.
///
/// A point on an edge lies inside where the polygon is on the side of higher x, or, on an edge along x, of higher y.
/// So of polygons that share an edge just one contains a point of it, and pixels are counted once.
///
/// # Errors
///
/// [`StatsError::TooFew`] for fewer than 3 corners; [`StatsError::NotFinite`], whose place counts x and y of each
/// corner in turn, or of the point; [`StatsError::Overflow`].
///
/// # Source
///
/// M. Shimrat, *Algorithm 112: position of point relative to polygon*, Commun. ACM 5 (1962) 434 (from memory).
pub fn contains(corners: &[Point], point: Point) -> Result<bool, StatsError> {
    check_corners(corners)?;
    check("point", &coordinates(&[point]), 1)?;
    let next = corners.iter().cycle().skip(1);
    let mut inside = false;
    for (start, end) in corners.iter().zip(next) {
        if crosses(*start, *end, point)? {
            inside = !inside;
        }
    }
    Ok(inside)
}

/// Where a level line enters and leaves a polygon, from the left: from each first of two to the second it is inside, as
/// [`contains`] says it too, rounding aside. An edge belongs to it at its lower end and not at its upper one.
///
/// # Errors
///
/// [`StatsError::TooFew`] for fewer than three corners, [`StatsError::NotFinite`], [`StatsError::Overflow`].
pub fn crossings(corners: &[Point], y: f64) -> Result<Vec<f64>, StatsError> {
    check_corners(corners)?;
    check("level", &[y], 1)?;
    let next = corners.iter().cycle().skip(1);
    let mut places = Vec::new();
    for (start, end) in corners.iter().zip(next) {
        let (low, high) = if start.1 <= end.1 {
            (start, end)
        } else {
            (end, start)
        };
        if (low.1..high.1).contains(&y) {
            let along = (y - low.1) / (high.1 - low.1);
            places.push(finite(
                "place on an edge",
                low.0 + along * (high.0 - low.0),
            )?);
        }
    }
    places.sort_by(f64::total_cmp);
    Ok(places)
}

/// Whether the ray from a point towards higher x crosses an edge. An edge has its lower end and not its upper, so that
/// a ray through a corner crosses one of two edges that go on and none or both of two that turn back.
fn crosses(start: Point, end: Point, point: Point) -> Result<bool, StatsError> {
    // From the lower end, whichever way it is gone: rounding must say the same of an edge to both that share it.
    let (low, high) = if start.1 <= end.1 {
        (start, end)
    } else {
        (end, start)
    };
    if point.1 < low.1 || point.1 >= high.1 {
        return Ok(false);
    }
    Ok(finite("side of an edge", cross(low, high, point))? > 0.0)
}

fn check_corners(corners: &[Point]) -> Result<(), StatsError> {
    if corners.len() < FEWEST {
        return Err(StatsError::TooFew {
            what: "polygon",
            got: corners.len(),
            least: FEWEST,
        });
    }
    check("polygon", &coordinates(corners), FEWEST)
}
