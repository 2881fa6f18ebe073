//! The scales of the built-in plan.
//!
//! Deposit factors are from memory: they belong to the deposit rating manual that ASTM D6618, D6750
//! and D6681 call for, whose text was not at hand. All other tables are the project's own.

use std::collections::{BTreeMap, BTreeSet};

use super::{
    super::{Repeatability, Section},
    gauged,
};
use crate::{
    ids::{LevelId, ScaleId, StateId},
    scale::{Breakpoint, DepositLevel, MeritLevel, Scale, StateScore},
};

/// A scale's name, and how far one rater's repeated looks on it scatter.
#[derive(Clone, Copy)]
pub(super) struct Sheet {
    pub(super) id: &'static str,
    pub(super) u_rep: Repeatability,
}

const fn sheet(id: &'static str, u_rep: Repeatability) -> Sheet {
    Sheet { id, u_rep }
}

const BY_GRADE: Repeatability = Repeatability::Score(0.6);
const BY_AREA: Repeatability = Repeatability::Percent(3.0);
/// The scale of damage starts so steeply that 3 points of percent would say ±9 of score for a surface
/// with nothing on it. Whether there is damage is seen as surely as a grade, so it scatters as one.
const BY_DAMAGE: Repeatability = BY_GRADE;
const BY_COUNT: Repeatability = Repeatability::Count(1.0);
/// A state that has to be felt or judged.
const BY_JUDGING: Repeatability = Repeatability::Score(0.5);
/// A state that is plain to see.
const PLAIN: Repeatability = Repeatability::Score(0.0);

pub(super) const GRADE: Sheet = sheet("grade", BY_GRADE);
pub(super) const DEPOSIT: Sheet = sheet("deposit", BY_AREA);
pub(super) const LAND_DEPOSIT: Sheet = sheet("land_deposit", BY_AREA);
pub(super) const SLUDGE: Sheet = sheet("sludge", BY_AREA);
pub(super) const VARNISH: Sheet = sheet("varnish", BY_AREA);
pub(super) const CROSSHATCH: Sheet = sheet("crosshatch", BY_AREA);
pub(super) const POLISHED: Sheet = sheet("polished", BY_AREA);
pub(super) const DAMAGED: Sheet = sheet("damaged", BY_DAMAGE);
pub(super) const OVERLAY: Sheet = sheet("overlay", BY_AREA);
pub(super) const MARKS: Sheet = sheet("marks", BY_AREA);
pub(super) const BLOCKED: Sheet = sheet("blocked", BY_AREA);
pub(super) const CONTACT_BARREL: Sheet = sheet("contact_barrel", BY_AREA);
pub(super) const CONTACT_TAPER: Sheet = sheet("contact_taper", BY_AREA);
pub(super) const CONTACT_OIL: Sheet = sheet("contact_oil", BY_AREA);
pub(super) const TRACKS: Sheet = sheet("tracks", BY_COUNT);
pub(super) const STEP: Sheet = sheet("step", BY_JUDGING);
pub(super) const ROLLER: Sheet = sheet("roller", BY_JUDGING);
pub(super) const MOBILITY: Sheet = sheet("mobility", BY_JUDGING);
pub(super) const LEAK: Sheet = sheet("leak", BY_JUDGING);
pub(super) const WHOLE: Sheet = sheet("whole", PLAIN);

/// The scales that these sections are rated on.
pub(super) fn used_by(sections: &[Section]) -> BTreeMap<ScaleId, Scale> {
    let used: BTreeSet<&str> = sections
        .iter()
        .flat_map(|section| &section.parts)
        .flat_map(|part| &part.places)
        .flat_map(|place| &place.looks)
        .map(|look| look.scale.as_str())
        .collect();
    all()
        .into_iter()
        .chain(gauged::all())
        .filter(|(sheet, _)| used.contains(sheet.id))
        .map(|(sheet, scale)| (ScaleId::fixed(sheet.id), scale))
        .collect()
}

