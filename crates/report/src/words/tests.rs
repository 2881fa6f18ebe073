//! The catalogue as a whole.

use super::*;

const EN: &Words = &Words::ENGLISH;

/// What may end a text with a full stop.
const ABBREVIATIONS: [&str; 8] = [
    " adm.", " esc.", " izq.", " der.", " sup.", " inf.", " UU.", " típ.",
];

/// Every language with its words.
fn languages() -> impl Iterator<Item = (&'static str, &'static Words)> {
    Language::ALL
        .into_iter()
        .map(|language| (language.tag(), words(language)))
}

/// The words are declared with their values in English, so this holds every language to the same.
#[test]
fn every_sentence_takes_just_its_values() {
    for (tag, words) in languages() {
        for (group, word) in words.all() {
            let mut holes = catalogue::holes(word.text);
            holes.sort_unstable();
            holes.dedup_by_key(|(name, _)| *name);
            let mut values = word.values.clone();
            values.sort_unstable();
            let names = |(name, _): &(&'static str, &'static str)| *name;
            assert_eq!(
                holes.iter().map(|(name, _)| *name).collect::<Vec<_>>(),
                values.iter().map(names).collect::<Vec<_>>(),
                "{tag} {group}.{}: {}",
                word.name,
                word.text
            );
        }
    }
}

#[test]
fn a_plural_form_is_chosen_by_a_whole_number() {
    for (tag, words) in languages() {
        for (group, word) in words.all() {
            for (hole, forms) in catalogue::holes(word.text) {
                let at = format!("{tag} {group}.{}: {}", word.name, word.text);
                let Some(forms) = forms else { continue };
                assert!(
                    forms.matches(':').count() == 1 && !forms.contains('{'),
                    "{at}"
                );
                let (_, kind) = word.values.iter().find(|(name, _)| *name == hole).unwrap();
                assert!(matches!(*kind, "usize" | "u8"), "{at}");
            }
        }
    }
}

#[test]
fn the_style_is_kept() {
    for (tag, words) in languages() {
        let sentences = words
            .all()
            .into_iter()
            .map(|(group, word)| (format!("{group}.{}", word.name), word.text));
        for (name, text) in sentences.chain(words.terms.texts()) {
            let at = format!("{tag} {name}: {text}");
            assert!(!text.is_empty() && text.trim() == text, "{at}");
            assert!(!text.ends_with(':') && !text.contains("..."), "{at}");
            // One short sentence has no full stop; the last of several has none either.
            // An abbreviation may.
            let abbreviated = ABBREVIATIONS.iter().any(|short| text.ends_with(short));
            assert!(
                !text.ends_with('.') || !text.contains(' ') || abbreviated,
                "{at}"
            );
        }
    }
}

#[test]
fn a_language_has_its_tag_and_its_own_name() {
    let all = Language::ALL.map(|language| (language.tag(), language.own_name()));
    assert_eq!(all, [("en", "English"), ("es", "Español")]);
}

#[test]
fn grades_and_dates_read_well() {
    assert_eq!(EN.grade(Grade::TraceToLight), "Trace to light");
    assert_eq!(EN.grade(Grade::HeavyToSevere), "Heavy to severe");
    assert_eq!(EN.grade(Grade::None), "None");
    let at: Timestamp = "2026-11-24T12:22:07Z".parse().unwrap();
    assert_eq!(EN.date(at, 0), "24 November 2026");
    assert_eq!(EN.date_time(at, 12 * 60), "25 November 2026, 00:22");
    let days = |first: &str| EN.days(first.parse().unwrap(), at, 0);
    assert_eq!(days("2026-11-24T01:00:00Z"), "24 November 2026");
    assert_eq!(days("2026-11-09T01:00:00Z"), "9 to 24 November 2026");
    assert_eq!(
        days("2026-10-09T01:00:00Z"),
        "9 October to 24 November 2026"
    );
    assert_eq!(
        days("2025-12-31T01:00:00Z"),
        "31 December 2025 to 24 November 2026"
    );
}

#[test]
fn plural_forms_are_right() {
    assert_eq!(EN.facts.n_ratings(1), "1 rating");
    assert_eq!(EN.facts.n_ratings(695), "695 ratings");
    assert_eq!(EN.shelf.merged(1, "Tarn 14"), "1 new entry for Tarn 14");
}

