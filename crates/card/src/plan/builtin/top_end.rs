//! Top deck, rocker gear, camshaft, followers, valves.

use super::{
    engine::Engine,
    gauged::{GAP, LOBE_LIFT, SHAFT, STEEL_BORE, size},
    scales::{DAMAGED, DEPOSIT, GRADE, MARKS, OVERLAY, ROLLER, SLUDGE, STEP, VARNISH},
    table::{B, F, M, NO, Row, SectionRow, look, part, section},
};
use crate::layout::Follower;

pub(super) fn top_deck(engine: &Engine) -> SectionRow {
    let sludge = look("sludge", SLUDGE, 2.0, NO);
    let varnish = look("varnish", VARNISH, 1.0, NO);
    let cover = [sludge.clone().short(), varnish.clone().short()];
    let deck = [sludge, varnish];
    section(
        "top_deck",
        0.5,
        [
            part("covers", 1.0, [engine.heads.place("cover", 1.0, cover)]),
            part(
                "head_deck",
                1.0,
                [engine.heads.place("head_deck", 1.0, deck)],
            ),
        ],
    )
}

pub(super) fn rocker_gear(engine: &Engine) -> SectionRow {
    let at_each_rocker = |place: &str, rows: &[Row]| {
        let stations = engine.lobes().into_iter().map(|lobe| {
            let most_loaded = lobe == engine.most_loaded();
            // What carries the most wears the most, so a gauge is put to that one.
            let rows = rows.iter().filter(|row| most_loaded || !row.is_size());
            engine
                .cylinders
                .place(&format!("{place}/{lobe}"), 1.0, rows.cloned())
                .full_only(!most_loaded)
        });
        stations.collect::<Vec<_>>()
    };
    let shaft = [
        look("wear", GRADE, 2.0, B).short(),
        look("step", STEP, 1.0, B),
        size("diameter", SHAFT, 1.0, B).beside("wear"),
    ];
    // One crosshead opens the valves of a kind together, so a kind with one valve has none.
    let crossheads = [
        ("intake", engine.layout.intake_valves),
        ("exhaust", engine.layout.exhaust_valves),
    ]
    .into_iter()
    .filter(|(_, valves)| *valves > 1)
    .map(|(kind, _)| {
        let rows = [look("pad_wear", GRADE, 1.0, B)];
        engine
            .cylinders
            .place(&format!("crosshead/{kind}"), 1.0, rows)
    });
    section(
        "rocker_gear",
        1.5,
        [
            part("rocker_shafts", 1.0, at_each_rocker("rocker_shaft", &shaft)),
            part(
                "rocker_arms",
                2.0,
                at_each_rocker("rocker_arm", &rocker_arm(engine)),
            ),
            part("crossheads", 0.5, crossheads),
        ],
    )
}

/// What a rocker arm shows: the end that is driven, its bearing, and the end that presses.
fn rocker_arm(engine: &Engine) -> Vec<Row> {
    let bush = look("bush_wear", GRADE, 1.0, M);
    let pad = look("pad_wear", GRADE, 2.0, B).short();
    let marks = look("machining_marks", MARKS, 0.5, B);
    match (engine.in_block(), engine.layout.follower) {
        // Driven by a pushrod: the roller or the face is the follower's.
        (true, _) => vec![
            look("socket_wear", GRADE, 1.0, B),
            bush,
            pad,
            marks,
            size("bush_diameter", STEEL_BORE, 1.0, M).beside("bush_wear"),
        ],
        (false, Follower::Roller) => vec![
            look("roller_wear", GRADE, 2.0, B).short(),
            look("roller_turns", ROLLER, 1.0, B),
            bush,
            pad,
            size("roller_diameter", SHAFT, 1.0, B).beside("roller_wear"),
            size("pin_diameter", SHAFT, 1.0, B),
            size("bush_diameter", STEEL_BORE, 1.0, M).beside("bush_wear"),
        ],
        (false, Follower::Sliding) => {
            vec![
                look("face_wear", GRADE, 2.0, B).short(),
                bush,
                pad,
                marks,
                size("bush_diameter", STEEL_BORE, 1.0, M).beside("bush_wear"),
            ]
        }
    }
}

