use std::collections::BTreeSet;

use proptest::prelude::*;

use super::*;
use crate::layout::{Arrangement, Camshaft, Follower, Liner};

fn plan(layout: &Layout, depth: Depth) -> Plan {
    builtin(layout, depth).unwrap()
}

/// Design section 4: some 600 to 700 ratings in the full plan, 180 to 220 in the short one.
#[test]
fn an_inline_six_asks_for_as_much_as_the_design_says() {
    let six = Layout::inline_six();
    assert_eq!(plan(&six, Depth::Full).rating_count(), 695);
    assert_eq!(plan(&six, Depth::Short).rating_count(), 219);
}

/// Two more cylinders than the six, followers and pushrods, but no injector lobes.
#[test]
fn a_vee_eight_asks_for_more_than_an_inline_six() {
    let eight = Layout::vee_eight();
    assert_eq!(plan(&eight, Depth::Full).rating_count(), 873);
    assert_eq!(plan(&eight, Depth::Short).rating_count(), 281);
}

/// Added up by hand: liners 12, pistons 24, rings 48, pins 6, rods 12, rod shells 6, main shells and bores
/// 14, crankshaft 27, gears 6, turbocharger 2, camshaft 32, rocker gear 24, valves 36. The design names some
/// 150 to 200 and no part to leave out; what a yard does not measure stays open.
#[test]
fn an_inline_six_has_every_size_that_a_gauge_reads() {
    let six = Layout::inline_six();
    assert_eq!(plan(&six, Depth::Full).measurement_count(), 249);
    assert_eq!(plan(&six, Depth::Short).measurement_count(), 21);
}

fn has(plan: &Plan, position: &str) -> bool {
    plan.places()
        .any(|(.., place)| place.positions.iter().any(|p| p.id.as_str() == position))
}

#[test]
fn positions_are_named_as_the_design_names_them() {
    let six = plan(&Layout::inline_six(), Depth::Full);
    for id in [
        "cyl3/ring/top",
        "main5/shell/lower",
        "cyl2/lobe/exhaust",
        "cyl3/piston",
        "gear/cam",
        "cam7/cam_journal",
        "seal_land/front",
        "turbo1/housing",
        "sump",
        "cover",
    ] {
        assert!(has(&six, id), "{id}");
    }
    let eight = plan(&Layout::vee_eight(), Depth::Full);
    for id in [
        "cylL1/piston",
        "cylR4/pushrod/intake",
        "cylL2/cover",
        "throw4/rod_journal",
    ] {
        assert!(has(&eight, id), "{id}");
    }
}

/// Common practice: the upper rod shell and the lower main shell carry the load.
#[test]
fn the_loaded_shells_weigh_double() {
    let six = plan(&Layout::inline_six(), Depth::Full);
    let weight = |part: &str, place: &str| {
        six.places()
            .find(|(_, p, at)| p.id.as_str() == part && at.id.as_str() == place)
            .map(|(.., at)| at.weight)
    };
    assert_eq!(weight("rod_shells", "shell/upper"), Some(2.0));
    assert_eq!(weight("rod_shells", "shell/lower"), Some(1.0));
    assert_eq!(weight("main_shells", "shell/lower"), Some(2.0));
    assert_eq!(weight("main_shells", "shell/upper"), Some(1.0));
}

#[test]
fn the_layout_decides_what_is_there() {
    let section = |layout: &Layout, id: &str| {
        plan(layout, Depth::Full)
            .sections
            .iter()
            .any(|section| section.id.as_str() == id)
    };
    let six = Layout::inline_six();
    assert!(!section(&six, "followers"));
    assert!(section(&Layout::vee_eight(), "followers"));
    let naturally_aspirated = Layout {
        turbochargers: 0,
        ..six.clone()
    };
    assert!(!section(&naturally_aspirated, "turbocharger"));
    let looks = |layout: &Layout, id: &str| {
        plan(layout, Depth::Full)
            .places()
            .any(|(.., place)| place.looks.iter().any(|look| look.id.as_str() == id))
    };
    let dry = Layout {
        liner: Liner::Dry,
        ..six.clone()
    };
    assert!(looks(&six, "coolant_pitting") && !looks(&dry, "coolant_pitting"));
    let sliding = Layout {
        follower: Follower::Sliding,
        ..six.clone()
    };
    assert!(looks(&six, "roller_turns") && !looks(&sliding, "roller_turns"));
    assert!(looks(&sliding, "machining_marks"));
    let two_valves = Layout {
        intake_valves: 1,
        exhaust_valves: 1,
        ..six
    };
    assert!(!looks(&Layout::inline_six(), "socket_wear"));
    assert!(!has(
        &plan(&two_valves, Depth::Full),
        "cyl1/crosshead/intake"
    ));
}

