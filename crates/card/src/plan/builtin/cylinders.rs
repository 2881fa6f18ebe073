//! Liners, pistons, rings, pins and rods.

use super::{
    engine::Engine,
    gauged::{
        ALUMINIUM_BORE, CLEARANCE, GAP, GROOVE, LINER_BORE, PROTRUSION, RING_MASS, SHAFT, SKIRT,
        STEEL_BORE, WALL, size,
    },
    scales::{
        CONTACT_BARREL, CONTACT_OIL, CONTACT_TAPER, CROSSHATCH, DAMAGED, DEPOSIT, GRADE,
        LAND_DEPOSIT, MOBILITY, POLISHED, STEP, Sheet, WHOLE,
    },
    table::{B, M, NO, PlaceRow, Row, SectionRow, look, part, section},
};
use crate::layout::Liner;

pub(super) fn liners(engine: &Engine) -> SectionRow {
    let mut rows = vec![
        look("crosshatch_thrust", CROSSHATCH, 2.0, M).short(),
        look("crosshatch_anti_thrust", CROSSHATCH, 2.0, M).short(),
        look("polish_top_thrust", POLISHED, 2.0, B).short(),
        look("polish_top_anti_thrust", POLISHED, 2.0, B).short(),
        look("polish_bottom", POLISHED, 1.0, B),
        look("scuffed", DAMAGED, 3.0, M).short(),
        look("scoring", GRADE, 2.0, M),
        look("step", STEP, 1.0, B),
        look("carbon_ring", GRADE, 0.5, NO),
    ];
    if engine.layout.liner == Liner::Wet {
        rows.push(look("coolant_pitting", GRADE, 1.0, NO));
    }
    rows.push(size("bore", LINER_BORE, 2.0, M).short());
    if engine.layout.liner != Liner::ParentBore {
        rows.push(size("protrusion", PROTRUSION, 0.5, NO));
    }
    let liner = engine.cylinders.place("liner", 1.0, rows);
    section("liners", 2.0, [part("liners", 1.0, [liner])])
}

/// Weights of the lands from the crown down, for up to four compression rings and the oil ring.
const LANDS: [(&str, f64); 5] = [
    ("land_1", 2.0),
    ("land_2", 2.0),
    ("land_3", 1.0),
    ("land_4", 0.5),
    ("land_5", 0.5),
];

/// Weights of the grooves from the crown down.
const GROOVES: [(&str, f64); 5] = [
    ("groove_1", 3.0),
    ("groove_2", 2.0),
    ("groove_3", 1.0),
    ("groove_4", 0.5),
    ("groove_5", 0.5),
];

/// Widths of the compression rings' grooves from the crown down.
const GROOVE_WIDTHS: [&str; 4] = [
    "groove_1_width",
    "groove_2_width",
    "groove_3_width",
    "groove_4_width",
];

pub(super) fn pistons(engine: &Engine) -> SectionRow {
    let rings = usize::from(engine.layout.compression_rings) + 1;
    let mut rows: Vec<Row> = Vec::new();
    for (id, weight) in LANDS.iter().take(rings) {
        rows.push(look(id, LAND_DEPOSIT, *weight, NO).short());
    }
    for (n, (id, weight)) in GROOVES.iter().take(rings).enumerate() {
        let row = look(id, DEPOSIT, *weight, NO);
        rows.push(if n == 0 { row.short() } else { row });
    }
    rows.extend([
        look("undercrown", DEPOSIT, 1.0, NO).short(),
        look("cooling_gallery", DEPOSIT, 2.0, NO),
        look("skirt_wear", GRADE, 1.0, M).short(),
        look("skirt_scuffed", DAMAGED, 2.0, M),
        look("pin_bore_wear", GRADE, 1.0, M),
        look("crown", DEPOSIT, 0.25, NO),
        look("ring_lands_whole", WHOLE, 2.0, NO),
        size("skirt_diameter", SKIRT, 1.0, M).beside("skirt_wear"),
        size("pin_bore_diameter", ALUMINIUM_BORE, 1.0, M).beside("pin_bore_wear"),
    ]);
    for (id, _) in GROOVE_WIDTHS.iter().zip(1..rings) {
        rows.push(size(id, GROOVE, 1.0, B));
    }
    let piston = engine.cylinders.place("piston", 1.0, rows);
    section("pistons", 2.0, [part("pistons", 1.0, [piston])])
}

pub(super) fn rings(engine: &Engine) -> SectionRow {
    let compression = [
        ("ring/top", 2.0, CONTACT_BARREL),
        ("ring/second", 1.0, CONTACT_TAPER),
        ("ring/third", 1.0, CONTACT_TAPER),
        ("ring/fourth", 1.0, CONTACT_TAPER),
    ];
    let fitted = usize::from(engine.layout.compression_rings);
    let mut places: Vec<PlaceRow> = compression
        .into_iter()
        .take(fitted)
        .enumerate()
        .map(|(n, (id, weight, contact))| {
            let mut rows = ring(contact, n == 0, n < 2);
            if n == 0 {
                rows.push(size("mass", RING_MASS, 1.0, M).beside("face_wear"));
            }
            engine.cylinders.place(id, weight, rows)
        })
        .collect();
    // Side wear of an oil ring, which its spring sets against both sides, is not graded by eye.
    let oil = ring(CONTACT_OIL, false, false)
        .into_iter()
        .filter(|row| !["side_wear", "side_clearance", "radial_thickness"].contains(&row.id()));
    places.push(engine.cylinders.place("ring/oil", 1.0, oil));
    section("rings", 1.5, [part("rings", 1.0, places)])
}

/// A ring's looks; the short plan keeps mobility of every ring, contact and wear where they tell most.
fn ring(contact: Sheet, short_wear: bool, short_contact: bool) -> Vec<Row> {
    vec![
        look("face_contact", contact, 1.0, M).short_if(short_contact),
        look("face_wear", GRADE, 2.0, M).short_if(short_wear),
        look("face_distress", DAMAGED, 3.0, M),
        look("side_wear", GRADE, 1.0, B),
        look("mobility", MOBILITY, 3.0, NO).short(),
        look("whole", WHOLE, 3.0, NO),
        size("end_gap", GAP, 2.0, M)
            .beside("face_wear")
            .short_if(short_wear),
        size("side_clearance", CLEARANCE, 1.0, B).beside("side_wear"),
        size("radial_thickness", WALL, 1.0, M).beside("face_wear"),
    ]
}

pub(super) fn pins_and_rods(engine: &Engine) -> SectionRow {
    let pin = [
        look("wear", GRADE, 2.0, M).short(),
        look("heat_colour", GRADE, 1.0, M),
        size("diameter", SHAFT, 1.0, M).beside("wear"),
    ];
    let rod = [
        look("bush_wear", GRADE, 2.0, M).short(),
        look("oil_groove_definition", GRADE, 1.0, M),
        // The parting faces, and the bore with the backs of the shells that sat in it.
        look("big_end_fretting", GRADE, 1.0, M),
        size("bush_diameter", STEEL_BORE, 1.0, M).beside("bush_wear"),
        size("big_end_diameter", STEEL_BORE, 0.5, NO),
    ];
    section(
        "pins_and_rods",
        1.0,
        [
            part("pins", 1.0, [engine.cylinders.place("pin", 1.0, pin)]),
            part("rods", 1.0, [engine.cylinders.place("rod", 1.0, rod)]),
        ],
    )
}
