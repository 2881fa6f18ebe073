//! The terms of the built-in plans, and the names made of them.

use std::collections::BTreeSet;

use ringland_card::{
    Layout, Plan, PlanIndex, Scale,
    layout::{Arrangement, Camshaft, Follower, Liner},
    plan::{Axis, Depth, LeafId, builtin},
};

use super::*;

/// Layouts that between them have every part, place, characteristic and scale.
fn layouts() -> Vec<Layout> {
    let six = Layout::inline_six;
    let mut layouts = vec![six(), Layout::vee_eight()];
    for camshaft in [
        Camshaft::Overhead,
        Camshaft::DoubleOverhead,
        Camshaft::InBlock,
    ] {
        for follower in [Follower::Roller, Follower::Sliding] {
            for (arrangement, cylinders) in [(Arrangement::Inline, 4), (Arrangement::Vee, 12)] {
                for single_cylinder_heads in [false, true] {
                    layouts.push(Layout {
                        arrangement,
                        cylinders,
                        mains: Layout::usual_mains(arrangement, cylinders),
                        camshaft,
                        follower,
                        single_cylinder_heads,
                        injector_lobes: true,
                        brake_lobes: true,
                        compression_rings: 4,
                        turbochargers: 2,
                        ..six()
                    });
                }
            }
        }
    }
    layouts.push(Layout {
        liner: Liner::ParentBore,
        turbochargers: 0,
        ..six()
    });
    layouts.push(Layout {
        liner: Liner::Dry,
        compression_rings: 1,
        ..six()
    });
    layouts
}

fn plans() -> Vec<Plan> {
    layouts()
        .iter()
        .flat_map(|layout| [Depth::Full, Depth::Short].map(|depth| builtin(layout, depth).unwrap()))
        .collect()
}

/// An id has a term in every language or in none: a term is a field.
#[test]
fn every_id_of_the_built_in_plans_has_its_term() {
    let t = &EN.terms;
    let mut missing = BTreeSet::new();
    let mut seek = |kind: &str, id: &str, found: bool| {
        if !found {
            missing.insert(format!("{kind} {id}"));
        }
    };
    for plan in plans() {
        for section in &plan.sections {
            seek(
                "section",
                section.id.as_str(),
                t.sections.get(section.id.as_str()).is_some(),
            );
        }
        for (_, part, place) in plan.places() {
            seek(
                "part",
                part.id.as_str(),
                t.parts.get(part.id.as_str()).is_some(),
            );
            seek(
                "place",
                place.id.as_str(),
                t.places.get(place.id.as_str()).is_some(),
            );
            for position in &place.positions {
                let named = place.axis == Axis::Each
                    && !position.column.bytes().all(|c| c.is_ascii_digit());
                let found = !named || t.columns.get(&position.column).is_some();
                seek("column", &position.column, found);
            }
            for look in &place.looks {
                seek(
                    "look",
                    look.id.as_str(),
                    t.looks.get(look.id.as_str()).is_some(),
                );
            }
        }
        for (id, scale) in &plan.scales {
            seek("scale", id.as_str(), t.scales.get(id.as_str()).is_some());
            let levels: Vec<&str> = match scale {
                Scale::Area { levels } => levels.iter().map(|l| l.id.as_str()).collect(),
                Scale::MeritArea { levels } => levels.iter().map(|l| l.id.as_str()).collect(),
                _ => Vec::new(),
            };
            for level in levels {
                seek("level", level, t.levels.get(level).is_some());
            }
            if let Scale::State { states } = scale {
                for state in states {
                    seek(
                        "state",
                        state.id.as_str(),
                        t.states.get(state.id.as_str()).is_some(),
                    );
                }
            }
        }
        for cap in &plan.caps {
            seek(
                "cap",
                cap.id.as_str(),
                t.caps.get(cap.id.as_str()).is_some(),
            );
        }
    }
    assert!(missing.is_empty(), "{missing:?}");
}

