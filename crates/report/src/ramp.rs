//! The wear ramp: the colour of a score.
//!
//! One ramp from pale steel (10, clean or as new) to dark umber (0, the worst), in 21 steps of half a
//! point. On a dark page the lightness runs the other way, from dark steel to pale umber: in both, what
//! is worn stands out from the page and what is as new keeps quiet. Luminance never turns back, so the
//! ramp reads the same in grey, and a figure in ink of its own stands on every step: contrast at least
//! 4.5 to 1 (WCAG 2.2, success criterion 1.4.3).
//!
//! The steps were laid out by monotone interpolation in the `OKLab` colour space between a few colours
//! picked by eye, more of them towards 10 where most scores lie, and stand here as a table.

/// The surroundings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Theme {
    /// A light page.
    Light,
    /// A dark page.
    Dark,
    /// A white page in full sun: few steps, far apart.
    Sun,
}

/// The last step: score 10.
pub const LAST_STEP: u8 = 20;

/// Steps from score 0 to score 10 on a light page.
const LIGHT: [&str; 21] = [
    "#2c1b11", "#382316", "#442b1a", "#50341f", "#5c3d24", "#694629", "#75502f", "#815b36",
    "#8e663e", "#9c744a", "#a67e52", "#b18a5e", "#ba976c", "#c2a37b", "#cbb08a", "#d4bd9b",
    "#dbc9ad", "#e1d5c2", "#e4e0d7", "#e6e7e6", "#e7eef4",
];

/// Steps from score 0 to score 10 on a dark page.
const DARK: [&str; 21] = [
    "#f8e4c6", "#f0d6b1", "#e8c89d", "#dfbb8b", "#d5af7c", "#caa36f", "#bf9763", "#b38c59",
    "#a68052", "#99764b", "#8b6a45", "#816341", "#755c3e", "#69553b", "#5e4f39", "#544937",
    "#4b4437", "#423f38", "#393b3a", "#32383d", "#2b3640",
];

/// Seven bands of three steps from score 0 to score 10 for full sun. Glare washes out what is near to
/// its neighbour and ink of middling contrast; so neighbours differ by more than a third in luminance
/// and no band lies in the middle, where neither black nor white ink would stand out.
const SUN: [&str; 7] = [
    "#1e0f06", "#4a2c14", "#6b441f", "#b88f53", "#ccae7c", "#dfd0b0", "#eef5fb",
];

/// The first step of the light ramp that takes dark ink.
const LIGHT_TURNS: u8 = 9;
/// The first step of the dark ramp that takes light ink.
const DARK_TURNS: u8 = 10;
/// The steps of a band for full sun, and the first band that takes dark ink.
const SUN_BAND: usize = 3;
const SUN_TURNS: usize = 3;

const CLASSES: [&str; 21] = [
    "w0", "w1", "w2", "w3", "w4", "w5", "w6", "w7", "w8", "w9", "w10", "w11", "w12", "w13", "w14",
    "w15", "w16", "w17", "w18", "w19", "w20",
];

/// A fill and the ink that stands on it, as `#rrggbb`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shade {
    /// The surface.
    pub fill: &'static str,
    /// Figures and words on it.
    pub ink: &'static str,
}

/// The step of a score, 0 to 20: half points, rounded to nearest. What is not a score from 0 to 10
/// takes the nearest end.
pub fn step(score: f64) -> u8 {
    (0..LAST_STEP)
        .find(|step| score * 2.0 < f64::from(*step) + 0.5)
        .unwrap_or(LAST_STEP)
}

/// The class of a score's step, `w0` to `w20`; [`css`] says what it looks like.
pub fn class(score: f64) -> &'static str {
    step_class(step(score))
}

/// The class of a step; one past the last is the last.
pub fn step_class(step: u8) -> &'static str {
    CLASSES[usize::from(step.min(LAST_STEP))]
}

/// The colours of a step; one past the last is the last.
pub fn shade(step: u8, theme: Theme) -> Shade {
    let step = step.min(LAST_STEP);
    let at = usize::from(step);
    match theme {
        Theme::Light => Shade {
            fill: LIGHT[at],
            ink: if step < LIGHT_TURNS {
                "#ffffff"
            } else {
                "#0c0e10"
            },
        },
        Theme::Dark => Shade {
            fill: DARK[at],
            ink: if step < DARK_TURNS {
                "#0b0c0e"
            } else {
                "#fafbfc"
            },
        },
        Theme::Sun => {
            let band = at / SUN_BAND;
            Shade {
                fill: SUN[band],
                ink: if band < SUN_TURNS {
                    "#ffffff"
                } else {
                    "#000000"
                },
            }
        }
    }
}

