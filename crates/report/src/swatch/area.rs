//! Patches that cover a known share of the area, to hold a surface against.

use super::field::{Field, HEIGHT, WIDTH};
use crate::svg::{Path, Svg};

/// The shares that are drawn, in percent.
pub const AREA_PERCENTS: [u8; 8] = [1, 2, 5, 10, 20, 30, 50, 80];

/// How the patches lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Patches {
    /// Many small ones, all over.
    Scattered,
    /// A few large ones together.
    Clustered,
}

impl Patches {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Scattered, Self::Clustered];

    /// The seed was picked by eye.
    fn field(self) -> Field {
        match self {
            Self::Scattered => Field::new(11, 150.0),
            Self::Clustered => Field::new(5, 520.0),
        }
    }

    /// The levels that leave just the shares of [`AREA_PERCENTS`] above them; a test finds them anew.
    fn levels(self) -> [f64; 8] {
        match self {
            Self::Scattered => [
                1.136_985, 1.101_432, 1.052_082, 1.004_105, 0.938_328, 0.879_608, 0.767_694,
                0.587_860,
            ],
            Self::Clustered => [
                1.176_321, 1.146_965, 1.071_168, 0.993_126, 0.874_384, 0.776_685, 0.661_635,
                0.538_681,
            ],
        }
    }
}

/// The style rules of these pictures.
pub(super) const CSS: &str = "\
.area__ground{fill:light-dark(#dfe5ea,#c3ccd4)}
.area__patch{fill:light-dark(#4a3020,#3a2518)}
";

/// A frame of which just so many percent are covered by patches; nothing for a share that is not
/// among [`AREA_PERCENTS`].
pub fn area(percent: u8, patches: Patches, label: Option<&str>) -> Option<String> {
    let place = AREA_PERCENTS.iter().position(|known| *known == percent)?;
    let mut svg = Svg::open(
        WIDTH.unsigned_abs(),
        HEIGHT.unsigned_abs(),
        "picture picture--area",
        label,
    );
    svg.rect(
        "area__ground",
        (0.0, 0.0),
        (f64::from(WIDTH), f64::from(HEIGHT)),
    );
    let mut path = Path::default();
    for points in patches.field().loops(patches.levels()[place]) {
        path.whole_loop(&points);
    }
    svg.path("area__patch", &path, None);
    Some(svg.close())
}

#[cfg(test)]
mod tests {
    use super::{super::field, *};

    /// Reads the loops back from the picture and counts their area.
    fn drawn(svg: &str) -> f64 {
        let d = svg
            .split("class=\"area__patch\" d=\"")
            .nth(1)
            .unwrap()
            .split('"')
            .next()
            .unwrap();
        let loops: Vec<Vec<(i32, i32)>> = d
            .split('Z')
            .filter(|path| !path.is_empty())
            .map(|path| {
                let mut at = (0, 0);
                path.trim_start_matches('M')
                    .split('l')
                    .map(|step| {
                        let (x, y) = step.split_once(' ').unwrap();
                        at = (
                            at.0 + x.parse::<i32>().unwrap(),
                            at.1 + y.parse::<i32>().unwrap(),
                        );
                        at
                    })
                    .collect()
            })
            .collect();
        field::area(&loops) / f64::from(WIDTH * HEIGHT) * 100.0
    }

    #[test]
    fn the_levels_are_those_of_the_shares() {
        for patches in Patches::ALL {
            let field = patches.field();
            let found = AREA_PERCENTS.map(|percent| field.level_of(f64::from(percent) / 100.0));
            let stated = patches.levels();
            let same = |at: usize| (stated[at] - found[at]).abs() < 1e-5;
            assert!((0..8).all(same), "{patches:?}: the levels are {found:.6?}");
        }
    }

    #[test]
    fn the_area_drawn_is_the_area_named() {
        for patches in Patches::ALL {
            for percent in AREA_PERCENTS {
                let drawn = drawn(&area(percent, patches, None).unwrap());
                assert!(
                    (drawn - f64::from(percent)).abs() < 0.05,
                    "{patches:?} {percent}: {drawn}"
                );
            }
        }
    }

    /// Each point of the frame is inside at most one patch: loops only ever wind once.
    #[test]
    fn patches_never_overlap() {
        for patches in Patches::ALL {
            for level in patches.levels() {
                let loops = patches.field().loops(level);
                for (x, y) in (0..60).flat_map(|x| (0..30).map(move |y| (x * 30 + 7, y * 33 + 5))) {
                    let winding: i32 = loops.iter().map(|points| winding(points, (x, y))).sum();
                    assert!(
                        (0..=1).contains(&winding),
                        "{patches:?} at {x}, {y}: {winding}"
                    );
                }
            }
        }
    }

    fn winding(points: &[(i32, i32)], (x, y): (i32, i32)) -> i32 {
        let next = points.iter().cycle().skip(1);
        let side = |a: (i32, i32), b: (i32, i32)| {
            i64::from(b.0 - a.0) * i64::from(y - a.1) - i64::from(x - a.0) * i64::from(b.1 - a.1)
        };
        points
            .iter()
            .zip(next)
            .map(|(a, b)| match (a.1 <= y, b.1 <= y) {
                (true, false) if side(*a, *b) > 0 => 1,
                (false, true) if side(*a, *b) < 0 => -1,
                _ => 0,
            })
            .sum()
    }
}
