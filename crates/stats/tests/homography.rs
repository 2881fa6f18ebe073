//! Projective maps: cases by hand, matrices that are known, and what holds for any of them.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot go on fails, in its helpers too"
)]

use proptest::prelude::*;
use ringland_stats::{Point, StatsError, homography::Homography};

const SQUARE: [Point; 4] = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
/// The square as x/(1 + y), 2y/(1 + y) shows it: its horizon is y = −1.
const TRAPEZOID: [Point; 4] = [(0.0, 0.0), (1.0, 0.0), (0.5, 1.0), (0.0, 1.0)];

#[track_caller]
fn close(got: Point, want: Point, within: f64) {
    let far = libm::hypot(got.0 - want.0, got.1 - want.1);
    assert!(far <= within, "got {got:?}, want {want:?}");
}

/// What a matrix takes a point to.
fn taken([x, y, w]: [[f64; 3]; 3], point: Point) -> Point {
    let along = |row: [f64; 3]| row[0] * point.0 + row[1] * point.1 + row[2];
    (along(x) / along(w), along(y) / along(w))
}

/// The diagonals of a square meet in its middle, and so do those of its picture: y = 2x and y = 1 − x in 1/3, 2/3.
#[test]
fn a_square_by_hand() {
    let map = Homography::from_points(SQUARE, TRAPEZOID).unwrap();
    for (from, to) in SQUARE.into_iter().zip(TRAPEZOID) {
        close(map.apply(from).unwrap(), to, 1e-14);
    }
    close(
        map.apply((0.5, 0.5)).unwrap(),
        (1.0 / 3.0, 2.0 / 3.0),
        1e-14,
    );
    close(map.apply((3.0, 1.0)).unwrap(), (1.5, 1.0), 1e-14);
    // Differentiated by hand: 1/(1 + y), −x/(1 + y)², 0, 2/(1 + y)².
    let [x, y] = map.jacobian((0.5, 0.5)).unwrap();
    close((x[0], x[1]), (2.0 / 3.0, -2.0 / 9.0), 1e-14);
    close((y[0], y[1]), (0.0, 8.0 / 9.0), 1e-14);
    // Their determinant is 2/(1 + y)³.
    let magnified = map.magnification((0.5, 0.5)).unwrap();
    assert!((magnified - 16.0 / 27.0).abs() < 1e-14);
}

#[test]
fn past_the_horizon_nothing_is_seen() {
    let map = Homography::from_points(SQUARE, TRAPEZOID).unwrap();
    close(map.apply((0.0, -0.9)).unwrap(), (0.0, -18.0), 1e-11);
    for y in [-1.0, -1.1, -50.0] {
        let refused = Err(StatsError::BeyondHorizon { x: 0.3, y });
        assert_eq!(map.apply((0.3, y)), refused);
        assert!(map.jacobian((0.3, y)).is_err() && map.magnification((0.3, y)).is_err());
    }
    // Its way back is x·2/(2 − y), y/(2 − y), of which nothing lies from y = 2 on.
    let back = map.inverse();
    close(back.apply((0.5, 1.0)).unwrap(), (1.0, 1.0), 1e-14);
    close(back.apply((0.5, 1.5)).unwrap(), (2.0, 3.0), 1e-13);
    for y in [2.0, 2.5] {
        assert!(matches!(
            back.apply((0.5, y)),
            Err(StatsError::BeyondHorizon { .. })
        ));
    }
}

/// A picture of 4000 by 3000 pixels, in millimetres of a ring's land, and a shift, a turn, a mirror.
#[test]
fn a_known_matrix_is_found_again() {
    let corners = [
        (310.0, 420.0),
        (3650.0, 250.0),
        (3900.0, 2700.0),
        (150.0, 2500.0),
    ];
    for matrix in [
        [
            [0.031, -0.0042, 17.0],
            [0.0035, 0.028, -230.0],
            [2.1e-5, -4.7e-5, 1.0],
        ],
        [[1.0, 0.0, 1.0e6], [0.0, 1.0, -2.0e6], [0.0, 0.0, 1.0]],
        [[0.6, -0.8, 0.0], [0.8, 0.6, 0.0], [0.0, 0.0, 1.0]],
        [[1.0, 0.0, 0.0], [0.0, -1.0, 3000.0], [0.0, 0.0, 1.0]],
    ] {
        let map =
            Homography::from_points(corners, corners.map(|point| taken(matrix, point))).unwrap();
        for point in [
            (0.0, 0.0),
            (4000.0, 3000.0),
            (2000.5, 1499.5),
            (-300.0, 5000.0),
        ] {
            let want = taken(matrix, point);
            let within = 1e-9 * (1.0 + libm::hypot(want.0, want.1).min(1000.0));
            close(map.apply(point).unwrap(), want, within);
        }
    }
}

/// Up is down in a picture: the corners go round the other way there.
#[test]
fn a_mirrored_plane_has_a_way_back() {
    let mirrored = TRAPEZOID.map(|(x, y)| (x, 1.0 - y));
    let back = Homography::from_points(SQUARE, mirrored).unwrap().inverse();
    for (from, to) in SQUARE.into_iter().zip(mirrored) {
        close(back.apply(to).unwrap(), from, 1e-14);
    }
    assert!(back.apply((0.5, -1.5)).is_err());
}