fn all() -> [(Sheet, Scale); 20] {
    [
        (
            GRADE,
            // none, trace, light, medium, heavy, severe
            Scale::Grade {
                scores: [10.0, 9.0, 7.5, 5.0, 2.5, 0.0],
            },
        ),
        (DEPOSIT, area(&[CARBON, LACQUER].concat())),
        // ASTM D6618 reads heavy and light carbon on lands; medium stays here as the plan's choice,
        // because raters in the field use it. A plan of two levels leaves it out of this scale.
        (LAND_DEPOSIT, area(&[CARBON, LACQUER].concat())),
        (SLUDGE, merit_area(SLUDGE_LEVELS)),
        (VARNISH, merit_area(VARNISH_LEVELS)),
        (CROSSHATCH, extent(LEFT_OF_IT)),
        (OVERLAY, extent(LEFT_OF_IT)),
        (
            POLISHED,
            extent(&[
                (0.0, 10.0),
                (5.0, 8.5),
                (15.0, 6.0),
                (30.0, 3.0),
                (60.0, 0.0),
            ]),
        ),
        // Scuffed, pitted, fatigued, distressed: any of it is damage, and little of it is much.
        (
            DAMAGED,
            extent(&[(0.0, 10.0), (1.0, 7.0), (5.0, 4.0), (20.0, 0.0)]),
        ),
        (MARKS, extent(&[(0.0, 7.0), (50.0, 9.0), (100.0, 10.0)])),
        (BLOCKED, extent(&[(0.0, 10.0), (10.0, 7.0), (50.0, 0.0)])),
        // A barrel face meets the bore on a wide band from early on: a wide band is little wear.
        (
            CONTACT_BARREL,
            extent(&[(0.0, 10.0), (80.0, 9.0), (100.0, 7.5)]),
        ),
        // A taper face meets it on its lower edge: the band grows with wear.
        (
            CONTACT_TAPER,
            extent(&[(0.0, 10.0), (20.0, 9.5), (50.0, 8.0), (100.0, 5.0)]),
        ),
        // The rails of an oil ring must touch all round. The draft ends at 30 %; no contact is 0.
        (
            CONTACT_OIL,
            extent(&[(0.0, 0.0), (30.0, 3.0), (70.0, 7.0), (100.0, 10.0)]),
        ),
        (
            TRACKS,
            Scale::Count {
                points: points(&[
                    (0.0, 10.0),
                    (2.0, 8.5),
                    (5.0, 6.0),
                    (10.0, 3.0),
                    (20.0, 0.0),
                ]),
            },
        ),
        // A step deep enough to be measured scores between medium and heavy wear, whatever its size:
        // the size itself is for gauging.
        (
            STEP,
            states(&[
                ("none", 10.0),
                ("seen", 9.0),
                ("felt", 7.0),
                ("measured", 4.0),
            ]),
        ),
        (
            ROLLER,
            states(&[("free", 10.0), ("rough", 5.0), ("seized", 0.0)]),
        ),
        (
            MOBILITY,
            states(&[
                ("free", 10.0),
                ("sluggish", 7.0),
                ("cold_stuck", 3.0),
                ("hot_stuck", 0.0),
            ]),
        ),
        (LEAK, states(&[("dry", 10.0), ("damp", 7.0), ("wet", 3.0)])),
        (
            WHOLE,
            states(&[("whole", 10.0), ("chipped", 4.0), ("broken", 0.0)]),
        ),
    ]
}

/// Demerit for each percent of area; from memory, see above.
const CARBON: &[(&str, f64)] = &[
    ("heavy_carbon", 1.0),
    ("medium_carbon", 0.5),
    ("light_carbon", 0.25),
];
const LACQUER: &[(&str, f64)] = &[
    ("black_lacquer", 0.1),
    ("dark_brown_lacquer", 0.075),
    ("amber_lacquer", 0.05),
    ("light_amber_lacquer", 0.025),
    ("very_light_amber_lacquer", 0.01),
];

/// Merits of sludge, by how thick it lies.
const SLUDGE_LEVELS: &[(&str, f64)] = &[
    ("packed_sludge", 0.0),   // fills corners and passages
    ("heavy_sludge", 2.0),    // stands in ridges
    ("medium_sludge", 4.5),   // a layer that hides casting marks
    ("light_sludge", 6.5),    // a layer that follows the surface
    ("thin_sludge", 8.0),     // a finger leaves a furrow
    ("sludge_film", 9.0),     // metal shows through
    ("trace_of_sludge", 9.5), // only a clean cloth shows it
];

/// Merits of varnish, by its colour.
const VARNISH_LEVELS: &[(&str, f64)] = &[
    ("black_varnish", 0.5),
    ("dark_brown_varnish", 2.0),
    ("brown_varnish", 3.5),
    ("amber_varnish", 5.0),
    ("light_amber_varnish", 7.5),
    ("very_light_amber_varnish", 8.5),
    ("trace_of_varnish", 9.5),
];

/// What is still there of something that wears away.
const LEFT_OF_IT: &[(f64, f64)] = &[
    (0.0, 0.0),
    (20.0, 3.0),
    (50.0, 6.0),
    (80.0, 9.0),
    (100.0, 10.0),
];

fn area(levels: &[(&str, f64)]) -> Scale {
    Scale::Area {
        levels: levels
            .iter()
            .map(|(id, factor)| DepositLevel {
                id: LevelId::fixed(id),
                label: None,
                factor: *factor,
            })
            .collect(),
    }
}

fn merit_area(levels: &[(&str, f64)]) -> Scale {
    Scale::MeritArea {
        levels: levels
            .iter()
            .map(|(id, merit)| MeritLevel {
                id: LevelId::fixed(id),
                label: None,
                merit: *merit,
            })
            .collect(),
    }
}

fn states(states: &[(&str, f64)]) -> Scale {
    Scale::State {
        states: states
            .iter()
            .map(|(id, score)| StateScore {
                id: StateId::fixed(id),
                label: None,
                score: *score,
            })
            .collect(),
    }
}

fn extent(table: &[(f64, f64)]) -> Scale {
    Scale::Extent {
        points: points(table),
    }
}

fn points(table: &[(f64, f64)]) -> Vec<Breakpoint> {
    table.iter().copied().map(Breakpoint::from).collect()
}
