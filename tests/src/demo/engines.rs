//! The seven engines: what each is, what it did, and what went wrong with it. All of it is invented.

use ringland_card::{
    Cause::{self, Assembly, Coolant, Dirt, Fuel},
    Depth, Layout,
    NotInspected::{self, Cleaned, Damaged, LeftAssembled, Missing, NoTime, OutOfReach, SentAway},
};

use super::{
    fleet::{
        Day,
        Effect::{self, Is, Times},
        Engine, Finding, Gauging, Instead, Model, Oil, Remark, Slip, Unseen,
    },
    gauges::{FEELER, INCH_MICROMETER, Tool},
    rater::Rater,
};

/// Whose the engines are.
pub(super) const FLEET: &str = "Tarn Ferries, haulage and buses";

// Boundary, film, deposit, sludge, age.
static OIL_A: Oil = Oil {
    name: "Trial oil A",
    grade: "15W-40",
    category: "CK-4",
    effect: [0.0, 0.0, 0.0, 0.0, 0.0],
};
// Thinner: a little more wear where asperities carry, and in the shells; cleaner pistons.
static OIL_B: Oil = Oil {
    name: "Trial oil B",
    grade: "10W-30",
    category: "CK-4",
    effect: [0.05, 0.06, -0.14, -0.04, 0.0],
};

static INES: Rater = Rater {
    name: "I. Marrow",
    stream: 101,
    bias: 0.0,
    scatter: 0.4,
};
static TOMASZ: Rater = Rater {
    name: "T. Oyelade",
    stream: 102,
    bias: 0.4,
    scatter: 0.5,
};
static RUTH: Rater = Rater {
    name: "R. Calder-Singh",
    stream: 103,
    bias: -0.15,
    scatter: 0.4,
};

/// A common-rail six: the cams work valves only.
fn common_rail_six() -> Layout {
    Layout {
        injector_lobes: false,
        ..Layout::inline_six()
    }
}

static SIX: Model = Model {
    name: "12.8-litre inline six, unit injectors",
    column: 0,
};

static BUS_SIX: Model = Model {
    name: "10.6-litre inline six, common rail",
    column: 1,
};

static VEE: Model = Model {
    name: "16.1-litre V8, pushrods",
    column: 2,
};

const QUAY: &str = "Ullenfirth quay workshop";
const PASS: &str = "Skeldrow bus depot";

const fn day(of_month: i64, hour: i64, minute: i64, section: &'static str) -> Day {
    Day {
        of_month,
        hour,
        minute,
        section,
    }
}

const fn unseen(at: &'static str, look: &'static str, reason: NotInspected) -> Unseen {
    Unseen { at, look, reason }
}

const fn second_thought(at: &'static str, look: &'static str, off: f64) -> Slip {
    Slip {
        at,
        look,
        off,
        void: None,
    }
}

const fn instead(at: &'static str, look: &'static str, tool: &'static Tool) -> Instead {
    Instead { at, look, tool }
}

/// Measured whole, by one, with the usual gauges.
const GAUGING: Gauging = Gauging {
    day: day(1, 0, 0, ""),
    part_c: 20.0,
    stops_at: None,
    again: &[],
    with: &[],
    worn: &[],
    unread: &[],
    slips: &[],
};

const fn remark(at: &'static str, look: &'static str, text: &'static str) -> Remark {
    Remark { at, look, text }
}

const fn found(at: &'static str, look: &'static str, effect: Effect) -> Finding {
    Finding {
        at,
        look,
        effect,
        cause: None,
    }
}

const fn caused(cause: Cause, at: &'static str, look: &'static str, effect: Effect) -> Finding {
    Finding {
        at,
        look,
        effect,
        cause: Some(cause),
    }
}

