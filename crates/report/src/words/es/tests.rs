//! Spanish, by example.

use ringland_card::{
    Areas, At, CharacteristicId, Grade, Layout, LevelId, Look, LookError, NotInspected, PlanIndex,
    PositionId, StateId, Timestamp,
    look::{check_look, scale_at},
    plan::{Depth, LeafId, builtin},
};

use crate::{
    format::{
        DistanceUnit, NBSP, Reading, TemperatureUnit, UnitPrefs, VolumeUnit, parse_number,
        parse_quantity,
    },
    words::{Words, capitalised},
};

const EN: &Words = &Words::ENGLISH;
const ES: &Words = &Words::SPANISH;

/// What both languages write the same: names of the program and of keys, signs, formulas, and words
/// that are the same word.
const SAME: [&str; 32] = [
    "Ringland",
    "No",
    "Plan",
    "plan",
    "Factor",
    "factor",
    "{field}, {what}",
    "{what}: {field} {from} → {to}",
    "{who}, {when}",
    "{field}: {value}",
    "{what}: {look}",
    "{date}, {time}",
    "{place}: {why}",
    "null",
    "± {u}",
    "V{n}",
    "S",
    "W",
    "N",
    "C",
    "R",
    "H",
    "/",
    "U",
    "Y",
    "Esc",
    "Enter",
    "u",
    "metal",
    "vertical",
    "horizontal",
    "{where_}, {spot}: {said}",
];

/// Each word and each term in English and in Spanish.
fn pairs() -> Vec<(String, &'static str, &'static str)> {
    let mut pairs: Vec<_> = EN
        .all()
        .into_iter()
        .zip(ES.all())
        .map(|((group, en), (_, es))| (format!("{group}.{}", en.name), en.text, es.text))
        .collect();
    let terms = EN.terms.texts().into_iter().zip(ES.terms.texts());
    pairs.extend(terms.map(|((name, en), (_, es))| (name, en, es)));
    pairs
}

#[test]
fn every_word_is_spanish() {
    let same: Vec<_> = pairs().into_iter().filter(|(_, en, es)| en == es).collect();
    let left: Vec<_> = same.iter().filter(|(.., es)| !SAME.contains(es)).collect();
    assert!(left.is_empty(), "{left:#?}");
    let idle: Vec<_> = SAME
        .iter()
        .filter(|listed| !same.iter().any(|(.., es)| es == *listed))
        .collect();
    assert!(idle.is_empty(), "listed for nothing: {idle:?}");
}

/// RAE and ASALE, *Ortografía de la lengua española* (2010): question and exclamation marks come in
/// pairs, quotes are «angular» first; a figure and `%` stand apart, with a space that does not break.
#[test]
fn the_signs_are_spanish() {
    for (name, _, es) in pairs() {
        let at = format!("{name}: {es}");
        assert_eq!(es.matches('«').count(), es.matches('»').count(), "{at}");
        assert!(!es.contains(['“', '”', '"', '\'', '’', '!']), "{at}");
        assert!(
            !es.contains(" %") && !es.contains("0%") && !es.contains("5%"),
            "{at}"
        );
        let asked = es
            .split('{')
            .map(|part| part.split_once('}').map_or(part, |(_, text)| text));
        let asked: String = asked.collect();
        assert_eq!(
            asked.matches('¿').count(),
            asked.matches('?').count(),
            "{at}"
        );
    }
}

/// A value that is put in has a gender and a number of its own, so nothing may contract or agree with
/// it: no *del {x}*, *al {x}*, *el {x}*, *la {x}*.
#[test]
fn nothing_has_to_agree_with_a_value() {
    // A day of the month is masculine: *del 9 al 24*.
    for (name, _, es) in pairs()
        .into_iter()
        .filter(|(name, ..)| name != "dates.days")
    {
        for article in ["del", "al", "el", "la", "los", "un", "una"] {
            let before = format!(" {article} {{");
            assert!(!format!(" {es}").contains(&before), "{name}: {es}");
        }
    }
}

#[test]
fn plural_forms_are_right() {
    assert_eq!(ES.facts.n_ratings(1), "1 evaluación");
    assert_eq!(ES.facts.n_ratings(0), "0 evaluaciones");
    assert_eq!(ES.facts.n_ratings(695), "695 evaluaciones");
    assert_eq!(
        ES.shelf.merged(1, "Tarn 14"),
        "1 anotación nueva de Tarn 14"
    );
    assert_eq!(
        ES.shelf.merged(2, "Tarn 14"),
        "2 anotaciones nuevas de Tarn 14"
    );
    assert_eq!(ES.files.stopped(1), "Se detuvo: queda 1");
    assert_eq!(ES.files.stopped(7), "Se detuvo: quedan 7");
    assert_eq!(
        ES.card.plan_outside(1),
        "1 observación o lectura de un plan anterior no tiene lugar en este: se conserva, no se puntúa"
    );
    assert_eq!(
        ES.card.plan_outside(3),
        "3 observaciones y lecturas de un plan anterior no tienen lugar en este: se conservan, no se puntúan"
    );
    assert_eq!(ES.pad.row_alike(1), "Toda la fila igual: 1 pendiente");
    assert_eq!(ES.pad.row_alike(5), "Toda la fila igual: 5 pendientes");
}

