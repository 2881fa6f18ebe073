//! What an engine is made of: the facts from which its positions are generated.

use serde::{Deserialize, Serialize};

/// How the cylinders stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Arrangement {
    /// One row, numbered 1, 2, 3 … from the front.
    Inline,
    /// Two banks, left and right seen from the flywheel, each numbered from the front: L1 … R1 ….
    Vee,
}

/// Where the camshafts lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Camshaft {
    /// One camshaft on each head or bank, working the rockers directly.
    Overhead,
    /// Two camshafts on each head or bank.
    DoubleOverhead,
    /// In the block, working through followers and pushrods.
    InBlock,
}

/// How a rocker or a valve bridge meets its lobe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Follower {
    /// A roller on a pin.
    Roller,
    /// A sliding face: a slipper or a flat tappet.
    Sliding,
}

/// What the piston runs in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Liner {
    /// A liner with coolant on its outside.
    Wet,
    /// A liner pressed into the block.
    Dry,
    /// The block itself.
    ParentBore,
}

/// The layout of one engine.
///
/// Everything else about positions follows from it, by the built-in plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(extend(
    "if" = { "properties": { "arrangement": { "const": "vee" } } },
    "then" = { "properties": { "cylinders": { "minimum": 4, "multipleOf": 2 } } },
)))]
pub struct Layout {
    /// How the cylinders stand.
    pub arrangement: Arrangement,
    /// How many cylinders in all.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 24)))]
    pub cylinders: u8,
    /// Where the camshafts lie.
    pub camshaft: Camshaft,
    /// How the rocker or tappet meets the lobe.
    pub follower: Follower,
    /// Intake valves in each cylinder.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 3)))]
    pub intake_valves: u8,
    /// Exhaust valves in each cylinder.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 3)))]
    pub exhaust_valves: u8,
    /// Whether each cylinder has a lobe and a rocker that work its injector.
    pub injector_lobes: bool,
    /// Whether each cylinder has a lobe of its own for the engine brake.
    pub brake_lobes: bool,
    /// What the piston runs in.
    pub liner: Liner,
    /// Compression rings on each piston; one oil ring comes on top of these.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 4)))]
    pub compression_rings: u8,
    /// Main bearings.
    #[cfg_attr(feature = "schema", schemars(range(min = 2, max = 25)))]
    pub mains: u8,
    /// Whether each cylinder has a head of its own, rather than one head a bank.
    pub single_cylinder_heads: bool,
    /// Turbochargers.
    #[cfg_attr(feature = "schema", schemars(range(min = 0, max = 4)))]
    pub turbochargers: u8,
}

/// A layout that no engine can have.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{field} is {given}: allowed is {allowed}")]
pub struct LayoutError {
    /// The field of the layout.
    pub field: &'static str,
    /// What it holds.
    pub given: u8,
    /// What it may hold.
    pub allowed: &'static str,
}

impl Layout {
    /// An inline six with one overhead camshaft, four valves a cylinder, injector lobes and wet liners.
    pub fn inline_six() -> Self {
        Self {
            arrangement: Arrangement::Inline,
            cylinders: 6,
            camshaft: Camshaft::Overhead,
            follower: Follower::Roller,
            intake_valves: 2,
            exhaust_valves: 2,
            injector_lobes: true,
            brake_lobes: false,
            liner: Liner::Wet,
            compression_rings: 2,
            mains: 7,
            single_cylinder_heads: false,
            turbochargers: 1,
        }
    }

    /// A V8 with its camshaft in the block, followers and pushrods, and a head for each cylinder.
    pub fn vee_eight() -> Self {
        Self {
            arrangement: Arrangement::Vee,
            cylinders: 8,
            camshaft: Camshaft::InBlock,
            injector_lobes: false,
            mains: 5,
            single_cylinder_heads: true,
            ..Self::inline_six()
        }
    }

    /// The usual number of main bearings: one beside every crank throw.
    pub fn usual_mains(arrangement: Arrangement, cylinders: u8) -> u8 {
        match arrangement {
            Arrangement::Inline => cylinders.saturating_add(1),
            Arrangement::Vee => cylinders / 2 + 1,
        }
    }

    /// Banks: one, or two for a V.
    pub fn banks(&self) -> u8 {
        match self.arrangement {
            Arrangement::Inline => 1,
            Arrangement::Vee => 2,
        }
    }

    /// The cylinders' names from front to rear, bank by bank: `1` … or `L1` … `R1` ….
    pub fn cylinder_names(&self) -> Vec<String> {
        match self.arrangement {
            Arrangement::Inline => (1..=self.cylinders).map(|n| n.to_string()).collect(),
            Arrangement::Vee => ["L", "R"]
                .iter()
                .flat_map(|bank| (1..=self.cylinders / 2).map(move |n| format!("{bank}{n}")))
                .collect(),
        }
    }

    /// Refuses what no engine has.
    ///
    /// # Errors
    ///
    /// [`LayoutError`] with the field and what it may hold.
    pub fn check(&self) -> Result<(), LayoutError> {
        let within = |field, given: u8, low: u8, high: u8, allowed| {
            if (low..=high).contains(&given) {
                Ok(())
            } else {
                Err(LayoutError {
                    field,
                    given,
                    allowed,
                })
            }
        };
        within("cylinders", self.cylinders, 1, 24, "1 to 24")?;
        if self.arrangement == Arrangement::Vee && (self.cylinders < 4 || self.cylinders % 2 == 1) {
            return Err(LayoutError {
                field: "cylinders",
                given: self.cylinders,
                allowed: "an even number from 4 to 24 for a V",
            });
        }
        within("intake_valves", self.intake_valves, 1, 3, "1 to 3")?;
        within("exhaust_valves", self.exhaust_valves, 1, 3, "1 to 3")?;
        within("compression_rings", self.compression_rings, 1, 4, "1 to 4")?;
        within("mains", self.mains, 2, 25, "2 to 25")?;
        within("turbochargers", self.turbochargers, 0, 4, "0 to 4")
    }
}