pub(super) static ENGINES: [Engine; 7] = [
    Engine {
        slug: "tarn-14",
        stream: 145,
        layout: Layout::inline_six,
        depth: Depth::Full,
        name: "Tarn 14",
        vehicle: "Tractor 14, four-by-two",
        model: &SIX,
        serial: "UF-128-20417",
        site: QUAY,
        duty: "Container trailers, quay to inland yard, one hill",
        distance_km: 612_000.0,
        hours: 11_240.0,
        fuel_l: 196_000.0,
        oil: &OIL_A,
        drain_km: 60_000.0,
        sump_l: 36.0,
        reason: "End of its trial distance; ran well",
        duty_effect: [0.0; 5],
        raters: &[&INES],
        days: &[day(3, 7, 40, "top_deck"), day(4, 7, 25, "rod_bearings")],
        until: None,
        findings: &[],
        unseen: &[
            unseen("cyl2/piston", "cooling_gallery", SentAway),
            unseen("cyl5/piston", "cooling_gallery", SentAway),
            unseen("oil_filter", "", Missing),
            unseen("turbo1/housing", "coking", LeftAssembled),
        ],
        slips: &[
            second_thought("cyl3/ring/top", "face_wear", 1.0),
            second_thought("cyl4/shell/upper", "overlay", 15.0),
            Slip {
                at: "cyl5/lobe/exhaust",
                look: "wear",
                off: 5.0,
                void: Some(
                    "Read against the wrong lobe: this was the light on the old shaft beside it",
                ),
            },
        ],
        remarks: &[
            remark(
                "cyl6/liner",
                "",
                "Bore still shows the hone all the way down on the anti-thrust side.",
            ),
            remark(
                "",
                "",
                "Pistons 2 and 5 went to the laboratory whole, to have the galleries cut open.",
            ),
        ],
        gauging: Gauging {
            day: day(6, 7, 30, ""),
            part_c: 17.5,
            worn: &[
                found("cyl6/valve/exhaust", "guide_diameter", Times(2.2)),
                found("cyl*/pin", "diameter", Times(0.3)),
            ],
            unread: &[
                unseen("cyl2/piston", "", SentAway),
                unseen("cyl5/piston", "", SentAway),
            ],
            slips: &[("cyl4/liner", "bore")],
            ..GAUGING
        },
    },
    Engine {
        slug: "tarn-17",
        stream: 170,
        layout: Layout::inline_six,
        depth: Depth::Full,
        name: "Tarn 17",
        vehicle: "Tractor 17, four-by-two",
        model: &SIX,
        serial: "UF-128-20431",
        site: QUAY,
        duty: "Container trailers, quay to inland yard, one hill",
        distance_km: 598_000.0,
        hours: 10_930.0,
        fuel_l: 187_500.0,
        oil: &OIL_B,
        drain_km: 60_000.0,
        sump_l: 36.0,
        reason: "End of its trial distance; ran well",
        duty_effect: [0.0; 5],
        raters: &[&INES, &TOMASZ],
        days: &[day(9, 7, 45, "top_deck"), day(10, 7, 30, "pins_and_rods")],
        until: None,
        findings: &[],
        unseen: &[
            unseen("cyl1/piston", "cooling_gallery", SentAway),
            unseen("cam4/cam_bushing", "", OutOfReach),
            unseen("seal/rear", "hardening", Damaged),
        ],
        slips: &[
            second_thought("cyl2/liner", "polish_top_thrust", 5.0),
            second_thought("main4/shell/lower", "wear", 1.0),
        ],
        remarks: &[
            remark(
                "main4/shell/lower",
                "overlay",
                "Bright band in the middle third; the overlay is thin there, not gone.",
            ),
            remark(
                "",
                "",
                "Rated by two of us on two tablets, without looking at each other's.",
            ),
        ],
        gauging: Gauging {
            day: day(11, 7, 30, ""),
            unread: &[
                unseen("main*/main_bore", "", NoTime),
                unseen("cyl*/rod", "big_end_diameter", NoTime),
            ],
            part_c: 18.5,
            again: &[
                "cyl1/liner",
                "cyl3/ring/top",
                "cyl5/piston",
                "main4/main_journal",
            ],
            worn: &[found("cyl5/piston", "pin_bore_diameter", Is(34.0))],
            ..GAUGING
        },
    },
    Engine {
        slug: "tarn-21",
        stream: 21,
        layout: Layout::inline_six,
        depth: Depth::Full,
        name: "Tarn 21",
        vehicle: "Tractor 21, six-by-two",
        model: &SIX,
        serial: "UF-128-20502",
        site: QUAY,
        duty: "Refrigerated trailers, long legs by night, idling at the quay",
        distance_km: 688_000.0,
        hours: 13_900.0,
        fuel_l: 231_000.0,
        oil: &OIL_B,
        drain_km: 90_000.0,
        sump_l: 36.0,
        reason: "Knocking at the top end, and iron rising in the oil",
        duty_effect: [0.08, 0.06, 0.04, 0.15, 0.0],
        raters: &[&RUTH],
        days: &[day(12, 8, 5, "top_deck"), day(13, 7, 50, "rings")],
        until: None,
        findings: &[
            found("cyl4/lobe/injector", "wear", Is(6.4)),
            found("cyl4/lobe/injector", "pitted", Is(15.0)),
            found("cyl4/rocker_arm/injector", "roller_wear", Is(6.0)),
            found("cyl4/rocker_arm/injector", "roller_turns", Is(1.0)),
            found("cyl4/rocker_arm/injector", "bush_wear", Is(4.2)),
            found("cyl3/lobe/injector", "pitted", Is(2.0)),
            found("cyl5/lobe/injector", "pitted", Is(1.0)),
            found("oil_filter", "metal_in_pleats", Is(5.0)),
        ],
        unseen: &[
            unseen("cyl6/piston", "cooling_gallery", OutOfReach),
            unseen("turbo1/housing", "coking", SentAway),
        ],
        slips: &[
            second_thought("cyl4/lobe/injector", "pitted", -5.0),
            second_thought("cyl1/ring/second", "face_contact", 10.0),
        ],
        remarks: &[
            remark(
                "cyl4/lobe/injector",
                "pitted",
                "Pits join up along the opening flank; edges are sharp to the nail. The roller has the mirror of it.",
            ),
            remark(
                "oil_filter",
                "",
                "Bright flakes in the first pleats, magnetic.",
            ),
        ],
        gauging: Gauging {
            day: day(16, 7, 40, ""),
            unread: &[
                unseen("main*/main_bore", "", NoTime),
                unseen("cyl*/rod", "big_end_diameter", NoTime),
            ],
            part_c: 19.0,
            worn: &[found("cyl4/lobe/injector", "lift", Is(212.0))],
            slips: &[("main2/main_journal", "diameter")],
            ..GAUGING
        },
    },
    Engine {
        slug: "tarn-22",
        stream: 22,
        layout: Layout::inline_six,
        depth: Depth::Full,
        name: "Tarn 22",
        vehicle: "Tractor 22, six-by-two",
        model: &SIX,
        serial: "UF-128-20509",
        site: QUAY,
        duty: "Refrigerated trailers, long legs by night, idling at the quay",
        distance_km: 655_000.0,
        hours: 13_310.0,
        fuel_l: 224_000.0,
        oil: &OIL_A,
        drain_km: 90_000.0,
        sump_l: 36.0,
        reason: "Silicon and lead high in two samples running",
        duty_effect: [0.04, 0.06, 0.04, 0.15, 0.0],
        raters: &[&TOMASZ],
        days: &[day(17, 7, 35, "top_deck"), day(18, 7, 40, "pins_and_rods")],
        until: None,
        findings: &[
            caused(Dirt, "cyl*/shell/upper", "tracks", Times(4.5)),
            caused(Dirt, "cyl*/shell/upper", "embedment", Times(3.0)),
            caused(Dirt, "cyl*/shell/upper", "wear", Times(1.6)),
            caused(Dirt, "main*/shell/lower", "tracks", Times(5.0)),
            caused(Dirt, "main*/shell/lower", "embedment", Times(3.2)),
            caused(Dirt, "main*/shell/lower", "wear", Times(1.6)),
            caused(Dirt, "cyl*/ring/top", "face_wear", Times(1.5)),
            caused(Dirt, "cyl*/rod_journal", "scoring", Times(2.2)),
            caused(Dirt, "cyl6/shell/upper", "overlay", Is(70.0)),
            caused(Dirt, "cyl6/shell/upper", "wiping", Is(6.2)),
            caused(Dirt, "cyl6/rod_journal", "scoring", Is(5.0)),
            caused(Dirt, "cyl1/ring/top", "face_distress", Is(6.0)),
            caused(Dirt, "cyl2/ring/top", "face_distress", Is(3.0)),
            caused(Dirt, "cyl1/liner", "scoring", Is(5.0)),
            caused(Dirt, "cyl2/liner", "scoring", Is(4.0)),
            caused(Dirt, "main*/main_journal", "scoring", Times(2.2)),
            caused(Dirt, "oil_pump", "scoring", Is(4.6)),
            caused(Assembly, "main6/shell/lower", "back_fretting", Is(6.0)),
            caused(Coolant, "cyl5/liner", "coolant_pitting", Is(6.0)),
        ],
        unseen: &[
            unseen("cyl3/piston", "cooling_gallery", SentAway),
            unseen("gear/idler", "", LeftAssembled),
            unseen("head_deck", "", Cleaned),
        ],
        slips: &[
            second_thought("main3/shell/lower", "tracks", -4.0),
            Slip {
                at: "cyl2/shell/upper",
                look: "tracks",
                off: 9.0,
                void: Some("Counted the same tracks on both halves"),
            },
        ],
        remarks: &[
            remark(
                "cyl1/shell/upper",
                "",
                "Grit in the overlay, hard and clear under the glass: road dirt, not metal.",
            ),
            remark(
                "cyl6/shell/upper",
                "wiping",
                "Grit has ploughed the overlay and the middle has run; the journal matches it.",
            ),
            remark(
                "main6/shell/lower",
                "back_fretting",
                "Back polished in a patch the shape of a thumb: something lay under it when it was fitted.",
            ),
            remark(
                "",
                "",
                "Intake hose behind the air filter had a split on its underside, as long as a finger.",
            ),
        ],
        gauging: Gauging {
            day: day(19, 7, 35, ""),
            part_c: 22.5,
            with: &[
                instead("cyl*/ring/top", "side_clearance", &FEELER),
                instead("cyl*/ring/second", "side_clearance", &FEELER),
            ],
            worn: &[
                caused(Dirt, "cyl1/ring/top", "side_clearance", Is(98.0)),
                // Scored, not thinned.
                caused(Dirt, "cyl5/ring/top", "radial_thickness", Is(6.0)),
                caused(Dirt, "cyl1/liner", "bore", Times(1.7)),
                caused(Dirt, "cyl2/liner", "bore", Times(1.5)),
                caused(Dirt, "cyl6/shell/upper", "wall_thickness", Times(2.2)),
                caused(Dirt, "cyl6/rod_journal", "diameter", Times(1.8)),
                caused(Dirt, "cyl*/rod_journal", "oil_clearance", Times(1.0)),
                caused(Dirt, "main*/main_journal", "oil_clearance", Times(1.0)),
            ],
            ..GAUGING
        },
    },
    Engine {
        slug: "crag-05",
        stream: 5,
        layout: Layout::vee_eight,
        depth: Depth::Full,
        name: "Crag 5",
        vehicle: "Heavy-haul tractor 5, eight-by-four",
        model: &VEE,
        serial: "UF-161-00388",
        site: QUAY,
        duty: "Turbine parts and boat hulls, slow and heavy",
        distance_km: 391_000.0,
        hours: 14_600.0,
        fuel_l: 268_000.0,
        oil: &OIL_A,
        drain_km: 45_000.0,
        sump_l: 42.0,
        reason: "Due for overhaul by hours",
        duty_effect: [0.32, 0.34, 0.28, 0.1, 0.3],
        raters: &[&RUTH],
        days: &[day(5, 7, 55, "top_deck"), day(6, 7, 40, "rings")],
        until: None,
        findings: &[
            found("cylL4/piston", "land_1", Times(1.2)),
            found("cylL4/piston", "groove_1", Times(1.2)),
            found("cylR4/piston", "land_1", Times(1.15)),
            found("cylR4/piston", "groove_1", Times(1.15)),
        ],
        unseen: &[
            unseen("cylL2/piston", "cooling_gallery", OutOfReach),
            unseen("cylR3/piston", "cooling_gallery", OutOfReach),
            unseen("cam3/cam_bushing", "", OutOfReach),
        ],
        slips: &[second_thought("cylR2/follower/exhaust", "roller_wear", 1.0)],
        remarks: &[remark(
            "",
            "",
            "Left bank is the exhaust-manifold side against the cab; it runs hotter and looks it.",
        )],
        gauging: Gauging {
            day: day(9, 7, 45, ""),
            unread: &[
                unseen("main*/main_bore", "", NoTime),
                unseen("cyl*/rod", "big_end_diameter", NoTime),
            ],
            part_c: 18.0,
            with: &[
                instead("throw*/rod_journal", "diameter", &INCH_MICROMETER),
                instead("main*/main_journal", "diameter", &INCH_MICROMETER),
                instead("cyl*/shell/upper", "wall_thickness", &INCH_MICROMETER),
                instead("main*/shell/lower", "wall_thickness", &INCH_MICROMETER),
            ],
            ..GAUGING
        },
    },
    Engine {
        slug: "fell-08",
        stream: 8,
        layout: common_rail_six,
        depth: Depth::Short,
        name: "Fell 8",
        vehicle: "Mountain bus 8",
        model: &BUS_SIX,
        serial: "UF-106-11120",
        site: PASS,
        duty: "Corrifell pass line, eight climbs a day",
        distance_km: 436_000.0,
        hours: 15_800.0,
        fuel_l: 161_000.0,
        oil: &OIL_B,
        drain_km: 45_000.0,
        sump_l: 33.0,
        reason: "White smoke when cold, and fuel in the oil",
        duty_effect: [0.1, 0.08, 0.1, 0.1, 0.1],
        raters: &[&TOMASZ],
        days: &[day(20, 15, 10, "top_deck")],
        until: None,
        findings: &[
            caused(Fuel, "cyl6/piston", "land_1", Times(1.9)),
            caused(Fuel, "cyl6/piston", "land_2", Times(1.9)),
            caused(Fuel, "cyl6/piston", "land_3", Times(1.9)),
            caused(Fuel, "cyl6/piston", "groove_1", Times(1.9)),
            caused(Fuel, "cyl6/ring/top", "mobility", Is(1.0)),
            caused(Fuel, "cyl6/liner", "polish_top_thrust", Times(1.7)),
            caused(Fuel, "cyl6/liner", "crosshatch_thrust", Times(1.7)),
        ],
        unseen: &[
            unseen("gear/idler", "", LeftAssembled),
            unseen("thrust_washer/rear", "", LeftAssembled),
        ],
        slips: &[second_thought("cyl6/piston", "groove_1", -0.2)],
        remarks: &[remark(
            "cyl6/piston",
            "",
            "Carbon is wet and soft on the bowl edge under one spray hole; the nozzle dribbled on the tester.",
        )],
        gauging: Gauging {
            day: day(23, 8, 15, ""),
            part_c: 15.5,
            ..GAUGING
        },
    },
    Engine {
        slug: "fell-03",
        stream: 3,
        layout: common_rail_six,
        depth: Depth::Full,
        name: "Fell 3",
        vehicle: "Mountain bus 3",
        model: &BUS_SIX,
        serial: "UF-106-11087",
        site: PASS,
        duty: "Corrifell pass line, eight climbs a day",
        distance_km: 452_000.0,
        hours: 16_350.0,
        fuel_l: 169_500.0,
        oil: &OIL_A,
        drain_km: 45_000.0,
        sump_l: 33.0,
        reason: "End of its trial distance; ran well",
        duty_effect: [0.1, 0.08, 0.1, 0.1, 0.1],
        raters: &[&INES],
        days: &[day(24, 8, 0, "top_deck")],
        until: Some("rings"),
        findings: &[],
        unseen: &[unseen("cyl4/piston", "cooling_gallery", OutOfReach)],
        slips: &[second_thought("cyl2/valve/exhaust", "seat_wear", 1.0)],
        remarks: &[remark(
            "",
            "",
            "Stopped at the rings: the crane was wanted. Bottom end tomorrow.",
        )],
        gauging: Gauging {
            day: day(24, 13, 20, ""),
            part_c: 16.0,
            stops_at: Some("cyl4/liner"),
            ..GAUGING
        },
    },
];
