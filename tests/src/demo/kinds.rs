//! Every measured kind: what a new part of the three invented models measures, how far it may wear, what it
//! is read with, and how far it has worn at the reference. Lengths are micrometres, masses milligrams.
//!
//! The orders of magnitude are those of such engines; the figures are made up and are no maker's.

use ringland_card::gauging::Wears as Way;

use super::{
    fleet::fits,
    gauges::{BORE, DIAL, FEELER, FINE_FEELER, MICROMETER, SCALES, STRIP, Tool},
    wear::{
        Along::{self, Even, Rearward},
        Mode::{self, Age, Boundary, Film},
    },
};

/// One measured kind. A figure that is 0 is not on the sheet.
pub(super) struct Kind {
    pub(super) place: &'static str,
    pub(super) look: &'static str,
    pub(super) way: Way,
    /// The least that a new part measures, by model; 0 where the model has none of it.
    pub(super) least: [i64; 3],
    /// How much more a new part may measure.
    pub(super) width: i64,
    /// From the end of the new range on the side of wear to the limit.
    pub(super) allowance: i64,
    pub(super) out_of_round: i64,
    pub(super) taper: i64,
    pub(super) break_in: i64,
    pub(super) tool: &'static Tool,
    pub(super) wear: Wear,
}

/// How far a part has worn.
#[derive(Clone, Copy)]
pub(super) enum Wear {
    /// As its surface looks: so much where it looks as worn as its row's base.
    Seen(f64),
    /// By itself, as a row of the wear model.
    Runs(Mode, Along, f64),
    /// A ring's gap: the bore's wear and the ring's own open it.
    Gap,
    /// A ring's clearance in its groove: the groove's wear and its own.
    Side(&'static str),
    /// Oil clearance: the journal's wear and that of the shell that carries.
    Oil,
    /// A ring's mass: that of the metal its face has lost.
    Mass,
}

impl Wear {
    /// Whether it follows from that of other parts.
    pub(super) fn follows(self) -> bool {
        !matches!(self, Self::Seen(_) | Self::Runs(..))
    }
}

use Wear::{Gap, Mass, Oil, Runs, Seen, Side};

const fn kind(
    (place, look): (&'static str, &'static str),
    way: Way,
    least: [i64; 3],
    (width, allowance): (i64, i64),
    tool: &'static Tool,
    wear: Wear,
) -> Kind {
    Kind {
        place,
        look,
        way,
        least,
        width,
        allowance,
        out_of_round: 0,
        taper: 0,
        break_in: 0,
        tool,
        wear,
    }
}

impl Kind {
    /// With limits to its shape.
    const fn shaped(mut self, out_of_round: i64, taper: i64) -> Self {
        self.out_of_round = out_of_round;
        self.taper = taper;
        self
    }

    /// With so much of its wear in the first kilometres.
    const fn run_in(mut self, wear: i64) -> Self {
        self.break_in = wear;
        self
    }

    /// The kind of a place and characteristic.
    pub(super) fn of(place: &str, look: &str) -> Option<&'static Self> {
        KINDS
            .iter()
            .find(|kind| fits(kind.place, place) && kind.look == look)
    }
}

const L: Way = Way::Larger;
const S: Way = Way::Smaller;