/// Every layout that [`Layout::check`] lets pass.
fn layouts() -> impl Strategy<Value = Layout> {
    let engine = (
        prop_oneof![Just(Arrangement::Inline), Just(Arrangement::Vee)],
        1u8..=24,
        prop_oneof![
            Just(Camshaft::Overhead),
            Just(Camshaft::DoubleOverhead),
            Just(Camshaft::InBlock)
        ],
        prop_oneof![Just(Follower::Roller), Just(Follower::Sliding)],
        prop_oneof![Just(Liner::Wet), Just(Liner::Dry), Just(Liner::ParentBore)],
    );
    let counts = (1u8..=3, 1u8..=3, 1u8..=4, 2u8..=25, 0u8..=4);
    let fitted = (any::<bool>(), any::<bool>(), any::<bool>());
    (engine, counts, fitted).prop_map(|(engine, counts, fitted)| {
        let (arrangement, cylinders, camshaft, follower, liner) = engine;
        Layout {
            arrangement,
            cylinders: match arrangement {
                Arrangement::Inline => cylinders,
                Arrangement::Vee => (cylinders / 2 * 2).max(4),
            },
            camshaft,
            follower,
            intake_valves: counts.0,
            exhaust_valves: counts.1,
            injector_lobes: fitted.0,
            brake_lobes: fitted.1,
            liner,
            compression_rings: counts.2,
            mains: counts.3,
            single_cylinder_heads: fitted.2,
            turbochargers: counts.4,
        }
    })
}

proptest! {
    #[test]
    fn every_layout_has_a_plan_without_contradictions(layout in layouts()) {
        for depth in [Depth::Full, Depth::Short] {
            let plan = builtin(&layout, depth).unwrap();
            prop_assert_eq!(plan.check(), Ok(()));
            // `Plan::check` has seen that every position id stands once; every part of every section
            // is there, and every scale is used.
            let used: BTreeSet<_> = plan
                .places()
                .flat_map(|(.., place)| &place.looks)
                .map(|look| look.scale.clone())
                .collect();
            prop_assert_eq!(used, plan.scales.keys().cloned().collect());
        }
    }

    /// The short plan is rows of the full one, with the same weights and tables: what was rated under
    /// it fits the full plan.
    #[test]
    fn the_short_plan_is_part_of_the_full_one(layout in layouts()) {
        let full = builtin(&layout, Depth::Full).unwrap();
        let short = builtin(&layout, Depth::Short).unwrap();
        prop_assert!(short.leaf_count() < full.leaf_count());
        for (section, part, place) in short.places() {
            let (s, p, whole) = full
                .places()
                .find(|(s, p, at)| s.id == section.id && p.id == part.id && at.id == place.id)
                .unwrap();
            prop_assert_eq!(&place.positions, &whole.positions);
            prop_assert_eq!((section.weight, part.weight, place.weight), (s.weight, p.weight, whole.weight));
            for look in &place.looks {
                prop_assert!(whole.looks.contains(look));
            }
        }
        for rule in &short.caps {
            prop_assert!(full.caps.contains(rule));
        }
    }
}

#[test]
fn a_layout_that_no_engine_has_is_refused() {
    let none = Layout {
        cylinders: 0,
        ..Layout::inline_six()
    };
    let error = builtin(&none, Depth::Full).unwrap_err();
    assert_eq!(error.to_string(), "cylinders is 0: allowed is 1 to 24");
}
