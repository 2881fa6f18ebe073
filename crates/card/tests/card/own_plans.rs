//! A plan of one's own: every edit is one difference, nothing is lost by switching off, and all that
//! is wrong is told at once.

use proptest::prelude::*;
use ringland_card::{
    CharacteristicId, Grade, LevelId, Look, Plan, PlanIndex, Scale, ScaleId, Standing, StateId,
    plan::{
        Axis, Change, Difference, EditError, Field, Held, NewRow, PlanError, PlanItem,
        Repeatability, Trigger, Under,
    },
};

use crate::bench::{self, plan};

/// Every figure of a plan that its author may set, with what it holds.
fn figures(plan: &Plan) -> Vec<(PlanItem, Field, f64)> {
    let mut all = vec![(PlanItem::Plan, Field::UBias, plan.u_bias)];
    for section in &plan.sections {
        all.push((section.item(), Field::Weight, section.weight));
        for part in &section.parts {
            all.push((part.item(section), Field::Weight, part.weight));
            for place in &part.places {
                all.push((place.item(section, part), Field::Weight, place.weight));
                for look in &place.looks {
                    let item = place.look_item(section, part, look);
                    let (Repeatability::Score(u)
                    | Repeatability::Percent(u)
                    | Repeatability::Count(u)) = look.u_rep;
                    all.push((item.clone(), Field::Weight, look.weight));
                    all.push((item, Field::URep, u));
                }
            }
        }
    }
    for (id, scale) in &plan.scales {
        let id = || id.clone();
        match scale {
            Scale::Grade { scores } => all.extend(
                Grade::WHOLE
                    .into_iter()
                    .zip(scores)
                    .map(|(grade, score)| (PlanItem::Grade(id(), grade), Field::Score, *score)),
            ),
            Scale::Area { levels } => all.extend(levels.iter().map(|level| {
                let item = PlanItem::Level(id(), level.id.clone());
                (item, Field::Factor, level.factor)
            })),
            Scale::MeritArea { levels } => all.extend(levels.iter().map(|level| {
                let item = PlanItem::Level(id(), level.id.clone());
                (item, Field::Merit, level.merit)
            })),
            Scale::State { states } => all.extend(states.iter().map(|state| {
                let item = PlanItem::State(id(), state.id.clone());
                (item, Field::Score, state.score)
            })),
            Scale::Extent { points } | Scale::Count { points } => {
                for (n, point) in points.iter().enumerate() {
                    all.push((PlanItem::Point(id(), n), Field::X, point.x));
                    all.push((PlanItem::Point(id(), n), Field::Score, point.score));
                }
            }
            Scale::Measured { as_new, limit } => {
                all.push((PlanItem::Scale(id()), Field::AsNew, *as_new));
                all.push((PlanItem::Scale(id()), Field::Limit, *limit));
            }
            // Its limits stand in a size sheet.
            Scale::Gauged(_) => {}
        }
    }
    let rules = plan.caps.iter();
    all.extend(rules.map(|rule| (PlanItem::Cap(rule.id.clone()), Field::Cap, rule.cap)));
    all
}

/// Everything that can be switched off by itself.
fn rows(plan: &Plan) -> Vec<PlanItem> {
    let mut all = Vec::new();
    for section in &plan.sections {
        all.push(section.item());
        for part in &section.parts {
            all.push(part.item(section));
            for place in &part.places {
                all.push(place.item(section, part));
                let item = place.item(section, part);
                let positions = place.positions.iter();
                all.extend(positions.map(|position| item.position(&position.id)));
                let looks = place.looks.iter();
                all.extend(looks.map(|look| place.look_item(section, part, look)));
            }
        }
    }
    all.extend(plan.caps.iter().map(|rule| PlanItem::Cap(rule.id.clone())));
    all.extend(levels_and_states(plan));
    all
}

pub(crate) fn levels_and_states(plan: &Plan) -> Vec<PlanItem> {
    let rows = plan.scales.iter().flat_map(|(id, scale)| {
        let level = |level: &LevelId| PlanItem::Level(id.clone(), level.clone());
        let state = |state: &StateId| PlanItem::State(id.clone(), state.clone());
        match scale {
            Scale::Area { levels } => levels.iter().map(|row| level(&row.id)).collect(),
            Scale::MeritArea { levels } => levels.iter().map(|row| level(&row.id)).collect(),
            Scale::State { states } => states.iter().map(|row| state(&row.id)).collect(),
            _ => Vec::new(),
        }
    });
    rows.collect()
}

