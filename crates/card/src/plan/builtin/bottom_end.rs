//! Rod bearings, main bearings, crankshaft, gear train.

use super::{
    engine::{Engine, named, single},
    gauged::{CLEARANCE, IRON_BORE, JOURNAL, WALL, size},
    scales::{DAMAGED, GRADE, OVERLAY, TRACKS},
    table::{B, F, M, NO, Row, SectionRow, look, part, section},
};

/// The half of a bearing that carries the load: the upper of a rod, the lower of a main.
fn loaded_shell() -> Vec<Row> {
    vec![
        look("overlay", OVERLAY, 2.0, F).short(),
        look("wear", GRADE, 2.0, F).short(),
        look("tracks", TRACKS, 1.0, F).short(),
        look("embedment", GRADE, 1.0, F),
        look("wiping", GRADE, 3.0, F),
        look("fatigued", DAMAGED, 3.0, F),
        look("corrosion", GRADE, 1.0, F),
        size("wall_thickness", WALL, 1.0, F).beside("wear"),
    ]
}

/// The other half.
fn other_shell() -> Vec<Row> {
    vec![
        look("overlay", OVERLAY, 2.0, F),
        look("wiping", GRADE, 3.0, F),
    ]
}

pub(super) fn rod_bearings(engine: &Engine) -> SectionRow {
    section(
        "rod_bearings",
        2.0,
        [part(
            "rod_shells",
            1.0,
            [
                engine.cylinders.place("shell/upper", 2.0, loaded_shell()),
                engine.cylinders.place("shell/lower", 1.0, other_shell()),
            ],
        )],
    )
}

pub(super) fn main_bearings(engine: &Engine) -> SectionRow {
    let mut lower = loaded_shell();
    lower.push(look("back_fretting", GRADE, 0.5, M));
    let housing = [size("bore", IRON_BORE, 1.0, NO)];
    let washer = [
        look("wear", GRADE, 1.0, F).short(),
        look("overlay", OVERLAY, 1.0, F),
    ];
    section(
        "main_bearings",
        2.0,
        [
            part(
                "main_shells",
                1.0,
                [
                    engine.mains.place("shell/upper", 1.0, other_shell()),
                    engine.mains.place("shell/lower", 2.0, lower),
                    engine.mains.place("main_bore", 0.5, housing),
                ],
            ),
            part(
                "thrust_washers",
                1.0,
                [named(["front", "rear"]).place("thrust_washer", 1.0, washer)],
            ),
        ],
    )
}

pub(super) fn crankshaft(engine: &Engine) -> SectionRow {
    let journal = [
        look("wear", GRADE, 2.0, F).short(),
        look("scoring", GRADE, 2.0, F),
        look("heat_colour", GRADE, 1.0, F),
        size("diameter", JOURNAL, 2.0, F).beside("wear"),
        // Bore less journal, or by plastic strip.
        size("oil_clearance", CLEARANCE, 2.0, F).short(),
    ];
    let float = [size("end_float", CLEARANCE, 1.0, F).short()];
    let land = [look("seal_groove", GRADE, 1.0, B)];
    section(
        "crankshaft",
        1.5,
        [
            part(
                "rod_journals",
                1.0,
                [engine.crank_pins.place("rod_journal", 1.0, journal.clone())],
            ),
            part(
                "main_journals",
                1.0,
                // Less loaded than the rod journals, and hidden while the crankshaft stays in the block.
                [engine
                    .mains
                    .place("main_journal", 1.0, journal)
                    .full_only(true)],
            ),
            part(
                "crank_float",
                0.5,
                [single().place("crank_float", 1.0, float)],
            ),
            part(
                "seal_lands",
                0.25,
                [named(["front", "rear"]).place("seal_land", 1.0, land)],
            ),
        ],
    )
}

pub(super) fn gear_train(engine: &Engine) -> SectionRow {
    let gear = [
        look("tooth_wear", GRADE, 1.0, M).short(),
        look("pitted", DAMAGED, 2.0, M),
        size("backlash", CLEARANCE, 1.0, M).beside("tooth_wear"),
    ];
    let train = ["crank".to_owned(), "idler".to_owned()]
        .into_iter()
        .chain(engine.cam_gears());
    let drives = named(["oil_pump", "fuel_pump", "compressor"]);
    section(
        "gear_train",
        0.75,
        [part(
            "gears",
            1.0,
            [
                named(train).place("gear", 1.0, gear.clone()),
                drives.place("drive_gear", 1.0, gear).full_only(true),
            ],
        )],
    )
}
