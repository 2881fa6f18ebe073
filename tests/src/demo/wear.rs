//! What is to be seen on each surface of one engine, before anyone looks.
//!
//! A level is the base of its row (a serviceable engine at 600,000 km with drains at 60,000 km) times
//! the engine's stress in the row's mode, the load of the station, the place along the engine, the
//! cylinder's own lot, and a scatter from surface to surface.

use rand::{Rng, RngExt};
use ringland_card::{
    Plan, Scale,
    entry::SECTORS,
    plan::{Leaf, PlanIndex},
};

use super::{
    DemoError, draws,
    fleet::{Effect, Engine},
    scatter,
};

/// What is to be seen at one leaf.
#[derive(Clone, Debug)]
pub(super) enum Truth {
    /// Half steps of a grade, percent (of what is bad, or of what is lost), a count, or the number of a state.
    Level(f64),
    /// Thickness of the deposit over equal stretches of the surface; [`super::rater`] turns it into levels.
    Patches(Vec<f64>),
}

/// What drives a surface's change.
#[derive(Clone, Copy, Debug)]
pub(super) enum Mode {
    /// Asperities carry the load: cams, rockers, rings at the turnaround.
    Boundary,
    /// A film carries it, most of the time: shells and journals.
    Film,
    /// Oil baked on hot metal.
    Deposit,
    /// Soot and water in the cool corners.
    Sludge,
    /// Years and kilometres, whatever the oil.
    Age,
}

/// How a mode answers to running: to distance and to drain interval, each against the reference.
const ANSWERS: [(Mode, f64, f64); 5] = [
    (Mode::Boundary, 0.5, 0.2),
    (Mode::Film, 0.4, 0.3),
    (Mode::Deposit, 0.25, 0.35),
    (Mode::Sludge, 0.1, 0.5),
    (Mode::Age, 0.8, 0.0),
];

const REFERENCE_KM: f64 = 600_000.0;
const REFERENCE_DRAIN_KM: f64 = 60_000.0;

/// How a level runs along the engine.
#[derive(Clone, Copy, Debug)]
pub(super) enum Along {
    Even,
    /// More towards the rear, where the coolant arrives last: this share more at the last cylinder.
    Rearward(f64),
    /// More in the middle, where the crankshaft bends most.
    Middle(f64),
}

use Along::{Even, Middle, Rearward};
use Mode::{Age, Boundary, Deposit, Film, Sludge};

