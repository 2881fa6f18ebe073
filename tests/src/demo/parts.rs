//! What each measured part was when new, and how far it has worn, before anyone puts a gauge to it.

use std::{collections::BTreeMap, f64::consts::PI};

use rand::RngExt;
use ringland_card::{
    At, Plan,
    plan::{Leaf, PlanIndex},
};

use super::{
    DemoError, draws,
    fleet::{Effect, Engine},
    kinds::{Kind, Wear},
    scatter,
    wear::{Along, Mode, Strain, Truth, looks_worn},
};

/// A measured part; micrometres, or milligrams.
pub(super) struct Part {
    pub(super) kind: &'static Kind,
    pub(super) new: f64,
    /// How its own wear goes beside the model's.
    lot: f64,
    /// Towards its limit, where it has worn most.
    pub(super) worn: f64,
}

/// Scatter of a size against what its surface looks like.
const SIZE: f64 = 0.12;
/// Milligrams that a ring loses with each micrometre off its face: some 410 mm round, 3.2 mm high, of steel.
const MASS_OF_FACE: f64 = 10.3;
/// What an oil ring's rails lose, and a ring's sides, micrometres.
const RAIL: f64 = 11.0;
const SIDE: f64 = 5.0;
/// What stands for a bore, a journal and a shell that are not measured, micrometres.
const BORE: f64 = 34.0;
const JOURNAL: f64 = 6.0;
const SHELL: f64 = 6.0;
/// Where the rows of draws of parts begin.
const PARTS: u64 = 40_000;
/// The share of a bore's wear that stands where the gap is read.
const AT_GAP: f64 = 0.7;

/// The parts of every measured leaf; none where a leaf is looked at.
pub(super) fn parts(
    engine: &Engine,
    plan: &Plan,
    index: &PlanIndex,
    truths: &[Truth],
) -> Result<Vec<Option<Part>>, DemoError> {
    let mut rng = draws(PARTS + engine.stream);
    let mut rig = Rig {
        engine,
        plan,
        index,
        truths,
        strain: Strain::of(engine, &mut draws(engine.stream)),
        worn: BTreeMap::new(),
    };
    let mut parts = Vec::new();
    for leaf in index.leaves() {
        parts.push(if leaf.gauged {
            let kind = kind_of(plan, leaf)?;
            let within = kind.width as f64 * rng.random_range(0.1..0.9);
            Some(Part {
                kind,
                new: kind.least[engine.model.column] as f64 + within,
                lot: 1.0 + SIZE * scatter(&mut rng),
                worn: 0.0,
            })
        } else {
            None
        });
    }
    // What follows from other parts comes once those are known.
    for follows in [false, true] {
        for (leaf, part) in index.leaves().iter().zip(&mut parts) {
            if let Some(part) = part
                && part.kind.wear.follows() == follows
            {
                part.worn = rig.wear(leaf, part);
            }
        }
    }
    Ok(parts)
}

fn kind_of(plan: &Plan, leaf: &Leaf) -> Result<&'static Kind, DemoError> {
    let place = &leaf.place(plan).id;
    let look = &leaf.characteristic(plan).id;
    Kind::of(place.as_str(), look.as_str()).ok_or_else(|| DemoError::NoKind {
        place: place.to_string(),
        look: look.to_string(),
    })
}

/// An engine of which some wear is known.
struct Rig<'a> {
    engine: &'a Engine,
    plan: &'a Plan,
    index: &'a PlanIndex,
    truths: &'a [Truth],
    strain: Strain,
    /// By position and characteristic.
    worn: BTreeMap<(String, String), f64>,
}

impl Rig<'_> {
    /// The wear of a part, with what happened to it.
    fn wear(&mut self, leaf: &Leaf, part: &Part) -> f64 {
        let at = leaf.at(self.plan);
        let (position, look) = (at.position.as_str(), at.characteristic.as_str());
        let mut worn = self.model(leaf, position, part.kind.wear) * part.lot;
        for finding in self.engine.gauging.worn {
            if finding.hits(position, look) {
                worn = match finding.effect {
                    Effect::Times(factor) => worn * factor,
                    Effect::Is(wear) => wear,
                };
            }
        }
        self.worn
            .insert((position.to_owned(), look.to_owned()), worn);
        worn
    }

    fn model(&self, leaf: &Leaf, position: &str, wear: Wear) -> f64 {
        let of = |position: &str, look: &str| {
            let key = (position.to_owned(), look.to_owned());
            self.worn.get(&key).copied()
        };
        let boundary = self.strain.at(self.plan, leaf, Mode::Boundary, Along::Even);
        let seen = || self.seen(leaf).unwrap_or(boundary);
        // `cyl3/ring/top` has its bore in `cyl3/liner`, `throw2/rod_journal` its shells on both banks.
        let (column, _) = position.split_once('/').unwrap_or((position, ""));
        match wear {
            Wear::Seen(base) => base * seen(),
            Wear::Runs(mode, along, base) => base * self.strain.at(self.plan, leaf, mode, along),
            Wear::Gap => {
                let bore = of(&format!("{column}/liner"), "bore").unwrap_or(BORE * boundary);
                let face = of(position, "radial_thickness").unwrap_or(RAIL * seen());
                PI * AT_GAP * bore + 2.0 * PI * face
            }
            Wear::Side(groove) => {
                let groove = of(&format!("{column}/piston"), groove).unwrap_or(0.0);
                groove + SIDE * seen()
            }
            Wear::Oil => {
                let journal = of(position, "diameter").unwrap_or(JOURNAL * boundary);
                let shells = ["upper", "lower"].into_iter().filter_map(|half| {
                    let on = column.strip_prefix("throw").map(|n| format!("cylL{n}"));
                    let on = on.unwrap_or_else(|| column.to_owned());
                    of(&format!("{on}/shell/{half}"), "wall_thickness")
                });
                journal + shells.reduce(f64::max).unwrap_or(SHELL * boundary)
            }
            Wear::Mass => MASS_OF_FACE * of(position, "radial_thickness").unwrap_or(0.0),
        }
    }

    /// How worn the surface looks on which the size stands.
    fn seen(&self, leaf: &Leaf) -> Option<f64> {
        let eye = At {
            position: leaf.position(self.plan).id.clone(),
            characteristic: leaf.characteristic(self.plan).same_surface.clone()?,
        };
        let id = self.index.find(self.plan, &eye)?;
        looks_worn(self.plan, self.index.leaf(id)?, self.truths.get(id.0)?)
    }
}
