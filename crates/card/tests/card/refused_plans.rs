//! Every way in which a plan, a scale or a layout contradicts itself.

use ringland_card::{
    CapId, CharacteristicId, Grade, Layout, LevelId, PartId, Plan, ScaleId, SectionId, StateId,
    layout::Arrangement,
    plan::{
        CapRule, Characteristic, Criterion, MOST_LEAVES, MOST_TEXT, Place, PlanError,
        Repeatability, Several, TradeFigure, Trigger,
    },
    scale::{Breakpoint, DepositLevel, MeritLevel, Scale, StateScore},
};

use crate::bench::plan;

/// Changes a plan so that it must be refused in these words.
#[track_caller]
fn refused(change: impl FnOnce(&mut Plan), wanted: &str) -> PlanError {
    let mut plan = plan();
    plan.check().unwrap();
    change(&mut plan);
    let error = plan.check().unwrap_err();
    assert_eq!(error.to_string(), wanted);
    // Its author is told of the same, with what else there is.
    let first = plan.problems().into_iter().next().unwrap().why;
    assert_eq!(first.to_string(), wanted);
    error
}

fn first_place(plan: &mut Plan) -> &mut Place {
    &mut plan.sections[0].parts[0].places[0]
}

/// What is looked at in a place, by name.
fn of_place<'p>(plan: &'p mut Plan, place: &str, look: &str) -> &'p mut Characteristic {
    let mut parts = plan
        .sections
        .iter_mut()
        .flat_map(|section| &mut section.parts);
    let places = parts.find_map(|part| {
        part.places
            .iter_mut()
            .find(|known| known.id.as_str() == place)
    });
    let mut looks = places.unwrap().looks.iter_mut();
    looks.find(|known| known.id.as_str() == look).unwrap()
}

#[test]
fn weights_and_other_figures_out_of_range() {
    for (weight, text) in [
        (-1.0, "-1"),
        (f64::NAN, "NaN"),
        (f64::INFINITY, "inf"),
        (2e6, "2000000"),
    ] {
        let wanted = |place: &str| format!("{place}: weight is {text}: allowed is 0 to 1000000");
        refused(|p| p.sections[0].weight = weight, &wanted("plan"));
        refused(
            |p| p.sections[0].parts[0].weight = weight,
            &wanted("section `top_deck`"),
        );
        refused(
            |p| first_place(p).weight = weight,
            &wanted("part `top_deck/covers`"),
        );
        refused(
            |p| first_place(p).looks[0].weight = weight,
            &wanted("place `cover`"),
        );
    }
    refused(
        |p| p.u_bias = 11.0,
        "plan: u_bias is 11: allowed is 0 to 10",
    );
    refused(
        |p| {
            p.location_factors
                .insert(CharacteristicId::new("land_1").unwrap(), -1.0);
        },
        "location factor `land_1`: factor is -1: allowed is 0 to 1000000",
    );
    refused(
        |p| p.caps[0].cap = 10.5,
        "cap rule `lobe_pitted`: cap is 10.5: allowed is 0 to 10",
    );
    let error = refused(
        |p| first_place(p).looks[0].u_rep = Repeatability::Percent(101.0),
        "place `cover`, characteristic `sludge`: u_rep is 101: allowed is 0 to 100",
    );
    assert!(matches!(error, PlanError::OutOfRange { .. }));
}

#[test]
fn siblings_without_weight_and_parents_without_children() {
    let error = refused(
        |p| {
            for section in &mut p.sections {
                section.weight = 0.0;
            }
        },
        "plan: every weight is 0, so nothing could be scored",
    );
    assert!(matches!(error, PlanError::NoWeight { .. }));
    refused(
        |p| first_place(p).weight = 0.0,
        "part `top_deck/covers`: every weight is 0, so nothing could be scored",
    );
    let error = refused(|p| p.sections.clear(), "plan: holds nothing");
    assert!(matches!(error, PlanError::Empty { .. }));
    refused(
        |p| p.sections[0].parts.clear(),
        "section `top_deck`: holds nothing",
    );
    refused(
        |p| p.sections[0].parts[0].places.clear(),
        "part `top_deck/covers`: holds nothing",
    );
    refused(
        |p| first_place(p).positions.clear(),
        "place `cover`: holds nothing",
    );
    refused(
        |p| first_place(p).looks.clear(),
        "place `cover`: holds nothing",
    );
}