#[test]
fn grades_read_well() {
    assert_eq!(ES.grade(Grade::TraceToLight), "Traza a leve");
    assert_eq!(ES.grade(Grade::HeavyToSevere), "Fuerte a severo");
    assert_eq!(ES.grade(Grade::None), "Nulo");
}

/// RAE and ASALE, *Ortografía de la lengua española* (2010), VIII: day, month and year in this order,
/// joined by *de*; the month in small letters; the year without a sign among its digits.
#[test]
fn dates_read_well() {
    let at: Timestamp = "2026-11-24T12:22:07Z".parse().unwrap();
    assert_eq!(ES.date(at, 0), "24 de noviembre de 2026");
    assert_eq!(ES.date_time(at, 12 * 60), "25 de noviembre de 2026, 00:22");
    let days = |first: &str| ES.days(first.parse().unwrap(), at, 0);
    assert_eq!(days("2026-11-24T01:00:00Z"), "24 de noviembre de 2026");
    assert_eq!(
        days("2026-11-09T01:00:00Z"),
        "del 9 al 24 de noviembre de 2026"
    );
    assert_eq!(
        days("2026-10-09T01:00:00Z"),
        "del 9 de octubre al 24 de noviembre de 2026"
    );
    assert_eq!(
        days("2025-12-31T01:00:00Z"),
        "del 31 de diciembre de 2025 al 24 de noviembre de 2026"
    );
}

#[test]
fn quantities_read_well() {
    let (metric, mixed) = (
        UnitPrefs::default(),
        UnitPrefs {
            distance: DistanceUnit::Mile,
            volume: VolumeUnit::UsGallon,
            temperature: TemperatureUnit::Fahrenheit,
            ..UnitPrefs::default()
        },
    );
    let es = ES.numbers;
    assert_eq!(
        es.distance_m(812_400_000.0, metric),
        "812\u{202f}400\u{a0}km"
    );
    assert_eq!(es.distance_m(9_400_000.0, metric), "9400\u{a0}km");
    assert_eq!(
        es.distance_m(804_672_000.0, mixed),
        "500\u{202f}000\u{a0}mi"
    );
    assert_eq!(es.volume_m3(0.0379, metric), "37,9\u{a0}L");
    assert_eq!(es.hours_s(14_930.0 * 3600.0), "14\u{202f}930\u{a0}h");
    assert_eq!(es.percent(27.777), "27,8\u{a0}%");
    assert_eq!(es.share(0.3), "30\u{a0}%");
    assert_eq!(es.plus_minus(0.4), "±\u{a0}0,4");
}

/// What is shown in a field is read back as the same figure.
#[test]
fn what_is_shown_can_be_typed() {
    let es = ES.numbers;
    for value in [0.0, 0.5, 12.345, 1234.5, 9999.0, 14_930.25, 812_400.0] {
        assert_eq!(parse_number(&es.plain(value)), Ok(value));
        let shown = [&es.short(value, 6), NBSP, "km"].concat();
        let read = parse_quantity(&shown, Reading::Plain);
        assert_eq!(read, Ok((value, "km")), "{shown}");
    }
    let (distance, unit) = DistanceUnit::Mile.parse("812 400 kilómetros").unwrap();
    assert_eq!(unit, DistanceUnit::Kilometre);
    let shown = es.distance(distance, UnitPrefs::default());
    assert_eq!(DistanceUnit::Mile.parse(&shown).unwrap(), (distance, unit));
}

#[test]
fn positions_have_names() {
    let mut names = Vec::new();
    for layout in [Layout::inline_six(), Layout::vee_eight()] {
        let plan = builtin(&layout, Depth::Full).unwrap();
        let index = PlanIndex::of(&plan);
        for leaf in 0..index.leaves().len() {
            names.push(ES.leaf(&plan, &index, LeafId(leaf)).unwrap());
        }
    }
    for name in [
        "Cilindro 3, primer segmento · desgaste cara",
        "Cilindro 3, camisa · pulido sup., empuje",
        "Bancada 5, semicojinete inferior · capa",
        "Cilindro L2, leva de escape · desgaste",
        "Cilindro 6, semicojinete superior de biela · surcos",
        "Apoyo de levas 7, casquillo · desgaste",
        "Pista de retén, detrás · surco",
        "Engranaje, cigüeñal · dientes",
        "Rotor de turbocompresor 1 · cojinetes",
        "Muñequilla 2 · desgaste",
        "Bomba de aceite · rayado",
        "Tapa · lodo",
    ] {
        assert!(
            names.iter().any(|known| known == name),
            "{name} is not among {names:#?}"
        );
    }
}

