//! Patches as the part of a rough field that rises above a level.
//!
//! A field of values over a frame is cut at a level; what lies above is drawn. Since it is one cut of
//! one field, patches never overlap and a larger share holds the smaller ones. The cut is traced into
//! closed loops on whole coordinates, so the area drawn is an exact whole number that can be counted.

use crate::svg::Scatter;

/// Frame of every field, in tenths of a unit.
pub(super) const WIDTH: i32 = 1800;
/// See [`WIDTH`].
pub(super) const HEIGHT: i32 = 1000;
/// Size of the squares that the field is sampled on.
const SQUARE: i32 = 40;
const COLUMNS: usize = (WIDTH / SQUARE) as usize;
const ROWS: usize = (HEIGHT / SQUARE) as usize;

type Point = (i32, i32);

/// A field's values at the corners of its squares, row by row.
pub(super) struct Field(Vec<f64>);

impl Field {
    /// A field with hills about as wide as `hill`, in the frame's coordinates, and half as much relief
    /// at a third of the size.
    pub(super) fn new(seed: u64, hill: f64) -> Self {
        let (broad, fine) = (
            Lattice::new(seed, hill),
            Lattice::new(seed ^ 0xa5a5, hill / 3.0),
        );
        let corners = (0..=ROWS).flat_map(|row| (0..=COLUMNS).map(move |column| (column, row)));
        Self(
            corners
                .map(|(column, row)| {
                    let at = (
                        column as f64 * f64::from(SQUARE),
                        row as f64 * f64::from(SQUARE),
                    );
                    broad.at(at) + 0.35 * fine.at(at)
                })
                .collect(),
        )
    }

    fn value(&self, column: usize, row: usize) -> f64 {
        self.0[row * (COLUMNS + 1) + column]
    }

    /// The loops round what rises above a level: outer edges one way round, holes the other.
    pub(super) fn loops(&self, level: f64) -> Vec<Vec<Point>> {
        let mut edges = Edges::default();
        for row in 0..ROWS {
            for column in 0..COLUMNS {
                let corner = |right: usize, down: usize| {
                    let (column, row) = (column + right, row + down);
                    #[expect(
                        clippy::cast_possible_truncation,
                        clippy::cast_possible_wrap,
                        reason = "a frame of 1800 by 1000"
                    )]
                    let at = (column as i32 * SQUARE, row as i32 * SQUARE);
                    (at, self.value(column, row) - level)
                };
                let (a, b, c, d) = (corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1));
                let (top, bottom) = (row == 0, row + 1 == ROWS);
                let (left, right) = (column == 0, column + 1 == COLUMNS);
                edges.add([a, b, c], [top, right, false]);
                edges.add([a, c, d], [false, bottom, left]);
            }
        }
        edges.loops()
    }

    /// The level that leaves a share of the frame above it, found by halving.
    #[cfg(test)]
    pub(super) fn level_of(&self, share: f64) -> f64 {
        let (mut low, mut high) = (-1.0, 3.0);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if area(&self.loops(middle)) > share * f64::from(WIDTH * HEIGHT) {
                low = middle;
            } else {
                high = middle;
            }
        }
        high
    }
}

/// The area within loops.
#[cfg(test)]
pub(super) fn area(loops: &[Vec<Point>]) -> f64 {
    let twice: i64 = loops
        .iter()
        .flat_map(|points| {
            let next = points.iter().cycle().skip(1);
            points
                .iter()
                .zip(next)
                .map(|(a, b)| i64::from(a.0) * i64::from(b.1) - i64::from(b.0) * i64::from(a.1))
        })
        .sum();
    twice as f64 / 2.0
}

/// Where the value crosses 0 between two corners; the same point from either side.
fn crossing(a: (Point, f64), b: (Point, f64)) -> Point {
    let ((from, low), (to, high)) = if a.0 < b.0 { (a, b) } else { (b, a) };
    let share = low / (low - high);
    let along = |from: i32, to: i32| {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "between two coordinates of the frame"
        )]
        let step = (f64::from(to - from) * share).round() as i32;
        from + step
    };
    (along(from.0, to.0), along(from.1, to.1))
}

