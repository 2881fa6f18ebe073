//! The items of a plan and their fields, each with an address: what a difference, a contradiction and
//! an edit are about.

use std::fmt;

use super::{
    Axis, Characteristic, Depth, Part, Place, Regime, Repeatability, Section, TradeFigure, Trigger,
};
use crate::{
    grade::Grade,
    ids::{
        CapId, CharacteristicId, LevelId, PartId, PlaceId, PositionId, ScaleId, SectionId, StateId,
    },
    layout::Layout,
    scale::Method,
};

/// One item of a plan. Its text form has the kind and the ids, parted by `:`, which no id contains.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PlanItem {
    /// The plan itself.
    Plan,
    /// A section.
    Section(SectionId),
    /// A part.
    Part(SectionId, PartId),
    /// A place.
    Place(SectionId, PartId, PlaceId),
    /// A position.
    Position(SectionId, PartId, PlaceId, PositionId),
    /// A characteristic of a place.
    Look(SectionId, PartId, PlaceId, CharacteristicId),
    /// A scale.
    Scale(ScaleId),
    /// A whole grade of a grade table.
    Grade(ScaleId, Grade),
    /// A level of an area scale.
    Level(ScaleId, LevelId),
    /// A state of a state scale.
    State(ScaleId, StateId),
    /// A breakpoint, by its number from 0.
    Point(ScaleId, usize),
    /// A cap rule.
    Cap(CapId),
    /// The location factor of a land or groove.
    LocationFactor(CharacteristicId),
    /// A criterion, by its number from 0.
    Criterion(usize),
}

impl PlanItem {
    /// Reads the text form.
    pub fn parse(text: &str) -> Option<Self> {
        let steps: Vec<&str> = text.split(':').collect();
        Some(match *steps.as_slice() {
            ["plan"] => Self::Plan,
            ["section", section] => Self::Section(SectionId::new(section).ok()?),
            ["part", section, part] => {
                Self::Part(SectionId::new(section).ok()?, PartId::new(part).ok()?)
            }
            ["place", section, part, place] => Self::Place(
                SectionId::new(section).ok()?,
                PartId::new(part).ok()?,
                PlaceId::new(place).ok()?,
            ),
            ["position", section, part, place, position] => Self::Position(
                SectionId::new(section).ok()?,
                PartId::new(part).ok()?,
                PlaceId::new(place).ok()?,
                PositionId::new(position).ok()?,
            ),
            ["look", section, part, place, look] => Self::Look(
                SectionId::new(section).ok()?,
                PartId::new(part).ok()?,
                PlaceId::new(place).ok()?,
                CharacteristicId::new(look).ok()?,
            ),
            ["scale", scale] => Self::Scale(ScaleId::new(scale).ok()?),
            ["grade", scale, grade] => Self::Grade(
                ScaleId::new(scale).ok()?,
                *Grade::WHOLE.iter().find(|whole| whole.as_str() == grade)?,
            ),
            ["level", scale, level] => {
                Self::Level(ScaleId::new(scale).ok()?, LevelId::new(level).ok()?)
            }
            ["state", scale, state] => {
                Self::State(ScaleId::new(scale).ok()?, StateId::new(state).ok()?)
            }
            ["point", scale, number] => {
                Self::Point(ScaleId::new(scale).ok()?, number.parse().ok()?)
            }
            ["cap", rule] => Self::Cap(CapId::new(rule).ok()?),
            ["factor", look] => Self::LocationFactor(CharacteristicId::new(look).ok()?),
            ["criterion", number] => Self::Criterion(number.parse().ok()?),
            _ => return None,
        })
    }
}

impl PlanItem {
    /// What it stands in, such as the scale of a breakpoint; itself where that is the plan.
    #[must_use]
    pub fn owner(&self) -> Self {
        match self {
            Self::Part(s, _) => Self::Section(s.clone()),
            Self::Place(s, p, _) => Self::Part(s.clone(), p.clone()),
            Self::Position(s, p, place, _) | Self::Look(s, p, place, _) => {
                Self::Place(s.clone(), p.clone(), place.clone())
            }
            Self::Grade(scale, _)
            | Self::Level(scale, _)
            | Self::State(scale, _)
            | Self::Point(scale, _) => Self::Scale(scale.clone()),
            _ => self.clone(),
        }
    }

    /// A position of this place.
    #[must_use]
    pub fn position(&self, position: &PositionId) -> Self {
        match self {
            Self::Place(s, p, place) => {
                Self::Position(s.clone(), p.clone(), place.clone(), position.clone())
            }
            other => other.clone(),
        }
    }

    /// A characteristic of this place.
    pub(super) fn look(&self, look: &CharacteristicId) -> Self {
        match self {
            Self::Place(s, p, place) => {
                Self::Look(s.clone(), p.clone(), place.clone(), look.clone())
            }
            other => other.clone(),
        }
    }
}

