//! The seven engines: what each is, what it did, and what went wrong with it. All of it is invented.

use ringland_card::{Cause, Depth, Layout, NotInspected};

use super::rater::Rater;

/// An oil of the trial. `effect` is what it adds to the stress in each mode, in the order of
/// [`super::wear::Mode`]; the first oil is the reference.
pub(super) struct Oil {
    pub(super) name: &'static str,
    pub(super) grade: &'static str,
    pub(super) category: &'static str,
    pub(super) effect: [f64; 5],
}

/// One engine of the trial.
pub(super) struct Engine {
    pub(super) slug: &'static str,
    /// Its row of draws.
    pub(super) stream: u64,
    pub(super) layout: fn() -> Layout,
    pub(super) depth: Depth,
    pub(super) name: &'static str,
    pub(super) vehicle: &'static str,
    pub(super) model: &'static str,
    pub(super) serial: &'static str,
    pub(super) site: &'static str,
    pub(super) duty: &'static str,
    pub(super) distance_km: f64,
    pub(super) hours: f64,
    pub(super) fuel_l: f64,
    pub(super) oil: &'static Oil,
    pub(super) drain_km: f64,
    pub(super) sump_l: f64,
    pub(super) reason: &'static str,
    /// What the duty adds to the stress in each mode.
    pub(super) duty_effect: [f64; 5],
    /// Who rated it; the first also wrote the facts.
    pub(super) raters: &'static [&'static Rater],
    /// The days at the bench.
    pub(super) days: &'static [Day],
    /// The first section that nobody has begun, in an engine that is half done.
    pub(super) until: Option<&'static str>,
    pub(super) findings: &'static [Finding],
    pub(super) unseen: &'static [Unseen],
    pub(super) slips: &'static [Slip],
    pub(super) remarks: &'static [Remark],
}

/// A day at the bench, in November 2026, universal time, and the section it began with.
pub(super) struct Day {
    pub(super) of_month: i64,
    pub(super) hour: i64,
    pub(super) minute: i64,
    pub(super) section: &'static str,
}

/// Something that happened to this engine beyond ordinary running.
pub(super) struct Finding {
    /// Positions: a name, with `*` for any run of characters.
    pub(super) at: &'static str,
    /// What it shows in; every look where there is none named.
    pub(super) looks: &'static [&'static str],
    pub(super) effect: Effect,
    /// What the first rater holds answerable.
    pub(super) cause: Option<Cause>,
}

/// What a finding does to a level.
#[derive(Clone, Copy)]
pub(super) enum Effect {
    /// Multiplies it.
    Times(f64),
    /// Sets it.
    Is(f64),
}

/// A look that was not to be had.
pub(super) struct Unseen {
    pub(super) at: &'static str,
    /// The look; every one of the position where it is empty.
    pub(super) look: &'static str,
    pub(super) reason: NotInspected,
}

/// A rating that was put right.
pub(super) struct Slip {
    pub(super) at: &'static str,
    pub(super) look: &'static str,
    /// How far the first rating was off, in the unit of the level.
    pub(super) off: f64,
    /// Why it was voided; a second thought where there is no reason, which supersedes the first.
    pub(super) void: Option<&'static str>,
}

/// Words of the first rater, on a position or, where that is empty, on the engine.
pub(super) struct Remark {
    pub(super) at: &'static str,
    pub(super) look: &'static str,
    pub(super) text: &'static str,
}

/// Whether a name fits a pattern with at most one `*`.
pub(super) fn fits(pattern: &str, name: &str) -> bool {
    match pattern.split_once('*') {
        None => pattern == name,
        Some((head, tail)) => {
            name.len() >= head.len() + tail.len() && name.starts_with(head) && name.ends_with(tail)
        }
    }
}

impl Finding {
    pub(super) fn hits(&self, position: &str, look: &str) -> bool {
        fits(self.at, position) && (self.looks.is_empty() || self.looks.contains(&look))
    }
}

impl Unseen {
    pub(super) fn hits(&self, position: &str, look: &str) -> bool {
        fits(self.at, position) && (self.look.is_empty() || self.look == look)
    }
}

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
    effect: [0.07, 0.08, -0.12, -0.04, 0.0],
};

static INES: Rater = Rater {
    name: "Ines Marrow",
    stream: 101,
    bias: 0.0,
    scatter: 0.4,
};
static TOMASZ: Rater = Rater {
    name: "Tomasz Oyelade",
    stream: 102,
    bias: 0.4,
    scatter: 0.5,
};
static RUTH: Rater = Rater {
    name: "Ruth Calder-Singh",
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

const SIX: &str = "12.8-litre inline six, unit injectors";
const BUS_SIX: &str = "10.6-litre inline six, common rail";
const VEE: &str = "16.1-litre V8, pushrods";
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

const fn remark(at: &'static str, look: &'static str, text: &'static str) -> Remark {
    Remark { at, look, text }
}

const fn finding(
    at: &'static str,
    looks: &'static [&'static str],
    effect: Effect,
    cause: Option<Cause>,
) -> Finding {
    Finding {
        at,
        looks,
        effect,
        cause,
    }
}

use Effect::{Is, Times};
use NotInspected::{Cleaned, Damaged, LeftAssembled, Missing, OutOfReach, SentAway};

