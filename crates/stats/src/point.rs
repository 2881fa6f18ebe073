//! Points of a plane, and what the functions on them share.

/// A point of a plane: x, then y, in one unit.
pub type Point = (f64, f64);

/// x and y of each point in turn.
pub(crate) fn coordinates(points: &[Point]) -> Vec<f64> {
    points.iter().flat_map(|(x, y)| [*x, *y]).collect()
}

/// Twice the area of a triangle, in squared units: above 0 where it goes from x to y about its first corner.
pub(crate) fn cross(first: Point, second: Point, third: Point) -> f64 {
    let (x, y) = (second.0 - first.0, second.1 - first.1);
    let (u, v) = (third.0 - first.0, third.1 - first.1);
    x * v - u * y
}