impl Section {
    /// The section as an item of its plan.
    pub fn item(&self) -> PlanItem {
        PlanItem::Section(self.id.clone())
    }
}

impl Part {
    /// The part as an item of its plan.
    pub fn item(&self, section: &Section) -> PlanItem {
        PlanItem::Part(section.id.clone(), self.id.clone())
    }
}

impl Place {
    /// The place as an item of its plan.
    pub fn item(&self, section: &Section, part: &Part) -> PlanItem {
        PlanItem::Place(section.id.clone(), part.id.clone(), self.id.clone())
    }

    /// One of its characteristics as an item of the plan.
    pub fn look_item(&self, section: &Section, part: &Part, look: &Characteristic) -> PlanItem {
        self.item(section, part).look(&look.id)
    }
}

impl fmt::Display for PlanItem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Plan => f.write_str("plan"),
            Self::Section(s) => write!(f, "section:{s}"),
            Self::Part(s, p) => write!(f, "part:{s}:{p}"),
            Self::Place(s, p, place) => write!(f, "place:{s}:{p}:{place}"),
            Self::Position(s, p, place, at) => write!(f, "position:{s}:{p}:{place}:{at}"),
            Self::Look(s, p, place, look) => write!(f, "look:{s}:{p}:{place}:{look}"),
            Self::Scale(scale) => write!(f, "scale:{scale}"),
            Self::Grade(scale, grade) => write!(f, "grade:{scale}:{grade}"),
            Self::Level(scale, level) => write!(f, "level:{scale}:{level}"),
            Self::State(scale, state) => write!(f, "state:{scale}:{state}"),
            Self::Point(scale, number) => write!(f, "point:{scale}:{number}"),
            Self::Cap(rule) => write!(f, "cap:{rule}"),
            Self::LocationFactor(look) => write!(f, "factor:{look}"),
            Self::Criterion(number) => write!(f, "criterion:{number}"),
        }
    }
}

macro_rules! fields {
    ($($(#[$doc:meta])* $field:ident = $name:literal,)+) => {
        /// A field of an item.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Field {
            $($(#[$doc])* $field,)+
        }

        impl Field {
            /// Every field.
            pub const ALL: &[Self] = &[$(Self::$field),+];

            /// The name of the field.
            pub fn as_str(self) -> &'static str {
                match self {
                    $(Self::$field => $name,)+
                }
            }

            /// The field of that name.
            pub fn parse(name: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|field| field.as_str() == name)
            }
        }
    };
}

fields! {
    /// What the plan is called.
    Name = "name",
    /// The plan's version.
    Version = "version",
    /// How much of the strip-down the plan covers.
    Depth = "depth",
    /// The layout.
    Layout = "layout",
    /// The order of what is below.
    Order = "order",
    /// Standard uncertainty of a rater's bias.
    UBias = "u_bias",
    /// A name of the user's own.
    Label = "label",
    /// A weight.
    Weight = "weight",
    /// What positions are counted along.
    Axis = "axis",
    /// The column of a position.
    Column = "column",
    /// The scale of a characteristic.
    Scale = "scale",
    /// The lubrication regime.
    Regime = "regime",
    /// How far repeated looks scatter.
    URep = "u_rep",
    /// What kind of scale it is.
    Method = "method",
    /// Score of a grade, a state or a breakpoint.
    Score = "score",
    /// Demerit factor of a deposit level, or a location factor.
    Factor = "factor",
    /// Merit of a level.
    Merit = "merit",
    /// Percent or count of a breakpoint.
    X = "x",
    /// The size when new.
    AsNew = "as_new",
    /// The wear limit, or the failing limit of a criterion.
    Limit = "limit",
    /// The most that a capped node may score.
    Cap = "cap",
    /// The node that a cap rule holds down.
    Node = "node",
    /// Where a cap rule looks.
    Within = "within",
    /// What a cap rule looks at.
    Characteristic = "characteristic",
    /// What sets a cap rule off.
    When = "when",
    /// The trade figure of a criterion.
    Figure = "figure",
    /// The anchor of a criterion.
    Anchor = "anchor",
    /// The best credit of a criterion.
    Best = "best",
}

/// What a field holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Held {
    /// Nothing: the field is left out.
    Nothing,
    /// A figure.
    Figure(f64),
    /// A text of the author's.
    Text(String),
    /// A depth.
    Depth(Depth),
    /// A layout.
    Layout(Box<Layout>),
    /// Ids in order.
    Order(Vec<String>),
    /// An axis.
    Axis(Axis),
    /// A scale.
    Scale(ScaleId),
    /// A regime.
    Regime(Regime),
    /// A repeatability.
    Repeatability(Repeatability),
    /// A kind of scale.
    Method(Method),
    /// A section or a part, as a cap rule names it.
    Node(String),
    /// A characteristic.
    Characteristic(CharacteristicId),
    /// A trigger.
    Trigger(Trigger),
    /// A trade figure.
    TradeFigure(TradeFigure),
}
