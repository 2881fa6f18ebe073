//! The inspection plan: what is looked at, where, on which scale and with which weight.
//!
//! ```text
//! Plan ─ Section ─ Part ─ Place ─ Position        (weight of a position: its place's)
//!                            └─── Characteristic  (the same for every position of the place)
//! ```
//!
//! A plan is data and stands whole in the card: a card opened in ten years gives the same score.

mod builtin;
mod caps;
mod check;
mod choice;
mod diff;
mod edit;
mod index;
mod item;
mod order;
mod own_size;
mod rows;
mod surface;
mod tables;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

pub use builtin::builtin;
pub use check::{MOST_LEAVES, MOST_LOOKS, MOST_PROBLEMS, MOST_TEXT, PlanError, Problem, Several};
pub use diff::{Change, Difference};
pub use edit::{EditError, LONGEST_LABEL};
pub use index::{Leaf, LeafId, PlanIndex};
pub use item::{Field, Held, PlanItem};
pub use order::Way;
pub use own_size::NewSize;
pub use rows::{MOST_EACH, NewRow, Under};

#[cfg(feature = "schema")]
use crate::file::schema::Weight;
use crate::{
    grade::Grade,
    ids::{CapId, CharacteristicId, PartId, PlaceId, PositionId, ScaleId, SectionId, StateId},
    layout::Layout,
    scale::{MOST_COUNTED, Scale},
};

/// How much of the strip-down a plan covers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Depth {
    /// Everything that a heavy-duty teardown lays on the bench.
    Full,
    /// What fits into an evening in a yard.
    Short,
}

/// An inspection plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Plan {
    /// What the plan is called.
    pub name: String,
    /// Its version, as its author counts.
    pub version: String,
    /// How much of the strip-down it covers.
    pub depth: Depth,
    /// The engine it was generated for.
    pub layout: Layout,
    /// The scales, by id.
    pub scales: BTreeMap<ScaleId, Scale>,
    /// The sections in strip-down order.
    #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
    pub sections: Vec<Section>,
    /// The cap rules.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub caps: Vec<CapRule>,
    /// Standard uncertainty of a rater's bias, in score, where no rater study says better.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 10.0)))]
    pub u_bias: f64,
    /// Location factors of the weighted demerit total, by land or groove; empty means unweighted.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    #[cfg_attr(
        feature = "schema",
        schemars(with = "BTreeMap<CharacteristicId, Weight>")
    )]
    pub location_factors: BTreeMap<CharacteristicId, f64>,
    /// The user's criteria for the merit sum; empty means none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub criteria: Vec<Criterion>,
    /// Fields of a newer version of the format, kept as they came.
    #[serde(skip)]
    #[cfg_attr(feature = "schema", schemars(skip))]
    pub(crate) residue: Option<serde_json::Value>,
}

/// A section of the strip-down.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Section {
    /// Its id, such as `camshaft`.
    pub id: SectionId,
    /// A name of the user's own; built-in sections take theirs from the catalogue.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// Weight among the sections.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1e6)))]
    pub weight: f64,
    /// Its parts.
    #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
    pub parts: Vec<Part>,
}

/// A part within a section.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Part {
    /// Its id, such as `lobes`.
    pub id: PartId,
    /// A name of the user's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// Weight among the section's parts.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1e6)))]
    pub weight: f64,
    /// Its places.
    #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
    pub places: Vec<Place>,
}

/// What the positions of a place are counted along.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Axis {
    /// One for each cylinder.
    Cylinder,
    /// One for each main bearing.
    Main,
    /// One for each camshaft bearing.
    CamBearing,
    /// One for each of some other numbered or named things: heads, gears, turbochargers.
    Each,
    /// Just one.
    Single,
}

/// One kind of place on a part: a row of positions along the engine, all looked at in the same way.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Place {
    /// Its id, such as `lobe/exhaust`.
    pub id: PlaceId,
    /// A name of the user's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// What its positions are counted along.
    pub axis: Axis,
    /// Weight of each of its positions among the part's positions.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1e6)))]
    pub weight: f64,
    /// The positions from front to rear.
    #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
    pub positions: Vec<Position>,
    /// What is looked at in each of them.
    #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
    pub looks: Vec<Characteristic>,
}

/// One position.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Position {
    /// Its id, such as `cyl2/lobe/exhaust`.
    pub id: PositionId,
    /// Its column on the wear map: `2`, `L3`, `front`; empty for a single position.
    pub column: String,
}

/// How the surfaces are parted by oil.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Regime {
    /// Asperities carry the load.
    Boundary,
    /// Oil and asperities share it.
    Mixed,
    /// A full film carries it.
    FullFilm,
    /// Not a lubricated contact.
    None,
}

