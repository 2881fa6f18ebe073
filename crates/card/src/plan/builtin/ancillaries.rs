//! Oil system, turbocharger, seals and breather.

use super::{
    engine::{Engine, named, single},
    gauged::{CLEARANCE, size},
    scales::{BLOCKED, DEPOSIT, GRADE, LEAK, SLUDGE},
    table::{F, NO, SectionRow, look, part, section},
};

pub(super) fn oil_system(_engine: &Engine) -> SectionRow {
    let one = |id, weight, row| part(id, weight, [single().place(id, 1.0, [row])]);
    section(
        "oil_system",
        0.75,
        [
            one("oil_pump", 1.0, look("scoring", GRADE, 1.0, NO).short()),
            one("sump", 1.0, look("sludge", SLUDGE, 1.0, NO).short()),
            one("pick_up", 0.5, look("screen_blocked", BLOCKED, 1.0, NO)),
            one("oil_cooler", 0.5, look("deposit", GRADE, 1.0, NO)),
            one(
                "oil_filter",
                1.0,
                look("metal_in_pleats", GRADE, 1.0, NO).short(),
            ),
        ],
    )
}

pub(super) fn turbocharger(engine: &Engine) -> SectionRow {
    let rotor = [
        look("bearing_wear", GRADE, 2.0, F).short(),
        look("wheel_damage", GRADE, 1.0, NO),
        size("axial_play", CLEARANCE, 1.0, F)
            .beside("bearing_wear")
            .short(),
        size("radial_play", CLEARANCE, 1.0, F)
            .beside("bearing_wear")
            .short(),
    ];
    let housing = [
        look("coking", DEPOSIT, 2.0, NO),
        look("leakage", LEAK, 1.0, NO),
    ];
    section(
        "turbocharger",
        0.75,
        [part(
            "turbochargers",
            1.0,
            [
                engine.turbochargers.place("rotor", 1.0, rotor),
                engine.turbochargers.place("housing", 1.0, housing),
            ],
        )],
    )
}

pub(super) fn seals(_engine: &Engine) -> SectionRow {
    let seal = [
        look("hardening", GRADE, 1.0, NO),
        look("leakage", LEAK, 1.0, NO),
    ];
    let breather = [look("sludge", SLUDGE, 1.0, NO)];
    section(
        "seals",
        0.25,
        [
            part(
                "crank_seals",
                1.0,
                [named(["front", "rear"]).place("seal", 1.0, seal)],
            ),
            part("breather", 1.0, [single().place("breather", 1.0, breather)]),
        ],
    )
}
