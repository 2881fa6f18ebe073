//! Areas read off drawn photos whose coverage is known.

#![allow(
    clippy::unwrap_used,
    reason = "what cannot be drawn or counted stops the test"
)]

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use ringland_assess::photo::{
    areas::{self, class_scatter, parting_scatter},
    count::{CountError, Pixels, ShadeCount, ShadePlane, count},
};
use ringland_card::{
    EntryId, LevelId,
    photo::{Cut, LeftOut, PhotoAreas, Point, Region, Shade, ShadeClass},
};
use ringland_stats::{StatsError, homography::Homography};

type Place = (f64, f64);

const WIDTH: usize = 320;
const HEIGHT: usize = 240;
/// Points a pixel is drawn with on either side.
const FINE: usize = 3;

const METAL: [f64; 3] = [196.0, 192.0, 184.0];
const CARBON: [f64; 3] = [44.0, 40.0, 38.0];
/// Of nearly the lightness of [`STAIN`].
const AMBER: [f64; 3] = [176.0, 128.0, 60.0];
const STAIN: [f64; 3] = [136.0, 136.0, 138.0];

fn point((x, y): Place) -> Point {
    Point { x, y }
}

fn level(id: &str) -> LevelId {
    LevelId::new(id).unwrap()
}

fn corners(places: [Place; 4]) -> Vec<Point> {
    places.map(point).to_vec()
}

fn whole() -> Region {
    let (right, low) = (WIDTH as f64, HEIGHT as f64);
    Region {
        corners: corners([(0.0, 0.0), (right, 0.0), (right, low), (0.0, low)]),
        ..Region::default()
    }
}

/// Draws a picture of a surface: what of each point is covered, mixed from two colours, lit from the left and grainy.
fn draw(
    draws: &mut ChaCha8Rng,
    [bare, covered]: [[f64; 3]; 2],
    cover: impl Fn(Place) -> f64,
) -> Vec<u8> {
    let mut rgba = Vec::with_capacity(WIDTH * HEIGHT * 4);
    for y in 0..HEIGHT {
        for x in 0..WIDTH {
            let fine = (0..FINE * FINE).map(|n| {
                let at = |n: usize| (n as f64 + 0.5) / FINE as f64;
                cover((x as f64 + at(n % FINE), y as f64 + at(n / FINE)))
            });
            let share = fine.sum::<f64>() / (FINE * FINE) as f64;
            let light = 1.06 - 0.12 * x as f64 / WIDTH as f64;
            let grain = draws.random_range(-8.0..8.0);
            for colour in 0..3 {
                let mixed = bare[colour] + share * (covered[colour] - bare[colour]);
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "held within a byte before"
                )]
                rgba.push((mixed * light + grain).clamp(0.0, 255.0) as u8);
            }
            rgba.push(255);
        }
    }
    rgba
}

/// Spots thrown on a surface until so much of it is covered.
struct Spots(Vec<(Place, f64)>);

impl Spots {
    fn covering(share: f64, draws: &mut ChaCha8Rng, width: f64, height: f64, radius: f64) -> Self {
        let mut spots = Self(Vec::new());
        // Many spots between two looks: each look counts the whole surface.
        while spots.share(width, height) < share {
            let some = (spots.0.len() / 16).max(1);
            for _ in 0..some {
                let middle = (
                    draws.random_range(0.0..width),
                    draws.random_range(0.0..height),
                );
                spots
                    .0
                    .push((middle, draws.random_range(0.3..1.0) * radius));
            }
        }
        spots
    }

    fn cover(&self, (x, y): Place) -> f64 {
        let covered = self
            .0
            .iter()
            .any(|((a, b), r)| (x - a) * (x - a) + (y - b) * (y - b) < r * r);
        f64::from(u8::from(covered))
    }

    /// The share covered, on a grid of its own.
    fn share(&self, width: f64, height: f64) -> f64 {
        let grid = 150;
        let covered = (0..grid * grid).map(|n| {
            let (column, row) = (f64::from(n % grid) + 0.5, f64::from(n / grid) + 0.5);
            self.cover((
                column / f64::from(grid) * width,
                row / f64::from(grid) * height,
            ))
        });
        covered.sum::<f64>() / f64::from(grid * grid)
    }
}