#[test]
fn what_is_no_quadrilateral_is_refused() {
    let on_a_line = [(0.0, 0.0), (1.0, 0.0), (2.0, 0.0), (0.0, 1.0)];
    let nearly = [(0.0, 0.0), (1.0, -1e-8), (2.0, 0.0), (0.0, 1.0)];
    let twice_the_same = [(0.0, 0.0), (1.0, 0.0), (1.0, 0.0), (0.0, 1.0)];
    let one_point = [(3.0, 3.0); 4];
    let crossed = [(0.0, 0.0), (1.0, 1.0), (1.0, 0.0), (0.0, 1.0)];
    let dart = [(0.0, 0.0), (4.0, 0.0), (1.0, 1.0), (0.0, 4.0)];
    for four in [on_a_line, nearly, twice_the_same, one_point, crossed, dart] {
        for turn in 0..4 {
            let mut four = four;
            four.rotate_left(turn);
            let (from, to) = ("points mapped from", "points mapped to");
            assert_eq!(
                Homography::from_points(four, SQUARE),
                Err(StatsError::NotConvex { row: from }),
            );
            assert_eq!(
                Homography::from_points(SQUARE, four),
                Err(StatsError::NotConvex { row: to }),
            );
        }
    }
    // A strip is thin, and yet has corners.
    let strip = [(0.0, 0.0), (1e4, 0.0), (1e4, 1.0), (0.0, 1.0)];
    let map = Homography::from_points(strip, SQUARE).unwrap();
    close(map.apply((5e3, 0.25)).unwrap(), (0.5, 0.25), 1e-9);
}

#[test]
fn what_is_not_finite_is_refused() {
    let mut four = SQUARE;
    four[2].1 = f64::NAN;
    let refused = Homography::from_points(SQUARE, four);
    assert!(matches!(
        refused,
        Err(StatsError::NotFinite { place: 5, .. })
    ));
    let vast = SQUARE.map(|(x, y)| ((x - 0.5) * f64::MAX, (y - 0.5) * f64::MAX));
    let tiny = SQUARE.map(|(x, y)| (x * 1e-320, y * 1e-320));
    for four in [vast, tiny] {
        let refused = Homography::from_points(four, SQUARE);
        assert!(refused.is_err_and(|why| matches!(why, StatsError::Overflow { .. })));
    }
    let map = Homography::from_points(SQUARE, TRAPEZOID).unwrap();
    assert!(map.apply((0.0, f64::INFINITY)).is_err());
    assert!(map.jacobian((f64::NAN, 0.0)).is_err());
    assert!(map.apply((f64::MAX, f64::MAX)).is_err());
}

/// Corners of a convex quadrilateral: each within its own quarter of a picture, off the middle lines.
fn corners() -> impl Strategy<Value = [Point; 4]> {
    let off = || (500.0..1000.0, 500.0..1000.0);
    (off(), off(), off(), off()).prop_map(|(a, b, c, d)| {
        [
            (2000.0 - a.0, 1500.0 - a.1),
            (2000.0 + b.0, 1500.0 - b.1),
            (2000.0 + c.0, 1500.0 + c.1),
            (2000.0 - d.0, 1500.0 + d.1),
        ]
    })
}

/// A point between four corners, by its shares along two sides.
fn between([a, b, c, d]: [Point; 4], (s, t): (f64, f64)) -> Point {
    let mix =
        |p: Point, q: Point, share: f64| (p.0 + share * (q.0 - p.0), p.1 + share * (q.1 - p.1));
    mix(mix(a, b, s), mix(d, c, s), t)
}

fn shares() -> impl Strategy<Value = (f64, f64)> {
    (0.0..1.0, 0.0..1.0)
}

proptest! {
    #[test]
    fn there_and_back(from in corners(), to in corners(), at in shares()) {
        let map = Homography::from_points(from, to).unwrap();
        let point = between(from, at);
        close(map.inverse().apply(map.apply(point).unwrap()).unwrap(), point, 1e-7);
        close(map.inverse().inverse().apply(point).unwrap(), map.apply(point).unwrap(), 1e-7);
    }

    #[test]
    fn one_after_the_other_is_one(first in corners(), second in corners(), third in corners(), at in shares()) {
        let point = between(first, at);
        let there = Homography::from_points(first, second).unwrap();
        let on = Homography::from_points(second, third).unwrap();
        let at_once = Homography::from_points(first, third).unwrap();
        close(on.apply(there.apply(point).unwrap()).unwrap(), at_once.apply(point).unwrap(), 1e-7);
    }

    /// Against central differences over a hundredth of a pixel.
    #[test]
    fn derivatives_are_those_of_the_map(from in corners(), to in corners(), at in shares()) {
        let map = Homography::from_points(from, to).unwrap();
        let (x, y) = between(from, at);
        let slope = |low: Point, high: Point| {
            let (low, high) = (map.apply(low).unwrap(), map.apply(high).unwrap());
            ((high.0 - low.0) / 0.02, (high.1 - low.1) / 0.02)
        };
        let along_x = slope((x - 0.01, y), (x + 0.01, y));
        let along_y = slope((x, y - 0.01), (x, y + 0.01));
        let [of_x, of_y] = map.jacobian((x, y)).unwrap();
        close((of_x[0], of_y[0]), along_x, 1e-6);
        close((of_x[1], of_y[1]), along_y, 1e-6);
    }

    /// Whichever way the corners go round.
    #[test]
    fn areas_grow_as_the_derivatives_say(from in corners(), to in corners(), at in shares(), mirrored in any::<bool>()) {
        let mut to = to;
        if mirrored {
            to.reverse();
        }
        let map = Homography::from_points(from, to).unwrap();
        let at = between(from, at);
        let [x, y] = map.jacobian(at).unwrap();
        let expected = (x[0] * y[1] - x[1] * y[0]).abs();
        let found = map.magnification(at).unwrap();
        prop_assert!((found - expected).abs() < 1e-9 * expected, "{found}, not {expected}");
    }
}