/// The style rules of all steps: each sets `--fill` and `--cell-ink`, for light and dark by the
/// page's `color-scheme`, for full sun by the theme that the page names. A shape in a picture takes the fill by the class `wear` beside its step.
pub fn css() -> String {
    let mut rules = rules("", |step| {
        let (light, dark) = (shade(step, Theme::Light), shade(step, Theme::Dark));
        let both = |a: &str, b: &str| format!("light-dark({a},{b})");
        (both(light.fill, dark.fill), both(light.ink, dark.ink))
    });
    rules.push_str(&self::rules("[data-theme=\"sun\"] ", |step| {
        let shade = shade(step, Theme::Sun);
        (shade.fill.to_owned(), shade.ink.to_owned())
    }));
    rules.push_str(".wear{fill:var(--fill)}\n");
    rules
}

/// The style rules of all steps for one theme only, as paper and older browsers need them.
pub fn css_for(theme: Theme) -> String {
    let mut rules = rules("", |step| {
        let shade = shade(step, theme);
        (shade.fill.to_owned(), shade.ink.to_owned())
    });
    rules.push_str(".wear{fill:var(--fill)}\n");
    rules
}

fn rules(within: &str, colours: impl Fn(u8) -> (String, String)) -> String {
    let mut rules = String::new();
    for step in 0..=LAST_STEP {
        let (fill, ink) = colours(step);
        let class = step_class(step);
        rules.push_str(
            &[
                within,
                ".",
                class,
                "{--fill:",
                &fill,
                ";--cell-ink:",
                &ink,
                "}\n",
            ]
            .concat(),
        );
    }
    rules
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wcag::{contrast, luminance};

    const PAGES: [(Theme, &str); 3] = [
        (Theme::Light, "#fafbfc"),
        (Theme::Dark, "#14181c"),
        (Theme::Sun, "#ffffff"),
    ];

    #[test]
    fn luminance_never_turns_back_and_every_step_is_seen() {
        for (theme, page) in PAGES {
            for step in 0..LAST_STEP {
                let (worse, better) = (shade(step, theme).fill, shade(step + 1, theme).fill);
                if theme == Theme::Sun && !(usize::from(step) + 1).is_multiple_of(SUN_BAND) {
                    assert_eq!(worse, better, "one band");
                    continue;
                }
                let towards_page = (luminance(worse) - luminance(page)).abs()
                    > (luminance(better) - luminance(page)).abs();
                assert!(towards_page, "{theme:?} {step}");
                let least = if theme == Theme::Sun { 1.35 } else { 1.03 };
                assert!(contrast(worse, better) > least, "{theme:?} {step}");
            }
        }
    }

    /// The quietest cell is still told from the page it lies on.
    #[test]
    fn every_step_is_told_from_the_page() {
        for (theme, page) in PAGES {
            let least = match theme {
                Theme::Light => 1.12,
                Theme::Dark => 1.4,
                // The style draws a line around each cell besides.
                Theme::Sun => 1.09,
            };
            for step in 0..=LAST_STEP {
                let contrast = contrast(shade(step, theme).fill, page);
                assert!(contrast >= least, "{theme:?} {step}: {contrast:.2}");
            }
        }
    }

    #[test]
    fn a_score_has_its_step() {
        for (score, at) in [
            (0.0, 0),
            (0.24, 0),
            (0.25, 1),
            (5.0, 10),
            (7.9, 16),
            (9.74, 19),
            (9.75, 20),
            (10.0, 20),
        ] {
            assert_eq!(step(score), at, "{score}");
        }
        assert_eq!(
            (class(-1.0), class(11.0), class(7.297)),
            ("w0", "w20", "w15")
        );
    }

    #[test]
    fn the_rules_name_every_step() {
        let css = css();
        assert!(css.contains(
            ".w20{--fill:light-dark(#e7eef4,#2b3640);--cell-ink:light-dark(#0c0e10,#fafbfc)}"
        ));
        assert_eq!(css.lines().count(), 43);
        assert!(css.contains("[data-theme=\"sun\"] .w20{--fill:#eef5fb;--cell-ink:#000000}"));
        assert!(css_for(Theme::Dark).contains(".w0{--fill:#f8e4c6;--cell-ink:#0b0c0e}"));
    }
}
