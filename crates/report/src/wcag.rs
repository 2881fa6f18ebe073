//! Luminance and contrast as WCAG 2.2 defines them (W3C Recommendation of 12 December 2024,
//! "relative luminance" and "contrast ratio"), and every colour of the app's style held to them.

use std::{collections::BTreeMap, fs, path::Path};

use crate::ramp::{self, LAST_STEP, Theme};

/// Success criterion 1.4.3, contrast (minimum): text on its ground.
const TEXT: f64 = 4.5;
/// Success criterion 1.4.6, contrast (enhanced): text in full sun.
const TEXT_IN_SUN: f64 = 7.0;
/// Success criterion 1.4.11, non-text contrast: edges of controls, outlines of the focus.
const NOT_TEXT: f64 = 3.0;

/// Relative luminance of `#rrggbb`, 0 to 1.
pub(crate) fn luminance(colour: &str) -> f64 {
    let channel = |from: usize| {
        let byte = u8::from_str_radix(&colour[from..from + 2], 16).unwrap();
        let c = f64::from(byte) / 255.0;
        #[expect(clippy::disallowed_methods, reason = "a test's reckoning, never shown")]
        if c <= 0.04045 {
            c / 12.92
        } else {
            ((c + 0.055) / 1.055).powf(2.4)
        }
    };
    0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
}

/// Contrast ratio of two colours, 1 to 21.
pub(crate) fn contrast(a: &str, b: &str) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// The examples of the definition itself: black on white is 21 to 1.
#[test]
fn the_ruler_is_right() {
    assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9);
    assert!((contrast("#777777", "#ffffff") - 4.478).abs() < 5e-4);
}

/// What may stand on what: an ink with every ground that the style sheets put it on.
const TEXTS: [(&str, &[&str]); 7] = [
    (
        "ink",
        &["paper", "panel", "sheet", "act-soft", "warn-soft", "hatch"],
    ),
    (
        "mute",
        &["paper", "panel", "sheet", "act-soft", "warn-soft", "hatch"],
    ),
    ("faint", &["paper", "panel", "sheet"]),
    ("act", &["paper", "panel", "sheet", "act-soft"]),
    ("warn", &["paper", "panel", "sheet", "warn-soft"]),
    ("act-ink", &["act"]),
    ("paper", &["ink"]),
];

/// Edges of controls and outlines of the focus.
const EDGES: [(&str, &[&str]); 3] = [
    ("line-strong", &["paper", "panel", "sheet"]),
    ("act", &["paper", "panel", "sheet", "act-soft", "warn-soft"]),
    ("warn", &["sheet", "warn-soft"]),
];

const THEMES: [Theme; 3] = [Theme::Light, Theme::Dark, Theme::Sun];

/// The colours of a theme by name, read from the style sheet that the app ships.
fn tokens(theme: Theme) -> BTreeMap<String, String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("style/tokens.css");
    let sheet = fs::read_to_string(path).unwrap();
    let (all, sun) = sheet.split_once("[data-theme=\"sun\"]").unwrap();
    let mut tokens = declared(all, theme);
    if theme == Theme::Sun {
        tokens.extend(declared(sun, theme));
    }
    tokens
}

/// The colours that a part of a sheet declares.
fn declared(sheet: &str, theme: Theme) -> BTreeMap<String, String> {
    let line = |line: &str| {
        let (name, value) = line.trim().strip_prefix("--")?.split_once(": ")?;
        let value = value.trim_end_matches(';');
        let value = match value.strip_prefix("light-dark(") {
            None => value,
            Some(both) => {
                let (light, dark) = both.trim_end_matches(')').split_once(", ")?;
                if theme == Theme::Dark { dark } else { light }
            }
        };
        let colour = value.len() == 7 && value.starts_with('#');
        colour.then(|| (name.to_owned(), value.to_owned()))
    };
    sheet.lines().filter_map(line).collect()
}

#[track_caller]
fn hold(pairs: &[(&str, &[&str])], least: impl Fn(Theme) -> f64) {
    for theme in THEMES {
        let tokens = tokens(theme);
        for (over, grounds) in pairs {
            for ground in *grounds {
                let contrast = contrast(&tokens[*over], &tokens[*ground]);
                assert!(
                    contrast >= least(theme),
                    "{theme:?}: {over} on {ground} is {contrast:.2}"
                );
            }
        }
    }
}

#[test]
fn every_text_stands_out_from_its_ground() {
    hold(&TEXTS, |theme| {
        if theme == Theme::Sun {
            TEXT_IN_SUN
        } else {
            TEXT
        }
    });
}

#[test]
fn edges_and_outlines_stand_out_from_their_ground() {
    hold(&EDGES, |_| NOT_TEXT);
}

#[test]
fn the_figure_of_a_score_stands_out_from_each_step_of_the_ramp() {
    for theme in THEMES {
        let least = if theme == Theme::Sun {
            TEXT_IN_SUN
        } else {
            TEXT
        };
        for step in 0..=LAST_STEP {
            let shade = ramp::shade(step, theme);
            let contrast = contrast(shade.fill, shade.ink);
            assert!(contrast >= least, "{theme:?} {step}: {contrast:.2}");
        }
    }
}

/// The ramp and the pictures are what the crate says; all other colours stand in the tokens.
#[test]
fn no_other_sheet_has_colours_of_its_own() {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folders = [here.join("style"), here.join("../../app/style")];
    for entry in folders
        .iter()
        .flat_map(|folder| fs::read_dir(folder).unwrap())
    {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if matches!(name.as_str(), "tokens.css" | "pictures.css") {
            continue;
        }
        let sheet = fs::read_to_string(&path).unwrap();
        for value in sheet.split(':').skip(1) {
            let value = value.split([';', '}']).next().unwrap_or_default();
            let hex = value.split_whitespace().any(|part| {
                part.strip_prefix('#').is_some_and(|digits| {
                    digits.len() >= 3 && digits.chars().all(|c| c.is_ascii_hexdigit())
                })
            });
            assert!(!hex && !value.contains("rgb("), "{name}: {value}");
        }
    }
}
