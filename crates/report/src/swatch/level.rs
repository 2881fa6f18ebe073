//! Levels of deposit, sludge and varnish: fills that are told by shade and by pattern, and the
//! unrolled land.

use ringland_card::{
    LevelId,
    entry::{SECTORS, Stretch},
    scale::CLEAN,
};

use crate::svg::Svg;
use crate::words::Words;

/// A level's fill: its ground, the ink of its pattern, and the pattern in a square of 8.
struct Fill {
    class: &'static str,
    ground: &'static str,
    ink: &'static str,
    pattern: &'static str,
}

/// Worst first. Neighbours differ in shade and in pattern.
const FILLS: [Fill; 8] = [
    Fill {
        class: "level0",
        ground: "#17100c",
        ink: "#17100c",
        pattern: "",
    },
    Fill {
        class: "level1",
        ground: "#3b2a20",
        ink: "#8a6e58",
        pattern: "M0 4H8M4 0V8",
    },
    Fill {
        class: "level2",
        ground: "#5d4433",
        ink: "#1a110b",
        pattern: "M2 2h.01M6 6h.01",
    },
    Fill {
        class: "level3",
        ground: "#7d4d24",
        ink: "#321a0b",
        pattern: "M-2 2L2 -2M0 8L8 0M6 10L10 6",
    },
    Fill {
        class: "level4",
        ground: "#9d6a34",
        ink: "#5a3310",
        pattern: "M-2 6L2 10M0 0L8 8M6 -2L10 2",
    },
    Fill {
        class: "level5",
        ground: "#c4924f",
        ink: "#76491a",
        pattern: "M0 2H8M0 6H8",
    },
    Fill {
        class: "level6",
        ground: "#dfbd84",
        ink: "#8a5c22",
        pattern: "M2 0V8M6 0V8",
    },
    Fill {
        class: "level7",
        ground: "#efdfbd",
        ink: "#97753d",
        pattern: "M4 4h.01",
    },
];

/// The class of what is left clean.
pub const CLEAN_CLASS: &str = "level-clean";

/// The class of a level's fill: `number` in the order of the scale, worst first, of `count` levels.
/// A number past the last is clean.
pub fn level_class(number: usize, count: usize) -> &'static str {
    if number >= count {
        return CLEAN_CLASS;
    }
    FILLS[fill_of(number, count)].class
}

/// Spread over all fills, so that the worst is the darkest and the best the palest.
fn fill_of(number: usize, count: usize) -> usize {
    let last = FILLS.len() - 1;
    match count {
        0 | 1 => 0,
        _ => ((2 * number * last + (count - 1)) / (2 * (count - 1))).min(last),
    }
}

/// The patterns that the fills refer to. They must stand once in a page that shows levels, anywhere in
/// its body; a page without them shows plain shades.
pub fn defs() -> String {
    let mut svg = Svg::open(0, 0, "level-defs", None);
    svg.push("<defs>");
    for fill in &FILLS {
        let Fill {
            class,
            ground,
            ink,
            pattern,
        } = fill;
        svg.push(&format!(
            "<pattern id=\"{class}\" width=\"8\" height=\"8\" patternUnits=\"userSpaceOnUse\"><rect width=\"8\" height=\"8\" fill=\"{ground}\"/>"
        ));
        if !pattern.is_empty() {
            svg.push(&format!("<path d=\"{pattern}\" fill=\"none\" stroke=\"{ink}\" stroke-width=\"{}\" stroke-linecap=\"{}\"/>", if pattern.contains("h.01") { "2.6" } else { "1.1" }, if pattern.contains("h.01") { "round" } else { "butt" }));
        }
        svg.push("</pattern>");
    }
    svg.push("</defs>");
    svg.close()
}

/// The style rules of the levels. A fill names its pattern and, should the pattern be missing, its
/// plain shade.
pub(super) fn css() -> String {
    let mut rules = String::from(
        ".level-defs{position:absolute;width:0;height:0}\n\
         .level-clean{fill:light-dark(#e7eef4,#dbe4ec)}\n\
         .land__edge{fill:none;stroke:currentColor;stroke-width:1}\n\
         .land__mark{stroke:currentColor;stroke-width:1.5}\n\
         .land__name{fill:currentColor;font-size:15px}\n\
         .level-chip__edge{fill:none;stroke:currentColor;stroke-width:1;opacity:.5}\n",
    );
    for Fill { class, ground, .. } in &FILLS {
        rules.push_str(&[".", class, "{fill:url(#", class, ") ", ground, "}\n"].concat());
    }
    rules
}

