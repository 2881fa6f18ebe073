//! What is read with a gauge, and how: the scales of measured sizes.
//!
//! Liners are read at three heights and on two axes (Navy training manual 14076: just below the top of
//! top-ring travel, midway, just above the lowest of it). The rest of the grids is common practice.

use super::{
    super::Repeatability,
    scales::Sheet,
    table::{Row, look},
};
use crate::{
    gauging::{Makes, Material, Quantity, Wears},
    ids::SpotId,
    plan::Regime,
    scale::{GaugedScale, Scale},
};

/// Scatter comes from the reading itself, so the plan has none.
const BY_GAUGE: Repeatability = Repeatability::Score(0.0);

const fn sheet(id: &'static str) -> Sheet {
    Sheet {
        id,
        u_rep: BY_GAUGE,
    }
}

pub(super) const LINER_BORE: Sheet = sheet("liner_bore");
pub(super) const PROTRUSION: Sheet = sheet("protrusion");
pub(super) const IRON_BORE: Sheet = sheet("iron_bore");
pub(super) const STEEL_BORE: Sheet = sheet("steel_bore");
pub(super) const ALUMINIUM_BORE: Sheet = sheet("aluminium_bore");
pub(super) const SKIRT: Sheet = sheet("skirt");
pub(super) const GROOVE: Sheet = sheet("groove_width");
pub(super) const JOURNAL: Sheet = sheet("journal");
pub(super) const SHAFT: Sheet = sheet("shaft");
pub(super) const WALL: Sheet = sheet("wall");
pub(super) const GAP: Sheet = sheet("gap");
pub(super) const CLEARANCE: Sheet = sheet("clearance");
pub(super) const RING_MASS: Sheet = sheet("ring_mass");
pub(super) const LOBE_LIFT: Sheet = sheet("lobe_lift");

/// One size that is read.
pub(super) fn size(id: &str, scale: Sheet, weight: f64, regime: Regime) -> Row {
    look(id, scale, weight, regime)
}

/// The scales of measured sizes.
pub(super) fn all() -> [(Sheet, Scale); 14] {
    use Material::{Aluminium, Iron, Steel};
    let bore = || length(Wears::Larger).on(AXES);
    [
        (
            LINER_BORE,
            length(Wears::Larger)
                .at(&["top", "middle", "bottom"])
                .on(&["thrust", "pin"])
                .of(Iron),
        ),
        // A liner that stands too low leaks, one that stands too high breaks its flange.
        (PROTRUSION, length(Wears::Either)),
        (IRON_BORE, bore().of(Iron)),
        (STEEL_BORE, bore().of(Steel)),
        (ALUMINIUM_BORE, bore().of(Aluminium)),
        (SKIRT, length(Wears::Smaller).of(Aluminium)),
        (GROOVE, length(Wears::Larger).of(Aluminium)),
        (
            JOURNAL,
            length(Wears::Smaller)
                .at(&["front", "rear"])
                .on(AXES)
                .of(Steel),
        ),
        (SHAFT, length(Wears::Smaller).of(Steel)),
        (WALL, length(Wears::Smaller).of(Steel)),
        (GAP, length(Wears::Larger)),
        (CLEARANCE, length(Wears::Larger)),
        (
            RING_MASS,
            Gauged(GaugedScale {
                quantity: Quantity::Mass,
                ..length(Wears::Smaller).0
            }),
        ),
        (
            LOBE_LIFT,
            Gauged(GaugedScale {
                makes: Makes::Difference,
                ..length(Wears::Smaller)
                    .at(&["height", "base_circle"])
                    .of(Steel)
                    .0
            }),
        ),
    ]
    .map(|(sheet, gauged)| (sheet, Scale::Gauged(gauged.0)))
}

/// Two axes at right angles.
const AXES: &[&str] = &["vertical", "horizontal"];

struct Gauged(GaugedScale);

fn length(wears: Wears) -> Gauged {
    Gauged(GaugedScale {
        label: None,
        quantity: Quantity::Length,
        wears,
        makes: Makes::Furthest,
        stations: Vec::new(),
        axes: Vec::new(),
        material: None,
    })
}

impl Gauged {
    fn at(mut self, stations: &[&str]) -> Self {
        self.0.stations = stations.iter().map(|spot| SpotId::fixed(spot)).collect();
        self
    }

    fn on(mut self, axes: &[&str]) -> Self {
        self.0.axes = axes.iter().map(|spot| SpotId::fixed(spot)).collect();
        self
    }

    fn of(mut self, material: Material) -> Self {
        self.0.material = Some(material);
        self
    }
}
