//! Surfaces for the wear grades, drawn by rule.
//!
//! Each picture shows a strip of a part from above, with the track in which something slid along its
//! middle, and below it a cut across the strip. A half step is drawn midway between its neighbours,
//! and what is drawn for a grade is still there for every worse one.

mod marks;
mod other;
mod worn;

use ringland_card::Grade;

use crate::svg::{Path, Scatter, Svg};

/// What a graded surface is, and what happens to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surface {
    /// Ground steel or iron that something slides or rolls on: lobes, rollers, journals, rings.
    Steel,
    /// A bearing's layers that wear: overlay on a copper or brass lining.
    Lining,
    /// A surface that is eaten or hammered into holes: corrosion, pitting, embedment, fretting.
    Pitted,
    /// Steel that has taken colour from heat.
    Heat,
    /// A surface on which something has settled.
    Coated,
}

impl Surface {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::Steel,
        Self::Lining,
        Self::Pitted,
        Self::Heat,
        Self::Coated,
    ];

    /// The surface to draw for a characteristic of a place, both by their ids; nothing where no drawn
    /// surface helps, as for a seal's hardening.
    pub fn of(place: &str, characteristic: &str) -> Option<Self> {
        let root = place.split('/').next().unwrap_or(place);
        Some(match (characteristic, root) {
            ("hardening" | "metal_in_pleats" | "wheel_damage" | "oil_groove_definition", _) => {
                return None;
            }
            ("heat_colour", _) => Self::Heat,
            ("deposit" | "carbon_ring", _) => Self::Coated,
            (
                "coolant_pitting" | "corrosion" | "embedment" | "back_fretting"
                | "big_end_fretting",
                _,
            ) => Self::Pitted,
            (_, "shell" | "cam_bushing" | "thrust_washer") => Self::Lining,
            _ => Self::Steel,
        })
    }
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
.metal__film{fill:#8a6a45;opacity:.5}
.metal__coat{fill:light-dark(#3d2c20,#4a3526)}
.metal__straw{fill:#d3a84a}
.metal__brown{fill:#94602c}
.metal__purple{fill:#694672}
.metal__blue{fill:#3c5f8e}
.metal__edge{fill:none;stroke:light-dark(#2c3339,#1b2126)}
.metal__cut{fill:light-dark(#7d8a96,#6f7c88)}
.metal__air{fill:light-dark(#f6f8fa,#0b0e11)}
";

/// Width and height of a picture.
const WIDTH: f64 = 168.0;
const HEIGHT: f64 = 96.0;
/// Height of the strip seen from above; the cut lies below it.
const STRIP: f64 = 70.0;
/// Upper and lower border of the track.
const TRACK: (f64, f64) = (13.0, 57.0);
/// Surface of the cut when as machined.
const LEVEL: f64 = 79.0;

/// A steel surface of that grade.
pub fn grade(grade: Grade, label: Option<&str>) -> String {
    grade_on(Surface::Steel, grade, label)
}

/// A surface of that grade.
pub fn grade_on(surface: Surface, grade: Grade, label: Option<&str>) -> String {
    let steps = grade.half_steps();
    let mut svg = Svg::open(168, 96, "picture picture--metal", label);
    match surface {
        Surface::Steel => worn::steel(&mut svg, steps),
        Surface::Lining => worn::lining(&mut svg, steps),
        Surface::Pitted => other::pitted(&mut svg, steps),
        Surface::Heat => other::heat(&mut svg, steps),
        Surface::Coated => other::coated(&mut svg, steps),
    }
    svg.close()
}

/// A figure of the whole grades at so many half steps; halfway between two of them it is their mean.
fn midway(steps: usize, of: impl Fn(usize) -> f64) -> f64 {
    f64::midpoint(of(steps / 2), of(steps.div_ceil(2)))
}

/// The strip before anything has happened to it.
fn ends(svg: &mut Svg, class: &str) {
    svg.rect(class, (0.0, 0.0), (WIDTH, STRIP));
}

/// Heights across the cut, at every third unit; the track runs from −1 to 1.
fn across(mut height: impl FnMut(f64) -> f64) -> Vec<f64> {
    (0..=56)
        .map(|n| height((f64::from(n) * 3.0 - 84.0) / 52.0))
        .collect()
}

/// The cut across the strip below its surface, with another layer from some depth on.
fn cut(svg: &mut Svg, surface: &[f64], layer: Option<(&str, f64)>) {
    svg.rect("metal__air", (0.0, STRIP), (WIDTH, HEIGHT - STRIP));
    svg.path("metal__cut", &below(surface, 0.0), None);
    if let Some((class, depth)) = layer {
        svg.path(class, &below(surface, depth), None);
    }
    let mut line = Path::default();
    for (n, y) in surface.iter().enumerate() {
        let at = (n as f64 * 3.0, *y);
        if n == 0 {
            line.start(at);
        } else {
            line.to(at);
        }
    }
    svg.path("metal__edge", &line, Some(1.2));
}

/// What lies below a surface and below a depth.
fn below(surface: &[f64], depth: f64) -> Path {
    let mut path = Path::default();
    path.start((0.0, HEIGHT));
    for (n, y) in surface.iter().enumerate() {
        path.to((n as f64 * 3.0, y.max(depth)));
    }
    path.to((WIDTH, HEIGHT));
    path.close();
    path
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

/// Patches drawn out along the way of sliding: that share of the lot.
fn patches(svg: &mut Svg, lot: &Lot, share: f64) {
    let mut scatter = Scatter::new(lot.seed);
    let mut path = Path::default();
    for n in 0..lot.most {
        let middle = (
            scatter.between(4.0, WIDTH - 4.0),
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
        (x.clamp(0.0, WIDTH), y.clamp(TRACK.0 + 1.0, TRACK.1 - 1.0))
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

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn every_grade_looks_different_on_every_surface() {
        for surface in Surface::ALL {
            let pictures: BTreeSet<String> = Grade::ALL
                .into_iter()
                .map(|grade| grade_on(surface, grade, None))
                .collect();
            assert_eq!(pictures.len(), Grade::ALL.len(), "{surface:?}");
        }
    }

    /// What a page with a strict policy would not show, and what would not be the same everywhere.
    #[test]
    fn pictures_have_no_styles_and_no_odd_numbers() {
        for surface in Surface::ALL {
            for grade in Grade::ALL {
                let svg = grade_on(surface, grade, None);
                assert!(!svg.contains("style") && !svg.contains("NaN") && !svg.contains("inf"));
                assert!(svg.len() < 13_000, "{surface:?} {grade}: {}", svg.len());
            }
        }
    }

    #[test]
    fn a_surface_is_drawn_where_it_helps() {
        assert_eq!(Surface::of("lobe/exhaust", "wear"), Some(Surface::Steel));
        assert_eq!(Surface::of("shell/lower", "wear"), Some(Surface::Lining));
        assert_eq!(
            Surface::of("shell/lower", "corrosion"),
            Some(Surface::Pitted)
        );
        assert_eq!(Surface::of("pin", "heat_colour"), Some(Surface::Heat));
        assert_eq!(Surface::of("seal", "hardening"), None);
    }
}
