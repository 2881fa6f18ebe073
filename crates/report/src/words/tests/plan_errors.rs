//! Where a plan contradicts itself.

use ringland_card::{
    Layout, Plan,
    plan::{Depth, PlanError, builtin},
    scale::ScaleError,
};

use super::*;

/// One of each, as the checks of a plan build them.
fn all() -> Vec<PlanError> {
    let text = |text: &str| text.to_owned();
    let scale = |why| PlanError::Scale {
        scale: text("grade"),
        why,
    };
    vec![
        PlanError::OutOfRange {
            place: text("place `lobe/intake`, characteristic `wear`"),
            what: "u_rep",
            given: 10.5,
            low: 0.0,
            high: 10.0,
        },
        PlanError::NoWeight {
            place: text("part `camshaft/lobes`"),
        },
        PlanError::Empty {
            place: text("section `camshaft`"),
        },
        PlanError::Twice {
            place: text("cap rules"),
            id: text("lobe_worn"),
        },
        PlanError::NoScale {
            place: text("place `sump`, characteristic `sludge`"),
            scale: text("mud"),
        },
        PlanError::Repeatability {
            place: text("place `liner`, characteristic `wear`"),
            unit: "percent",
            method: "grade",
        },
        PlanError::SameSurface {
            place: text("place `liner`, characteristic `bore`"),
            given: text("sludge"),
            allowed: Some(text("polished, scoring")),
        },
        PlanError::SameSurface {
            place: text("place `spring`, characteristic `length`"),
            given: text("length"),
            allowed: None,
        },
        PlanError::CapNode {
            rule: text("lobe_worn"),
            node: text("roof"),
        },
        PlanError::CapTrigger {
            rule: text("lobe_worn"),
            within: text("camshaft"),
        },
        PlanError::Slash {
            place: "section",
            id: text("a/b"),
        },
        PlanError::Criterion {
            number: 2,
            anchor: 5.0,
            limit: 2.5,
            best: 3.0,
        },
        PlanError::OutOfRange {
            place: text("criterion 2"),
            what: "weight",
            given: -1.0,
            low: 0.0,
            high: 1e6,
        },
        PlanError::Twice {
            place: text("plan"),
            id: text("camshaft"),
        },
        PlanError::TooLarge { given: 20_001 },
        scale(ScaleError::OutOfRange {
            what: "factor",
            given: 1.25,
            low: 0.0,
            high: 1.0,
        }),
        scale(ScaleError::GradeRises { from: 2.5, to: 5.0 }),
        scale(ScaleError::OutOfOrder {
            x: 1.0,
            before: 2.0,
        }),
        scale(ScaleError::TooShort { given: 1, least: 2 }),
        scale(ScaleError::TooLong { given: 201 }),
        PlanError::Crowded {
            place: "place `lobe/intake`".to_owned(),
            given: 101,
        },
        scale(ScaleError::Start { first: 0.5 }),
        scale(ScaleError::NamedClean),
        scale(ScaleError::Twice { id: text("amber") }),
        scale(ScaleError::NoAllowance { given: 0.108 }),
    ]
}

/// The checks say it in English already, for a terminal; the catalogue says it the same.
#[test]
fn the_english_is_that_of_the_checks() {
    for error in all() {
        assert_eq!(
            EN.plan_error(&error),
            format!("The plan contradicts itself. {error}")
        );
    }
}

#[test]
fn no_language_leaves_english_in_it() {
    for error in all() {
        let said = words(Language::Spanish).plan_error(&error);
        for word in [" is ", " the ", "scale", "place", "criterion", "rule"] {
            assert!(!said.contains(word), "{said}");
        }
    }
}

/// What a real plan is refused for, not what this test believes that it says.
#[test]
fn a_place_of_the_checks_is_known() {
    let refused = |change: fn(&mut Plan)| {
        let mut plan = builtin(&Layout::inline_six(), Depth::Short).unwrap();
        change(&mut plan);
        words(Language::Spanish).plan_error(&plan.check().unwrap_err())
    };
    assert_eq!(
        refused(|plan| plan.sections[0].parts[0].weight = -0.5),
        "El plan se contradice: sección `top_deck`: weight es -0,5; se admite de 0 a 1000000"
    );
    assert_eq!(
        refused(|plan| plan.u_bias = 11.0),
        "El plan se contradice: plan: u_bias es 11; se admite de 0 a 10"
    );
    assert_eq!(
        refused(|plan| plan.caps[0].node = "roof".to_owned()),
        "El plan se contradice: regla de tope `lobe_worn`: el plan no tiene la sección o pieza `roof`"
    );
}