/// How far one rater's repeated looks scatter (one standard uncertainty).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Repeatability {
    /// In points of the score, 0 to 10.
    Score(#[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 10.0)))] f64),
    /// In points of percent of area or extent, carried through the slope of the scale.
    Percent(#[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 100.0)))] f64),
    /// In counts, carried through the slope of the scale.
    Count(#[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1000.0)))] f64),
}

/// What is looked at in a place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Characteristic {
    /// Its id, such as `pitted`.
    pub id: CharacteristicId,
    /// A name of the user's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// The scale it is rated on.
    pub scale: ScaleId,
    /// Weight among the position's characteristics.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1e6)))]
    pub weight: f64,
    /// Its lubrication regime.
    pub regime: Regime,
    /// How far repeated looks scatter.
    pub u_rep: Repeatability,
    /// For a size: what is rated by eye on the same surface, one of the same place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub same_surface: Option<CharacteristicId>,
}

/// A rule that holds a node down whatever its mean says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CapRule {
    /// Its id, such as `lobe_pitted`.
    pub id: CapId,
    /// A name of the user's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// The node held down: a section (`camshaft`) or a part (`camshaft/lobes`).
    pub node: String,
    /// The most it may score, 0 to 10.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 10.0)))]
    pub cap: f64,
    /// Where to look: a section or a part.
    pub within: String,
    /// Which characteristic to look at.
    pub characteristic: CharacteristicId,
    /// What sets it off.
    pub when: Trigger,
}

/// What sets a cap rule off. Any rater's current look does.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Trigger {
    /// A grade this bad or worse.
    GradeAtLeast(Grade),
    /// An extent above this percentage.
    PercentOver(#[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 100.0)))] f64),
    /// A count above this.
    CountOver(#[cfg_attr(feature = "schema", schemars(range(min = 0)))] i64),
    /// One of these states.
    StateIn(Vec<StateId>),
}

impl Trigger {
    /// Whether any look could set it off: none is above the top of its scale.
    pub fn can_be_met(&self) -> bool {
        match self {
            Self::GradeAtLeast(_) => true,
            Self::PercentOver(percent) => *percent < 100.0,
            Self::CountOver(count) => *count < MOST_COUNTED,
            Self::StateIn(states) => !states.is_empty(),
        }
    }
}

/// A trade figure that a criterion may be set on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum TradeFigure {
    /// Mean weighted demerit total of the pistons.
    WeightedDemerits,
    /// Mean top groove fill, percent.
    TopGrooveFill,
    /// Mean heavy carbon on the top land, percent.
    TopLandHeavyCarbon,
    /// Mean sludge merit.
    SludgeMerit,
    /// Mean varnish merit.
    VarnishMerit,
    /// Mean ring face distress demerit.
    RingDistress,
}

impl TradeFigure {
    /// Every figure.
    pub const ALL: [Self; 6] = [
        Self::WeightedDemerits,
        Self::TopGrooveFill,
        Self::TopLandHeavyCarbon,
        Self::SludgeMerit,
        Self::VarnishMerit,
        Self::RingDistress,
    ];

    /// The name as the file writes it.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::WeightedDemerits => "weighted_demerits",
            Self::TopGrooveFill => "top_groove_fill",
            Self::TopLandHeavyCarbon => "top_land_heavy_carbon",
            Self::SludgeMerit => "sludge_merit",
            Self::VarnishMerit => "varnish_merit",
            Self::RingDistress => "ring_distress",
        }
    }

    /// The figure of that name.
    pub fn parse(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|figure| figure.as_str() == name)
    }
}

/// A user's criterion on a trade figure: anchor, failing limit, best credit and weight.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Criterion {
    /// The figure.
    pub figure: TradeFigure,
    /// Merits earned at the anchor.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1e6)))]
    pub weight: f64,
    /// The value that earns just the weight.
    pub anchor: f64,
    /// The value past which the criterion fails.
    pub limit: f64,
    /// The value that earns twice the weight.
    pub best: f64,
}

impl Plan {
    /// The scale of that name; every name in a checked plan has one.
    pub fn scale(&self, id: &ScaleId) -> Option<&Scale> {
        self.scales.get(id)
    }

    /// Every place with its section and part, in strip-down order.
    pub fn places(&self) -> impl Iterator<Item = (&Section, &Part, &Place)> {
        self.sections.iter().flat_map(|section| {
            section
                .parts
                .iter()
                .flat_map(move |part| part.places.iter().map(move |place| (section, part, place)))
        })
    }

    /// Whether a characteristic is read with a gauge rather than rated by eye.
    pub fn is_gauged(&self, look: &Characteristic) -> bool {
        matches!(self.scale(&look.scale), Some(Scale::Gauged(_)))
    }

    /// How many ratings by eye the plan asks for.
    pub fn rating_count(&self) -> usize {
        self.leaf_count() - self.measurement_count()
    }

    /// How many sizes the plan asks to be read with a gauge.
    pub fn measurement_count(&self) -> usize {
        self.places()
            .map(|(.., place)| {
                let gauged = place.looks.iter().filter(|look| self.is_gauged(look));
                place.positions.len() * gauged.count()
            })
            .sum()
    }

    /// How many ratings and measurements the plan asks for.
    pub fn leaf_count(&self) -> usize {
        self.places()
            .map(|(.., place)| place.positions.len() * place.looks.len())
            .sum()
    }
}