/// One row of the model: part, place (any where it is empty), look, mode, course along the engine, base.
type Row = (&'static str, &'static str, &'static str, Mode, Along, f64);

/// The model. The first row that fits holds.
#[rustfmt::skip]
const ROWS: &[Row] = &[
    ("covers", "", "sludge", Sludge, Even, 0.32),
    ("covers", "", "varnish", Deposit, Even, 0.37),
    ("head_deck", "", "sludge", Sludge, Even, 0.37),
    ("head_deck", "", "varnish", Deposit, Even, 0.42),
    ("rocker_shafts", "", "wear", Boundary, Even, 2.5),
    ("rocker_shafts", "", "step", Boundary, Even, 0.75),
    ("rocker_arms", "", "roller_wear", Boundary, Even, 2.5),
    ("rocker_arms", "", "roller_turns", Boundary, Even, 0.1),
    ("rocker_arms", "", "face_wear", Boundary, Even, 3.1),
    ("rocker_arms", "", "bush_wear", Boundary, Even, 2.1),
    ("rocker_arms", "", "pad_wear", Boundary, Even, 2.6),
    ("rocker_arms", "", "socket_wear", Boundary, Even, 2.2),
    ("rocker_arms", "", "machining_marks", Boundary, Even, 55.0),
    ("crossheads", "", "pad_wear", Boundary, Even, 2.8),
    ("lobes", "", "wear", Boundary, Even, 2.5),
    ("lobes", "", "pitted", Boundary, Even, 0.03),
    ("cam_journals", "", "wear", Film, Even, 1.7),
    ("cam_journals", "", "scoring", Film, Even, 1.4),
    ("cam_bushings", "", "wear", Film, Even, 2.0),
    ("cam_bushings", "", "overlay", Film, Even, 20.0),
    ("followers", "", "roller_wear", Boundary, Even, 2.5),
    ("followers", "", "face_wear", Boundary, Even, 3.1),
    ("followers", "", "pitted", Boundary, Even, 0.05),
    ("followers", "", "roller_turns", Boundary, Even, 0.1),
    ("followers", "", "pin_wear", Boundary, Even, 2.1),
    ("pushrods", "", "tip_wear", Boundary, Even, 2.1),
    ("valves", "", "stem_wear", Boundary, Rearward(0.1), 2.7),
    ("valves", "", "seat_wear", Age, Rearward(0.1), 3.4),
    ("valves", "", "guide_wear", Boundary, Rearward(0.1), 2.7),
    ("valves", "", "tulip_deposit", Deposit, Rearward(0.1), 0.53),
    ("liners", "", "crosshatch_thrust", Boundary, Rearward(0.15), 40.0),
    ("liners", "", "crosshatch_anti_thrust", Boundary, Rearward(0.15), 24.0),
    ("liners", "", "polish_top_thrust", Boundary, Rearward(0.3), 9.0),
    ("liners", "", "polish_top_anti_thrust", Boundary, Rearward(0.3), 5.0),
    ("liners", "", "polish_bottom", Boundary, Even, 2.0),
    ("liners", "", "scuffed", Boundary, Even, 0.04),
    ("liners", "", "scoring", Boundary, Even, 2.0),
    ("liners", "", "step", Boundary, Even, 0.9),
    ("liners", "", "carbon_ring", Deposit, Rearward(0.2), 3.6),
    ("liners", "", "coolant_pitting", Age, Rearward(0.3), 1.1),
    ("pistons", "", "land_1", Deposit, Rearward(0.2), 0.78),
    ("pistons", "", "land_2", Deposit, Rearward(0.25), 0.42),
    ("pistons", "", "land_3", Deposit, Rearward(0.3), 0.18),
    ("pistons", "", "groove_1", Deposit, Rearward(0.25), 0.70),
    ("pistons", "", "groove_2", Deposit, Rearward(0.25), 0.38),
    ("pistons", "", "groove_3", Deposit, Rearward(0.25), 0.10),
    ("pistons", "", "undercrown", Deposit, Rearward(0.2), 0.28),
    ("pistons", "", "cooling_gallery", Deposit, Rearward(0.2), 0.45),
    ("pistons", "", "crown", Deposit, Rearward(0.1), 0.80),
    ("pistons", "", "skirt_wear", Boundary, Even, 2.5),
    ("pistons", "", "skirt_scuffed", Boundary, Even, 0.08),
    ("pistons", "", "pin_bore_wear", Film, Even, 1.4),
    ("pistons", "", "ring_lands_whole", Age, Even, 0.0),
    ("rings", "ring/top", "face_contact", Boundary, Rearward(0.1), 63.8),
    ("rings", "ring/second", "face_contact", Boundary, Rearward(0.1), 26.4),
    ("rings", "", "face_contact", Boundary, Even, 9.9),
    ("rings", "ring/top", "face_wear", Boundary, Rearward(0.15), 4.2),
    ("rings", "", "face_wear", Boundary, Rearward(0.1), 3.1),
    ("rings", "", "face_distress", Boundary, Even, 0.10),
    ("rings", "", "side_wear", Boundary, Rearward(0.1), 2.2),
    ("rings", "ring/top", "mobility", Deposit, Rearward(0.2), 0.23),
    ("rings", "", "mobility", Deposit, Even, 0.05),
    ("rings", "", "whole", Age, Even, 0.0),
    ("pins", "", "wear", Film, Even, 2.0),
    ("pins", "", "heat_colour", Film, Even, 0.50),
    ("rods", "", "bush_wear", Film, Even, 2.2),
    ("rods", "", "oil_groove_definition", Film, Even, 1.8),
    ("rods", "", "big_end_fretting", Age, Even, 1.5),
    ("rod_shells", "shell/upper", "overlay", Film, Middle(0.1), 30.0),
    ("rod_shells", "shell/upper", "wear", Film, Middle(0.1), 3.6),
    ("rod_shells", "", "overlay", Film, Middle(0.1), 12.5),
    ("rod_shells", "", "tracks", Film, Even, 1.6),
    ("rod_shells", "", "embedment", Film, Even, 1.8),
    ("rod_shells", "", "wiping", Film, Even, 0.15),
    ("rod_shells", "", "fatigued", Film, Even, 0.08),
    ("rod_shells", "", "corrosion", Sludge, Even, 1.0),
    ("main_shells", "shell/lower", "overlay", Film, Middle(0.3), 25.0),
    ("main_shells", "shell/lower", "wear", Film, Middle(0.3), 3.1),
    ("main_shells", "", "overlay", Film, Middle(0.2), 10.0),
    ("main_shells", "", "tracks", Film, Even, 1.8),
    ("main_shells", "", "embedment", Film, Even, 1.8),
    ("main_shells", "", "wiping", Film, Even, 0.15),
    ("main_shells", "", "fatigued", Film, Middle(0.3), 0.06),
    ("main_shells", "", "corrosion", Sludge, Even, 1.0),
    ("main_shells", "", "back_fretting", Age, Middle(0.3), 1.4),
    ("thrust_washers", "", "wear", Film, Even, 2.2),
    ("thrust_washers", "", "overlay", Film, Even, 20.0),
    ("rod_journals", "", "wear", Film, Middle(0.1), 1.5),
    ("rod_journals", "", "scoring", Film, Even, 1.4),
    ("rod_journals", "", "heat_colour", Film, Even, 0.30),
    ("main_journals", "", "wear", Film, Middle(0.2), 1.4),
    ("main_journals", "", "scoring", Film, Even, 1.3),
    ("main_journals", "", "heat_colour", Film, Even, 0.30),
    ("seal_lands", "", "seal_groove", Age, Even, 3.1),
    ("gears", "", "tooth_wear", Boundary, Even, 2.4),
    ("gears", "", "pitted", Boundary, Even, 0.08),
    ("oil_pump", "", "scoring", Film, Even, 3.1),
    ("sump", "", "sludge", Sludge, Even, 0.53),
    ("pick_up", "", "screen_blocked", Sludge, Even, 3.0),
    ("oil_cooler", "", "deposit", Sludge, Even, 2.4),
    ("oil_filter", "", "metal_in_pleats", Film, Even, 2.7),
    ("turbochargers", "", "bearing_wear", Film, Even, 3.2),
    ("turbochargers", "", "wheel_damage", Age, Even, 1.7),
    ("turbochargers", "", "coking", Deposit, Even, 0.45),
    ("turbochargers", "", "leakage", Age, Even, 0.42),
    ("crank_seals", "", "hardening", Age, Even, 3.6),
    ("crank_seals", "", "leakage", Age, Even, 0.40),
    ("breather", "", "sludge", Sludge, Even, 0.58),
];

/// How much more, or less, a station carries than the middling one.
const STATIONS: [(&str, f64); 4] = [
    ("/injector", 1.5),
    ("/exhaust", 1.05),
    ("/brake", 1.0),
    ("/intake", 0.7),
];

/// Scatter from surface to surface, in the order of [`Mode`]: carbon on neighbours is much alike.
const SURFACE: [f64; 5] = [0.24, 0.24, 0.11, 0.15, 0.24];
/// Scatter from cylinder to cylinder, and from engine to engine.
const CYLINDER: f64 = 0.10;
const ENGINE: f64 = 0.06;

/// How hard an engine has run, in each mode and at each cylinder.
pub(super) struct Strain {
    stress: [f64; 5],
    lots: Vec<f64>,
}

impl Strain {
    /// The first draws of the engine's own row, so that whoever begins it anew has the same.
    pub(super) fn of(engine: &Engine, rng: &mut impl Rng) -> Self {
        let stress = ANSWERS.map(|(mode, distance, drain)| {
            let run = distance * (engine.distance_km / REFERENCE_KM - 1.0)
                + drain * (engine.drain_km / REFERENCE_DRAIN_KM - 1.0);
            let given = engine.oil.effect[mode as usize] + engine.duty_effect[mode as usize];
            1.0 + run + given + ENGINE * scatter(rng)
        });
        let lots = (0..24).map(|_| 1.0 + CYLINDER * scatter(rng)).collect();
        Self { stress, lots }
    }

    /// What a leaf bears of a mode, 1 being the reference.
    pub(super) fn at(&self, plan: &Plan, leaf: &Leaf, mode: Mode, along: Along) -> f64 {
        self.stress[mode as usize]
            * station(leaf.position(plan).id.as_str())
            * course(plan, leaf, along)
            * self.lots[leaf.position % self.lots.len()]
    }
}

/// What is to be seen at every leaf of the engine's plan, findings included.
pub(super) fn truths(
    engine: &Engine,
    plan: &Plan,
    index: &PlanIndex,
) -> Result<Vec<Truth>, DemoError> {
    let mut rng = draws(engine.stream);
    let strain = Strain::of(engine, &mut rng);
    index
        .leaves()
        .iter()
        .map(|leaf| {
            if leaf.gauged {
                return Ok(Truth::Level(0.0));
            }
            let at = leaf.at(plan);
            let (mode, along, base) = row(plan, leaf)?;
            let level = base
                * strain.at(plan, leaf, mode, along)
                * (1.0 + SURFACE[mode as usize] * scatter(&mut rng));
            let mut truth = seen(plan, leaf, level, &mut rng);
            for finding in engine.findings {
                if finding.hits(at.position.as_str(), at.characteristic.as_str()) {
                    truth = truth.after(finding.effect);
                }
            }
            Ok(truth)
        })
        .collect()
}

/// How worn a surface looks against the base of its row; nothing where it is not seen as a level.
pub(super) fn looks_worn(plan: &Plan, leaf: &Leaf, truth: &Truth) -> Option<f64> {
    match (truth, row(plan, leaf)) {
        (Truth::Level(level), Ok((_, _, base))) if base > 0.0 => Some(level / base),
        _ => None,
    }
}

fn row(plan: &Plan, leaf: &Leaf) -> Result<(Mode, Along, f64), DemoError> {
    let part = &plan.sections[leaf.section].parts[leaf.part].id;
    let place = &leaf.place(plan).id;
    let look = &leaf.characteristic(plan).id;
    ROWS.iter()
        .find(|(p, at, l, ..)| {
            *p == part.as_str() && (at.is_empty() || *at == place.as_str()) && *l == look.as_str()
        })
        .map(|(.., mode, along, base)| (*mode, *along, *base))
        .ok_or_else(|| DemoError::NoRow {
            part: part.to_string(),
            place: place.to_string(),
            look: look.to_string(),
        })
}

fn station(position: &str) -> f64 {
    STATIONS
        .iter()
        .find(|(end, _)| position.ends_with(end))
        .map_or(1.0, |(_, load)| *load)
}

/// The factor of a place along the engine; a bank of a V is a row of its own.
fn course(plan: &Plan, leaf: &Leaf, along: Along) -> f64 {
    let number = |column: &str| -> Option<f64> {
        column
            .trim_start_matches(|c: char| !c.is_ascii_digit())
            .parse()
            .ok()
    };
    let place = leaf.place(plan);
    let last = place
        .positions
        .iter()
        .filter_map(|position| number(&position.column))
        .fold(1.0, f64::max);
    let here = number(&leaf.position(plan).column).unwrap_or(1.0);
    let way = if last > 1.0 {
        (here - 1.0) / (last - 1.0)
    } else {
        0.5
    };
    match along {
        Even => 1.0,
        Rearward(more) => 1.0 + more * (way - 0.3),
        Middle(more) => 1.0 + more * (0.5 - (2.0 * way - 1.0).abs()),
    }
}

/// Stretches of a surface whose shares are typed in: each a tenth.
const TENTHS: usize = 10;
/// Stretches of a land or groove, which is painted in strokes of two sectors.
const STROKES: usize = SECTORS as usize / SECTORS_IN_A_STROKE;
pub(super) const SECTORS_IN_A_STROKE: usize = 2;

fn seen(plan: &Plan, leaf: &Leaf, level: f64, rng: &mut impl Rng) -> Truth {
    let look = leaf.characteristic(plan);
    match plan.scale(&look.scale) {
        Some(Scale::Area { .. }) if is_painted(look.id.as_str()) => {
            Truth::Patches(ring_of_patches(level, look.id.as_str(), rng))
        }
        Some(Scale::Area { .. } | Scale::MeritArea { .. }) => Truth::Patches(
            smooth(TENTHS, rng)
                .into_iter()
                .map(|bump| level * (1.0 + 0.35 * bump))
                .collect(),
        ),
        // Damage is rare: the base is the chance that there is any, and then there is a little.
        Some(Scale::Extent { .. }) if look.scale.as_str() == "damaged" => {
            let (chance, amount) = (rng.random::<f64>(), rng.random::<f64>());
            Truth::Level(if chance < level {
                0.5 + 2.0 * amount
            } else {
                0.0
            })
        }
        // Most shells have few tracks and a few have many.
        Some(Scale::Count { .. }) => {
            let draw = rng.random::<f64>();
            Truth::Level(level * (0.3 + 2.1 * draw * draw))
        }
        // The upper grades lie further apart than the lower ones.
        Some(Scale::Grade { .. }) if level > LIGHT => Truth::Level(LIGHT + (level - LIGHT) / 2.0),
        _ => Truth::Level(level.max(0.0)),
    }
}

/// Light, in half steps.
const LIGHT: f64 = 4.0;

/// Whether a surface is painted sector by sector: the lands and grooves are.
pub(super) fn is_painted(look: &str) -> bool {
    look.starts_with("land_") || look.starts_with("groove_")
}

/// Thickness round a land or groove, from the front. The bore rubs carbon off the lands at thrust and
/// anti-thrust, a quarter turn and three quarters from the front; a groove is more even.
fn ring_of_patches(level: f64, look: &str, rng: &mut impl Rng) -> Vec<f64> {
    let rubbed = if look.starts_with("land_") { 0.35 } else { 0.1 };
    let quarter = STROKES as f64 / 4.0;
    smooth(STROKES, rng)
        .into_iter()
        .enumerate()
        .map(|(stroke, bump)| {
            // 1 at the pin ends, −1 at thrust and anti-thrust, straight between.
            let pin_end =
                ((stroke as f64 + 0.5) % (2.0 * quarter) / quarter - 1.0).abs() * 2.0 - 1.0;
            level * (1.0 + rubbed * pin_end + 0.25 * bump)
        })
        .collect()
}

/// Bumps round a closed course, about −1 to 1, each like its neighbours.
fn smooth(count: usize, rng: &mut impl Rng) -> Vec<f64> {
    let raw: Vec<f64> = (0..count).map(|_| scatter(rng)).collect();
    (0..count)
        .map(|at| (0..5).map(|step| raw[(at + step) % count]).sum::<f64>() / 2.24)
        .collect()
}

impl Truth {
    fn after(self, effect: Effect) -> Self {
        match (self, effect) {
            (Self::Level(level), Effect::Times(factor)) => Self::Level(level * factor),
            (Self::Level(_), Effect::Is(level)) => Self::Level(level),
            (Self::Patches(patches), Effect::Times(factor)) => {
                Self::Patches(patches.into_iter().map(|t| t * factor).collect())
            }
            (Self::Patches(patches), Effect::Is(level)) => {
                Self::Patches(vec![level; patches.len()])
            }
        }
    }
}