pub(crate) fn one(plan: &Plan, other: &Plan) -> Difference {
    let mut all = plan.differences(other);
    assert_eq!(all.len(), 1, "{all:?}");
    all.pop().unwrap()
}

#[test]
fn a_plan_does_not_differ_from_itself() {
    assert_eq!(plan().differences(&plan()), []);
}

#[test]
fn every_figure_set_is_the_one_difference() {
    let parent = plan();
    for (item, field, from) in figures(&parent) {
        let mut own = parent.clone();
        let to = from + 0.25;
        own.set_figure(&item, field, to).unwrap();
        let found = one(&own, &parent);
        assert_eq!(found.item, item);
        let Change::Field {
            field: told,
            from: old,
            to: new,
        } = found.change
        else {
            unreachable!("{item}")
        };
        assert_eq!(told, field);
        if field != Field::URep {
            assert_eq!((old, new), (Held::Figure(from), Held::Figure(to)));
        }
        own.set_figure(&item, field, from).unwrap();
        assert_eq!(own, parent);
    }
}

#[test]
fn every_row_switched_off_is_the_one_difference_and_comes_back_where_it_was() {
    let parent = plan();
    for item in rows(&parent) {
        let mut own = parent.clone();
        own.switch_off(&item).unwrap();
        let found = one(&own, &parent);
        assert_eq!(found.change, Change::Removed);
        // What stood alone takes along what it stood in.
        let (there, gone) = (item.to_string(), found.item.to_string());
        let below = there.split_once(':').unwrap().1;
        assert!(
            below.starts_with(gone.split_once(':').unwrap().1),
            "{there} {gone}"
        );
        assert_eq!(parent.differences(&own)[0].change, Change::Added);
        let (both, off) = own.with_rows_of(&parent);
        assert_eq!((both, off), (parent.clone(), vec![found.item.clone()]));
        assert!(!own.has(&found.item) && parent.has(&found.item));
        own.put_back(&parent, &found.item).unwrap();
        assert_eq!(own, parent);
        assert_eq!(own.put_back(&parent, &found.item), Err(EditError::NotThere));
    }
}