/// A level's chip.
pub fn level_chip(number: usize, count: usize, label: Option<&str>) -> String {
    let mut svg = Svg::open(28, 28, "picture picture--level-chip", label);
    let class = level_class(number, count);
    svg.push(&format!(
        "<rect class=\"{class}\" width=\"28\" height=\"28\" rx=\"5\"/><rect class=\"level-chip__edge\" x=\".5\" y=\".5\" width=\"27\" height=\"27\" rx=\"4.5\"/>"
    ));
    svg.close()
}

/// The unrolled surface as it was painted: 36 sectors from the front round, marked at front, thrust
/// side, rear and anti-thrust side. `levels` are those of the scale, worst first.
pub fn land(
    painted: &[Stretch],
    levels: &[&LevelId],
    words: &Words,
    label: Option<&str>,
) -> String {
    const WIDTH: f64 = 432.0;
    const TOP: f64 = 20.0;
    const HEIGHT: f64 = 48.0;
    let sector = WIDTH / f64::from(SECTORS);
    let mut svg = Svg::open(432, 74, "picture picture--land", label);
    let mut from = 0.0;
    for stretch in painted {
        let wide = sector * f64::from(stretch.sectors);
        let known = levels.iter().position(|level| **level == stretch.level);
        let class = match known {
            Some(number) if stretch.level.as_str() != CLEAN => level_class(number, levels.len()),
            _ => CLEAN_CLASS,
        };
        svg.rect(class, (from, TOP), (wide.min(WIDTH - from), HEIGHT));
        from += wide;
    }
    svg.rect("land__edge", (0.5, TOP), (WIDTH - 1.0, HEIGHT));
    let pad = &words.pad;
    for (name, quarter) in [pad.front, pad.thrust, pad.rear, pad.anti_thrust]
        .into_iter()
        .zip([0.0, 1.0, 2.0, 3.0])
    {
        let x = (quarter * WIDTH / 4.0).max(0.75);
        svg.line("land__mark", (x, TOP - 5.0), (x, TOP + HEIGHT + 5.0));
        svg.text("land__name", (x + 4.0, TOP - 6.0), "start", name);
    }
    svg.close()
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::wcag::{contrast, luminance};

    #[test]
    fn each_level_of_a_scale_has_a_fill_of_its_own() {
        for count in 1..=8 {
            let classes: BTreeSet<&str> = (0..count).map(|n| level_class(n, count)).collect();
            assert_eq!(classes.len(), count);
            assert_eq!(level_class(0, count), "level0");
            assert_eq!(level_class(count, count), CLEAN_CLASS);
        }
        assert_eq!(level_class(6, 7), "level7");
        assert_eq!(level_class(40, 50), level_class(41, 50));
    }

    #[test]
    fn levels_grow_paler_and_patterns_show() {
        for pair in FILLS.windows(2) {
            assert!(luminance(pair[0].ground) < luminance(pair[1].ground));
            assert_ne!(pair[0].pattern, pair[1].pattern);
        }
        for fill in FILLS.iter().filter(|fill| !fill.pattern.is_empty()) {
            let contrast = contrast(fill.ground, fill.ink);
            assert!(contrast >= 2.0, "{}: {contrast:.2}", fill.class);
        }
    }

    #[test]
    fn a_land_shows_its_stretches() {
        let level = |id: &str| LevelId::new(id).unwrap();
        let (heavy, light) = (level("heavy_carbon"), level("light_carbon"));
        let painted =
            [("heavy_carbon", 9), ("clean", 18), ("light_carbon", 9)].map(|(id, sectors)| {
                Stretch {
                    level: level(id),
                    sectors,
                }
            });
        let svg = land(
            &painted,
            &[&heavy, &light],
            &Words::ENGLISH,
            Some("Top land"),
        );
        assert!(
            svg.contains("<rect class=\"level0\" x=\"0\" y=\"20\" width=\"108\" height=\"48\"/>"),
            "{svg}"
        );
        assert!(svg.contains(
            "<rect class=\"level-clean\" x=\"108\" y=\"20\" width=\"216\" height=\"48\"/>"
        ));
        assert!(
            svg.contains("<rect class=\"level7\" x=\"324\" y=\"20\" width=\"108\" height=\"48\"/>")
        );
        assert!(svg.contains(">anti-thrust</text>"));
        assert!(svg.contains("aria-label=\"Top land\""));
    }
}
