//! Cautions where hands are at risk: on the Bench beside the part, and on the Card.
//!
//! They point out; they do not teach. The engine maker's manual, local rules and licensed people
//! decide.

use super::{Words, catalogue::words};

words! {
    /// Cautions, each a line.
    Cautions {
        title = "Mind your hands";
        reuse = "Whether a part may run again is for the engine maker's manual, local rules and licensed people, not for this card";
        used_oil = "Used oil harms the skin and can cause cancer: gloves on, no oily rags in pockets, wash with soap, not with fuel or solvent";
        air = "No compressed air at people, nor for cleaning beyond 2 bar (30 psi) with guard and goggles";
        dust = "Old carbon and soot: wipe wet, no dry brushing, no blowing. Gaskets of old engines may hold asbestos";
        solvents = "Solvents: fresh air, a closed washer, no flame; read the safety sheet";
        lifting = "Lift with a rated sling or hoist, and never stand or reach under the load";
        turning = "Before hands go in: battery off, starter and air locked out. Someone else may turn the engine";
        springs = "Valve and injector springs hold force: goggles, and the proper compressor";
        pressure = "Fuel rails and accumulators keep their pressure: release it first";
        edges_rings = "Ring edges cut like a razor: cut-proof gloves, and the ring pliers";
        edges_liners = "The worn upper edge of a liner cuts: cut-proof gloves, and never lift a liner by it";
        circlips = "Pin circlips fly: goggles, and a hand over the bore";
        shells = "Shell edges cut, and lining metal holds lead: gloves, wash before you eat";
        wheels = "Turbocharger blades cut, and a hot housing burns: let it cool, never turn it by air";
        filter = "A filter cut open has burred edges and drips used oil";
        waste = "Used oil, rags and filters go into the labelled drum, not into the drain";
    }
}

impl Words {
    /// The cautions of a section, by its id; those of the whole engine for none. A section of a
    /// user's own has the general ones too.
    pub fn cautions(&self, section: Option<&str>) -> Vec<&'static str> {
        let c = &self.cautions;
        match section {
            Some("top_deck") => vec![c.used_oil, c.lifting, c.dust],
            Some("rocker_gear" | "followers") => vec![c.turning, c.springs],
            Some("camshaft" | "gear_train") => vec![c.turning, c.lifting],
            Some("valves") => vec![c.springs, c.lifting, c.dust],
            Some("liners") => vec![c.edges_liners, c.lifting],
            Some("pistons") => vec![c.turning, c.circlips, c.dust],
            Some("rings") => vec![c.edges_rings],
            Some("pins_and_rods") => vec![c.circlips, c.turning],
            Some("rod_bearings" | "main_bearings") => vec![c.turning, c.shells],
            Some("crankshaft") => vec![c.lifting],
            Some("oil_system") => vec![c.filter, c.used_oil, c.waste],
            Some("turbocharger") => vec![c.wheels],
            Some("seals") => vec![c.used_oil],
            _ => self.general_cautions(),
        }
    }

    /// The cautions of the whole job.
    pub fn general_cautions(&self) -> Vec<&'static str> {
        let c = &self.cautions;
        vec![
            c.used_oil, c.turning, c.lifting, c.springs, c.pressure, c.solvents, c.air, c.dust,
            c.waste,
        ]
    }
}