#[test]
fn names_used_twice() {
    let error = refused(
        |p| p.sections[1].id = p.sections[0].id.clone(),
        "plan: `top_deck` stands twice",
    );
    assert!(matches!(error, PlanError::Twice { .. }));
    refused(
        |p| p.sections[0].parts[1].id = p.sections[0].parts[0].id.clone(),
        "section `top_deck`: `covers` stands twice",
    );
    refused(
        |p| {
            let place = first_place(p).clone();
            p.sections[0].parts[0].places.push(place);
        },
        "part `top_deck/covers`: `cover` stands twice",
    );
    refused(
        |p| first_place(p).looks[1].id = first_place(p).looks[0].id.clone(),
        "place `cover`: `sludge` stands twice",
    );
    refused(
        |p| {
            let position = first_place(p).positions[0].clone();
            p.sections[0].parts[1].places[0].positions[0] = position;
        },
        "plan: `cover` stands twice",
    );
    refused(
        |p| p.caps[1].id = p.caps[0].id.clone(),
        "cap rules: `lobe_pitted` stands twice",
    );
}

#[test]
fn names_that_would_be_mistaken_for_paths() {
    let error = refused(
        |p| p.sections[0].id = SectionId::new("top/deck").unwrap(),
        "section: `top/deck` has a `/`, which parts a section from its part",
    );
    assert!(matches!(error, PlanError::Slash { .. }));
    refused(
        |p| p.sections[0].parts[0].id = PartId::new("a/b").unwrap(),
        "part: `a/b` has a `/`, which parts a section from its part",
    );
}

#[test]
fn scales_that_are_missing_or_do_not_fit() {
    let error = refused(
        |p| first_place(p).looks[0].scale = ScaleId::new("mud").unwrap(),
        "place `cover`, characteristic `sludge`: there is no scale `mud` in the plan",
    );
    assert!(matches!(error, PlanError::NoScale { .. }));
    let error = refused(
        |p| first_place(p).looks[0].u_rep = Repeatability::Count(1.0),
        "place `cover`, characteristic `sludge`: a repeatability in counts does not fit a scale by \
         merit_area",
    );
    assert!(matches!(error, PlanError::Repeatability { .. }));
    let grade = ScaleId::new("grade").unwrap();
    refused(
        |p| first_place(p).looks[0].scale = grade,
        "place `cover`, characteristic `sludge`: a repeatability in percent does not fit a scale by \
         grade",
    );
}

#[test]
fn caps_that_nothing_could_set_off() {
    let no_node =
        "cap rule `lobe_pitted`: there is no section or part `camshaft/teeth` in the plan";
    for change in [
        |rule: &mut CapRule| rule.node = "camshaft/teeth".to_owned(),
        |rule: &mut CapRule| rule.within = "camshaft/teeth".to_owned(),
    ] {
        let error = refused(|p| change(&mut p.caps[0]), no_node);
        assert!(matches!(error, PlanError::CapNode { .. }));
    }
    let triggers = [
        Trigger::GradeAtLeast(Grade::Heavy),
        Trigger::PercentOver(100.5),
        Trigger::PercentOver(f64::NAN),
        Trigger::CountOver(1),
        Trigger::StateIn(vec![StateId::new("broken").unwrap()]),
    ];
    for when in triggers {
        let error = refused(
            |p| p.caps[0].when = when,
            "cap rule `lobe_pitted`: what it looks at in `camshaft/lobes` is not rated as its trigger asks",
        );
        assert!(matches!(error, PlanError::CapTrigger { .. }));
    }
    refused(
        |p| p.caps[0].characteristic = CharacteristicId::new("scuffed").unwrap(),
        "cap rule `lobe_pitted`: what it looks at in `camshaft/lobes` is not rated as its trigger asks",
    );
    let broken = |p: &mut Plan| {
        let rule = p
            .caps
            .iter_mut()
            .find(|rule| rule.id.as_str() == "ring_broken")
            .unwrap();
        rule.when = Trigger::StateIn(vec![StateId::new("gone").unwrap()]);
    };
    refused(
        broken,
        "cap rule `ring_broken`: what it looks at in `rings/rings` is not rated as its trigger asks",
    );
}

