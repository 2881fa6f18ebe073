//! Polygons: cases by hand, a star, and the area against what lies inside.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot go on fails, in its helpers too"
)]

use proptest::prelude::*;
use ringland_stats::{
    Point, StatsError,
    polygon::{contains, crossings, signed_area},
};

const SQUARE: [Point; 4] = [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)];
/// An L: three unit squares.
const BENT: [Point; 6] = [
    (0.0, 0.0),
    (2.0, 0.0),
    (2.0, 1.0),
    (1.0, 1.0),
    (1.0, 2.0),
    (0.0, 2.0),
];

#[test]
fn areas_by_hand() {
    assert_eq!(signed_area(&SQUARE), Ok(4.0));
    assert_eq!(signed_area(&BENT), Ok(3.0));
    assert_eq!(signed_area(&[(1.0, 1.0), (4.0, 1.0), (1.0, 3.0)]), Ok(3.0));
    // Round the other way, the area counts below 0.
    let mut other_way = BENT;
    other_way.reverse();
    assert_eq!(signed_area(&other_way), Ok(-3.0));
    // All on one line, and an eight whose halves cancel each other.
    assert_eq!(signed_area(&[(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)]), Ok(0.0));
    assert_eq!(
        signed_area(&[(0.0, 0.0), (1.0, 1.0), (1.0, 0.0), (0.0, 1.0)]),
        Ok(0.0)
    );
    // Far from 0 as exact as near it.
    let far = BENT.map(|(x, y)| (x + 1e9, y - 1e9));
    assert_eq!(signed_area(&far), Ok(3.0));
}

#[test]
fn inside_by_hand() {
    for (point, inside) in [
        ((0.5, 0.5), true),
        ((1.5, 0.5), true),
        ((0.5, 1.5), true),
        ((1.5, 1.5), false),
        ((-0.5, 0.5), false),
        ((2.5, 0.5), false),
        ((0.5, -0.5), false),
        ((0.5, 2.5), false),
        // At the height of a corner and of an edge.
        ((-0.5, 1.0), false),
        ((0.5, 1.0), true),
        ((-0.5, 0.0), false),
        ((-0.5, 2.0), false),
        // On edges: those towards lower x and y belong to it.
        ((0.0, 0.0), true),
        ((0.0, 1.5), true),
        ((1.5, 0.0), true),
        ((2.0, 0.5), false),
        ((1.0, 1.5), false),
        ((1.5, 1.0), false),
        ((0.5, 2.0), false),
    ] {
        assert_eq!(contains(&BENT, point), Ok(inside), "{point:?}");
    }
}

/// Every second corner of a regular pentagon: the middle is gone round twice and lies outside, the tips inside. Its
/// area by its signed parts counts the middle twice: 5/2·sin 144° for corners 1 from the middle.
#[test]
fn a_star() {
    let corner = |number: u32| {
        let (sin, cos) = libm::sincos(f64::from(number) * 144.0_f64.to_radians());
        (cos, sin)
    };
    let star: Vec<Point> = (0..5).map(corner).collect();
    assert_eq!(contains(&star, (0.0, 0.0)), Ok(false));
    assert_eq!(contains(&star, (0.3, 0.0)), Ok(false));
    // The inner pentagon has its corners 0.381966 from the middle.
    for (x, y) in &star {
        assert_eq!(contains(&star, (0.9 * x, 0.9 * y)), Ok(true));
        assert_eq!(contains(&star, (1.1 * x, 1.1 * y)), Ok(false));
        assert_eq!(contains(&star, (-0.39 * x, -0.39 * y)), Ok(false));
    }
    let area = signed_area(&star).unwrap();
    let want = 2.5 * libm::sin(144.0_f64.to_radians());
    assert!((area - want).abs() < 1e-12, "{area}");
}