/// Directed edges round what is above: the contour, and the frame where the contour meets it.
#[derive(Default)]
struct Edges(Vec<(Point, Point)>);

impl Edges {
    /// Adds what a triangle has of them. Two triangles share a side and agree on it, so sides count
    /// only on the frame.
    fn add(&mut self, corners: [(Point, f64); 3], on_frame: [bool; 3]) {
        let (mut leaves, mut enters) = (None, None);
        for n in 0..3 {
            let (from, to) = (corners[n], corners[(n + 1) % 3]);
            let (mut start, mut end) = (from.0, to.0);
            match (from.1 > 0.0, to.1 > 0.0) {
                (false, false) => continue,
                (true, true) => {}
                (true, false) => {
                    end = crossing(from, to);
                    leaves = Some(end);
                }
                (false, true) => {
                    start = crossing(from, to);
                    enters = Some(start);
                }
            }
            if on_frame[n] {
                self.edge(start, end);
            }
        }
        if let (Some(leaves), Some(enters)) = (leaves, enters) {
            self.edge(leaves, enters);
        }
    }

    fn edge(&mut self, from: Point, to: Point) {
        if from != to {
            self.0.push((from, to));
        }
    }

    /// Chains them into loops, points on a straight line left out.
    fn loops(mut self) -> Vec<Vec<Point>> {
        self.0.sort_unstable();
        let mut used = vec![false; self.0.len()];
        let mut loops = Vec::new();
        for first in 0..self.0.len() {
            if used[first] {
                continue;
            }
            let start = self.0[first].0;
            let mut points: Vec<Point> = vec![start];
            let mut edge = Some(first);
            while let Some(at) = edge {
                used[at] = true;
                let next = self.0[at].1;
                if next == start {
                    break;
                }
                if let [.., a, b] = points[..]
                    && straight(a, b, next)
                {
                    points.pop();
                }
                points.push(next);
                edge = self.unused_from(next, &used);
            }
            loops.push(points);
        }
        loops
    }

    /// An edge that starts at a point and has not been walked.
    fn unused_from(&self, from: Point, used: &[bool]) -> Option<usize> {
        let first = self.0.partition_point(|(start, _)| *start < from);
        (first..self.0.len())
            .take_while(|at| self.0[*at].0 == from)
            .find(|at| !used[*at])
    }
}

fn straight(a: Point, b: Point, c: Point) -> bool {
    i64::from(b.0 - a.0) * i64::from(c.1 - b.1) == i64::from(b.1 - a.1) * i64::from(c.0 - b.0)
        && i64::from(b.0 - a.0) * i64::from(c.0 - b.0) + i64::from(b.1 - a.1) * i64::from(c.1 - b.1)
            > 0
}

/// Values from 0 to 1 on a square lattice, smooth between.
struct Lattice {
    values: Vec<f64>,
    columns: usize,
    size: f64,
}

impl Lattice {
    fn new(seed: u64, size: f64) -> Self {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a frame over a size"
        )]
        let count = |frame: i32| (f64::from(frame) / size) as usize + 2;
        let (columns, rows) = (count(WIDTH), count(HEIGHT));
        let mut scatter = Scatter::new(seed);
        Self {
            values: (0..columns * rows).map(|_| scatter.next()).collect(),
            columns,
            size,
        }
    }

    fn at(&self, (x, y): (f64, f64)) -> f64 {
        let (column, across) = split(x / self.size);
        let (row, down) = split(y / self.size);
        let value =
            |right: usize, below: usize| self.values[(row + below) * self.columns + column + right];
        let between = |a: f64, b: f64, t: f64| a + (b - a) * t;
        let upper = between(value(0, 0), value(1, 0), across);
        let lower = between(value(0, 1), value(1, 1), across);
        between(upper, lower, down)
    }
}

/// The whole part, and the rest eased in and out.
fn split(value: f64) -> (usize, f64) {
    let whole = value.floor();
    let rest = value - whole;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a frame over a size"
    )]
    (whole as usize, rest * rest * (3.0 - 2.0 * rest))
}