#[test]
fn criteria_out_of_order() {
    let criterion = |anchor, limit, best| Criterion {
        figure: TradeFigure::SludgeMerit,
        weight: 150.0,
        anchor,
        limit,
        best,
    };
    let mut good = plan();
    good.criteria = vec![criterion(9.0, 8.7, 9.3), criterion(13.0, 19.0, 7.0)];
    good.check().unwrap();
    let error = refused(
        |p| p.criteria = vec![criterion(9.0, 8.7, 9.3), criterion(9.0, 9.0, 9.3)],
        "criterion 2: the anchor 9 must lie between the limit 9 and the best credit 9.3",
    );
    assert!(matches!(error, PlanError::Criterion { .. }));
    refused(
        |p| {
            p.criteria = vec![Criterion {
                weight: -1.0,
                ..criterion(9.0, 8.7, 9.3)
            }];
        },
        "criterion 1: weight is -1: allowed is 0 to 1000000",
    );
}

#[test]
fn a_plan_beyond_all_use() {
    // Two looks in each of the many positions, one of which was there before.
    let given = plan().leaf_count() + 2 * (MOST_LEAVES - 1);
    let error = refused(
        |p| {
            let place = first_place(p);
            let position = place.positions[0].clone();
            place.positions = vec![position; MOST_LEAVES];
        },
        &format!("the plan asks for {given} ratings: allowed is 20000 at most"),
    );
    assert_eq!(error, PlanError::TooLarge { given });
}

#[test]
fn more_of_a_kind_than_a_plan_may_hold() {
    let most = Several::Caps.most();
    let caps = |p: &mut Plan, count: usize| {
        let rule = p.caps[0].clone();
        p.caps = (0..count)
            .map(|n| CapRule {
                id: CapId::new(&format!("rule_{n}")).unwrap(),
                ..rule.clone()
            })
            .collect();
    };
    let mut full = plan();
    caps(&mut full, most);
    full.check().unwrap();
    let error = refused(
        |p| caps(p, most + 1),
        "cap rules: there are 251, allowed is 250 at most",
    );
    let (what, given) = (Several::Caps, most + 1);
    assert_eq!(error, PlanError::TooMany { what, given });
    refused(
        |p| {
            let scale = p.scales.values().next().unwrap().clone();
            let id = |n| ScaleId::new(&format!("scale_{n}")).unwrap();
            p.scales.extend((0..250).map(|n| (id(n), scale.clone())));
        },
        &format!(
            "scales: there are {}, allowed is 250 at most",
            plan().scales.len() + 250
        ),
    );
    refused(
        |p| {
            let (anchor, limit, best) = (9.0, 8.7, 9.3);
            let (figure, weight) = (TradeFigure::SludgeMerit, 1.0);
            let criterion = Criterion {
                figure,
                weight,
                anchor,
                limit,
                best,
            };
            p.criteria = vec![criterion; 101];
        },
        "criteria: there are 101, allowed is 100 at most",
    );
    refused(
        |p| {
            let id = |n| CharacteristicId::new(&format!("land_{n}")).unwrap();
            p.location_factors = (0..101).map(|n| (id(n), 1.0)).collect();
        },
        "location factors: there are 101, allowed is 100 at most",
    );
    refused(
        |p| p.caps[0].when = Trigger::StateIn(vec![StateId::new("free").unwrap(); 201]),
        "states of a cap rule: there are 201, allowed is 200 at most",
    );
    let text = "x".repeat(MOST_TEXT);
    refused(
        |p| {
            p.name.clear();
            p.version.clear();
            first_place(p).label = Some(text.clone() + "x");
        },
        &format!(
            "the plan's texts have {} bytes in all: allowed is 1048576 at most",
            plan_text_without_names() + MOST_TEXT + 1
        ),
    );
}

/// The texts of the plan, without its name and version, by another way: all that is no id.
fn plan_text_without_names() -> usize {
    let plan = plan();
    let columns = plan.places().flat_map(|(.., place)| &place.positions);
    let columns = columns.map(|position| position.column.len());
    let caps = plan.caps.iter();
    let caps = caps.map(|rule| rule.node.len() + rule.within.len());
    columns.chain(caps).sum()
}

