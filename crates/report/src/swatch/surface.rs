//! Metal surfaces for the wear grades, drawn by rule.
//!
//! Each picture shows a strip of a part with the track in which something slid along its middle, and
//! below it a cut across the strip. The unworn borders stay as machined, so that worn and unworn lie
//! side by side as they do on the part. From grade to grade machining marks go, polish comes and goes,
//! scores grow in number and depth, metal turns dull and tears, and the track sinks below its borders.
//! A half step is drawn midway.

use ringland_card::Grade;

use super::write::{Path, Scatter, Svg};

/// What the surface is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Metal {
    /// Ground steel or iron: lobes, rollers, journals, rings.
    Steel,
    /// A bearing's layers: overlay on a copper or brass lining.
    Lining,
}

/// The style rules of these pictures. The colours are those of metal and stay much the same on a
/// dark page.
pub(super) const CSS: &str = "\
.metal__steel{fill:light-dark(#c6cfd7,#aeb8c1)}
.metal__lining{fill:light-dark(#bfc3c4,#a9aeb0)}
.metal__polish{fill:#f4f7f9}
.metal__marks{fill:none;stroke:#66717b}
.metal__scores{fill:none;stroke:#39424a;stroke-linecap:round}
.metal__glints{fill:none;stroke:#fbfcfd;stroke-linecap:round}
.metal__dull{fill:#6d6a66;opacity:.55}
.metal__torn{fill:#3d281a}
.metal__copper{fill:#b8743f}
.metal__edge{fill:none;stroke:#2c3339}
.metal__cut{fill:light-dark(#7d8a96,#6f7c88)}
.metal__air{fill:light-dark(#f6f8fa,#12161a)}
";

/// Width and height of a picture.
const SIZE: (f64, f64) = (168.0, 96.0);
/// Height of the strip seen from above; the cut lies below it.
const STRIP: f64 = 70.0;
/// Upper and lower border of the track.
const TRACK: (f64, f64) = (13.0, 57.0);
/// Surface of the cut when as machined.
const LEVEL: f64 = 79.0;

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

/// The whole grades, none to severe.
const LOOKS: [Look; 6] = [
    Look {
        marks: 1.0,
        polish: 0.0,
        scores: 0.0,
        width: 0.0,
        dull: 0.0,
        torn: 0.0,
        depth: 0.0,
        rough: 0.0,
    },
    Look {
        marks: 0.86,
        polish: 0.34,
        scores: 0.05,
        width: 0.6,
        dull: 0.0,
        torn: 0.0,
        depth: 0.0,
        rough: 0.0,
    },
    Look {
        marks: 0.58,
        polish: 0.6,
        scores: 0.2,
        width: 0.8,
        dull: 0.0,
        torn: 0.0,
        depth: 0.8,
        rough: 0.15,
    },
    Look {
        marks: 0.26,
        polish: 0.62,
        scores: 0.42,
        width: 1.1,
        dull: 0.3,
        torn: 0.0,
        depth: 2.4,
        rough: 0.5,
    },
    Look {
        marks: 0.03,
        polish: 0.4,
        scores: 0.72,
        width: 1.5,
        dull: 0.75,
        torn: 0.4,
        depth: 5.2,
        rough: 1.0,
    },
    Look {
        marks: 0.0,
        polish: 0.1,
        scores: 0.8,
        width: 2.0,
        dull: 1.0,
        torn: 1.0,
        depth: 10.0,
        rough: 1.9,
    },
];

impl Look {
    fn of(grade: Grade) -> Self {
        let steps = grade.half_steps();
        let a = LOOKS[steps / 2];
        if steps.is_multiple_of(2) {
            return a;
        }
        let b = LOOKS[steps / 2 + 1];
        let mid = f64::midpoint;
        Self {
            marks: mid(a.marks, b.marks),
            polish: mid(a.polish, b.polish),
            scores: mid(a.scores, b.scores),
            width: mid(a.width, b.width),
            dull: mid(a.dull, b.dull),
            torn: mid(a.torn, b.torn),
            depth: mid(a.depth, b.depth),
            rough: mid(a.rough, b.rough),
        }
    }
}

/// A steel surface of that grade.
pub fn grade(grade: Grade, label: Option<&str>) -> String {
    grade_on(Metal::Steel, grade, label)
}

/// A surface of that grade in one metal or the other.
pub fn grade_on(metal: Metal, grade: Grade, label: Option<&str>) -> String {
    let look = Look::of(grade);
    let mut svg = Svg::open(168, 96, "picture picture--metal", label);
    let ground = match metal {
        Metal::Steel => "metal__steel",
        Metal::Lining => "metal__lining",
    };
    svg.rect(ground, (0.0, 0.0), (SIZE.0, STRIP));
    polish(&mut svg, look);
    marks(&mut svg, metal, look);
    patches(&mut svg, &DULL, look.dull);
    scores(&mut svg, look);
    let torn = match metal {
        Metal::Steel => &TORN,
        Metal::Lining => &THROUGH,
    };
    patches(&mut svg, torn, look.torn);
    borders(&mut svg, look);
    cut(&mut svg, metal, look);
    svg.close()
}

/// The polish is brightest in the middle of the track.
fn polish(svg: &mut Svg, look: Look) {
    if look.polish <= 0.0 {
        return;
    }
    for inset in [0.0, 5.0, 11.0] {
        let height = TRACK.1 - TRACK.0 - 2.0 * inset;
        svg.push(&format!(
            "<g opacity=\"{}\">",
            super::write::coord(look.polish / 2.0)
        ));
        svg.rect("metal__polish", (0.0, TRACK.0 + inset), (SIZE.0, height));
        svg.push("</g>");
    }
}

/// Machining marks: slanting on ground steel, along the strip on a bored lining.
fn marks(svg: &mut Svg, metal: Metal, look: Look) {
    let mut scatter = Scatter::new(3);
    let (mut borders, mut track) = (Path::default(), Path::default());
    match metal {
        Metal::Steel => {
            let slant = 9.0;
            for n in 0..74 {
                let x = -10.0 + f64::from(n) * 2.5 + scatter.between(-0.5, 0.5);
                let at = |y: f64| (x + slant * (1.0 - y / STRIP), y);
                borders.line(at(0.0), at(TRACK.0));
                borders.line(at(TRACK.1), at(STRIP));
                // What is left of a mark in the track is left in pieces.
                for piece in 0..4 {
                    let (from, to) = piece_of(TRACK.0, TRACK.1, piece, 4);
                    if scatter.next() < look.marks {
                        track.line(at(from), at(to));
                    }
                }
            }
        }
        Metal::Lining => {
            for n in 0..28 {
                let y = 1.2 + f64::from(n) * 2.5;
                let inside = y > TRACK.0 && y < TRACK.1;
                for piece in 0..6 {
                    let (from, to) = piece_of(0.0, SIZE.0, piece, 6);
                    if !inside {
                        borders.line((from, y), (to, y));
                    } else if scatter.next() < look.marks {
                        track.line((from, y), (to, y));
                    }
                }
            }
        }
    }
    svg.path("metal__marks", &borders, Some(0.55));
    svg.path("metal__marks", &track, Some(0.5));
}

fn piece_of(from: f64, to: f64, piece: i32, pieces: i32) -> (f64, f64) {
    let step = (to - from) / f64::from(pieces);
    let start = from + step * f64::from(piece);
    (start, start + step)
}

/// How patches of one kind are laid out.
struct Lot {
    class: &'static str,
    most: i32,
    seed: u64,
    /// Half the length, least and most.
    long: (f64, f64),
    /// Half the width, least and most.
    wide: (f64, f64),
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

/// Patches drawn out along the way of sliding: that share of the lot.
fn patches(svg: &mut Svg, lot: &Lot, share: f64) {
    let mut scatter = Scatter::new(lot.seed);
    let mut path = Path::default();
    for n in 0..lot.most {
        let middle = (
            scatter.between(4.0, SIZE.0 - 4.0),
            scatter.between(TRACK.0 + 5.0, TRACK.1 - 5.0),
        );
        let half = (
            scatter.between(lot.long.0, lot.long.1),
            scatter.between(lot.wide.0, lot.wide.1),
        );
        let mut patch = Path::default();
        streak(&mut patch, middle, half, &mut scatter);
        // Those that are not drawn were still drawn from the row, so that the next stay the same.
        if f64::from(n) < share * f64::from(lot.most) {
            path.join(&patch);
        }
    }
    svg.path(lot.class, &path, None);
}

/// A ragged patch, blunt where it begins and drawn out where it ends.
fn streak(path: &mut Path, middle: (f64, f64), half: (f64, f64), scatter: &mut Scatter) {
    let along = [-1.0, -0.85, -0.5, -0.1, 0.3, 0.65, 1.0];
    let wide = [0.0, 0.75, 1.0, 0.9, 0.7, 0.35, 0.0];
    let mut edge = |n: usize, side: f64| {
        let x = middle.0 + half.0 * (along[n] + scatter.between(-0.06, 0.06));
        let y = middle.1 + side * half.1 * wide[n] * scatter.between(0.7, 1.25);
        (x.clamp(0.0, SIZE.0), y.clamp(TRACK.0 + 1.0, TRACK.1 - 1.0))
    };
    path.start(edge(0, 1.0));
    for n in 1..along.len() {
        path.to(edge(n, -1.0));
    }
    for n in (1..along.len() - 1).rev() {
        path.to(edge(n, 1.0));
    }
    path.close();
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
        let (from, to) = (start.max(0.0), (start + length).min(SIZE.0));
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
    dark.line((0.0, TRACK.0), (SIZE.0, TRACK.0));
    bright.line((0.0, TRACK.1), (SIZE.0, TRACK.1));
    svg.path("metal__edge", &dark, Some(width));
    svg.path("metal__glints", &bright, Some(width));
}

/// The cut across the strip: the track sinks below its borders and roughens.
fn cut(svg: &mut Svg, metal: Metal, look: Look) {
    svg.rect("metal__air", (0.0, STRIP), (SIZE.0, SIZE.1 - STRIP));
    let mut scatter = Scatter::new(15);
    let mut surface = Vec::new();
    for n in 0..=56 {
        let x = f64::from(n) * 3.0;
        // From border to border of the track, which takes the middle three fifths of the cut.
        let across = (x - 84.0) / 52.0;
        let inside = (1.0 - across * across).max(0.0);
        let hollow = look.depth * (inside * (1.6 - 0.6 * inside)).min(1.0);
        let rough = scatter.between(-1.0, 1.0) * look.rough * inside.min(0.5) * 2.0;
        surface.push((x, LEVEL + hollow + rough));
    }
    let below = |path: &mut Path, from: f64| {
        path.start((0.0, SIZE.1));
        for (x, y) in &surface {
            path.to((*x, y.max(from)));
        }
        path.to(SIZE);
        path.close();
    };
    let mut body = Path::default();
    below(&mut body, 0.0);
    svg.path("metal__cut", &body, None);
    if metal == Metal::Lining {
        // The overlay is a thin layer; where the track has sunk through it the lining shows.
        let mut lining = Path::default();
        below(&mut lining, LEVEL + 3.0);
        svg.path("metal__copper", &lining, None);
    }
    let mut line = Path::default();
    for (n, point) in surface.iter().enumerate() {
        if n == 0 {
            line.start(*point);
        } else {
            line.to(*point);
        }
    }
    svg.path("metal__edge", &line, Some(1.2));
}