/// A hint for a place that no plan has would never be seen.
#[test]
fn every_hint_is_for_something() {
    let mut seen = BTreeSet::new();
    for plan in plans() {
        for (.., place) in plan.places() {
            let id = place.id.as_str();
            let root = id.split('/').next().unwrap();
            for look in &place.looks {
                seen.insert(format!("{id}.{}", look.id));
                seen.insert(format!("{root}.{}", look.id));
            }
        }
    }
    for (hint, _) in EN.terms.hints.all() {
        assert!(seen.contains(hint), "{hint}");
    }
}

#[test]
fn rows_are_short_and_tell_apart() {
    for ((tag, words), plan) in languages().flat_map(|l| plans().into_iter().map(move |p| (l, p))) {
        let mut rows = BTreeSet::new();
        for section in &plan.sections {
            for place in section.parts.iter().flat_map(|part| &part.places) {
                for look in &place.looks {
                    let row = words.row_name(place, look);
                    assert!(row.chars().count() <= 34, "{tag} {row}");
                    assert!(rows.insert(row.clone()), "{tag}, twice in a plan: {row}");
                    let hint = words.look_for(place, look).unwrap();
                    assert!(hint.chars().count() <= 130, "{tag} {hint}");
                }
            }
        }
    }
}

#[test]
fn positions_have_names() {
    let mut names = BTreeSet::new();
    for layout in [Layout::inline_six(), Layout::vee_eight()] {
        let plan = builtin(&layout, Depth::Full).unwrap();
        let index = PlanIndex::of(&plan);
        for leaf in 0..index.leaves().len() {
            names.insert(EN.leaf(&plan, &index, LeafId(leaf)).unwrap());
        }
    }
    for name in [
        "Cylinder 3, top ring · face wear",
        "Main 5, lower shell · overlay",
        "Cylinder L2, exhaust lobe · wear",
        "Cylinder 6, upper rod shell · tracks",
        "Cam bearing 7, bushing · wear",
        "Seal land, rear · groove",
        "Gear, crank · tooth wear",
        "Turbocharger rotor 1 · bearing wear",
        "Rod journal 2 · wear",
        "Oil pump · scoring",
        "Cover · sludge",
    ] {
        assert!(names.contains(name), "{name} is not among {names:#?}");
    }
}

#[test]
fn nodes_and_caps_have_names() {
    let plan = builtin(&Layout::inline_six(), Depth::Full).unwrap();
    assert_eq!(EN.node(&plan, "camshaft"), "Camshaft");
    assert_eq!(EN.node(&plan, "camshaft/lobes"), "Lobes");
    assert_eq!(
        EN.node(&plan, "camshaft/lobes/cyl2/lobe/exhaust"),
        "Cylinder 2, exhaust lobe"
    );
    assert_eq!(
        EN.node(&plan, "camshaft/lobes/cyl2/lobe/exhaust/pitted"),
        "Cylinder 2, exhaust lobe · pitted"
    );
    assert_eq!(EN.node(&plan, "nowhere/at/all"), "nowhere/at/all");
    let rules: Vec<String> = plan
        .caps
        .iter()
        .map(|rule| EN.cap_rule(&plan, rule))
        .collect();
    assert!(
        rules.contains(&"Pitted area over 10\u{a0}% in Lobes: Camshaft at most 5.0".to_owned()),
        "{rules:#?}"
    );
    assert!(
        rules.contains(&"Ring mobility hot-stuck in Rings: Rings at most 4.0".to_owned()),
        "{rules:#?}"
    );
}

#[test]
fn the_authors_label_wins() {
    let mut plan = builtin(&Layout::inline_six(), Depth::Short).unwrap();
    let section = &mut plan.sections[0];
    section.label = Some("Head".to_owned());
    let place = &mut section.parts[0].places[0];
    place.label = Some("lid".to_owned());
    place.looks[0].label = Some("goo".to_owned());
    let (section, place) = (&plan.sections[0], &plan.sections[0].parts[0].places[0]);
    assert_eq!(EN.section_name(section), "Head");
    assert_eq!(EN.row_name(place, &place.looks[0]), "lid · goo");
    assert_eq!(EN.position_name(place, &place.positions[0]), "Lid");
    assert_eq!(EN.look_for(place, &place.looks[0]), None);
}