#[test]
fn a_plan_for_an_engine_that_cannot_be() {
    let error = refused(
        |p| p.layout.mains = 1,
        "layout: mains is 1: allowed is 2 to 25",
    );
    assert!(matches!(error, PlanError::Layout(_)));
    let six = Layout::inline_six();
    for (layout, wanted) in [
        (
            Layout {
                cylinders: 25,
                ..six.clone()
            },
            "cylinders is 25: allowed is 1 to 24",
        ),
        (
            Layout {
                arrangement: Arrangement::Vee,
                cylinders: 5,
                ..six.clone()
            },
            "cylinders is 5: allowed is an even number from 4 to 24 for a V",
        ),
        (
            Layout {
                intake_valves: 0,
                ..six.clone()
            },
            "intake_valves is 0: allowed is 1 to 3",
        ),
        (
            Layout {
                exhaust_valves: 4,
                ..six.clone()
            },
            "exhaust_valves is 4: allowed is 1 to 3",
        ),
        (
            Layout {
                compression_rings: 5,
                ..six.clone()
            },
            "compression_rings is 5: allowed is 1 to 4",
        ),
        (
            Layout {
                turbochargers: 5,
                ..six
            },
            "turbochargers is 5: allowed is 0 to 4",
        ),
    ] {
        assert_eq!(layout.check().unwrap_err().to_string(), wanted);
    }
}

/// A scale that is refused in these words, by itself and in a plan.
#[track_caller]
fn scale_refused(scale: Scale, wanted: &str) {
    assert_eq!(scale.check().unwrap_err().to_string(), wanted);
    let error = refused(
        |p| {
            p.scales.insert(ScaleId::new("mine").unwrap(), scale);
        },
        &format!("scale `mine`: {wanted}"),
    );
    assert!(matches!(error, PlanError::Scale { .. }));
}

#[test]
fn grade_tables() {
    for (scores, wanted) in [
        (
            [10.0, 9.0, 9.5, 5.0, 2.0, 0.0],
            "the grade table rises from 9 to 9.5: a worse grade may not score better",
        ),
        (
            [11.0, 9.0, 7.0, 5.0, 2.0, 0.0],
            "score is 11: allowed is 0 to 10",
        ),
        (
            [10.0, 9.0, 7.0, 5.0, 2.0, f64::NAN],
            "score is NaN: allowed is 0 to 10",
        ),
    ] {
        scale_refused(Scale::Grade { scores }, wanted);
    }
}

const NO_ROWS: &str = "the table has 0 rows: allowed is 1 or more";
const NAMED_CLEAN: &str = "a level is named `clean`: that name is kept for the rest of the area";

#[test]
fn levels() {
    let area = |levels: &[(&str, f64)]| Scale::Area {
        levels: levels
            .iter()
            .map(|(name, factor)| DepositLevel {
                id: LevelId::new(name).unwrap(),
                label: None,
                factor: *factor,
            })
            .collect(),
    };
    let merit_area = |levels: &[(&str, f64)]| Scale::MeritArea {
        levels: levels
            .iter()
            .map(|(name, merit)| MeritLevel {
                id: LevelId::new(name).unwrap(),
                label: None,
                merit: *merit,
            })
            .collect(),
    };
    for (scale, wanted) in [
        (area(&[("carbon", 1.5)]), "factor is 1.5: allowed is 0 to 1"),
        (
            area(&[("carbon", f64::NAN)]),
            "factor is NaN: allowed is 0 to 1",
        ),
        (area(&[]), NO_ROWS),
        (area(&[("clean", 0.0)]), NAMED_CLEAN),
        (
            merit_area(&[("film", -1.0)]),
            "merit is -1: allowed is 0 to 10",
        ),
        (
            merit_area(&[("film", 9.0), ("film", 8.0)]),
            "`film` stands twice",
        ),
        (merit_area(&[]), NO_ROWS),
        (merit_area(&[("clean", 10.0)]), NAMED_CLEAN),
    ] {
        scale_refused(scale, wanted);
    }
}