#[test]
fn caps_read_well() {
    let plan = builtin(&Layout::inline_six(), Depth::Full).unwrap();
    let rules: Vec<String> = plan
        .caps
        .iter()
        .map(|rule| ES.cap_rule(&plan, rule))
        .collect();
    for rule in [
        "Área picada, más de 10\u{a0}%, en Levas: Árbol de levas, 5,0 como máximo",
        "Movilidad del segmento, pegado en caliente, en Segmentos: Segmentos, 4,0 como máximo",
    ] {
        assert!(
            rules.iter().any(|known| known == rule),
            "{rule} is not among {rules:#?}"
        );
    }
}

#[test]
fn layouts_read_well() {
    assert_eq!(ES.layout(&Layout::inline_six()), "6 en línea");
    assert_eq!(ES.layout(&Layout::vee_eight()), "V8");
    let whole = capitalised(&ES.layout_whole(&Layout::inline_six()));
    assert!(
        whole.starts_with("6 en línea, árbol de levas en culata, "),
        "{whole}"
    );
}

fn areas(shares: &[(&str, f64)]) -> Look {
    Look::Areas(Areas {
        shares: shares
            .iter()
            .map(|(id, share)| (LevelId::new(id).unwrap(), *share))
            .collect(),
        painted: Vec::new(),
        read_off: None,
    })
}

#[test]
fn looks_are_said() {
    let plan = builtin(&Layout::inline_six(), Depth::Full).unwrap();
    let scale = |id: &str| {
        let mut scales = plan.scales.iter();
        scales.find(|(known, _)| known.as_str() == id).unwrap().1
    };
    let said = ES.look(
        &areas(&[("amber_lacquer", 20.0), ("heavy_carbon", 27.5)]),
        scale("deposit"),
    );
    assert_eq!(
        said,
        "carbonilla gruesa 27,5\u{a0}%, laca ámbar 20\u{a0}%, limpio 52,5\u{a0}%"
    );
    assert_eq!(ES.look(&areas(&[]), scale("deposit")), "todo limpio");
    let grade = Look::Grade(Grade::LightToMedium);
    assert_eq!(ES.look(&grade, scale("grade")), "leve a medio");
    let stuck = Look::State(StateId::new("cold_stuck").unwrap());
    assert_eq!(ES.look(&stuck, scale("mobility")), "pegado en frío");
    let not = Look::NotInspected(NotInspected::OutOfReach);
    assert_eq!(
        ES.look(&not, scale("grade")),
        "sin inspeccionar: fuera de alcance"
    );
}

#[test]
fn errors_say_where_and_what_is_allowed() {
    let plan = builtin(&Layout::inline_six(), Depth::Full).unwrap();
    let index = PlanIndex::of(&plan);
    let refused = |look: &Look, characteristic: &str| {
        let at = At {
            position: PositionId::new("cyl3/piston").unwrap(),
            characteristic: CharacteristicId::new(characteristic).unwrap(),
        };
        let scale = scale_at(&plan, &index, &at).unwrap();
        let error: LookError = check_look(&at, scale, look).unwrap_err();
        ES.look_error(&plan, &error)
    };
    assert_eq!(
        refused(
            &areas(&[("heavy_carbon", 60.0), ("light_carbon", 50.0)]),
            "land_1"
        ),
        "Cilindro 3, pistón · meseta 1: las partes suman 110\u{a0}%. Se admite 100\u{a0}% como máximo"
    );
    assert_eq!(
        refused(
            &Look::State(StateId::new("bent").unwrap()),
            "ring_lands_whole"
        ),
        "Cilindro 3, pistón · integridad: «bent» no es un estado de esta escala. Se admiten entero, mellado, roto"
    );
    assert_eq!(
        refused(&Look::Count(3), "skirt_wear"),
        "Cilindro 3, pistón · falda, desgaste: esto se evalúa como grado de desgaste, no como cantidad"
    );
    let layout = Layout {
        cylinders: 7,
        ..Layout::vee_eight()
    };
    assert_eq!(
        ES.layout_error(&layout.check().unwrap_err()),
        "Cilindros: 7 no es posible. Se admite un número par de 4 a 24 para una V"
    );
    let layout = Layout {
        mains: 1,
        ..Layout::inline_six()
    };
    assert_eq!(
        ES.layout_error(&layout.check().unwrap_err()),
        "Cojinetes de bancada: 1 no es posible. Se admite 2 a 25"
    );
    assert_eq!(
        ES.number_error(&parse_number("1,23,4").unwrap_err()),
        "«1,23,4» se puede leer de más de una manera. Escribirlo sin lo que separa los millares"
    );
}