fn counted(rgba: &[u8], region: &Region, shade: Shade) -> ShadePlane {
    count(Pixels::new(WIDTH, rgba).unwrap(), region, shade).unwrap()
}

/// The share of the darker of two classes, as the start of a reading gives it.
fn dark_share(rgba: &[u8], region: &Region) -> f64 {
    let plane = counted(rgba, region, Shade::Lightness);
    let cuts = areas::part(&plane.count, 2).unwrap();
    areas::classes(&plane.count, &cuts, &[level("carbon"), level("clean")])[0].percent
}

#[test]
fn a_drawn_coverage_is_read_within_a_point() {
    for (seed, share) in (1..).zip([0.01, 0.03, 0.1, 0.25, 0.5, 0.75, 0.9]) {
        let mut draws = ChaCha8Rng::seed_from_u64(seed);
        let (width, height) = (WIDTH as f64, HEIGHT as f64);
        let spots = Spots::covering(share, &mut draws, width, height, 30.0);
        let rgba = draw(&mut draws, [METAL, CARBON], |place| spots.cover(place));
        let truth = 100.0 * spots.share(width, height);
        let read = dark_share(&rgba, &whole());
        assert!((read - truth).abs() < 1.0, "{truth} % read as {read} %");
    }
}

/// Corners of a square that is looked at from the lower left.
const SLANTED: [Place; 4] = [(40.0, 87.0), (220.0, 14.0), (306.0, 100.0), (133.0, 230.0)];
const SQUARE: [Place; 4] = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];

#[test]
fn a_slanted_photo_is_read_as_the_surface_is() {
    let to_surface = Homography::from_points(SLANTED, SQUARE).unwrap();
    let cover_of =
        |cover: &dyn Fn(Place) -> f64, place: Place| to_surface.apply(place).map_or(0.0, cover);
    let slanted = Region {
        corners: corners(SLANTED),
        rectangle: Some(SLANTED.map(point)),
        ..Region::default()
    };
    let as_seen = Region {
        rectangle: None,
        ..slanted.clone()
    };
    for (seed, share) in (1..).zip([0.05, 0.3, 0.6, 0.9]) {
        let mut draws = ChaCha8Rng::seed_from_u64(seed);
        let spots = Spots::covering(share, &mut draws, 1.0, 1.0, 0.08);
        let rgba = draw(&mut draws, [METAL, CARBON], |place| {
            cover_of(&|at| spots.cover(at), place)
        });
        let truth = 100.0 * spots.share(1.0, 1.0);
        let read = dark_share(&rgba, &slanted);
        assert!((read - truth).abs() < 1.0, "{truth} % read as {read} %");
    }
    // Half of the surface, the half that is far away: on the photo it is less than half.
    let mut draws = ChaCha8Rng::seed_from_u64(9);
    let rgba = draw(&mut draws, [METAL, CARBON], |place| {
        cover_of(&|(_, v)| f64::from(u8::from(v < 0.5)), place)
    });
    assert!((dark_share(&rgba, &slanted) - 50.0).abs() < 1.0);
    assert!((dark_share(&rgba, &as_seen) - 50.0).abs() > 3.0);
}

#[test]
fn colour_tells_apart_what_lightness_does_not() {
    let mut draws = ChaCha8Rng::seed_from_u64(3);
    let left = |(x, _): Place| f64::from(u8::from(x < 0.3 * WIDTH as f64));
    let rgba = draw(&mut draws, [STAIN, AMBER], left);
    for shade in [Shade::Yellowness, Shade::Chroma] {
        let plane = counted(&rgba, &whole(), shade);
        let cuts = areas::part(&plane.count, 2).unwrap();
        let read = areas::classes(&plane.count, &cuts, &[level("clean"), level("amber")]);
        assert!((read[1].percent - 30.0).abs() < 1.0, "{shade:?}: {read:?}");
    }
    assert!((dark_share(&rgba, &whole()) - 30.0).abs() > 3.0);
}