pub(super) fn camshaft(engine: &Engine) -> SectionRow {
    let lobes = engine.lobes().into_iter().map(|lobe| {
        let rows = [
            // In the short plan the grade takes pits in.
            look("wear", GRADE, 2.0, B).short(),
            look("pitted", DAMAGED, 3.0, B),
            size("lift", LOBE_LIFT, 2.0, B).beside("wear"),
        ];
        engine.cylinders.place(&format!("lobe/{lobe}"), 1.0, rows)
    });
    let at_each_bearing = |place: &str, rows: &[Row]| {
        let shafts = engine.camshafts().iter().map(|shaft| {
            let id = format!("{place}{shaft}");
            engine.cam_bearings.place(&id, 1.0, rows.to_vec())
        });
        shafts.collect::<Vec<_>>()
    };
    // A bushing is pulled to be looked at all round, so the short plan takes the journal.
    let journal = [
        look("wear", GRADE, 1.0, F).short(),
        look("scoring", GRADE, 1.0, F),
        size("diameter", SHAFT, 1.0, F).beside("wear"),
    ];
    let bushing = [
        look("wear", GRADE, 1.0, F),
        look("overlay", OVERLAY, 1.0, F),
        size("diameter", STEEL_BORE, 1.0, F).beside("wear"),
    ];
    section(
        "camshaft",
        2.0,
        [
            part("lobes", 3.0, lobes),
            part(
                "cam_journals",
                1.0,
                at_each_bearing("cam_journal", &journal),
            ),
            part(
                "cam_bushings",
                1.0,
                at_each_bearing("cam_bushing", &bushing),
            ),
        ],
    )
}

pub(super) fn followers(engine: &Engine) -> SectionRow {
    let fitted = if engine.in_block() {
        engine.lobes()
    } else {
        Vec::new()
    };
    let follower = match engine.layout.follower {
        Follower::Roller => vec![
            look("roller_wear", GRADE, 2.0, B).short(),
            look("pitted", DAMAGED, 3.0, B),
            look("roller_turns", ROLLER, 1.0, B),
            look("pin_wear", GRADE, 1.0, B),
            size("roller_diameter", SHAFT, 1.0, B).beside("roller_wear"),
            size("pin_diameter", SHAFT, 1.0, B),
        ],
        Follower::Sliding => vec![
            look("face_wear", GRADE, 2.0, B).short(),
            look("pitted", DAMAGED, 3.0, B),
            // Nothing is rated by eye on the stem.
            size("stem_diameter", SHAFT, 1.0, B),
        ],
    };
    let at_each_lobe = |place: &str, rows: &[Row]| {
        let stations = fitted.iter().map(|lobe| {
            let id = format!("{place}/{lobe}");
            engine.cylinders.place(&id, 1.0, rows.to_vec())
        });
        stations.collect::<Vec<_>>()
    };
    let pushrod = [look("tip_wear", GRADE, 1.0, B)];
    section(
        "followers",
        1.0,
        [
            part("followers", 2.0, at_each_lobe("follower", &follower)),
            part("pushrods", 0.5, at_each_lobe("pushrod", &pushrod)),
        ],
    )
}

pub(super) fn valves(engine: &Engine) -> SectionRow {
    let stem = look("stem_wear", GRADE, 1.0, B).short();
    let seat = look("seat_wear", GRADE, 1.0, B);
    // Oil that passes the guide bakes on the back of the intake valve; exhaust gas scours its own.
    let tulip = look("tulip_deposit", DEPOSIT, 0.5, NO);
    let guide = look("guide_wear", GRADE, 1.0, B);
    let read = || {
        [
            size("stem_diameter", SHAFT, 1.0, B).beside("stem_wear"),
            size("guide_diameter", STEEL_BORE, 1.0, B).beside("guide_wear"),
            size("seat_recession", GAP, 1.0, B).beside("seat_wear"),
        ]
    };
    let intake = [stem.clone(), seat.clone(), tulip, guide.clone()];
    let intake: Vec<Row> = intake.into_iter().chain(read()).collect();
    let exhaust: Vec<Row> = [stem, seat, guide].into_iter().chain(read()).collect();
    section(
        "valves",
        0.75,
        [part(
            "valves",
            1.0,
            [
                engine
                    .cylinders
                    .place("valve/intake", 1.0, intake)
                    .full_only(true),
                engine.cylinders.place("valve/exhaust", 1.0, exhaust),
            ],
        )],
    )
}