/// An edit with the field that it changes.
type NamedEdit = (&'static str, fn(&mut Plan));

fn label_first(plan: &mut Plan, is: fn(&PlanItem) -> bool) {
    let item = levels_and_states(plan).into_iter().find(is).unwrap();
    plan.set_text(&item, Field::Label, "Ours").unwrap();
}

#[test]
fn texts_orders_and_choices_are_one_difference_each() {
    let parent = plan();
    let edits: [NamedEdit; 20] = [
        ("name", |p| p.name = "Ours".to_owned()),
        ("version", |p| p.version = "7".to_owned()),
        ("depth", |p| p.depth = ringland_card::Depth::Short),
        ("layout", |p| p.layout.turbochargers = 2),
        ("order", |p| p.sections.swap(0, 1)),
        ("order", |p| p.sections[0].parts.swap(0, 1)),
        ("order", |p| p.caps.swap(0, 1)),
        ("label", |p| p.sections[0].label = Some("Top".to_owned())),
        ("label", |p| {
            p.sections[0].parts[0].label = Some("Lids".to_owned());
        }),
        ("label", |p| p.caps[0].label = Some("Our rule".to_owned())),
        ("label", |p| {
            label_first(p, |item| matches!(item, PlanItem::Level(..)));
        }),
        ("label", |p| {
            label_first(p, |item| matches!(item, PlanItem::State(..)));
        }),
        ("axis", |p| {
            p.sections[0].parts[0].places[0].axis = Axis::Main;
        }),
        ("column", |p| {
            p.sections[0].parts[0].places[0].positions[0].column = "front".to_owned();
        }),
        ("u_rep", |p| {
            p.sections[0].parts[0].places[0].looks[0].u_rep = Repeatability::Score(0.1);
        }),
        ("regime", |p| {
            p.sections[0].parts[0].places[0].looks[0].regime = ringland_card::plan::Regime::Mixed;
        }),
        ("scale", |p| {
            p.sections[0].parts[0].places[0].looks[0].scale = ScaleId::new("bore").unwrap();
        }),
        ("node", |p| p.caps[0].node = "liners".to_owned()),
        ("when", |p| p.caps[0].when = Trigger::CountOver(3)),
        ("method", |p| {
            let points = vec![(0.0, 10.0).into(), (100.0, 0.0).into()];
            let bore = ScaleId::new("bore").unwrap();
            p.scales.insert(bore, Scale::Extent { points });
        }),
    ];
    for (name, edit) in edits {
        let mut own = parent.clone();
        edit(&mut own);
        match one(&own, &parent).change {
            Change::Field { field, .. } => assert_eq!(field.as_str(), name),
            other => unreachable!("{name}: {other:?}"),
        }
    }
}

#[test]
fn location_factors_breakpoints_and_criteria_come_and_go_one_by_one() {
    let parent = plan();
    let land = PlanItem::LocationFactor(CharacteristicId::new("land_1").unwrap());
    let mut own = parent.clone();
    own.set_figure(&land, Field::Factor, 2.0).unwrap();
    let found = one(&own, &parent);
    let (from, to) = (Held::Nothing, Held::Figure(2.0));
    let field = Field::Factor;
    assert_eq!(found.change, Change::Field { field, from, to });
    own.switch_off(&land).unwrap();
    assert_eq!(own, parent);

    let scale = parent.scales.iter().find_map(|(id, scale)| match scale {
        Scale::Extent { points } => Some((id.clone(), points.len())),
        _ => None,
    });
    let (scale, count) = scale.unwrap();
    let point = own.add_point(&scale, (100.0, 0.0).into()).unwrap();
    assert_eq!(point, PlanItem::Point(scale.clone(), count));
    let found = one(&own, &parent);
    assert_eq!((found.item, found.change), (point.clone(), Change::Added));
    own.switch_off(&point).unwrap();
    assert_eq!(own, parent);
    own.switch_off(&PlanItem::Point(scale.clone(), 1)).unwrap();
    let found = one(&own, &parent);
    assert_eq!(found.item, PlanItem::Point(scale, 1));
    assert_eq!(found.change, Change::Removed);
}

#[test]
fn a_new_row_has_ids_of_its_own_and_is_one_difference() {
    let parent = plan();
    let scale = ScaleId::new("grade").unwrap();
    assert!(parent.scales.contains_key(&scale));
    let row = |under| NewRow {
        under,
        name: " Árbol de la bomba nº 1 ".to_owned(),
        axis: Axis::Each,
        each: 2,
        look: "Wear".to_owned(),
        scale: scale.clone(),
    };
    let section = parent.sections[0].id.clone();
    let part = parent.sections[0].parts[0].id.clone();
    for (under, kind) in [
        (
            Under::NewSection("Fuel pump".to_owned()),
            "section:fuel_pump",
        ),
        (
            Under::NewPart(section.clone(), "Covers".to_owned()),
            "part:top_deck:covers_2",
        ),
        (
            Under::Part(section, part),
            "place:top_deck:covers:arbol_de_la_bomba_n_1",
        ),
    ] {
        let mut own = parent.clone();
        let look = own.add_row(&row(under)).unwrap();
        let found = one(&own, &parent);
        assert_eq!(
            (found.item.to_string().as_str(), found.change),
            (kind, Change::Added)
        );
        assert!(look.to_string().ends_with(":wear"));
        own.check().unwrap();
        let before = own.clone();
        // The same again takes other names; a second look in a place too.
        let PlanItem::Look(s, p, place, _) = look else {
            unreachable!()
        };
        let again = NewRow {
            under: Under::Part(s.clone(), p.clone()),
            ..row(Under::NewSection("x".to_owned()))
        };
        own.add_row(&again).unwrap();
        own.add_look(&PlanItem::Place(s, p, place), "wear", &scale)
            .unwrap();
        own.check().unwrap();
        assert_eq!(own.differences(&before).len(), 2);
    }
}

#[test]
fn a_row_that_is_none_is_refused_and_changes_nothing() {
    let (parent, mut own) = (plan(), plan());
    let row = NewRow {
        under: Under::NewSection("Pump".to_owned()),
        name: "Shaft".to_owned(),
        axis: Axis::Single,
        each: 0,
        look: "Wear".to_owned(),
        scale: ScaleId::new("grade").unwrap(),
    };
    for (wrong, error) in [
        (
            NewRow {
                name: "  ".to_owned(),
                ..row.clone()
            },
            EditError::NoName,
        ),
        (
            NewRow {
                under: Under::NewSection(String::new()),
                ..row.clone()
            },
            EditError::NoName,
        ),
        (
            NewRow {
                look: "x".repeat(121),
                ..row.clone()
            },
            EditError::LongName { given: 121 },
        ),
        (
            NewRow {
                axis: Axis::Each,
                each: 51,
                ..row.clone()
            },
            EditError::Each { given: 51 },
        ),
        (
            NewRow {
                scale: ScaleId::new("nothing").unwrap(),
                ..row.clone()
            },
            EditError::NotThere,
        ),
    ] {
        assert_eq!(own.add_row(&wrong), Err(error));
        assert_eq!(own, parent);
    }
    let nowhere = PlanItem::parse("look:a:b:c:d").unwrap();
    assert_eq!(
        own.set_figure(&nowhere, Field::Weight, 1.0),
        Err(EditError::NotThere)
    );
    assert_eq!(
        own.set_text(&PlanItem::Plan, Field::Name, " "),
        Err(EditError::NoName)
    );
}

#[test]
fn every_contradiction_is_told_with_the_field_that_holds_it() {
    let mut own = plan();
    for item in ["section:top_deck", "look:camshaft:lobes:lobe/intake:pitted"] {
        let item = PlanItem::parse(item).unwrap();
        own.set_figure(&item, Field::Weight, -1.0).unwrap();
    }
    own.u_bias = 11.0;
    own.caps[0].cap = -3.0;
    let told: Vec<(String, Option<Field>)> = own
        .problems()
        .into_iter()
        .map(|problem| (problem.item.to_string(), problem.field))
        .collect();
    assert_eq!(
        told,
        [
            ("section:top_deck".to_owned(), Some(Field::Weight)),
            (
                "look:camshaft:lobes:lobe/intake:pitted".to_owned(),
                Some(Field::Weight)
            ),
            ("plan".to_owned(), Some(Field::UBias)),
            (format!("cap:{}", own.caps[0].id), Some(Field::Cap)),
        ]
    );
    assert_eq!(plan().problems(), []);
    // No more than anybody reads.
    for item in rows(&plan()) {
        let _not_a_weight = own.set_figure(&item, Field::Weight, f64::NAN);
    }
    assert_eq!(own.problems().len(), ringland_card::plan::MOST_PROBLEMS);
}

#[test]
fn a_cap_on_a_row_that_was_switched_off_is_told() {
    let mut own = plan();
    let camshaft = PlanItem::parse("section:camshaft").unwrap();
    own.switch_off(&camshaft).unwrap();
    let problems = own.problems();
    assert!(
        problems
            .iter()
            .all(|problem| matches!(problem.why, PlanError::CapNode { .. }))
    );
    assert!(!problems.is_empty());
    for problem in problems {
        let _told_twice = own.switch_off(&problem.item);
    }
    own.check().unwrap();
}

/// A size whose surface is not rated by eye any more names none; it names it again once that is back.
#[test]
fn a_size_names_no_surface_that_was_switched_off() {
    let parent = plan();
    let wear = PlanItem::parse("look:pins_and_rods:pins:pin:wear").unwrap();
    let diameter = PlanItem::parse("look:pins_and_rods:pins:pin:diameter").unwrap();
    for order in [[&wear, &diameter], [&diameter, &wear]] {
        let mut own = parent.clone();
        own.switch_off(&wear).unwrap();
        own.check().unwrap();
        own.switch_off(&diameter).unwrap();
        for item in order {
            own.put_back(&parent, item).unwrap();
            own.check().unwrap();
        }
        assert_eq!(own, parent);
    }
}

/// One rating of a lobe's pitted area.
fn pitted() -> ringland_card::Entry {
    bench::entry(
        1,
        bench::rating("cyl1/lobe/intake", "pitted", Look::Percent(3.0)),
    )
}

#[test]
fn what_was_rated_in_a_row_that_is_switched_off_stays_on_the_card() {
    let mut own = plan();
    own.switch_off(&PlanItem::parse("look:camshaft:lobes:lobe/intake:pitted").unwrap())
        .unwrap();
    for problem in own.problems() {
        own.switch_off(&problem.item).unwrap();
    }
    let moved = bench::entry(2, bench::new_plan(own));
    let mut card = bench::card_of([pitted(), moved.clone()]);
    let outside: Vec<_> = card
        .standing()
        .outside
        .iter()
        .map(|entry| entry.id)
        .collect();
    assert_eq!(outside, [pitted().id]);
    // Through the file, and back by a void.
    let read = ringland_card::file::read(ringland_card::file::write(&card).as_bytes()).unwrap();
    assert_eq!(read.card, card);
    card.append(bench::entry(3, bench::void(moved.id))).unwrap();
    let standing = card.standing();
    assert!(standing.outside.is_empty());
    let at = bench::at("cyl1/lobe/intake", "pitted");
    let leaf = card.index().find(card.plan(), &at).unwrap();
    assert_eq!(standing.looks[leaf.0].len(), 1);
}

#[test]
fn under_another_plan_the_card_stays_as_it_is() {
    let card = bench::card_of([pitted()]);
    let mut own = plan();
    own.switch_off(&PlanItem::parse("section:camshaft").unwrap())
        .unwrap();
    let index = PlanIndex::of(&own);
    let standing = Standing::under(&card, &own, &index);
    assert_eq!(standing.outside.len(), 1);
    assert!(standing.looks.iter().all(Vec::is_empty));
    assert_eq!(card.plan(), &plan());
    assert!(card.standing().outside.is_empty());
}

#[test]
fn every_address_is_read_back() {
    let parent = plan();
    let figures = figures(&parent).into_iter().map(|(item, ..)| item);
    for item in figures.chain(rows(&parent)) {
        assert_eq!(PlanItem::parse(&item.to_string()), Some(item));
    }
    for field in Field::ALL {
        assert_eq!(Field::parse(field.as_str()), Some(*field));
    }
    for wrong in [
        "",
        "plan:x",
        "section",
        "section:a b",
        "point:wear:x",
        "grade:wear:none_to_trace",
    ] {
        assert_eq!(PlanItem::parse(wrong), None, "{wrong}");
    }
}

#[derive(Clone, Debug)]
enum Edit {
    Figure(usize, f64),
    Off(usize),
    Name(String),
}

fn edit() -> impl Strategy<Value = Edit> {
    prop_oneof![
        (any::<usize>(), -1.0..12.0).prop_map(|(n, figure)| Edit::Figure(n, figure)),
        any::<usize>().prop_map(Edit::Off),
        "[a-z]{1,8}".prop_map(Edit::Name),
    ]
}

/// Carries an edit out; one of something that is switched off has nothing to change.
fn carry_out(own: &mut Plan, edit: &Edit) {
    let parent = plan();
    match edit {
        Edit::Figure(n, figure) => {
            let all = figures(&parent);
            let (item, field, _) = &all[n % all.len()];
            let _gone = own.set_figure(item, *field, *figure);
        }
        Edit::Off(n) => {
            let all = rows(&parent);
            let _gone = own.switch_off(&all[n % all.len()]);
        }
        Edit::Name(name) => own.set_text(&PlanItem::Plan, Field::Version, name).unwrap(),
    }
}

/// What two edits touch, so that one may be told from the other.
fn apart(a: &Edit, b: &Edit) -> bool {
    let parent = plan();
    let (figures, rows) = (figures(&parent), rows(&parent));
    match (a, b) {
        (Edit::Figure(a, _), Edit::Figure(b, _)) => a % figures.len() != b % figures.len(),
        (Edit::Name(_), Edit::Name(_)) => false,
        (Edit::Off(a), Edit::Off(b)) => {
            // Taking a row and what it stands in comes to the same in either order; the last of two
            // that stand alone together takes along the owner, in either order too.
            a % rows.len() != b % rows.len()
        }
        _ => true,
    }
}

proptest! {
    #[test]
    fn edits_in_either_order_come_to_the_same((a, b) in (edit(), edit())) {
        prop_assume!(apart(&a, &b));
        let (mut one, mut other) = (plan(), plan());
        carry_out(&mut one, &a);
        carry_out(&mut one, &b);
        carry_out(&mut other, &b);
        carry_out(&mut other, &a);
        prop_assert_eq!(&one, &other);
        prop_assert_eq!(one.differences(&plan()), other.differences(&plan()));
    }

    #[test]
    fn nothing_differs_exactly_where_plans_are_equal(edits in proptest::collection::vec(edit(), 0..6)) {
        let mut own = plan();
        for edit in &edits {
            carry_out(&mut own, edit);
        }
        prop_assert_eq!(own.differences(&plan()).is_empty(), own == plan());
        prop_assert_eq!(own.differences(&plan()).len(), plan().differences(&own).len());
        // The check and the list never disagree.
        prop_assert_eq!(own.check().err(), own.problems().into_iter().next().map(|first| first.why));
    }
}