#[test]
fn what_is_left_out_does_not_count() {
    let mut draws = ChaCha8Rng::seed_from_u64(4);
    // Three tenths are dark; glare lies over half of them.
    let rgba = draw(&mut draws, [METAL, CARBON], |(x, y)| {
        f64::from(u8::from(x < 0.3 * WIDTH as f64 && y >= 0.5 * HEIGHT as f64))
    });
    let high = 0.5 * HEIGHT as f64;
    let right = WIDTH as f64;
    let upper = [(0.0, 0.0), (right, 0.0), (right, high), (0.0, high)];
    let outlined = Region {
        left_out: vec![LeftOut::Outline {
            corners: corners(upper),
        }],
        ..whole()
    };
    assert!((dark_share(&rgba, &whole()) - 15.0).abs() < 0.5);
    assert!((dark_share(&rgba, &outlined) - 30.0).abs() < 0.5);
    // A brush half as high, drawn along the middle of that half, leaves a quarter of the height.
    let brushed = Region {
        left_out: vec![LeftOut::Brush {
            way: vec![point((0.0, high / 2.0)), point((right, high / 2.0))],
            width: high / 2.0,
        }],
        ..whole()
    };
    let expected = 15.0 / 0.75;
    assert!((dark_share(&rgba, &brushed) - expected).abs() < 0.5);
}

fn grey(shades: &[u8]) -> Vec<u8> {
    shades
        .iter()
        .flat_map(|shade| [*shade, *shade, *shade, 255])
        .collect()
}

/// Four by three pixels, three shades; by hand.
#[test]
fn few_pixels_are_counted_as_by_hand() {
    let rgba = grey(&[0, 0, 0, 255, 0, 0, 119, 255, 0, 119, 119, 255]);
    let region = |corners| Region {
        corners,
        ..Region::default()
    };
    let plane = |region: &Region| count(Pixels::new(4, &rgba).unwrap(), region, Shade::Lightness);
    let all = region(corners([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)]));
    let counted = plane(&all).unwrap();
    // sRGB 119 is L* 50.03, so shade 128.
    let shades = [0, 0, 0, 255, 0, 0, 128, 255, 0, 128, 128, 255].map(Some);
    assert_eq!(counted.shades, shades);
    let handed_on = ShadeCount::of_figures(&counted.count.figures());
    assert_eq!(handed_on.as_ref(), Some(&counted.count));
    assert_eq!(ShadeCount::of_figures(&[0.0; 511]), None);
    let levels = ["carbon", "amber", "clean"].map(level);
    let shares = |cuts: &[u8]| areas::classes(&counted.count, cuts, &levels);
    let percents = |classes: &[ShadeClass]| {
        classes
            .iter()
            .map(|class| class.percent)
            .collect::<Vec<_>>()
    };
    assert_eq!(percents(&shares(&[64, 192])), [50.0, 25.0, 25.0]);
    // A class up to and with its cut.
    assert_eq!(percents(&shares(&[127, 128])), [50.0, 25.0, 25.0]);
    assert_eq!(percents(&shares(&[0, 255])), [50.0, 50.0, 0.0]);
    // Shades 120 to 136 lie within eight of a cut at 128: below it with the cut's own, none above.
    let cuts = areas::cuts(&counted.count, &[5, 128]);
    let moved: Vec<_> = cuts
        .iter()
        .map(|cut| (cut.at, cut.below, cut.above))
        .collect();
    assert_eq!(moved, [(5, 50.0, 0.0), (128, 25.0, 0.0)]);
    // Shades 0, 128 and 255: any cut between two of them parts them, the middle one least in doubt.
    let cuts = areas::part(&counted.count, 3).unwrap();
    assert_eq!(cuts, [63, 191]);
    let sure = areas::cuts(&counted.count, &cuts);
    assert!(sure.iter().all(|cut| cut.below == 0.0 && cut.above == 0.0));
    // Only the middles that lie within count: two of the upper row, one of the next.
    let corner = region(vec![
        point((0.0, 0.0)),
        point((2.4, 0.0)),
        point((0.0, 2.4)),
    ]);
    let shades: Vec<_> = plane(&corner).unwrap().shades;
    let inside: Vec<usize> = (0..12).filter(|n| shades[*n].is_some()).collect();
    assert_eq!(inside, [0, 1, 4]);
    let nothing = region(vec![
        point((0.6, 0.6)),
        point((1.4, 0.6)),
        point((0.6, 1.4)),
    ]);
    assert_eq!(plane(&nothing), Err(CountError::Empty));
}

