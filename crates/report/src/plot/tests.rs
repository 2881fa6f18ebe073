//! Plots of the measured engine, and of readings made up.

use ringland_assess::gauging::{
    Confidence,
    finding::finding,
    forecast::{Question, Unit as Run, forecast},
};
use ringland_card::{Card, gauging::Unit, plan::LeafId};
use ringland_stats::regression::Intercept;

use super::*;
use crate::{
    measured_engine::{measured, row},
    words::{Language, Words, words},
};

/// A picture that is whole, says what it shows, and has no figure that is none.
#[track_caller]
fn sound(svg: &str) {
    assert!(
        svg.contains(" role=\"img\" aria-label=\"") && svg.ends_with("</svg>"),
        "{svg}"
    );
    assert!(!svg.contains("NaN") && !svg.contains("inf"), "{svg}");
    assert!(!svg.contains("style=") && !svg.contains("<b>"), "{svg}");
    for tag in svg.split('<').skip(1) {
        assert!(tag.contains('>'), "{tag}");
    }
}

fn said(svg: &str) -> &str {
    let (_, after) = svg.split_once("aria-label=\"").unwrap();
    after.split_once('"').unwrap().0
}

fn profile_of(card: &Card, leaf: LeafId, words: &Words) -> Option<String> {
    let found = finding(&card.standing(), leaf)?;
    profile("<b>Bore</b>", &found, Unit::Mm, words)
}

#[test]
fn a_bore_has_a_line_for_each_axis() {
    let card = measured();
    let bores = row(&card, "liner", "bore");
    let svg = profile_of(&card, bores[0], &Words::ENGLISH).unwrap();
    sound(&svg);
    // A mark for each spot and one for each axis in the key.
    assert_eq!(svg.matches("\"plot__mark").count(), 8);
    assert_eq!(svg.matches("plot__limit").count(), 1);
    assert_eq!(svg.matches("plot__new").count(), 1);
    let said = said(&svg);
    assert!(said.contains("&lt;b&gt;Bore"), "{said}");
    assert!(said.contains("thrust axis: top\u{a0}130.0"), "{said}");
    assert!(said.contains("limit 130.2"), "{said}");
    // The last bore was not read.
    assert!(profile_of(&card, bores[5], &Words::ENGLISH).is_none());
    let clearance = row(&card, "main_journal", "oil_clearance")[0];
    assert!(profile_of(&card, clearance, &Words::ENGLISH).is_none());
}

#[test]
fn a_row_has_a_dot_for_each_position_that_was_read() {
    let card = measured();
    let standing = card.standing();
    for (place, look, dots, was) in [
        ("main_journal", "oil_clearance", 7, 0),
        ("liner", "bore", 5, 0),
        ("pin", "diameter", 1, 1),
    ] {
        let leaves = row(&card, place, look);
        let found: Vec<_> = leaves
            .iter()
            .map(|leaf| finding(&standing, *leaf))
            .collect();
        let along_it: Vec<Along<'_>> = found
            .iter()
            .enumerate()
            .map(|(number, found)| Along {
                head: (number + 1).to_string(),
                finding: found.as_ref(),
            })
            .collect();
        for language in Language::ALL {
            let svg = along("<b>Row</b>", &along_it, Unit::In, words(language)).unwrap();
            sound(&svg);
            assert_eq!(svg.matches("\"plot__mark").count(), dots);
            assert_eq!(svg.matches("\"plot__was").count(), was);
        }
    }
    let none = [Along {
        head: "1".to_owned(),
        finding: None,
    }];
    assert!(along("", &none, Unit::Mm, &Words::ENGLISH).is_none());
}

fn runs() -> Vec<Run> {
    let run = |name: &str, by: f64| Run {
        name: name.to_owned(),
        distance: vec![100.0, 250.0, 400.0, 600.0],
        wear: vec![0.011 * by, 0.026 * by, 0.041 * by, 0.059 * by],
    };
    vec![run("<b>One</b>", 1.0), run("Two", 1.2), run("Three", 0.9)]
}

#[test]
fn wear_over_a_run_has_a_curve_with_its_band() {
    let runs = runs();
    let question = Question {
        intercept: Intercept::Zero,
        confidence: Confidence::P95,
        limit: Some(0.1),
    };
    let found = forecast(&runs, &question).unwrap();
    let curve = curve(&found, &question);
    assert!(curve.len() > 50 && curve.iter().skip(1).all(|point| point.band.is_some()));
    // It goes on to where the limit is reached.
    assert!(curve.last().unwrap().wear >= 0.1);
    let of = WearOverRun {
        units: &runs,
        curve: &curve,
        limit: question.limit,
        distance_unit: "1,000 km",
        wear_unit: "mm",
    };
    let svg = wear_over_run(&of, &Words::ENGLISH).unwrap();
    sound(&svg);
    assert_eq!(svg.matches("\"plot__mark").count(), 12 + 3);
    assert_eq!(svg.matches("plot__band").count(), 2);
    assert!(
        said(&svg).contains("&lt;b&gt;One&lt;/b&gt;, 4 readings, 0.059"),
        "{svg}"
    );
    let bare = WearOverRun {
        units: &runs[..1],
        curve: &[],
        limit: None,
        ..of
    };
    sound(&wear_over_run(&bare, &Words::SPANISH).unwrap());
    assert!(wear_over_run(&WearOverRun { units: &[], ..of }, &Words::ENGLISH).is_none());
}