#[test]
fn states() {
    let scale = |states: &[(&str, f64)]| Scale::State {
        states: states
            .iter()
            .map(|(name, score)| StateScore {
                id: StateId::new(name).unwrap(),
                label: None,
                score: *score,
            })
            .collect(),
    };
    scale_refused(scale(&[("free", 12.0)]), "score is 12: allowed is 0 to 10");
    scale_refused(
        scale(&[("free", 10.0), ("free", 5.0)]),
        "`free` stands twice",
    );
    scale_refused(scale(&[]), NO_ROWS);
}

#[test]
fn breakpoints_and_allowances() {
    let points = |table: &[(f64, f64)]| table.iter().copied().map(Breakpoint::from).collect();
    let extent = |table: &[(f64, f64)]| Scale::Extent {
        points: points(table),
    };
    let count = |table: &[(f64, f64)]| Scale::Count {
        points: points(table),
    };
    let measured = |as_new, limit| Scale::Measured { as_new, limit };
    for (scale, wanted) in [
        (
            extent(&[(0.0, 10.0)]),
            "the table has 1 rows: allowed is 2 or more",
        ),
        (
            extent(&[(1.0, 10.0), (2.0, 9.0)]),
            "the breakpoints start at 1: they must start at 0",
        ),
        (
            extent(&[(0.0, 10.0), (5.0, 9.0), (5.0, 8.0)]),
            "breakpoint 5 comes after 5: breakpoints must rise",
        ),
        (
            extent(&[(0.0, 10.0), (101.0, 9.0)]),
            "breakpoint is 101: allowed is 0 to 100",
        ),
        (
            extent(&[(0.0, 10.0), (f64::NAN, 9.0)]),
            "breakpoint is NaN: allowed is 0 to 100",
        ),
        (
            count(&[(0.0, 10.0), (10_001.0, 9.0)]),
            "breakpoint is 10001: allowed is 0 to 10000",
        ),
        (
            count(&[(0.0, 10.5), (10.0, 9.0)]),
            "score is 10.5: allowed is 0 to 10",
        ),
        (
            measured(0.13, 0.13),
            "the limit equals the as-new size, 0.13: there is no allowance to use",
        ),
        (
            measured(f64::INFINITY, 0.13),
            "as_new is inf: allowed is -1000000 to 1000000",
        ),
        (
            measured(0.13, f64::NAN),
            "limit is NaN: allowed is -1000000 to 1000000",
        ),
    ] {
        scale_refused(scale, wanted);
    }
}

#[test]
fn more_than_anybody_tells_apart() {
    refused(
        |p| {
            let place = first_place(p);
            let look = place.looks[0].clone();
            place.looks = (0..101)
                .map(|n| {
                    let mut look = look.clone();
                    look.id = CharacteristicId::new(&format!("look{n}")).unwrap();
                    look
                })
                .collect();
        },
        "place `cover`: has 101 characteristics: allowed is 100 at most",
    );
    refused(
        |p| {
            let states = (0..201).map(|n| StateScore {
                id: StateId::new(&format!("state{n}")).unwrap(),
                label: None,
                score: 5.0,
            });
            let scale = Scale::State {
                states: states.collect(),
            };
            p.scales.insert(ScaleId::new("many").unwrap(), scale);
        },
        "scale `many`: the table has 201 rows: allowed is 200 at most",
    );
}

/// The pin's diameter names what is rated by eye on the pin.
#[test]
fn a_surface_that_is_not_rated_by_eye_there() {
    const PIN: &str = "place `pin`, characteristic `diameter`: names";
    let named = |name: &str| {
        let name = CharacteristicId::new(name).unwrap();
        move |p: &mut Plan| of_place(p, "pin", "diameter").same_surface = Some(name)
    };
    let by_eye = "as rated by eye on its surface: allowed of this place is";
    for given in ["nothing", "diameter", "polished"] {
        let error = refused(
            named(given),
            &format!("{PIN} `{given}` {by_eye} wear, heat_colour"),
        );
        assert!(matches!(error, PlanError::SameSurface { .. }));
    }
    // What is there, but read with a gauge.
    refused(
        |p| {
            let bore = of_place(p, "pin", "diameter").scale.clone();
            of_place(p, "pin", "wear").scale = bore;
            named("wear")(p);
        },
        &format!("{PIN} `wear` {by_eye} heat_colour"),
    );
}
