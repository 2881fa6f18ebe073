//! What sliding does: polish, scores, dull and torn metal, a track that sinks.
//!
//! The unworn borders stay as machined, so that worn and unworn lie side by side as they do on the
//! part. From grade to grade machining marks go, polish comes and goes, scores grow in number and
//! depth, metal turns dull and tears, and the track sinks below its borders.

use super::{LEVEL, Lot, Svg, TRACK, WIDTH, cut, ends, marks, patches};
use crate::svg::{Path, Scatter, fine};

/// How a grade looks.
#[derive(Clone, Copy)]
struct Look {
    /// Share of the machining marks left in the track.
    marks: f64,
    /// Brightness of the polish in the track.
    polish: f64,
    /// Scores along the way of sliding, of the full number.
    scores: f64,
    /// Width of the widest score.
    width: f64,
    /// Dull patches, of the full number.
    dull: f64,
    /// Torn patches, or lining worn through, of the full number.
    torn: f64,
    /// Depth of the track.
    depth: f64,
    /// Roughness of the cut.
    rough: f64,
}

/// The whole grades, none to severe, in the order of [`Look`].
const LOOKS: [[f64; 8]; 6] = [
    [1.00, 0.00, 0.00, 0.0, 0.00, 0.0, 0.0, 0.00],
    [0.86, 0.34, 0.05, 0.6, 0.00, 0.0, 0.0, 0.00],
    [0.58, 0.60, 0.20, 0.8, 0.00, 0.0, 0.8, 0.15],
    [0.26, 0.62, 0.42, 1.1, 0.30, 0.0, 2.4, 0.50],
    [0.03, 0.40, 0.72, 1.5, 0.75, 0.4, 5.2, 1.00],
    [0.00, 0.10, 0.80, 2.0, 1.00, 1.0, 10.0, 1.90],
];

impl Look {
    /// Of a grade by its half steps.
    fn of(steps: usize) -> Self {
        let of = |n: usize| super::midway(steps, |grade| LOOKS[grade][n]);
        Self {
            marks: of(0),
            polish: of(1),
            scores: of(2),
            width: of(3),
            dull: of(4),
            torn: of(5),
            depth: of(6),
            rough: of(7),
        }
    }
}

/// Metal gone dull.
const DULL: Lot = Lot {
    class: "metal__dull",
    most: 14,
    seed: 21,
    long: (12.0, 30.0),
    wide: (2.5, 5.5),
};
/// Steel torn out.
const TORN: Lot = Lot {
    class: "metal__torn",
    most: 15,
    seed: 4,
    long: (10.0, 26.0),
    wide: (2.0, 5.0),
};
/// Overlay worn through to the lining.
const THROUGH: Lot = Lot {
    class: "metal__copper",
    most: 18,
    seed: 9,
    long: (14.0, 38.0),
    wide: (3.0, 7.5),
};

/// A worn strip of steel.
pub(super) fn steel(svg: &mut Svg, steps: usize) {
    let look = Look::of(steps);
    ends(svg, "metal__steel");
    polish(svg, look);
    marks::slanting(svg, look.marks);
    wear(svg, look, &TORN);
    cut(svg, &surface(look), None);
}

/// A worn strip of a bearing: overlay on a copper or brass lining.
pub(super) fn lining(svg: &mut Svg, steps: usize) {
    let look = Look::of(steps);
    ends(svg, "metal__lining");
    polish(svg, look);
    marks::along(svg, look.marks);
    wear(svg, look, &THROUGH);
    // The overlay is a thin layer; where the track has sunk through it the lining shows.
    cut(svg, &surface(look), Some(("metal__copper", LEVEL + 3.0)));
}

fn wear(svg: &mut Svg, look: Look, torn: &Lot) {
    patches(svg, &DULL, look.dull);
    scores(svg, look);
    patches(svg, torn, look.torn);
    borders(svg, look);
}

/// The polish is brightest in the middle of the track.
fn polish(svg: &mut Svg, look: Look) {
    if look.polish <= 0.0 {
        return;
    }
    for inset in [0.0, 5.0, 11.0] {
        let height = TRACK.1 - TRACK.0 - 2.0 * inset;
        svg.push(&format!("<g opacity=\"{}\">", fine(look.polish / 2.0)));
        svg.rect("metal__polish", (0.0, TRACK.0 + inset), (WIDTH, height));
        svg.push("</g>");
    }
}

/// Scores along the way of sliding, each with a bright edge where its burr catches the light.
fn scores(svg: &mut Svg, look: Look) {
    const MOST: i32 = 34;
    let mut scatter = Scatter::new(8);
    let mut by_width = [
        (Path::default(), Path::default()),
        (Path::default(), Path::default()),
    ];
    for n in 0..MOST {
        let y = scatter.between(TRACK.0 + 2.0, TRACK.1 - 2.0);
        let (start, length) = (scatter.between(-30.0, 130.0), scatter.between(40.0, 170.0));
        let fall = scatter.between(-0.7, 0.7);
        if f64::from(n) >= look.scores * f64::from(MOST) {
            continue;
        }
        let (from, to) = (start.max(0.0), (start + length).min(WIDTH));
        let (score, glint) = &mut by_width[usize::from(n % 3 == 0)];
        score.line((from, y), (to, y + fall));
        glint.line((from, y + 0.9), (to, y + fall + 0.9));
    }
    for ((score, glint), width) in by_width.iter().zip([0.55, 1.0]) {
        svg.path("metal__glints", glint, Some(look.width * width * 0.7));
        svg.path("metal__scores", score, Some(look.width * width));
    }
}

/// The borders of the track, darker the deeper it has sunk.
fn borders(svg: &mut Svg, look: Look) {
    if look.depth <= 0.0 {
        return;
    }
    let width = 0.4 + look.depth * 0.16;
    let (mut dark, mut bright) = (Path::default(), Path::default());
    dark.line((0.0, TRACK.0), (WIDTH, TRACK.0));
    bright.line((0.0, TRACK.1), (WIDTH, TRACK.1));
    svg.path("metal__edge", &dark, Some(width));
    svg.path("metal__glints", &bright, Some(width));
}

/// The surface across the strip: the track sinks below its borders and roughens.
fn surface(look: Look) -> Vec<f64> {
    let mut scatter = Scatter::new(15);
    super::across(|across| {
        let inside = (1.0 - across * across).max(0.0);
        let hollow = look.depth * (inside * (1.6 - 0.6 * inside)).min(1.0);
        LEVEL + hollow + scatter.between(-1.0, 1.0) * look.rough * inside.min(0.5) * 2.0
    })
}