#[test]
fn what_cannot_be_counted_is_refused() {
    let rgba = grey(&[0; 12]);
    assert_eq!(
        Pixels::new(5, &rgba).unwrap_err(),
        CountError::Pixels {
            bytes: 48,
            width: 5
        }
    );
    assert!(Pixels::new(0, &rgba).is_err() && Pixels::new(4, &[]).is_err());
    let pixels = Pixels::new(4, &rgba).unwrap();
    let all = corners([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)]);
    let with = |rectangle: [Place; 4]| Region {
        corners: all.clone(),
        rectangle: Some(rectangle.map(point)),
        ..Region::default()
    };
    let refused = |region: &Region| count(pixels, region, Shade::Lightness).unwrap_err();
    let crossed = with([(0.0, 0.0), (4.0, 3.0), (4.0, 0.0), (0.0, 3.0)]);
    assert!(matches!(
        refused(&crossed),
        CountError::Rectangle(StatsError::NotConvex { .. })
    ));
    // The sides meet above the picture's middle: what lies above that is beyond the horizon.
    let slanted = with([(1.9, 2.0), (2.1, 2.0), (4.0, 3.0), (0.0, 3.0)]);
    assert!(matches!(
        refused(&slanted),
        CountError::Rectangle(StatsError::BeyondHorizon { .. })
    ));
    let one_shade = count(
        pixels,
        &Region {
            corners: all.clone(),
            ..Region::default()
        },
        Shade::Chroma,
    );
    assert!(areas::part(&one_shade.unwrap().count, 2).is_err());
}

#[test]
fn a_reading_starts_with_the_darkest_as_the_worst() {
    let levels = ["heavy_carbon", "light_carbon", "amber", "clean"].map(level);
    let first = |shade, classes| {
        let first = areas::first_levels(shade, &levels, classes);
        first
            .iter()
            .map(ToString::to_string)
            .collect::<Vec<_>>()
            .join(" ")
    };
    assert_eq!(first(Shade::Lightness, 2), "heavy_carbon clean");
    assert_eq!(
        first(Shade::Lightness, 4),
        "heavy_carbon light_carbon amber clean"
    );
    assert!(
        first(Shade::Lightness, 3).starts_with("heavy_carbon ")
            && first(Shade::Lightness, 3).ends_with(" clean")
    );
    assert_eq!(first(Shade::Yellowness, 2), "clean amber");
    assert_eq!(first(Shade::Chroma, 3), "clean amber light_carbon");
}

/// By hand: cuts that move 4 % and 2 % between levels of 0.6, 0.1 and 0 a percent.
#[test]
fn the_scatter_of_the_cuts_is_carried_into_what_hangs_on_them() {
    let class = |id: &str, percent| ShadeClass {
        level: level(id),
        percent,
    };
    let read = PhotoAreas {
        photo: EntryId::v7(1, [1; 10]),
        region: whole(),
        shade: Shade::Lightness,
        cuts: vec![
            Cut {
                at: 60,
                below: 3.0,
                above: 5.0,
            },
            Cut {
                at: 140,
                below: 2.0,
                above: 2.0,
            },
        ],
        classes: vec![
            class("carbon", 20.0),
            class("amber", 30.0),
            class("clean", 50.0),
        ],
    };
    let slope = |level: &LevelId| match level.as_str() {
        "carbon" => 0.6,
        "amber" => 0.1,
        _ => 0.0,
    };
    let expected = ((2.0_f64 * 2.0 + 0.2 * 0.2) / 3.0).sqrt();
    assert!((parting_scatter(&read, slope) - expected).abs() < 1e-12);
    let scatter = class_scatter(&read.cuts);
    let expected = [
        (16.0_f64 / 3.0).sqrt(),
        (20.0_f64 / 3.0).sqrt(),
        (4.0_f64 / 3.0).sqrt(),
    ];
    for (found, expected) in scatter.iter().zip(expected) {
        assert!((found - expected).abs() < 1e-12);
    }
}