mod plans {
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
            .flat_map(|layout| {
                [Depth::Full, Depth::Short].map(|depth| builtin(layout, depth).unwrap())
            })
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
        for ((tag, words), plan) in
            languages().flat_map(|l| plans().into_iter().map(move |p| (l, p)))
        {
            for section in &plan.sections {
                let mut rows = BTreeSet::new();
                for place in section.parts.iter().flat_map(|part| &part.places) {
                    for look in &place.looks {
                        let row = words.row_name(place, look);
                        assert!(row.chars().count() <= 34, "{tag} {row}");
                        assert!(rows.insert(row.clone()), "{tag}, twice in a section: {row}");
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
}

mod sayings {
    use ringland_card::{
        Areas, At, CharacteristicId, Layout, LevelId, Look, LookError, PositionId, StateId,
        look::check_look,
        plan::{Depth, builtin},
    };

    use super::*;
    use crate::{format::parse_number, words::Words};

    fn areas(shares: &[(&str, f64)]) -> Look {
        Look::Areas(Areas {
            shares: shares
                .iter()
                .map(|(id, share)| (LevelId::new(id).unwrap(), *share))
                .collect(),
            painted: Vec::new(),
        })
    }

    #[test]
    fn looks_are_said_in_the_trades_order() {
        let plan = builtin(&Layout::inline_six(), Depth::Full).unwrap();
        let scale = |id: &str| {
            plan.scales
                .iter()
                .find(|(known, _)| known.as_str() == id)
                .unwrap()
                .1
        };
        let deposit = scale("deposit");
        let said = EN.look(
            &areas(&[("amber_lacquer", 20.0), ("heavy_carbon", 28.0)]),
            deposit,
        );
        assert_eq!(
            said,
            "heavy carbon 28\u{a0}%, amber lacquer 20\u{a0}%, clean 52\u{a0}%"
        );
        assert_eq!(EN.look(&areas(&[]), deposit), "all clean");
        assert_eq!(
            EN.look(&areas(&[("heavy_carbon", 100.0)]), deposit),
            "heavy carbon 100\u{a0}%"
        );
        let grade = scale("grade");
        assert_eq!(
            EN.look(&Look::Grade(Grade::LightToMedium), grade),
            "light to medium"
        );
        let stuck = Look::State(StateId::new("cold_stuck").unwrap());
        assert_eq!(EN.look(&stuck, scale("mobility")), "cold-stuck");
        assert_eq!(EN.look(&Look::Percent(2.5), scale("damaged")), "2.5\u{a0}%");
        let not = Look::NotInspected(NotInspected::OutOfReach);
        assert_eq!(EN.look(&not, grade), "not inspected: out of reach");
    }

    fn refused(words: &Words, look: &Look, characteristic: &str) -> String {
        let plan = builtin(&Layout::inline_six(), Depth::Full).unwrap();
        let at = At {
            position: PositionId::new("cyl3/piston").unwrap(),
            characteristic: CharacteristicId::new(characteristic).unwrap(),
        };
        let index = ringland_card::PlanIndex::of(&plan);
        let scale = ringland_card::look::scale_at(&plan, &index, &at).unwrap();
        let error: LookError = check_look(&at, scale, look).unwrap_err();
        words.look_error(&plan, &error)
    }

    #[test]
    fn errors_say_where_and_what_is_allowed() {
        assert_eq!(
            refused(
                EN,
                &areas(&[("heavy_carbon", 60.0), ("light_carbon", 50.0)]),
                "land_1"
            ),
            "Cylinder 3, piston · top land: the shares come to 110\u{a0}%. Allowed is 100 % at most"
        );
        assert_eq!(
            refused(EN, &areas(&[("heavy_carbon", 160.0)]), "land_1"),
            "Cylinder 3, piston · top land, heavy carbon: 160 is not a percentage. Allowed is 0 to 100"
        );
        assert_eq!(
            refused(
                EN,
                &Look::State(StateId::new("bent").unwrap()),
                "ring_lands_whole"
            ),
            "Cylinder 3, piston · lands whole: “bent” is not a state of this scale. Allowed are whole, chipped, broken"
        );
        assert_eq!(
            refused(EN, &Look::Count(3), "skirt_wear"),
            "Cylinder 3, piston · skirt wear: this is rated as wear grade, not as count"
        );
        assert_eq!(
            EN.number_error(&parse_number("1,23,4").unwrap_err()),
            "“1,23,4” can be read in more than one way. Leave out what parts the thousands"
        );
    }
}