pub(super) static ENGINES: [Engine; 7] = [
    Engine {
        slug: "tarn-14",
        stream: 14,
        layout: Layout::inline_six,
        depth: Depth::Full,
        name: "Tarn 14",
        vehicle: "Tractor 14, four-by-two",
        model: SIX,
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
    },
    Engine {
        slug: "tarn-17",
        stream: 17,
        layout: Layout::inline_six,
        depth: Depth::Full,
        name: "Tarn 17",
        vehicle: "Tractor 17, four-by-two",
        model: SIX,
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
    },
    Engine {
        slug: "tarn-21",
        stream: 21,
        layout: Layout::inline_six,
        depth: Depth::Full,
        name: "Tarn 21",
        vehicle: "Tractor 21, six-by-two",
        model: SIX,
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
            finding("cyl4/lobe/injector", &["wear"], Is(6.4), None),
            finding("cyl4/lobe/injector", &["pitted"], Is(15.0), None),
            finding("cyl4/rocker_arm/injector", &["roller_wear"], Is(6.0), None),
            finding("cyl4/rocker_arm/injector", &["roller_turns"], Is(1.0), None),
            finding("cyl4/rocker_arm/injector", &["bush_wear"], Is(4.2), None),
            finding("cyl3/lobe/injector", &["pitted"], Is(2.0), None),
            finding("cyl5/lobe/injector", &["pitted"], Is(1.0), None),
            finding("oil_filter", &["metal_in_pleats"], Is(5.0), None),
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
    },
    Engine {
        slug: "tarn-22",
        stream: 22,
        layout: Layout::inline_six,
        depth: Depth::Full,
        name: "Tarn 22",
        vehicle: "Tractor 22, six-by-two",
        model: SIX,
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
            finding(
                "cyl*/shell/upper",
                &["tracks"],
                Times(6.0),
                Some(Cause::Dirt),
            ),
            finding(
                "cyl*/shell/upper",
                &["embedment"],
                Times(3.0),
                Some(Cause::Dirt),
            ),
            finding("cyl*/shell/upper", &["wear"], Times(1.6), Some(Cause::Dirt)),
            finding(
                "main*/shell/lower",
                &["tracks"],
                Times(7.0),
                Some(Cause::Dirt),
            ),
            finding(
                "main*/shell/lower",
                &["embedment"],
                Times(3.2),
                Some(Cause::Dirt),
            ),
            finding(
                "main*/shell/lower",
                &["wear"],
                Times(1.6),
                Some(Cause::Dirt),
            ),
            finding(
                "cyl*/ring/top",
                &["face_wear"],
                Times(1.5),
                Some(Cause::Dirt),
            ),
            finding(
                "cyl1/ring/top",
                &["face_distress"],
                Is(6.0),
                Some(Cause::Dirt),
            ),
            finding(
                "cyl2/ring/top",
                &["face_distress"],
                Is(3.0),
                Some(Cause::Dirt),
            ),
            finding("cyl1/liner", &["scoring"], Is(5.0), Some(Cause::Dirt)),
            finding("cyl2/liner", &["scoring"], Is(4.0), Some(Cause::Dirt)),
            finding("oil_pump", &["scoring"], Is(4.6), Some(Cause::Dirt)),
            finding(
                "main6/shell/lower",
                &["back_fretting"],
                Is(6.0),
                Some(Cause::Assembly),
            ),
            finding(
                "cyl5/liner",
                &["coolant_pitting"],
                Is(6.0),
                Some(Cause::Coolant),
            ),
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
    },
    Engine {
        slug: "crag-05",
        stream: 5,
        layout: Layout::vee_eight,
        depth: Depth::Full,
        name: "Crag 5",
        vehicle: "Heavy-haul tractor 5, eight-by-four",
        model: VEE,
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
        duty_effect: [0.18, 0.2, 0.22, 0.0, 0.2],
        raters: &[&RUTH],
        days: &[day(5, 7, 55, "top_deck"), day(6, 7, 40, "rings")],
        until: None,
        findings: &[
            finding("cylL4/piston", &["land_1", "groove_1"], Times(1.2), None),
            finding("cylR4/piston", &["land_1", "groove_1"], Times(1.15), None),
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
    },
    Engine {
        slug: "fell-08",
        stream: 8,
        layout: common_rail_six,
        depth: Depth::Short,
        name: "Fell 8",
        vehicle: "Mountain bus 8",
        model: BUS_SIX,
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
            finding(
                "cyl6/piston",
                &["land_1", "land_2", "land_3", "groove_1"],
                Times(1.9),
                Some(Cause::Fuel),
            ),
            finding("cyl6/ring/top", &["mobility"], Is(1.0), Some(Cause::Fuel)),
            finding(
                "cyl6/liner",
                &["polish_top_thrust", "crosshatch_thrust"],
                Times(1.7),
                Some(Cause::Fuel),
            ),
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
    },
    Engine {
        slug: "fell-03",
        stream: 3,
        layout: common_rail_six,
        depth: Depth::Full,
        name: "Fell 3",
        vehicle: "Mountain bus 3",
        model: BUS_SIX,
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
    },
];
