//! Areas being read off a photo: where on it, which shades there are, and the colours of the classes.

use ringland_assess::photo::{areas::class_scatter, count::ShadeCount};
use ringland_card::photo::{Cut, LeftOut, MOST_CLASSES, Picture, Point, Region, ShadeClass};

use crate::{
    svg::{Path, Svg},
    words::Words,
};

/// The colours of the classes over the photo: red, green, blue. They can be told apart by those who see fewer colours (M.
/// Okabe and K. Ito, *Color Universal Design*, 2008, from memory).
pub const CLASS_COLOURS: [[u8; 3]; MOST_CLASSES] = [
    [0, 114, 178],
    [230, 159, 0],
    [0, 158, 115],
    [204, 121, 167],
    [240, 228, 66],
];

/// The height of the picture of shades; it is one unit wide for each of them.
const HEIGHT: u32 = 72;
/// How many shades there are.
const SHADES: u32 = 256;
/// The side of a chip.
const CHIP: u32 = 28;
/// Twice the standard uncertainty is said beside a share.
const K: f64 = 2.0;

/// The sample of a class's colour.
pub fn chip(class: usize) -> String {
    let mut svg = Svg::open(CHIP, CHIP, "levels__chip", None);
    let side = f64::from(CHIP);
    svg.filled((0.0, 0.0), (side, side), colour(class));
    svg.close()
}

fn colour(class: usize) -> [u8; 3] {
    CLASS_COLOURS.get(class).copied().unwrap_or_default()
}

/// How much of a region has each shade, each class in its colour, with a line where two part.
///
/// The heights are roots of the areas, so that a class of a few percent is seen beside one of ninety.
pub fn shades(words: &Words, count: &ShadeCount, cuts: &[u8]) -> String {
    let mut svg = Svg::open(SHADES, HEIGHT, "shades", Some(words.photo_areas.shades));
    let most = count.area.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
    let high = f64::from(HEIGHT);
    for (shade, area) in (0..=u8::MAX).zip(count.area) {
        if area > 0.0 {
            let tall = (area / most).sqrt() * high;
            let class = cuts.partition_point(|cut| *cut < shade);
            svg.filled((f64::from(shade), high - tall), (1.0, tall), colour(class));
        }
    }
    for cut in cuts {
        let x = f64::from(*cut) + 1.0;
        svg.line("shades__cut", (x, 0.0), (x, high));
    }
    svg.close()
}

/// What each class has of the surface: "38.2 % ± 1.4".
pub fn shares(words: &Words, classes: &[ShadeClass], cuts: &[Cut]) -> Vec<String> {
    let scatter = class_scatter(cuts);
    let said = |(class, u): (&ShadeClass, f64)| {
        let share = words.numbers.percent(class.percent);
        [&share, " ", &words.numbers.plus_minus(K * u)].concat()
    };
    classes.iter().zip(scatter).map(said).collect()
}

/// Where areas are read: the surface, what is left out of it, the corners of the rectangle, and what the hand is at.
pub fn region(picture: &Picture, region: &Region, at_hand: &[Point]) -> String {
    let mut svg = Svg::open(picture.width, picture.height, "marks", None);
    for part in &region.left_out {
        match part {
            LeftOut::Outline { corners } => svg.path("marks__out", &around(corners), None),
            LeftOut::Brush { way, width } => {
                svg.path("marks__brush", &along(way), Some(*width));
            }
        }
    }
    double(&mut svg, &around(&region.corners), "marks__line");
    if let Some(rectangle) = &region.rectangle {
        double(
            &mut svg,
            &around(rectangle),
            "marks__line marks__line--known",
        );
    }
    double(&mut svg, &along(at_hand), "marks__line marks__line--known");
    // A first corner alone has no line yet.
    let dots = [region.corners.as_slice(), at_hand];
    let radius = f64::from(picture.width.max(picture.height)) * 0.006;
    for point in dots.into_iter().filter(|points| points.len() < 3).flatten() {
        svg.circle("marks__dot", (point.x, point.y), radius);
    }
    svg.close()
}

/// A line seen on light and on dark parts alike.
fn double(svg: &mut Svg, path: &Path, class: &str) {
    svg.path("marks__under", path, None);
    svg.path(class, path, None);
}

fn along(points: &[Point]) -> Path {
    let mut path = Path::default();
    if let Some((first, rest)) = points.split_first() {
        path.start((first.x, first.y));
        // A tap of a brush is a line to where it began.
        path.to((first.x, first.y));
        for point in rest {
            path.to((point.x, point.y));
        }
    }
    path
}

fn around(points: &[Point]) -> Path {
    let mut path = along(points);
    if points.len() > 2 {
        path.close();
    }
    path
}