#[test]
fn what_is_no_polygon_is_refused() {
    for few in [&[][..], &SQUARE[..2]] {
        let got = few.len();
        let (what, least) = ("polygon", 3);
        let refused = StatsError::TooFew { what, got, least };
        assert_eq!(signed_area(few), Err(refused.clone()));
        assert_eq!(contains(few, (0.0, 0.0)), Err(refused));
    }
    let mut bad = SQUARE;
    bad[1].0 = f64::INFINITY;
    for refused in [signed_area(&bad).err(), contains(&bad, (0.0, 0.0)).err()] {
        assert!(matches!(
            refused,
            Some(StatsError::NotFinite { place: 2, .. })
        ));
    }
    assert!(contains(&SQUARE, (0.0, f64::NAN)).is_err());
    assert!(crossings(&SQUARE, f64::NAN).is_err() && crossings(&SQUARE[..2], 0.5).is_err());
    let vast = SQUARE.map(|(x, y)| (x * 1e300, y * 1e300));
    for refused in [signed_area(&vast).err(), contains(&vast, (1.0, 1.0)).err()] {
        assert!(matches!(refused, Some(StatsError::Overflow { .. })));
    }
}

/// Corners one after the other about 0, each at its own distance: no two edges cross.
fn about_0() -> impl Strategy<Value = Vec<Point>> {
    proptest::collection::vec(5.0_f64..15.0, 3..12).prop_map(|distances| {
        let step = 2.0 * std::f64::consts::PI / distances.len() as f64;
        let corner = |(number, distance): (usize, f64)| {
            let (sin, cos) = libm::sincos(step * number as f64);
            (distance * cos, distance * sin)
        };
        distances.into_iter().enumerate().map(corner).collect()
    })
}

/// How many points of a grid lie inside, that are so far apart.
fn counted(corners: &[Point], step: f64) -> usize {
    let side = || (-80..=80).map(|place| f64::from(place) * step);
    let grid = side().flat_map(|x| side().map(move |y| (x, y)));
    grid.filter(|point| contains(corners, *point).unwrap())
        .count()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    /// A grid's count strays from the area by no more than the cells that the outline goes through, and by far less
    /// where they even out.
    #[test]
    fn the_area_is_what_lies_inside(corners in about_0()) {
        let (area, step) = (signed_area(&corners).unwrap(), 0.2);
        let found = counted(&corners, step) as f64 * step * step;
        prop_assert!((found - area).abs() < 0.03 * area + 2.0, "{found} of {area}");
    }

    #[test]
    fn where_it_starts_and_which_way_it_goes_does_not_matter(
        corners in about_0(), start in 0_usize..12, x in -15.0_f64..15.0, y in -15.0_f64..15.0,
    ) {
        let (area, inside) = (signed_area(&corners).unwrap(), contains(&corners, (x, y)));
        let mut other = corners;
        let start = start % other.len();
        other.rotate_left(start);
        prop_assert!((signed_area(&other).unwrap() - area).abs() < 1e-9);
        prop_assert_eq!(contains(&other, (x, y)), inside.clone());
        other.reverse();
        prop_assert!((signed_area(&other).unwrap() + area).abs() < 1e-9);
        prop_assert_eq!(contains(&other, (x, y)), inside);
    }

    /// Triangles from 0 to each edge make up the whole: each point of it lies in just one, those on a seam too.
    #[test]
    fn parts_share_no_point(corners in about_0(), x in -15.0_f64..15.0, y in -15.0_f64..15.0, along in 0.0_f64..1.0) {
        let seam = (corners[1].0 * along, corners[1].1 * along);
        for point in [(x, y), seam, (0.0, 0.0)] {
            let next = corners.iter().cycle().skip(1);
            let parts = corners.iter().zip(next).map(|(start, end)| [(0.0, 0.0), *start, *end]);
            let within = parts.filter(|part| contains(part, point).unwrap()).count();
            prop_assert_eq!(within, usize::from(contains(&corners, point).unwrap()));
        }
    }

    /// A level line is inside between its first crossing and its second, its third and its fourth.
    #[test]
    fn between_its_crossings_a_line_is_inside(corners in about_0(), x in -15.0_f64..15.0, y in -15.0_f64..15.0) {
        let places = crossings(&corners, y).unwrap();
        prop_assert!(places.len().is_multiple_of(2) && places.is_sorted());
        prop_assume!(places.iter().all(|place| (place - x).abs() > 1e-9));
        let before = places.iter().filter(|place| **place < x).count();
        prop_assert_eq!(contains(&corners, (x, y)).unwrap(), before % 2 == 1);
    }
}
