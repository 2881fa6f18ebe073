//! What happens to a surface without sliding: holes, heat, and what settles on it.

use super::{
    HEIGHT, LEVEL, Lot, STRIP, Svg, TRACK, WIDTH, across, cut, ends, marks, midway, patches,
};
use crate::svg::{Path, Scatter, fine};

/// Holes, of the full number, and the radius of the largest, from none to severe.
const HOLES: [(f64, f64); 6] = [
    (0.0, 0.0),
    (0.08, 0.9),
    (0.24, 1.4),
    (0.5, 2.0),
    (0.78, 3.0),
    (1.0, 4.4),
];

/// Steel eaten into holes.
pub(super) fn pitted(svg: &mut Svg, steps: usize) {
    const MOST: i32 = 75;
    let (share, radius) = (midway(steps, |n| HOLES[n].0), midway(steps, |n| HOLES[n].1));
    ends(svg, "metal__steel");
    marks::slanting(svg, 1.0 - 0.6 * share);
    let mut scatter = Scatter::new(31);
    let (mut holes, mut rims) = (Path::default(), Path::default());
    let mut depths = [0.0; 57];
    for n in 0..MOST {
        let middle = (
            scatter.between(0.0, WIDTH),
            scatter.between(3.0, STRIP - 3.0),
        );
        let size = scatter.between(0.35, 1.0) * radius;
        let mut hole = Path::default();
        ragged(&mut hole, middle, size, &mut scatter);
        if f64::from(n) >= share * f64::from(MOST) {
            continue;
        }
        holes.join(&hole);
        rims.line(
            (middle.0 - size * 0.6, middle.1 + size),
            (middle.0 + size * 0.6, middle.1 + size),
        );
        // A cut meets one hole in five or so.
        if n % 5 == 0 {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "within the strip"
            )]
            let at = (middle.0 / 3.0) as usize;
            depths[at.min(56)] = size * 1.6;
        }
    }
    svg.path("metal__glints", &rims, Some(0.7));
    svg.path("metal__torn", &holes, None);
    let surface: Vec<f64> = depths.iter().map(|depth| LEVEL + depth).collect();
    cut(svg, &surface, None);
}

/// A ragged disc of eight corners.
fn ragged(path: &mut Path, (x, y): (f64, f64), size: f64, scatter: &mut Scatter) {
    const CORNERS: [(f64, f64); 8] = [
        (1.0, 0.0),
        (0.7, 0.7),
        (0.0, 1.0),
        (-0.7, 0.7),
        (-1.0, 0.0),
        (-0.7, -0.7),
        (0.0, -1.0),
        (0.7, -0.7),
    ];
    for (n, (right, down)) in CORNERS.into_iter().enumerate() {
        let r = size * scatter.between(0.7, 1.25);
        let at = (x + right * r, y + down * r);
        if n == 0 {
            path.start(at);
        } else {
            path.to(at);
        }
    }
    path.close();
}

/// Temper colours in the order in which steel takes them, and how strong each is from none to severe.
const COLOURS: [(&str, [f64; 6]); 4] = [
    ("metal__straw", [0.0, 0.28, 0.75, 0.8, 0.8, 0.8]),
    ("metal__brown", [0.0, 0.0, 0.12, 0.75, 0.8, 0.8]),
    ("metal__purple", [0.0, 0.0, 0.0, 0.12, 0.8, 0.8]),
    ("metal__blue", [0.0, 0.0, 0.0, 0.0, 0.12, 0.9]),
];

/// Steel that has taken colour, most in the middle.
pub(super) fn heat(svg: &mut Svg, steps: usize) {
    ends(svg, "metal__steel");
    for (inset, (class, strength)) in (0..).zip(COLOURS) {
        let strong = midway(steps, |n| strength[n]);
        if strong <= 0.0 {
            continue;
        }
        for soft in 0..2 {
            let edge = f64::from(inset) * 8.0 + f64::from(soft) * 3.5;
            svg.push(&format!("<g opacity=\"{}\">", fine(strong * 0.6)));
            svg.rect(class, (0.0, edge), (WIDTH, STRIP - 2.0 * edge));
            svg.push("</g>");
        }
    }
    marks::slanting(svg, 1.0);
    cut(svg, &across(|_| LEVEL), None);
}

/// Patches of what has settled.
const SETTLED: Lot = Lot {
    class: "metal__coat",
    most: 22,
    seed: 47,
    long: (12.0, 34.0),
    wide: (3.0, 8.0),
};
/// Patches, strength of the film beneath, and thickness, from none to severe.
const COATS: [(f64, f64, f64); 6] = [
    (0.0, 0.0, 0.0),
    (0.0, 0.35, 0.4),
    (0.12, 0.7, 1.2),
    (0.35, 1.0, 2.6),
    (0.7, 1.3, 4.6),
    (1.0, 1.7, 7.0),
];

/// A surface on which a film, then lumps have settled.
pub(super) fn coated(svg: &mut Svg, steps: usize) {
    let of = |take: fn((f64, f64, f64)) -> f64| midway(steps, |n| take(COATS[n]));
    let (share, film, thick) = (of(|coat| coat.0), of(|coat| coat.1), of(|coat| coat.2));
    ends(svg, "metal__steel");
    marks::slanting(svg, 1.0);
    if film > 0.0 {
        svg.push(&format!("<g opacity=\"{}\">", fine((film * 0.6).min(1.0))));
        svg.rect(
            "metal__film",
            (0.0, TRACK.0 - 8.0),
            (WIDTH, TRACK.1 - TRACK.0 + 16.0),
        );
        svg.rect("metal__film", (0.0, TRACK.0), (WIDTH, TRACK.1 - TRACK.0));
        svg.push("</g>");
    }
    patches(svg, &SETTLED, share);
    cut(svg, &across(|_| LEVEL), None);
    if thick > 0.0 {
        let mut scatter = Scatter::new(52);
        let mut coat = Path::default();
        coat.start((0.0, LEVEL));
        for (n, rough) in across(|_| scatter.between(0.55, 1.0))
            .into_iter()
            .enumerate()
        {
            coat.to((n as f64 * 3.0, LEVEL - thick * rough));
        }
        coat.to((WIDTH, LEVEL.min(HEIGHT)));
        coat.close();
        svg.path("metal__coat", &coat, None);
    }
}