/// The table; its columns of new sizes are the truck six, the bus six and the V8.
#[rustfmt::skip]
static KINDS: [Kind; 44] = [
    kind(("rocker_shaft/*", "diameter"), S, [41_975, 37_975, 31_970], (15, 60), &MICROMETER, Seen(7.0)),
    kind(("rocker_arm/*", "roller_diameter"), S, [34_970, 31_970, 0], (15, 70), &MICROMETER, Seen(7.0)),
    kind(("rocker_arm/*", "pin_diameter"), S, [19_988, 17_988, 0], (10, 40), &MICROMETER, Runs(Boundary, Even, 3.0)),
    kind(("rocker_arm/*", "bush_diameter"), L, [42_020, 38_020, 32_015], (25, 90), &BORE, Seen(12.0)).shaped(50, 0),
    kind(("lobe/intake", "lift"), S, [9_170, 8_640, 7_610], (30, 120), &MICROMETER, Seen(15.0)).run_in(3),
    kind(("lobe/exhaust", "lift"), S, [9_640, 9_120, 7_940], (30, 120), &MICROMETER, Seen(15.0)).run_in(3),
    kind(("lobe/injector", "lift"), S, [12_860, 0, 0], (30, 120), &MICROMETER, Seen(15.0)).run_in(4),
    kind(("cam_journal*", "diameter"), S, [69_950, 59_950, 63_950], (20, 60), &MICROMETER, Seen(5.0)),
    kind(("cam_bushing*", "diameter"), L, [70_010, 60_010, 64_010], (30, 80), &BORE, Seen(8.0)).shaped(50, 0),
    kind(("follower/*", "roller_diameter"), S, [0, 0, 27_970], (15, 70), &MICROMETER, Seen(7.0)),
    kind(("follower/*", "pin_diameter"), S, [0, 0, 14_990], (8, 40), &MICROMETER, Runs(Boundary, Even, 3.0)),
    kind(("valve/intake", "stem_diameter"), S, [8_955, 7_955, 9_955], (15, 55), &MICROMETER, Seen(7.0)),
    kind(("valve/exhaust", "stem_diameter"), S, [8_940, 7_940, 9_940], (15, 55), &MICROMETER, Seen(8.0)),
    kind(("valve/*", "guide_diameter"), L, [9_000, 8_000, 10_000], (20, 110), &BORE, Seen(20.0)).shaped(70, 0),
    kind(("valve/*", "seat_recession"), L, [900, 800, 1_000], (300, 1_000), &DIAL, Seen(220.0)),
    kind(("liner", "bore"), L, [130_000, 123_000, 127_000], (25, 130), &BORE, Runs(Boundary, Rearward(0.2), 34.0)).shaped(65, 65).run_in(5),
    kind(("liner", "protrusion"), Way::Either, [80, 70, 90], (60, 60), &DIAL, Runs(Age, Even, 9.0)),
    kind(("piston", "skirt_diameter"), S, [129_860, 122_870, 126_860], (20, 130), &MICROMETER, Seen(22.0)).run_in(4),
    kind(("piston", "pin_bore_diameter"), L, [52_010, 48_010, 54_010], (12, 50), &BORE, Seen(6.0)).shaped(40, 0),
    kind(("piston", "groove_1_width"), L, [3_090, 3_090, 3_590], (20, 140), &FINE_FEELER, Runs(Boundary, Rearward(0.1), 20.0)),
    kind(("piston", "groove_2_width"), L, [2_560, 2_560, 3_060], (20, 140), &FINE_FEELER, Runs(Boundary, Rearward(0.1), 12.0)),
    kind(("ring/top", "end_gap"), L, [400, 370, 400], (150, 600), &FEELER, Gap),
    kind(("ring/second", "end_gap"), L, [600, 550, 600], (200, 700), &FEELER, Gap),
    kind(("ring/oil", "end_gap"), L, [300, 300, 300], (200, 700), &FEELER, Gap),
    kind(("ring/top", "side_clearance"), L, [80, 80, 90], (30, 100), &FINE_FEELER, Side("groove_1_width")),
    kind(("ring/second", "side_clearance"), L, [50, 50, 60], (30, 100), &FINE_FEELER, Side("groove_2_width")),
    kind(("ring/top", "radial_thickness"), S, [5_350, 5_050, 5_250], (40, 150), &MICROMETER, Seen(20.0)).run_in(3),
    kind(("ring/second", "radial_thickness"), S, [4_900, 4_650, 4_800], (40, 150), &MICROMETER, Seen(14.0)),
    kind(("ring/top", "mass"), S, [54_000, 48_500, 57_500], (600, 0), &SCALES, Mass),
    kind(("pin", "diameter"), S, [51_994, 47_994, 53_994], (6, 30), &MICROMETER, Seen(3.0)),
    kind(("rod", "bush_diameter"), L, [52_015, 48_015, 54_015], (15, 60), &BORE, Seen(8.0)).shaped(40, 0),
    kind(("rod", "big_end_diameter"), L, [94_990, 88_990, 99_990], (22, 40), &BORE, Runs(Age, Even, 2.0)).shaped(45, 0),
    kind(("shell/upper", "wall_thickness"), S, [2_455, 2_455, 2_955], (10, 45), &MICROMETER, Seen(6.0)),
    kind(("shell/lower", "wall_thickness"), S, [2_950, 2_950, 3_450], (10, 45), &MICROMETER, Seen(5.0)),
    kind(("main_bore", "bore"), L, [105_980, 99_980, 111_980], (22, 40), &BORE, Runs(Age, Even, 0.0)).shaped(35, 0),
    kind(("rod_journal", "diameter"), S, [89_978, 83_978, 93_978], (22, 60), &MICROMETER, Seen(6.0)).shaped(30, 30).run_in(1),
    kind(("rod_journal", "oil_clearance"), L, [60, 60, 70], (50, 80), &STRIP, Oil),
    kind(("main_journal", "diameter"), S, [99_978, 93_978, 104_978], (22, 60), &MICROMETER, Seen(5.0)).shaped(30, 30).run_in(1),
    kind(("main_journal", "oil_clearance"), L, [60, 60, 70], (50, 80), &STRIP, Oil),
    kind(("crank_float", "end_float"), L, [100, 100, 120], (150, 200), &DIAL, Runs(Film, Even, 50.0)),
    kind(("gear", "backlash"), L, [80, 80, 90], (120, 250), &DIAL, Seen(45.0)),
    kind(("drive_gear", "backlash"), L, [90, 90, 100], (120, 250), &DIAL, Seen(45.0)),
    kind(("rotor", "axial_play"), L, [40, 40, 40], (50, 70), &DIAL, Seen(16.0)),
    kind(("rotor", "radial_play"), L, [300, 280, 320], (100, 200), &DIAL, Seen(50.0)),
];
